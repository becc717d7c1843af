//! The command `kerfwise`: arguments, files, terminal and exit codes. All the rest is the library's.
#![expect(
    clippy::print_stdout,
    clippy::print_stderr,
    reason = "a command talks to its terminal; only `terminal` does"
)]

mod arguments;
mod commands;
mod exit_code;
mod files;
mod input;
mod terminal;

use clap::Parser;
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments = arguments::Arguments::parse();
    match commands::run(&arguments) {
        Ok(code) => code.into(),
        Err(failure) => {
            terminal::failure(&failure);
            exit_code::Outcome::CouldNot.into()
        }
    }
}
