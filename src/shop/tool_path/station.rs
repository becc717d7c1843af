//! Where a closed route may start: away from corners and curves, unless the user says where.

use super::route::Route;
use super::setting::Setting;
use crate::design::part::EdgeState;
use crate::design::part::Part;
use crate::geometry::Arc;
use crate::geometry::Contour;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::number;

/// In how many places a whole circle may be started.
const ROUND_PLACES: u32 = 8;

/// Places along a straight piece, in parts of its length.
const STRAIGHT_PLACES: [f64; 3] = [0.5, 0.25, 0.75];

/// A place on a route.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Station {
    /// Number of its piece.
    pub(super) piece: usize,
    /// Part of the piece's length, 0 … 1.
    pub(super) share: f64,
    /// How good a place it is.
    pub(super) rank: Rank,
    /// Distance along the piece to its nearer end, in millimetres.
    room: f64,
}

/// How good a place to start is, the best first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Rank {
    /// The user says so.
    Chosen,
    /// On a straight edge that is worked on later, which takes the mark away.
    WorkedLater,
    /// On a straight edge far enough from its ends, or anywhere on a whole circle.
    Straight,
    /// On a straight edge near its ends.
    ShortStraight,
    /// On a curve.
    Curve,
}

impl Station {
    /// The place itself.
    pub(super) fn point(&self, route: &Route) -> Option<Point> {
        let piece = route.pieces.get(self.piece)?;
        Some(piece.segment.point_at(self.share))
    }

    /// The place on the route nearest to a point, and its distance.
    pub(super) fn nearest(route: &Route, to: Point) -> Option<(Self, f64)> {
        let away = |piece: &Piece| number::length(piece.segment.nearest_point(to) - to);
        let nearest = route
            .pieces
            .iter()
            .enumerate()
            .min_by(|a, b| away(a.1).total_cmp(&away(b.1)));
        nearest.map(|(piece, own)| {
            let station = Self {
                piece,
                share: own.segment.fraction_near(to),
                rank: Rank::Chosen,
                room: 0.0,
            };
            (station, away(own))
        })
    }

    /// The middle of the longest piece that comes from the feature.
    pub(super) fn on_feature(route: &Route, part: &Part, feature: &str) -> Option<Self> {
        let own = route.pieces.iter().enumerate().filter(|(_, piece)| {
            part.origin(piece.source)
                .is_some_and(|origin| origin.feature == feature)
        });
        let longest = own.max_by(|a, b| a.1.segment.length().total_cmp(&b.1.segment.length()));
        longest.map(|(piece, own)| Self {
            piece,
            share: 0.5,
            rank: Rank::Chosen,
            room: own.segment.length() / 2.0,
        })
    }
}

/// The places where a route may start, the best first.
pub(super) fn stations(route: &Route, part: &Part, setting: &Setting) -> Vec<Station> {
    let needed = setting.lead_length + setting.overlap;
    if whole_circle(&route.pieces).is_some() {
        return round_stations(route);
    }
    let mut found = Vec::new();
    for (index, piece) in route.pieces.iter().enumerate() {
        let length = piece.segment.length();
        let places = match piece.segment {
            Segment::Line(_) if length > 4.0 * needed => &STRAIGHT_PLACES[..],
            _ => &STRAIGHT_PLACES[..1],
        };
        for &share in places {
            let room = length * share.min(1.0 - share);
            let rank = match piece.segment {
                Segment::Arc(_) => Rank::Curve,
                Segment::Line(_) if room < needed => Rank::ShortStraight,
                Segment::Line(_) if is_worked_later(part, piece) => Rank::WorkedLater,
                Segment::Line(_) => Rank::Straight,
            };
            found.push(Station {
                piece: index,
                share,
                rank,
                room,
            });
        }
    }
    found.sort_by(|a, b| a.rank.cmp(&b.rank).then(b.room.total_cmp(&a.room)));
    found
}

/// Centre and radius of a route that is one whole circle.
pub(super) fn whole_circle(pieces: &[Piece]) -> Option<(Point, f64)> {
    Contour::new(pieces.to_vec()).ok()?.as_circle()
}

/// Places on the first of the pieces of a circle, evenly.
fn round_stations(route: &Route) -> Vec<Station> {
    let is_whole = |arc: &Arc| arc.is_circle();
    let single = matches!(route.pieces.as_slice(), [Piece { segment: Segment::Arc(arc), .. }] if is_whole(arc));
    let count = if single { ROUND_PLACES } else { 1 };
    (0..count)
        .map(|index| Station {
            piece: 0,
            share: f64::from(index) / f64::from(ROUND_PLACES),
            rank: Rank::Straight,
            room: 0.0,
        })
        .collect()
}

fn is_worked_later(part: &Part, piece: &Piece) -> bool {
    part.edge_of(piece.source)
        .is_some_and(|edge| matches!(edge.state, EdgeState::LeaveOn(_) | EdgeState::TrimAtFitting))
}
