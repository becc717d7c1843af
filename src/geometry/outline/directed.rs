//! Directed circles: circles with a sense of travel, points and lines being the limits.
//!
//! A circle run anticlockwise has a positive radius, clockwise a negative one; a point has radius 0.
//! Two directed circles touch *with the same direction of travel* exactly when the distance of their
//! centres is the difference of their signed radii. That one rule replaces the usual list of inner
//! and outer tangents.
//!
//! # Source
//! The geometry of oriented circles (Laguerre); formulas derived here in a line each.

use crate::geometry::Point;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;

/// A circle with a sense of travel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Directed {
    pub(super) centre: Point,
    /// Positive anticlockwise, 0 for a point.
    pub(super) radius: f64,
}

/// A straight or curved run from one directed circle to another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Run {
    /// Where it leaves the first.
    pub(super) start: Point,
    /// Where it arrives at the second.
    pub(super) end: Point,
}

impl Directed {
    pub(super) const fn point(at: Point) -> Self {
        Self {
            centre: at,
            radius: 0.0,
        }
    }

    /// The point at which the left normal of travel is `normal` (unit).
    pub(super) fn at_normal(&self, normal: Vec2) -> Point {
        if self.radius == 0.0 {
            self.centre
        } else {
            self.centre - normal * self.radius
        }
    }
}

/// The straight line that leaves `from` and arrives at `to` tangent to both: the ends, or `None`
/// when one circle lies inside the other.
///
/// With left normal n and direction u: n·(c₂ − c₁) = r₂ − r₁ and u·(c₂ − c₁) > 0.
pub(super) fn straight(from: Directed, to: Directed) -> Option<Run> {
    let between = to.centre - from.centre;
    let distance = number::length(between);
    let difference = to.radius - from.radius;
    let along = ((distance - difference) * (distance + difference)).sqrt();
    if !(along > 0.0) {
        return None;
    }
    let unit = between / distance;
    let direction = (unit * along - number::left_normal(unit) * difference) / distance;
    let normal = number::left_normal(direction);
    Some(Run {
        start: from.at_normal(normal),
        end: to.at_normal(normal),
    })
}

/// The arc of signed radius `radius` that leaves `from` and arrives at `to` tangent to both, the one
/// of at most half a turn: its centre and ends. `None` when the radius is out of
/// [`least_radius`]'s range.
pub(super) fn curved(from: Directed, to: Directed, radius: f64) -> Option<(Point, Run)> {
    let between = to.centre - from.centre;
    let distance = number::length(between);
    let (first, second) = (radius - from.radius, radius - to.radius);
    // |c − c₁| = |r − r₁| and |c − c₂| = |r − r₂|; the difference of the squares is a product of
    // differences, which keeps its digits for a nearly straight arc
    let along = distance / 2.0 + (to.radius - from.radius) * (first + second) / (2.0 * distance);
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
        start: from.at_normal((centre - from.centre) / first),
        end: to.at_normal((centre - to.centre) / second),
    };
    Some((centre, run))
}

/// The least radius (without sign) with which an arc turning as `sign` can run from `from` to `to`
/// in half a turn, outside both circles or round both.
pub(super) fn least_radius(from: Directed, to: Directed, sign: f64) -> f64 {
    let distance = number::length(to.centre - from.centre);
    let (first, second) = (from.radius * sign, to.radius * sign);
    f64::midpoint(distance, first + second)
        .max(first)
        .max(second)
}
