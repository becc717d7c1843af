//! Fillets, chamfers and reliefs, between whatever meets at a corner.

use super::build::at_place;
use super::entry::Entry;
use super::entry::Place;
use super::entry::Treatment;
use super::error::OutlineError;
use super::error::OutlineFault;
use crate::geometry::Segment;
use crate::geometry::construct;
use crate::geometry::construct::ConstructError;
use crate::geometry::construct::ReliefDirection;
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
    /// What is left of the edge that arrives; `None` when all of it is used.
    before: Option<Segment>,
    /// What is left of the edge that leaves; `None` when all of it is used.
    after: Option<Segment>,
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
    let mut corners: Vec<Option<Corner>> = Vec::with_capacity(count);
    for (index, entry) in entries.iter().enumerate() {
        let before = edges[(index + count - 1) % count].last();
        let (Some(before), Some(after)) = (before, edges[index].first()) else {
            corners.push(None);
            continue;
        };
        corners.push(work(entry, before, after, material).map_err(|fault| at_place(index, fault))?);
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

fn work(
    entry: &Entry,
    before: &Segment,
    after: &Segment,
    material: f64,
) -> Result<Option<Corner>, OutlineFault> {
    let Place::Corner { treatment, .. } = entry.place else {
        return Ok(None);
    };
    let refused = |error| corner_fault(entry, treatment, error);
    let corner = match treatment {
        Treatment::Sharp => return Ok(None),
        Treatment::Fillet(radius) => {
            let fillet = construct::fillet(before, after, radius).map_err(refused)?;
            Corner {
                worked: fillet.arc.into(),
                before: fillet.before,
                after: fillet.after,
            }
        }
        Treatment::Chamfer(arriving, leaving) => {
            let setbacks = Setbacks {
                before: arriving,
                after: leaving,
            };
            let chamfer = construct::chamfer(before, after, setbacks).map_err(refused)?;
            Corner {
                worked: chamfer.edge.into(),
                before: chamfer.before,
                after: chamfer.after,
            }
        }
        Treatment::Relief(radius, direction) if material > 0.0 => {
            let relief = construct::relief(before, after, radius, direction).map_err(refused)?;
            Corner {
                worked: relief.arc.into(),
                before: relief.before,
                after: relief.after,
            }
        }
        Treatment::Relief(radius, direction) => {
            // run the other way round, material is on the left
            let (first, second) = (after.reversed(), before.reversed());
            let direction = match direction {
                ReliefDirection::Bisector => ReliefDirection::Bisector,
                ReliefDirection::AlongBefore => ReliefDirection::AlongAfter,
                ReliefDirection::AlongAfter => ReliefDirection::AlongBefore,
            };
            let relief = construct::relief(&first, &second, radius, direction).map_err(refused)?;
            let turned = |segment: Option<Segment>| segment.map(|segment| segment.reversed());
            Corner {
                worked: relief.arc.reversed().into(),
                before: turned(relief.after),
                after: turned(relief.before),
            }
        }
    };
    Ok(Some(corner))
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
    start: Option<Corner>,
    end: Option<Corner>,
    names: (&str, &str),
) -> Result<Vec<Segment>, OutlineFault> {
    let mut left: Vec<Option<Segment>> = edge.iter().copied().map(Some).collect();
    if let (Some(first), Some(corner)) = (left.first_mut(), start) {
        *first = corner.after;
    }
    if let (Some(last), Some(corner)) = (left.last_mut(), end) {
        *last = match (start, edge) {
            (Some(start), [single]) => between(single, start.after, corner.before, names)?,
            _ => corner.before,
        };
    }
    let long_enough = |segment: &Segment| segment.length() >= tolerance::SHORTEST_SEGMENT;
    Ok(left.into_iter().flatten().filter(long_enough).collect())
}

/// What is left of one segment that is trimmed at both ends: `after` is left by the corner at its
/// start, `before` by the corner at its end.
fn between(
    whole: &Segment,
    after: Option<Segment>,
    before: Option<Segment>,
    names: (&str, &str),
) -> Result<Option<Segment>, OutlineFault> {
    let length = whole.length();
    let used = |left: Option<Segment>| length - left.map_or(0.0, |left| left.length());
    let (first_needs, second_needs) = (used(after), used(before));
    if first_needs + second_needs > length + tolerance::SAME_POINT {
        return Err(OutlineFault::TreatmentsOverlap {
            first: names.0.to_owned(),
            second: names.1.to_owned(),
            first_needs,
            second_needs,
            length,
        });
    }
    let (Some(after), Some(before)) = (after, before) else {
        return Ok(None);
    };
    let (from, to) = (after.start(), before.end());
    if number::length(to - from) < tolerance::SHORTEST_SEGMENT {
        return Ok(None);
    }
    let part = whole.part(first_needs / length, 1.0 - second_needs / length);
    Ok(Some(part.with_ends(from, to)))
}
