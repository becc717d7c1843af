//! Fillets and chamfers, between whatever meets at a corner.

use super::build::at_place;
use super::entry::Entry;
use super::entry::Place;
use super::entry::Treatment;
use super::error::OutlineError;
use super::error::OutlineFault;
use crate::geometry::Segment;
use crate::geometry::construct;
use crate::geometry::number;
use crate::geometry::tolerance;

/// The corners worked, and what is left of the edges.
#[derive(Clone, Debug)]
pub(super) struct Worked {
    /// One an entry: the rounding or chamfer, if there is one.
    pub(super) corners: Vec<Option<Segment>>,
    /// One an entry: the edge, trimmed.
    pub(super) edges: Vec<Vec<Segment>>,
}

/// A corner worked on its own, with its neighbours untouched by other corners.
#[derive(Clone, Copy, Debug)]
struct Corner {
    worked: Segment,
    /// What is left of the edge that arrives.
    before: Segment,
    /// What is left of the edge that leaves.
    after: Segment,
}

/// Works every corner. Each is worked against the whole edges; that two of them do not use the same
/// stretch of an edge is checked afterwards, so that the order of the corners does not matter.
pub(super) fn work_corners(
    entries: &[Entry],
    edges: &[&[Segment]],
) -> Result<Worked, OutlineError> {
    let count = entries.len();
    let mut corners: Vec<Option<Corner>> = Vec::with_capacity(count);
    for (index, entry) in entries.iter().enumerate() {
        let before = edges[(index + count - 1) % count].last();
        let (Some(before), Some(after)) = (before, edges[index].first()) else {
            corners.push(None);
            continue;
        };
        corners.push(work(entry, before, after).map_err(|fault| at_place(index, fault))?);
    }
    let mut trimmed = Vec::with_capacity(count);
    for index in 0..count {
        let next = (index + 1) % count;
        let names = (entries[index].name.as_str(), entries[next].name.as_str());
        let edge = trim(edges[index], corners[index], corners[next], names)
            .map_err(|fault| at_place(next, fault))?;
        trimmed.push(edge);
    }
    let corners = corners
        .into_iter()
        .map(|corner| corner.map(|corner| corner.worked))
        .collect();
    Ok(Worked {
        corners,
        edges: trimmed,
    })
}

fn work(entry: &Entry, before: &Segment, after: &Segment) -> Result<Option<Corner>, OutlineFault> {
    let Place::Corner { treatment, .. } = entry.place else {
        return Ok(None);
    };
    let refused = |fault| match fault {
        construct::CornerFault::NoCorner => OutlineFault::NoCorner(entry.name.clone()),
        construct::CornerFault::TooLarge { largest } => {
            let (what, size) = match treatment {
                Treatment::Chamfer(a, b) => ("a chamfer", a.max(b)),
                Treatment::Fillet(radius) => ("a fillet", radius),
                Treatment::Sharp => ("a rounding", 0.0),
            };
            let corner = entry.name.clone();
            OutlineFault::TreatmentTooLarge {
                what,
                corner,
                size,
                largest,
            }
        }
    };
    match treatment {
        Treatment::Sharp => Ok(None),
        Treatment::Fillet(radius) => {
            let fillet = construct::fillet(before, after, radius).map_err(refused)?;
            let (before, after) = (fillet.before, fillet.after);
            Ok(Some(Corner {
                worked: fillet.arc.into(),
                before,
                after,
            }))
        }
        Treatment::Chamfer(arriving, leaving) => {
            let chamfer = construct::chamfer(before, after, arriving, leaving).map_err(refused)?;
            let (before, after) = (chamfer.before, chamfer.after);
            Ok(Some(Corner {
                worked: chamfer.line.into(),
                before,
                after,
            }))
        }
    }
}

/// What two corners leave of the edge between them.
fn trim(
    edge: &[Segment],
    start: Option<Corner>,
    end: Option<Corner>,
    names: (&str, &str),
) -> Result<Vec<Segment>, OutlineFault> {
    let mut left = edge.to_vec();
    if let (Some(first), Some(corner)) = (left.first_mut(), start) {
        *first = corner.after;
    }
    let (Some(last), Some(corner)) = (left.last_mut(), end) else {
        return Ok(without_empty(left));
    };
    if edge.len() > 1 || start.is_none() {
        *last = corner.before;
        return Ok(without_empty(left));
    }
    // one segment trimmed at both ends
    let whole = edge[0].length();
    let first_needs = whole - last.length();
    let second_needs = whole - corner.before.length();
    if first_needs + second_needs > whole + tolerance::SAME_POINT {
        return Err(OutlineFault::TreatmentsOverlap {
            first: names.0.to_owned(),
            second: names.1.to_owned(),
            first_needs,
            second_needs,
            length: whole,
        });
    }
    let (from, to) = (last.start(), corner.before.end());
    if number::length(to - from) < tolerance::SHORTEST_SEGMENT {
        return Ok(Vec::new());
    }
    let (a, b) = (first_needs / whole, 1.0 - second_needs / whole);
    *last = edge[0].part(a, b).with_ends(from, to);
    Ok(left)
}

fn without_empty(edge: Vec<Segment>) -> Vec<Segment> {
    edge.into_iter()
        .filter(|segment| segment.length() >= tolerance::SHORTEST_SEGMENT)
        .collect()
}
