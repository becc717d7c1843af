//! The inspection record of a finished part, and the empty form for it.
//!
//! What was read comes first, then each reading beside its limit with their difference, and only then
//! what can be said.

mod csv;
mod filing;
mod form;
mod heading;
mod rounds;
mod uncertainty;
mod values;
mod verdicts;

pub use self::csv::empty as empty_csv;
pub use self::csv::filled as readings_csv;
pub use form::form;

use super::Stamp;
use super::reading;
use crate::design::Design;
use crate::measures::How;
use crate::measures::inspection::Inspection;
use crate::measures::inspection::Item;
use crate::sheet::Block;
use crate::sheet::Document;

/// The record of an inspection.
pub fn record(inspection: &Inspection, design: &Design, stamp: &Stamp) -> Document {
    let mut blocks = vec![Block::Table(heading::of_record(inspection, design, stamp))];
    blocks.push(Block::Table(verdicts::readings(inspection)));
    blocks.push(Block::Table(verdicts::comparison(inspection)));
    blocks.push(Block::Paragraph(verdicts::summary(inspection)));
    let follows = verdicts::what_follows(inspection);
    if !follows.is_empty() {
        blocks.push(Block::Heading("What follows".to_owned()));
        blocks.push(Block::List(follows));
    }
    let missing: Vec<String> = inspection
        .missing()
        .map(|item| format!("{} {}: {}", item.number, item.name, how(item)))
        .collect();
    if !missing.is_empty() {
        blocks.push(Block::Heading("Not measured".to_owned()));
        blocks.push(Block::List(missing));
    }
    blocks.push(Block::Table(heading::signatures()));
    blocks.push(Block::Caution(heading::DECIDES.to_owned()));
    blocks.push(Block::Table(uncertainty::table(inspection)));
    Document {
        title: title("Inspection record", stamp),
        footer: footer(stamp),
        blocks,
    }
}

/// Where and how an item is measured.
pub fn how(item: &Item) -> String {
    let way = item
        .taken
        .as_ref()
        .filter(|taken| taken.how != How::Straight || taken.jaws.is_some())
        .map(|taken| format!(", {}", reading::how_taken(taken, item.unit)));
    format!("{}{}", item.place_words, way.unwrap_or_default())
}

/// How an item is measured, and which of two figures to name where it ends at a rounding.
pub fn how_to_read(item: &Item) -> String {
    let two =
        rounds::both_ways(item).map(|ways| format!("; write what you read, and which: {ways}"));
    format!("{}{}", how(item), two.unwrap_or_default())
}

fn title(what: &str, stamp: &Stamp) -> String {
    if stamp.design.is_empty() {
        what.to_owned()
    } else {
        format!("{what}: {}", stamp.design)
    }
}

fn footer(stamp: &Stamp) -> String {
    format!("{} · {}", stamp.design, stamp.line())
}
