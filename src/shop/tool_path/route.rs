//! Routes: the paths beside the edges, run in the direction asked for, the plate's own edges left out.

use super::compensation::Compensated;
use super::setting::GoodSide;
use super::setting::Lead;
use super::setting::Setting;
use super::wanted::Wanted;
use crate::design::part::EdgeState;
use crate::design::part::Part;
use crate::geometry::Arc;
use crate::geometry::Contour;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Turn;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;

/// What a cut goes round.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// The outside of the part.
    Outside,
    /// The opening of the part with this number.
    Opening(usize),
}

/// Where the waste lies, seen along the travel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum WasteSide {
    Left,
    Right,
}

impl WasteSide {
    /// +1 to the left, −1 to the right.
    pub(super) const fn sign(self) -> f64 {
        match self {
            Self::Left => 1.0,
            Self::Right => -1.0,
        }
    }

    /// Unit vector into the waste, square to the travel.
    pub(super) fn normal(self, travel: Vec2) -> Vec2 {
        number::left_normal(travel) * self.sign()
    }

    /// The turn of a circle that lies in the waste and touches the path.
    pub(super) const fn turn(self) -> Turn {
        match self {
            Self::Left => Turn::Anticlockwise,
            Self::Right => Turn::Clockwise,
        }
    }
}

/// A path beside edges, in the direction of travel.
#[derive(Clone, Debug)]
pub(super) struct Route {
    pub(super) side: Side,
    pub(super) pieces: Vec<Piece>,
    pub(super) ends: Ends,
    pub(super) waste: WasteSide,
}

/// Whether a route comes back to its start.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Ends {
    /// It does.
    Closed,
    /// It runs on from outside the plate, and off it again.
    OffPlate {
        /// The way onto the path.
        on: Segment,
        /// The way off it.
        off: Segment,
    },
}

pub(super) fn routes(
    part: &Part,
    wanted: &Wanted,
    compensated: &Compensated,
    setting: &Setting,
) -> Vec<Route> {
    let mut routes = Vec::new();
    for (path, &opening) in compensated.insides.iter().zip(&wanted.openings) {
        let pieces = directed(path.pieces().to_vec(), setting);
        routes.push(closed(Side::Opening(opening), pieces, setting));
    }
    let has_plate_edge = part
        .edges
        .iter()
        .any(|edge| edge.state == EdgeState::PlateEdge);
    let outside = compensated.outside.pieces();
    if !has_plate_edge {
        let pieces = directed(outside.to_vec(), setting);
        routes.push(closed(Side::Outside, pieces, setting));
        return routes;
    }
    for run in runs(part, wanted.region.outer(), outside) {
        let pieces = directed(run, setting);
        let waste = waste_side(setting);
        let (Some(first), Some(last)) = (pieces.first(), pieces.last()) else {
            continue;
        };
        let end = last.segment;
        let off = run_off(part, end.end(), end.direction_at(1.0), waste, setting);
        // the way on is the way off of the same path run backwards, with the waste on its other side
        let start = first.segment;
        let back = -start.direction_at(0.0);
        let other = match waste {
            WasteSide::Left => WasteSide::Right,
            WasteSide::Right => WasteSide::Left,
        };
        let on = run_off(part, start.start(), back, other, setting).reversed();
        routes.push(Route {
            side: Side::Outside,
            ends: Ends::OffPlate { on, off },
            pieces,
            waste,
        });
    }
    routes
}

const fn waste_side(setting: &Setting) -> WasteSide {
    match setting.good_side {
        GoodSide::Left => WasteSide::Right,
        GoodSide::Right => WasteSide::Left,
    }
}

const fn closed(side: Side, pieces: Vec<Piece>, setting: &Setting) -> Route {
    Route {
        side,
        pieces,
        ends: Ends::Closed,
        waste: waste_side(setting),
    }
}

/// Pieces with the part on their left, run with it on the side asked for.
fn directed(pieces: Vec<Piece>, setting: &Setting) -> Vec<Piece> {
    match setting.good_side {
        GoodSide::Left => pieces,
        GoodSide::Right => pieces
            .iter()
            .rev()
            .map(|piece| Piece::new(piece.segment.reversed(), piece.source))
            .collect(),
    }
}

/// The stretches of the outside path between the plate's own edges.
fn runs(part: &Part, edges: &Contour, path: &[Piece]) -> Vec<Vec<Piece>> {
    let is_cut: Vec<bool> = path
        .iter()
        .map(|piece| !is_beside_plate_edge(part, edges, &piece.segment))
        .collect();
    let Some(start) = is_cut.iter().position(|cut| !cut) else {
        return vec![path.to_vec()];
    };
    let mut runs = Vec::new();
    let mut run = Vec::new();
    let in_order = path.iter().zip(&is_cut).cycle().skip(start);
    for (piece, &cut) in in_order.take(path.len() + 1) {
        if cut {
            run.push(*piece);
        } else if !run.is_empty() {
            runs.push(std::mem::take(&mut run));
        }
    }
    runs
}

/// Whether a piece of the path lies beside one of the plate's own edges, or goes round a corner at the
/// end of one.
fn is_beside_plate_edge(part: &Part, edges: &Contour, segment: &Segment) -> bool {
    let middle = segment.point_at(0.5);
    let away = |piece: &Piece| number::length(piece.segment.nearest_point(middle) - middle);
    let least = edges
        .pieces()
        .iter()
        .map(away)
        .fold(f64::INFINITY, f64::min);
    edges
        .pieces()
        .iter()
        .filter(|piece| away(piece) <= least + tolerance::LEAD_CLEARANCE)
        .any(|piece| is_plate_edge(part, piece))
}

fn is_plate_edge(part: &Part, piece: &Piece) -> bool {
    part.edge_of(piece.source)
        .is_some_and(|edge| edge.state == EdgeState::PlateEdge)
}

/// The way off the plate from the end of a path: straight on over the plate's edge; where the path runs
/// out along that edge, a round turn away from the part.
fn run_off(part: &Part, end: Point, travel: Vec2, waste: WasteSide, setting: &Setting) -> Segment {
    let beyond = setting.reach() + setting.lead_length.max(setting.kerf);
    let plate_edges = part.region.outer().pieces().iter();
    let away = |piece: &&Piece| number::length(piece.segment.nearest_point(end) - end);
    let plate_edge = plate_edges
        .filter(|piece| is_plate_edge(part, piece))
        .min_by(|a, b| away(a).total_cmp(&away(b)));
    let along = plate_edge.map_or(Vec2::ZERO, |piece| {
        let t = piece.segment.fraction_near(end);
        piece.segment.direction_at(t)
    });
    let sine = travel.cross(along).abs();
    if plate_edge.is_some() && sine < tolerance::RUNS_ALONG && setting.lead != Lead::Straight {
        let centre = end + waste.normal(travel) * beyond;
        let sweep = waste.sign() * number::QUARTER_TURN / 2.0;
        let angle = number::direction(end - centre);
        let arc = Arc::from_angles(centre, beyond, angle, sweep);
        return Segment::Arc(arc.with_ends(end, arc.end()));
    }
    // over an edge met at a flat angle the way is longer, within reason
    Segment::line(end, end + travel * (beyond / sine.max(0.4)))
}
