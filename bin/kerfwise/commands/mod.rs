//! One file a command.

mod check;
mod cut;
mod deliver;
mod draw;
mod inspect;
mod job;
mod kerf;
mod mark;
mod measure;
mod pattern;
mod printer;
mod processes;
mod trial_cut;

use crate::arguments::Command;
use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::terminal;

/// Does what was asked.
pub(crate) fn run(command: &Command) -> Result<Outcome, Failure> {
    match command {
        Command::Check(arguments) => check::run(arguments),
        Command::Draw(arguments) => draw::run(arguments),
        Command::Pattern(arguments) => pattern::run(arguments),
        Command::Printer(arguments) => printer::run(arguments),
        Command::Cut(arguments) => cut::run(arguments),
        Command::Mark(arguments) => mark::run(arguments),
        Command::Inspect(arguments) => inspect::run(arguments),
        Command::Measure(arguments) => measure::run(arguments),
        Command::Job(arguments) => job::run(arguments),
        Command::Kerf(arguments) => kerf::run(arguments),
        Command::TrialCut(arguments) => trial_cut::run(arguments),
        Command::Processes(arguments) => processes::run(arguments),
        Command::Schema => {
            terminal::say(&kerfwise::design::json_schema());
            Ok(Outcome::Fine)
        }
    }
}
