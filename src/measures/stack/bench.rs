//! The design with other values: what can vary, and what comes of it.

use crate::design::Band;
use crate::design::Design;
use crate::design::DesignError;
use crate::design::Dimension;
use crate::design::Dimensions;
use crate::design::Override;
use crate::design::Severity;
use crate::design::dimensions::Spread;
use crate::design::part::Part;
use crate::measures::limits::Limit;
use crate::measures::limits::value_at;
use crate::measures::plates;
use crate::trade::instruments;
use crate::trade::instruments::MeasuredFrom;

/// A value that can come out otherwise than it is written.
#[derive(Clone, Debug, PartialEq)]
pub struct Free {
    /// Its name.
    pub name: String,
    /// What has it.
    pub holder: Holder,
    /// Its value in millimetres.
    pub value: f64,
    /// How far it is expected to come out from it.
    pub band: Band,
}

/// What has a value that can vary.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Holder {
    /// A named dimension.
    Dimension,
    /// A plate, whose thickness it is.
    Plate,
}

/// Something whose stack is asked for.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::measures) enum Target {
    /// A limit, or a measure of a fit.
    Limit(Box<Limit>),
    /// A derived dimension.
    Dimension(String),
}

/// A design, what can vary of it, and what is asked of it.
#[derive(Debug)]
pub struct Bench<'a> {
    design: &'a Design,
    free: Vec<Free>,
}

/// A design at some values.
#[derive(Debug)]
pub(in crate::measures) struct Bent {
    pub(in crate::measures) dimensions: Dimensions,
    pub(in crate::measures) parts: Vec<Part>,
    /// Values outside their own limits.
    pub(in crate::measures) findings: Vec<DesignError>,
}

impl Bent {
    /// The value of a target here; `None` when there is none.
    pub(in crate::measures) fn value(&self, target: &Target) -> Option<f64> {
        match target {
            Target::Limit(limit) => value_at(limit, &self.dimensions, &self.parts),
            Target::Dimension(name) => self.dimensions.get(name)?.value(),
        }
    }
}

impl<'a> Bench<'a> {
    /// What can vary of a design: dimensions that no other one makes, each with its spread; and the
    /// thicknesses of its plates.
    pub fn new(design: &'a Design) -> Self {
        let values = design.with_values(&[]).ok();
        let dimensions = values
            .as_ref()
            .map_or(&design.dimensions, |(dimensions, _)| dimensions);
        let workmanship = design.dimensions.workmanship().spread();
        let mut free: Vec<Free> = dimensions
            .iter()
            .filter_map(|dimension| {
                Some(Free {
                    name: dimension.name.clone(),
                    holder: Holder::Dimension,
                    value: dimension.value()?,
                    band: band(dimension, workmanship)?,
                })
            })
            .collect();
        for plate in &design.resolved.plates {
            let cut_from =
                |part: &Part| part.plate.as_ref().is_some_and(|of| of.name == plate.name);
            if let (Some(value), true) =
                (plate.thickness, design.resolved.parts.iter().any(cut_from))
            {
                free.push(Free {
                    name: plate.name.clone(),
                    holder: Holder::Plate,
                    value,
                    band: plates::expected(plate),
                });
            }
        }
        Self { design, free }
    }

    /// What can vary.
    pub fn free(&self) -> &[Free] {
        &self.free
    }

    /// The design.
    pub const fn design(&self) -> &'a Design {
        self.design
    }

    /// The design with some of what is free moved by so much; `None` when it cannot be built there.
    pub(in crate::measures) fn bent(
        &self,
        moves: &[(usize, f64)],
    ) -> Result<Bent, Vec<DesignError>> {
        let moved = |holder: Holder| {
            moves.iter().filter_map(move |&(index, by)| {
                let free = self.free.get(index)?;
                (free.holder == holder).then_some((free.name.as_str(), free.value + by))
            })
        };
        let overrides: Vec<Override> = moved(Holder::Dimension)
            .map(|(name, value)| Override::exact(name, value))
            .collect();
        let (dimensions, resolved) = self.design.with_values(&overrides)?;
        let mut parts = resolved.parts;
        for (name, value) in moved(Holder::Plate) {
            let plates = parts.iter_mut().filter_map(|part| part.plate.as_mut());
            for plate in plates.filter(|plate| plate.name == name) {
                plate.thickness = Some(value);
            }
        }
        let findings = dimensions
            .findings()
            .iter()
            .chain(&resolved.findings)
            .filter(|finding| finding.severity == Severity::Error)
            .cloned()
            .collect();
        Ok(Bent {
            dimensions,
            parts,
            findings,
        })
    }
}

/// How far a dimension is expected to come out from its value, in millimetres; `None` for one that
/// follows from others or is no length.
fn band(dimension: &Dimension, workmanship: f64) -> Option<Band> {
    match &dimension.spread {
        Spread::Given(band) => dimension.made_of.is_empty().then_some(*band),
        Spread::Workmanship(spread) => dimension.made_of.is_empty().then_some(Band::both(*spread)),
        Spread::Instrument(name) => {
            let length = dimension.value()?;
            let error = instruments::find(name)
                .map(|instrument| instrument.worst_error(length, MeasuredFrom::End));
            Some(Band::both(error.unwrap_or(workmanship)))
        }
        Spread::Follows => None,
    }
}
