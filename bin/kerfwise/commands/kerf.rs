//! `kerfwise kerf`: kerf allowances side by side.

use super::deliver::deliver;
use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::input;
use crate::input::Input;
use crate::kerf_arguments::KerfArguments;
use crate::kerf_arguments::KerfFormat;
use crate::products;
use crate::terminal;
use kerfwise::design::DesignError;
use kerfwise::documents::kerf::Compared;
use kerfwise::formats::json;
use kerfwise::formats::text;
use kerfwise::shop::kerf::Standing;
use kerfwise::shop::kerf::Wanted;
use kerfwise::trade::Processes;

pub(crate) fn run(arguments: &KerfArguments) -> Result<Outcome, Failure> {
    let input = input::load(&arguments.shared)?;
    let known = input::processes(arguments.processes.as_deref())?;
    let wanted = wanted(arguments, &known)?;
    let mut compared = Vec::new();
    for part in input.parts(&arguments.shared)? {
        let one = Compared::new(&input.design, part, &wanted, &known.currency)
            .map_err(|error| Failure::said(format!("--kerf: {error}")))?;
        compared.push(one);
    }
    if let Some(format) =
        arguments
            .format
            .or(arguments.output.out.as_ref().map(|_| KerfFormat::Html))
    {
        let files: Result<Vec<_>, _> = compared
            .iter()
            .map(|one| products::kerf(one, &input.stamp, format))
            .collect();
        let files: Vec<_> = files?.into_iter().flatten().collect();
        deliver(&input, &arguments.shared, &arguments.output, &files)?;
    } else {
        say(arguments, &input, &compared)?;
    }
    Ok(outcome(arguments, &input, &compared))
}

fn say(arguments: &KerfArguments, input: &Input, compared: &[Compared<'_>]) -> Result<(), Failure> {
    for one in compared {
        let document = if arguments.detail || arguments.shared.json {
            one.document(&input.stamp).map_err(Failure::said)?
        } else {
            one.summary(&input.stamp)
        };
        if arguments.shared.json {
            terminal::say(&json::write(&document, &input.facts())?);
        } else {
            terminal::say(&text::write(&document, terminal::width()));
        }
    }
    Ok(())
}

/// The ways of cutting asked for, each with each kerf asked for; all that are known if none is named.
fn wanted<'a>(arguments: &KerfArguments, known: &'a Processes) -> Result<Vec<Wanted<'a>>, Failure> {
    let mut processes = Vec::new();
    for name in &arguments.process {
        processes.push(known.find(name).map_err(Failure::said)?);
    }
    if arguments.process.is_empty() {
        if !arguments.kerf.is_empty() {
            return Err(Failure::Said(
                "--kerf goes with the process that has it: add --process, e.g. --process waterjet"
                    .to_owned(),
            ));
        }
        processes.extend(&known.all);
    }
    let mut wanted = Vec::new();
    for process in processes {
        if arguments.kerf.is_empty() {
            let kerf = None;
            wanted.push(Wanted { process, kerf });
        }
        for &kerf in &arguments.kerf {
            let kerf = Some(kerf);
            wanted.push(Wanted { process, kerf });
        }
    }
    Ok(wanted)
}

/// What was asked for by name and does not fit is a finding; of all that are known, one that fits is
/// enough.
fn outcome(arguments: &KerfArguments, input: &Input, compared: &[Compared<'_>]) -> Outcome {
    let mut findings: Vec<DesignError> = Vec::new();
    let mut all_fit = true;
    for one in compared {
        let fits = |standing: Standing| standing <= Standing::FitsWithCare;
        all_fit &= one.found.iter().any(|found| fits(found.standing));
        if !arguments.process.is_empty() {
            findings.extend(one.too_narrow());
            all_fit &= one.found.iter().all(|found| fits(found.standing));
        }
    }
    if !arguments.shared.json {
        input.tell_errors();
        terminal::findings(&input.source, &findings);
    }
    if all_fit {
        input.outcome()
    } else {
        Outcome::Findings
    }
}
