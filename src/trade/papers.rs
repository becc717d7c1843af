//! Papers: exact sizes, how true a sheet is cut, and how it grows with moisture.

use super::Figure;
use super::Mark;
use super::TradeError;
use super::names;

/// A sheet, upright.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Paper {
    /// Its name.
    pub name: &'static str,
    /// Other names it is found by.
    pub aliases: &'static [&'static str],
    /// Its shorter side in millimetres.
    pub width: f64,
    /// Its longer side in millimetres.
    pub height: f64,
    /// The standard that names it.
    pub source: &'static str,
}

const ISO: &str = "ISO 216";
const ANSI: &str = "ANSI/ASME Y14.1";
const USUAL: &str = "";

const fn metric(name: &'static str, width: f64, height: f64) -> Paper {
    Paper {
        name,
        aliases: &[],
        width,
        height,
        source: ISO,
    }
}

/// A sheet given in inches.
const fn inches(
    name: &'static str,
    aliases: &'static [&'static str],
    width: f64,
    height: f64,
    source: &'static str,
) -> Paper {
    Paper {
        name,
        aliases,
        width: width * 25.4,
        height: height * 25.4,
        source,
    }
}

/// Every paper that is known here: the metric ones by size, then those in inches.
///
/// # Source
/// ISO 216 (read second-hand, five copies agree); ANSI/ASME Y14.1 (read in an encyclopedia). Legal is
/// common practice.
pub const ALL: &[Paper] = &[
    metric("A5", 148.0, 210.0),
    metric("A4", 210.0, 297.0),
    metric("A3", 297.0, 420.0),
    metric("A2", 420.0, 594.0),
    metric("A1", 594.0, 841.0),
    metric("A0", 841.0, 1189.0),
    inches("letter", &["ANSI A", "US letter"], 8.5, 11.0, ANSI),
    inches("legal", &["US legal"], 8.5, 14.0, USUAL),
    inches(
        "tabloid",
        &["ANSI B", "ledger", "11x17", "US tabloid"],
        11.0,
        17.0,
        ANSI,
    ),
    inches("ANSI C", &[], 17.0, 22.0, ANSI),
    inches("ANSI D", &[], 22.0, 34.0, ANSI),
    inches("ANSI E", &[], 34.0, 44.0, ANSI),
];

/// The paper called so, in any case.
///
/// # Errors
/// [`TradeError::UnknownPaper`] with the nearest names.
///
/// # Example
/// ```
/// let paper = kerfwise::trade::papers::find("a4")?;
/// assert_eq!((paper.width, paper.height), (210.0, 297.0), "mm");
/// # Ok::<(), kerfwise::trade::TradeError>(())
/// ```
pub fn find(name: &str) -> Result<&'static Paper, TradeError> {
    let known = || ALL.iter().map(|paper| (paper.name, paper.aliases));
    names::place(name, known())
        .and_then(|place| ALL.get(place))
        .ok_or_else(|| TradeError::UnknownPaper {
            asked: name.to_owned(),
            nearest: names::nearest(name, known()),
        })
}

/// How far a sheet may be off its size `side`, either way, both in millimetres: its edges are no
/// datum.
///
/// # Source
/// ISO 216, tolerances (read second-hand).
pub const fn cut_tolerance(side: f64) -> f64 {
    if side <= 150.0 {
        1.5
    } else if side <= 600.0 {
        2.0
    } else {
        3.0
    }
}

/// How a kind of paper grows from dry to damp, in per cent of its size.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Growth {
    /// What the paper is.
    pub paper: &'static str,
    /// Along the direction in which the paper was made (usually the long side of a sheet).
    pub along: Figure,
    /// Across it.
    pub across: Figure,
}

const GROWTH: &str = "table of the paper trade; the change of humidity is not stated";

const fn growth(paper: &'static str, along: (f64, f64), across: (f64, f64)) -> Growth {
    // reckoned with the higher one: this is a caution, not a correction
    Growth {
        paper,
        along: Figure::within(along.1, along, Mark::ReadSecondHand, GROWTH),
        across: Figure::within(across.1, across, Mark::ReadSecondHand, GROWTH),
    }
}

/// Growth of common papers with moisture: a line in an error budget, never a correction.
pub const GROWTHS: &[Growth] = &[
    growth("plain (bond) paper", (0.10, 0.20), (0.20, 0.40)),
    growth("coated paper", (0.09, 0.15), (0.15, 0.35)),
    growth("carbonless paper", (0.05, 0.15), (0.20, 0.40)),
];

impl Growth {
    /// The least and the most that `length` grows across the paper, both in the unit of `length`.
    pub fn across_range(&self, length: f64) -> (f64, f64) {
        (
            length * self.across.low / 100.0,
            length * self.across.high / 100.0,
        )
    }

    /// The least and the most that `length` grows along the paper.
    pub fn along_range(&self, length: f64) -> (f64, f64) {
        (
            length * self.along.low / 100.0,
            length * self.along.high / 100.0,
        )
    }
}

/// How far printers are off at 100 %, in per cent: why patterns carry scale bars.
pub const PRINTER_SCALE: Figure = Figure::within(0.5, (0.1, 0.5), Mark::Remembered, "");

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn iso_sheets_are_halves_of_one_another() {
        // ISO 216: half of a sheet, to the millimetre below, is the next one; A0 is 1 m² of 1 : √2
        let sheet = |name| *find(name).expect(name);
        for (larger, smaller) in [
            ("A0", "A1"),
            ("A1", "A2"),
            ("A2", "A3"),
            ("A3", "A4"),
            ("A4", "A5"),
        ] {
            let (larger, smaller) = (sheet(larger), sheet(smaller));
            assert_eq!(smaller.height, larger.width, "{}", smaller.name);
            assert_eq!(
                smaller.width,
                (larger.height / 2.0).floor(),
                "{}",
                smaller.name
            );
        }
        let a0 = sheet("A0");
        assert_eq!(a0.width * a0.height, 999_949.0, "A0 in mm²");
    }

    #[test]
    fn inch_sheets_round_to_the_printed_millimetres() {
        // ANSI/ASME Y14.1 in the rounded millimetres of an encyclopedia
        for (name, width, height) in [
            ("ANSI A", 216.0, 279.0),
            ("ANSI B", 279.0, 432.0),
            ("ANSI C", 432.0, 559.0),
            ("ANSI D", 559.0, 864.0),
            ("ANSI E", 864.0, 1118.0),
        ] {
            let paper = find(name).expect(name);
            assert_eq!(
                (paper.width.round(), paper.height.round()),
                (width, height),
                "{name}"
            );
        }
        let letter = find("Letter").expect("letter");
        // 612 × 792 points of 1/72 in
        assert!(
            (letter.width / 25.4 * 72.0 - 612.0).abs() < 1e-9,
            "letter, points"
        );
        assert!(
            (letter.height / 25.4 * 72.0 - 792.0).abs() < 1e-9,
            "letter, points"
        );
    }

    #[test]
    fn damp_paper_grows_by_the_published_amounts() {
        // 600 mm of bond paper: 0.6 … 1.2 mm along, 1.2 … 2.4 mm across
        let bond = GROWTHS.first().expect("bond");
        let (low, high) = bond.along_range(600.0);
        assert!(
            (low - 0.6).abs() < 1e-12 && (high - 1.2).abs() < 1e-12,
            "along {low} {high}"
        );
        let (low, high) = bond.across_range(600.0);
        assert!(
            (low - 1.2).abs() < 1e-12 && (high - 2.4).abs() < 1e-12,
            "across {low} {high}"
        );
    }

    #[test]
    fn unknown_papers_are_answered_with_the_nearest() {
        assert_eq!(
            find("leter").map_err(|error| error.to_string()),
            Err(
                "no paper is called \"leter\" (nearest: letter; tabloid); give its width and height"
                    .to_owned()
            ),
            "one letter missing"
        );
        assert!(find("A44").is_err(), "no such sheet");
        assert_eq!(cut_tolerance(148.0), 1.5, "short side of A5");
        assert_eq!(cut_tolerance(297.0), 2.0, "long side of A4");
        assert_eq!(cut_tolerance(841.0), 3.0, "short side of A0");
    }
}
