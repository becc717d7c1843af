//! Fillets, chamfers and reliefs, between whatever meets at a corner.

use super::build::at_place;
use super::entry::Entry;
use super::entry::Place;
use super::entry::Treatment;
use super::error::OutlineError;
use super::error::OutlineFault;
use crate::geometry::Arc;
use crate::geometry::Segment;
use crate::geometry::construct;
use crate::geometry::construct::ConstructError;
use crate::geometry::construct::ReliefDirection;
use crate::geometry::construct::Rest;
use crate::geometry::construct::Setbacks;
use crate::geometry::construct::WorkedCorner;
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

/// Works every corner. Each is worked against the whole edges; that two of them do not use the same
/// stretch of an edge is checked afterwards, so that the order of the corners does not matter.
/// `material` is +1 when material lies to the left of travel, −1 to the right.
pub(super) fn work_corners(
    entries: &[Entry],
    edges: &[&[Segment]],
    material: f64,
) -> Result<Worked, OutlineError> {
    let count = entries.len();
    let mut corners: Vec<Option<WorkedCorner>> = Vec::with_capacity(count);
    for (index, entry) in entries.iter().enumerate() {
        let (before, after) = (edges[(index + count - 1) % count], edges[index]);
        if before.is_empty() || after.is_empty() {
            corners.push(None);
            continue;
        }
        corners.push(work(entry, before, after, material).map_err(|fault| at_place(index, fault))?);
    }
    let mut trimmed = Vec::with_capacity(count);
    for index in 0..count {
        let next = (index + 1) % count;
        let names = (entries[index].name.as_str(), entries[next].name.as_str());
        let edge = trim(
            edges[index],
            corners[index].map(|corner| corner.after),
            corners[next].map(|corner| corner.before),
            names,
        )
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

fn work(
    entry: &Entry,
    before: &[Segment],
    after: &[Segment],
    material: f64,
) -> Result<Option<WorkedCorner>, OutlineFault> {
    let Place::Corner { treatment, .. } = entry.place else {
        return Ok(None);
    };
    let refused = |error| corner_fault(entry, treatment, error);
    let corner = match treatment {
        Treatment::Sharp => return Ok(None),
        Treatment::Fillet(radius) => construct::fillet_between_edges(before, after, radius),
        Treatment::Chamfer(arriving, leaving) => {
            let setbacks = Setbacks {
                before: arriving,
                after: leaving,
            };
            construct::chamfer_between_edges(before, after, setbacks)
        }
        Treatment::Relief(radius, direction) => {
            relief(before, after, (radius, direction), material)
        }
    };
    corner.map(Some).map_err(refused)
}

/// A relief, between the two pieces that meet at the corner.
fn relief(
    before: &[Segment],
    after: &[Segment],
    (radius, direction): (f64, ReliefDirection),
    material: f64,
) -> Result<WorkedCorner, ConstructError> {
    let (last, first) = (&before[before.len() - 1], &after[0]);
    let worked = |arc: Arc, left: [Option<Segment>; 2]| WorkedCorner {
        before: Rest {
            piece: before.len() - 1,
            left: left[0],
        },
        worked: arc.into(),
        after: Rest {
            piece: 0,
            left: left[1],
        },
    };
    if material > 0.0 {
        let found = construct::relief(last, first, radius, direction)?;
        return Ok(worked(found.arc, [found.before, found.after]));
    }
    // run the other way round, material is on the left
    let direction = match direction {
        ReliefDirection::Bisector => ReliefDirection::Bisector,
        ReliefDirection::AlongBefore => ReliefDirection::AlongAfter,
        ReliefDirection::AlongAfter => ReliefDirection::AlongBefore,
    };
    let found = construct::relief(&first.reversed(), &last.reversed(), radius, direction)?;
    let turned = |segment: Option<Segment>| segment.map(|segment| segment.reversed());
    Ok(worked(
        found.arc.reversed(),
        [turned(found.after), turned(found.before)],
    ))
}

/// Says what the construction refuses in the words of the outline.
fn corner_fault(entry: &Entry, treatment: Treatment, error: ConstructError) -> OutlineFault {
    let corner = entry.name.clone();
    match error {
        ConstructError::NoCorner { .. } => OutlineFault::NoCorner(corner),
        ConstructError::FilletTooLarge { radius, largest } => OutlineFault::TreatmentTooLarge {
            what: "a fillet",
            corner,
            size: radius,
            largest,
        },
        ConstructError::SetbackTooLarge {
            setback, largest, ..
        } => OutlineFault::TreatmentTooLarge {
            what: "a chamfer",
            corner,
            size: setback,
            largest,
        },
        error => OutlineFault::Corner {
            corner,
            what: match treatment {
                Treatment::Chamfer(..) => "chamfer",
                Treatment::Relief(..) => "relief",
                Treatment::Fillet(_) | Treatment::Sharp => "fillet",
            },
            error,
        },
    }
}

/// What two corners leave of the edge between them.
fn trim(
    edge: &[Segment],
    start: Option<Rest>,
    end: Option<Rest>,
    names: (&str, &str),
) -> Result<Vec<Segment>, OutlineFault> {
    let (Some(first), Some(last)) = (edge.first(), edge.last()) else {
        return Ok(Vec::new());
    };
    let start = start.unwrap_or(Rest {
        piece: 0,
        left: Some(*first),
    });
    let end = end.unwrap_or(Rest {
        piece: edge.len() - 1,
        left: Some(*last),
    });
    let length: f64 = edge.iter().map(Segment::length).sum();
    let (first_needs, second_needs) = used(edge, start, end);
    if first_needs + second_needs > length + tolerance::SAME_POINT {
        return Err(OutlineFault::TreatmentsOverlap {
            first: names.0.to_owned(),
            second: names.1.to_owned(),
            first_needs,
            second_needs,
            length,
        });
    }
    let mut left: Vec<Option<Segment>> = Vec::new();
    if start.piece == end.piece {
        left.push(between(&edge[start.piece], start.left, end.left));
    } else if start.piece < end.piece {
        left.push(start.left);
        left.extend(edge[start.piece + 1..end.piece].iter().copied().map(Some));
        left.push(end.left);
    }
    let long_enough = |segment: &Segment| segment.length() >= tolerance::SHORTEST_SEGMENT;
    Ok(left.into_iter().flatten().filter(long_enough).collect())
}

/// Length of an edge that the corner at its start, and that the one at its end, has used.
fn used(edge: &[Segment], start: Rest, end: Rest) -> (f64, f64) {
    let length = |pieces: &[Segment]| pieces.iter().map(Segment::length).sum::<f64>();
    let left = |rest: Rest| rest.left.map_or(0.0, |left| left.length());
    (
        length(&edge[..=start.piece]) - left(start),
        length(&edge[end.piece..]) - left(end),
    )
}

/// What is left of one piece that is cut at both ends: `after` by the corner at its start, `before` by the
/// corner at its end.
fn between(whole: &Segment, after: Option<Segment>, before: Option<Segment>) -> Option<Segment> {
    let (after, before) = (after?, before?);
    let (from, to) = (after.start(), before.end());
    if number::length(to - from) < tolerance::SHORTEST_SEGMENT {
        return None;
    }
    let length = whole.length();
    let from_end = 1.0 - after.length() / length;
    let part = whole.part(from_end, before.length() / length);
    Some(part.with_ends(from, to))
}
