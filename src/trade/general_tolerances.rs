//! General tolerances, for dimensions that carry none of their own.
//!
//! # Source
//! ISO 2768-1:1989, Tables 1 and 2, read second-hand: a public test suite that holds Table 1 at both
//! ends of every range, and a copy of DIN ISO 2768-1. They agree but for class c up to 6 mm, where the
//! copy prints 0.15 and 0.2; 0.2 and 0.3 are taken. Table 2 rests on one page, with which memory agrees.
//! Table 3, of angles, was not read, so that nothing is held to it.

use super::Mark;

/// A class of general tolerances.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum ToleranceClass {
    /// f
    Fine,
    /// m
    Medium,
    /// c
    Coarse,
    /// v
    VeryCoarse,
}

/// How Table 1 was come by.
pub const LINEAR_MARK: Mark = Mark::ReadSecondHand;
/// How Table 2 was come by.
pub const RADIUS_MARK: Mark = Mark::ReadSecondHand;

/// Upper ends of the ranges of Table 1 in millimetres; an end belongs to the range below it.
const LINEAR_RANGES: [f64; 8] = [3.0, 6.0, 30.0, 120.0, 400.0, 1000.0, 2000.0, 4000.0];
/// Below this the tolerance has to stand at the dimension, in millimetres.
const LEAST: f64 = 0.5;
/// Where the standard has a dash.
const NONE: f64 = f64::NAN;

impl ToleranceClass {
    /// Every class, the finest first.
    pub const ALL: [Self; 4] = [Self::Fine, Self::Medium, Self::Coarse, Self::VeryCoarse];

    /// Its letter in the standard.
    pub const fn letter(self) -> char {
        match self {
            Self::Fine => 'f',
            Self::Medium => 'm',
            Self::Coarse => 'c',
            Self::VeryCoarse => 'v',
        }
    }

    /// Its name on a drawing.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Fine => "ISO 2768-f",
            Self::Medium => "ISO 2768-m",
            Self::Coarse => "ISO 2768-c",
            Self::VeryCoarse => "ISO 2768-v",
        }
    }

    /// The class with this letter.
    pub fn from_letter(letter: char) -> Option<Self> {
        Self::ALL.into_iter().find(|class| class.letter() == letter)
    }

    /// The permitted deviation of a linear size, either way, in millimetres; none where the standard
    /// gives none: below 0.5 mm, above 4000 mm, and in two cells of the table.
    ///
    /// # Source
    /// ISO 2768-1:1989, Table 1.
    ///
    /// # Example
    /// ```
    /// use kerfwise::trade::ToleranceClass;
    /// assert_eq!(ToleranceClass::Medium.linear(305.0), Some(0.5), "305 ±0.5 mm");
    /// ```
    pub fn linear(self, size: f64) -> Option<f64> {
        let row = match self {
            Self::Fine => [0.05, 0.05, 0.1, 0.15, 0.2, 0.3, 0.5, NONE],
            Self::Medium => [0.1, 0.1, 0.2, 0.3, 0.5, 0.8, 1.2, 2.0],
            Self::Coarse => [0.2, 0.3, 0.5, 0.8, 1.2, 2.0, 3.0, 4.0],
            Self::VeryCoarse => [NONE, 0.5, 1.0, 1.5, 2.5, 4.0, 6.0, 8.0],
        };
        cell(size, &LINEAR_RANGES, &row)
    }

    /// The permitted deviation of an outside radius or the height of a chamfer, either way, in
    /// millimetres; none below 0.5 mm.
    ///
    /// # Source
    /// ISO 2768-1:1989, Table 2 (one page of low trust, and memory).
    pub fn radius(self, size: f64) -> Option<f64> {
        let row = match self {
            Self::Fine | Self::Medium => [0.2, 0.5, 1.0],
            Self::Coarse | Self::VeryCoarse => [0.4, 1.0, 2.0],
        };
        cell(size, &[3.0, 6.0, f64::MAX], &row)
    }
}

fn cell(size: f64, ranges: &[f64], row: &[f64]) -> Option<f64> {
    if size.is_nan() || size < LEAST {
        return None;
    }
    let place = ranges.iter().position(|&end| size <= end)?;
    row.get(place).copied().filter(|value| !value.is_nan())
}

#[cfg(test)]
mod tests {
    use super::*;
    use ToleranceClass::Coarse;
    use ToleranceClass::Fine;
    use ToleranceClass::Medium;
    use ToleranceClass::VeryCoarse;

    #[test]
    fn both_ends_of_every_range_are_as_in_the_standard() {
        // ISO 2768-1:1989, Table 1, at the last size of a range and just after it
        for (class, size, expected) in [
            (Fine, 0.5, Some(0.05)),
            (Fine, 6.0, Some(0.05)),
            (Fine, 6.01, Some(0.1)),
            (Fine, 2000.0, Some(0.5)),
            (Fine, 2000.1, None),
            (Medium, 3.0, Some(0.1)),
            (Medium, 6.01, Some(0.2)),
            (Medium, 30.0, Some(0.2)),
            (Medium, 30.01, Some(0.3)),
            (Medium, 120.0, Some(0.3)),
            (Medium, 400.0, Some(0.5)),
            (Medium, 400.1, Some(0.8)),
            (Medium, 1000.0, Some(0.8)),
            (Medium, 1000.1, Some(1.2)),
            (Medium, 4000.0, Some(2.0)),
            (Medium, 4000.1, None),
            (Coarse, 3.0, Some(0.2)),
            (Coarse, 3.01, Some(0.3)),
            (Coarse, 1000.0, Some(2.0)),
            (VeryCoarse, 3.0, None),
            (VeryCoarse, 3.01, Some(0.5)),
            (VeryCoarse, 4000.0, Some(8.0)),
            (Medium, 0.49, None),
            (Medium, f64::NAN, None),
        ] {
            let found = class.linear(size);
            assert_eq!(found, expected, "class {}, {size} mm", class.letter());
        }
    }

    #[test]
    fn radii_have_their_own_table() {
        assert_eq!(Medium.radius(3.0), Some(0.2), "R3");
        assert_eq!(Medium.radius(6.0), Some(0.5), "R6");
        assert_eq!(Medium.radius(60.0), Some(1.0), "R60");
        assert_eq!(Coarse.radius(60.0), Some(2.0), "R60, coarse");
        assert_eq!(Coarse.radius(0.4), None, "too small");
        assert_eq!(ToleranceClass::from_letter('m'), Some(Medium), "by letter");
    }
}
