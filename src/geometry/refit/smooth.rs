//! Curves that are no arcs: a batten through the ends of the chords, followed by tangent arcs.

use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::fair_curve::BattenEnd;
use crate::geometry::fair_curve::FairCurve;
use crate::geometry::fair_curve::fit;
use crate::geometry::number;
use crate::geometry::tolerance;

/// More points than this in one curve are left as they are: the search would take too long.
const MOST_POINTS: usize = 5000;

/// Shares of the tolerance that the arcs may use; the chords themselves lie off the curve by the rest.
const SHARES: [f64; 2] = [0.8, 0.4];

/// Tangent arcs along the points, in a few attempts.
pub(super) fn tangent_arcs(points: &[Point], allowed: f64) -> Vec<Vec<Segment>> {
    if points.len() > MOST_POINTS {
        return Vec::new();
    }
    let Some(curve) = batten(points) else {
        return Vec::new();
    };
    SHARES
        .iter()
        .filter_map(|share| {
            let within = (allowed * share).max(tolerance::FINEST_FIT);
            fit(&curve, within).ok().map(|fitted| fitted.segments)
        })
        .collect()
}

fn batten(points: &[Point]) -> Option<FairCurve> {
    let (first, last) = (points.first()?, points.last()?);
    if number::length(*last - *first) <= tolerance::SAME_POINT {
        let ring = points.get(..points.len() - 1)?;
        return FairCurve::closed(ring).ok();
    }
    FairCurve::through(points, BattenEnd::Natural, BattenEnd::Natural).ok()
}
