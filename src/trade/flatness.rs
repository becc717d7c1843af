//! How far from flat a mill may deliver.
//!
//! These are defaults to reckon with before a plate is measured; what the mill itself states goes before
//! them.

use super::Mark;
use super::materials;
use super::materials::Family;

/// How far ordinary stock may be from flat, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MillFlatness {
    /// The widest gap under a straight edge.
    pub gap: f64,
    /// How the number was come by.
    pub mark: Mark,
    /// Where it stands.
    pub source: &'static str,
}

/// Steel plate of class N by its thickness: up to so many millimetres thick, so wide a gap under a
/// straight edge of one metre, and of two.
const STEEL: [(f64, f64, f64); 5] = [
    (5.0, 9.0, 14.0),
    (8.0, 8.0, 12.0),
    (15.0, 7.0, 11.0),
    (25.0, 7.0, 10.0),
    (40.0, 6.0, 9.0),
];

/// The gap that plate of this material and nominal thickness may be delivered with under a straight edge
/// of the length `over`. `None` where nothing is known of it.
///
/// # Units
/// Millimetres.
///
/// # Source
/// All from memory, not looked up. Steel from 3 mm: EN 10029, class N, softer steels: a table for
/// straight edges of one and two metres; shorter ones, from 0.3 m, 1 % of their length. Aluminium from
/// over 6 mm: EN 485-3, 0.3 % of a chord of at least 0.3 m.
///
/// # Example
/// ```
/// use kerfwise::trade::Mark;
/// use kerfwise::trade::flatness;
///
/// let mill = flatness::of("aluminium 6061-T6", 8.0, 600.0).ok_or("nothing known")?;
/// assert!((mill.gap - 1.8).abs() < 1e-9 && mill.mark == Mark::Remembered);
/// # Ok::<(), &str>(())
/// ```
pub fn of(material: &str, nominal: f64, over: f64) -> Option<MillFlatness> {
    let remembered = |gap: f64, source| MillFlatness {
        gap,
        mark: Mark::Remembered,
        source,
    };
    match materials::find(material).ok()?.family {
        Family::Steel if nominal >= 3.0 && (300.0..=2000.0).contains(&over) => {
            // a lower end of a range belongs to it
            let row = STEEL.iter().find(|(to, ..)| nominal < *to)?;
            let gap = if over > 1000.0 {
                row.2
            } else {
                row.1.min(over / 100.0)
            };
            Some(remembered(gap, "EN 10029, class N"))
        }
        Family::Aluminium if nominal > 6.0 && over >= 300.0 => {
            Some(remembered(over * 0.003, "EN 485-3"))
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_length_and_thickness_has_its_gap() {
        // the numbers themselves are remembered; this holds the rows and ranges to what the docs say
        for (material, nominal, over, expected) in [
            ("steel, galvanised", 5.0, 1000.0, Some(8.0)),
            ("steel, galvanised", 4.0, 1000.0, Some(9.0)),
            ("steel, galvanised", 5.0, 2000.0, Some(12.0)),
            ("steel, galvanised", 5.0, 600.0, Some(6.0)),
            ("steel, galvanised", 5.0, 900.0, Some(8.0)),
            ("steel, galvanised", 5.0, 200.0, None),
            ("steel, galvanised", 5.0, 2500.0, None),
            ("steel, galvanised", 2.0, 1000.0, None),
            ("aluminium 5083", 8.0, 1000.0, Some(3.0)),
            ("aluminium 5083", 6.0, 1000.0, None),
            ("okoume plywood", 12.0, 1000.0, None),
            ("no such thing", 8.0, 1000.0, None),
        ] {
            let found = of(material, nominal, over);
            assert_eq!(
                found.map(|mill| mill.gap),
                expected,
                "{material} of {nominal} mm over {over} mm"
            );
            assert!(
                found.is_none_or(|mill| !mill.mark.is_authority()),
                "nothing passes or fails by it"
            );
        }
    }
}
