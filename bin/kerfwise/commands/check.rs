//! `kerfwise check`: dimensions with their working, what is still to be measured, areas, weights.

use super::deliver::deliver;
use super::inspect;
use crate::arguments::CheckArguments;
use crate::arguments::SheetFormat;
use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::input;
use crate::input::Input;
use crate::products;
use crate::terminal;
use kerfwise::checks::Limits;
use kerfwise::design::part::Part;
use kerfwise::documents::check;
use kerfwise::documents::inspection;
use kerfwise::formats::json;
use kerfwise::formats::text;
use kerfwise::sheet::Document;
use kerfwise::trade::processes::Processes;

pub(crate) fn run(arguments: &CheckArguments) -> Result<Outcome, Failure> {
    let input = input::load(&arguments.shared)?.with_tools(arguments.tools.as_ref())?;
    let parts = match &arguments.shared.part {
        Some(_) => input.parts(&arguments.shared)?,
        None => input.design.resolved.parts.iter().collect(),
    };
    let mut document = match arguments.format {
        Some(_) => check::with_pictures(&input.design, &parts, &input.stamp),
        None => check::check(&input.design, &parts, &input.stamp),
    };
    let wrong = before_sending(arguments, &input, &parts, &mut document)?;
    if let Some(format) = arguments.format {
        write(arguments, &input, &document, format)?;
        if !arguments.shared.json {
            input.tell_findings();
        }
    } else if arguments.output.out.is_some() {
        let said = "--out needs a format: add --format pdf or html";
        return Err(Failure::Said(said.to_owned()));
    } else if arguments.shared.json {
        terminal::say(&json::write(&document, &input.facts())?);
    } else {
        terminal::say(&text::write(&document, terminal::width()));
        input.tell_findings();
    }
    Ok(if wrong {
        Outcome::Findings
    } else {
        input.outcome()
    })
}

/// Writes the check into a file.
fn write(
    arguments: &CheckArguments,
    input: &Input,
    document: &Document,
    format: SheetFormat,
) -> Result<(), Failure> {
    let stem = format!("{}-check", input.stem(&arguments.shared));
    let what = "dimensions, limits, areas and weights".to_owned();
    let paper = products::paper(&arguments.paper)?;
    let product = products::sheet(document, &stem, what, format, &paper)?;
    deliver(input, &arguments.shared, &arguments.output, &[product])?;
    Ok(())
}

/// Adds what a shop would find, where a way of cutting or a sheet is named; whether something is of error
/// grade.
fn before_sending(
    arguments: &CheckArguments,
    input: &Input,
    parts: &[&Part],
    document: &mut Document,
) -> Result<bool, Failure> {
    if arguments.process.is_none() && arguments.sheet.is_none() {
        return Ok(false);
    }
    let known = Processes::default();
    let process = match &arguments.process {
        Some(name) => Some(known.find(name).map_err(Failure::said)?),
        None => None,
    };
    let sheet = arguments.sheet.as_deref().map(inspect::sheet).transpose()?;
    let mut wrong = false;
    for part in parts {
        let thickness = part.plate.as_ref().and_then(|plate| plate.thickness);
        let limits = process.map_or_else(Limits::default, |process| {
            inspection::of_process(process, thickness.unwrap_or(0.0))
        });
        let unit = input.stamp.unit;
        let (blocks, errors) = inspection::before_sending(part, &limits, sheet, unit);
        document.blocks.extend(blocks);
        wrong |= errors;
    }
    Ok(wrong)
}
