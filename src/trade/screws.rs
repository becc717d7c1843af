//! Holes for screws: through holes, tapping drills, countersinks.
//!
//! Every number is from memory, and is marked so: a default that a person may write over by giving the hole
//! as a circle. Names of the tables they were remembered from: ISO 273 (through holes for metric screws),
//! ISO 2306 (drills to use before tapping), ISO 2009 (countersunk heads); for inch screws the usual drill
//! tables of workshops, as ASME B18.2.8 and ASME B18.6.3 have them.

use super::Mark;
use super::TradeError;
use super::names;

/// Millimetres in an inch.
const INCH: f64 = 25.4;

/// How every number here was come by.
pub const MARK: Mark = Mark::Remembered;

/// A screw, and the holes for it. Lengths in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Screw {
    /// Its name: "M8", "1/4-20".
    pub name: &'static str,
    /// Other names it is found by.
    pub aliases: &'static [&'static str],
    /// Outside diameter of its thread.
    pub diameter: f64,
    /// Pitch of its thread.
    pub pitch: f64,
    /// Diameters of through holes: fine, medium, coarse.
    pub clearance: [f64; 3],
    /// Diameter of the drill before tapping.
    pub tapping_drill: f64,
    /// Diameter of its countersunk head, to the sharp edge, if it is usual with one.
    pub head: Option<f64>,
    /// Angle of that head in degrees.
    pub head_angle: f64,
}

const fn metric(
    name: &'static str,
    (diameter, pitch): (f64, f64),
    clearance: [f64; 3],
    tapping_drill: f64,
    head: Option<f64>,
) -> Screw {
    Screw {
        name,
        aliases: &[],
        diameter,
        pitch,
        clearance,
        tapping_drill,
        head,
        head_angle: 90.0,
    }
}

const fn inch(
    (name, aliases): (&'static str, &'static [&'static str]),
    (diameter, threads): (f64, f64),
    [fine, medium, coarse]: [f64; 3],
    tapping_drill: f64,
    head: Option<f64>,
) -> Screw {
    Screw {
        name,
        aliases,
        diameter: diameter * INCH,
        pitch: INCH / threads,
        clearance: [fine * INCH, medium * INCH, coarse * INCH],
        tapping_drill: tapping_drill * INCH,
        head: match head {
            Some(head) => Some(head * INCH),
            None => None,
        },
        head_angle: 82.0,
    }
}

/// Every screw that is known here: metric ones of coarse pitch, then inch ones of coarse thread.
pub const ALL: &[Screw] = &[
    metric("M2", (2.0, 0.4), [2.2, 2.4, 2.6], 1.6, Some(4.4)),
    metric("M2.5", (2.5, 0.45), [2.7, 2.9, 3.1], 2.05, Some(5.5)),
    metric("M3", (3.0, 0.5), [3.2, 3.4, 3.6], 2.5, Some(6.3)),
    metric("M4", (4.0, 0.7), [4.3, 4.5, 4.8], 3.3, Some(9.4)),
    metric("M5", (5.0, 0.8), [5.3, 5.5, 5.8], 4.2, Some(10.4)),
    metric("M6", (6.0, 1.0), [6.4, 6.6, 7.0], 5.0, Some(12.6)),
    metric("M8", (8.0, 1.25), [8.4, 9.0, 10.0], 6.8, Some(17.3)),
    metric("M10", (10.0, 1.5), [10.5, 11.0, 12.0], 8.5, Some(20.0)),
    metric("M12", (12.0, 1.75), [13.0, 13.5, 14.5], 10.2, None),
    metric("M14", (14.0, 2.0), [15.0, 15.5, 16.5], 12.0, None),
    metric("M16", (16.0, 2.0), [17.0, 17.5, 18.5], 14.0, None),
    metric("M20", (20.0, 2.5), [21.0, 22.0, 24.0], 17.5, None),
    metric("M24", (24.0, 3.0), [25.0, 26.0, 28.0], 21.0, None),
    inch(
        ("6-32", &["#6", "No 6"]),
        (0.138, 32.0),
        [0.144, 0.1495, 0.17],
        0.1065,
        Some(0.279),
    ),
    inch(
        ("8-32", &["#8", "No 8"]),
        (0.164, 32.0),
        [0.1695, 0.177, 0.194],
        0.136,
        Some(0.332),
    ),
    inch(
        ("10-24", &["#10", "No 10"]),
        (0.19, 24.0),
        [0.196, 0.201, 0.221],
        0.1495,
        Some(0.385),
    ),
    inch(
        ("1/4-20", &["1/4 in", "1/4"]),
        (0.25, 20.0),
        [0.257, 0.266, 0.281],
        0.201,
        Some(0.507),
    ),
    inch(
        ("5/16-18", &["5/16 in", "5/16"]),
        (0.3125, 18.0),
        [0.323, 0.332, 0.348],
        0.257,
        Some(0.635),
    ),
    inch(
        ("3/8-16", &["3/8 in", "3/8"]),
        (0.375, 16.0),
        [0.386, 0.397, 0.413],
        0.3125,
        Some(0.762),
    ),
    inch(
        ("1/2-13", &["1/2 in", "1/2"]),
        (0.5, 13.0),
        [0.516, 0.531, 0.562],
        0.4219,
        None,
    ),
    inch(
        ("5/8-11", &["5/8 in", "5/8"]),
        (0.625, 11.0),
        [0.641, 0.656, 0.688],
        0.5312,
        None,
    ),
];

impl Screw {
    /// The drill before reaming a hole to the screw's own diameter, in millimetres (common practice: 0.2 mm
    /// under up to 10 mm, 0.3 mm above).
    pub fn reaming_drill(&self) -> f64 {
        self.diameter - if self.diameter <= 10.0 { 0.2 } else { 0.3 }
    }
}

/// The screw called so.
///
/// # Errors
/// [`TradeError::UnknownScrew`] with the names there are.
///
/// # Example
/// ```
/// let screw = kerfwise::trade::screws::find("m8")?;
/// assert_eq!((screw.clearance[1], screw.tapping_drill), (9.0, 6.8));
/// # Ok::<(), kerfwise::trade::TradeError>(())
/// ```
pub fn find(name: &str) -> Result<&'static Screw, TradeError> {
    // names of screws are told apart by their signs, so they are compared letter for letter
    let plain = |name: &str| name.replace(' ', "").to_lowercase();
    let asked = plain(name);
    ALL.iter()
        .find(|screw| {
            plain(screw.name) == asked || screw.aliases.iter().any(|alias| plain(alias) == asked)
        })
        .ok_or_else(|| TradeError::UnknownScrew {
            asked: name.to_owned(),
            nearest: names::nearest(name, ALL.iter().map(|screw| (screw.name, screw.aliases))),
            known: ALL.iter().map(|screw| screw.name).collect(),
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// ISO 2306 takes the drill for the thread's outside diameter less its pitch, to the next usual size;
    /// the inch tables aim at 75 % of the thread's full height, which comes to nearly the same.
    #[test]
    fn tapping_drills_are_diameter_less_pitch() {
        for screw in ALL {
            let less = screw.diameter - screw.pitch;
            let off = (screw.tapping_drill - less).abs();
            assert!(
                off < 0.16,
                "{}: {} for {less}",
                screw.name,
                screw.tapping_drill
            );
            assert!(screw.reaming_drill() < screw.diameter, "{}", screw.name);
        }
    }

    /// ISO 273 has three series, each wider than the one before and all wider than the screw.
    #[test]
    fn through_holes_widen_from_series_to_series() {
        for screw in ALL {
            let [fine, medium, coarse] = screw.clearance;
            assert!(
                screw.diameter < fine && fine < medium && medium < coarse,
                "{}: {:?}",
                screw.name,
                screw.clearance
            );
            if let Some(head) = screw.head {
                assert!(head > coarse, "{}: head of {head}", screw.name);
            }
        }
    }

    #[test]
    fn names_are_found_however_written() {
        assert_eq!(find("M 10").map(|screw| screw.name), Ok("M10"), "a space");
        assert_eq!(
            find("1/4 in").map(|screw| screw.name),
            Ok("1/4-20"),
            "by size"
        );
        assert!(find("M9").is_err(), "no such screw");
    }
}
