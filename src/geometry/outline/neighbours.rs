//! Edges that take something from their neighbours: a direction, or the lines they are tangent to.

use super::build::at_edge;
use super::build::edge_name;
use super::build::ends;
use super::edge;
use super::edge::Drawn;
use super::entry::BothFixedBy;
use super::entry::EdgeShape;
use super::entry::Entry;
use super::entry::Place;
use super::entry::Treatment;
use super::error::OutlineError;
use super::error::OutlineFault;
use super::tangent_to_both;
use crate::geometry::Line;
use crate::geometry::Segment;
use crate::geometry::Vec2;

/// The edges of an outline, `None` while they wait for a neighbour.
pub(super) type Edges = [Option<Drawn>];

/// The arcs tangent to both neighbours, which they cut short.
pub(super) fn arcs_between(entries: &[Entry], edges: &mut Edges) -> Result<(), OutlineError> {
    let count = entries.len();
    for index in 0..count {
        let fixed_by = match entries[index].edge.shape {
            EdgeShape::TangentToBoth(fixed_by) => fixed_by,
            EdgeShape::FullRound => BothFixedBy::Crown(0.0),
            _ => continue,
        };
        let (before, after) = ((index + count - 1) % count, (index + 1) % count);
        for end in [index, after] {
            let treated = match entries[end].place {
                Place::Corner { treatment, .. } => treatment != Treatment::Sharp,
                Place::Round { .. } => true,
            };
            if treated {
                let fault = OutlineFault::NeedsSharpCorner(entries[end].name.clone());
                return Err(at_edge(index, fault));
            }
        }
        let line_of = |neighbour: usize, edges: &Edges| {
            let drawn = edges[neighbour]
                .as_ref()
                .map(|drawn| drawn.segments.as_slice());
            match drawn {
                Some([Segment::Line(line)]) if neighbour != index => Ok(*line),
                _ => {
                    let name = edge_name(entries, neighbour);
                    Err(at_edge(index, OutlineFault::NeighbourNotStraight(name)))
                }
            }
        };
        let lines = (line_of(before, edges)?, line_of(after, edges)?);
        let names = (edge_name(entries, before), edge_name(entries, after));
        let found = tangent_to_both::between(lines.0, lines.1, fixed_by, (&names.0, &names.1))
            .map_err(|fault| at_edge(index, fault))?;
        let drawn = |segment: Segment| Some(Drawn::from(segment));
        edges[index] = drawn(found.arc.into());
        if before == after {
            // two entries: the one neighbour is cut at both ends
            edges[before] = drawn(Line::new(found.arc.end(), found.arc.start()).into());
        } else {
            edges[before] = drawn(found.before.into());
            edges[after] = drawn(found.after.into());
        }
    }
    Ok(())
}

/// The arcs that leave in the direction in which the edge before arrives, and the elliptical
/// quarters between two edges.
pub(super) fn continuing_edges(
    entries: &[Entry],
    edges: &mut Edges,
    sense: f64,
) -> Result<(), OutlineError> {
    let count = entries.len();
    while let Some(first) = (0..count).find(|index| edges[*index].is_none()) {
        let found = (first..count).find_map(|index| {
            if edges[index].is_some() {
                return None;
            }
            let arriving = direction(edges[(index + count - 1) % count].as_ref(), 1.0)?;
            let leaving = direction(edges[(index + 1) % count].as_ref(), 0.0);
            drawn_from(entries, index, sense, (arriving, leaving)).map(|drawn| (index, drawn))
        });
        let Some((index, drawn)) = found else {
            return Err(at_edge(first, OutlineFault::NoDirection));
        };
        edges[index] = Some(drawn.map_err(|fault| at_edge(index, fault))?);
    }
    Ok(())
}

/// The edge from the directions of its neighbours; `None` while it needs one that is not known.
fn drawn_from(
    entries: &[Entry],
    index: usize,
    sense: f64,
    (arriving, leaving): (Vec2, Option<Vec2>),
) -> Option<Result<Drawn, OutlineFault>> {
    let ends = ends(entries, index, sense);
    if matches!(entries[index].edge.shape, EdgeShape::EllipticalQuarter) {
        let breakpoints = &entries[index].edge.breakpoints;
        return Some(edge::quarter(&ends, (arriving, leaving?), breakpoints));
    }
    if matches!(entries[index].place, Place::Round { .. }) {
        return Some(Err(OutlineFault::LeavesRound(entries[index].name.clone())));
    }
    Some(edge::continuing(&ends, arriving).map(Drawn::from))
}

/// Direction of travel at the start (0) or end (1) of an edge that is known.
fn direction(edge: Option<&Drawn>, at: f64) -> Option<Vec2> {
    let segments = &edge?.segments;
    let segment = if at == 0.0 {
        segments.first()
    } else {
        segments.last()
    };
    segment.map(|segment| segment.direction_at(at))
}
