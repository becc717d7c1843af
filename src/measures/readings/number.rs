//! A reading as a person writes it: either decimal mark, fractions, a unit or none.

use super::ReadingFault;
use crate::design::error::ExpressionFault;
use crate::design::expression;
use crate::design::expression::Kind;
use crate::design::expression::Quantity;
use crate::design::expression::Scope;
use crate::geometry::LengthUnit;
use crate::measures::TakenKind;
use crate::measures::inspection::Item;

/// Symbols of mass with their kilograms. A pound is 0.45359237 kg exactly.
const MASSES: [(&str, f64); 4] = [
    ("kg", 1.0),
    ("lb", 0.453_592_37),
    ("oz", 0.453_592_37 / 16.0),
    ("g", 0.001),
];

/// Ways to write a square behind a unit of length.
const SQUARES: [&str; 3] = ["2", "²", "^2"];

/// Whether a word in the column of units is a unit.
pub(super) fn is_unit(word: &str) -> bool {
    let length = |word: &str| LengthUnit::from_symbol(word).is_some();
    let square = || {
        SQUARES
            .iter()
            .any(|square| word.strip_suffix(square).is_some_and(length))
    };
    length(word)
        || matches!(word, "deg" | "°" | "\"" | "″")
        || MASSES.iter().any(|(symbol, _)| *symbol == word)
        || square()
}

/// Numbers without names.
struct NoNames(LengthUnit);

impl Scope for NoNames {
    fn unit(&self) -> LengthUnit {
        self.0
    }

    fn value(&self, _: &str) -> Option<Quantity> {
        None
    }

    fn names(&self) -> Vec<&str> {
        Vec::new()
    }
}

/// The value of a reading of `item`; `unit` is that of its column, the item's own if there is none.
///
/// # Errors
/// [`ReadingFault`] without a place.
pub(super) fn parse(text: &str, unit: Option<&str>, item: &Item) -> Result<f64, ReadingFault> {
    let text = text.trim();
    let plain = one_mark(text)?;
    let has_unit = plain.ends_with(|last: char| !last.is_ascii_digit() && last != '.');
    let unit = unit.map(str::trim).filter(|unit| !unit.is_empty());
    let plain = match (has_unit, unit) {
        (true, None) => plain,
        (false, unit) => format!("{plain} {}", unit.unwrap_or(item.unit_symbol())),
        (true, Some(unit)) if plain.ends_with(unit) => plain,
        (true, Some(unit)) => {
            return Err(ReadingFault::TwoUnits {
                written: text.to_owned(),
                unit: unit.to_owned(),
            });
        }
    };
    let plain = spelled(&plain);
    let value = match item.kind {
        TakenKind::Length => expression_of(&plain, text, Kind::LENGTH, item)?,
        TakenKind::Angle => expression_of(&plain, text, Kind::Angle, item)?,
        TakenKind::Area => area(&plain, text, item)?,
        TakenKind::Number => number(&plain, text)?,
        TakenKind::Weight => MASSES
            .iter()
            .find_map(|(symbol, kilograms)| {
                Some(number(plain.strip_suffix(symbol)?, text).map(|value| value * kilograms))
            })
            .ok_or_else(|| wrong_unit(text, item))??,
    };
    if value <= 0.0 && item.expected.is_none_or(|expected| expected > 0.0) {
        return Err(ReadingFault::NotPositive {
            written: text.to_owned(),
            name: item.name.clone(),
        });
    }
    Ok(value)
}

/// The number with a decimal point, whichever mark it had.
fn one_mark(text: &str) -> Result<String, ReadingFault> {
    let commas = text.matches(',').count();
    if commas > 0 && (commas > 1 || text.contains('.')) {
        return Err(ReadingFault::TwoMarks {
            written: text.to_owned(),
        });
    }
    Ok(text.replace(',', "."))
}

/// Signs for units as words, and `34 13/16` as the mixed number that it is.
fn spelled(text: &str) -> String {
    let text = text.replace(['"', '″', '”'], " in").replace('°', " deg");
    let mut words: Vec<String> = text.split_whitespace().map(str::to_owned).collect();
    let is_whole = |word: &str| !word.is_empty() && word.chars().all(|c| c.is_ascii_digit());
    let mut at = 0;
    while at + 1 < words.len() {
        let fraction = words.get(at + 1).is_some_and(|next| {
            next.split_once('/')
                .is_some_and(|(over, under)| is_whole(over) && is_whole(under))
        });
        if fraction && words.get(at).is_some_and(|word| is_whole(word)) {
            let next = words.remove(at + 1);
            if let Some(word) = words.get_mut(at) {
                *word = format!("{word}-{next}");
            }
        }
        at += 1;
    }
    words.join(" ")
}

fn expression_of(
    plain: &str,
    written: &str,
    wanted: Kind,
    item: &Item,
) -> Result<f64, ReadingFault> {
    let scope = NoNames(item.unit);
    let quantity = expression::parse(plain)
        .and_then(|term| expression::evaluate(&term, plain, &scope))
        .map_err(|error| ReadingFault::NotANumber {
            written: written.to_owned(),
            why: Box::new(error.fault),
        })?;
    if quantity.kind != wanted || !quantity.value.is_finite() {
        return Err(wrong_unit(written, item));
    }
    Ok(quantity.value)
}

fn area(plain: &str, written: &str, item: &Item) -> Result<f64, ReadingFault> {
    let bare = SQUARES
        .iter()
        .find_map(|square| plain.strip_suffix(square))
        .ok_or_else(|| wrong_unit(written, item))?;
    // the longest symbol first: `mm` ends in `m` too
    let mut units = LengthUnit::ALL;
    units.sort_by_key(|unit| std::cmp::Reverse(unit.symbol().len()));
    let (value, side) = units
        .iter()
        .find_map(|unit| Some((bare.strip_suffix(unit.symbol())?, unit.millimetres())))
        .ok_or_else(|| wrong_unit(written, item))?;
    Ok(number(value, written)? * side * side)
}

/// A plain decimal number.
fn number(plain: &str, written: &str) -> Result<f64, ReadingFault> {
    let plain = plain.trim();
    let is_decimal = plain.chars().all(|c| c.is_ascii_digit() || c == '.');
    plain
        .parse()
        .ok()
        .filter(|value: &f64| is_decimal && value.is_finite())
        .ok_or_else(|| ReadingFault::NotANumber {
            written: written.to_owned(),
            why: Box::new(ExpressionFault::BadNumber {
                written: plain.to_owned(),
            }),
        })
}

fn wrong_unit(written: &str, item: &Item) -> ReadingFault {
    ReadingFault::WrongUnit {
        written: written.to_owned(),
        what: item.kind.noun(),
    }
}
