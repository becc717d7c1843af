//! What the builder gives back.

use super::edge::FittedEdge;
use crate::geometry::Arc;
use crate::geometry::Contour;
use crate::geometry::Point;
use crate::geometry::Segment;

/// A finished outline, and what became of every entry.
#[derive(Clone, Debug, PartialEq)]
pub struct BuiltOutline {
    /// The contour, anticlockwise, free of crossings.
    pub contour: Contour,
    /// Whether the entries ran clockwise, so that the contour runs against them.
    pub turned: bool,
    /// The corners, in the order written.
    pub corners: Vec<BuiltCorner>,
    /// The rounds, in the order written.
    pub rounds: Vec<BuiltRound>,
    /// The edges, one an entry, in the order written.
    pub edges: Vec<BuiltEdge>,
}

/// A corner as built.
#[derive(Clone, Debug, PartialEq)]
pub struct BuiltCorner {
    /// Index of its entry.
    pub entry: usize,
    /// The sharp corner; it need not lie on the contour.
    pub sharp: Point,
    /// The rounding or chamfer, run as the entries are written; `None` for a sharp corner, or one
    /// that an arc tangent to both neighbours has replaced.
    pub worked: Option<Segment>,
}

/// A round as built.
#[derive(Clone, Debug, PartialEq)]
pub struct BuiltRound {
    /// Index of its entry.
    pub entry: usize,
    /// Its centre.
    pub centre: Point,
    /// Its radius in millimetres.
    pub radius: f64,
    /// Its arc, run as the entries are written; `None` where the edges touch it in one point only.
    pub arc: Option<Arc>,
}

/// An edge as built, run as the entries are written.
#[derive(Clone, Debug, PartialEq)]
pub struct BuiltEdge {
    /// Index of its entry.
    pub entry: usize,
    /// The edge before its corners were rounded.
    pub sharp: Vec<Segment>,
    /// The edge as it stands in the contour; empty when roundings use all of it.
    pub finished: Vec<Segment>,
    /// The true curve that the segments follow, if they follow one.
    pub curve: Option<Box<FittedEdge>>,
}
