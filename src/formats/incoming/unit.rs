//! The unit of a file: what it says, or what it most likely is.

use super::Collector;
use super::DrawnShape;
use crate::geometry::LengthUnit;
use crate::geometry::Rect;
use crate::geometry::Segment;
use crate::geometry::number::trimmed;

/// A unit of length by name.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct UnitOfLength {
    /// Its name, plural.
    pub name: &'static str,
    /// Its length in millimetres.
    pub millimetres: f64,
}

impl From<LengthUnit> for UnitOfLength {
    fn from(unit: LengthUnit) -> Self {
        Self {
            name: unit.name(),
            millimetres: unit.millimetres(),
        }
    }
}

/// Units of `$INSUNITS`, by its value (DXF Reference, HEADER section); lengths by definition: the inch of
/// 1959, the survey foot of 1200/3937 m, the astronomical unit of 2012, the light year and parsec from it.
pub(in crate::formats) const DXF_UNITS: [(i64, UnitOfLength); 24] = [
    (1, unit("inches", 25.4)),
    (2, unit("feet", 304.8)),
    (3, unit("miles", 1_609_344.0)),
    (4, unit("millimetres", 1.0)),
    (5, unit("centimetres", 10.0)),
    (6, unit("metres", 1000.0)),
    (7, unit("kilometres", 1e6)),
    (8, unit("microinches", 2.54e-5)),
    (9, unit("mils", 0.0254)),
    (10, unit("yards", 914.4)),
    (11, unit("ångströms", 1e-7)),
    (12, unit("nanometres", 1e-6)),
    (13, unit("micrometres", 1e-3)),
    (14, unit("decimetres", 100.0)),
    (15, unit("decametres", 1e4)),
    (16, unit("hectometres", 1e5)),
    (17, unit("gigametres", 1e12)),
    (18, unit("astronomical units", 1.495_978_707e14)),
    (19, unit("light years", 9.460_730_472_580_8e18)),
    (20, unit("parsecs", 3.085_677_581_491_367e19)),
    (21, unit("US survey feet", 1_200_000.0 / 3937.0)),
    (22, unit("US survey inches", 100_000.0 / 3937.0)),
    (23, unit("US survey yards", 3_600_000.0 / 3937.0)),
    (24, unit("US survey miles", 5280.0 * 1_200_000.0 / 3937.0)),
];

const fn unit(name: &'static str, millimetres: f64) -> UnitOfLength {
    UnitOfLength { name, millimetres }
}

/// The unit in which a browser shows an SVG that names none: 96 to the inch (CSS Values and Units).
pub(in crate::formats) const PIXELS: UnitOfLength = unit("pixels of 1/96 inch", 25.4 / 96.0);
const MILLIMETRES: UnitOfLength = unit("millimetres", 1.0);
const INCHES: UnitOfLength = unit("inches", 25.4);

/// The unit of a file's numbers.
#[derive(Clone, Debug, PartialEq)]
pub struct FileUnit {
    /// The unit.
    pub unit: UnitOfLength,
    /// How it is known.
    pub known: Known,
}

/// How a unit is known.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Known {
    /// The file says so where its format has a place for it.
    Stated,
    /// The file says so in a remark.
    Remark,
    /// The user said so.
    Told,
    /// The file does not say. Why this one is the likely one; and whether the format could have said.
    Likely {
        /// The reason, with the sizes that the units would make.
        reason: String,
        /// Whether a file of this edition can carry its unit.
        could_say: bool,
    },
}

/// The unit that a remark names, as our own files do: "1 drawing unit = 1 mm".
pub(in crate::formats) fn in_remark(remark: &str) -> Option<LengthUnit> {
    let (_, rest) = remark.split_once("1 drawing unit = 1 ")?;
    let symbol: String = rest.chars().take_while(char::is_ascii_alphabetic).collect();
    LengthUnit::from_symbol(&symbol)
}

/// What the numbers of a file without a unit look like.
#[derive(Clone, Debug, Default)]
pub(in crate::formats) struct Evidence {
    /// Size overall in units of the file.
    pub(in crate::formats) size: (f64, f64),
    /// Radii, and lengths of straight edges along the axes, in units of the file.
    pub(in crate::formats) sizes: Vec<f64>,
    /// What `$MEASUREMENT` says: true metric, false English.
    pub(in crate::formats) metric: Option<bool>,
    /// Whether a browser's pixel is the unit by default.
    pub(in crate::formats) pixels: bool,
}

/// Sizes of outlines are looked at up to this many.
const MOST_SIZES: usize = 4000;

/// What the sizes of a drawing say about its unit.
pub(in crate::formats) fn evidence(collector: &Collector) -> Evidence {
    let mut bounds: Option<Rect> = None;
    let mut sizes = Vec::new();
    for drawn in &collector.drawn {
        let DrawnShape::Run { segments, .. } = &drawn.shape else {
            continue;
        };
        for segment in segments {
            let own = segment.bounds();
            bounds = Some(bounds.map_or(own, |sum| sum.union(own)));
            if sizes.len() >= MOST_SIZES || drawn.deviation > 0.0 {
                continue;
            }
            match segment {
                Segment::Arc(arc) => sizes.push(arc.radius()),
                Segment::Line(line) => {
                    let along = line.end - line.start;
                    if along.x == 0.0 || along.y == 0.0 {
                        sizes.push(along.x.abs() + along.y.abs());
                    }
                }
            }
        }
    }
    let size = bounds.map_or((0.0, 0.0), |bounds| (bounds.width(), bounds.height()));
    Evidence {
        size,
        sizes,
        ..Evidence::default()
    }
}

/// The likely unit, and the reason.
pub(in crate::formats) fn likely(evidence: &Evidence) -> (UnitOfLength, String) {
    let longest = evidence.size.0.max(evidence.size.1);
    let (unit, why) = by_numbers(evidence)
        .or_else(|| by_measurement(evidence))
        .unwrap_or_else(|| by_size(evidence, longest));
    let shown = |unit: UnitOfLength| {
        let side = |value: f64| trimmed(value * unit.millimetres, 1);
        format!("{} × {} mm", side(evidence.size.0), side(evidence.size.1))
    };
    let mut others = vec![MILLIMETRES, INCHES];
    if evidence.pixels {
        others.push(PIXELS);
    }
    let others: Vec<String> = others
        .into_iter()
        .filter(|other| *other != unit)
        .map(|other| format!("{} would make it {}", other.name, shown(other)))
        .collect();
    let reason = format!(
        "{} make it {}; {why}; {}",
        unit.name,
        shown(unit),
        others.join(", ")
    );
    (unit, reason)
}

/// Share of sizes that must speak for a unit.
const MOST: f64 = 0.4;

fn is_whole(value: f64, parts: f64) -> bool {
    let scaled = value * parts;
    (scaled - scaled.round()).abs() <= 2e-5 * parts && scaled.round() != 0.0
}

fn by_numbers(evidence: &Evidence) -> Option<(UnitOfLength, &'static str)> {
    let total = evidence.sizes.len();
    if total == 0 {
        return None;
    }
    let share = |fits: &dyn Fn(f64) -> bool| {
        let count = evidence.sizes.iter().filter(|&&size| fits(size)).count();
        // counts are below 2^52
        #[expect(clippy::cast_precision_loss, reason = "far below 2^52")]
        let share = count as f64 / total as f64;
        share
    };
    let half_unit = |size: f64| is_whole(size, 2.0);
    let fraction = |size: f64| is_whole(size, 64.0) && !is_whole(size, 10.0);
    let converted = |size: f64| is_whole(size / 25.4, 64.0) && !half_unit(size);
    let pixels = |size: f64| is_whole(size * PIXELS.millimetres, 2.0) && !half_unit(size);
    if share(&converted) > MOST {
        return Some((
            MILLIMETRES,
            "most sizes are whole 64ths of an inch, times 25.4",
        ));
    }
    if share(&fraction) > MOST / 2.0 {
        return Some((INCHES, "many sizes are eighths, sixteenths … of a unit"));
    }
    if evidence.pixels && share(&pixels) > MOST {
        return Some((
            PIXELS,
            "most sizes are whole or half millimetres at 96 units an inch",
        ));
    }
    let large = evidence.size.0.max(evidence.size.1) >= SMALL;
    (share(&half_unit) > MOST && large && !evidence.pixels)
        .then_some((MILLIMETRES, "most sizes are whole or half units"))
}

fn by_measurement(evidence: &Evidence) -> Option<(UnitOfLength, &'static str)> {
    let why = "the file says which system it was drawn in ($MEASUREMENT)";
    let unit = if evidence.metric? {
        MILLIMETRES
    } else {
        INCHES
    };
    Some((unit, why))
}

/// Parts smaller than this in millimetres are rare.
const SMALL: f64 = 25.0;
/// Parts larger than this in inches are rare: 5 m.
const LARGE: f64 = 200.0;

fn by_size(evidence: &Evidence, longest: f64) -> (UnitOfLength, &'static str) {
    if evidence.pixels {
        return (
            PIXELS,
            "a browser shows it so, and the file says nothing else",
        );
    }
    if longest < SMALL {
        (INCHES, "in millimetres it would be very small")
    } else if longest > LARGE {
        (MILLIMETRES, "in inches it would be very large")
    } else {
        (MILLIMETRES, "both are possible, so ask")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of(size: (f64, f64), sizes: &[f64]) -> (&'static str, String) {
        let (unit, reason) = likely(&Evidence {
            size,
            sizes: sizes.to_vec(),
            ..Evidence::default()
        });
        (unit.name, reason)
    }

    #[test]
    fn the_numbers_tell_inches_from_millimetres() {
        let (unit, reason) = of((12.0, 8.0), &[12.0, 8.0, 0.375, 0.1875, 2.625]);
        assert_eq!(unit, "inches", "{reason}");
        assert!(
            reason.contains("304.8 × 203.2 mm") && reason.contains("12 × 8 mm"),
            "{reason}"
        );
        let (unit, reason) = of((304.8, 203.2), &[304.8, 203.2, 9.525, 4.7625]);
        assert_eq!(unit, "millimetres", "{reason}");
        assert!(reason.contains("25.4"), "{reason}");
        let (unit, reason) = of((305.0, 974.0), &[305.0, 884.0, 90.0, 6.5]);
        assert_eq!(unit, "millimetres", "{reason}");
        assert_eq!(of((3.1, 2.7), &[]).0, "inches", "too small for millimetres");
    }

    #[test]
    fn our_own_remark_is_understood() {
        let remark = "Units: inches (1 drawing unit = 1 in)";
        assert_eq!(in_remark(remark), Some(LengthUnit::Inch), "{remark}");
        assert_eq!(in_remark("1 drawing unit = 1 cubit"), None, "no unit");
    }
}
