//! Readings typed for one item at a time.

use super::CONFIRMED;
use super::Reached;
use super::Reading;
use super::ReadingError;
use super::ReadingFault;
use super::means;
use super::number;
use super::reached;
use super::suspect;
use crate::design::Place;
use crate::measures::TakenKind;
use crate::measures::inspection::Item;
use crate::measures::uncertainty::Means;

/// What a person typed for one item.
#[derive(Clone, Debug, PartialEq)]
pub struct Typed {
    /// The readings; none if it is not measured.
    pub readings: Vec<Reading>,
    /// Which of two figures they are, if that was typed too.
    pub reached: Option<Reached>,
    /// With what, if that was typed too.
    pub means: Option<Means>,
}

/// The word between readings and instrument.
const WITH: &str = " with ";

/// A line typed for `item`: one reading, or several with `;` or spaces between them, and if wanted
/// `over the rounds` or `to the sharp corner`, and `with` and the instrument. An empty line has none.
///
/// # Errors
/// What is no reading, no way of reading this row or no instrument, and what looks like a slip and is not confirmed with `!`
/// behind it.
pub fn line(line: &str, item: &Item) -> Result<Typed, ReadingError> {
    let (before, instrument) = match line.split_once(WITH) {
        Some((before, instrument)) => (before, Some(instrument)),
        None => (line, None),
    };
    let (before, reached) = way(before, item)?;
    let mut readings = Vec::new();
    for (start, piece) in pieces(&before) {
        let place = Place::new(start, start + piece.len());
        readings.push(reading(piece, None, (item, reached), place)?);
    }
    let means = instrument
        .map(|instrument| {
            means(instrument, item).map_err(|fault| {
                let place = Place::new(line.len() - instrument.len(), line.len());
                ReadingError::new(fault, place, super::MEANS_HELP)
            })
        })
        .transpose()?;
    Ok(Typed {
        readings,
        reached,
        means,
    })
}

/// Which of two figures a line says that it is, and the line with blanks in place of that.
fn way(line: &str, item: &Item) -> Result<(String, Option<Reached>), ReadingError> {
    let found = reached::WAYS
        .into_iter()
        .find_map(|(words, _)| Some((words, line.find(words)?)));
    let Some((words, start)) = found else {
        return Ok((line.to_owned(), None));
    };
    let place = Place::new(start, start + words.len());
    let reached = Reached::parse(words, item)
        .map_err(|fault| ReadingError::new(fault, place, reached::help(item)))?;
    let blanks = " ".repeat(words.len());
    Ok((line.replacen(words, &blanks, 1), Some(reached)))
}

/// One reading of an item, refused if it looks like a slip and is not confirmed.
pub(super) fn reading(
    text: &str,
    unit: Option<&str>,
    (item, reached): (&Item, Option<Reached>),
    place: Place,
) -> Result<Reading, ReadingError> {
    let text = text.trim();
    let (bare, confirmed) = match text.strip_suffix(CONFIRMED) {
        Some(bare) => (bare.trim(), true),
        None => (text, false),
    };
    let value = number::parse(bare, unit, item).map_err(|fault| {
        let help = help_for(&fault, item);
        ReadingError::new(fault, place, help)
    })?;
    let suspicions: Vec<_> = Reached::expected(reached, item)
        .into_iter()
        .map(|expected| (expected, suspect(value, expected)))
        .collect();
    let is_one = suspicions.iter().any(|(_, suspicion)| suspicion.is_none());
    if let (false, false, Some(&(expected, Some(suspicion)))) =
        (confirmed, is_one, suspicions.first())
    {
        let fault = ReadingFault::Suspected {
            number: item.number,
            name: item.name.clone(),
            read: item.shown(value),
            expected: item.shown(expected),
            suspicion: suspicion.to_string(),
        };
        let other = match item.kind {
            TakenKind::Length => suspicion.unit(item.unit),
            _ => None,
        };
        let unit = other.map_or_else(String::new, |other| {
            format!(
                "write its unit behind it if it is `{bare} {}`; ",
                other.symbol()
            )
        });
        let help = format!(
            "{unit}if it is right, confirm it with `{CONFIRMED}` behind it: `{text}{CONFIRMED}`"
        );
        return Err(ReadingError::new(fault, place, help));
    }
    Ok(Reading {
        value,
        written: bare.to_owned(),
        place,
    })
}

/// Pieces between `;`, each with its offset; plain numbers with spaces between them are several too.
fn pieces(line: &str) -> Vec<(usize, &str)> {
    let mut found = Vec::new();
    let mut start = 0;
    for piece in line.split(';') {
        let is_plain = |word: &str| {
            word.trim_end_matches(CONFIRMED)
                .chars()
                .all(|c| c.is_ascii_digit() || c == '.' || c == ',')
        };
        if piece.split_whitespace().all(is_plain) {
            let mut from = 0;
            for word in piece.split_whitespace() {
                let at = piece
                    .get(from..)
                    .and_then(|rest| rest.find(word))
                    .map_or(from, |at| from + at);
                from = at + word.len();
                found.push((start + at, word));
            }
        } else {
            let trimmed = piece.trim_start();
            found.push((start + piece.len() - trimmed.len(), trimmed.trim_end()));
        }
        start += piece.len() + 1;
    }
    found
}

fn help_for(fault: &ReadingFault, item: &Item) -> String {
    match fault {
        ReadingFault::TwoMarks { .. } => {
            "write one decimal mark, point or comma, and nothing between thousands".to_owned()
        }
        ReadingFault::TwoUnits { .. } => "leave one of the two units out".to_owned(),
        ReadingFault::NotPositive { .. } => "measure again".to_owned(),
        _ => format!(
            "write a number in {}, or one with its unit{}",
            item.unit_symbol(),
            match item.kind {
                TakenKind::Length => ": `884.5`, `884,5 mm`, `34-13/16 in`",
                _ => "",
            }
        ),
    }
}
