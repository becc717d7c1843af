//! One edge between its two ends.

use super::arc_family;
use super::arc_family::Run;
use super::entry::Edge;
use super::entry::EdgeShape;
use super::entry::FairEdge;
use super::entry::Side;
use super::error::OutlineFault;
use crate::geometry::Arc;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Turn;
use crate::geometry::Vec2;
use crate::geometry::construct;
use crate::geometry::construct::DirectedCircle;
use crate::geometry::construct::TangentLine;
use crate::geometry::fair_curve::Breakpoint;
use crate::geometry::fair_curve::EllipticalArc;
use crate::geometry::fair_curve::FairCurve;
use crate::geometry::fair_curve::FittedCurve;
use crate::geometry::fair_curve::fit;
use crate::geometry::fair_curve::fit_with_halved_breakpoints;
use crate::geometry::number;
use crate::geometry::tolerance;

/// The two ends of an edge, with their names for messages.
#[derive(Clone, Copy, Debug)]
pub(super) struct Ends<'a> {
    pub(super) from: DirectedCircle,
    pub(super) to: DirectedCircle,
    pub(super) from_name: &'a str,
    pub(super) to_name: &'a str,
    /// +1 when the outline is written anticlockwise, −1 clockwise.
    pub(super) sense: f64,
}

/// An edge as drawn: its segments, and the true curve that they follow, if they follow one.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Drawn {
    pub(super) segments: Vec<Segment>,
    pub(super) curve: Option<Box<FittedEdge>>,
}

/// A fair curve and the arcs that follow it.
#[derive(Clone, Debug, PartialEq)]
pub struct FittedEdge {
    /// The true curve.
    pub curve: FairCurve,
    /// Its arcs, how far they are off, and where the curve is not fair.
    pub fitted: FittedCurve,
}

impl From<Segment> for Drawn {
    fn from(segment: Segment) -> Self {
        Self {
            segments: vec![segment],
            curve: None,
        }
    }
}

impl Drawn {
    /// Arcs along a curve; arranged as in an earlier fit, if there was one, so that they change smoothly with it.
    fn fitted(
        curve: FairCurve,
        tolerance: f64,
        breakpoints: &[Breakpoint],
    ) -> Result<Self, OutlineFault> {
        let fitted = match fit_with_halved_breakpoints(&curve, breakpoints, 2.0 * tolerance) {
            Ok(found) => found,
            Err(_) => fit(&curve, tolerance)?,
        };
        let segments = fitted.segments.clone();
        Ok(Self {
            segments,
            curve: Some(Box::new(FittedEdge { curve, fitted })),
        })
    }
}

/// The edge, for every shape that needs no neighbour; `None` for those that do.
pub(super) fn independent(ends: &Ends<'_>, edge: &Edge) -> Result<Option<Drawn>, OutlineFault> {
    let segment = match &edge.shape {
        EdgeShape::Straight => straight(ends)?,
        EdgeShape::Radius(side, radius) => of_radius(ends, *side, *radius)?,
        EdgeShape::Bow(side, bow) => of_bow(ends, *side, *bow)?,
        EdgeShape::Through(point) => through(ends, *point)?,
        EdgeShape::Fair(fair) => return batten(ends, fair, &edge.breakpoints).map(Some),
        EdgeShape::TangentToPrevious
        | EdgeShape::TangentToBoth(_)
        | EdgeShape::FullRound
        | EdgeShape::EllipticalQuarter => return Ok(None),
    };
    Ok(Some(segment.into()))
}

/// The straight edge tangent to both ends.
pub(super) fn straight(ends: &Ends<'_>) -> Result<Segment, OutlineFault> {
    straight_line(ends).map(Segment::Line)
}

fn straight_line(ends: &Ends<'_>) -> Result<Line, OutlineFault> {
    let distance = number::length(ends.to.centre - ends.from.centre);
    let needed = (ends.to.signed_radius - ends.from.signed_radius).abs();
    if needed == 0.0 && distance < tolerance::SHORTEST_SEGMENT {
        return Err(ends.no_length());
    }
    let no_tangent = || OutlineFault::NoStraightTangent {
        from: ends.from_name.to_owned(),
        to: ends.to_name.to_owned(),
        distance,
        needed,
    };
    let run = match construct::tangent_line(&ends.from, &ends.to) {
        TangentLine::One(line) => line,
        TangentLine::None { .. } | TangentLine::Touch(_) | TangentLine::Same => {
            return Err(no_tangent());
        }
    };
    if number::length(run.end - run.start) < tolerance::SHORTEST_SEGMENT {
        return Err(no_tangent());
    }
    Ok(run)
}

fn of_radius(ends: &Ends<'_>, side: Side, radius: f64) -> Result<Segment, OutlineFault> {
    check_positive("radius", radius)?;
    straight_line(ends)?;
    let sign = side.sign() * ends.sense;
    let least = arc_family::least_radius(ends.from, ends.to, sign);
    let too_small = || OutlineFault::RadiusTooSmall {
        from: ends.from_name.to_owned(),
        to: ends.to_name.to_owned(),
        radius,
        least,
    };
    if radius < least - tolerance::SAME_POINT {
        return Err(too_small());
    }
    let (centre, run) =
        arc_family::curved(ends.from, ends.to, radius.max(least) * sign).ok_or_else(too_small)?;
    Ok(arc(centre, run, sign))
}

fn of_bow(ends: &Ends<'_>, side: Side, bow: f64) -> Result<Segment, OutlineFault> {
    check_positive("bow", bow)?;
    let run = straight_line(ends)?;
    let sign = side.sign() * ends.sense;
    let least = arc_family::least_radius(ends.from, ends.to, sign);
    if ends.from.signed_radius == 0.0 && ends.to.signed_radius == 0.0 {
        // between two points the chord is known: r = (c² + 4 h²) / 8 h
        let chord = number::length(run.end - run.start);
        let radius = (chord * chord + 4.0 * bow * bow) / (8.0 * bow);
        return if bow <= chord / 2.0 {
            of_radius(ends, side, radius)
        } else {
            Err(ends.bow_too_large(bow, chord / 2.0))
        };
    }
    let bow_of = |curvature: f64| {
        let curved = arc_family::curved(ends.from, ends.to, sign / curvature);
        curved.map_or(0.0, |(centre, run)| match arc(centre, run, sign) {
            Segment::Arc(arc) => arc.bow(),
            Segment::Line(_) => 0.0,
        })
    };
    let most = bow_of(1.0 / least);
    if bow > most {
        return Err(ends.bow_too_large(bow, most));
    }
    let curvature = root(
        |curvature| bow_of(curvature) - bow,
        -bow,
        1.0 / least,
        most - bow,
    );
    of_radius(ends, side, 1.0 / curvature)
}

fn through(ends: &Ends<'_>, point: Point) -> Result<Segment, OutlineFault> {
    let run = straight_line(ends)?;
    let unreachable = || OutlineFault::PointOutOfReach {
        from: ends.from_name.to_owned(),
        to: ends.to_name.to_owned(),
        point,
    };
    if ends.from.signed_radius == 0.0 && ends.to.signed_radius == 0.0 {
        let arc = Arc::through(run.start, point, run.end).map_err(|_| unreachable())?;
        return Ok(arc.into());
    }
    let direction = number::normalized(run.end - run.start).ok_or_else(unreachable)?;
    // distance of the point to the right of the straight edge: an arc bulging there turns left
    let right = -number::left_normal(direction).dot(point - run.start);
    if right.abs() <= tolerance::SAME_POINT {
        return Err(unreachable());
    }
    let sign = right.signum();
    let least = arc_family::least_radius(ends.from, ends.to, sign);
    let outside = |curvature: f64| {
        let radius = 1.0 / curvature;
        arc_family::curved(ends.from, ends.to, radius * sign).map_or(right.abs(), |(centre, _)| {
            number::length(point - centre) - radius
        })
    };
    let at_least = outside(1.0 / least);
    if at_least > 0.0 {
        return Err(unreachable());
    }
    let curvature = root(outside, right.abs(), 1.0 / least, at_least);
    let (centre, run) =
        arc_family::curved(ends.from, ends.to, sign / curvature).ok_or_else(unreachable)?;
    let Segment::Arc(found) = arc(centre, run, sign) else {
        return Err(unreachable());
    };
    if found.fraction_towards(point).is_none() {
        return Err(unreachable());
    }
    Ok(found.into())
}

/// The arc that leaves the corner `ends.from` in `direction` (unit) and arrives at `ends.to`; a line
/// when that lies straight ahead.
pub(super) fn continuing(ends: &Ends<'_>, direction: Vec2) -> Result<Segment, OutlineFault> {
    let start = ends.from.centre;
    let normal = number::left_normal(direction);
    let (to, radius) = (start - ends.to.centre, ends.to.signed_radius);
    // |p + r n − c₂| = |r − r₂| is linear in r
    let denominator = 2.0 * (normal.dot(to) + radius);
    let numerator = radius * radius - to.dot(to);
    let missed = || OutlineFault::NoTangentArc {
        from: ends.from_name.to_owned(),
        to: ends.to_name.to_owned(),
    };
    if numerator >= 0.0 {
        return Err(missed());
    }
    if denominator.abs() <= tolerance::SAME_DIRECTION * number::length(to) {
        // straight ahead, or straight behind
        return if direction.dot(to) < 0.0 {
            straight(ends)
        } else {
            Err(missed())
        };
    }
    let signed = numerator / denominator;
    let centre = start + normal * signed;
    let end_normal = (centre - ends.to.centre) / (signed - radius);
    let run = Run {
        start,
        end: arc_family::at_normal(ends.to, end_normal),
    };
    Ok(arc(centre, run, signed))
}

/// The batten from corner to corner.
fn batten(
    ends: &Ends<'_>,
    fair: &FairEdge,
    breakpoints: &[Breakpoint],
) -> Result<Drawn, OutlineFault> {
    ends.check_corners()?;
    let mut points = vec![ends.from.centre];
    points.extend(&fair.stations);
    points.push(ends.to.centre);
    Drawn::fitted(
        FairCurve::through(&points, fair.start, fair.end)?,
        fair.tolerance,
        breakpoints,
    )
}

/// The quarter ellipse that leaves in direction `arriving`, where the edge before arrives, and ends
/// in direction `leaving`, where the edge after leaves.
pub(super) fn quarter(
    ends: &Ends<'_>,
    (arriving, leaving): (Vec2, Vec2),
    breakpoints: &[Breakpoint],
) -> Result<Drawn, OutlineFault> {
    ends.check_corners()?;
    let (start, end) = (ends.from.centre, ends.to.centre);
    let cross = arriving.cross(leaving);
    if cross.abs() <= tolerance::SAME_DIRECTION {
        return Err(OutlineFault::NoQuarter);
    }
    let ahead = (end - start).cross(leaving) / cross;
    let corner = start + arriving * ahead;
    if !(ahead > 0.0 && leaving.dot(end - corner) > 0.0) {
        return Err(OutlineFault::NoQuarter);
    }
    let quarter = EllipticalArc::quarter(start, corner, end)?;
    Drawn::fitted(quarter.into(), tolerance::FITTED_CURVE, breakpoints)
}

fn arc(centre: Point, run: Run, sign: f64) -> Segment {
    Arc::from_centre(run.start, run.end, centre, Turn::of_sign(sign)).into()
}

/// Refuses what is not a positive, usable size.
pub(super) fn check_positive(what: &'static str, value: f64) -> Result<(), OutlineFault> {
    if value > 0.0 && value <= tolerance::LARGEST_COORDINATE {
        Ok(())
    } else {
        Err(OutlineFault::NotPositive { what, value })
    }
}

/// The curvature between 0 and `most` at which `f` is zero, given its values at both ends, which
/// have different signs. To the last digit or two.
fn root(f: impl Fn(f64) -> f64, at_zero: f64, most: f64, at_most: f64) -> f64 {
    if at_most == 0.0 {
        return most;
    }
    let rising = at_zero.signum();
    let signed = |curvature: f64| -rising * f(curvature);
    let epsilon = most * f64::EPSILON;
    kurbo::common::solve_itp(
        signed,
        0.0,
        most,
        epsilon,
        1,
        0.2 / most,
        -at_zero.abs(),
        at_most.abs(),
    )
}

impl Ends<'_> {
    /// Refuses ends that are rounds.
    fn check_corners(&self) -> Result<(), OutlineFault> {
        for (end, name) in [(self.from, self.from_name), (self.to, self.to_name)] {
            if end.signed_radius != 0.0 {
                return Err(OutlineFault::CurveNeedsCorner(name.to_owned()));
            }
        }
        Ok(())
    }

    fn no_length(&self) -> OutlineFault {
        OutlineFault::ZeroLengthEdge {
            from: self.from_name.to_owned(),
            to: self.to_name.to_owned(),
        }
    }

    fn bow_too_large(&self, bow: f64, most: f64) -> OutlineFault {
        OutlineFault::BowTooLarge {
            from: self.from_name.to_owned(),
            to: self.to_name.to_owned(),
            bow,
            most,
        }
    }
}
