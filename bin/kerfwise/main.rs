//! The command `kerfwise`: arguments, files, terminal and exit codes. All the rest is the library's.

mod arguments;
mod commands;
mod exit_code;
mod failure;
mod files;
mod input;
mod lengths;
mod products;
mod terminal;

use clap::Parser;
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments = arguments::Arguments::parse();
    match commands::run(&arguments.command) {
        Ok(outcome) => outcome.into(),
        Err(failure) => {
            terminal::failure(&failure);
            failure.outcome().into()
        }
    }
}
