//! The part itself: visible edges, centre lines, scribe lines, and lines beside edges that are not
//! simply cut.

use super::symbols::WIDE;
use super::view::View;
use crate::design::part::Edge;
use crate::design::part::EdgeState;
use crate::design::part::OpeningShape;
use crate::documents::features;
use crate::documents::features::Arrangement;
use crate::geometry::Path;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::Vec2;
use crate::sheet::Layer;
use crate::sheet::LineType;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Shape;

/// Centre lines.
const CENTRE: Pen = Pen::solid(0.18).line_type(LineType::LongDashedDotted);
/// Lines to scribe.
const SCRIBE: Pen = Pen::solid(0.25).line_type(LineType::Dashed);
/// How far a centre line runs beyond its circle.
const OVERHANG: f64 = 2.0;

/// Draws the part.
pub(crate) fn draw(picture: &mut Picture, view: &View<'_>) {
    let part = view.part;
    for edge in &part.edges {
        draw_state(picture, view, edge);
    }
    picture.contour(
        Layer::Outside,
        view.motion.contour(part.region.outer()),
        WIDE,
    );
    for hole in part.region.holes() {
        picture.contour(Layer::Inside, view.motion.contour(hole), WIDE);
    }
    for path in part.scribes.iter().flat_map(|scribe| &scribe.paths) {
        picture.path(Layer::Mark, view.motion.path(path), SCRIBE);
    }
    for mark in &part.marks {
        picture.stroke(
            Layer::Mark,
            Shape::Spot(view.point(mark.at)),
            Pen::solid(0.25),
        );
    }
    draw_centre_lines(picture, view);
}

fn draw_centre_lines(picture: &mut Picture, view: &View<'_>) {
    let part = view.part;
    for opening in &part.openings {
        match opening.shape {
            OpeningShape::Circle { centre, diameter } => {
                cross(picture, view.point(centre), view.scale * diameter / 2.0);
            }
            OpeningShape::Slot { from, to, width } => {
                for end in [from, to] {
                    cross(picture, view.point(end), view.scale * width / 2.0);
                }
            }
            OpeningShape::Rectangle { centre, .. } => cross(picture, view.point(centre), 0.5),
            OpeningShape::Outline => {}
        }
    }
    for round in &part.rounds {
        let at = view.point(round.centre);
        // a centre far off the part would spoil the sheet
        if view.bounds.contains(at) {
            cross(picture, at, 1.0);
        }
    }
    for group in features::groups(part) {
        if let Arrangement::BoltCircle { centre, diameter } = group.arrangement {
            let circle = Shape::Circle {
                centre: view.point(centre),
                radius: view.scale * diameter / 2.0,
            };
            picture.stroke(Layer::CentreLines, circle, CENTRE);
            cross(picture, view.point(centre), 1.0);
        }
    }
}

/// Two centre lines; continuous where a circle is too small for dashes (ISO 128-2).
fn cross(picture: &mut Picture, at: Point, radius: f64) {
    let arm = radius + OVERHANG;
    let pen = if arm < 6.0 { Pen::solid(0.18) } else { CENTRE };
    for direction in [Vec2::new(arm, 0.0), Vec2::new(0.0, arm)] {
        picture.line(Layer::CentreLines, at - direction, at + direction, pen);
    }
}

/// A line beside an edge that is not simply cut: wide long-dashed dotted beside the plate's own edge,
/// dashed around a strip that is left on and beside an edge to trim.
fn draw_state(picture: &mut Picture, view: &View<'_>, edge: &Edge) {
    let dashed = Pen::solid(0.25).line_type(LineType::Dashed);
    let pen = match edge.state {
        EdgeState::Cut => return,
        EdgeState::PlateEdge => Pen::solid(0.35).line_type(LineType::LongDashedDotted),
        EdgeState::LeaveOn(_) | EdgeState::TrimAtFitting => dashed,
    };
    let beside = view.beside(edge);
    if let (EdgeState::LeaveOn(_), Some(from), Some(to)) =
        (edge.state, edge.sharp.first(), edge.sharp.last())
    {
        let ends = [
            (from.start(), beside.first().map(Segment::start)),
            (to.end(), beside.last().map(Segment::end)),
        ];
        for (at, far) in ends {
            if let Some(far) = far {
                picture.line(Layer::Guides, view.point(at), far, pen);
            }
        }
    }
    for segment in beside {
        if let Ok(path) = Path::new(vec![Piece::new(segment, SourceId::UNTRACED)]) {
            picture.path(Layer::Guides, path, pen);
        }
    }
}
