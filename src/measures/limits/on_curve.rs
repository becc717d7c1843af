//! Measures that end on a fair curve: its arcs follow the true curve only so far.

use crate::design::part::Edge;
use crate::design::part::Part;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::measures::Taken;
use crate::measures::TakenKind;

/// A measure that runs along the curve more than this is not helped, as the sine of the angle between the
/// two: 6°.
const STEEPEST: f64 = 0.1;

/// How far a length may be from what it would be on the true curves, in millimetres: at each end that lies
/// on arcs along a fair curve, what these were found to be off, [`tolerance::FITTED_CURVE`] at the most
/// unless the file says otherwise, along the direction that is measured in. 0 where it ends elsewhere.
pub(super) fn allowance(taken: &Taken, part: &Part, parts: &[Part]) -> f64 {
    let (TakenKind::Length, Some([from, to])) = (taken.kind, taken.between) else {
        return 0.0;
    };
    let Some(way) = number::normalized(to - from) else {
        return 0.0;
    };
    [from, to]
        .into_iter()
        .map(|end| off_curve(end, way, part, parts))
        .sum()
}

/// What the arcs under an end are off, along a direction.
fn off_curve(end: Point, way: Vec2, part: &Part, parts: &[Part]) -> f64 {
    let off = |edge: &Edge| {
        let under = edge.finished.iter().find(|segment| is_on(end, segment))?;
        let along = under.direction_at(under.fraction_near(end));
        let sine = along.cross(way).abs().max(STEEPEST);
        Some(deviation(edge, parts)? / sine)
    };
    edges(part).filter_map(off).fold(0.0, f64::max)
}

fn is_on(point: Point, segment: &Segment) -> bool {
    number::length(segment.nearest_point(point) - point) <= tolerance::SAME_DIMENSION
}

/// How far the arcs of an edge are off its curve. A mirror image or copy does not keep its curve; what it
/// was made from has the same place in the file.
fn deviation(edge: &Edge, parts: &[Part]) -> Option<f64> {
    let of = |edge: &Edge| Some(edge.curve.as_ref()?.fitted.deviation);
    of(edge).or_else(|| {
        let others = parts.iter().flat_map(edges);
        others
            .filter(|other| other.place == edge.place)
            .find_map(of)
    })
}

/// The edges of a part and of its openings.
fn edges(part: &Part) -> impl Iterator<Item = &Edge> {
    let openings = part.openings.iter();
    let inside = openings.flat_map(|opening| opening.features.edges.iter());
    part.edges.iter().chain(inside)
}
