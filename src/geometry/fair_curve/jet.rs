//! A point of a curve with its derivatives, and what follows from them.

use super::super::Point;
use super::super::Vec2;
use super::super::number;

/// A point of a curve with its first three derivatives by the curve's own parameter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Jet {
    pub(super) point: Point,
    pub(super) first: Vec2,
    pub(super) second: Vec2,
    pub(super) third: Vec2,
}

impl Jet {
    /// Unit vector of travel. Where the curve stands still at its start (a Bézier curve with a
    /// handle of no length) the direction it leaves in; `None` where it has none.
    pub(super) fn direction(&self) -> Option<Vec2> {
        number::normalized(self.first)
            .or_else(|| number::normalized(self.second))
            .or_else(|| number::normalized(self.third))
    }

    /// Curvature in 1/mm, anticlockwise positive: (x′y″ − y′x″) / |r′|³.
    pub(super) fn curvature(&self) -> f64 {
        let speed = number::length(self.first);
        self.first.cross(self.second) / (speed * speed * speed)
    }

    /// Change of curvature along the curve, in 1/mm²: the derivative of the above by arc length.
    pub(super) fn curvature_slope(&self) -> f64 {
        let square = self.first.dot(self.first);
        let speed = square.sqrt();
        let by_parameter = self.first.cross(self.third) / (square * speed)
            - 3.0 * self.curvature() * self.first.dot(self.second) / square;
        by_parameter / speed
    }
}
