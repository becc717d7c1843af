//! Readings that look like a slip: another unit, a lost digit, another row.

use crate::geometry::LengthUnit;
use std::fmt;

/// What a reading looks like.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Suspicion {
    /// So many times too large or too small, by a factor that a slip makes.
    Factor {
        /// The factor, above 1.
        times: f64,
        /// Whether the reading is too large by it.
        too_large: bool,
    },
    /// Half or double: a radius for a diameter, or the other way round.
    Half {
        /// Whether the reading is too large.
        too_large: bool,
    },
    /// Far from what is expected for no reason that is known here.
    Far,
}

/// Factors that slips make: inches and millimetres, a lost or added digit, centimetres and inches.
const FACTORS: [f64; 6] = [25.4, 10.0, 2.54, 100.0, 1000.0, 304.8];

/// How far the reading may be from what the factor would give, as a part of it: a part that is made
/// is within this of its design.
const NEAR_FACTOR: f64 = 0.12;

/// A reading outside this many times the expected one is asked about, and so is one below the inverse.
const FAR: f64 = 1.5;

/// What the reading looks like, if it does not look right.
///
/// # Example
/// ```
/// use kerfwise::measures::readings::{Suspicion, suspect};
///
/// assert_eq!(
///     suspect(12.01, 305.0),
///     Some(Suspicion::Factor { times: 25.4, too_large: false }),
///     "inches for millimetres"
/// );
/// assert_eq!(suspect(310.0, 305.0), None, "wrong, but no slip of the pen");
/// ```
pub fn suspect(reading: f64, expected: f64) -> Option<Suspicion> {
    if expected == 0.0 || reading == 0.0 {
        return None;
    }
    let ratio = reading / expected;
    if (1.0 / FAR..=FAR).contains(&ratio) {
        return None;
    }
    let too_large = ratio.abs() > 1.0;
    let times = if too_large { ratio } else { 1.0 / ratio };
    let off = |factor: f64| (times / factor - 1.0).abs();
    let nearest = FACTORS
        .into_iter()
        .filter(|factor| off(*factor) < NEAR_FACTOR)
        .min_by(|one, other| off(*one).total_cmp(&off(*other)));
    if let Some(times) = nearest {
        return Some(Suspicion::Factor { times, too_large });
    }
    if off(2.0) < NEAR_FACTOR {
        return Some(Suspicion::Half { too_large });
    }
    Some(Suspicion::Far)
}

impl Suspicion {
    /// The unit that the reading may be in, where one would explain it.
    pub fn unit(self, of_item: LengthUnit) -> Option<LengthUnit> {
        let Self::Factor { times, too_large } = self else {
            return None;
        };
        let is_near = |unit: &LengthUnit| {
            let ratio = unit.millimetres() / of_item.millimetres();
            let wanted = if too_large { 1.0 / times } else { times };
            (ratio / wanted - 1.0).abs() < 1e-9
        };
        LengthUnit::ALL.into_iter().find(is_near)
    }
}

impl fmt::Display for Suspicion {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Factor { times, too_large } => {
                let far = if *too_large { "too large" } else { "too small" };
                let looks = match (times, too_large) {
                    (25.4, true) => "millimetres written as inches?",
                    (25.4, false) => "inches written as millimetres?",
                    (2.54, true) => "centimetres written as inches?",
                    (2.54, false) => "inches written as centimetres?",
                    (304.8, _) => "feet and millimetres confused?",
                    (10.0, false) => "centimetres written as millimetres, or a digit lost?",
                    (10.0, true) => "a digit too many, or the decimal mark lost?",
                    _ => "the decimal mark in the wrong place, or metres and millimetres confused?",
                };
                write!(formatter, "about {times} times {far}: {looks}")
            }
            Self::Half { too_large: false } => {
                formatter.write_str("about half: a radius for a diameter?")
            }
            Self::Half { too_large: true } => {
                formatter.write_str("about double: a diameter for a radius?")
            }
            Self::Far => formatter.write_str("is it the reading of another row?"),
        }
    }
}
