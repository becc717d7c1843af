//! Lines and circles with a direction of travel.

use crate::geometry::Arc;
use crate::geometry::Circle;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;

/// A circle with a way to run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DirectedCircle {
    /// Its centre.
    pub centre: Point,
    /// Its radius in millimetres, positive anticlockwise, negative clockwise; 0 is a point.
    pub signed_radius: f64,
}

impl DirectedCircle {
    /// The circle about `centre`.
    pub const fn new(centre: Point, signed_radius: f64) -> Self {
        Self {
            centre,
            signed_radius,
        }
    }

    /// The same circle run the other way.
    #[must_use]
    pub const fn reversed(&self) -> Self {
        Self::new(self.centre, -self.signed_radius)
    }

    /// The circle without its direction.
    pub const fn to_circle(&self) -> Circle {
        Circle::new(self.centre, self.signed_radius.abs())
    }

    /// The point at which it runs in this direction (a unit vector).
    pub fn point_towards(&self, direction: Vec2) -> Point {
        self.centre - number::left_normal(direction) * self.signed_radius
    }
}

/// An infinite line with a way to run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DirectedLine {
    /// A point of it.
    pub through: Point,
    /// Its direction, a unit vector.
    pub direction: Vec2,
}

impl DirectedLine {
    /// The line that carries the segment; `None` for one without length.
    pub fn along(line: &Line) -> Option<Self> {
        Some(Self {
            through: line.start,
            direction: number::normalized(line.end - line.start)?,
        })
    }

    /// The same line run the other way.
    #[must_use]
    pub fn reversed(&self) -> Self {
        Self {
            through: self.through,
            direction: -self.direction,
        }
    }

    /// Distance of a point from the line in millimetres, positive on its left.
    pub fn distance_to(&self, point: Point) -> f64 {
        self.direction.cross(point - self.through)
    }
}

/// What carries a segment: an infinite line or a whole circle, with its direction of travel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Carrier {
    /// A line.
    Line(DirectedLine),
    /// A circle.
    Circle(DirectedCircle),
}

impl Carrier {
    /// What carries the segment; `None` for a line without length.
    pub fn of(segment: &Segment) -> Option<Self> {
        match segment {
            Segment::Line(line) => DirectedLine::along(line).map(Self::Line),
            Segment::Arc(arc) => Some(Self::Circle(arc.into())),
        }
    }

    /// The same, run the other way.
    #[must_use]
    pub fn reversed(&self) -> Self {
        match self {
            Self::Line(line) => Self::Line(line.reversed()),
            Self::Circle(circle) => Self::Circle(circle.reversed()),
        }
    }

    /// How far the centre of the circle is off where it would have to be to touch this carrier with the
    /// same direction of travel, in millimetres: 0 when they are tangent.
    pub fn misfit(&self, circle: &DirectedCircle) -> f64 {
        match self {
            Self::Line(line) => line.distance_to(circle.centre) - circle.signed_radius,
            Self::Circle(own) => {
                let distance = number::length(circle.centre - own.centre);
                distance - (own.signed_radius - circle.signed_radius).abs()
            }
        }
    }

    /// The point at which the circle, known to be tangent with the same direction of travel, touches.
    /// For two circles that are one, the start of that circle's anticlockwise run.
    pub fn touch(&self, circle: &DirectedCircle) -> Point {
        match self {
            Self::Line(line) => {
                let normal = number::left_normal(line.direction);
                circle.centre - normal * line.distance_to(circle.centre)
            }
            Self::Circle(own) => {
                let difference = own.signed_radius - circle.signed_radius;
                let towards = (circle.centre - own.centre) * difference.signum();
                let unit = number::normalized(towards).unwrap_or(Vec2::new(1.0, 0.0));
                // from the smaller of the two: its place is the better known
                if own.signed_radius.abs() <= circle.signed_radius.abs() {
                    own.centre + unit * own.signed_radius
                } else {
                    circle.centre + unit * circle.signed_radius
                }
            }
        }
    }
}

impl From<&Arc> for DirectedCircle {
    /// The circle that carries the arc, run as the arc runs.
    fn from(arc: &Arc) -> Self {
        Self::new(arc.centre(), arc.signed_radius())
    }
}
