//! What the command's exit code means.

use std::process::ExitCode;

/// How a command ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Outcome {
    /// All is well; open or undecided things were told as notices.
    Fine,
    /// The design was read, and something in it is wrong.
    Findings,
    /// The command could not do what was asked.
    CouldNot,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        Self::from(match outcome {
            Outcome::Fine => 0,
            Outcome::Findings => 1,
            Outcome::CouldNot => 2,
        })
    }
}
