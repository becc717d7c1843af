//! Readings of finished parts: from a file, or typed in row by row.

use crate::failure::Failure;
use crate::files;
use crate::terminal;
use kerfwise::design::Design;
use kerfwise::design::Override;
use kerfwise::design::Place;
use kerfwise::design::Source;
use kerfwise::design::SourceKind;
use kerfwise::documents::record;
use kerfwise::measures::TakenKind;
use kerfwise::measures::inspection;
use kerfwise::measures::inspection::Item;
use kerfwise::measures::readings;
use kerfwise::measures::readings::ItemReadings;
use kerfwise::measures::readings::typed;
use kerfwise::measures::uncertainty::Means;
use std::path::Path;

/// The rows of the form of a design.
pub(crate) fn items(source: &Source, design: &Design) -> Result<Vec<Item>, Failure> {
    inspection::items(design).map_err(|errors| Failure::Design {
        source_text: Box::new(source.clone()),
        errors,
    })
}

/// The readings in a file.
pub(crate) fn from_file(
    path: &Path,
    items: &[Item],
    fingerprint: &str,
) -> Result<(Source, Vec<ItemReadings>), Failure> {
    let text = files::read_text(path)?;
    let source = Source::with_kind(path.to_string_lossy(), text, SourceKind::Toml);
    match readings::read(source.text(), items, fingerprint) {
        Ok(readings) => Ok((source, readings)),
        Err(errors) => Err(Failure::Readings {
            source_text: Box::new(source),
            errors,
        }),
    }
}

/// What the dimensions of a made part came out at.
pub(crate) fn as_made(
    path: &Path,
    source: &Source,
    design: &Design,
) -> Result<Vec<Override>, Failure> {
    let items = items(source, design)?;
    let (text, taken) = from_file(path, &items, &design.fingerprint)?;
    readings::as_made(&items, &taken, &design.dimensions).map_err(|errors| Failure::Readings {
        source_text: Box::new(text),
        errors,
    })
}

/// The instrument that `--with` names.
pub(crate) fn instrument(text: &str, items: &[Item]) -> Result<Means, Failure> {
    let length = items.iter().find(|item| item.kind == TakenKind::Length);
    let Some(item) = length.or(items.first()) else {
        return Err(Failure::Said(format!(
            "--with {text}: there is nothing to measure"
        )));
    };
    readings::means(text, item).map_err(|fault| Failure::Said(format!("--with {text}: {fault}")))
}

/// Asks for the readings of all rows. What was typed is the source of what is said about it.
pub(crate) fn ask(
    items: &[Item],
    wanted: impl Fn(&Item) -> bool,
    with: Option<String>,
) -> (Source, Vec<ItemReadings>) {
    let asked = items.iter().filter(|item| wanted(item)).count();
    terminal::aside(&format!(
        "{asked} rows. Type what you read and press Enter: one reading, or several with spaces between \
         them; nothing for a row that is not measured; `with` and the instrument behind it where it \
         is {}; q to end.",
        with.map_or_else(
            || "not named by --with".to_owned(),
            |with| format!("not a {with}")
        )
    ));
    let mut text = String::new();
    let mut taken = Vec::new();
    for (index, item) in items.iter().enumerate() {
        if !wanted(item) {
            continue;
        }
        let Some(typed) = ask_row(item) else {
            break;
        };
        if typed.1.readings.is_empty() {
            continue;
        }
        let start = text.len();
        text.push_str(&typed.0);
        let place = Place::new(start, text.len());
        text.push('\n');
        taken.push(ItemReadings {
            item: index,
            readings: typed.1.readings,
            reached: typed.1.reached,
            means: typed.1.means,
            temperature: None,
            notes: Vec::new(),
            place,
        });
    }
    let source = Source::with_kind("what was typed", text, SourceKind::Toml);
    (source, taken)
}

/// Asks for one row until what is typed is clear; `None` to end.
fn ask_row(item: &Item) -> Option<(String, typed::Typed)> {
    let expected = item.expected.map_or_else(String::new, |expected| {
        format!(", expect {}", item.shown(expected))
    });
    let question = format!(
        "{} {}: {}{expected}: ",
        item.number,
        item.name,
        record::how_to_read(item)
    );
    loop {
        let line = terminal::ask(&question)?;
        if line.eq_ignore_ascii_case("q") {
            return None;
        }
        match typed::line(&line, item) {
            Ok(typed) => return Some((line, typed)),
            Err(error) => terminal::aside(&format!("  {}\n  {}", error.fault, error.help)),
        }
    }
}
