//! The command `kerfwise`: arguments, files, terminal and exit codes. All the rest is the library's.

mod arguments;
mod commands;
mod cut_products;
mod exit_code;
mod failure;
mod files;
mod input;
mod inspect_arguments;
mod kerf_arguments;
mod lengths;
mod products;
mod readings;
mod sending;
mod terminal;
mod told;
mod tool_path_arguments;
mod tool_paths;

use clap::Parser;
use std::process::ExitCode;

fn main() -> ExitCode {
    let arguments = arguments::Arguments::parse();
    match commands::run(&arguments.command) {
        Ok(outcome) => outcome.into(),
        Err(failure) => {
            // a program reads standard output, also when nothing came of it
            if arguments.command.in_json() {
                terminal::say(&told::failure(&failure));
            }
            terminal::failure(&failure);
            failure.outcome().into()
        }
    }
}
