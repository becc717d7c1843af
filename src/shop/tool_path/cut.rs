//! Cuts: a lead in, the edge, a little of the edge again, a lead out.

use super::route::Side;
use crate::geometry::GeometryError;
use crate::geometry::Motion;
use crate::geometry::Path;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::tolerance;

/// One cut, from pierce to end, in the direction of travel.
#[derive(Clone, Debug, PartialEq)]
pub struct Cut {
    /// What it goes round.
    pub side: Side,
    /// In words: "the outside", "the opening `window`".
    pub what: String,
    /// How the material is entered.
    pub entry: Entry,
    /// The way from the pierce to the path.
    pub lead_in: Vec<Segment>,
    /// The path beside the edges.
    pub along: Vec<Piece>,
    /// Its beginning once more.
    pub overlap: Vec<Piece>,
    /// The way off the path.
    pub lead_out: Vec<Segment>,
}

/// How a cut enters the material.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Entry {
    /// By piercing it.
    Pierce,
    /// From outside the plate.
    FromEdge,
}

impl Cut {
    /// The whole of it as one open path.
    ///
    /// # Errors
    /// As [`Path::new`]; its parts are made to meet.
    pub fn path(&self) -> Result<Path, GeometryError> {
        let untraced = |segment: &Segment| Piece::new(*segment, SourceId::UNTRACED);
        let mut pieces: Vec<Piece> = self.lead_in.iter().map(untraced).collect();
        pieces.extend(&self.along);
        pieces.extend(&self.overlap);
        pieces.extend(self.lead_out.iter().map(untraced));
        Path::new(pieces)
    }

    /// Every segment of it in the direction of travel.
    pub fn segments(&self) -> impl Iterator<Item = &Segment> {
        let along = self.along.iter().map(|piece| &piece.segment);
        let overlap = self.overlap.iter().map(|piece| &piece.segment);
        self.lead_in
            .iter()
            .chain(along)
            .chain(overlap)
            .chain(&self.lead_out)
    }

    /// The same elsewhere.
    #[must_use]
    pub fn moved(&self, motion: &Motion) -> Self {
        let segments =
            |list: &[Segment]| list.iter().map(|segment| motion.segment(segment)).collect();
        let pieces = |list: &[Piece]| {
            let moved = |piece: &Piece| Piece::new(motion.segment(&piece.segment), piece.source);
            list.iter().map(moved).collect()
        };
        Self {
            side: self.side,
            what: self.what.clone(),
            entry: self.entry,
            lead_in: segments(&self.lead_in),
            along: pieces(&self.along),
            overlap: pieces(&self.overlap),
            lead_out: segments(&self.lead_out),
        }
    }

    /// Where it starts.
    pub fn start(&self) -> Point {
        self.segments().next().map_or(Point::ORIGIN, Segment::start)
    }

    /// Where it ends.
    pub fn end(&self) -> Point {
        self.segments().last().map_or(Point::ORIGIN, Segment::end)
    }

    /// Its length in millimetres.
    pub fn length(&self) -> f64 {
        self.segments().map(Segment::length).sum()
    }
}

/// A closed chain begun at a place on one of its pieces.
pub(super) fn begun_at(pieces: &[Piece], index: usize, share: f64) -> Vec<Piece> {
    let Some(piece) = pieces.get(index) else {
        return pieces.to_vec();
    };
    let others = pieces.iter().cycle().skip(index + 1).take(pieces.len() - 1);
    let mut begun = Vec::with_capacity(pieces.len() + 1);
    begun.extend(stretch(piece, share, 1.0));
    begun.extend(others);
    begun.extend(stretch(piece, 0.0, share));
    begun
}

/// The first `length` millimetres of a chain, or all of it.
pub(super) fn first_of(pieces: &[Piece], length: f64) -> Vec<Piece> {
    let mut rest = length;
    let mut found = Vec::new();
    for piece in pieces {
        let own = piece.segment.length();
        if own >= rest {
            found.extend(stretch(piece, 0.0, rest / own));
            break;
        }
        found.push(*piece);
        rest -= own;
    }
    found
}

/// Part of a piece, unless it is too short to be one.
pub(super) fn stretch(piece: &Piece, from: f64, to: f64) -> Option<Piece> {
    let enough = (to - from) * piece.segment.length() > 2.0 * tolerance::SHORTEST_SEGMENT;
    enough.then(|| Piece::new(piece.segment.part(from, to), piece.source))
}
