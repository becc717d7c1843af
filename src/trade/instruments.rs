//! Measuring instruments: how far each may be off.

use super::Figure;
use super::Mark;
use super::TradeError;
use super::names;

/// A measuring instrument: what it may be off by, and how finely a person reads it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Instrument {
    /// Its name.
    pub name: &'static str,
    /// Other names it is found by.
    pub aliases: &'static [&'static str],
    /// How far it may be off.
    pub error: ErrorLaw,
    /// How far a careful reading is off, either way, in millimetres.
    pub reading: Figure,
    /// The longest distance it measures, in millimetres, where it has an end.
    pub reach: Option<f64>,
}

/// How the permitted error of an instrument goes with the length measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ErrorLaw {
    /// a + b·L, with L in metres rounded up to the next whole one, and c more from an end or hook.
    Tape {
        /// Part that does not depend on the length, in millimetres.
        fixed: f64,
        /// Part for each metre begun, in millimetres.
        per_metre: f64,
        /// More where one end of the length is the end of the tape or its hook, in millimetres.
        from_end: f64,
        /// How the numbers were come by.
        mark: Mark,
        /// Where they stand.
        source: &'static str,
    },
    /// The same for every length, in millimetres.
    Constant(Figure),
}

/// Where a length is measured from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MeasuredFrom {
    /// From a mark, for example 100 mm.
    Mark,
    /// From the end of the tape or rule, or its hook.
    End,
}

const DIRECTIVE: &str = "Directive 2014/32/EU, Annex X, chapter I (as UK SI 2016/1153, Schedule 1I, \
                         Table 1)";

/// Growth with heat of the scales of all of them, in 1e-6 per kelvin: they are of steel.
pub const SCALE_EXPANSION: Figure = Figure::within(
    11.7,
    (11.0, 12.0),
    Mark::ReadSecondHand,
    "Callister, Fundamentals of Materials Science and Engineering, Table B.6",
);

const fn tape(fixed: f64, per_metre: f64, from_end: f64) -> ErrorLaw {
    ErrorLaw::Tape {
        fixed,
        per_metre,
        from_end,
        mark: Mark::Read,
        source: DIRECTIVE,
    }
}

const fn reading(value: f64) -> Figure {
    Figure::exact(value, Mark::CommonPractice, "")
}

/// Every instrument of general use that is known here. Each number may be replaced by the user's own.
pub const ALL: &[Instrument] = &[
    Instrument {
        name: "tape, class I",
        aliases: &["class I tape", "tape class 1", "steel tape, class I"],
        error: tape(0.1, 0.1, 0.1),
        reading: reading(0.25),
        reach: None,
    },
    Instrument {
        name: "tape, class II",
        aliases: &[
            "tape",
            "tape measure",
            "steel tape",
            "pocket tape",
            "class II tape",
            "tape class 2",
        ],
        error: tape(0.3, 0.2, 0.2),
        reading: reading(0.25),
        reach: None,
    },
    Instrument {
        name: "tape, class III",
        aliases: &["class III tape", "tape class 3", "unmarked tape"],
        error: tape(0.6, 0.4, 0.3),
        reading: reading(0.25),
        reach: None,
    },
    Instrument {
        name: "steel rule",
        aliases: &["rule", "steel ruler", "engineer's rule"],
        // no standard was read: taken as a measure of class I of the directive, from a mark
        error: ErrorLaw::Tape {
            fixed: 0.1,
            per_metre: 0.1,
            from_end: 0.1,
            mark: Mark::CommonPractice,
            source: "",
        },
        reading: reading(0.2),
        reach: Some(1000.0),
    },
    Instrument {
        name: "calliper",
        aliases: &[
            "callipers",
            "vernier calliper",
            "digital calliper",
            "slide calliper",
        ],
        error: ErrorLaw::Constant(Figure::within(0.05, (0.02, 0.05), Mark::Remembered, "")),
        reading: reading(0.02),
        reach: Some(150.0),
    },
    Instrument {
        name: "large calliper",
        aliases: &["calliper 300", "300 mm calliper", "long calliper"],
        error: ErrorLaw::Constant(Figure::within(0.08, (0.03, 0.1), Mark::Remembered, "")),
        reading: reading(0.02),
        reach: Some(300.0),
    },
    Instrument {
        name: "micrometer",
        aliases: &["outside micrometer", "micrometer screw"],
        error: ErrorLaw::Constant(Figure::within(0.01, (0.004, 0.01), Mark::Remembered, "")),
        reading: reading(0.005),
        reach: Some(25.0),
    },
];

/// Instruments for gaps, which take no other length.
pub const GAPS: &[Instrument] = &[Instrument {
    name: "feeler gauges",
    aliases: &["feeler gauge", "feelers", "feeler blades"],
    // several leaves on each other
    error: ErrorLaw::Constant(Figure::within(0.02, (0.01, 0.05), Mark::CommonPractice, "")),
    // between the leaf that goes in and the next that does not
    reading: reading(0.05),
    reach: Some(10.0),
}];

impl Instrument {
    /// How far the instrument itself may be off over `length`, either way, both in millimetres.
    ///
    /// # Source
    /// Tapes: Directive 2014/32/EU, Annex X, chapter I: ±(a + b·L), "L is the value of the length
    /// rounded up to the next whole metre"; c is added when an end surface bounds the length. At
    /// 20 °C and, from 5 m on, a pull of 50 N.
    pub fn permissible_error(&self, length: f64, from: MeasuredFrom) -> f64 {
        match self.error {
            ErrorLaw::Tape {
                fixed,
                per_metre,
                from_end,
                ..
            } => {
                let metres = (length.abs() / 1000.0).ceil().max(1.0);
                let end = match from {
                    MeasuredFrom::Mark => 0.0,
                    MeasuredFrom::End => from_end,
                };
                fixed + per_metre * metres + end
            }
            ErrorLaw::Constant(figure) => figure.value,
        }
    }

    /// How far a measured length may be off in the worst case, either way, in millimetres: the
    /// instrument and the reading of it.
    pub fn worst_error(&self, length: f64, from: MeasuredFrom) -> f64 {
        self.permissible_error(length, from) + self.reading.value
    }

    /// Whether it measures so long a distance, in millimetres, in one go.
    pub fn reaches(&self, length: f64) -> bool {
        self.reach.is_none_or(|reach| length <= reach)
    }
}

/// The instrument called so.
///
/// # Errors
/// [`TradeError::UnknownInstrument`] with the nearest names.
///
/// # Example
/// A pocket tape cannot prove ±0.5 mm on a board of 1.2 m:
/// ```
/// use kerfwise::trade::instruments;
///
/// let tape = instruments::find("tape")?;
/// let error = tape.permissible_error(1200.0, instruments::MeasuredFrom::End);
/// assert!((error - 0.9).abs() < 1e-12, "mm");
/// # Ok::<(), kerfwise::trade::TradeError>(())
/// ```
pub fn find(name: &str) -> Result<&'static Instrument, TradeError> {
    let all = || ALL.iter().chain(GAPS);
    let known = || all().map(|instrument| (instrument.name, instrument.aliases));
    names::place(name, known())
        .and_then(|place| all().nth(place))
        .ok_or_else(|| TradeError::UnknownInstrument {
            asked: name.to_owned(),
            nearest: names::nearest(name, known()),
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn tapes_may_be_off_by_what_the_directive_says() {
        // Directive 2014/32/EU, Annex X, chapter I: a + b·L for L = 1, 2, 3 and 5 m
        for (length, expected) in [
            (300.0, [0.2, 0.5, 1.0]),
            (1000.0, [0.2, 0.5, 1.0]),
            (1000.1, [0.3, 0.7, 1.4]),
            (1200.0, [0.3, 0.7, 1.4]),
            (2000.0, [0.3, 0.7, 1.4]),
            (3000.0, [0.4, 0.9, 1.8]),
            (5000.0, [0.6, 1.3, 2.6]),
        ] {
            for (name, expected) in ["tape, class I", "tape, class II", "tape, class III"]
                .into_iter()
                .zip(expected)
            {
                let tape = find(name).expect(name);
                let error = tape.permissible_error(length, MeasuredFrom::Mark);
                assert!(
                    (error - expected).abs() < 1e-12,
                    "{name}, {length} mm: {error} for {expected} mm"
                );
            }
        }
    }

    #[test]
    fn every_name_and_alias_leads_to_its_own_instrument() {
        for instrument in ALL.iter().chain(GAPS) {
            for spelling in instrument.aliases.iter().chain([&instrument.name]) {
                let found = find(spelling).map(|found| found.name);
                assert_eq!(found, Ok(instrument.name), "spelling {spelling}");
            }
        }
        assert_eq!(
            find("steel ruler").map(|found| found.name),
            Ok("steel rule"),
            "a ruler"
        );
        assert_eq!(
            find("Calipers").map(|found| found.name),
            Ok("calliper"),
            "the other spelling"
        );
        assert!(find("theodolite").is_err(), "not one of them");
    }

    #[test]
    fn callipers_reach_so_far_and_no_farther() {
        let calliper = find("calliper").expect("calliper");
        assert!(calliper.reaches(150.0), "its length");
        assert!(!calliper.reaches(150.1), "past its length");
        assert!(
            find("tape").expect("tape").reaches(1e5),
            "a tape has no end here"
        );
        assert!(
            (calliper.worst_error(100.0, MeasuredFrom::End) - 0.07).abs() < 1e-12,
            "0.05 and 0.02"
        );
    }
}
