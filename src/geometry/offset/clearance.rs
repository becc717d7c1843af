//! Distances between whole curves: the least, exactly, and a bound for the greatest.

use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::geometry::number;

use super::crossing::circle_circle;
use super::crossing::line_circle;
use super::curve::Curve;
use super::curve::Extent;
use super::curve::Round;
use super::curve::Shape;

/// Square of the distance between two upright rectangles.
pub(super) fn boxes_apart_squared(a: Rect, b: Rect) -> f64 {
    let x = (b.x0 - a.x1).max(a.x0 - b.x1).max(0.0);
    let y = (b.y0 - a.y1).max(a.y0 - b.y1).max(0.0);
    x * x + y * y
}

/// The least distance between two curves, in millimetres.
///
/// # Accuracy
/// Exact up to rounding: the closest pair is two ends, an end and a foot, two points on the line
/// through the centres, or a crossing, and all of these are tried.
///
/// # Source
/// Closed form.
pub(super) fn least_distance(a: &Curve, b: &Curve) -> f64 {
    let inside = match (a.shape(), b.shape()) {
        (Shape::Line { .. }, Shape::Line { .. }) => {
            if lines_cross(a, b) {
                return 0.0;
            }
            let ends = [(a, b.start), (a, b.end), (b, a.start), (b, a.end)];
            let squares = ends.map(|(line, point)| line_to_point_squared(line, point));
            return squares.into_iter().fold(f64::INFINITY, f64::min).sqrt();
        }
        (Shape::Line { direction, length }, Shape::Arc(round)) => {
            line_to_arc(a.start, direction, length, &round)
        }
        (Shape::Arc(round), Shape::Line { direction, length }) => {
            line_to_arc(b.start, direction, length, &round)
        }
        (Shape::Arc(one), Shape::Arc(two)) => arc_to_arc(&one, &two),
    };
    let ends = a
        .distance(b.start)
        .min(a.distance(b.end))
        .min(b.distance(a.start))
        .min(b.distance(a.end));
    ends.min(inside)
}

/// Square of the distance of a point from a line.
fn line_to_point_squared(line: &Curve, point: Point) -> f64 {
    let Shape::Line { direction, length } = line.shape() else {
        return f64::INFINITY;
    };
    let to = point - line.start;
    let along = to.dot(direction);
    if along <= 0.0 {
        to.dot(to)
    } else if along >= length {
        let past = point - line.end;
        past.dot(past)
    } else {
        let beside = to.cross(direction);
        beside * beside
    }
}

fn lines_cross(a: &Curve, b: &Curve) -> bool {
    let side = |line: &Curve, point: Point| (line.end - line.start).cross(point - line.start);
    side(a, b.start) * side(a, b.end) < 0.0 && side(b, a.start) * side(b, a.end) < 0.0
}

fn line_to_arc(start: Point, direction: Vec2, length: f64, round: &Round) -> f64 {
    let to_centre = round.centre - start;
    let foot = to_centre.dot(direction);
    let height = to_centre.cross(direction).abs();
    if height >= round.radius {
        let on_line = foot >= 0.0 && foot <= length;
        let towards = start + direction * foot - round.centre;
        if on_line && round.covers(towards) {
            return height - round.radius;
        }
        return f64::INFINITY;
    }
    for point in line_circle(start, direction, round).into_iter().flatten() {
        let along = (point - start).dot(direction);
        if along >= 0.0 && along <= length && round.covers(point - round.centre) {
            return 0.0;
        }
    }
    f64::INFINITY
}

fn arc_to_arc(one: &Round, two: &Round) -> f64 {
    let apart = two.centre - one.centre;
    let Some(direction) = number::normalized(apart) else {
        // concentric: where both cover one direction, an end of one does or both are whole
        let both_whole = one.extent == Extent::Whole && two.extent == Extent::Whole;
        return if both_whole {
            (one.radius - two.radius).abs()
        } else {
            f64::INFINITY
        };
    };
    let mut least = f64::INFINITY;
    for point in circle_circle(one, two).into_iter().flatten() {
        if one.covers(point - one.centre) && two.covers(point - two.centre) {
            let off = (number::length(point - one.centre) - one.radius).abs()
                + (number::length(point - two.centre) - two.radius).abs();
            least = least.min(off);
        }
    }
    for first in [direction, -direction] {
        if !one.covers(first) {
            continue;
        }
        let from = one.centre + first * one.radius;
        for second in [direction, -direction] {
            if two.covers(second) {
                let to = two.centre + second * two.radius;
                least = least.min(number::length(to - from));
            }
        }
    }
    least
}

/// A bound for the greatest distance from any point of `curve` to `other`, in millimetres: never too
/// small, and exact where a single feature of `other` answers for the whole curve (but for a line
/// that answers with an end and its inside in turn: there an arc's bow is added).
///
/// # Source
/// Closed form; the distance from a convex set is a convex function, so along a chord its greatest
/// value lies at an end.
pub(super) fn greatest_distance(curve: &Curve, other: &Curve) -> f64 {
    let mut bound = farthest(curve, other.start).min(farthest(curve, other.end));
    match other.shape() {
        Shape::Line { direction, length } => {
            let at_ends = other.distance(curve.start).max(other.distance(curve.end));
            let along = match curve.shape() {
                Shape::Line { .. } => at_ends,
                Shape::Arc(round) => beside_line(curve, &round, (other.start, direction, length))
                    .unwrap_or(at_ends + bow(curve)),
            };
            bound.min(along)
        }
        Shape::Arc(round) => {
            if faces(curve, &round) {
                let outside = farthest(curve, round.centre) - round.radius;
                let inside = round.radius - curve.distance(round.centre);
                bound = bound.min(outside.max(inside));
            }
            bound
        }
    }
}

/// The greatest distance from the curve to a point.
fn farthest(curve: &Curve, point: Point) -> f64 {
    let ends = number::length(curve.start - point).max(number::length(curve.end - point));
    match curve.shape() {
        Shape::Line { .. } => ends,
        Shape::Arc(round) => {
            let away = round.centre - point;
            if round.covers(away) {
                number::length(away) + round.radius
            } else {
                ends
            }
        }
    }
}

/// The greatest distance of an arc from a line, if no point of it lies beyond the line's ends.
fn beside_line(
    curve: &Curve,
    round: &Round,
    (start, direction, length): (Point, Vec2, f64),
) -> Option<f64> {
    let normal = number::left_normal(direction);
    let mut greatest = 0.0_f64;
    let mut look = |point: Point| {
        let to = point - start;
        let along = to.dot(direction);
        greatest = greatest.max(to.dot(normal).abs());
        along >= 0.0 && along <= length
    };
    let mut beside = look(curve.start) && look(curve.end);
    for way in [direction, -direction, normal, -normal] {
        if round.covers(way) {
            beside &= look(round.centre + way * round.radius);
        }
    }
    beside.then_some(greatest)
}

/// Whether every point of the curve lies in a direction from the arc's centre that the arc covers.
fn faces(curve: &Curve, round: &Round) -> bool {
    if round.extent == Extent::Whole {
        return true;
    }
    let (from, to) = (curve.start - round.centre, curve.end - round.centre);
    if !round.covers(from) || !round.covers(to) {
        return false;
    }
    match curve.shape() {
        // no more than half a turn is convex; beyond, the chord must stay on one side
        Shape::Line { .. } => {
            round.extent == Extent::Minor || from.dot(to) > 0.0 && round.covers(from + to)
        }
        Shape::Arc(own) => [round.from(), round.to()].into_iter().all(|ray| {
            // the arc does not pass the rays that bound the directions
            let inside = |point: Point| {
                ray.dot(point - round.centre) > 0.0
                    && own.covers(point - own.centre)
                    && number::length(point - curve.start) > 1e-9
                    && number::length(point - curve.end) > 1e-9
            };
            !line_circle(round.centre, ray, &own)
                .into_iter()
                .flatten()
                .any(inside)
        }),
    }
}

/// Height of the curve over its chord; for more than half a turn, its diameter.
fn bow(curve: &Curve) -> f64 {
    match curve.shape() {
        Shape::Line { .. } => 0.0,
        Shape::Arc(round) => match round.extent {
            Extent::Minor => {
                let half = number::length(curve.end - curve.start) / 2.0;
                let r = round.radius;
                // r − √(r² − h²) without loss
                let depth = ((r - half) * (r + half)).max(0.0).sqrt();
                half * half / (r + depth)
            }
            Extent::Major | Extent::Whole => 2.0 * round.radius,
        },
    }
}
