//! Features as they stand on a shape.

use super::shape::Shape;
use super::shape::Trip;
use super::shape::apart;
use crate::design::part::Corner;
use crate::design::part::Edge;
use crate::design::part::Opening;
use crate::design::part::OpeningShape;
use crate::design::part::Round;
use crate::geometry::Arc;
use crate::geometry::Contour;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::intersect;
use crate::geometry::tolerance;

/// Jaws stop beside an edge that leans out by no more than this: 0.05 mm over jaws that are 40 mm deep,
/// which is what a careful reading of a calliper shows.
const LEAN: f64 = 0.05 / 40.0;

/// A feature on a shape.
#[derive(Clone, Debug)]
pub(super) enum Feature {
    Corner(CornerHere),
    Round(RoundHere),
    Edge(EdgeHere),
    Opening(OpeningHere),
}

/// A corner.
#[derive(Clone, Debug)]
pub(super) struct CornerHere {
    /// Where its edges would meet.
    pub(super) sharp: Point,
    /// Its rounding or chamfer; empty when it is sharp.
    pub(super) worked: Vec<Segment>,
    /// The directions in which its two edges leave it, beyond its rounding.
    pub(super) beside: [Option<Vec2>; 2],
}

/// A round.
#[derive(Clone, Debug)]
pub(super) struct RoundHere {
    pub(super) centre: Point,
    pub(super) radius: f64,
    /// Its arcs; empty when the edges only touch it.
    pub(super) arcs: Vec<Arc>,
}

/// An edge, run as the contours of the shape run: material on the left.
#[derive(Clone, Debug)]
pub(super) struct EdgeHere {
    /// As it would be without the roundings of its corners.
    pub(super) sharp: Vec<Segment>,
    /// As it stands in the contour; empty when roundings use all of it.
    pub(super) finished: Vec<Segment>,
}

/// An opening.
#[derive(Clone, Debug)]
pub(super) struct OpeningHere {
    pub(super) centre: Point,
    pub(super) contour: Contour,
}

impl CornerHere {
    /// The point of the corner's metal that is farthest in a direction: of its rounding, or the corner
    /// itself.
    pub(super) fn farthest(&self, direction: Vec2) -> Point {
        let reach = |point: &Point| point.to_vec2().dot(direction);
        self.worked
            .iter()
            .map(|segment| segment.farthest(direction))
            .max_by(|a, b| reach(a).total_cmp(&reach(b)))
            .unwrap_or(self.sharp)
    }

    /// Whether jaws that come from this side stop on its metal, and do not slide along an edge that leans
    /// out beyond it.
    pub(super) fn stops_jaws(&self, outward: Vec2) -> bool {
        let leans_in = |away: &Vec2| away.dot(outward) <= LEAN;
        self.worked.is_empty() || self.beside.iter().flatten().all(leans_in)
    }

    /// How far from the sharp corner its rounding begins and ends, at most.
    pub(super) fn setback(&self) -> f64 {
        self.worked
            .iter()
            .flat_map(|segment| [segment.start(), segment.end()])
            .map(|end| apart(end, self.sharp))
            .fold(0.0, f64::max)
    }
}

impl<'a> Shape<'a> {
    /// A corner as it stands on this shape; `None` when its edges are not there or do not meet.
    pub(super) fn corner(&self, trip: Trip<'a>, corner: &Corner) -> Option<CornerHere> {
        let source = corner.source;
        if self.is_nominal() {
            return Some(CornerHere {
                sharp: corner.sharp,
                worked: corner.worked.into_iter().collect(),
                beside: beside(trip, corner),
            });
        }
        let (before, after) = trip.beside(trip.entry(source)?)?;
        let (arriving, leaving) = (before.sharp.last()?, after.sharp.first()?);
        // a corner that only fixes the lines of an arc tangent to both is no place of its own
        let drawn = intersect::carriers_near(arriving, leaving, corner.sharp)?;
        if apart(drawn, corner.sharp) > tolerance::SAME_DIMENSION {
            return None;
        }
        let arriving = self.carrier(before, arriving)?;
        let leaving = self.carrier(after, leaving)?;
        let sharp = intersect::carriers_near(&arriving, &leaving, corner.sharp)?;
        let worked = corner.worked.iter().flat_map(|worked| {
            let mut pieces = self.pieces_of(source);
            pieces.retain(|piece| runs_along(piece, worked));
            pieces
        });
        Some(CornerHere {
            sharp,
            worked: worked.collect(),
            beside: beside(trip, corner),
        })
    }

    /// A round as it stands on this shape.
    pub(super) fn round(&self, round: &Round) -> Option<RoundHere> {
        let mut arcs: Vec<Arc> = Vec::new();
        for piece in self.pieces_of(round.source) {
            if let Segment::Arc(arc) = piece
                && apart(arc.centre(), round.centre) <= tolerance::SAME_DIMENSION
            {
                arcs.push(arc);
            }
        }
        let radius = match arcs.first() {
            Some(arc) => arc.radius(),
            None if self.is_nominal() => round.radius,
            None => return None,
        };
        Some(RoundHere {
            centre: round.centre,
            radius,
            arcs,
        })
    }

    /// An edge as it stands on this shape; `None` when it has none of it.
    pub(super) fn edge(&self, trip: Trip<'a>, edge: &Edge) -> Option<EdgeHere> {
        let finished = self.finished(edge);
        if finished.is_empty() {
            let sharp = edge.sharp.clone();
            let all_rounded = EdgeHere { sharp, finished };
            return self.is_nominal().then_some(all_rounded);
        }
        // the edge leaves one entry and runs to the next: whichever is nearer is at its start
        let entry = trip.entry(edge.source)?;
        let next = (entry + 1) % trip.edges.len().max(1);
        let ends =
            [entry, next].map(|entry| trip.corner_at(entry).and_then(|c| self.corner(trip, c)));
        let sharp = extended(&finished, edge, ends);
        Some(EdgeHere { sharp, finished })
    }

    /// An opening as it stands on this shape.
    pub(super) fn opening(&self, opening: &Opening) -> Option<OpeningHere> {
        let bears = |contour: &&Contour| {
            let pieces = contour.pieces();
            pieces.iter().all(|p| opening.sources.contains(&p.source.0))
        };
        let mut holes = self.regions().iter().flat_map(Region::holes);
        let contour = holes.find(bears)?.clone();
        let centre = match (contour.as_circle(), opening.shape) {
            (Some((centre, _)), _)
            | (
                None,
                OpeningShape::Circle { centre, .. } | OpeningShape::Rectangle { centre, .. },
            ) => centre,
            (None, OpeningShape::Slot { from, to, .. }) => from.midpoint(to),
            (None, OpeningShape::Outline) => contour.bounds().center(),
        };
        Some(OpeningHere { centre, contour })
    }

    /// What stands of an edge, in the order of travel; arcs round its end that the offset put there
    /// are left out.
    fn finished(&self, edge: &Edge) -> Vec<Segment> {
        let mut pieces = self.pieces_of(edge.source);
        if !self.is_nominal() {
            let drawn = if edge.finished.is_empty() {
                &edge.sharp
            } else {
                &edge.finished
            };
            pieces.retain(|piece| drawn.iter().any(|drawn| runs_along(piece, drawn)));
        }
        start_first(pieces)
    }

    /// The piece of the shape that runs along one piece of an edge as drawn.
    fn carrier(&self, edge: &Edge, drawn: &Segment) -> Option<Segment> {
        self.pieces_of(edge.source)
            .into_iter()
            .find(|piece| runs_along(piece, drawn))
    }
}

/// The directions in which the edges beside a corner leave it, where they stand in the outline as drawn.
fn beside(trip: Trip<'_>, corner: &Corner) -> [Option<Vec2>; 2] {
    let edges = trip.entry(corner.source).and_then(|at| trip.beside(at));
    let Some((before, after)) = edges else {
        return [None, None];
    };
    [before, after].map(|edge| {
        let standing = if edge.finished.is_empty() {
            &edge.sharp
        } else {
            &edge.finished
        };
        let (first, last) = (standing.first()?, standing.last()?);
        // an edge may be written the other way than it runs
        if apart(first.start(), corner.sharp) <= apart(last.end(), corner.sharp) {
            Some(first.direction_at(0.0))
        } else {
            Some(-last.direction_at(1.0))
        }
    })
}

/// Whether a piece of a shape is parallel to a piece as drawn: a line of the same direction, an arc
/// about the same centre.
fn runs_along(piece: &Segment, drawn: &Segment) -> bool {
    match (piece, drawn) {
        (Segment::Line(a), Segment::Line(b)) => {
            a.direction().cross(b.direction()).abs() <= tolerance::SAME_WALL
        }
        (Segment::Arc(a), Segment::Arc(b)) => {
            apart(a.centre(), b.centre()) <= tolerance::SAME_DIMENSION
        }
        _ => false,
    }
}

/// The pieces of a chain that a contour may start within, first piece first.
fn start_first(mut pieces: Vec<Segment>) -> Vec<Segment> {
    let count = pieces.len();
    let gap_before = |index: usize| {
        let before = pieces.get((index + count - 1) % count.max(1));
        let here = pieces.get(index);
        before
            .zip(here)
            .map_or(0.0, |(before, here)| apart(before.end(), here.start()))
    };
    let first = (0..count).max_by(|&a, &b| gap_before(a).total_cmp(&gap_before(b)));
    if let Some(first) = first {
        pieces.rotate_left(first);
    }
    pieces
}

/// An edge run out to its sharp corners, where it has them.
fn extended(finished: &[Segment], drawn: &Edge, corners: [Option<CornerHere>; 2]) -> Vec<Segment> {
    let (Some(first), Some(last)) = (finished.first(), finished.last()) else {
        return drawn.sharp.clone();
    };
    let [one, other] = corners.map(|corner| corner.filter(|corner| !corner.worked.is_empty()));
    // the shape may run the edge the other way than it is written
    let as_written = drawn
        .sharp
        .first()
        .zip(drawn.sharp.last())
        .is_none_or(|(a, b)| {
            let along = b.end() - a.start();
            (last.end() - first.start()).dot(along) >= 0.0
        });
    let (start, end) = if as_written {
        (one, other)
    } else {
        (other, one)
    };
    let start = start.map_or(first.start(), |corner| corner.sharp);
    let end = end.map_or(last.end(), |corner| corner.sharp);
    if finished
        .iter()
        .all(|segment| matches!(segment, Segment::Line(_)))
        && drawn.sharp.len() == 1
    {
        return vec![Segment::line(start, end)];
    }
    let mut sharp = finished.to_vec();
    if let [only] = sharp.as_mut_slice() {
        *only = only.run_between(start, end);
        return sharp;
    }
    if let Some(first) = sharp.first_mut() {
        *first = first.run_between(start, first.end());
    }
    if let Some(last) = sharp.last_mut() {
        *last = last.run_between(last.start(), end);
    }
    sharp
}
