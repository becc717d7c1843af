//! `kerfwise measure`: the finished part against its limits, and the form to be filled in.

use super::deliver::deliver;
use crate::arguments::Claims;
use crate::arguments::MeasureArguments;
use crate::arguments::MeasureFormat;
use crate::arguments::SheetFormat;
use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::files;
use crate::files::Replace;
use crate::input;
use crate::input::Input;
use crate::products;
use crate::products::Product;
use crate::readings;
use crate::terminal;
use kerfwise::design::Source;
use kerfwise::design::part::Part;
use kerfwise::documents::record;
use kerfwise::formats::json;
use kerfwise::formats::text;
use kerfwise::measures::inspection;
use kerfwise::measures::inspection::Inspection;
use kerfwise::measures::inspection::Item;
use kerfwise::measures::inspection::Rules;
use kerfwise::measures::readings::ItemReadings;
use kerfwise::measures::uncertainty::Means;
use kerfwise::measures::verdict::Claimant;
use kerfwise::measures::verdict::Verdict;
use kerfwise::sheet::Document;

pub(crate) fn run(arguments: &MeasureArguments) -> Result<Outcome, Failure> {
    let input = input::load(&arguments.shared)?;
    input.refuse_unfit(if arguments.form {
        "a form to be filled in"
    } else {
        "an inspection record"
    })?;
    let items = readings::items(&input.source, &input.design)?;
    if items.is_empty() {
        let said = "nothing in the design is to be measured: give dimensions a `measure`, or the part \
                    a `limit`";
        return Err(Failure::Said(said.to_owned()));
    }
    let parts = input.parts(&arguments.shared)?;
    let wanted = |item: &Item| parts.iter().any(|part| part.name == item.part);
    if !items.iter().any(wanted) {
        return Err(Failure::Said(nothing_to_measure(&parts)));
    }
    if arguments.form {
        let items: Vec<&Item> = items.iter().filter(|item| wanted(item)).collect();
        return form(arguments, &input, &items);
    }
    let rules = rules(arguments, &items)?;
    let (source, readings) = match &arguments.readings {
        Some(path) => readings::from_file(path, &items, &input.design.fingerprint)?,
        None => typed(arguments, &input, &items, &rules)?,
    };
    let mut inspection = inspection::inspect(&items, &readings, &rules).map_err(|errors| {
        let source_text = Box::new(source);
        Failure::Readings {
            source_text,
            errors,
        }
    })?;
    inspection.items.retain(|inspected| wanted(&inspected.item));
    let document = record::record(&inspection, &input.design, &input.stamp);
    say(arguments, &input, &document, "record")?;
    Ok(outcome(&inspection))
}

/// Why there is no form for parts of a design that has one for others.
fn nothing_to_measure(parts: &[&Part]) -> String {
    let names: Vec<String> = parts
        .iter()
        .map(|part| format!("`{}`", part.name))
        .collect();
    let first = parts.first().map_or("NAME", |part| part.name.as_str());
    format!(
        "nothing of {} is to be measured: give a dimension of it a `measure` with `part = \"{first}\"`, or \
         write a `[[part.{first}.limit]]`; without --part there is the form of the whole design",
        names.join(", ")
    )
}

/// A limit that is broken is told by the exit code too.
fn outcome(inspection: &Inspection) -> Outcome {
    if inspection.count(Verdict::DoesNotConform) > 0 {
        Outcome::Findings
    } else {
        Outcome::Fine
    }
}

fn form(arguments: &MeasureArguments, input: &Input, items: &[&Item]) -> Result<Outcome, Failure> {
    if arguments.format == Some(MeasureFormat::Csv) {
        let product = Product {
            name: format!("{}-form.csv", input.stem(&arguments.shared)),
            what: format!("form of {} rows, to be filled in", items.len()),
            bytes: record::empty_csv(items.iter().copied(), &input.stamp).into_bytes(),
        };
        return deliver(input, &arguments.shared, &arguments.output, &[product]);
    }
    let document = record::form(items, &input.design, &input.stamp);
    say(arguments, input, &document, "form")
}

/// A document on the terminal, as JSON, or into a file.
fn say(
    arguments: &MeasureArguments,
    input: &Input,
    document: &Document,
    what: &'static str,
) -> Result<Outcome, Failure> {
    let format = match arguments.format {
        Some(MeasureFormat::Pdf) => SheetFormat::Pdf,
        Some(MeasureFormat::Html) => SheetFormat::Html,
        Some(MeasureFormat::Csv) => {
            let said = "a record is no table of readings: leave --format out, or add --form for the \
                        empty form";
            return Err(Failure::Said(said.to_owned()));
        }
        None if arguments.output.out.is_some() => {
            let said = "--out needs a format: add --format pdf, html or (with --form) csv";
            return Err(Failure::Said(said.to_owned()));
        }
        None if arguments.shared.json => {
            terminal::say(&json::write(document, &input.facts())?);
            return Ok(input.outcome());
        }
        None => {
            terminal::say(&text::write(document, terminal::width()));
            return Ok(input.outcome());
        }
    };
    let (ending, words) = match what {
        "form" => ("form", "form to be filled in while measuring"),
        _ => ("record", "inspection record"),
    };
    let stem = format!("{}-{ending}", input.stem(&arguments.shared));
    let paper = products::paper(&arguments.paper)?;
    let product = products::sheet(document, &stem, words.to_owned(), format, &paper)?;
    deliver(input, &arguments.shared, &arguments.output, &[product])
}

fn rules(arguments: &MeasureArguments, items: &[Item]) -> Result<Rules, Failure> {
    if !(arguments.guard >= 0.0 && arguments.guard.is_finite()) {
        return Err(Failure::Said(format!(
            "--guard {} cannot be: it is how many standard uncertainties the limits are drawn in by, \
             2 unless changed",
            arguments.guard
        )));
    }
    let with = |text: &String| readings::instrument(text, items);
    Ok(Rules {
        claimant: match arguments.claims {
            Claims::Maker => Claimant::Maker,
            Claims::Inspector => Claimant::Inspector,
        },
        guard: arguments.guard,
        means: arguments.with.as_ref().map(with).transpose()?,
        temperature: arguments.temperature,
    })
}

/// Readings typed in, row by row.
fn typed(
    arguments: &MeasureArguments,
    input: &Input,
    items: &[Item],
    rules: &Rules,
) -> Result<(Source, Vec<ItemReadings>), Failure> {
    let wanted = |item: &Item| {
        let part = arguments.shared.part.as_ref();
        part.is_none_or(|part| *part == item.part)
    };
    let (source, readings) = readings::ask(items, wanted, rules.means.as_ref().map(Means::words));
    if readings.is_empty() {
        let said = "nothing was measured: type a reading for at least one row, or give a file of \
                    readings";
        return Err(Failure::Said(said.to_owned()));
    }
    if let Some(path) = &arguments.keep {
        let mut kept = readings.clone();
        for taken in &mut kept {
            taken.means = taken.means.take().or_else(|| rules.means.clone());
            taken.temperature = taken.temperature.or(rules.temperature);
        }
        let text = record::readings_csv(items, &kept, &input.stamp);
        let replace = if arguments.output.replace {
            Replace::Any
        } else {
            Replace::OwnOnly
        };
        files::write(path, text.as_bytes(), replace)?;
        terminal::aside(&format!("kept the readings in {}", path.display()));
    }
    Ok((source, readings))
}
