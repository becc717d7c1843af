//! The lines of a part on its pattern: finished line by the state of each edge, strips left on, scribe
//! lines, places to mark. These lines decide which sheets are printed.

use super::error::PatternError;
use crate::design::part::Edge;
use crate::design::part::EdgeState;
use crate::design::part::Part;
use crate::geometry::GeometryError;
use crate::geometry::Path;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::sheet::Layer;
use crate::sheet::LineType;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Shape;

/// The finished line; its centre is the size.
pub(super) const FINISHED: Pen = Pen::solid(0.2);
/// Lines that help and are not the size.
pub(super) const THIN: Pen = Pen::solid(0.13);
/// A line to saw to, and where a strip is left on the finished line.
const DASHED: Pen = FINISHED.line_type(LineType::Dashed);
/// Lines to scribe.
const SCRIBED: Pen = Pen::solid(0.15).line_type(LineType::LongDashedDotted);

/// Draws the lines of a part, moved to its place.
pub(super) fn draw(picture: &mut Picture, part: &Part) -> Result<(), PatternError> {
    draw_outer(picture, part)?;
    for hole in part.region.holes() {
        picture.contour(Layer::Inside, hole.clone(), FINISHED);
    }
    for edge in &part.edges {
        if let EdgeState::LeaveOn(width) = edge.state {
            draw_strip(picture, part, edge, width)?;
        }
    }
    for path in part.scribes.iter().flat_map(|scribe| &scribe.paths) {
        picture.path(Layer::Mark, path.clone(), SCRIBED);
    }
    for mark in &part.marks {
        picture.stroke(Layer::Mark, Shape::Spot(mark.at), THIN);
    }
    Ok(())
}

/// How a piece of the outer line is drawn.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Drawn {
    Continuous,
    Dashed,
}

fn drawn_as(part: &Part, source: SourceId) -> Drawn {
    match part.edge_of(source).map(|edge| edge.state) {
        Some(EdgeState::LeaveOn(_) | EdgeState::TrimAtFitting) => Drawn::Dashed,
        Some(EdgeState::Cut | EdgeState::PlateEdge) | None => Drawn::Continuous,
    }
}

fn draw_outer(picture: &mut Picture, part: &Part) -> Result<(), GeometryError> {
    let outer = part.region.outer();
    let pieces = outer.pieces();
    let kinds: Vec<Drawn> = pieces
        .iter()
        .map(|piece| drawn_as(part, piece.source))
        .collect();
    if kinds.iter().all(|&kind| kind == Drawn::Continuous) {
        picture.contour(Layer::Outside, outer.clone(), FINISHED);
        return Ok(());
    }
    // start where the kind changes, so that no run is cut in two
    let changes = (1..kinds.len()).find(|&index| kinds.get(index) != kinds.get(index - 1));
    let start = changes.unwrap_or(0);
    let mut run: Vec<Piece> = Vec::new();
    let mut kind = None;
    let in_order = pieces.iter().zip(&kinds).cycle().skip(start);
    for (piece, &next) in in_order.take(pieces.len()) {
        if kind.is_some_and(|kind| kind != next) {
            draw_run(picture, std::mem::take(&mut run), kind)?;
        }
        kind = Some(next);
        run.push(*piece);
    }
    draw_run(picture, run, kind)
}

fn draw_run(
    picture: &mut Picture,
    run: Vec<Piece>,
    kind: Option<Drawn>,
) -> Result<(), GeometryError> {
    let pen = match kind {
        Some(Drawn::Dashed) => DASHED,
        Some(Drawn::Continuous) | None => FINISHED,
    };
    picture.path(Layer::Outside, Path::new(run)?, pen);
    Ok(())
}

/// Which side of an edge, as written, is off the material.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum OffSide {
    /// The left one, looking along the edge.
    Left,
    /// The right one.
    Right,
}

impl OffSide {
    /// +1 to the left, −1 to the right.
    pub(super) const fn sign(self) -> f64 {
        match self {
            Self::Left => 1.0,
            Self::Right => -1.0,
        }
    }
}

/// The side of an edge that is off the material: outer contours have material on their left, and an
/// edge may be written against them.
pub(super) fn off_side(part: &Part, edge: &Edge) -> OffSide {
    let own = edge.finished.first();
    let same = part
        .region
        .outer()
        .pieces()
        .iter()
        .filter(|piece| piece.source == edge.source)
        .any(|piece| own.is_some_and(|own| runs_with(&piece.segment, own)));
    if same { OffSide::Right } else { OffSide::Left }
}

fn runs_with(piece: &Segment, own: &Segment) -> bool {
    let apart = number::length(piece.point_at(0.5) - own.point_at(0.5));
    apart <= tolerance::LAID_OUT && piece.direction_at(0.5).dot(own.direction_at(0.5)) > 0.0
}

/// The far line of a strip left on, and its square ends.
fn draw_strip(
    picture: &mut Picture,
    part: &Part,
    edge: &Edge,
    width: f64,
) -> Result<(), PatternError> {
    let side = off_side(part, edge);
    let mut far: Vec<Segment> = Vec::new();
    for segment in &edge.sharp {
        let beside = segment.beside(width * side.sign()).ok_or_else(|| {
            let radius = 1.0 / segment.curvature().abs();
            PatternError::StripTooWide {
                edge: edge.name.clone(),
                width,
                radius,
            }
        })?;
        far.push(beside);
    }
    let (Some(first), Some(last)) = (edge.sharp.first(), edge.sharp.last()) else {
        return Ok(());
    };
    let mut pieces = Vec::new();
    let mut at = first.start();
    for segment in &far {
        // a square end, or where the edge has a bend the straight line over it
        connect(&mut pieces, at, segment.start(), edge.source);
        pieces.push(Piece::new(*segment, edge.source));
        at = segment.end();
    }
    connect(&mut pieces, at, last.end(), edge.source);
    picture.path(Layer::Outside, Path::new(pieces)?, FINISHED);
    Ok(())
}

fn connect(pieces: &mut Vec<Piece>, from: Point, to: Point, source: SourceId) {
    if number::length(to - from) > tolerance::SAME_POINT {
        pieces.push(Piece::new(Segment::line(from, to), source));
    } else if let Some(last) = pieces.last_mut() {
        last.segment = last.segment.with_ends(last.segment.start(), to);
    }
}
