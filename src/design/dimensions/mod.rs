//! The named dimensions, evaluated; and the value of any other amount of the file.
//!
//! Evaluating is a pure function of the file and the overrides, so a what-if is one more call.
//!
//! *Permitted* is what the rule allows; *spread* is what the maker achieves or the instrument reads.

mod amount;
mod draft;
mod evaluate;
mod general;
mod limits;
mod order;

pub use amount::Unresolved;
pub(in crate::design) use amount::plain_amount;
pub use draft::Override;
pub use draft::OverrideValue;
pub use general::General;

use super::error::DesignError;
use super::expression::Kind;
use super::expression::Quantity;
use super::expression::Scope;
use super::expression::working;
use super::file::DesignFile;
use super::file::Measure;
use super::file::Origin;
use super::located::Located;
use super::source::Place;
use crate::geometry::LengthUnit;
use std::collections::BTreeMap;

/// The spread of careful hand work, sawn and filed to a scribed line, as a plus-or-minus in
/// millimetres.
///
/// # Source
/// Common practice; ISO 2768-1 class m permits the same for sizes over 120 to 400 mm.
pub const DEFAULT_WORKMANSHIP: f64 = 0.5;

/// What the maker achieves, as a plus-or-minus in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Workmanship {
    /// As the file says.
    Stated(f64),
    /// The file does not say: [`DEFAULT_WORKMANSHIP`].
    Assumed(f64),
}

impl Workmanship {
    /// The plus-or-minus in millimetres.
    pub const fn spread(self) -> f64 {
        match self {
            Self::Stated(spread) | Self::Assumed(spread) => spread,
        }
    }
}

/// Whether a dimension has a value.
#[derive(Clone, Debug, PartialEq)]
pub enum State {
    /// It has.
    Known(f64),
    /// It is still to be measured.
    Open,
    /// It depends on these, which are still to be measured.
    Undecided(Vec<String>),
}

/// The limits of a dimension, in the unit of its kind.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Permitted {
    /// Not less than this.
    pub min: Option<f64>,
    /// Not more than this.
    pub max: Option<f64>,
}

impl Permitted {
    /// Whether anything is limited.
    pub const fn is_limited(self) -> bool {
        self.min.is_some() || self.max.is_some()
    }
}

/// What a dimension is expected to come out as, as a plus-or-minus.
#[derive(Clone, Debug, PartialEq)]
pub enum Spread {
    /// As written.
    Given(Band),
    /// That of the instrument it was measured with.
    Instrument(String),
    /// That of the maker.
    Workmanship(f64),
    /// None of its own: it follows from others, or is a count.
    Follows,
}

/// How far something is expected to come out from its value: both not negative.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Band {
    /// Upwards.
    pub plus: f64,
    /// Downwards.
    pub minus: f64,
}

impl Band {
    /// The same both ways.
    pub const fn both(spread: f64) -> Self {
        Self {
            plus: spread,
            minus: spread,
        }
    }

    /// How far its middle lies above the value.
    pub const fn middle(self) -> f64 {
        (self.plus - self.minus) / 2.0
    }

    /// Half its width.
    pub const fn half(self) -> f64 {
        f64::midpoint(self.plus, self.minus)
    }
}

/// A named dimension with its value.
///
/// # Units
/// Millimetres to the power of its kind, radians, or a pure number.
#[derive(Clone, Debug, PartialEq)]
pub struct Dimension {
    /// Its name.
    pub name: String,
    /// Where its name stands.
    pub place: Place,
    /// Where its value stands; its name if it has none written.
    pub value_place: Place,
    /// What it counts.
    pub kind: Kind,
    /// Its value.
    pub state: State,
    /// What the file itself says its value is, also where an override says otherwise; what a
    /// tolerance is counted from.
    pub nominal: Option<f64>,
    /// The unit it is shown in, if it is a length.
    pub unit: LengthUnit,
    /// What the rules permit, or else the general tolerance, if it is taken on a part.
    pub permitted: Permitted,
    /// Its general tolerance, if it has one and nothing is said of its own.
    pub general: Option<General>,
    /// Where it comes from.
    pub origin: Origin,
    /// What to expect of it.
    pub spread: Spread,
    /// How its value comes about: `guard − head_gap = 96 − 6 = 90 mm`. `None` for a plain value.
    pub working: Option<String>,
    /// The dimensions that its value is made of, by name.
    pub made_of: Vec<String>,
    /// Remark.
    pub note: Option<String>,
    /// What it is or was measured with.
    pub instrument: Option<String>,
    /// What was measured.
    pub readings: Vec<f64>,
    /// How it is taken on the finished part.
    pub measure: Option<Located<Measure>>,
    /// The part that the measure is taken on, if the file names it.
    pub part: Option<String>,
}

impl Dimension {
    /// Its value, if it has one.
    pub const fn value(&self) -> Option<f64> {
        match self.state {
            State::Known(value) => Some(value),
            State::Open | State::Undecided(_) => None,
        }
    }

    /// The mean of its readings, if it has any.
    pub fn mean_reading(&self) -> Option<f64> {
        mean(&self.readings)
    }

    /// A value of this dimension as text, with its unit.
    pub fn shown(&self, value: f64) -> String {
        let kind = self.kind;
        working::with_unit(Quantity { value, kind }, self.unit)
    }

    /// Two values of this dimension as text, with as many decimals as tell them apart.
    pub fn shown_apart(&self, values: [f64; 2]) -> [String; 2] {
        working::told_apart(values, self.kind, self.unit)
    }
}

#[expect(clippy::cast_precision_loss, reason = "nobody takes 2^53 readings")]
fn mean(readings: &[f64]) -> Option<f64> {
    let sum: f64 = readings.iter().sum();
    (!readings.is_empty()).then(|| sum / readings.len() as f64)
}

/// The named dimensions of a file, evaluated.
#[derive(Clone, Debug)]
pub struct Dimensions {
    entries: Vec<Dimension>,
    index: BTreeMap<String, usize>,
    unit: LengthUnit,
    workmanship: Workmanship,
    findings: Vec<DesignError>,
}

impl Dimensions {
    /// The dimensions of a file, with some set to other values.
    ///
    /// A dimension that is still to be measured is no error; what depends on it is undecided.
    ///
    /// # Errors
    /// All that is wrong: rings, unknown names, wrong kinds, divisions by zero, limits that contradict
    /// each other, overrides of unknown dimensions. A value outside its own limits, and a reference
    /// that disagrees, are [findings](Self::findings).
    pub fn evaluate(file: &DesignFile, overrides: &[Override]) -> Result<Self, Vec<DesignError>> {
        evaluate::dimensions(file, overrides)
    }

    /// The dimensions in the order of the file.
    pub fn iter(&self) -> std::slice::Iter<'_, Dimension> {
        self.entries.iter()
    }

    /// The dimension of this name.
    pub fn get(&self, name: &str) -> Option<&Dimension> {
        self.entries.get(*self.index.get(name)?)
    }

    /// The unit of bare numbers in the file.
    pub const fn unit(&self) -> LengthUnit {
        self.unit
    }

    /// What the maker achieves.
    pub const fn workmanship(&self) -> Workmanship {
        self.workmanship
    }

    /// Values outside their own limits, references that disagree (error grade); limits that nobody can
    /// inspect (notices).
    pub fn findings(&self) -> &[DesignError] {
        &self.findings
    }

    /// The dimensions that are still to be measured, in the order of the file.
    pub fn open(&self) -> impl Iterator<Item = &Dimension> {
        self.entries
            .iter()
            .filter(|dimension| dimension.state == State::Open)
    }
}

impl<'a> IntoIterator for &'a Dimensions {
    type Item = &'a Dimension;
    type IntoIter = std::slice::Iter<'a, Dimension>;

    fn into_iter(self) -> Self::IntoIter {
        self.entries.iter()
    }
}

impl Scope for Dimensions {
    fn unit(&self) -> LengthUnit {
        self.unit
    }

    fn value(&self, name: &str) -> Option<Quantity> {
        let dimension = self.get(name)?;
        let (value, kind) = (dimension.value()?, dimension.kind);
        Some(Quantity { value, kind })
    }

    fn names(&self) -> Vec<&str> {
        self.index.keys().map(String::as_str).collect()
    }
}
