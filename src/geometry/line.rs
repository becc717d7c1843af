//! A straight segment.

use super::Point;
use super::Rect;
use super::Vec2;
use super::number;

/// A straight segment from `start` to `end`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Line {
    /// Where it starts.
    pub start: Point,
    /// Where it ends.
    pub end: Point,
}

impl Line {
    /// The segment between two points.
    pub const fn new(start: Point, end: Point) -> Self {
        Self { start, end }
    }

    /// Its length in millimetres.
    pub fn length(&self) -> f64 {
        number::length(self.end - self.start)
    }

    /// Unit vector along it; the zero vector when it has no length.
    pub fn direction(&self) -> Vec2 {
        number::normalized(self.end - self.start).unwrap_or(Vec2::ZERO)
    }

    /// The point at the fraction `t` of its length (0 the start, 1 the end; outside on its
    /// extension).
    pub fn point_at(&self, t: f64) -> Point {
        if t == 1.0 {
            return self.end;
        }
        self.start + (self.end - self.start) * t
    }

    /// The nearest point on the segment itself, ends included.
    pub fn nearest_point(&self, to: Point) -> Point {
        let along = self.end - self.start;
        let square = along.dot(along);
        if square == 0.0 {
            return self.start;
        }
        let t = (to - self.start).dot(along) / square;
        if t <= 0.0 {
            self.start
        } else if t >= 1.0 {
            self.end
        } else {
            self.start + along * t
        }
    }

    /// The smallest upright rectangle around it.
    pub fn bounds(&self) -> Rect {
        Rect::from_points(self.start, self.end)
    }

    /// The same segment run the other way.
    #[must_use]
    pub const fn reversed(&self) -> Self {
        Self {
            start: self.end,
            end: self.start,
        }
    }
}
