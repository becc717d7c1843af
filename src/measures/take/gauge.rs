//! Radii and diameters.

use crate::design::DesignError;
use crate::design::Word;
use crate::geometry::Arc;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::measures::feature::Feature;
use crate::measures::find;
use crate::measures::shape::Shape;
use crate::measures::shape::apart;
use crate::measures::taken::How;
use crate::measures::taken::Taken;

/// A circle that a gauge fits, and a point of it that is there.
#[derive(Clone, Copy, Debug)]
struct Gauged {
    centre: Point,
    radius: f64,
    on_it: Point,
}

impl Gauged {
    const fn new(centre: Point, radius: f64, on_it: Point) -> Self {
        Self {
            centre,
            radius,
            on_it,
        }
    }
}

const ROUND: &str = "a round, a filleted corner, an edge of one arc or a round opening";

pub(super) fn radius(shape: &Shape<'_>, name: &Word) -> Result<Taken, DesignError> {
    let gauged = least(shape, name, ROUND)?;
    let between = [gauged.centre, gauged.on_it];
    Ok(Taken::length(gauged.radius, between, How::Gauge))
}

pub(super) fn diameter(shape: &Shape<'_>, name: &Word) -> Result<Taken, DesignError> {
    let gauged = least(shape, name, ROUND)?;
    let out = gauged.on_it - gauged.centre;
    let between = [gauged.centre - out, gauged.on_it];
    Ok(Taken::length(2.0 * gauged.radius, between, How::Straight))
}

fn least(shape: &Shape<'_>, name: &Word, wanted: &'static str) -> Result<Gauged, DesignError> {
    let mut best: Option<Gauged> = None;
    for found in find::all(shape, name)? {
        let gauged =
            gauged(shape, &found).ok_or_else(|| find::wrong(name, found.what(), wanted))?;
        if best.is_none_or(|best| gauged.radius < best.radius) {
            best = Some(gauged);
        }
    }
    best.ok_or_else(|| find::wrong(name, "nothing", wanted))
}

fn gauged(shape: &Shape<'_>, feature: &Feature) -> Option<Gauged> {
    match feature {
        Feature::Corner(corner) => one_circle(&corner.worked),
        Feature::Round(round) => {
            let out = Vec2::new(0.0, round.radius);
            let touched = Gauged::new(round.centre, round.radius, round.centre + out);
            Some(round.arcs.first().map_or(touched, of_arc))
        }
        Feature::Edge(edge) => one_circle(&edge.finished),
        Feature::Opening(opening) => {
            let (centre, radius) = opening.contour.as_circle()?;
            let across = shape.part().datum.across;
            Some(Gauged::new(centre, radius, centre + across * radius))
        }
    }
}

fn of_arc(arc: &Arc) -> Gauged {
    Gauged::new(arc.centre(), arc.radius(), arc.point_at(0.5))
}

/// The circle that all of the segments lie on, which must be arcs.
fn one_circle(segments: &[Segment]) -> Option<Gauged> {
    let Segment::Arc(first) = segments.first()? else {
        return None;
    };
    let same = |segment: &Segment| match segment {
        Segment::Arc(arc) => {
            apart(arc.centre(), first.centre()) <= tolerance::SAME_DIMENSION
                && (arc.radius() - first.radius()).abs() <= tolerance::SAME_DIMENSION
        }
        Segment::Line(_) => false,
    };
    let longest = segments
        .iter()
        .filter_map(|segment| match segment {
            Segment::Arc(arc) => Some(arc),
            Segment::Line(_) => None,
        })
        .max_by(|a, b| a.length().total_cmp(&b.length()))?;
    let real = number::length(longest.start() - longest.centre()).is_finite();
    (real && segments.iter().all(same)).then(|| of_arc(longest))
}
