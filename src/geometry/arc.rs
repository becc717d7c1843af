//! A circular arc of any sweep, up to a whole circle.

use super::GeometryError;
use super::Point;
use super::Rect;
use super::Vec2;
use super::number;
use super::tolerance;

/// A circular arc.
///
/// Both ends are kept beside centre, radius and sweep, so that neighbours share an end to the last
/// bit. The constructors see to it that the parts agree; a sweep is positive anticlockwise and lies
/// in −2π … 2π, never 0.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Arc {
    start: Point,
    end: Point,
    centre: Point,
    radius: f64,
    sweep: f64,
}

impl Arc {
    /// A whole circle, anticlockwise, starting at its rightmost point.
    pub fn circle(centre: Point, radius: f64) -> Self {
        let start = centre + Vec2::new(radius, 0.0);
        Self {
            start,
            end: start,
            centre,
            radius,
            sweep: number::FULL_TURN,
        }
    }

    /// The arc about `centre` from the direction `start_angle` through `sweep` (radians,
    /// anticlockwise positive). Its ends are computed.
    pub fn from_angles(centre: Point, radius: f64, start_angle: f64, sweep: f64) -> Self {
        let start = centre + number::unit(start_angle) * radius;
        let end = if sweep.abs() >= number::FULL_TURN {
            start
        } else {
            centre + number::unit(start_angle + sweep) * radius
        };
        Self {
            start,
            end,
            centre,
            radius,
            sweep,
        }
    }

    /// The arc of parts that the caller knows to agree.
    pub(super) const fn from_parts(
        (start, end): (Point, Point),
        (centre, radius): (Point, f64),
        sweep: f64,
    ) -> Self {
        Self {
            start,
            end,
            centre,
            radius,
            sweep,
        }
    }

    /// The arc about `centre` from `start` to `end`, anticlockwise or clockwise as asked; both ends
    /// are kept as given. Equal ends give a whole circle.
    ///
    /// The radius is the mean of the two distances; the caller answers for their being equal.
    pub fn from_centre(start: Point, end: Point, centre: Point, turn: Turn) -> Self {
        let (from, to) = (start - centre, end - centre);
        let radius = f64::midpoint(number::length(from), number::length(to));
        let anticlockwise = number::positive_angle(number::turn(from, to));
        let sweep = match turn {
            Turn::Anticlockwise if anticlockwise == 0.0 => number::FULL_TURN,
            Turn::Anticlockwise => anticlockwise,
            Turn::Clockwise => anticlockwise - number::FULL_TURN,
        };
        Self {
            start,
            end,
            centre,
            radius,
            sweep,
        }
    }

    /// The arc from `start` to `end` with the given bulge: the tangent of a quarter of its sweep,
    /// positive anticlockwise (DXF Reference, VERTEX, group code 42).
    ///
    /// # Errors
    /// [`GeometryError::ZeroLength`] when the ends are one point, [`GeometryError::NotUsable`] for a
    /// bulge that is zero or no number.
    pub fn from_bulge(start: Point, end: Point, bulge: f64) -> Result<Self, GeometryError> {
        let chord = end - start;
        let length = number::length(chord);
        if length == 0.0 {
            return Err(GeometryError::ZeroLength { at: start, length });
        }
        if !bulge.is_finite() || bulge == 0.0 {
            return Err(GeometryError::NotUsable {
                what: "bulge",
                value: bulge,
            });
        }
        let sweep = 4.0 * number::arctan(bulge);
        let radius = length * (1.0 + bulge * bulge) / (4.0 * bulge.abs());
        // distance of the centre from the chord, to its left: c (1 − b²) / 4b
        let offset = (1.0 - bulge * bulge) / (4.0 * bulge);
        let centre = start.midpoint(end) + number::left_normal(chord) * offset;
        Ok(Self {
            start,
            end,
            centre,
            radius,
            sweep,
        })
    }

    /// The arc from `start` to `end` through `middle`.
    ///
    /// # Errors
    /// [`GeometryError::PointsInLine`] when no circle runs through the three.
    pub fn through(start: Point, middle: Point, end: Point) -> Result<Self, GeometryError> {
        let (a, b) = (middle - start, end - start);
        let twice_area = a.cross(b);
        let (chord, scale) = (number::length(b), number::length(a) * number::length(b));
        // height of the middle over the chord below what counts as a point: a line
        if scale == 0.0
            || twice_area.abs() <= tolerance::SAME_POINT * chord
            || twice_area.abs() <= tolerance::SAME_DIRECTION * scale
        {
            return Err(GeometryError::PointsInLine);
        }
        let (a2, b2) = (a.dot(a), b.dot(b));
        let to_centre = Vec2::new(b.y * a2 - a.y * b2, a.x * b2 - b.x * a2) / (2.0 * twice_area);
        // walking start → middle → end turns left for an anticlockwise arc: the middle lies right
        // of the chord
        let turn = if twice_area > 0.0 {
            Turn::Anticlockwise
        } else {
            Turn::Clockwise
        };
        Ok(Self::from_centre(start, end, start + to_centre, turn))
    }

    /// The shorter arc of the given radius from `start` to `end`, turning as asked.
    ///
    /// # Errors
    /// [`GeometryError::RadiusTooSmall`] when the radius is less than half the distance.
    pub fn with_radius(
        start: Point,
        end: Point,
        radius: f64,
        turn: Turn,
    ) -> Result<Self, GeometryError> {
        let chord = end - start;
        let distance = number::length(chord);
        if distance == 0.0 {
            return Err(GeometryError::ZeroLength {
                at: start,
                length: distance,
            });
        }
        let half = distance / 2.0;
        // half a circle asked for with the last digit off is still half a circle
        if radius < half - tolerance::SAME_POINT || !radius.is_finite() {
            return Err(GeometryError::RadiusTooSmall { radius, distance });
        }
        let sweep = 2.0 * number::arcsin(half / radius);
        let height = ((radius - half) * (radius + half)).max(0.0).sqrt();
        let left = number::left_normal(chord / distance);
        let centre = start.midpoint(end) + left * height * turn.sign();
        Ok(Self {
            start,
            end,
            centre,
            radius,
            sweep: sweep * turn.sign(),
        })
    }

    /// Where it starts.
    pub const fn start(&self) -> Point {
        self.start
    }

    /// Where it ends.
    pub const fn end(&self) -> Point {
        self.end
    }

    /// Its centre.
    pub const fn centre(&self) -> Point {
        self.centre
    }

    /// Its radius in millimetres.
    pub const fn radius(&self) -> f64 {
        self.radius
    }

    /// Its sweep in radians, anticlockwise positive.
    pub const fn sweep(&self) -> f64 {
        self.sweep
    }

    /// The way it turns.
    pub fn turn(&self) -> Turn {
        if self.sweep < 0.0 {
            Turn::Clockwise
        } else {
            Turn::Anticlockwise
        }
    }

    /// Radius with the sign of the turn: positive anticlockwise. Growing a directed arc to its right
    /// by `d` adds `d` to it.
    pub fn signed_radius(&self) -> f64 {
        self.radius * self.turn().sign()
    }

    /// Whether it is a whole circle.
    pub fn is_circle(&self) -> bool {
        self.sweep.abs() >= number::FULL_TURN
    }

    /// Direction of the start from the centre, in −π … π.
    pub fn start_angle(&self) -> f64 {
        number::direction(self.start - self.centre)
    }

    /// Tangent of a quarter of the sweep (the DXF bulge), positive anticlockwise.
    pub fn bulge(&self) -> f64 {
        number::tan(self.sweep / 4.0)
    }

    /// Length along the arc in millimetres.
    pub fn length(&self) -> f64 {
        self.radius * self.sweep.abs()
    }

    /// Height of the arc over its chord, in millimetres.
    pub fn bow(&self) -> f64 {
        let quarter = number::sin(self.sweep / 4.0);
        2.0 * self.radius * quarter * quarter
    }

    /// The point at the fraction `t` of the sweep.
    pub fn point_at(&self, t: f64) -> Point {
        if t == 0.0 {
            return self.start;
        }
        if t == 1.0 {
            return self.end;
        }
        self.centre + number::rotated(self.start - self.centre, self.sweep * t)
    }

    /// Unit vector of travel at the fraction `t` of the sweep.
    pub fn direction_at(&self, t: f64) -> Vec2 {
        let from = if t == 1.0 { self.end } else { self.point_at(t) } - self.centre;
        let normal = number::left_normal(from) * self.turn().sign();
        number::normalized(normal).unwrap_or(Vec2::ZERO)
    }

    /// The fraction of the sweep at which the direction of `point` from the centre is passed, if it
    /// lies within the arc, ends included within [`tolerance::SAME_POINT`] along the arc.
    pub fn fraction_towards(&self, point: Point) -> Option<f64> {
        let from_start = number::turn(self.start - self.centre, point - self.centre);
        let forward = number::positive_angle(from_start * self.turn().sign());
        let slack = tolerance::SAME_POINT / self.radius;
        let span = self.sweep.abs();
        if forward <= span {
            Some(forward / span)
        } else if forward <= span + slack {
            Some(1.0)
        } else if forward >= number::FULL_TURN - slack {
            Some(0.0)
        } else {
            None
        }
    }

    /// The nearest point on the arc itself, ends included. For the centre itself, the start.
    pub fn nearest_point(&self, to: Point) -> Point {
        let from_centre = to - self.centre;
        if let Some(direction) = number::normalized(from_centre)
            && self.fraction_towards(to).is_some()
        {
            return self.centre + direction * self.radius;
        }
        let to_start = to - self.start;
        let to_end = to - self.end;
        if to_start.dot(to_start) <= to_end.dot(to_end) {
            self.start
        } else {
            self.end
        }
    }

    /// The smallest upright rectangle around it.
    pub fn bounds(&self) -> Rect {
        let mut bounds = Rect::from_points(self.start, self.end);
        for (x, y) in [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)] {
            let extreme = self.centre + Vec2::new(x, y) * self.radius;
            if self.fraction_towards(extreme).is_some() {
                bounds = bounds.union_pt(extreme);
            }
        }
        bounds
    }

    /// The same arc run the other way.
    #[must_use]
    pub const fn reversed(&self) -> Self {
        Self {
            start: self.end,
            end: self.start,
            centre: self.centre,
            radius: self.radius,
            sweep: -self.sweep,
        }
    }

    /// The same arc with its ends moved onto given points, which the caller knows to be the same
    /// places up to rounding.
    #[must_use]
    pub const fn with_ends(&self, start: Point, end: Point) -> Self {
        Self {
            start,
            end,
            centre: self.centre,
            radius: self.radius,
            sweep: self.sweep,
        }
    }
}

/// A way to turn.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turn {
    /// To the left; positive.
    Anticlockwise,
    /// To the right; negative.
    Clockwise,
}

impl Turn {
    /// +1 anticlockwise, −1 clockwise.
    pub const fn sign(self) -> f64 {
        match self {
            Self::Anticlockwise => 1.0,
            Self::Clockwise => -1.0,
        }
    }

    /// The other way.
    #[must_use]
    pub const fn reversed(self) -> Self {
        match self {
            Self::Anticlockwise => Self::Clockwise,
            Self::Clockwise => Self::Anticlockwise,
        }
    }

    /// The way a signed number turns; zero counts as anticlockwise.
    pub const fn of_sign(value: f64) -> Self {
        if value < 0.0 {
            Self::Clockwise
        } else {
            Self::Anticlockwise
        }
    }
}
