//! The cubic Bézier curve.

use super::super::Point;
use super::super::number;
use super::super::tolerance;
use super::CubicPiece;
use super::FairCurveError;
use super::jet::Jet;
use super::spline::check_points;

/// A cubic Bézier curve from its first control point to its last, by the usual parameter 0 … 1.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CubicBezier {
    control: [Point; 4],
}

impl CubicBezier {
    /// The curve with these control points.
    ///
    /// # Errors
    /// [`FairCurveError::NotUsable`]; [`FairCurveError::NoSize`] when all four are one point.
    pub fn new(control: [Point; 4]) -> Result<Self, FairCurveError> {
        check_points(&control, 4)?;
        let size = control
            .iter()
            .map(|point| number::length(*point - control[0]))
            .fold(0.0, f64::max);
        if size < tolerance::SHORTEST_SEGMENT {
            return Err(FairCurveError::NoSize {
                what: "the Bézier curve",
                value: size,
                smallest: tolerance::SHORTEST_SEGMENT,
            });
        }
        Ok(Self { control })
    }

    /// Its control points.
    pub const fn control_points(&self) -> [Point; 4] {
        self.control
    }

    /// The same curve run the other way.
    #[must_use]
    pub const fn reversed(&self) -> Self {
        let [p0, p1, p2, p3] = self.control;
        Self {
            control: [p3, p2, p1, p0],
        }
    }

    /// The same curve as a polynomial.
    pub(super) fn to_piece(self) -> CubicPiece {
        let [p0, p1, p2, p3] = self.control;
        let (d0, d1, d2) = (p1 - p0, p2 - p1, p3 - p2);
        CubicPiece {
            a: p0,
            b: d0 * 3.0,
            c: (d1 - d0) * 3.0,
            d: (d2 - d1) - (d1 - d0),
        }
    }

    pub(super) fn jet(&self, position: f64) -> Jet {
        let [p0, p1, p2, p3] = self.control;
        let (t, s) = (position, 1.0 - position);
        let (d0, d1, d2) = (p1 - p0, p2 - p1, p3 - p2);
        let point = if t == 1.0 {
            p3
        } else {
            p0 + (d0 * (1.0 + s + s * s) + d1 * (t * (1.0 + 2.0 * s)) + d2 * (t * t)) * t
        };
        let (bend0, bend1) = (d1 - d0, d2 - d1);
        let second = (bend0 * s + bend1 * t) * 6.0;
        let mut first = (d0 * (s * s) + d1 * (2.0 * s * t) + d2 * (t * t)) * 3.0;
        // at the end of a curve whose last handle has no length, the direction is that of arriving:
        // against the second derivative
        let stands = number::length(first) < tolerance::SHORTEST_SEGMENT;
        if stands && t == 1.0 {
            first = if number::length(second) > 0.0 {
                second * -tolerance::SHORTEST_SEGMENT
            } else {
                (bend1 - bend0) * tolerance::SHORTEST_SEGMENT
            };
        }
        Jet {
            point,
            first,
            second,
            third: (bend1 - bend0) * 6.0,
        }
    }
}
