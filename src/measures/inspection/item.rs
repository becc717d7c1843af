//! One thing to measure on a finished part: a row of the form.

use crate::design::Place;
use crate::design::dimensions::Permitted;
use crate::geometry::LengthUnit;
use crate::measures::FiledEdge;
use crate::measures::How;
use crate::measures::Taken;
use crate::measures::TakenKind;

/// One thing to measure on a finished part: a row of the form.
///
/// # Units
/// Millimetres, radians, mm² or kilograms, as its kind says.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// Its number on the form, from 1. The numbers run through all parts of a design.
    pub number: usize,
    /// The part that it is measured on.
    pub part: String,
    /// What it is: the name of a dimension, or the words of a limit.
    pub name: String,
    /// The dimension that it is, if it is one.
    pub dimension: Option<String>,
    /// Its remark: the clause.
    pub note: Option<String>,
    /// What its number counts.
    pub kind: TakenKind,
    /// The unit that it is shown in, if it is a length or an area.
    pub unit: LengthUnit,
    /// What it reads on the part as designed.
    pub expected: Option<f64>,
    /// How it was taken on the part as designed; `None` for the thickness and the
    /// flatness of a plate.
    pub taken: Option<Taken>,
    /// What is permitted.
    pub permitted: Permitted,
    /// Where it is measured, in words.
    pub place_words: String,
    /// What kind of instrument it takes.
    pub taking: Taking,
    /// What taking metal off does to it.
    pub filing: Filing,
    /// What filing one edge alone does to it, for each edge that it ends on.
    pub edges: Vec<FiledEdge>,
    /// Which of several readings must keep the limits.
    pub judging: Judging,
    /// Growth of the part with heat in 1e-6 per kelvin, if it is known.
    pub expansion: Option<f64>,
    /// Where it stands in the design file.
    pub place: Place,
}

/// What kind of instrument an item takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Taking {
    /// Jaws can close on it, and a scale can be laid to it.
    Jaws,
    /// Only a scale can be laid to it: to a corner that is rounded away, or along an edge.
    Scale,
    /// A gauge is held to it, or it is weighed or worked out.
    Gauge,
}

/// What taking metal off does to a reading.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Filing {
    /// It gets smaller: a width, a thickness, a weight.
    Lowers,
    /// It gets larger: a hole, the rounding of an outside corner.
    Raises,
    /// It does not change, or either way: the place of a hole, an angle.
    Neither,
}

/// Which of several readings must keep the limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Judging {
    /// Their mean: they are repeated readings of one thing.
    Mean,
    /// Each of them: they are readings at several places, as of a thickness.
    Each,
}

/// Filing an edge mends a measure that changes by this part of what comes off, or more; a corner that only slides
/// a little along a slanted edge is no place to file.
const MENDS: f64 = 0.5;

impl Item {
    /// The edges that are filed to mend it.
    pub fn mended_at(&self) -> impl Iterator<Item = &FiledEdge> {
        let filing = self.filing;
        self.edges.iter().filter(move |edge| match filing {
            Filing::Lowers => edge.rate <= -MENDS,
            Filing::Raises => edge.rate >= MENDS,
            Filing::Neither => false,
        })
    }

    /// The two ways in which it can be read, over the rounds and as the row says, where jaws read another number
    /// than the row says.
    pub fn ways_of_reading(&self) -> Option<[How; 2]> {
        let taken = self.taken.filter(|taken| taken.jaws.is_some())?;
        Some([How::OverTheRounds, taken.how])
    }

    /// A value of it as text with its unit, rounded once.
    pub fn shown(&self, value: f64) -> String {
        self.kind.shown(value, self.unit)
    }

    /// The symbol of the unit that readings without one are in.
    pub const fn unit_symbol(&self) -> &'static str {
        match self.kind {
            TakenKind::Length => self.unit.symbol(),
            TakenKind::Angle => "deg",
            TakenKind::Area => match self.unit {
                LengthUnit::Millimetre => "mm2",
                LengthUnit::Centimetre => "cm2",
                LengthUnit::Metre => "m2",
                LengthUnit::Inch => "in2",
                LengthUnit::Foot => "ft2",
            },
            TakenKind::Weight => "kg",
            TakenKind::Number => "",
        }
    }
}
