//! Parts for the tests of documents, built by hand from contours.

mod leeboard;
mod plates;
mod polygon;
mod turned;

pub(crate) use leeboard::leeboard;
pub(crate) use plates::belt_guard;
pub(crate) use plates::bracket;
pub(crate) use plates::crowded;
pub(crate) use turned::turned;

use crate::design::part::Part;
use crate::design::source::Place;
use crate::documents::stamp::Stamp;
use crate::geometry::LengthUnit;
use crate::geometry::number;

const NOWHERE: Place = Place { start: 0, end: 0 };

/// A stamp without open dimensions.
pub(crate) fn stamp(unit: LengthUnit) -> Stamp {
    Stamp {
        design: "Leeboard for a 5 m canoe yawl".to_owned(),
        fingerprint: "3f9a1c77e0b2d4586a90c1de".to_owned(),
        unit,
        open: Vec::new(),
        general: None,
        otherwise: Vec::new(),
    }
}

/// A stamp with two dimensions still to be measured.
pub(crate) fn draft_stamp() -> Stamp {
    Stamp {
        open: vec!["guard".to_owned(), "slot_width".to_owned()],
        ..stamp(LengthUnit::Millimetre)
    }
}

/// Every part that documents are tried on, with the unit it is shown in.
pub(crate) fn all() -> Vec<(Part, LengthUnit)> {
    let mm = LengthUnit::Millimetre;
    let seventeen = number::HALF_TURN * 17.0 / 180.0;
    vec![
        (leeboard(), mm),
        (turned(&leeboard(), seventeen), LengthUnit::Inch),
        (belt_guard(), mm),
        (turned(&belt_guard(), -1.9), mm),
        (bracket(), LengthUnit::Inch),
        (crowded(), mm),
    ]
}
