//! A line or arc prepared for being asked many questions: directions normalised once, bounds known,
//! no angle computed unless needed.

use crate::geometry::Arc;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;

/// A line or arc with what is asked of it most.
#[derive(Clone, Copy, Debug)]
pub(super) struct Curve {
    pub(super) start: Point,
    pub(super) end: Point,
    pub(super) shape: Shape,
    pub(super) bounds: Rect,
}

#[derive(Clone, Copy, Debug)]
pub(super) enum Shape {
    Line { direction: Vec2, length: f64 },
    Arc(Round),
}

/// The circle an arc lies on and the part of it that it covers.
#[derive(Clone, Copy, Debug)]
pub(super) struct Round {
    pub(super) centre: Point,
    pub(super) radius: f64,
    /// +1 anticlockwise, −1 clockwise.
    pub(super) sign: f64,
    /// Unit vectors from the centre to the two ends.
    pub(super) from: Vec2,
    pub(super) to: Vec2,
    pub(super) extent: Extent,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Extent {
    /// At most half a turn.
    Minor,
    /// More than half a turn.
    Major,
    Whole,
}

impl Round {
    /// Whether the direction from the centre passes through the arc, ends included.
    pub(super) fn covers(&self, direction: Vec2) -> bool {
        let (first, last) = if self.sign > 0.0 {
            (self.from, self.to)
        } else {
            (self.to, self.from)
        };
        // from first to last anticlockwise, the middle lies along the chord's right-hand normal
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

    /// Angle covered, positive.
    pub(super) fn angle(&self) -> f64 {
        let turn = number::turn(self.from, self.to) * self.sign;
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

    fn point(&self, angle: f64) -> Point {
        self.centre + number::rotated(self.from, angle * self.sign) * self.radius
    }

    /// Unit vector of travel where the unit vector from the centre is `outward`.
    fn travel(&self, outward: Vec2) -> Vec2 {
        number::left_normal(outward) * self.sign
    }

    fn bounds(&self, start: Point, end: Point) -> Rect {
        let mut bounds = Rect::from_points(start, end);
        let (c, r) = (self.centre, self.radius);
        if self.covers(Vec2::new(1.0, 0.0)) {
            bounds.x1 = bounds.x1.max(c.x + r);
        }
        if self.covers(Vec2::new(0.0, 1.0)) {
            bounds.y1 = bounds.y1.max(c.y + r);
        }
        if self.covers(Vec2::new(-1.0, 0.0)) {
            bounds.x0 = bounds.x0.min(c.x - r);
        }
        if self.covers(Vec2::new(0.0, -1.0)) {
            bounds.y0 = bounds.y0.min(c.y - r);
        }
        bounds
    }
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
            shape: Shape::Line { direction, length },
            bounds: Rect::from_points(start, end),
        }
    }

    /// The arc about `centre` between two points known to lie on the circle.
    pub(super) fn arc(start: Point, end: Point, circle: Circle, extent: Extent) -> Self {
        let Circle {
            centre,
            radius,
            sign,
        } = circle;
        let from = number::normalized(start - centre).unwrap_or(Vec2::new(1.0, 0.0));
        let to = number::normalized(end - centre).unwrap_or(from);
        let round = Round {
            centre,
            radius,
            sign,
            from,
            to,
            extent,
        };
        Self {
            start,
            end,
            bounds: round.bounds(start, end),
            shape: Shape::Arc(round),
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
        match self.shape {
            Shape::Line { .. } => Segment::line(self.start, self.end),
            Shape::Arc(round) => {
                let sweep = round.angle() * round.sign;
                let circle = (round.centre, round.radius);
                Segment::Arc(Arc::from_parts((self.start, self.end), circle, sweep))
            }
        }
    }

    pub(super) fn length(&self) -> f64 {
        match self.shape {
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
        match self.shape {
            Shape::Line { direction, .. } => self.start + direction * along,
            Shape::Arc(round) => round.point(along / round.radius),
        }
    }

    pub(super) fn middle(&self) -> Point {
        match self.shape {
            Shape::Line { .. } => self.start.midpoint(self.end),
            Shape::Arc(round) => round.point(round.angle() / 2.0),
        }
    }

    /// How far along the curve the foot of `point` lies, in millimetres; below 0 before the start.
    pub(super) fn along(&self, point: Point) -> f64 {
        match self.shape {
            Shape::Line { direction, .. } => (point - self.start).dot(direction),
            Shape::Arc(round) => {
                let turn = number::turn(round.from, point - round.centre) * round.sign;
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
        match self.shape {
            Shape::Line { direction, .. } => direction,
            Shape::Arc(round) => round.travel(round.from),
        }
    }

    pub(super) fn end_direction(&self) -> Vec2 {
        match self.shape {
            Shape::Line { direction, .. } => direction,
            Shape::Arc(round) => round.travel(round.to),
        }
    }

    /// Anticlockwise positive, 1/mm.
    pub(super) fn curvature(&self) -> f64 {
        match self.shape {
            Shape::Line { .. } => 0.0,
            Shape::Arc(round) => round.sign / round.radius,
        }
    }

    pub(super) fn is_whole(&self) -> bool {
        matches!(self.shape, Shape::Arc(round) if round.extent == Extent::Whole)
    }

    /// The part between two places along it, `from < to`.
    pub(super) fn part(&self, from: f64, to: f64) -> Self {
        let (start, end) = (self.point_at(from), self.point_at(to));
        self.between(start, end, to - from)
    }

    /// The same curve between other ends on it, `length` apart along it.
    pub(super) fn between(&self, start: Point, end: Point, length: f64) -> Self {
        match self.shape {
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
    pub(super) fn reversed(&self) -> Self {
        let shape = match self.shape {
            Shape::Line { direction, length } => Shape::Line {
                direction: -direction,
                length,
            },
            Shape::Arc(round) => Shape::Arc(Round {
                sign: -round.sign,
                from: round.to,
                to: round.from,
                ..round
            }),
        };
        Self {
            start: self.end,
            end: self.start,
            shape,
            bounds: self.bounds,
        }
    }

    /// Nearest distance from a point, in millimetres.
    pub(super) fn distance(&self, point: Point) -> f64 {
        match self.shape {
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

    /// Rectangles that together cover the curve, each at most about four cells long.
    pub(super) fn boxes(&self, cell: f64, mut visit: impl FnMut(Rect)) {
        let wide = self.bounds.width() > 4.0 * cell && self.bounds.height() > 4.0 * cell;
        let bent = matches!(self.shape, Shape::Arc(_))
            && self.bounds.width().max(self.bounds.height()) > 4.0 * cell;
        if !wide && !bent {
            visit(self.bounds);
            return;
        }
        let length = self.length();
        let count = (length / (4.0 * cell)).ceil().clamp(1.0, 1e6);
        let step = length / count;
        let bow = match self.shape {
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
}

/// A circle and the way it is run.
#[derive(Clone, Copy, Debug)]
pub(super) struct Circle {
    pub(super) centre: Point,
    pub(super) radius: f64,
    pub(super) sign: f64,
}

impl Round {
    pub(super) const fn circle(&self) -> Circle {
        Circle {
            centre: self.centre,
            radius: self.radius,
            sign: self.sign,
        }
    }
}

impl Curve {
    /// The end of this curve that is nearer to the other one: a place to name in a message.
    pub(super) fn nearest_end(&self, other: &Self) -> Point {
        if other.distance(self.start) <= other.distance(self.end) {
            self.start
        } else {
            self.end
        }
    }
}

impl Curve {
    /// Unit vector of travel `along` millimetres from the start.
    pub(super) fn part_direction(&self, along: f64) -> Vec2 {
        match self.shape {
            Shape::Line { direction, .. } => direction,
            Shape::Arc(round) => round.travel(number::rotated(
                round.from,
                along / round.radius * round.sign,
            )),
        }
    }
}

impl Curve {
    /// Twice the signed area between the curve and the two lines from `origin` to its ends.
    pub(super) fn twice_area(&self, origin: Point) -> f64 {
        let triangle = (self.start - origin).cross(self.end - origin);
        match self.shape {
            Shape::Line { .. } => triangle,
            Shape::Arc(round) => {
                let sweep = round.angle() * round.sign;
                triangle + round.radius * round.radius * number::angle_minus_sine(sweep)
            }
        }
    }
}
