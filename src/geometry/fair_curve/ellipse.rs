//! The elliptical arc.

use super::super::Point;
use super::super::Vec2;
use super::super::number;
use super::super::tolerance;
use super::FairCurveError;
use super::jet::Jet;
use super::spline::check_points;

/// An arc of an ellipse: centre + first·cos θ + second·sin θ, where the two vectors are conjugate half
/// diameters (for perpendicular ones: the half axes) and θ runs through the sweep.
///
/// Its parameter is θ in radians; a position 0 … 1 is a fraction of the sweep.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EllipticalArc {
    centre: Point,
    first: Vec2,
    second: Vec2,
    start_angle: f64,
    sweep: f64,
}

impl EllipticalArc {
    /// The quarter ellipse from `start` to `end` that is tangent to the lines from both to `corner`:
    /// an elliptical rounding of that corner.
    ///
    /// # Errors
    /// [`FairCurveError::NotUsable`]; [`FairCurveError::NoSize`] when the three lie on one line.
    ///
    /// # Source
    /// Closed form: an affine image of a quarter circle in its square.
    pub fn quarter(start: Point, corner: Point, end: Point) -> Result<Self, FairCurveError> {
        check_points(&[start, corner, end], 3)?;
        let centre = start + (end - corner);
        Self::new(
            centre,
            start - centre,
            end - centre,
            0.0,
            number::QUARTER_TURN,
        )
    }

    /// The whole ellipse, from the end of its first half diameter towards that of the second.
    ///
    /// # Errors
    /// As [`EllipticalArc::new`].
    pub fn whole(centre: Point, first: Vec2, second: Vec2) -> Result<Self, FairCurveError> {
        Self::new(centre, first, second, 0.0, number::FULL_TURN)
    }

    /// The arc of the ellipse with these conjugate half diameters from `start_angle` through `sweep`
    /// (radians of the parameter θ, −2π … 2π).
    ///
    /// # Errors
    /// [`FairCurveError::NotUsable`]; [`FairCurveError::NoSize`] for an ellipse that is flat or a
    /// sweep that is nothing.
    pub fn new(
        centre: Point,
        first: Vec2,
        second: Vec2,
        start_angle: f64,
        sweep: f64,
    ) -> Result<Self, FairCurveError> {
        check_points(&[centre, first.to_point(), second.to_point()], 3)?;
        for (what, value) in [("the start angle", start_angle), ("the sweep", sweep)] {
            if !value.is_finite() || value.abs() > number::FULL_TURN {
                return Err(FairCurveError::NotUsable {
                    what,
                    station: 0,
                    value,
                });
            }
        }
        let longer = number::length(first).max(number::length(second));
        let least = first.cross(second).abs() / longer.max(tolerance::SHORTEST_SEGMENT);
        for (what, value) in [
            ("the smaller half axis of the ellipse", least),
            ("the length of the elliptical arc", longer * sweep.abs()),
        ] {
            if value < tolerance::SHORTEST_SEGMENT {
                return Err(FairCurveError::NoSize {
                    what,
                    value,
                    smallest: tolerance::SHORTEST_SEGMENT,
                });
            }
        }
        Ok(Self {
            centre,
            first,
            second,
            start_angle,
            sweep,
        })
    }

    /// Its centre.
    pub const fn centre(&self) -> Point {
        self.centre
    }

    /// Its two conjugate half diameters.
    pub const fn half_diameters(&self) -> [Vec2; 2] {
        [self.first, self.second]
    }

    /// The sweep of its parameter, in radians.
    pub const fn sweep(&self) -> f64 {
        self.sweep
    }

    /// Whether it is a whole ellipse.
    pub fn is_closed(&self) -> bool {
        self.sweep.abs() >= number::FULL_TURN
    }

    /// The same arc run the other way.
    #[must_use]
    pub fn reversed(&self) -> Self {
        Self {
            start_angle: self.start_angle + self.sweep,
            sweep: -self.sweep,
            ..*self
        }
    }

    pub(super) fn jet(&self, position: f64) -> Jet {
        let angle = self.start_angle + self.sweep * position;
        // whole quarters are exact, so that a quarter ellipse meets its tangent points
        let Vec2 { x: cosine, y: sine } = exact_unit(angle);
        let along = self.first * cosine + self.second * sine;
        let ahead = self.second * cosine - self.first * sine;
        let way = self.sweep.signum();
        Jet {
            point: self.centre + along,
            first: ahead * way,
            second: -along,
            third: -ahead * way,
        }
    }
}

/// Cosine and sine, exactly 0 and ±1 at whole quarter turns.
fn exact_unit(angle: f64) -> Vec2 {
    let quarters = angle / number::QUARTER_TURN;
    if quarters == quarters.round() {
        let unit = number::unit(angle);
        Vec2::new(unit.x.round(), unit.y.round())
    } else {
        number::unit(angle)
    }
}
