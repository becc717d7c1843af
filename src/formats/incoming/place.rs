//! Affine maps of what a file draws: units, references, mirrored and stretched copies.

use kurbo::Affine;

use crate::geometry::Arc;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::fair_curve::EllipticalArc;
use crate::geometry::number;

/// Axes whose lengths or square differ by less than this part are those of a plain turned and scaled copy.
const SAME_SHAPE: f64 = 1e-9;

/// A map, with what it does to circles.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::formats) struct Placing {
    pub(in crate::formats) map: Affine,
    /// Its scale, where circles stay circles.
    scale: Option<f64>,
    mirrors: bool,
}

impl Placing {
    pub(in crate::formats) fn new(map: Affine) -> Self {
        let [a, b, c, d, _, _] = map.as_coeffs();
        let (across, up) = (Vec2::new(a, b), Vec2::new(c, d));
        let (one, other) = (number::length(across), number::length(up));
        let larger = one.max(other);
        let plain = (one - other).abs() <= SAME_SHAPE * larger
            && across.dot(up).abs() <= SAME_SHAPE * larger * larger;
        Self {
            map,
            scale: plain.then_some(one),
            mirrors: across.cross(up) < 0.0,
        }
    }

    pub(in crate::formats) fn scaled(factor: f64) -> Self {
        Self::new(Affine::new([factor, 0.0, 0.0, factor, 0.0, 0.0]))
    }

    /// First `inner`, then this.
    pub(in crate::formats) fn after(&self, inner: Affine) -> Self {
        Self::new(self.map * inner)
    }

    pub(in crate::formats) fn point(&self, point: Point) -> Point {
        self.map * point
    }

    pub(in crate::formats) fn vector(&self, vector: Vec2) -> Vec2 {
        let [a, b, c, d, _, _] = self.map.as_coeffs();
        Vec2::new(a * vector.x + c * vector.y, b * vector.x + d * vector.y)
    }

    /// Image of the arc about `centre`: an arc, or a part of an ellipse. `None` where it has no size.
    pub(in crate::formats) fn arc(
        &self,
        centre: Point,
        radius: f64,
        start: f64,
        sweep: f64,
    ) -> Option<Round> {
        self.ellipse(
            centre,
            Vec2::new(radius, 0.0),
            Vec2::new(0.0, radius),
            (start, sweep),
        )
    }

    /// Image of a part of the ellipse with these conjugate half diameters.
    pub(in crate::formats) fn ellipse(
        &self,
        centre: Point,
        first: Vec2,
        second: Vec2,
        (start, sweep): (f64, f64),
    ) -> Option<Round> {
        let centre = self.point(centre);
        let (one, other) = (self.vector(first), self.vector(second));
        let (long, short) = (number::length(one), number::length(other));
        let larger = long.max(short);
        let circular = (long - short).abs() <= SAME_SHAPE * larger
            && one.dot(other).abs() <= SAME_SHAPE * larger * larger;
        if circular {
            let way = if one.cross(other) < 0.0 { -1.0 } else { 1.0 };
            let from = number::direction(one) + way * start;
            let usable = long > 0.0 && long.is_finite() && sweep != 0.0 && sweep.is_finite();
            return usable.then(|| Round::Arc(Arc::from_angles(centre, long, from, way * sweep)));
        }
        let start = number::positive_angle(start);
        EllipticalArc::new(centre, one, other, start, sweep)
            .ok()
            .map(Round::Ellipse)
    }

    /// Image of the segment from one point to another with a bulge. `None` for an arc without length.
    pub(in crate::formats) fn bulged(&self, from: Point, to: Point, bulge: f64) -> Option<Round> {
        let (start, end) = (self.point(from), self.point(to));
        if bulge == 0.0 || from == to {
            return Some(Round::Line(Segment::line(start, end)));
        }
        if self.scale.is_some() {
            let bulge = if self.mirrors { -bulge } else { bulge };
            return Arc::from_bulge(start, end, bulge).ok().map(Round::Arc);
        }
        let arc = Arc::from_bulge(from, to, bulge).ok()?;
        self.arc(arc.centre(), arc.radius(), arc.start_angle(), arc.sweep())
    }
}

/// What a round thing becomes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::formats) enum Round {
    Line(Segment),
    Arc(Arc),
    Ellipse(EllipticalArc),
}
