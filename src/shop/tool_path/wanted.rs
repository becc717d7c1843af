//! What is to be left when the machine is done: the finished shape with the strips that stay on, without
//! the holes that are drilled.

use super::error::ToolPathError;
use super::setting::Setting;
use crate::design::part::Edge;
use crate::design::part::EdgeState;
use crate::design::part::Made;
use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::geometry::Contour;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::number;
use crate::geometry::tolerance;

/// What the machine leaves.
#[derive(Debug)]
pub(super) struct Wanted {
    /// Its shape.
    pub(super) region: Region,
    /// For each hole of the region, which opening of the part it is.
    pub(super) openings: Vec<usize>,
    /// What is drilled instead of cut.
    pub(super) drilled: Vec<Drilled>,
}

/// A round opening that is drilled and not cut.
#[derive(Clone, Debug, PartialEq)]
pub struct Drilled {
    /// Its name.
    pub name: String,
    /// Its centre.
    pub centre: Point,
    /// Its diameter in millimetres.
    pub diameter: f64,
    /// Why.
    pub why: WhyDrilled,
}

/// Why an opening is drilled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum WhyDrilled {
    /// The design says so.
    ByDesign,
    /// It is smaller than the process cuts well.
    TooSmall,
}

pub(super) fn wanted(part: &Part, setting: &Setting) -> Result<Wanted, ToolPathError> {
    let mut holes = Vec::new();
    let mut openings = Vec::new();
    let mut drilled = Vec::new();
    for (index, opening) in part.openings.iter().enumerate() {
        if let OpeningShape::Circle { centre, diameter } = opening.shape {
            let why = if opening.made == Made::Drilled {
                Some(WhyDrilled::ByDesign)
            } else if diameter < setting.smallest_hole - tolerance::SAME_DIMENSION {
                Some(WhyDrilled::TooSmall)
            } else {
                None
            };
            if let Some(why) = why {
                let name = opening.name.clone();
                drilled.push(Drilled {
                    name,
                    centre,
                    diameter,
                    why,
                });
                continue;
            }
        }
        if let Some(hole) = part.region.holes().get(opening.hole) {
            holes.push(hole.clone());
            openings.push(index);
        }
    }
    Ok(Wanted {
        region: Region::new(with_strips(part)?, holes),
        openings,
        drilled,
    })
}

/// The outline with the strips that stay on beyond it.
fn with_strips(part: &Part) -> Result<Contour, ToolPathError> {
    let mut pieces = part.region.outer().pieces().to_vec();
    for edge in &part.edges {
        if let EdgeState::LeaveOn(width) = edge.state {
            pieces = with_strip(part, pieces, edge, width)?;
        }
    }
    Ok(Contour::new(pieces)?)
}

/// The outline with one strip: the neighbours run on to where the edge ends before its corners are
/// rounded, and there the strip ends square.
fn with_strip(
    part: &Part,
    pieces: Vec<Piece>,
    edge: &Edge,
    width: f64,
) -> Result<Vec<Piece>, ToolPathError> {
    let is_own = |piece: &Piece| piece.source == edge.source;
    // from the first piece of the edge on, all of it first
    let after_other = |index: &usize| {
        let before = (index + pieces.len() - 1) % pieces.len();
        is_own(&pieces[*index]) && !is_own(&pieces[before])
    };
    let Some(first) = (0..pieces.len()).find(after_other) else {
        return Ok(pieces);
    };
    let mut rest = pieces;
    rest.rotate_left(first);
    let own: Vec<Piece> = rest
        .iter()
        .take_while(|piece| is_own(piece))
        .copied()
        .collect();
    rest.drain(..own.len());

    let sharp = along(&edge.sharp, &own);
    let (Some(from), Some(to)) = (
        sharp.first().map(Segment::start),
        sharp.last().map(Segment::end),
    ) else {
        return Ok([own, rest].concat());
    };
    let mut made = Vec::new();
    let mut at = from;
    for segment in &sharp {
        // the material is on the left, the strip on the right
        let far = segment
            .beside(-width)
            .ok_or_else(|| ToolPathError::StripTooWide {
                edge: edge.name.clone(),
                width,
            })?;
        connect(&mut made, at, far.start(), edge.source);
        made.push(Piece::new(far, edge.source));
        at = far.end();
    }
    connect(&mut made, at, to, edge.source);

    let mut rest = run_on(part, rest, to, End::First);
    rest = run_on(part, rest, from, End::Last);
    made.append(&mut rest);
    Ok(made)
}

/// Which end of a chain is lengthened.
#[derive(Clone, Copy, PartialEq, Eq)]
enum End {
    First,
    Last,
}

/// The chain without the rounding, chamfer or relief of the corner at its end, and run on to the sharp
/// corner.
fn run_on(part: &Part, mut chain: Vec<Piece>, corner: Point, end: End) -> Vec<Piece> {
    let reach = |chain: &[Piece]| match end {
        End::First => chain.first().map(|piece| piece.segment.start()),
        End::Last => chain.last().map(|piece| piece.segment.end()),
    };
    if reach(&chain).is_none_or(|at| number::length(at - corner) <= tolerance::SAME_POINT) {
        return chain;
    }
    let is_edge = |piece: &Piece| part.edge_of(piece.source).is_some();
    let neighbour = match end {
        End::First => chain.iter().position(is_edge),
        End::Last => chain.iter().rposition(is_edge),
    };
    let Some(neighbour) = neighbour else {
        return chain;
    };
    match end {
        End::First => drop(chain.drain(..neighbour)),
        End::Last => chain.truncate(neighbour + 1),
    }
    let Some(at) = reach(&chain) else {
        return chain;
    };
    let source = chain[if end == End::First {
        0
    } else {
        neighbour.min(chain.len() - 1)
    }]
    .source;
    let sharp = part.edge_of(source).map(|edge| along(&edge.sharp, &chain));
    let own = sharp.unwrap_or_default();
    let added = match end {
        End::First => own.first().map(|segment| {
            let t = segment.fraction_near(at);
            segment.part(0.0, t)
        }),
        End::Last => own.last().map(|segment| {
            let t = segment.fraction_near(at);
            segment.part(t, 1.0)
        }),
    };
    let Some(added) = added.filter(|added| added.length() > tolerance::SHORTEST_SEGMENT) else {
        return chain;
    };
    match end {
        End::First => chain.insert(0, Piece::new(added.with_ends(corner, at), source)),
        End::Last => chain.push(Piece::new(added.with_ends(at, corner), source)),
    }
    chain
}

/// The segments of an edge as written, in the direction in which the outline runs along it.
fn along(sharp: &[Segment], outline: &[Piece]) -> Vec<Segment> {
    let same_way = sharp.iter().any(|segment| {
        let middle = segment.point_at(0.5);
        let travel = segment.direction_at(0.5);
        let nearest = outline.iter().min_by(|a, b| {
            let away = |piece: &Piece| (piece.segment.nearest_point(middle) - middle).hypot2();
            away(a).total_cmp(&away(b))
        });
        nearest.is_some_and(|piece| {
            let t = piece.segment.fraction_near(middle);
            piece.segment.direction_at(t).dot(travel) > 0.0
        })
    });
    if same_way {
        sharp.to_vec()
    } else {
        sharp.iter().rev().map(Segment::reversed).collect()
    }
}

fn connect(pieces: &mut Vec<Piece>, from: Point, to: Point, source: SourceId) {
    if number::length(to - from) > tolerance::SAME_POINT {
        pieces.push(Piece::new(Segment::line(from, to), source));
    } else if let Some(last) = pieces.last_mut() {
        last.segment = last.segment.with_ends(last.segment.start(), to);
    }
}
