//! What a mill may deliver of a nominal thickness.
//!
//! These are defaults to reckon with before a plate is measured; a certificate or a calliper goes
//! before them.

use super::Mark;
use super::materials;
use super::materials::Family;

/// What the thickness of ordinary stock may be off, in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MillTolerance {
    /// Upwards.
    pub plus: f64,
    /// Downwards.
    pub minus: f64,
    /// How the numbers were come by.
    pub mark: Mark,
    /// Where they stand.
    pub source: &'static str,
}

/// A row of a table: for thicknesses up to `to`, in millimetres.
struct Row {
    to: f64,
    plus: f64,
    minus: f64,
}

const fn row(to: f64, plus: f64, minus: f64) -> Row {
    Row { to, plus, minus }
}

/// Hot-rolled aluminium plate by its width.
const ALUMINIUM_PLATE: [(f64, [Row; 4]); 3] = [
    (
        1250.0,
        [
            row(8.0, 0.35, 0.35),
            row(10.0, 0.45, 0.45),
            row(15.0, 0.5, 0.5),
            row(20.0, 0.6, 0.6),
        ],
    ),
    (
        1600.0,
        [
            row(8.0, 0.4, 0.4),
            row(10.0, 0.5, 0.5),
            row(15.0, 0.6, 0.6),
            row(20.0, 0.7, 0.7),
        ],
    ),
    (
        2000.0,
        [
            row(8.0, 0.4, 0.4),
            row(10.0, 0.5, 0.5),
            row(15.0, 0.65, 0.65),
            row(20.0, 0.75, 0.75),
        ],
    ),
];

/// Cold-rolled aluminium sheet of the stronger alloys, up to 1600 mm wide.
const ALUMINIUM_SHEET: [Row; 3] = [
    row(3.5, 0.19, 0.19),
    row(4.0, 0.22, 0.22),
    row(5.0, 0.24, 0.24),
];

/// Hot-rolled steel plate, class A.
const STEEL: [Row; 4] = [
    row(5.0, 0.8, 0.4),
    row(8.0, 1.1, 0.4),
    row(15.0, 1.2, 0.5),
    row(25.0, 1.3, 0.6),
];

/// What may be delivered as plate of this material and nominal thickness; `width` is the width of the
/// whole sheet in millimetres, 1250 if not known. `None` where no table is at hand.
///
/// # Units
/// Millimetres.
///
/// # Source
/// Aluminium from 6 mm: EN 485-3 (mill table, read second-hand; its columns of width from memory).
/// Aluminium from 3 to under 6 mm: EN 485-4:1994, Table 1, alloy group II (read second-hand). Steel:
/// EN 10029 class A in its edition of 1991 (read second-hand; the one of 2010 is said to be tighter on
/// plus). Stainless steel, from memory: coil-produced plate ±0.3 to 0.5. Plywood: EN 315, sanded, by the
/// formula +(0.2 + 0.03 t), −(0.4 + 0.03 t) that fits its printed rows. Cast acrylic: ISO 7823-1, from
/// memory. Glass-epoxy laminate: from memory. Which end of a range belongs to it is from memory too.
///
/// # Example
/// ```
/// use kerfwise::trade::thickness;
/// let mill = thickness::of("aluminium 5083", 8.0, Some(1000.0)).ok_or("no table")?;
/// assert_eq!((mill.plus, mill.minus), (0.35, 0.35), "8 ±0.35 mm");
/// # Ok::<(), &str>(())
/// ```
pub fn of(material: &str, nominal: f64, width: Option<f64>) -> Option<MillTolerance> {
    let material = materials::find(material).ok()?;
    match material.family {
        Family::Aluminium => aluminium(nominal, width.unwrap_or(1250.0)),
        // a lower end of a range belongs to it: a thickness a hair larger finds the same row
        Family::Steel => from_rows(
            &STEEL,
            nominal.next_up(),
            3.0,
            (Mark::ReadSecondHand, "EN 10029 class A, 1991"),
        ),
        Family::StainlessSteel => (3.0..=12.0).contains(&nominal).then_some(MillTolerance {
            plus: 0.4,
            minus: 0.4,
            mark: Mark::Remembered,
            source: "coil-produced plate",
        }),
        Family::Wood => (3.0..=30.0).contains(&nominal).then_some(MillTolerance {
            plus: 0.2 + 0.03 * nominal,
            minus: 0.4 + 0.03 * nominal,
            mark: Mark::Computed,
            source: "EN 315, sanded plywood",
        }),
        Family::Laminate => (1.5..=13.0).contains(&nominal).then_some(MillTolerance {
            plus: 0.1 + 0.065 * nominal,
            minus: 0.1 + 0.065 * nominal,
            mark: Mark::Remembered,
            source: "glass-epoxy laminate",
        }),
        Family::Plastic => (1.5..=25.0).contains(&nominal).then_some(MillTolerance {
            plus: 0.4 + 0.1 * nominal,
            minus: 0.4 + 0.1 * nominal,
            mark: Mark::Remembered,
            source: "ISO 7823-1, cast acrylic",
        }),
    }
}

fn aluminium(nominal: f64, width: f64) -> Option<MillTolerance> {
    if nominal <= 5.0 {
        let source = (Mark::ReadSecondHand, "EN 485-4:1994, Table 1");
        return from_rows(&ALUMINIUM_SHEET, nominal, 3.0, source);
    }
    if nominal <= 6.0 {
        let wide = width > 1600.0;
        let both = if wide { 0.4 } else { 0.32 };
        return Some(MillTolerance {
            plus: both,
            minus: both,
            mark: Mark::Remembered,
            source: "EN 485-3",
        });
    }
    let (_, rows) = ALUMINIUM_PLATE.iter().find(|(most, _)| width <= *most)?;
    from_rows(rows, nominal, 6.0, (Mark::ReadSecondHand, "EN 485-3"))
}

/// The row of a table that a thickness belongs to; the upper end of a range belongs to it.
fn from_rows(
    rows: &[Row],
    nominal: f64,
    from: f64,
    (mark, source): (Mark, &'static str),
) -> Option<MillTolerance> {
    let last = rows.last()?;
    if nominal < from || nominal > last.to {
        return None;
    }
    let row = rows.iter().find(|row| nominal <= row.to)?;
    Some(MillTolerance {
        plus: row.plus,
        minus: row.minus,
        mark,
        source,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ends_of_the_rows() {
        for (material, nominal, expected) in [
            ("aluminium 5083", 6.0, Some((0.32, 0.32))),
            ("aluminium 5083", 8.0, Some((0.35, 0.35))),
            ("aluminium 5083", 4.0, Some((0.22, 0.22))),
            ("aluminium 5083", 20.0, Some((0.6, 0.6))),
            ("aluminium 5083", 25.0, None),
            ("steel, galvanised", 5.0, Some((1.1, 0.4))),
            ("steel, galvanised", 3.0, Some((0.8, 0.4))),
            ("steel, galvanised", 2.0, None),
            ("no such thing", 5.0, None),
        ] {
            let found = of(material, nominal, None).map(|mill| (mill.plus, mill.minus));
            assert_eq!(found, expected, "{material} of {nominal} mm");
        }
    }

    #[test]
    fn plywood_by_the_formula_is_as_its_printed_rows() {
        // EN 315, sanded, as mill tables print it: within what they round to
        for (nominal, plus, minus) in [
            (4.0, 0.3, 0.5),
            (12.0, 0.5, 0.7),
            (15.0, 0.6, 0.8),
            (18.0, 0.7, 0.9),
        ] {
            let mill = of("okoume plywood", nominal, None).expect("plywood");
            assert!((mill.plus - plus).abs() < 0.1, "{nominal}: +{}", mill.plus);
            assert!(
                (mill.minus - minus).abs() < 0.1,
                "{nominal}: −{}",
                mill.minus
            );
        }
    }
}
