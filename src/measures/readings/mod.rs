//! Readings of a finished part: typed line by line, or in a table of comma-separated values by the
//! numbers of the form. Nothing is guessed: what is unclear is refused with its place.

mod as_made;
mod columns;
mod fault;
mod lines;
mod number;
mod reached;
mod suspicion;
mod table;
pub mod typed;

pub use as_made::as_made;
pub use fault::ReadingError;
pub use fault::ReadingFault;
pub use reached::Reached;
pub use suspicion::Suspicion;
pub use suspicion::suspect;
pub use table::read;

use super::inspection::Item;
use super::uncertainty::Means;
use super::uncertainty::MeansFault;
use crate::design::Place;

/// The mark behind a reading or a row number that confirms what looks like a slip.
pub const CONFIRMED: char = '!';

/// The way out where an instrument is not known.
const MEANS_HELP: &str = "name one that is known here (a tape by its class, steel rule, calliper, \
                          micrometer), or state what it may be off by, such as `depth gauge ±0.05 mm`";

/// One reading.
#[derive(Clone, Debug, PartialEq)]
pub struct Reading {
    /// Its value, in millimetres, radians, mm² or kilograms.
    pub value: f64,
    /// As it was written.
    pub written: String,
    /// Where it stands among the readings.
    pub place: Place,
}

/// The readings of one item.
#[derive(Clone, Debug, PartialEq)]
pub struct ItemReadings {
    /// Which item of the form, counted from 0.
    pub item: usize,
    /// Its readings, in the order taken.
    pub readings: Vec<Reading>,
    /// Which of two figures they are, where the row ends at a rounding and that was said.
    pub reached: Option<Reached>,
    /// With what they were taken, if that was said.
    pub means: Option<Means>,
    /// The temperature in °C, if that was said.
    pub temperature: Option<f64>,
    /// Remarks.
    pub notes: Vec<String>,
    /// Where they stand.
    pub place: Place,
}

/// With what an item is measured, as a person says it.
///
/// # Errors
/// [`MeansFault`].
pub fn means(text: &str, item: &Item) -> Result<Means, MeansFault> {
    Means::parse(text, |size| number::parse(size, None, item).ok())
}

#[cfg(test)]
mod tests;
