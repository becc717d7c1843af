//! Curves that were flattened into chords, turned back into lines and arcs.
//!
//! A program that knows no arcs writes a curve as many short chords, whose ends lie on the curve. Where
//! the ends of chords lie on one circle the arc is put back; a whole circle becomes a circle; curves that
//! are no arcs are followed by tangent arcs, as a batten through the ends of the chords. An arc that nearly
//! touches the lines beside it is made to touch them. Every replacement
//! is verified by its exact distance from the chords, both ways, and is not made if it exceeds the
//! tolerance.

mod arcs;
mod smooth;
mod tangent;

use super::Arc;
use super::Point;
use super::Segment;
use super::deviation;
use super::number;
use super::tolerance;

/// Chords in a row that may be a curve, at least.
const FEWEST_CHORDS: usize = 6;
/// Chords in a row turn by less than this at each joint, in radians: 20°.
const GENTLE: f64 = 0.35;

/// A chain with its chords turned back into curves.
#[derive(Clone, Debug, PartialEq)]
pub struct Refitted {
    /// Lines and arcs in order of travel; they start and end where the chain did.
    pub segments: Vec<Segment>,
    /// Greatest distance between them and what they replaced, both ways, in millimetres; measured.
    pub deviation: f64,
}

/// The chain with runs of chords turned back into lines and arcs, none further than `tolerance` millimetres
/// from what it replaces. The segments must follow each other; `closed` says that the last ends where the
/// first starts. What is no run of chords is left as it is.
///
/// # Accuracy
/// The deviation is measured by [`deviation::between`].
///
/// # Example
/// ```
/// use kerfwise::geometry::Point;
/// use kerfwise::geometry::Segment;
/// use kerfwise::geometry::number;
/// use kerfwise::geometry::refit::refit;
///
/// let corner = |index: u32| {
///     let angle = f64::from(index % 1000) / 1000.0 * number::FULL_TURN;
///     Point::new(40.0, 0.0) + number::unit(angle) * 25.0
/// };
/// let chords: Vec<Segment> = (0..1000).map(|i| Segment::line(corner(i), corner(i + 1))).collect();
/// let circle = refit(&chords, true, 0.01);
/// assert_eq!(circle.segments.len(), 1);
/// ```
pub fn refit(segments: &[Segment], closed: bool, tolerance: f64) -> Refitted {
    let unchanged = || Refitted {
        segments: segments.to_vec(),
        deviation: 0.0,
    };
    if segments.len() < 2 || tolerance.is_nan() || tolerance <= 0.0 {
        return unchanged();
    }
    if closed && let Some(circle) = whole_circle(segments, tolerance) {
        return circle;
    }
    let refitted = if closed {
        halved(segments)
            .and_then(|halved| ends_joined(in_runs(&halved, tolerance)))
            .unwrap_or_else(|| in_runs(&started_at_break(segments), tolerance))
    } else {
        in_runs(segments, tolerance)
    };
    if refitted.segments.len() < segments.len() {
        refitted
    } else {
        unchanged()
    }
}

/// Every run of chords turned back.
fn in_runs(segments: &[Segment], tolerance: f64) -> Refitted {
    let mut refitted = Refitted {
        segments: Vec::with_capacity(segments.len()),
        deviation: 0.0,
    };
    let mut start = 0;
    for end in 1..=segments.len() {
        let goes_on = matches!(
            (segments.get(end - 1), segments.get(end)),
            (Some(before), Some(here)) if turns_gently(before, here)
        );
        if goes_on {
            continue;
        }
        if let Some(run) = segments.get(start..end) {
            let (mut better, deviation) = run_of_chords(run, tolerance);
            refitted.segments.append(&mut better);
            refitted.deviation = refitted.deviation.max(deviation);
        }
        start = end;
    }
    refitted
}

/// A closed chain without a break begun in the middle of its longest line, so that the arcs at both its ends have
/// that line beside them; none if it has a break.
fn halved(segments: &[Segment]) -> Option<Vec<Segment>> {
    let before = segments.iter().cycle().skip(segments.len() - 1);
    let mut joints = before.zip(segments);
    if joints.any(|(before, here)| !turns_gently(before, here)) {
        return None;
    }
    let mut turned = started_at_break(segments);
    // it starts after its longest line
    let Some(Segment::Line(longest)) = turned.pop() else {
        return None;
    };
    let middle = longest.start.midpoint(longest.end);
    turned.push(Segment::line(longest.start, middle));
    turned.insert(0, Segment::line(middle, longest.end));
    Some(turned)
}

/// The line that was halved made one again; none if it became something else.
fn ends_joined(mut refitted: Refitted) -> Option<Refitted> {
    let [Segment::Line(first), .., Segment::Line(last)] = refitted.segments[..] else {
        return None;
    };
    if number::turn(last.direction(), first.direction()).abs() > tolerance::SAME_WALL {
        return None;
    }
    refitted.segments.pop();
    if let Some(one) = refitted.segments.first_mut() {
        *one = Segment::line(last.start, first.end);
    }
    Some(refitted)
}

/// Whether two segments are chords of one curve, or one line in two pieces.
fn turns_gently(before: &Segment, here: &Segment) -> bool {
    let (Segment::Line(before), Segment::Line(here)) = (before, here) else {
        return false;
    };
    number::turn(before.direction(), here.direction()).abs() < GENTLE
}

/// The same closed chain, started where a run of chords does: after a corner or an arc, else after its
/// longest line.
fn started_at_break(segments: &[Segment]) -> Vec<Segment> {
    let count = segments.len();
    let before = segments.iter().cycle().skip(count - 1);
    let broken = before
        .zip(segments)
        .position(|(before, here)| !turns_gently(before, here));
    let longest = || {
        let mut best = (0, 0.0);
        for (index, segment) in segments.iter().enumerate() {
            if segment.length() > best.1 {
                best = (index, segment.length());
            }
        }
        best.0 + 1
    };
    let mut turned = segments.to_vec();
    turned.rotate_left(broken.unwrap_or_else(longest) % count);
    turned
}

/// The points at the ends of chords, first to last.
fn ends(run: &[Segment]) -> Vec<Point> {
    let first = run.first().map(Segment::start);
    first
        .into_iter()
        .chain(run.iter().map(Segment::end))
        .collect()
}

/// The best of what a run can become, with its deviation.
fn run_of_chords(run: &[Segment], tolerance: f64) -> (Vec<Segment>, f64) {
    let mut best = (run.to_vec(), 0.0);
    if run.len() < 2 {
        return best;
    }
    let points = ends(run);
    let mut offer = |made: Vec<Segment>, tangent: bool| {
        let fewer = made.len() < best.0.len() || (tangent && made.len() == best.0.len());
        if !fewer {
            return;
        }
        if let Some((stray, _)) = deviation::between(&made, run)
            && stray.distance <= tolerance
        {
            best = (made, stray.distance);
        }
    };
    // rounding of a file with six decimals, of one with three, and whatever is allowed
    for share in [2e-3, 0.1, 0.25] {
        let misfit = (tolerance * share).max(tolerance::SAME_CIRCLE);
        let made = arcs::lines_and_arcs(&points, misfit, tolerance);
        let touching = tangent::snapped(&made);
        offer(made, false);
        if let Some(touching) = touching {
            offer(touching, true);
        }
    }
    if run.len() >= FEWEST_CHORDS && !has_long_chord(run) {
        for made in smooth::tangent_arcs(&points, tolerance) {
            offer(made, true);
        }
    }
    best
}

/// Whether one chord is so much longer than the others that it is a line of its own.
fn has_long_chord(run: &[Segment]) -> bool {
    let mut lengths: Vec<f64> = run.iter().map(Segment::length).collect();
    lengths.sort_by(f64::total_cmp);
    let middle = lengths.get(lengths.len() / 2).copied().unwrap_or(0.0);
    lengths
        .last()
        .is_some_and(|&longest| longest > 6.0 * middle)
}

/// The circle that a closed chain of chords is.
fn whole_circle(segments: &[Segment], tolerance: f64) -> Option<Refitted> {
    let lines = segments.iter().all(|s| matches!(s, Segment::Line(_)));
    if segments.len() < 2 * FEWEST_CHORDS || !lines {
        return None;
    }
    let points: Vec<Point> = segments.iter().map(Segment::start).collect();
    let (centre, radius) = arcs::best_circle(&points)?;
    let fits = points.iter().all(|point| {
        let off = number::length(*point - centre) - radius;
        off.abs() <= tolerance
    });
    // once round, and no more
    let turns: f64 = segments
        .iter()
        .map(|segment| number::turn(segment.start() - centre, segment.end() - centre))
        .sum();
    if !fits || (turns.abs() - number::FULL_TURN).abs() > 1e-6 {
        return None;
    }
    let circle = Arc::circle(centre, radius);
    let circle = if turns < 0.0 {
        circle.reversed()
    } else {
        circle
    };
    let made = vec![Segment::Arc(circle)];
    let (stray, _) = deviation::between(&made, segments)?;
    (stray.distance <= tolerance).then_some(Refitted {
        segments: made,
        deviation: stray.distance,
    })
}

#[cfg(test)]
mod tests;
