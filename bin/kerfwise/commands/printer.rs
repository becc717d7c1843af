//! `kerfwise printer`: the calibration page of a printer, and what its readings come to.

use super::deliver::Naming;
use super::deliver::write_all;
use super::deliver::written;
use crate::arguments::PrinterArguments;
use crate::exit_code::Outcome;
use crate::failure::Failure;
use crate::files;
use crate::products;
use crate::terminal;
use kerfwise::documents::pattern::Correction;
use kerfwise::documents::pattern::PatternOptions;
use kerfwise::documents::pattern::Printer;
use kerfwise::documents::pattern::Readings;
use kerfwise::documents::pattern::calibration_page;
use std::path::Path;

pub(crate) fn run(arguments: &PrinterArguments) -> Result<Outcome, Failure> {
    let paper = products::printed_on(arguments.roll, arguments.one_page, &arguments.paper)?;
    let mut options = PatternOptions::new(paper);
    options.margin = arguments.margin;
    let product = match readings(arguments)? {
        None => products::calibration_page(&options, &asked(arguments))?,
        Some(read) => {
            let page = calibration_page(&options).map_err(Failure::said)?;
            let correction =
                Correction::from_readings(&arguments.name, page.paper, page.asked, read)
                    .map_err(Failure::said)?;
            products::correction(&correction, &options.paper)?
        }
    };
    let naming = Naming {
        beside: Path::new("printer"),
        tried: "",
    };
    let products = [product];
    let paths = write_all(&naming, &arguments.output, &products)?;
    if arguments.json {
        let report = serde_json::json!({
            "kerfwise": env!("CARGO_PKG_VERSION"),
            "written": written(&products, &paths),
        });
        terminal::say(&format!("{report:#}"));
        return Ok(Outcome::Fine);
    }
    for (product, path) in products.iter().zip(&paths) {
        terminal::wrote(path, &product.what);
    }
    Ok(Outcome::Fine)
}

/// The arguments that say which paper, to be given again with the readings.
fn asked(arguments: &PrinterArguments) -> String {
    match arguments.roll {
        Some(width) => format!("--roll {width}"),
        None if arguments.one_page => "--one-page".to_owned(),
        None => format!("--paper {}", arguments.paper),
    }
}

/// The four readings: all of them or none.
fn readings(arguments: &PrinterArguments) -> Result<Option<Readings>, Failure> {
    let named = [
        ("--x", arguments.x),
        ("--y", arguments.y),
        ("--rising", arguments.rising),
        ("--falling", arguments.falling),
    ];
    let missing: Vec<_> = named
        .iter()
        .filter(|(_, reading)| reading.is_none())
        .map(|&(name, _)| name)
        .collect();
    if missing.len() == named.len() {
        return Ok(None);
    }
    let (Some(x), Some(y), Some(rising), Some(falling)) = (
        arguments.x,
        arguments.y,
        arguments.rising,
        arguments.falling,
    ) else {
        return Err(Failure::Said(format!(
            "all four lines of the calibration page are needed; {} not given: measure again and give \
             all four",
            match missing.as_slice() {
                [one] => format!("{one} is"),
                several => format!("{} are", several.join(", ")),
            }
        )));
    };
    Ok(Some(Readings {
        x,
        y,
        rising,
        falling,
    }))
}

/// What is known of the printer, from the file that was kept.
pub(super) fn known(path: Option<&Path>) -> Result<Printer, Failure> {
    let Some(path) = path else {
        return Ok(Printer::TakenAsTrue);
    };
    let text = files::read_text(path)?;
    let correction: Correction = serde_json::from_str(&text).map_err(|error| {
        Failure::Said(format!(
            "{} is not a printer file: {error}; make one with `kerfwise printer` and its readings",
            path.display()
        ))
    })?;
    correction
        .error()
        .map_err(|error| Failure::Said(format!("{}: {error}", path.display())))?;
    Ok(Printer::Measured(correction))
}
