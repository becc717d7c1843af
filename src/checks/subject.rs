//! What the rules look at.

use super::Assembly;
use super::Nested;
use crate::geometry::LengthUnit;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::number::decimals_to_tell;
use crate::geometry::number::trimmed;

/// Something drawn to be cut: lines and arcs end to end.
#[derive(Clone, Debug, PartialEq)]
pub struct Run {
    /// Its lines and arcs as drawn; pieces may have no length.
    pub segments: Vec<Segment>,
    /// Whether it is said to close.
    pub closed: bool,
    /// Its layer, by number: runs of different layers are never joined.
    pub layer: usize,
    /// Where it comes from.
    pub source: SourceId,
    /// What it is called.
    pub kind: &'static str,
    /// For a curve followed by arcs: how far they lie from it, in millimetres.
    pub follows_within: Option<f64>,
}

/// What is checked.
#[derive(Clone, Debug, PartialEq)]
pub struct Subject {
    /// What is drawn to be cut.
    pub runs: Vec<Run>,
    /// What the runs make up.
    pub assembly: Assembly,
    /// The pieces of material: closed outlines within each other.
    pub nested: Nested,
    /// What the runs are.
    pub lines: Lines,
    /// What is known of the unit.
    pub unit: Unit,
    /// The unit that messages are in.
    pub shown_in: LengthUnit,
    /// The sheet that it should fit on.
    pub sheet: Option<SheetSize>,
    /// What the way of cutting can do.
    pub limits: Limits,
}

/// What lines to cut are.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Lines {
    /// The finished edges: whoever cuts compensates the kerf.
    FinishedEdges,
    /// The way of the middle of the cut with its leads, compensated already.
    ToolPath {
        /// By what, and for which width of cut, in words.
        made: String,
    },
}

/// What is known of the unit of a file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unit {
    /// It is known.
    Known,
    /// It is not said. Why the one taken is likely, and whether the file could have said it.
    Likely {
        /// The reason.
        reason: String,
        /// Whether a file of its kind can carry a unit.
        could_say: bool,
    },
}

/// A sheet of material.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SheetSize {
    /// Its one side in millimetres.
    pub width: f64,
    /// Its other side in millimetres.
    pub height: f64,
}

/// What the way of cutting can do; what is not known is not checked.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Limits {
    /// Smallest opening, in millimetres across.
    pub smallest_opening: Option<Limit>,
    /// Narrowest web between two cuts.
    pub web: Option<Limit>,
    /// Smallest radius of an inside corner.
    pub inside_radius: Option<Limit>,
    /// Width of the cut.
    pub kerf: Option<Limit>,
}

/// A limit with who stands behind it.
#[derive(Clone, Debug, PartialEq)]
pub struct Limit {
    /// The value in millimetres.
    pub value: f64,
    /// Who stands behind it.
    pub basis: String,
    /// Whether something may fail by it.
    pub decides: bool,
}

impl Subject {
    /// A length in words, in the unit of the report.
    pub(super) fn length(&self, millimetres: f64) -> String {
        shown(millimetres, self.shown_in)
    }

    /// Lengths in words, with as many digits as tell the two apart that are compared.
    pub(super) fn lengths<const N: usize>(
        &self,
        all: [f64; N],
        (one, other): (f64, f64),
    ) -> [String; N] {
        let (unit, usual) = (self.shown_in, 3);
        let [one, other] = [one, other].map(|side| side / unit.millimetres());
        let decimals = decimals_to_tell(one, other, usual);
        all.map(|side| {
            let value = trimmed(side / unit.millimetres(), decimals);
            format!("{value} {}", unit.symbol())
        })
    }
}

/// A length with its unit; more digits where it is small.
pub(super) fn shown(millimetres: f64, unit: LengthUnit) -> String {
    let value = millimetres / unit.millimetres();
    let decimals = if value.abs() < 0.1 { 5 } else { 3 };
    format!("{} {}", trimmed(value, decimals), unit.symbol())
}
