//! Kerf allowances side by side, and the ways of cutting that they are of.
//!
//! The first page answers in one look: which ways of cutting keep every limit, and what happens if the
//! shop does not compensate, or both do. Behind it stand the figures, only those that kerf changes.

mod chart;
mod detail;
mod enlarged;
mod outlines;
mod processes;
mod summary;
mod trial;
mod words;

#[cfg(test)]
mod tests;

pub use processes::processes;
pub use trial::form as trial_form;
pub use trial::readings_form;
pub use trial::result as trial_result;

use super::Stamp;
use crate::design::Design;
use crate::design::DesignError;
use crate::design::error::ProcessFault;
use crate::design::part::Part;
use crate::geometry::LengthUnit;
use crate::sheet::Document;
use crate::sheet::Figure;
use crate::sheet::number::trimmed;
use crate::shop::kerf;
use crate::shop::kerf::Asked;
use crate::shop::kerf::Case;
use crate::shop::kerf::Comparison;
use crate::shop::kerf::Judged;
use crate::shop::kerf::KerfError;
use crate::shop::kerf::Room;
use crate::shop::kerf::Wanted;
use crate::shop::kerf::WhatIsLost;
use crate::trade::Material;
use crate::trade::materials;

/// Thickness in millimetres taken for a plate that states none.
const USUAL_THICKNESS: f64 = 6.0;

/// Kerf allowances compared for one part.
#[derive(Debug)]
pub struct Compared<'a> {
    /// The part.
    pub part: &'a Part,
    /// What it is judged by.
    pub judged: Vec<Judged>,
    /// How far the cut may be off.
    pub room: Room,
    /// The ways of cutting, the best first.
    pub found: Vec<Comparison>,
    material: Option<&'static Material>,
    thickness: f64,
    chart: Vec<chart::Track>,
    currency: String,
}

impl<'a> Compared<'a> {
    /// Compares ways of cutting for a part of a design; `currency` is the money of their rates.
    ///
    /// # Errors
    /// As [`kerf::compare()`].
    pub fn new(
        design: &Design,
        part: &'a Part,
        wanted: &[Wanted<'_>],
        currency: &str,
    ) -> Result<Self, KerfError> {
        let plate = part.plate.as_ref();
        let material = plate.and_then(|plate| materials::find(&plate.material).ok());
        let thickness = plate
            .and_then(|plate| plate.thickness)
            .unwrap_or(USUAL_THICKNESS);
        let judged = kerf::judged(design, part);
        let dimensions = &design.dimensions;
        let asked = Asked {
            part,
            judged: &judged,
            dimensions,
            material,
            thickness,
        };
        let found = kerf::compare(&asked, wanted)?;
        let room = kerf::room(part, &judged, dimensions)?;
        let chart = chart::tracks(part, &judged, dimensions, &found)?;
        Ok(Self {
            part,
            judged,
            room,
            found,
            material,
            thickness,
            chart,
            currency: currency.to_owned(),
        })
    }

    /// The first page: one line a way of cutting.
    pub fn summary(&self, stamp: &Stamp) -> Document {
        Document {
            title: self.title(stamp),
            footer: stamp.line(),
            blocks: summary::blocks(self, stamp.unit),
        }
    }

    /// All of it: the first page, the figures behind it, and the pictures.
    ///
    /// # Errors
    /// [`KerfError`] where a shape for a picture cannot be certified.
    pub fn document(&self, stamp: &Stamp) -> Result<Document, KerfError> {
        let mut document = self.summary(stamp);
        document.blocks.extend(detail::blocks(self, stamp.unit));
        for figure in self.figures(stamp.unit)? {
            document.blocks.push(crate::sheet::Block::Figure(figure));
        }
        Ok(document)
    }

    /// The pictures: outlines as cut over the outline as drawn, with the places where they differ most
    /// enlarged; and every limit against the kerf.
    ///
    /// # Errors
    /// [`KerfError`] where a shape cannot be certified.
    pub fn figures(&self, unit: LengthUnit) -> Result<Vec<Figure>, KerfError> {
        let mut figures = Vec::new();
        if let Some(best) = self.compared().next() {
            figures.push(outlines::figure(self.part, best, unit)?);
        }
        figures.extend(chart::figure(&self.chart, self.found.as_slice(), unit));
        Ok(figures)
    }

    /// The openings in which a cut that was asked for has no room, each with its place, its size and a
    /// way out.
    pub fn too_narrow(&self) -> Vec<DesignError> {
        let mut all: Vec<DesignError> = Vec::new();
        for one in &self.found {
            let lost = one.case(Case::Right).map(|result| result.lost.as_slice());
            for lost in lost.unwrap_or_default() {
                let WhatIsLost::Opening(name) = &lost.what else {
                    continue;
                };
                // a pattern is told of once
                if all.iter().any(|told| told.place == lost.place) {
                    continue;
                }
                let opening = self
                    .part
                    .openings
                    .iter()
                    .find(|opening| opening.name == *name);
                let fault = ProcessFault::WiderThanOpening {
                    process: one.process.key.clone(),
                    kerf: trimmed(one.kerf.value, 3),
                    opening: name.clone(),
                    width: opening
                        .and_then(kerf::narrowest)
                        .map_or("narrower".to_owned(), |width| {
                            format!("{} mm wide", trimmed(width, 3))
                        }),
                };
                all.push(DesignError::new(fault, lost.place).with_help(
                    "make the opening wider, have it drilled (`make = \"drill\"`), or take a narrower cut",
                ));
            }
        }
        all
    }

    fn title(&self, stamp: &Stamp) -> String {
        if stamp.design.is_empty() {
            format!("Kerf allowances for “{}”", self.part.name)
        } else {
            format!("{}: kerf allowances for “{}”", stamp.design, self.part.name)
        }
    }

    /// Those that cut the material.
    fn compared(&self) -> impl Iterator<Item = &Comparison> {
        self.found.iter().filter(|one| one.refused.is_none())
    }
}
