//! Arcs along a curve that has changed since they were fitted.

use super::super::FairCurve;
use super::super::FairCurveError;
use super::FittedCurve;
use super::assemble;
use super::exact;
use super::greatest;
use super::joint::Joint;
use super::joint::leaning;
use super::report;
use crate::geometry::Segment;
use crate::geometry::tolerance;

/// A place of the curve at which arcs meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Breakpoint {
    /// Where on the curve.
    pub position: f64,
    /// Angle from the curve's own direction to that of the arcs there, in radians, anticlockwise
    /// positive; 0 at the ends.
    pub lean: f64,
    /// Ratio of the tangent lengths, second to first, of the two arcs that end here; 1 at the start.
    pub ratio: f64,
}

impl From<&Joint> for Breakpoint {
    fn from(joint: &Joint) -> Self {
        Self {
            position: joint.position,
            lean: joint.lean,
            ratio: joint.ratio,
        }
    }
}

/// The same arrangement of arcs on another curve of the same kind: breakpoints of an earlier fit,
/// taken on a curve that has changed a little.
///
/// The segments then follow the curve smoothly (no arc appears or goes, except where two arcs happen
/// to be one), which is what sensitivities need. The deviation is measured and reported, and may be
/// more than the earlier fit was asked for.
///
/// # Accuracy
/// As measured: [`FittedCurve::deviation`].
///
/// # Errors
/// [`FairCurveError::Breakpoints`] when they do not rise from the start of this curve to its end;
/// [`FairCurveError::Cusp`] where no biarc runs between two of them.
pub fn fit_with_breakpoints(
    curve: &FairCurve,
    breakpoints: &[Breakpoint],
) -> Result<FittedCurve, FairCurveError> {
    fit_with_halved_breakpoints(curve, breakpoints, f64::INFINITY)
}

/// As [`fit_with_breakpoints`], for a curve that may have changed too much for so few arcs: spans that
/// stray by more than `tolerance` millimetres are halved until none does, and each halving lets them
/// stray about an eighth as far. Nothing is searched, so it is many times quicker than [`fit`](super::fit()),
/// and needs more arcs.
///
/// # Accuracy
/// As measured, and no more than `tolerance`.
///
/// # Errors
/// As [`fit_with_breakpoints`]; [`FairCurveError::TooFar`] when halving does not help, as at a cusp.
pub fn fit_with_halved_breakpoints(
    curve: &FairCurve,
    breakpoints: &[Breakpoint],
    tolerance: f64,
) -> Result<FittedCurve, FairCurveError> {
    if let FairCurve::Exact(segment) = curve {
        return Ok(exact(curve, *segment));
    }
    check(curve, breakpoints)?;
    let mut breakpoints = breakpoints.to_vec();
    let (mut segments, mut apart) = along(curve, &breakpoints)?;
    for _ in 0..MOST_HALVINGS {
        if greatest(&apart) <= tolerance {
            break;
        }
        breakpoints = halved(&breakpoints, |span| apart[span] > tolerance);
        (segments, apart) = along(curve, &breakpoints)?;
    }
    let deviation = greatest(&apart);
    if deviation > tolerance {
        return Err(FairCurveError::TooFar {
            deviation,
            tolerance,
        });
    }
    let smallest_lump = deviation.max(tolerance::FITTED_CURVE);
    Ok(report(
        curve,
        segments,
        breakpoints,
        (deviation, smallest_lump),
    ))
}

/// Halvings at most: a batten pushed out by half its length needs six to eight.
const MOST_HALVINGS: usize = 12;

/// Refuses breakpoints that do not rise from the start of the curve to its end.
fn check(curve: &FairCurve, breakpoints: &[Breakpoint]) -> Result<(), FairCurveError> {
    let last = curve.last_position();
    let refused = |index, position, after| FairCurveError::Breakpoints {
        index,
        position,
        after,
        last,
    };
    let mut after = 0.0;
    for (index, breakpoint) in breakpoints.iter().enumerate() {
        let position = breakpoint.position;
        let (first, end) = (index == 0, index + 1 == breakpoints.len());
        let rises = if first {
            position == 0.0
        } else {
            position > after
        };
        let ends = if end && !first {
            position == last
        } else {
            position < last
        };
        let usable = breakpoint.lean.is_finite() && breakpoint.ratio > 0.0;
        if !(rises && ends && usable) {
            return Err(refused(index, position, after));
        }
        after = position;
    }
    if breakpoints.len() < 2 {
        return Err(refused(breakpoints.len(), last, after));
    }
    Ok(())
}

/// The segments that hang on the curve at the breakpoints, and how far each span of them strays.
fn along(
    curve: &FairCurve,
    breakpoints: &[Breakpoint],
) -> Result<(Vec<Segment>, Vec<f64>), FairCurveError> {
    let joint = |breakpoint: &Breakpoint| Joint {
        position: breakpoint.position,
        length: 0.0,
        point: curve.point_at(breakpoint.position),
        direction: leaning(curve.direction_at(breakpoint.position), breakpoint.lean),
        lean: breakpoint.lean,
        ratio: breakpoint.ratio,
    };
    let joints: Vec<Joint> = breakpoints.iter().map(joint).collect();
    assemble(curve, &joints)
}

/// The breakpoints with another in the middle of each span that strays. Arcs run in the curve's own
/// directions there: the leans that suited the longer span do not suit its halves.
fn halved(breakpoints: &[Breakpoint], strays: impl Fn(usize) -> bool) -> Vec<Breakpoint> {
    let on_curve = |position| Breakpoint {
        position,
        lean: 0.0,
        ratio: 1.0,
    };
    let mut halves: Vec<Breakpoint> = Vec::with_capacity(2 * breakpoints.len());
    for (index, breakpoint) in breakpoints.iter().enumerate() {
        let mut own = *breakpoint;
        let before = index.checked_sub(1).filter(|&span| strays(span));
        if let (Some(_), Some(last)) = (before, halves.last()) {
            halves.push(on_curve(f64::midpoint(last.position, own.position)));
            own.ratio = 1.0;
        }
        if before.is_some() || index + 1 < breakpoints.len() && strays(index) {
            own.lean = 0.0;
        }
        halves.push(own);
    }
    halves
}
