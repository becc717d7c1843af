//! Offsets of nasty outlines against an independent Minkowski union.
//!
//! `cargo test --test offset_fuzz` judges 20,000 cases; `cargo soak` as many as `OFFSET_CASES` says,
//! from number `OFFSET_FROM` on.
#![expect(clippy::expect_used, clippy::print_stdout, reason = "tests")]
#![expect(
    clippy::disallowed_methods,
    clippy::manual_midpoint,
    clippy::doc_markdown,
    dead_code,
    reason = "the oracle uses nothing of ours, not even its sine; its support is shared with other tests"
)]

#[path = "../support/offset_cases.rs"]
mod cases;
mod elsewhere;
mod mitre;
#[path = "../support/offset_oracle.rs"]
mod oracle;
#[path = "../support/offset_simple.rs"]
mod simple;
#[path = "../support/offset.rs"]
mod support;

use std::collections::BTreeMap;
use std::panic::catch_unwind;

use cases::Case;
use kerfwise::geometry::Contour;
use kerfwise::geometry::Point;
use kerfwise::geometry::Region;
use kerfwise::geometry::SourceId;
use kerfwise::geometry::offset::Join;
use kerfwise::geometry::offset::Offset;
use kerfwise::geometry::offset::OffsetError;
use kerfwise::geometry::offset::Tie;
use kerfwise::geometry::offset::offset;
use kerfwise::geometry::tolerance;

/// How far from the distance an edge may lie, in millimetres.
const FINE: f64 = 1e-4;
/// Flattening error of the quick oracle, in millimetres.
const QUICK: f64 = 2e-3;
/// Flattening error of the slow oracle.
const SLOW: f64 = 2e-5;
/// Flattening error where a sliver hangs on the very distance.
const FINEST: f64 = 5e-8;

#[derive(Clone, Debug, PartialEq)]
enum Verdict {
    Right,
    Tied,
    Refused(String),
    Wrong(String),
}

fn region_of(case: &Case) -> Result<Region, String> {
    let mut contours = Vec::new();
    for vertices in &case.contours {
        let is_circle = vertices.len() == 2 && vertices.iter().all(|v| v.2 == 1.0);
        let contour = if is_circle && case.whole_circles {
            let (a, b) = (vertices[0], vertices[1]);
            let centre = Point::new((a.0 + b.0) / 2.0, (a.1 + b.1) / 2.0);
            let radius = (a.0 - b.0).hypot(a.1 - b.1) / 2.0;
            Contour::circle(centre, radius, SourceId(7))
        } else {
            Contour::from_segments(support::segments(vertices))
        };
        contours.push(contour.map_err(|error| error.to_string())?);
    }
    let outer = contours.remove(0);
    Ok(Region::new(outer, contours))
}

fn judge(case: &Case) -> Verdict {
    let region = match region_of(case) {
        Ok(region) => region,
        Err(error) => return Verdict::Refused(format!("contour: {error}")),
    };
    let found = match offset(&region, case.distance, Join::Round) {
        Ok(found) => found,
        Err(OffsetError::NotCertified { doubt, .. }) => {
            return Verdict::Refused(format!("not certified: {doubt:?}"));
        }
        Err(error) => return Verdict::Refused(format!("{error:?}")),
    };
    let edges: Vec<oracle::Edge> = case
        .contours
        .iter()
        .flat_map(|c| oracle::edges(c))
        .collect();
    let reach = case.distance.abs();
    for contour in found.regions.iter().flat_map(Region::contours) {
        for point in oracle::samples(contour) {
            let least = oracle::clearance(point, &edges);
            if (least - reach).abs() > FINE {
                return Verdict::Wrong(format!("a point at {point:?} is {least} from the source"));
            }
        }
    }
    // flatten no more finely than the shape deserves
    let quick = QUICK.min(reach * 0.02);
    let area = support::area(&found.regions);
    let own = oracle::flattened_area(&found.regions, quick);
    let perimeter = support::perimeter(&found.regions) + region.perimeter();
    if (own - area).abs() > perimeter * quick + quick {
        return Verdict::Wrong(format!("area {area} mm² of an outline of {own} mm²"));
    }
    let answer = Answer {
        found: &found,
        edges: &edges,
        area,
        perimeter,
    };
    let free = found.tie == Tie::Free;
    if free && answer.is_plainly_right(case, quick) {
        return Verdict::Right;
    }
    match answer.fault(case) {
        Some(fault) => Verdict::Wrong(fault),
        None if free => Verdict::Right,
        None => Verdict::Tied,
    }
}

/// An offset to be checked.
struct Answer<'a> {
    found: &'a Offset,
    edges: &'a [oracle::Edge],
    area: f64,
    perimeter: f64,
}

impl Answer<'_> {
    fn loops(&self) -> usize {
        support::loops(&self.found.regions)
    }

    /// Whether a rough union has the same loops, none of them in doubt, and the same area.
    fn is_plainly_right(&self, case: &Case, error: f64) -> bool {
        let union = oracle::minkowski(&case.contours, case.distance, error);
        let count = union.count(self.edges);
        let slack = self.perimeter * error + error;
        count.doubtful == 0
            && count.sure == self.loops()
            && (self.area - union.area()).abs() <= slack
    }

    /// What is wrong: the answer must lie between those for a distance smaller and larger by FINE,
    /// and so must its number of loops and its area. The edges are known to lie at the distance, so
    /// it lies between if each opening (or piece of material) is there, which a point in it tells.
    fn fault(&self, case: &Case) -> Option<String> {
        let mut bounds = Bounds::default();
        // loops may come and go between the three, so look closer before judging
        for shifts in [[-FINE, 0.0, FINE], [-0.3 * FINE, 0.3 * FINE, 0.6 * FINE]] {
            for shift in shifts {
                if let Some(fault) = self.compare(case, (shift, SLOW), &mut bounds) {
                    return Some(fault);
                }
            }
            bounds.fault(self)?;
        }
        // at last at the very distance that the answer is for: a sliver may be there for no other
        let excess = match self.found.tie {
            Tie::Free => 0.0,
            Tie::Decided { excess } => excess,
        };
        // or where a gap is closed that is wider by less than the width of a tie
        for shift in [excess, excess + FINEST + tolerance::OFFSET_TIE] {
            if let Some(fault) = self.compare(case, (shift, FINEST), &mut bounds) {
                return Some(fault);
            }
        }
        bounds.fault(self)
    }

    fn compare(
        &self,
        case: &Case,
        (shift, error): (f64, f64),
        bounds: &mut Bounds,
    ) -> Option<String> {
        let distance = case.distance + shift * case.distance.signum();
        let union = oracle::minkowski(&case.contours, distance, error);
        let count = union.count(self.edges);
        for &(point, beyond) in &count.witnesses {
            let known = beyond + shift > 2.0 * FINE;
            if known && oracle::is_in(&self.found.regions, point, FINE) != (distance < 0.0) {
                return Some(format!("{point:?} is on the wrong side"));
            }
        }
        bounds
            .counts
            .push((count.sure, count.sure + count.doubtful));
        bounds.areas.push(union.area());
        None
    }
}

/// What the unions for distances about the one asked for allow.
#[derive(Debug, Default)]
struct Bounds {
    counts: Vec<(usize, usize)>,
    areas: Vec<f64>,
}

impl Bounds {
    fn fault(&self, answer: &Answer<'_>) -> Option<String> {
        let slack = answer.perimeter * SLOW + SLOW;
        let least = self.areas.iter().copied().fold(f64::INFINITY, f64::min) - slack;
        let most = self.areas.iter().copied().fold(0.0, f64::max) + slack;
        if !(least..=most).contains(&answer.area) {
            let areas = &self.areas;
            return Some(format!("area {} mm², by union {areas:?} mm²", answer.area));
        }
        let loops = answer.loops();
        let fewest = self.counts.iter().map(|count| count.0).min();
        let greatest = self.counts.iter().map(|count| count.1).max();
        let fits = fewest.is_none_or(|fewest| loops >= fewest)
            && greatest.is_none_or(|greatest| loops <= greatest);
        (!fits).then(|| format!("{loops} loops, by union {:?}", self.counts))
    }
}

/// Judges the cases and reports; returns those that are wrong.
fn run(numbers: impl Iterator<Item = u64>) -> (Vec<String>, BTreeMap<String, usize>, usize) {
    let mut wrong = Vec::new();
    let mut refused = BTreeMap::new();
    let (mut total, mut ties) = (0, 0);
    for number in numbers {
        let case = cases::case(number);
        total += 1;
        let verdict = catch_unwind(|| judge(&case))
            .unwrap_or_else(|_| Verdict::Wrong("it panicked".to_owned()));
        match verdict {
            Verdict::Right => {}
            Verdict::Tied => ties += 1,
            Verdict::Refused(why) => {
                let kind: String = why.chars().take_while(|c| !c.is_ascii_digit()).collect();
                *refused
                    .entry(format!("{}: {kind}", case.family))
                    .or_insert(0) += 1;
                if std::env::var("OFFSET_SHOW").is_ok() {
                    println!("case {number} ({}) refused: {why}", case.family);
                }
            }
            Verdict::Wrong(why) => {
                println!("case {number} ({}) is wrong: {why}", case.family);
                wrong.push(format!("case {number} ({}): {why}", case.family));
            }
        }
    }
    println!(
        "{total} cases, {ties} decided as ties, {} wrong",
        wrong.len()
    );
    for (kind, count) in &refused {
        println!("{count} refused: {kind}");
    }
    let refusals = refused.values().sum();
    (wrong, refused, refusals)
}

fn from_environment(name: &str, default: u64) -> u64 {
    std::env::var(name).map_or(default, |text| text.parse().expect("a number"))
}

#[test]
fn twenty_thousand_nasty_outlines() {
    let first = from_environment("OFFSET_FROM", 0);
    let count = from_environment("OFFSET_CASES", 20_000);
    let (wrong, refused, refusals) = run(first..first + count);
    assert!(wrong.is_empty(), "wrong answers: {wrong:#?}");
    assert!(refusals <= 2, "more than 1 in 10,000 refused: {refused:#?}");
}

/// A loop that runs back over itself exactly: each of the two pieces is the first to the left of the other.
#[test]
fn a_loop_that_lies_on_itself_comes_to_an_end() {
    let (wrong, _, _) = run(1_508_514..1_508_515);
    assert!(wrong.is_empty(), "wrong answers: {wrong:#?}");
}

#[test]
#[ignore = "runs for hours: cargo soak"]
fn soak() {
    let first = from_environment("OFFSET_FROM", 1_000_000);
    let count = from_environment("OFFSET_CASES", 1_000_000);
    let (wrong, refused, refusals) = run(first..first + count);
    assert!(wrong.is_empty(), "wrong answers: {wrong:#?}");
    let most = usize::try_from(count / 10_000).expect("a small number");
    assert!(refusals <= most.max(1), "too many refused: {refused:#?}");
}
