//! Fillets and chamfers, between whatever meets at a corner.

use super::build::at_place;
use super::entry::Entry;
use super::entry::Place;
use super::entry::Treatment;
use super::error::OutlineError;
use super::error::OutlineFault;
use crate::geometry::Segment;
use crate::geometry::construct;
use crate::geometry::construct::ConstructError;
use crate::geometry::construct::Setbacks;
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
    /// What is left of the edge that arrives, if anything.
    before: Option<Segment>,
    /// What is left of the edge that leaves, if anything.
    after: Option<Segment>,
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
    let too_large = |what, size, largest| OutlineFault::TreatmentTooLarge {
        what,
        corner: entry.name.clone(),
        size,
        largest,
    };
    let refused = |error| match error {
        ConstructError::NoCorner { .. } => OutlineFault::NoCorner(entry.name.clone()),
        ConstructError::FilletTooLarge { radius, largest } => {
            too_large("a fillet", radius, largest)
        }
        ConstructError::SetbackTooLarge {
            setback, largest, ..
        } => too_large("a chamfer", setback, largest),
        error => error.into(),
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
        Treatment::Chamfer(before_corner, after_corner) => {
            let setbacks = Setbacks {
                before: before_corner,
                after: after_corner,
            };
            let chamfer = construct::chamfer(before, after, setbacks).map_err(refused)?;
            Ok(Some(Corner {
                worked: chamfer.edge.into(),
                before: chamfer.before,
                after: chamfer.after,
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
    if let ([only], Some(first), Some(second)) = (edge, start, end) {
        return trim_at_both_ends(only, first.after, second.before, names);
    }
    let mut left = edge.to_vec();
    if let Some(corner) = start
        && !left.is_empty()
    {
        left.splice(..1, corner.after);
    }
    if let Some(corner) = end
        && left.pop().is_some()
    {
        left.extend(corner.before);
    }
    Ok(without_empty(left))
}

/// What is left of one segment when a corner at its start leaves `after` of it, and one at its end
/// `before`.
fn trim_at_both_ends(
    segment: &Segment,
    after: Option<Segment>,
    before: Option<Segment>,
    names: (&str, &str),
) -> Result<Vec<Segment>, OutlineFault> {
    let whole = segment.length();
    let needs = |left: Option<Segment>| whole - left.map_or(0.0, |left| left.length());
    let (first_needs, second_needs) = (needs(after), needs(before));
    if first_needs + second_needs > whole + tolerance::SAME_POINT {
        return Err(OutlineFault::TreatmentsOverlap {
            first: names.0.to_owned(),
            second: names.1.to_owned(),
            first_needs,
            second_needs,
            length: whole,
        });
    }
    let (Some(after), Some(before)) = (after, before) else {
        return Ok(Vec::new());
    };
    let (from, to) = (after.start(), before.end());
    if number::length(to - from) < tolerance::SHORTEST_SEGMENT {
        return Ok(Vec::new());
    }
    let (a, b) = (first_needs / whole, 1.0 - second_needs / whole);
    Ok(vec![segment.part(a, b).with_ends(from, to)])
}

fn without_empty(edge: Vec<Segment>) -> Vec<Segment> {
    edge.into_iter()
        .filter(|segment| segment.length() >= tolerance::SHORTEST_SEGMENT)
        .collect()
}
