//! What filing one edge alone does to a measure.

use super::distance;
use crate::design::DesignError;
use crate::design::Unresolved;
use crate::design::file::Measure;
use crate::design::file::measure::EdgeDistance;
use crate::design::file::measure::FeaturePosition;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::nearest;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::measures::find;
use crate::measures::shape::Shape;
use crate::measures::shape::apart;
use crate::measures::taken::Taken;

/// An edge less than this across the way of a measure is one that filing does not move it by: the sine of
/// the angle between them.
const ALONG: f64 = 0.1;

/// What filing one edge, or the rim of an opening all round, does to a measure.
#[derive(Clone, Debug, PartialEq)]
pub struct FiledEdge {
    /// Name of the edge, the round or the opening.
    pub edge: String,
    /// What the measure changes by for each millimetre that comes off: negative where it gets smaller.
    pub rate: f64,
    /// How much more than the measure there is at this edge, where the measure is the least of several: in
    /// the unit of the measure, on the part as drawn.
    pub beyond: f64,
}

/// A line of the shape through a point.
struct Touching {
    name: String,
    /// The way it runs there, with the material on its left.
    along: Vec2,
    /// Into the material.
    inward: Vec2,
}

/// The edges, rounds and openings that a measure ends on, and what filing each of them alone does to it, to
/// the first order. Radii, bows, angles and thicknesses have none: no single edge is theirs.
///
/// # Errors
/// As [`take`](super::take).
pub fn filed_edges(
    shape: &Shape<'_>,
    measure: &Measure,
    taken: &Taken,
) -> Result<Vec<FiledEdge>, Unresolved> {
    let ends = match measure {
        Measure::EdgeDistance(of) => return Ok(beside(shape, of, taken.value)?),
        Measure::Weight | Measure::Area => return Ok(of_the_whole(shape, taken.value)),
        Measure::Thickness | Measure::Radius(_) | Measure::Bow(_) | Measure::Angle(_) => None,
        Measure::Position(position) => Some(of_position(shape, position)?),
        Measure::Along(_)
        | Measure::Width(_)
        | Measure::Distance(_)
        | Measure::Diameter(_)
        | Measure::Size(_)
        | Measure::Strip(_) => taken.between.and_then(|[from, to]| {
            let way = number::normalized(to - from)?;
            Some([(from, -way), (to, way)])
        }),
    };
    let mut all: Vec<FiledEdge> = Vec::new();
    for (end, outward) in ends.into_iter().flatten() {
        for (edge, rate) in at_end(&touching(shape, end), outward) {
            match all.iter_mut().find(|known| known.edge == edge) {
                Some(known) => known.rate += rate,
                None => all.push(FiledEdge {
                    edge,
                    rate,
                    beyond: 0.0,
                }),
            }
        }
    }
    Ok(all)
}

/// The two ends of a position, each with the way in which it makes the position larger.
fn of_position(
    shape: &Shape<'_>,
    position: &FeaturePosition,
) -> Result<[(Point, Vec2); 2], Unresolved> {
    let way = distance::way(&shape.datum(), position.way.value);
    let of = distance::point(shape, &position.of)?;
    let from = match &position.from {
        Some(from) => distance::point(shape, from)?.at,
        None => shape.datum().origin,
    };
    Ok([(from, -way), (of.at, way)])
}

/// Distances of openings from the edges: of every edge, since another may be the nearest once it is filed.
fn beside(shape: &Shape<'_>, of: &EdgeDistance, value: f64) -> Result<Vec<FiledEdge>, DesignError> {
    let openings = find::openings(shape, &of.of)?;
    let trip = shape.trip();
    let named = |name: &str| of.to.as_ref().is_none_or(|to| to.value == name);
    let mut all: Vec<FiledEdge> = Vec::new();
    let mut keep = |name: &str, distance: f64| {
        let beyond = (distance - value).max(0.0);
        match all.iter_mut().find(|known| known.edge == name) {
            Some(known) => known.beyond = known.beyond.min(beyond),
            None => all.push(FiledEdge {
                edge: name.to_owned(),
                rate: -1.0,
                beyond,
            }),
        }
    };
    for edge in trip.edges.iter().filter(|edge| named(&edge.name)) {
        let Some(here) = shape.edge(trip, edge) else {
            continue;
        };
        for (opening, contour) in &openings {
            let pairs = contour
                .segments()
                .flat_map(|rim| here.finished.iter().map(move |edge| (rim, edge)));
            let least = pairs
                .map(|(rim, edge)| nearest::between(rim, edge).distance)
                .fold(f64::INFINITY, f64::min);
            if least.is_finite() {
                keep(&edge.name, least);
                keep(&opening.name, least);
            }
        }
    }
    Ok(all)
}

/// Of an area or a weight each edge has its length of it.
fn of_the_whole(shape: &Shape<'_>, value: f64) -> Vec<FiledEdge> {
    let area: f64 = shape.regions().iter().map(Region::area).sum();
    if area <= 0.0 {
        return Vec::new();
    }
    let rate = |segments: &[Segment]| -> f64 {
        let length: f64 = segments.iter().map(Segment::length).sum();
        -length * value / area
    };
    lines(shape, Kept::Finished)
        .into_iter()
        .map(|(edge, segments)| FiledEdge {
            edge,
            rate: rate(&segments),
            beyond: 0.0,
        })
        .collect()
}

/// Which lines of an edge: run out to its sharp corners, or as they stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kept {
    Sharp,
    Finished,
}

/// The edges, rounds and openings with their lines, the material on their left.
fn lines(shape: &Shape<'_>, kept: Kept) -> Vec<(String, Vec<Segment>)> {
    let trip = shape.trip();
    let edges = trip.edges.iter().filter_map(|edge| {
        let here = shape.edge(trip, edge)?;
        let segments = match kept {
            Kept::Sharp => here.sharp,
            Kept::Finished => here.finished,
        };
        Some((edge.name.clone(), segments))
    });
    let rounds = trip.rounds.iter().filter_map(|round| {
        let arcs = shape.round(round)?.arcs.into_iter();
        Some((round.name.clone(), arcs.map(Segment::Arc).collect()))
    });
    let openings = shape.part().openings.iter().filter_map(|opening| {
        let rim = shape.opening(opening)?.contour;
        Some((opening.name.clone(), rim.segments().copied().collect()))
    });
    edges.chain(rounds).chain(openings).collect()
}

fn touching(shape: &Shape<'_>, at: Point) -> Vec<Touching> {
    lines(shape, Kept::Sharp)
        .into_iter()
        .filter_map(|(name, segments)| {
            let along = segments.iter().find_map(|segment| tangent(segment, at))?;
            let inward = number::left_normal(along);
            Some(Touching {
                name,
                along,
                inward,
            })
        })
        .collect()
}

/// The way in which a line runs at a point of it.
fn tangent(segment: &Segment, at: Point) -> Option<Vec2> {
    if apart(segment.nearest_point(at), at) > tolerance::SAME_DIMENSION {
        return None;
    }
    match segment {
        Segment::Line(line) => Some(line.direction()),
        Segment::Arc(arc) => {
            let out = number::normalized(at - arc.centre())?;
            Some(number::left_normal(out) * arc.sweep().signum())
        }
    }
}

/// What filing each of the lines through the end of a measure does to it: the end runs on along the other
/// line where two meet in a corner, and along the measure where there is one only.
fn at_end(touching: &[Touching], outward: Vec2) -> Vec<(String, f64)> {
    let alone = |edge: &Touching| {
        let across = edge.inward.dot(outward);
        (across.abs() >= ALONG).then(|| (edge.name.clone(), 1.0 / across))
    };
    let rates: Vec<_> = match touching {
        [one, other, ..] => [(one, other), (other, one)]
            .into_iter()
            .filter_map(|(edge, other)| {
                let across = other.along.dot(edge.inward);
                if across.abs() < ALONG {
                    return alone(edge);
                }
                Some((edge.name.clone(), other.along.dot(outward) / across))
            })
            .collect(),
        [only] => alone(only).into_iter().collect(),
        [] => Vec::new(),
    };
    rates
        .into_iter()
        .filter(|(_, rate)| rate.abs() > tolerance::SAME_WALL)
        .collect()
}
