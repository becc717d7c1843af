//! From a design file and its dimensions to parts: a pure function of the values.
//!
//! Stages: plates ([`plates`]); for each part its outline ([`outline`]), openings ([`openings`]),
//! marks and scribed lines ([`lines`]); mirror images and shared openings ([`kinship`]); then the
//! region is checked. All faults are collected, not the first.

mod amounts;
pub mod fault;
mod kinship;
mod lines;
mod names;
mod openings;
mod outline;
mod part;
mod plates;
mod sources;

pub use fault::PartFault;

use super::dimensions::Dimensions;
use super::error::DesignError;
use super::error::Severity;
use super::error::Sink;
use super::file::DesignFile;
use super::part::Part;
use super::part::Plate;
use crate::geometry::LengthUnit;
use amounts::Amounts;

/// A design with its parts built.
#[derive(Clone, Debug)]
pub struct Resolved {
    /// Its title; empty if the file has none.
    pub title: String,
    /// The unit it is written in, and shown in.
    pub unit: LengthUnit,
    /// Its parts, in the order of the file. Empty while a dimension that they need is undecided.
    pub parts: Vec<Part>,
    /// Its plates, in the order of the file.
    pub plates: Vec<Plate>,
    /// Things to know that are no faults.
    pub notices: Vec<DesignError>,
}

/// Builds the parts of a design.
///
/// # Errors
/// Every fault found, in the order of the file.
pub fn resolve(file: &DesignFile, dimensions: &Dimensions) -> Result<Resolved, Vec<DesignError>> {
    let mut sink = Sink::default();
    let mut amounts = Amounts::new(dimensions, &mut sink);
    let plates = plates::plates(file, &mut amounts);
    let parts = kinship::parts(file, &plates, &mut amounts);
    let (notices, faults): (Vec<_>, Vec<_>) =
        sink.into_errors().into_iter().partition(|error| error.severity == Severity::Notice);
    if !faults.is_empty() {
        return Err(faults);
    }
    let title = file.title.as_ref().map(|title| title.value.clone()).unwrap_or_default();
    Ok(Resolved { title, unit: file.units.length_unit(), parts, plates, notices })
}
