//! From a design file and its dimensions to parts: a pure function of the values.
//!
//! Stages: plates (`plates`); for each part its outline (`outline`), openings (`openings`),
//! marks and scribed lines (`lines`); mirror images and shared openings (`kinship`); then the
//! region is checked. All faults are collected, not the first.

mod amounts;
pub mod fault;
mod holes;
mod kinship;
mod lines;
mod moved;
mod names;
mod openings;
mod outline;
mod part;
mod plates;
mod sources;

pub use fault::PartFault;

use super::dimensions::Dimensions;
use super::error::DesignError;
use super::error::Sink;
use super::file::DesignFile;
use super::part::Part;
use super::part::Plate;
use amounts::Amounts;

/// The parts of a design, built.
#[derive(Clone, Debug, Default)]
pub struct Resolved {
    /// Its parts, in the order of the file. Empty while a dimension that they need is undecided.
    pub parts: Vec<Part>,
    /// Its plates, in the order of the file.
    pub plates: Vec<Plate>,
    /// What was found on the way: notices, and values outside their own limits.
    pub findings: Vec<DesignError>,
}

/// Builds the parts of a design.
///
/// # Errors
/// Every fault found, in the order of the file.
pub fn resolve(file: &DesignFile, dimensions: &Dimensions) -> Result<Resolved, Vec<DesignError>> {
    resolve_near(file, dimensions, &[])
}

/// As [`resolve`], for values that are only a little other than those that `parts` were built with: the arcs along
/// fair curves meet at the same stations, so that whatever is measured changes smoothly with the values. An edge
/// that moved too far for that gets arcs of its own.
///
/// # Errors
/// As [`resolve`].
pub fn resolve_near(
    file: &DesignFile,
    dimensions: &Dimensions,
    parts: &[Part],
) -> Result<Resolved, Vec<DesignError>> {
    let mut sink = Sink::new();
    let mut amounts = Amounts::new(dimensions, &mut sink).following(parts);
    let plates = plates::plates(file, &mut amounts);
    let parts = kinship::parts(file, &plates, &mut amounts);
    let mut findings = std::mem::take(&mut amounts.findings);
    if sink.has_errors() {
        return Err(sink.into_errors());
    }
    findings.extend(sink.into_errors());
    Ok(Resolved {
        parts,
        plates,
        findings,
    })
}
