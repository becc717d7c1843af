//! Points that lie on circles and lines.

use crate::geometry::Arc;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;

/// Chords that make an arc, at least: five ends, of which three would always do.
const FEWEST: usize = 4;

/// Lines and arcs through the points: arcs wherever so many chords in a row have their ends within `misfit`
/// of one, and themselves within `allowed`; lines between, points in one line left out.
pub(super) fn lines_and_arcs(points: &[Point], misfit: f64, allowed: f64) -> Vec<Segment> {
    let mut made: Vec<Segment> = Vec::new();
    let mut at = 0;
    // where the points that no arc has taken start
    let mut left = 0;
    while at + 1 < points.len() {
        let found = longest_arc(points, at, misfit, allowed);
        let Some((end, arc)) = found else {
            at += 1;
            continue;
        };
        lines(points.get(left..=at).unwrap_or_default(), misfit, &mut made);
        made.push(arc.into());
        at = end;
        left = end;
    }
    lines(points.get(left..).unwrap_or_default(), misfit, &mut made);
    made
}

/// The arc from one point through as many as possible, and the point at which it ends.
fn longest_arc(points: &[Point], from: usize, misfit: f64, allowed: f64) -> Option<(usize, Arc)> {
    let last = points.len() - 1;
    let fits = |to: usize| {
        points
            .get(from..=to)
            .and_then(|run| arc_through(run, misfit, allowed))
    };
    let mut good = (from + FEWEST, fits((from + FEWEST).min(last))?);
    if good.0 > last {
        return None;
    }
    let mut step = FEWEST;
    let mut bad = last + 1;
    // further and further until it fails, then by halves
    while good.0 < last && bad > good.0 + 1 {
        let next = if bad > last {
            (good.0 + step).min(last)
        } else {
            usize::midpoint(good.0, bad)
        };
        match fits(next) {
            Some(arc) => good = (next, arc),
            None => bad = next,
        }
        if bad > last && good.0 == last {
            break;
        }
        step *= 2;
    }
    Some(good)
}

/// The arc through the first and last of the points and one between, if all are within `misfit` of it, in
/// order, and the chords within `allowed`.
fn arc_through(run: &[Point], misfit: f64, allowed: f64) -> Option<Arc> {
    let (&first, &last) = (run.first()?, run.last()?);
    let count = run.len();
    if count <= FEWEST {
        return None;
    }
    let mut best: Option<(f64, Arc)> = None;
    for through in [count / 2, count / 4, 3 * count / 4] {
        let Ok(arc) = Arc::through(first, *run.get(through)?, last) else {
            continue;
        };
        if arc.radius() > tolerance::LARGEST_COORDINATE {
            continue;
        }
        let off = greatest_misfit(&arc, run);
        if best.as_ref().is_none_or(|(known, _)| off < *known) {
            best = Some((off, arc));
        }
        if off <= misfit / 4.0 {
            break;
        }
    }
    let (off, arc) = best?;
    (off <= misfit && chords_follow(&arc, run, allowed)).then_some(arc)
}

fn greatest_misfit(arc: &Arc, run: &[Point]) -> f64 {
    run.iter()
        .map(|point| (number::length(*point - arc.centre()) - arc.radius()).abs())
        .fold(0.0, f64::max)
}

/// Whether each chord goes on along the arc, and dips no deeper under it than allowed.
fn chords_follow(arc: &Arc, run: &[Point], allowed: f64) -> bool {
    let way = arc.turn().sign();
    let mut swept = 0.0;
    for pair in run.windows(2) {
        let [a, b] = pair else {
            continue;
        };
        let turn = way * number::turn(*a - arc.centre(), *b - arc.centre());
        let middle = number::length(a.midpoint(*b) - arc.centre());
        if turn <= 0.0 || (arc.radius() - middle).abs() > allowed {
            return false;
        }
        swept += turn;
    }
    (swept - arc.sweep().abs()).abs() <= 1e-6
}

/// Straight lines through the points, those in one line within `misfit` left out.
fn lines(points: &[Point], misfit: f64, made: &mut Vec<Segment>) {
    let mut start = 0;
    while start + 1 < points.len() {
        let mut end = start + 1;
        while end + 1 < points.len()
            && in_line(points.get(start..=end + 1).unwrap_or_default(), misfit)
        {
            end += 1;
        }
        if let (Some(&a), Some(&b)) = (points.get(start), points.get(end)) {
            made.push(Segment::line(a, b));
        }
        start = end;
    }
}

/// Whether all points lie on the line from the first to the last, in order.
fn in_line(run: &[Point], misfit: f64) -> bool {
    let (Some(&first), Some(&last)) = (run.first(), run.last()) else {
        return false;
    };
    let Some(direction) = number::normalized(last - first) else {
        return false;
    };
    let mut before = 0.0;
    // as many points as lie in a line are looked at again for each one more: they are few
    run.iter().take(MOST_IN_LINE + 1).all(|point| {
        let along = (*point - first).dot(direction);
        let goes_on = along >= before;
        before = along;
        goes_on && (*point - first).cross(direction).abs() <= misfit
    }) && run.len() <= MOST_IN_LINE
}

/// Points in one line that are merged at most.
const MOST_IN_LINE: usize = 512;

/// Centre and radius of the circle that fits the points best: least squares of the difference of squares.
///
/// # Source
/// Kåsa, "A circle fitting procedure and its error analysis", IEEE Transactions on Instrumentation and
/// Measurement 25 (1976), from memory: linear normal equations, here about the mean.
pub(super) fn best_circle(points: &[Point]) -> Option<(Point, f64)> {
    // whole numbers below 2^52 are exact
    #[expect(clippy::cast_precision_loss, reason = "far below 2^52")]
    let count = points.len() as f64;
    let sum: Vec2 = points
        .iter()
        .fold(Vec2::ZERO, |sum, point| sum + point.to_vec2());
    let mean = (sum / count).to_point();
    let (mut xx, mut xy, mut yy, mut xz, mut yz) = (0.0, 0.0, 0.0, 0.0, 0.0);
    for point in points {
        let at = *point - mean;
        let square = at.dot(at);
        xx += at.x * at.x;
        xy += at.x * at.y;
        yy += at.y * at.y;
        xz += at.x * square;
        yz += at.y * square;
    }
    let determinant = xx * yy - xy * xy;
    if determinant.is_nan() || determinant <= 1e-12 * (xx + yy) * (xx + yy) {
        return None;
    }
    let x = (xz * yy - yz * xy) / (2.0 * determinant);
    let y = (yz * xx - xz * xy) / (2.0 * determinant);
    let centre = mean + Vec2::new(x, y);
    let radius = points
        .iter()
        .map(|point| number::length(*point - centre))
        .sum::<f64>()
        / count;
    (radius.is_finite() && radius > 0.0).then_some((centre, radius))
}
