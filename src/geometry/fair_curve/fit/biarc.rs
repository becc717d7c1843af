//! Two arcs that run tangent into each other.

use crate::geometry::Point;
use crate::geometry::Vec2;
use crate::geometry::number;

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

    /// What is nearly the distance of a point from the arc's circle, to the left of travel positive.
    ///
    /// No centre is needed, so that nothing is lost on nearly straight arcs: f = n·v − κv²/2, with which
    /// the distance d satisfies f = d − κd²/2.
    pub(super) fn offset(&self, point: Point) -> f64 {
        let v = point - self.start;
        self.direction.cross(v) - self.curvature * v.dot(v) / 2.0
    }

    /// The greatest distance from the circle of a point whose offset is of this size, to either side.
    pub(super) fn greatest_distance(&self, offset: f64) -> f64 {
        let inside = 1.0 - 2.0 * self.curvature.abs() * offset;
        if inside > 0.0 {
            2.0 * offset / (1.0 + inside.sqrt())
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

#[cfg(test)]
mod tests {
    use super::*;

    /// Greatest distance of y(x) from equal biarcs over `count` equal spans of x.
    fn worst(curve: impl Fn(f64) -> [f64; 2], (from, to): (f64, f64), count: u32) -> f64 {
        let width = (to - from) / f64::from(count);
        let end = |x: f64| {
            let [y, slope] = curve(x);
            let direction = number::normalized(Vec2::new(1.0, slope)).unwrap();
            (Point::new(x, y), direction)
        };
        let mut worst: f64 = 0.0;
        for span in 0..count {
            let left = from + width * f64::from(span);
            let [first, second] = biarc(end(left), end(left + width), 1.0).unwrap();
            for step in 0..=400 {
                let (point, _) = end(left + width * f64::from(step) / 400.0);
                let past = (point - first.end).dot(first.end_direction()) > 0.0;
                let bow = if past { &second } else { &first };
                worst = worst.max(bow.greatest_distance(bow.offset(point).abs()));
            }
        }
        worst
    }

    // computed with numpy from the formula of equal tangent lengths: third order, an eighth of the
    // error per halving
    #[test]
    fn error_falls_eightfold_per_halving() {
        let parabola = |x: f64| [x * x / 2.0, x];
        let sine = |x: f64| [number::sin(x), number::cos(x)];
        let growth = |x: f64| [libm::exp(x), libm::exp(x)];
        let listed: [(&str, [f64; 6], [f64; 6]); 3] = [
            (
                "x^2/2",
                [
                    6.6567e-4, 7.0803e-5, 7.8554e-6, 9.2321e-7, 1.1206e-7, 1.3798e-8,
                ],
                [2, 4, 8, 16, 32, 64].map(|n| worst(parabola, (0.0, 1.0), n)),
            ),
            (
                "sine",
                [
                    1.2195e-3, 1.6921e-4, 1.8573e-5, 2.2107e-6, 2.6791e-7, 3.2987e-8,
                ],
                [2, 4, 8, 16, 32, 64].map(|n| worst(sine, (0.1, 1.4), n)),
            ),
            (
                "e^x",
                [
                    7.9759e-4, 9.2231e-5, 1.0545e-5, 1.2435e-6, 1.5041e-7, 1.8478e-8,
                ],
                [2, 4, 8, 16, 32, 64].map(|n| worst(growth, (0.0, 1.0), n)),
            ),
        ];
        for (name, expected, got) in listed {
            for (want, have) in expected.iter().zip(got) {
                assert!(
                    (have / want - 1.0).abs() < 2e-3,
                    "{name}: {have} for {want}"
                );
            }
            let ratio = got[4] / got[5];
            assert!((7.8..8.6).contains(&ratio), "{name}: ratio {ratio}");
        }
    }

    #[test]
    fn points_of_a_circle_give_that_circle() {
        for sweep in [0.1, 1.0, 3.0, 5.0] {
            let at = |angle: f64| {
                let unit = number::unit(angle);
                (
                    Point::new(7.0, 3.0) + unit * 40.0,
                    number::left_normal(unit),
                )
            };
            let bows = biarc(at(0.3), at(0.3 + sweep), 1.0).unwrap();
            for bow in bows {
                assert!((bow.curvature - 1.0 / 40.0).abs() < 1e-14, "{bow:?}");
            }
        }
    }
}
