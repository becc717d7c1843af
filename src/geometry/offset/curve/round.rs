//! The circle of an arc, and the part of it that the arc covers.

use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::geometry::number;

/// A circle and the way it is run.
#[derive(Clone, Copy, Debug)]
pub(in crate::geometry::offset) struct Circle {
    pub(in crate::geometry::offset) centre: Point,
    pub(in crate::geometry::offset) radius: f64,
    /// +1 anticlockwise, −1 clockwise.
    pub(in crate::geometry::offset) sign: f64,
}

/// How much of its circle an arc covers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(in crate::geometry::offset) enum Extent {
    /// At most half a turn.
    Minor,
    /// More than half a turn.
    Major,
    Whole,
}

/// The circle an arc lies on and the part of it that it covers.
#[derive(Clone, Copy, Debug)]
pub(in crate::geometry::offset) struct Round {
    pub(in crate::geometry::offset) centre: Point,
    pub(in crate::geometry::offset) radius: f64,
    /// +1 anticlockwise, −1 clockwise.
    pub(in crate::geometry::offset) sign: f64,
    pub(in crate::geometry::offset) extent: Extent,
    /// From the centre to the two ends: about as long as the radius.
    pub(super) to_start: Vec2,
    pub(super) to_end: Vec2,
}

impl Round {
    pub(in crate::geometry::offset) const fn circle(&self) -> Circle {
        Circle {
            centre: self.centre,
            radius: self.radius,
            sign: self.sign,
        }
    }

    /// Unit vector from the centre to the start.
    pub(in crate::geometry::offset) fn from(&self) -> Vec2 {
        number::normalized(self.to_start).unwrap_or(Vec2::new(1.0, 0.0))
    }

    /// Unit vector from the centre to the end.
    pub(in crate::geometry::offset) fn to(&self) -> Vec2 {
        number::normalized(self.to_end).unwrap_or_else(|| self.from())
    }

    /// Whether the direction from the centre passes through the arc, ends included.
    pub(in crate::geometry::offset) fn covers(&self, direction: Vec2) -> bool {
        if self.extent == Extent::Whole {
            return true;
        }
        let (first, last) = self.in_turn(self.to_start, self.to_end);
        // plainly more than nothing and less than half a turn: what is left of the one and right of the
        // other is between them
        let is_wedge = first.cross(last) > 1e-9 * self.radius * self.radius;
        if self.extent == Extent::Minor && is_wedge {
            let inside = first.cross(direction).min(direction.cross(last));
            let plain = 1e-12 * self.radius * (direction.x.abs() + direction.y.abs());
            if inside.abs() > plain {
                return inside > 0.0;
            }
        }
        self.covers_between(self.in_turn(self.from(), self.to()), direction)
    }

    /// The same by the unit vectors of the ends, for directions near an end, and arcs of other angles.
    fn covers_between(&self, (first, last): (Vec2, Vec2), direction: Vec2) -> bool {
        // the middle lies along the chord's right-hand normal
        let chord = last - first;
        let middle = Vec2::new(chord.y, -chord.x);
        match self.extent {
            Extent::Whole => true,
            Extent::Minor => {
                first.cross(direction) >= 0.0
                    && direction.cross(last) >= 0.0
                    && middle.dot(direction) >= 0.0
            }
            Extent::Major => {
                !(last.cross(direction) > 0.0
                    && direction.cross(first) > 0.0
                    && middle.dot(direction) < 0.0)
            }
        }
    }

    /// What belongs to the start and to the end, in anticlockwise order.
    fn in_turn(&self, start: Vec2, end: Vec2) -> (Vec2, Vec2) {
        if self.sign > 0.0 {
            (start, end)
        } else {
            (end, start)
        }
    }

    /// Angle covered, positive.
    pub(in crate::geometry::offset) fn angle(&self) -> f64 {
        let turn = number::turn(self.from(), self.to()) * self.sign;
        match self.extent {
            Extent::Whole => number::FULL_TURN,
            Extent::Minor if turn >= 0.0 => turn,
            // half a turn with the last digit off, or nothing at all
            Extent::Minor if turn < -number::QUARTER_TURN => turn + number::FULL_TURN,
            Extent::Minor => 0.0,
            Extent::Major if turn > number::QUARTER_TURN => turn,
            Extent::Major if turn > 0.0 => number::FULL_TURN,
            Extent::Major => turn + number::FULL_TURN,
        }
    }

    /// The angle from the start to the direction from the centre, as the arc runs.
    pub(super) fn turn_to(&self, direction: Vec2) -> f64 {
        number::turn(self.from(), direction) * self.sign
    }

    /// Unit vector from the centre, turned on from the start by the angle.
    pub(super) fn outward(&self, angle: f64) -> Vec2 {
        number::rotated(self.from(), angle * self.sign)
    }

    pub(super) fn point(&self, angle: f64) -> Point {
        self.centre + self.outward(angle) * self.radius
    }

    /// Unit vector of travel where the unit vector from the centre is `outward`.
    pub(super) fn travel(&self, outward: Vec2) -> Vec2 {
        number::left_normal(outward) * self.sign
    }

    /// The smallest upright rectangle round the arc between these ends.
    pub(super) fn bounds(&self, start: Point, end: Point) -> Rect {
        let mut bounds = Rect::from_points(start, end);
        let (c, r) = (self.centre, self.radius);
        let ends = self.in_turn(self.from(), self.to());
        let covers = |x, y| self.covers_between(ends, Vec2::new(x, y));
        if covers(1.0, 0.0) {
            bounds.x1 = bounds.x1.max(c.x + r);
        }
        if covers(0.0, 1.0) {
            bounds.y1 = bounds.y1.max(c.y + r);
        }
        if covers(-1.0, 0.0) {
            bounds.x0 = bounds.x0.min(c.x - r);
        }
        if covers(0.0, -1.0) {
            bounds.y0 = bounds.y0.min(c.y - r);
        }
        bounds
    }
}
