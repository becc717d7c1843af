//! Two arcs that run tangent into each other.

use super::super::super::Point;
use super::super::super::Vec2;
use super::super::super::number;

/// An arc as the fit sees it: where it starts, which way, how much it turns, where it ends. A line is
/// one with curvature 0.
#[derive(Clone, Copy, Debug)]
pub(super) struct Bow {
    pub(super) start: Point,
    /// Unit vector of travel at the start.
    pub(super) direction: Vec2,
    pub(super) end: Point,
    /// Anticlockwise positive, 1/mm.
    pub(super) curvature: f64,
}

impl Bow {
    /// The arc that leaves `start` in `direction` and goes to `end`; `None` when it would have to
    /// turn a full circle or has no length.
    pub(super) fn new(start: Point, direction: Vec2, end: Point) -> Option<Self> {
        let chord = end - start;
        let square = chord.dot(chord);
        let curvature = 2.0 * direction.cross(chord) / square;
        let backwards = direction.dot(chord) < -0.999 * square.sqrt();
        (square > 0.0 && curvature.is_finite() && !backwards).then_some(Self {
            start,
            direction,
            end,
            curvature,
        })
    }

    /// Unit vector of travel at the end: the start's, mirrored in the chord.
    pub(super) fn end_direction(&self) -> Vec2 {
        let chord = self.end - self.start;
        let along = chord * (2.0 * self.direction.dot(chord) / chord.dot(chord));
        let mirrored = along - self.direction;
        number::normalized(mirrored).unwrap_or(mirrored)
    }

    /// Distance of a point from the arc's circle, to the left of travel positive.
    ///
    /// No centre is needed, so that nothing is lost on nearly straight arcs: with f = n·v − κv²/2 the
    /// distance d satisfies f = d − κd²/2.
    pub(super) fn distance(&self, point: Point) -> f64 {
        let v = point - self.start;
        let f = self.direction.cross(v) - self.curvature * v.dot(v) / 2.0;
        let inside = 1.0 - 2.0 * self.curvature * f;
        if inside > 0.0 {
            2.0 * f / (1.0 + inside.sqrt())
        } else {
            f64::INFINITY
        }
    }

    /// The direction of travel on the circle beside a point (not of unit length).
    pub(super) fn direction_beside(&self, point: Point) -> Vec2 {
        let v = point - self.start;
        self.direction + number::left_normal(v) * self.curvature
    }

    /// Tangent of a quarter of the sweep.
    pub(super) fn bulge(&self) -> f64 {
        let chord = self.end - self.start;
        let size = number::length(chord);
        self.direction.cross(chord) / (size + self.direction.dot(chord))
    }
}

/// The biarc from `start` in `start_direction` to `end` in `end_direction` whose second tangent length
/// is `ratio` times its first; `None` when there is none that goes forward.
///
/// # Source
/// With tangent lengths d and ρd the corner points p₁ + d t₁ and p₂ − ρd t₂ are (1 + ρ)d apart:
/// d = (−B + √(B² + A v·v)) / A with A = 2ρ(1 − t₁·t₂), B = v·(t₁ + ρt₂), v = p₂ − p₁; the arcs join
/// between the corner points, d from the first. For ρ = 1: Meek & Walton, Journal of Computational and
/// Applied Mathematics 59 (1995) (from memory).
pub(super) fn biarc(
    (start, start_direction): (Point, Vec2),
    (end, end_direction): (Point, Vec2),
    ratio: f64,
) -> Option<[Bow; 2]> {
    let v = end - start;
    let along = v.dot(start_direction + end_direction * ratio);
    // 2 (1 − t₁·t₂) = |t₁ − t₂|², without loss of digits where the directions nearly agree
    let apart = start_direction - end_direction;
    let twice = apart.dot(apart) * ratio;
    let root = (along * along + twice * v.dot(v)).sqrt();
    // the other form of the root of a quadratic: no cancellation, and right for parallel directions
    let tangent = if along >= 0.0 {
        v.dot(v) / (along + root)
    } else {
        (root - along) / twice
    };
    if !(tangent > 0.0 && tangent.is_finite()) {
        return None;
    }
    let first_corner = start + start_direction * tangent;
    let second_corner = end - end_direction * (tangent * ratio);
    let joint = first_corner.lerp(second_corner, 1.0 / (1.0 + ratio));
    let first = Bow::new(start, start_direction, joint)?;
    let second = Bow::new(joint, first.end_direction(), end)?;
    Some([first, second])
}
