//! Thermal cuts by ISO 9013: how far a cut face may lean, and how far a cut size may be off.
//!
//! The standard is for flame, plasma and laser cuts only: not for jets of water, routers and saws.
//!
//! # Source
//! ISO 9013:2002, read second-hand. The formulas of the leaning are those of a public sheet whose values
//! they reproduce, and agree with memory; the limit deviations are a fabricator's restatement in which the
//! columns had to be inferred, and do not agree with memory of the edition of 2002 in class 1: they are
//! shown, and nothing fails by them.

use crate::trade::Mark;

/// How the formulas of the leaning were come by.
pub const LEANING_MARK: Mark = Mark::ReadSecondHand;
/// How the limit deviations were come by.
pub const DEVIATION_MARK: Mark = Mark::Remembered;

/// The most that a cut face may lean in total (u), in millimetres, in a range from 1 (the best) to 5, at a
/// thickness in millimetres; none for another range.
///
/// # Example
/// ```
/// use kerfwise::trade::processes::iso9013::leaning;
/// assert_eq!(leaning(3, 10.0), Some(0.5), "range 3 in 10 mm");
/// ```
pub fn leaning(range: u8, thickness: f64) -> Option<f64> {
    let (base, per_thickness) = match range {
        1 => (0.05, 0.003),
        2 => (0.15, 0.007),
        3 => (0.4, 0.01),
        4 => (0.8, 0.02),
        5 => (1.2, 0.035),
        _ => return None,
    };
    Some(base + per_thickness * thickness)
}

/// The best range that a leaning in millimetres is in at a thickness; none if it is in none.
pub fn range_of(leaning_found: f64, thickness: f64) -> Option<u8> {
    (1..=5).find(|&range| leaning(range, thickness).is_some_and(|most| leaning_found <= most))
}

/// Upper ends of the ranges of size in millimetres.
const SIZES: [f64; 7] = [10.0, 35.0, 125.0, 315.0, 1000.0, 2000.0, 4000.0];

/// Thickness up to which a row holds, and its deviations.
type Row = (f64, [f64; 7]);

const CLASS_1: [Row; 5] = [
    (3.15, [0.15, 0.20, 0.25, 0.25, 0.35, 0.40, 0.65]),
    (6.3, [0.20, 0.25, 0.25, 0.30, 0.40, 0.45, 0.70]),
    (10.0, [0.25, 0.30, 0.30, 0.35, 0.45, 0.55, 0.75]),
    (15.0, [0.30, 0.35, 0.40, 0.45, 0.55, 0.65, 0.85]),
    (20.0, [0.40, 0.40, 0.45, 0.55, 0.75, 0.85, 1.20]),
];

const CLASS_2: [Row; 4] = [
    (3.15, [0.6, 0.7, 0.7, 0.8, 0.9, 1.0, 1.1]),
    (6.3, [0.8, 0.9, 0.9, 1.1, 1.2, 1.3, 1.3]),
    (10.0, [1.0, 1.1, 1.3, 1.4, 1.5, 1.6, 1.7]),
    (15.0, [1.8, 1.8, 1.8, 1.9, 2.3, 3.0, 4.2]),
];

/// The permitted deviation of a cut size, either way, in millimetres; none outside the table (sizes of 3 to
/// 4000 mm, plates over 1 mm).
pub fn deviation(class: u8, size: f64, thickness: f64) -> Option<f64> {
    let rows: &[Row] = match class {
        1 => &CLASS_1,
        2 => &CLASS_2,
        _ => return None,
    };
    if !(3.0..=4000.0).contains(&size) || thickness <= 1.0 {
        return None;
    }
    let (_, row) = rows.iter().find(|(most, _)| thickness <= *most)?;
    let column = SIZES.iter().position(|&most| size <= most)?;
    row.get(column).copied()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn leanings_are_those_of_the_public_sheet() {
        // ISO 9013:2002 restated for 6.4 mm, in inches: 0.0027, 0.0077, 0.0183, 0.0365, 0.0560
        for (range, inches) in [
            (1, 0.0027),
            (2, 0.0077),
            (3, 0.0183),
            (4, 0.0365),
            (5, 0.0560),
        ] {
            let found = leaning(range, 6.4).unwrap_or(f64::NAN) / 25.4;
            assert!((found - inches).abs() < 1e-4, "range {range}: {found} in");
        }
        assert_eq!(leaning(6, 6.4), None, "there are five ranges");
        assert_eq!(range_of(0.2, 6.4), Some(3), "over 0.1948");
        assert_eq!(range_of(0.19, 6.4), Some(2), "under it");
        assert_eq!(range_of(2.0, 6.4), None, "worse than the worst");
    }

    #[test]
    fn deviations_have_their_ends() {
        assert_eq!(deviation(1, 305.0, 5.0), Some(0.30), "laser, 305 mm");
        assert_eq!(deviation(2, 974.0, 5.0), Some(1.2), "plasma, 974 mm");
        assert_eq!(deviation(2, 974.0, 16.0), None, "too thick");
        assert_eq!(deviation(1, 2.0, 5.0), None, "too small");
        assert_eq!(deviation(1, f64::NAN, 5.0), None, "not a size");
    }
}
