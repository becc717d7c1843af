//! `kerfwise trial-cut`: a piece to cut first, and the kerf that its readings say.

use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::files;
use crate::files::Replace;
use crate::input;
use crate::kerf_arguments::TrialCutArguments;
use crate::products;
use crate::terminal;
use kerfwise::design::Design;
use kerfwise::design::Source;
use kerfwise::documents::Stamp;
use kerfwise::documents::kerf;
use kerfwise::formats::json;
use kerfwise::formats::text;
use kerfwise::shop::kerf::trial_cut;
use kerfwise::shop::kerf::trial_cut::Readings;
use std::path::Path;
use std::path::PathBuf;

pub(crate) fn run(arguments: &TrialCutArguments) -> Result<Outcome, Failure> {
    match &arguments.readings {
        Some(path) => evaluate(arguments, path),
        None => write(arguments),
    }
}

/// Says the kerf by the readings.
fn evaluate(arguments: &TrialCutArguments, path: &Path) -> Result<Outcome, Failure> {
    let known = input::processes(arguments.processes.as_deref())?;
    let process = known.find(&arguments.process).map_err(Failure::said)?;
    let said =
        |fault: trial_cut::ReadingFault| Failure::Said(format!("{}: {fault}", path.display()));
    let readings = Readings::read(&files::read_text(path)?).map_err(said)?;
    let found = trial_cut::fit(&readings).map_err(said)?;
    let by = arguments.by.as_deref().unwrap_or("trial cut");
    let on = arguments.on.as_deref().unwrap_or("");
    let document = kerf::trial_result(&process.key, &readings, &found, by, on);
    if arguments.json {
        let facts = serde_json::json!({
            "process": process.key,
            "kerf": found.kerf,
            "kerf_uncertainty": found.kerf_uncertainty,
            "spread": found.spread,
            "scale": found.scale,
            "taper": found.taper,
        });
        let facts = facts.as_object().cloned().unwrap_or_default();
        terminal::say(&json::write(&document, &facts)?);
    } else {
        terminal::say(&text::write(&document, terminal::width()));
    }
    Ok(Outcome::Fine)
}

/// Writes the cut file, the form and the table for the readings.
fn write(arguments: &TrialCutArguments) -> Result<Outcome, Failure> {
    let source = Source::new("trial cut", trial_cut::DESIGN);
    let design = Design::load(&source, &[]).map_err(|errors| Failure::Design {
        source_text: Box::new(source),
        errors,
    })?;
    let stamp = Stamp::of(&design);
    let parts = &design.resolved.parts;
    let part = parts
        .first()
        .ok_or_else(|| Failure::Said("the trial cut has no part".to_owned()))?;
    let products = products::trial_cut(part, &stamp)?;
    let folder = arguments.out.clone().unwrap_or_else(|| PathBuf::from("."));
    let replace = if arguments.replace {
        Replace::Any
    } else {
        Replace::OwnOnly
    };
    for product in &products {
        files::check_free(&folder.join(&product.name), replace)?;
    }
    for product in &products {
        let path = folder.join(&product.name);
        files::write(&path, &product.bytes, replace)?;
        terminal::wrote(&path, &product.what);
    }
    Ok(Outcome::Fine)
}
