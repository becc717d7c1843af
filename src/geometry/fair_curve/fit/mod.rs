//! Tangent-continuous arcs along a fair curve.

mod biarc;
mod breakpoints;
mod grid;
mod joint;
mod look;
mod ratio;
mod reach;
mod search;
mod track;
mod verify;

use super::super::Arc;
use super::super::Line;
use super::super::Point;
use super::super::Segment;
use super::super::Vec2;
use super::super::number;
use super::super::tolerance;
use super::FairCurve;
use super::FairCurveError;
use super::Inflection;
use super::Lump;
use super::inflections;
use super::lumps;
use biarc::Bow;
use biarc::biarc;
use joint::Joint;
use joint::turned_round;
use search::Effort;
use track::Track;
use verify::Span;
use verify::deviation;

pub use breakpoints::Breakpoint;
pub use breakpoints::fit_with_breakpoints;
pub use breakpoints::fit_with_halved_breakpoints;

/// A fair curve as lines and arcs, each tangent to the next.
#[derive(Clone, Debug, PartialEq)]
pub struct FittedCurve {
    /// Lines and arcs in order of travel. They start and end where the curve does, in its directions
    /// there; a closed curve that is a circle within the tolerance is one whole circle.
    pub segments: Vec<Segment>,
    /// Where they hang on the curve, for [`fit_with_breakpoints`].
    pub breakpoints: Vec<Breakpoint>,
    /// Greatest distance between the curve and the segments, either way, in millimetres; measured, not
    /// estimated.
    pub deviation: f64,
    /// Where the curve changes from full to hollow.
    pub inflections: Vec<Inflection>,
    /// Stations that do not lie fair, by more than the tolerance (splines only).
    pub lumps: Vec<Lump>,
}

/// The fewest tangent-continuous arcs and lines found that follow the curve within `tolerance`
/// millimetres ([`tolerance::FITTED_CURVE`] is usual).
///
/// Between neighbouring breakpoints, which lie on the curve, runs one arc or one biarc. Ends and end
/// directions are those of the curve.
///
/// # Accuracy
/// Within `tolerance`, measured on the finished segments at other places than the fit looked at (see
/// [`FittedCurve::deviation`]). The number of arcs is about that of the best row of arcs, which is
/// ∫(√3 |κ′| / tolerance)^⅓ / 6 along a curve whose curvature κ changes steadily; time grows with the
/// number of stations and arcs.
///
/// # Errors
/// [`FairCurveError::Tolerance`] for a tolerance below [`tolerance::FINEST_FIT`] or no number;
/// [`FairCurveError::Cusp`] for a curve that turns on the spot; [`FairCurveError::TooFar`] when the
/// measured distance exceeds the tolerance after several finer attempts.
///
/// # Example
/// ```
/// use kerfwise::geometry::Point;
/// use kerfwise::geometry::fair_curve::EllipticalArc;
/// use kerfwise::geometry::fair_curve::FairCurve;
/// use kerfwise::geometry::fair_curve::fit;
///
/// let (foot, corner, side) = (Point::new(0.0, 0.0), Point::new(120.0, 0.0), Point::new(120.0, 300.0));
/// let quarter = FairCurve::from(EllipticalArc::quarter(foot, corner, side)?);
/// let fitted = fit(&quarter, 0.01)?;
/// assert!(fitted.deviation <= 0.01, "off by {} mm", fitted.deviation);
/// assert_eq!(fitted.segments[0].start(), foot, "starts where the quarter does");
/// # Ok::<(), kerfwise::geometry::fair_curve::FairCurveError>(())
/// ```
///
/// # Source
/// The search: after Drysdale, Rote and Sturm, Computational Geometry 41 (2008) 31–47 (from memory);
/// the biarcs: Meek & Walton, Journal of Computational and Applied Mathematics 59 (1995) (from memory).
pub fn fit(curve: &FairCurve, tolerance: f64) -> Result<FittedCurve, FairCurveError> {
    if !(tolerance::FINEST_FIT..=tolerance::LARGEST_COORDINATE).contains(&tolerance) {
        return Err(FairCurveError::Tolerance {
            tolerance,
            finest: tolerance::FINEST_FIT,
        });
    }
    if let FairCurve::Exact(segment) = curve {
        return Ok(exact(curve, *segment));
    }
    let track = Track::new(curve, tolerance)?;
    if let Some(fitted) = whole_circle(curve, tolerance) {
        return Ok(fitted);
    }
    let mut achieved = f64::INFINITY;
    for share in [0.99, 0.97, 0.9, 0.75, 0.5] {
        let joints = fewest_joints(&track, tolerance * share)?;
        let (segments, apart) = assemble(curve, &joints)?;
        let apart = greatest(&apart);
        achieved = apart;
        if apart <= tolerance {
            let breakpoints = joints.iter().map(Breakpoint::from).collect();
            return Ok(report(curve, segments, breakpoints, (apart, tolerance)));
        }
    }
    Err(FairCurveError::TooFar {
        deviation: achieved,
        tolerance,
    })
}

/// The joints of the fewest arcs found. Where they are few, a second search runs the other way and
/// both look harder.
fn fewest_joints(track: &Track<'_>, target: f64) -> Result<Vec<Joint>, FairCurveError> {
    let usual = search::fewest(track, target, Effort::Usual)?;
    if usual.len() > FEW_JOINTS {
        return Ok(usual);
    }
    let reversed = track.curve.reversed();
    let other_track = Track::new(&reversed, track.tolerance)?;
    let there = search::fewest(track, target, Effort::Thorough).ok();
    let back = search::fewest(&other_track, target, Effort::Thorough).ok();
    let back = back.map(|joints| turned_round(track.curve, &joints));
    let spans = usual.len() - 1;
    let on_grid = (spans <= VERY_FEW_SPANS)
        .then(|| grid::fewest_on_grid(track, target, spans))
        .flatten();
    let mut best = (usual, usize::MAX);
    let all = [Some(best.0.clone()), there, back, on_grid];
    for joints in all.into_iter().flatten() {
        let arcs = bows_along(track.curve, &joints)?.iter().map(Vec::len).sum();
        if arcs < best.1 {
            best = (joints, arcs);
        }
    }
    Ok(best.0)
}

/// Joints up to which a curve has few.
const FEW_JOINTS: usize = 60;

/// Spans up to which all rows of arcs between some places are compared.
const VERY_FEW_SPANS: usize = 8;

fn report(
    curve: &FairCurve,
    segments: Vec<Segment>,
    breakpoints: Vec<Breakpoint>,
    (deviation, smallest_lump): (f64, f64),
) -> FittedCurve {
    let found = match curve {
        FairCurve::Spline(spline) => lumps(spline, smallest_lump),
        _ => Vec::new(),
    };
    FittedCurve {
        segments,
        breakpoints,
        deviation,
        inflections: inflections(curve),
        lumps: found,
    }
}

/// A curve that is a line or an arc already.
fn exact(curve: &FairCurve, segment: Segment) -> FittedCurve {
    let ends = [0.0, curve.last_position()].map(|position| Breakpoint {
        position,
        lean: 0.0,
        ratio: 1.0,
    });
    FittedCurve {
        segments: vec![segment],
        breakpoints: ends.to_vec(),
        deviation: 0.0,
        inflections: Vec::new(),
        lumps: Vec::new(),
    }
}

/// The whole circle that a closed curve is within the tolerance, if it is.
fn whole_circle(curve: &FairCurve, tolerance: f64) -> Option<FittedCurve> {
    if !curve.is_closed() {
        return None;
    }
    let last = curve.last_position();
    let [start, second, third] = [0.0, last / 3.0, 2.0 * last / 3.0].map(|at| curve.point_at(at));
    let part = Arc::through(start, second, third).ok()?;
    let sweep = number::FULL_TURN * part.turn().sign();
    let angle = number::direction(start - part.centre());
    let circle = Segment::Arc(Arc::from_angles(part.centre(), part.radius(), angle, sweep));
    let span = Span {
        from: 0.0,
        to: last,
        segments: &[circle],
    };
    let apart = deviation(curve, &span);
    let breakpoints = exact(curve, circle).breakpoints;
    (apart <= tolerance).then(|| report(curve, vec![circle], breakpoints, (apart, tolerance)))
}

/// The arcs between the joints, those of each span apart.
///
/// # Errors
/// [`FairCurveError::Cusp`] where no biarc runs between two joints.
fn bows_along(curve: &FairCurve, joints: &[Joint]) -> Result<Vec<Vec<Bow>>, FairCurveError> {
    let between = |pair: &[Joint]| {
        let (from, to) = (&pair[0], &pair[1]);
        let ends = ((from.point, from.direction), (to.point, to.direction));
        let both = biarc(ends.0, ends.1, to.ratio).ok_or_else(|| cusp_at(curve, from))?;
        let mut own: Vec<Bow> = Vec::with_capacity(2);
        for bow in both {
            push_merged(&mut own, bow);
        }
        Ok(own)
    };
    joints.windows(2).map(between).collect()
}

fn cusp_at(curve: &FairCurve, joint: &Joint) -> FairCurveError {
    FairCurveError::Cusp {
        station: curve.station_near(joint.position),
        at: joint.point,
        radius: 1.0 / curve.curvature_at(joint.position).abs(),
    }
}

/// The segments between the joints, and how far those of each span are from the curve at most.
///
/// # Errors
/// [`FairCurveError::Cusp`] where no biarc runs between two joints.
fn assemble(
    curve: &FairCurve,
    joints: &[Joint],
) -> Result<(Vec<Segment>, Vec<f64>), FairCurveError> {
    let mut bows: Vec<Bow> = Vec::new();
    let mut apart = Vec::with_capacity(joints.len());
    for (own, pair) in bows_along(curve, joints)?
        .into_iter()
        .zip(joints.windows(2))
    {
        let segments: Vec<Segment> = own.iter().filter_map(to_segment).collect();
        if segments.len() != own.len() {
            return Err(cusp_at(curve, &pair[0]));
        }
        let span = Span {
            from: pair[0].position,
            to: pair[1].position,
            segments: &segments,
        };
        apart.push(deviation(curve, &span));
        for bow in own {
            push_merged(&mut bows, bow);
        }
    }
    let segments = bows.iter().filter_map(to_segment).collect();
    Ok((segments, apart))
}

fn greatest(apart: &[f64]) -> f64 {
    apart.iter().copied().fold(0.0, f64::max)
}

/// Appends a bow, or lengthens the last one when both lie on one circle.
fn push_merged(bows: &mut Vec<Bow>, next: Bow) {
    if let Some(last) = bows.last_mut()
        && let Some(joined) = joined(last, &next)
    {
        *last = joined;
        return;
    }
    bows.push(next);
}

fn joined(first: &Bow, second: &Bow) -> Option<Bow> {
    let whole = Bow::new(first.start, first.direction, second.end)?;
    let off = whole.offset(first.end).abs();
    let turned: Vec2 = whole.end_direction();
    let angle = turned.cross(second.end_direction()).abs();
    let sweeps = sweep(first) + sweep(second);
    let one = off < tolerance::SAME_POINT
        && angle < tolerance::SAME_DIRECTION
        && (sweep(&whole) - sweeps).abs() < 1e-6
        && sweeps.abs() < 0.95 * number::FULL_TURN;
    one.then_some(whole)
}

fn sweep(bow: &Bow) -> f64 {
    4.0 * number::arctan(bow.bulge())
}

/// The line or arc that a bow is. A turn below what counts as a direction is none.
fn to_segment(bow: &Bow) -> Option<Segment> {
    let (start, end): (Point, Point) = (bow.start, bow.end);
    if sweep(bow).abs() <= tolerance::SAME_DIRECTION {
        return Some(Segment::Line(Line::new(start, end)));
    }
    Arc::from_bulge(start, end, bow.bulge())
        .ok()
        .map(Segment::Arc)
}
