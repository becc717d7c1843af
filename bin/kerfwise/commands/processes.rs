//! `kerfwise processes`: the known ways of cutting, to read or as a file to edit.

use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::files;
use crate::files::Replace;
use crate::input;
use crate::kerf_arguments::ProcessesArguments;
use crate::terminal;
use kerfwise::design::processes;
use kerfwise::documents::kerf;
use kerfwise::formats::json;
use kerfwise::formats::text;

pub(crate) fn run(arguments: &ProcessesArguments) -> Result<Outcome, Failure> {
    let known = input::processes(arguments.processes.as_deref())?;
    if let Some(path) = &arguments.out {
        let replace = if arguments.replace {
            Replace::Any
        } else {
            Replace::OwnOnly
        };
        files::write(path, processes::to_file(&known).as_bytes(), replace)?;
        terminal::wrote(
            path,
            "the known ways of cutting, to edit; give it with --processes",
        );
        return Ok(Outcome::Fine);
    }
    let document = kerf::processes(&known);
    if arguments.json {
        terminal::say(&json::write(&document, &serde_json::Map::new())?);
    } else {
        terminal::say(&text::write(&document, terminal::width()));
    }
    Ok(Outcome::Fine)
}
