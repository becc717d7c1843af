//! `kerfwise check`: dimensions with their working, what is still to be measured, areas, weights.

use super::deliver::deliver;
use crate::arguments::CheckArguments;
use crate::arguments::SheetFormat;
use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::input;
use crate::input::Input;
use crate::products;
use crate::sending;
use crate::terminal;
use kerfwise::checks::SheetSize;
use kerfwise::design::part::Part;
use kerfwise::documents::check;
use kerfwise::documents::inspection;
use kerfwise::formats::json;
use kerfwise::formats::text;
use kerfwise::sheet::Document;

pub(crate) fn run(arguments: &CheckArguments) -> Result<Outcome, Failure> {
    let sheet = arguments.sheet.as_deref().map(sending::sheet).transpose()?;
    let input = input::load(&arguments.shared)?
        .with_tools(arguments.tools.as_ref())?
        .on_sheet(sheet);
    let parts = match &arguments.shared.part {
        Some(_) => input.parts(&arguments.shared)?,
        None => input.design.resolved.parts.iter().collect(),
    };
    let mut document = match arguments.format {
        Some(_) => check::with_pictures(&input.design, &parts, &input.stamp),
        None => check::check(&input.design, &parts, &input.stamp),
    };
    let wrong = before_sending(arguments, &input, (&parts, sheet), &mut document)?;
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
    (parts, sheet): (&[&Part], Option<SheetSize>),
    document: &mut Document,
) -> Result<bool, Failure> {
    if arguments.process.is_none() && sheet.is_none() {
        return Ok(false);
    }
    let known = input::processes(arguments.processes.as_deref())?;
    let process = sending::process(arguments.process.as_deref(), &known)?;
    let mut wrong = false;
    for part in parts {
        let limits = sending::limits(part, process);
        let looked = inspection::before_sending(part, None, &limits, sheet, input.stamp.unit);
        document.blocks.extend(looked.blocks());
        wrong |= looked.has_errors();
    }
    Ok(wrong)
}
