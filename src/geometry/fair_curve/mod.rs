//! Fair curves: a batten through a table of offsets, elliptical arcs, Bézier curves, each followed by
//! tangent-continuous arcs within a stated tolerance.
//!
//! # Words
//!
//! - A *station* is a point of the table, counted from 0.
//! - A *position* says where on a curve: for a spline in stations (2.5 is between station 2 and
//!   station 3), for an ellipse or a Bézier curve as a fraction 0 … 1 of its parameter. Positions keep
//!   their meaning when the values of the table change, which is what makes refitting smooth.
//! - The *lean* of a joint between arcs is the angle by which the arcs run off the curve's own
//!   direction there: allowing it lets a third fewer arcs keep the same tolerance.
//!
//! # Stages
//!
//! 1. [`FairCurve`]: the true curve, with its derivatives.
//! 2. [`fit`]: the fewest arcs found that keep the tolerance; [`fit_with_breakpoints`]: the same
//!    arrangement of arcs on a curve that has changed a little; [`fit_with_halved_breakpoints`]: on one that
//!    has changed more.
//! 3. The distance is then measured on the finished segments, both ways, and reported.
//! 4. `fairness`: inflections, and how far the batten would spring away at the stations; `lumps`: which
//!    stations are to blame.
mod bezier;
mod ellipse;
mod error;
mod fairness;
mod fit;
mod jet;
mod lumps;
mod rational;
mod recognise;
mod spline;
mod tridiagonal;

pub use bezier::CubicBezier;
pub use ellipse::EllipticalArc;
pub use error::FairCurveError;
pub use fairness::Inflection;
pub use fairness::inflections;
pub use fairness::spring_at_stations;
pub use fit::Breakpoint;
pub use fit::FittedCurve;
pub use fit::fit;
pub use fit::fit_with_breakpoints;
pub use fit::fit_with_halved_breakpoints;
pub use lumps::Lump;
pub use lumps::lumps;
pub use rational::RationalSpline;
pub use recognise::arc_through_all;
pub use spline::BattenEnd;
pub use spline::CubicPiece;
pub use spline::Spline;

use super::Point;
use super::Segment;
use super::Vec2;
use super::number;
use jet::Jet;
use spline::to_number;

/// A curve that a person would draw with a batten or a template.
#[derive(Clone, Debug, PartialEq)]
pub enum FairCurve {
    /// A cubic spline through a table.
    Spline(Spline),
    /// An arc of an ellipse.
    Ellipse(EllipticalArc),
    /// A cubic Bézier curve.
    Bezier(CubicBezier),
    /// A rational spline by control points, weights and knots. Its inflections are not looked for.
    Rational(RationalSpline),
    /// A table that turned out to be one circular arc, or one line.
    Exact(Segment),
}

impl FairCurve {
    /// The batten through the points in order; where they are the points of one circle, that circle
    /// (see [`arc_through_all`]).
    ///
    /// Where the table changes a little and the outline must follow smoothly, decide once: a table of
    /// a circle is recognised to 1e-6 mm, and a spline through a few points of a circle leaves it by
    /// more than that. [`FairCurve::Spline`] with [`Spline::through`] never makes the distinction.
    ///
    /// # Errors
    /// As [`Spline::through`].
    pub fn through(
        points: &[Point],
        start: BattenEnd,
        end: BattenEnd,
    ) -> Result<Self, FairCurveError> {
        let spline = Spline::through(points, start, end)?;
        let exact = arc_through_all(points, start, end);
        Ok(exact.map_or(Self::Spline(spline), Self::Exact))
    }

    /// The closed batten through the points; the circle, where they are the points of one (four or
    /// more, running once round it).
    ///
    /// # Errors
    /// As [`Spline::closed`].
    pub fn closed(points: &[Point]) -> Result<Self, FairCurveError> {
        let spline = Spline::closed(points)?;
        let exact = recognise::circle_through_all(points);
        Ok(exact.map_or(Self::Spline(spline), Self::Exact))
    }

    /// The position at which it ends; it starts at 0.
    pub fn last_position(&self) -> f64 {
        match self {
            Self::Spline(spline) => to_number(spline.pieces().len()),
            Self::Rational(spline) => to_number(spline.spans()),
            Self::Ellipse(_) | Self::Bezier(_) | Self::Exact(_) => 1.0,
        }
    }

    /// Whether it returns to its start without a corner.
    pub fn is_closed(&self) -> bool {
        match self {
            Self::Spline(spline) => spline.is_closed(),
            Self::Ellipse(ellipse) => ellipse.is_closed(),
            Self::Rational(spline) => spline.is_closed(),
            Self::Exact(Segment::Arc(arc)) => arc.is_circle(),
            Self::Bezier(_) | Self::Exact(Segment::Line(_)) => false,
        }
    }

    /// The point at a position, which is held to the curve's ends.
    pub fn point_at(&self, position: f64) -> Point {
        self.jet(position).point
    }

    /// First derivative by the curve's own parameter (length along the chords or x for a spline, θ for
    /// an ellipse, fraction of a span or of the whole for the others).
    pub fn derivative(&self, position: f64) -> Vec2 {
        self.jet(position).first
    }

    /// Second derivative by the curve's own parameter.
    pub fn second_derivative(&self, position: f64) -> Vec2 {
        self.jet(position).second
    }

    /// Unit vector of travel; the zero vector where the curve stands still.
    pub fn direction_at(&self, position: f64) -> Vec2 {
        self.jet(position).direction().unwrap_or(Vec2::ZERO)
    }

    /// Curvature in 1/mm, anticlockwise positive; no number where the curve stands still.
    pub fn curvature_at(&self, position: f64) -> f64 {
        self.jet(position).curvature()
    }

    /// The station nearest to a position (0 or 1 for a curve without stations).
    pub fn station_near(&self, position: f64) -> usize {
        spline::to_index(position.clamp(0.0, self.last_position()).round())
    }

    /// The same curve run the other way.
    #[must_use]
    pub fn reversed(&self) -> Self {
        match self {
            Self::Spline(spline) => Self::Spline(spline.reversed()),
            Self::Ellipse(ellipse) => Self::Ellipse(ellipse.reversed()),
            Self::Bezier(bezier) => Self::Bezier(bezier.reversed()),
            Self::Rational(spline) => Self::Rational(spline.reversed()),
            Self::Exact(segment) => Self::Exact(segment.reversed()),
        }
    }

    fn jet(&self, position: f64) -> Jet {
        let last = self.last_position();
        let position = if position > 0.0 {
            position.min(last)
        } else {
            0.0
        };
        match self {
            Self::Spline(spline) => spline.jet(position),
            Self::Ellipse(ellipse) => ellipse.jet(position),
            Self::Bezier(bezier) => bezier.jet(position),
            Self::Rational(spline) => spline.jet(position),
            Self::Exact(segment) => segment_jet(segment, position),
        }
    }
}

fn segment_jet(segment: &Segment, fraction: f64) -> Jet {
    let length = segment.length();
    let turn = segment.curvature() * length;
    let first = segment.direction_at(fraction) * length;
    let second = number::left_normal(first) * turn;
    Jet {
        point: segment.point_at(fraction),
        first,
        second,
        third: number::left_normal(second) * turn,
    }
}

impl From<Spline> for FairCurve {
    fn from(spline: Spline) -> Self {
        Self::Spline(spline)
    }
}

impl From<EllipticalArc> for FairCurve {
    fn from(ellipse: EllipticalArc) -> Self {
        Self::Ellipse(ellipse)
    }
}

impl From<RationalSpline> for FairCurve {
    fn from(spline: RationalSpline) -> Self {
        Self::Rational(spline)
    }
}

impl From<CubicBezier> for FairCurve {
    fn from(bezier: CubicBezier) -> Self {
        Self::Bezier(bezier)
    }
}
