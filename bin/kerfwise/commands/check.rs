//! `kerfwise check`: dimensions with their working, what is still to be measured, areas, weights.

use crate::arguments::CheckArguments;
use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::input;
use crate::terminal;
use kerfwise::documents::check;
use kerfwise::formats::json;
use kerfwise::formats::text;

pub(crate) fn run(arguments: &CheckArguments) -> Result<Outcome, Failure> {
    let input = input::load(&arguments.shared)?.with_tools(arguments.tools.as_ref())?;
    let parts = match &arguments.shared.part {
        Some(_) => input.parts(&arguments.shared)?,
        None => input.design.resolved.parts.iter().collect(),
    };
    let document = check::check(&input.design, &parts, &input.stamp);
    if arguments.shared.json {
        terminal::say(&json::write(&document, &input.facts())?);
    } else {
        terminal::say(&text::write(&document, terminal::width()));
        input.tell_findings();
    }
    Ok(input.outcome())
}
