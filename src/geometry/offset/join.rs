//! How the material grows round an outside corner, and the region a sharp corner adds.

use crate::geometry::Point;
use crate::geometry::Vec2;
use crate::geometry::number;

use super::curve::Curve;
use super::curve::Shape;

/// What becomes of corners round which the boundary moves outwards.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Join {
    /// An arc about the corner: every point of the result's edge is at exactly the distance.
    Round,
    /// The edges run on, straight, until they meet.
    Mitre {
        /// The tip may lie this many times the distance from the corner, at least 1; a corner that
        /// would go further is rounded. 1.415 keeps right angles sharp.
        limit: f64,
    },
}

/// The kite that a mitred corner adds: between the two normals at a corner, up to the two lines at
/// the distance.
#[derive(Clone, Copy, Debug)]
pub(super) struct Kite {
    corner: Point,
    /// Unit normals to the right of the edges before and after the corner.
    normals: [Vec2; 2],
    reach: f64,
    pub(super) ends: [Point; 2],
    pub(super) tip: Point,
}

impl Kite {
    /// The kite at a corner, if the limit allows it. `normals` are the right-hand unit normals
    /// before and after.
    pub(super) fn new(corner: Point, normals: [Vec2; 2], reach: f64, limit: f64) -> Option<Self> {
        let sum = normals[0] + normals[1];
        // |tip| = reach / cos(half the turn), and |sum| = 2 cos(half the turn)
        let cosine = number::length(sum) / 2.0;
        if cosine * limit < 1.0 - 1e-12 {
            return None;
        }
        let tip = corner + sum * (reach / (2.0 * cosine * cosine));
        Some(Self {
            corner,
            normals,
            reach,
            ends: normals.map(|normal| corner + normal * reach),
            tip,
        })
    }

    pub(super) fn area(&self) -> f64 {
        (self.tip - self.corner)
            .cross(self.ends[1] - self.ends[0])
            .abs()
            / 2.0
    }

    /// How far beyond the two lines a point of the wedge between the normals lies: negative inside
    /// the kite.
    fn excess(&self, point: Point) -> f64 {
        let from = point - self.corner;
        self.normals[0].dot(from).max(self.normals[1].dot(from)) - self.reach
    }

    /// Whether a point lies in the wedge between the normals.
    fn holds(&self, point: Point) -> bool {
        let from = point - self.corner;
        let (a, b) = (self.normals[0], self.normals[1]);
        a.cross(from) >= 0.0 && from.cross(b) >= 0.0 && (a + b).dot(from) >= 0.0
    }

    /// How deep the curve dips into the kite; negative or zero if it stays out.
    pub(super) fn depth(&self, curve: &Curve) -> f64 {
        let mut depth = f64::NEG_INFINITY;
        let mut try_point = |point: Point| {
            if self.holds(point) {
                depth = depth.max(-self.excess(point));
            }
        };
        try_point(curve.start);
        try_point(curve.end);
        // along the two sides, the bisector, and where an arc turns towards a line the depth may peak
        let (a, b) = (self.normals[0], self.normals[1]);
        for ray in [a, b, a + b] {
            for point in ray_points(self.corner, ray, curve).into_iter().flatten() {
                let from = point - self.corner;
                if ray.dot(from) >= 0.0 {
                    // on the ray itself: held up to rounding
                    let excess = self.excess(point);
                    depth = depth.max(-excess);
                    let _ = from;
                }
            }
        }
        if let Shape::Arc(round) = curve.shape() {
            for normal in [a, b] {
                if round.covers(-normal) {
                    let point = round.centre - normal * round.radius;
                    if self.holds(point) {
                        depth = depth.max(-self.excess(point));
                    }
                }
            }
        }
        depth
    }

    /// How far the curve reaches out of the kite at most, given that it is straight up to `bow`.
    pub(super) fn greatest_excess(&self, curve: &Curve) -> f64 {
        let out = |point: Point| {
            let from = point - self.corner;
            let (a, b) = (self.normals[0], self.normals[1]);
            self.excess(point).max(-a.cross(from)).max(-from.cross(b))
        };
        let mut excess = out(curve.start).max(out(curve.end));
        if let Shape::Arc(round) = curve.shape() {
            let half = number::length(curve.end - curve.start) / 2.0;
            let height = ((round.radius - half) * (round.radius + half)).max(0.0);
            excess += half * half / (round.radius + height.sqrt());
            if round.angle() > number::HALF_TURN {
                excess += 2.0 * round.radius;
            }
        }
        excess
    }
}

/// Points of the curve on the line through `corner` along `ray`.
fn ray_points(corner: Point, ray: Vec2, curve: &Curve) -> [Option<Point>; 2] {
    match curve.shape() {
        Shape::Line { .. } => {
            let step = curve.end - curve.start;
            let (before, after) = (
                ray.cross(curve.start - corner),
                ray.cross(curve.end - corner),
            );
            if before * after >= 0.0 {
                return [None, None];
            }
            [Some(curve.start + step * (before / (before - after))), None]
        }
        Shape::Arc(round) => {
            let Some(direction) = number::normalized(ray) else {
                return [None, None];
            };
            super::crossing::line_circle(corner, direction, &round)
                .map(|found| found.filter(|&point| round.covers(point - round.centre)))
        }
    }
}
