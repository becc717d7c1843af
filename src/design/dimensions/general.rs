//! General tolerances: what is permitted of dimensions that say nothing of it themselves.

use super::Dimension;
use super::Permitted;
use super::draft::Draft;
use crate::design::expression::Kind;
use crate::design::file::CornerTreatment;
use crate::design::file::DesignFile;
use crate::design::file::Entry;
use crate::design::file::Measure;
use crate::design::file::OpeningShape;
use crate::design::file::Origin;
use crate::trade::ToleranceClass;

/// The general tolerance of a dimension.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct General {
    /// The class that the file asks for.
    pub class: ToleranceClass,
    /// What it permits, either way, in millimetres.
    pub deviation: f64,
}

/// The general tolerance of a dimension; none for one with limits of its own, for one that comes from
/// the boat or repeats another, for anything but a length, and where the tables have no row.
///
/// The radius of a rounded corner has a table of its own in the standard, every other length the one of
/// linear sizes. The table of angles was not read, so that no angle is held.
pub(super) fn of(dimension: &Dimension, draft: &Draft<'_>, file: &DesignFile) -> Option<General> {
    let class = file.tolerance_class()?;
    let repeats = draft.table.is_some_and(|table| table.reference.is_some());
    let is_held = dimension.kind == Kind::LENGTH
        && dimension.origin != Origin::Measured
        && !dimension.permitted.is_limited()
        && !repeats;
    let size = dimension.nominal.filter(|_| is_held)?.abs();
    let deviation = match dimension.measure.as_ref().map(|measure| &measure.value) {
        Some(Measure::Radius(name)) if is_rounding(&name.value, file) => class.radius(size),
        _ => class.linear(size),
    };
    let deviation = deviation?;
    Some(General { class, deviation })
}

/// What a general tolerance permits of a dimension. One that nobody takes on a part is not judged: it is
/// no size of the finished part, or the file does not say which.
pub(super) fn permitted(dimension: &Dimension, general: General) -> Option<Permitted> {
    let nominal = dimension.nominal?;
    dimension.measure.as_ref()?;
    Some(Permitted {
        min: Some(nominal - general.deviation),
        max: Some(nominal + general.deviation),
    })
}

/// Whether this is the name of a corner that is rounded.
fn is_rounding(name: &str, file: &DesignFile) -> bool {
    let parts = || file.part.iter().map(|named| &named.entry);
    let outlines = parts()
        .filter_map(|part| part.outline.as_ref())
        .flat_map(|outline| outline.value.iter());
    let openings = parts()
        .flat_map(|part| part.opening.iter())
        .filter_map(|opening| match &opening.value.shape {
            OpeningShape::Outline(entries) => Some(entries.iter()),
            _ => None,
        })
        .flatten();
    outlines.chain(openings).any(|entry| match entry {
        Entry::Corner(corner) => {
            corner.value.name.value == name
                && matches!(corner.value.treatment, CornerTreatment::Fillet(_))
        }
        Entry::Round(_) => false,
    })
}
