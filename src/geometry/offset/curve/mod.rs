//! A line or arc prepared for being asked many questions: no angle is computed unless needed.
//!
//! There are as many of them as pieces, so each is kept in 64 bytes, what follows from the rest left
//! out: [`Curve::shape`] gives what is asked of it.

mod round;

pub(super) use round::Circle;
pub(super) use round::Extent;
pub(super) use round::Round;

use crate::geometry::Arc;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Segment;
use crate::geometry::Turn;
use crate::geometry::Vec2;
use crate::geometry::number;

/// A line or arc.
#[derive(Clone, Copy, Debug)]
pub(super) struct Curve {
    pub(super) start: Point,
    pub(super) end: Point,
    form: Form,
}

const _: () = assert!(size_of::<Curve>() == 64, "one line of a processor's cache");

/// What is kept of a curve besides its ends.
#[derive(Clone, Copy, Debug)]
enum Form {
    Line {
        direction: Vec2,
        length: f64,
    },
    Arc {
        centre: Point,
        radius: f64,
        turn: Turn,
        extent: Extent,
    },
}

/// What is asked of a curve.
#[derive(Clone, Copy, Debug)]
pub(super) enum Shape {
    Line { direction: Vec2, length: f64 },
    Arc(Round),
}

impl Curve {
    /// The line between two points; `along` is its direction where it has no length.
    pub(super) fn line(start: Point, end: Point, along: Vec2) -> Self {
        let step = end - start;
        let length = number::length(step);
        let direction = number::normalized(step).unwrap_or(along);
        Self {
            start,
            end,
            form: Form::Line { direction, length },
        }
    }

    /// The arc of a circle between two points known to lie on it.
    pub(super) fn arc(start: Point, end: Point, circle: Circle, extent: Extent) -> Self {
        Self {
            start,
            end,
            form: Form::Arc {
                centre: circle.centre,
                radius: circle.radius,
                turn: Turn::of_sign(circle.sign),
                extent,
            },
        }
    }

    /// The curve of a segment, as it stands.
    pub(super) fn of_segment(segment: &Segment) -> Self {
        match segment {
            Segment::Line(line) => Self::line(line.start, line.end, Vec2::new(1.0, 0.0)),
            Segment::Arc(arc) => {
                let extent = if arc.is_circle() {
                    Extent::Whole
                } else if arc.sweep().abs() > number::HALF_TURN {
                    Extent::Major
                } else {
                    Extent::Minor
                };
                let circle = Circle {
                    centre: arc.centre(),
                    radius: arc.radius(),
                    sign: arc.turn().sign(),
                };
                Self::arc(arc.start(), arc.end(), circle, extent)
            }
        }
    }

    /// The segment of this curve.
    pub(super) fn to_segment(self) -> Segment {
        match self.shape() {
            Shape::Line { .. } => Segment::line(self.start, self.end),
            Shape::Arc(round) => {
                let sweep = round.angle() * round.sign;
                let circle = (round.centre, round.radius);
                Segment::Arc(Arc::from_parts((self.start, self.end), circle, sweep))
            }
        }
    }

    #[inline]
    pub(super) fn shape(&self) -> Shape {
        match self.form {
            Form::Line { direction, length } => Shape::Line { direction, length },
            Form::Arc {
                centre,
                radius,
                turn,
                extent,
            } => Shape::Arc(Round {
                centre,
                radius,
                sign: turn.sign(),
                extent,
                to_start: self.start - centre,
                to_end: self.end - centre,
            }),
        }
    }

    pub(super) const fn is_line(&self) -> bool {
        matches!(self.form, Form::Line { .. })
    }

    /// The smallest upright rectangle round it.
    pub(super) fn bounds(&self) -> Rect {
        match self.shape() {
            Shape::Line { .. } => Rect::from_points(self.start, self.end),
            Shape::Arc(round) => round.bounds(self.start, self.end),
        }
    }

    pub(super) fn length(&self) -> f64 {
        match self.shape() {
            Shape::Line { length, .. } => length,
            Shape::Arc(round) => round.angle() * round.radius,
        }
    }

    /// Whether it is certainly at least as long as `length`, which is cheaper than the length.
    pub(super) fn is_shorter_than(&self, length: f64) -> bool {
        let chord = self.end - self.start;
        if chord.dot(chord) >= length * length {
            return false;
        }
        self.length() < length
    }

    /// The point `along` millimetres from the start.
    pub(super) fn point_at(&self, along: f64) -> Point {
        match self.shape() {
            Shape::Line { direction, .. } => self.start + direction * along,
            Shape::Arc(round) => round.point(along / round.radius),
        }
    }

    pub(super) fn middle(&self) -> Point {
        match self.shape() {
            Shape::Line { .. } => self.start.midpoint(self.end),
            Shape::Arc(round) => round.point(round.angle() / 2.0),
        }
    }

    /// How far along the curve the foot of `point` lies, in millimetres; below 0 before the start.
    pub(super) fn along(&self, point: Point) -> f64 {
        match self.shape() {
            Shape::Line { direction, .. } => (point - self.start).dot(direction),
            Shape::Arc(round) => {
                let turn = round.turn_to(point - round.centre);
                let forward = number::positive_angle(turn);
                let sweep = round.angle();
                // the gap is shared between what lies after the end and what lies before the start
                let split = f64::midpoint(sweep, number::FULL_TURN);
                let signed = if forward > split {
                    forward - number::FULL_TURN
                } else {
                    forward
                };
                signed * round.radius
            }
        }
    }

    pub(super) fn start_direction(&self) -> Vec2 {
        match self.shape() {
            Shape::Line { direction, .. } => direction,
            Shape::Arc(round) => round.travel(round.from()),
        }
    }

    pub(super) fn end_direction(&self) -> Vec2 {
        match self.shape() {
            Shape::Line { direction, .. } => direction,
            Shape::Arc(round) => round.travel(round.to()),
        }
    }

    /// Anticlockwise positive, 1/mm.
    pub(super) fn curvature(&self) -> f64 {
        match self.shape() {
            Shape::Line { .. } => 0.0,
            Shape::Arc(round) => round.sign / round.radius,
        }
    }

    pub(super) fn is_whole(&self) -> bool {
        matches!(
            self.form,
            Form::Arc {
                extent: Extent::Whole,
                ..
            }
        )
    }

    /// The part between two places along it, `from < to`.
    pub(super) fn part(&self, from: f64, to: f64) -> Self {
        let (start, end) = (self.point_at(from), self.point_at(to));
        self.between(start, end, to - from)
    }

    /// The same curve between other ends on it, `length` apart along it.
    pub(super) fn between(&self, start: Point, end: Point, length: f64) -> Self {
        match self.shape() {
            Shape::Line { direction, .. } => Self::line(start, end, direction),
            Shape::Arc(round) => {
                let extent = if length > number::HALF_TURN * round.radius {
                    Extent::Major
                } else {
                    Extent::Minor
                };
                Self::arc(start, end, round.circle(), extent)
            }
        }
    }

    /// The same curve run the other way.
    pub(super) const fn reversed(&self) -> Self {
        let form = match self.form {
            Form::Line { direction, length } => Form::Line {
                direction: Vec2::new(-direction.x, -direction.y),
                length,
            },
            Form::Arc {
                centre,
                radius,
                turn,
                extent,
            } => Form::Arc {
                centre,
                radius,
                turn: turn.reversed(),
                extent,
            },
        };
        Self {
            start: self.end,
            end: self.start,
            form,
        }
    }

    /// Nearest distance from a point, in millimetres.
    #[inline]
    pub(super) fn distance(&self, point: Point) -> f64 {
        match self.shape() {
            Shape::Line { direction, length } => {
                let to = point - self.start;
                let along = to.dot(direction);
                if along <= 0.0 {
                    number::length(to)
                } else if along >= length {
                    number::length(point - self.end)
                } else {
                    to.cross(direction).abs()
                }
            }
            Shape::Arc(round) => {
                let to = point - round.centre;
                if round.covers(to) {
                    (number::length(to) - round.radius).abs()
                } else {
                    let (a, b) = (point - self.start, point - self.end);
                    a.dot(a).min(b.dot(b)).sqrt()
                }
            }
        }
    }

    /// Rectangles that together cover the curve, which has these bounds, each at most about four cells
    /// long.
    pub(super) fn boxes(&self, bounds: Rect, cell: f64, mut visit: impl FnMut(Rect)) {
        let wide = bounds.width() > 4.0 * cell && bounds.height() > 4.0 * cell;
        let bent = !self.is_line() && bounds.width().max(bounds.height()) > 4.0 * cell;
        if !wide && !bent {
            visit(bounds);
            return;
        }
        let length = self.length();
        let count = (length / (4.0 * cell)).ceil().clamp(1.0, 1e6);
        let step = length / count;
        let bow = match self.shape() {
            Shape::Line { .. } => 0.0,
            Shape::Arc(round) => step * step / (8.0 * round.radius) + round.radius * 1e-12,
        };
        let mut before = self.start;
        let mut index = 1.0;
        while index <= count {
            let after = if index == count {
                self.end
            } else {
                self.point_at(step * index)
            };
            visit(Rect::from_points(before, after).inflate(bow, bow));
            before = after;
            index += 1.0;
        }
    }

    /// The end of this curve that is nearer to the other one: a place to name in a message.
    pub(super) fn nearest_end(&self, other: &Self) -> Point {
        if other.distance(self.start) <= other.distance(self.end) {
            self.start
        } else {
            self.end
        }
    }

    /// Unit vector of travel `along` millimetres from the start.
    pub(super) fn part_direction(&self, along: f64) -> Vec2 {
        match self.shape() {
            Shape::Line { direction, .. } => direction,
            Shape::Arc(round) => round.travel(round.outward(along / round.radius)),
        }
    }

    /// Twice the signed area between the curve and the two lines from `origin` to its ends.
    pub(super) fn twice_area(&self, origin: Point) -> f64 {
        let triangle = (self.start - origin).cross(self.end - origin);
        match self.shape() {
            Shape::Line { .. } => triangle,
            Shape::Arc(round) => {
                let sweep = round.angle() * round.sign;
                triangle + round.radius * round.radius * number::angle_minus_sine(sweep)
            }
        }
    }
}
