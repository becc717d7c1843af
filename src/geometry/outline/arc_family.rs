//! The arcs that leave one directed circle and arrive at another, tangent to both: one for each
//! curvature. At curvature 0 it is the straight tangent.

use crate::geometry::Point;
use crate::geometry::Vec2;
use crate::geometry::construct::DirectedCircle;
use crate::geometry::number;
use crate::geometry::tolerance;

/// Where a run leaves the one circle and arrives at the other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Run {
    pub(super) start: Point,
    pub(super) end: Point,
}

/// The point of a directed circle at which the left normal of travel is `normal` (unit); a point is
/// itself, to the last bit.
pub(super) fn at_normal(circle: DirectedCircle, normal: Vec2) -> Point {
    if circle.signed_radius == 0.0 {
        circle.centre
    } else {
        circle.centre - normal * circle.signed_radius
    }
}

/// The arc of signed radius `radius` that leaves `from` and arrives at `to` tangent to both, the one
/// of at most half a turn: its centre and ends. `None` when the radius is out of
/// [`least_radius`]'s range.
pub(super) fn curved(
    from: DirectedCircle,
    to: DirectedCircle,
    radius: f64,
) -> Option<(Point, Run)> {
    let between = to.centre - from.centre;
    let distance = number::length(between);
    let (first, second) = (radius - from.signed_radius, radius - to.signed_radius);
    // |c − c₁| = |r − r₁| and |c − c₂| = |r − r₂|; the difference of the squares is a product of
    // differences, which keeps its digits for a nearly straight arc
    let along = distance / 2.0
        + (to.signed_radius - from.signed_radius) * (first + second) / (2.0 * distance);
    let across = (first.abs() - along) * (first.abs() + along);
    // exactly half a turn may come out a few digits below zero
    let reachable = across >= -tolerance::SAME_DIRECTION * first * first;
    if !reachable || distance == 0.0 || first == 0.0 || second == 0.0 {
        return None;
    }
    let unit = between / distance;
    let height = across.max(0.0).sqrt().copysign(radius);
    let centre = from.centre + unit * along + number::left_normal(unit) * height;
    let run = Run {
        start: at_normal(from, (centre - from.centre) / first),
        end: at_normal(to, (centre - to.centre) / second),
    };
    Some((centre, run))
}

/// The least radius (without sign) with which an arc turning as `sign` can run from `from` to `to`
/// in half a turn, outside both circles or round both.
pub(super) fn least_radius(from: DirectedCircle, to: DirectedCircle, sign: f64) -> f64 {
    let distance = number::length(to.centre - from.centre);
    let (first, second) = (from.signed_radius * sign, to.signed_radius * sign);
    f64::midpoint(distance, first + second)
        .max(first)
        .max(second)
}
