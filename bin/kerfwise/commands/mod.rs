//! One file a command.

mod check;
mod cut;
mod deliver;
mod draw;
mod job;
mod mark;
mod pattern;
mod printer;
mod processes;

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
        Command::Job(arguments) => job::run(arguments),
        Command::Processes(arguments) => processes::run(arguments),
        Command::Schema => {
            terminal::say(&kerfwise::design::json_schema());
            Ok(Outcome::Fine)
        }
    }
}
