//! From entries to one closed contour.

use super::built::BuiltCorner;
use super::built::BuiltEdge;
use super::built::BuiltOutline;
use super::built::BuiltRound;
use super::edge;
use super::edge::Drawn;
use super::edge::Ends;
use super::entry::Encloses;
use super::entry::Entry;
use super::entry::Place;
use super::entry::Treatment;
use super::error::OutlineError;
use super::error::OutlineFault;
use super::error::OutlinePart;
use super::neighbours;
use super::treatment;
use crate::geometry::Arc;
use crate::geometry::Contour;
use crate::geometry::GeometryError;
use crate::geometry::Piece;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::Turn;
use crate::geometry::construct::DirectedCircle;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::geometry::validate;

/// Builds an outline; the pieces of the corner or round of entry *i* bear the source 2*i*, those of
/// the edge that leaves it 2*i* + 1.
///
/// An outline written clockwise is accepted and turned: [`BuiltOutline::turned`] says so.
///
/// # Accuracy
/// Constructions are closed forms, or roots found to the last digit or two: coordinates are right to
/// about 1e-12 of the part's size.
///
/// # Errors
/// [`OutlineError`] names the entry and the numbers.
pub fn build(entries: &[Entry]) -> Result<BuiltOutline, OutlineError> {
    build_with_sources(entries, Encloses::Material, 0)
}

/// As [`build`], for a part or for an opening, with sources counted from `first_source`.
///
/// # Errors
/// As [`build`].
pub fn build_with_sources(
    entries: &[Entry],
    encloses: Encloses,
    first_source: u32,
) -> Result<BuiltOutline, OutlineError> {
    check_entries(entries)?;
    let sense = written_sense(entries);
    let built = build_in_sense(entries, (sense, encloses), first_source)?;
    if built.contour.signed_area() * sense > 0.0 {
        return finish(entries, built, sense, first_source);
    }
    // rounds can reach so far that the points alone mislead: try the other sense before refusing
    let other = build_in_sense(entries, (-sense, encloses), first_source)?;
    if other.contour.signed_area() * sense < 0.0 {
        return finish(entries, other, -sense, first_source);
    }
    finish(entries, built, sense, first_source)
}

fn check_entries(entries: &[Entry]) -> Result<(), OutlineError> {
    if entries.len() < 2 {
        return Err(at_place(0, OutlineFault::TooFewEntries(entries.len())));
    }
    for (index, entry) in entries.iter().enumerate() {
        let point = entry.place.point();
        for (what, value) in [("x", point.x), ("y", point.y)] {
            if !(..=tolerance::LARGEST_COORDINATE).contains(&value.abs()) {
                let fault = GeometryError::NotUsable { what, value }.into();
                return Err(at_place(index, fault));
            }
        }
        let sizes = match entry.place {
            Place::Round { radius, .. } => vec![("radius", radius)],
            Place::Corner {
                treatment: Treatment::Fillet(radius),
                ..
            } => vec![("fillet", radius)],
            Place::Corner {
                treatment: Treatment::Chamfer(a, b),
                ..
            } => {
                vec![("chamfer", a), ("chamfer", b)]
            }
            Place::Corner {
                treatment: Treatment::Relief(radius, _),
                ..
            } => vec![("cutter", radius)],
            Place::Corner {
                treatment: Treatment::Sharp,
                ..
            } => vec![],
        };
        for (what, value) in sizes {
            edge::check_positive(what, value).map_err(|fault| at_place(index, fault))?;
        }
    }
    Ok(())
}

/// +1 when the corners and centres run anticlockwise (or enclose nothing), −1 clockwise.
fn written_sense(entries: &[Entry]) -> f64 {
    let origin = entries[0].place.point();
    let points = entries.iter().map(|entry| entry.place.point() - origin);
    let following = points.clone().cycle().skip(1);
    let twice: f64 = points.zip(following).map(|(a, b)| a.cross(b)).sum();
    if twice < 0.0 { -1.0 } else { 1.0 }
}

fn build_in_sense(
    entries: &[Entry],
    (sense, encloses): (f64, Encloses),
    first_source: u32,
) -> Result<BuiltOutline, OutlineError> {
    let mut edges = independent_edges(entries, sense)?;
    neighbours::arcs_between(entries, &mut edges)?;
    neighbours::continuing_edges(entries, &mut edges, sense)?;
    let drawn: Vec<Drawn> = edges.into_iter().flatten().collect();
    let segments: Vec<&[Segment]> = drawn.iter().map(|edge| edge.segments.as_slice()).collect();
    let rounds = rounds(entries, &segments, sense);
    let worked = treatment::work_corners(entries, &segments, sense * encloses.sign())?;
    assemble(entries, drawn, rounds, worked, first_source)
}

pub(super) fn ends(entries: &[Entry], index: usize, sense: f64) -> Ends<'_> {
    let (from, to) = (&entries[index], &entries[(index + 1) % entries.len()]);
    let directed = |entry: &Entry| match entry.place {
        Place::Corner { at, .. } => DirectedCircle::new(at, 0.0),
        Place::Round {
            about,
            radius,
            side,
        } => DirectedCircle::new(about, radius * side.sign() * sense),
    };
    Ends {
        from: directed(from),
        to: directed(to),
        from_name: &from.name,
        to_name: &to.name,
        sense,
    }
}

fn independent_edges(entries: &[Entry], sense: f64) -> Result<Vec<Option<Drawn>>, OutlineError> {
    let edge_of = |(index, entry): (usize, &Entry)| {
        let ends = ends(entries, index, sense);
        edge::independent(&ends, &entry.edge).map_err(|fault| at_edge(index, fault))
    };
    entries.iter().enumerate().map(edge_of).collect()
}

/// The arc of each round, from where an edge arrives to where the next leaves.
fn rounds(entries: &[Entry], edges: &[&[Segment]], sense: f64) -> Vec<BuiltRound> {
    let count = entries.len();
    let mut rounds = Vec::new();
    for (index, entry) in entries.iter().enumerate() {
        let Place::Round {
            about,
            radius,
            side,
        } = entry.place
        else {
            continue;
        };
        let before = edges[(index + count - 1) % count].last();
        let arc = match (before, edges[index].first()) {
            (Some(before), Some(after)) => {
                let (start, end) = (before.end(), after.start());
                let turn = Turn::of_sign(side.sign() * sense);
                let touches_once = number::length(end - start) <= tolerance::SAME_POINT;
                (!touches_once).then(|| Arc::from_centre(start, end, about, turn))
            }
            _ => None,
        };
        rounds.push(BuiltRound {
            entry: index,
            centre: about,
            radius,
            arc,
        });
    }
    rounds
}

fn assemble(
    entries: &[Entry],
    sharp: Vec<Drawn>,
    rounds: Vec<BuiltRound>,
    worked: treatment::Worked,
    first_source: u32,
) -> Result<BuiltOutline, OutlineError> {
    let mut pieces = Vec::new();
    let mut source = first_source;
    for index in 0..entries.len() {
        let round = rounds
            .iter()
            .find(|round| round.entry == index)
            .and_then(|round| round.arc);
        let place = round.map(Segment::Arc).or(worked.corners[index]);
        pieces.extend(place.map(|segment| Piece::new(segment, SourceId(source))));
        let edge = worked.edges[index].iter();
        pieces.extend(edge.map(|segment| Piece::new(*segment, SourceId(source + 1))));
        source += 2;
    }
    let contour = Contour::new(pieces).map_err(|error| at_place(0, error.into()))?;
    let corner_of = |(index, entry): (usize, &Entry)| match entry.place {
        Place::Corner { at, .. } => Some(BuiltCorner {
            entry: index,
            sharp: at,
            worked: worked.corners[index],
        }),
        Place::Round { .. } => None,
    };
    let corners = entries.iter().enumerate().filter_map(corner_of).collect();
    let both = sharp.into_iter().zip(worked.edges).enumerate();
    let edges = both
        .map(|(entry, (drawn, finished))| BuiltEdge {
            entry,
            sharp: drawn.segments,
            finished,
            curve: drawn.curve,
        })
        .collect();
    Ok(BuiltOutline {
        contour,
        turned: false,
        corners,
        rounds,
        edges,
    })
}

/// Turns the contour anticlockwise and refuses it if it crosses itself.
fn finish(
    entries: &[Entry],
    mut built: BuiltOutline,
    sense: f64,
    first_source: u32,
) -> Result<BuiltOutline, OutlineError> {
    built.turned = sense < 0.0;
    if let Err(error) = validate::check_simple(&built.contour) {
        return Err(crossing(entries, &built.contour, first_source, error));
    }
    let area = built.contour.signed_area();
    if area * sense <= tolerance::SHORTEST_SEGMENT * built.contour.perimeter() {
        return Err(at_place(0, GeometryError::NoArea { area }.into()));
    }
    built.contour = built.contour.anticlockwise();
    Ok(built)
}

/// Says a crossing in the names of the entries.
fn crossing(
    entries: &[Entry],
    contour: &Contour,
    first_source: u32,
    error: GeometryError,
) -> OutlineError {
    let GeometryError::CrossesItself { at, first, second } = error else {
        return at_place(0, error.into());
    };
    let origin = |piece: usize| {
        let source = contour
            .pieces()
            .get(piece)
            .map_or(first_source, |piece| piece.source.0);
        let own = (source - first_source) as usize;
        (
            own / 2,
            if own.is_multiple_of(2) {
                OutlinePart::Place
            } else {
                OutlinePart::Edge
            },
        )
    };
    let name = |(entry, part): (usize, OutlinePart)| match part {
        OutlinePart::Place => format!("the rounding at `{}`", entries[entry].name),
        OutlinePart::Edge => edge_name(entries, entry),
    };
    let (first, second) = (origin(first), origin(second));
    let fault = OutlineFault::CrossesItself {
        at,
        first: name(first),
        second: name(second),
    };
    OutlineError {
        entry: second.0,
        part: second.1,
        fault,
    }
}

/// What a message calls an edge: by its own name, or by its ends.
pub(super) fn edge_name(entries: &[Entry], index: usize) -> String {
    let entry = &entries[index];
    if entry.edge.name.is_empty() {
        let next = &entries[(index + 1) % entries.len()];
        format!("the edge from `{}` to `{}`", entry.name, next.name)
    } else {
        format!("the edge `{}`", entry.edge.name)
    }
}

pub(super) const fn at_place(entry: usize, fault: OutlineFault) -> OutlineError {
    OutlineError {
        entry,
        part: OutlinePart::Place,
        fault,
    }
}

pub(super) const fn at_edge(entry: usize, fault: OutlineFault) -> OutlineError {
    OutlineError {
        entry,
        part: OutlinePart::Edge,
        fault,
    }
}
