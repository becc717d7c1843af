//! What a construction refuses.

use super::corner::Side;
use crate::geometry::GeometryError;
use crate::geometry::Point;

/// A construction that has no answer.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ConstructError {
    /// The two edges do not follow each other.
    #[error("the edges do not meet: {gap:.6} mm between ({:.4}, {:.4}) mm and the next", at.x, at.y)]
    NotJoined {
        /// End of the first.
        at: Point,
        /// Distance to the start of the second, in millimetres.
        gap: f64,
    },
    /// The edges run into each other smoothly.
    #[error("there is no corner at ({:.4}, {:.4}) mm: the edges meet smoothly; leave it as it is", at.x, at.y)]
    NoCorner {
        /// Where they meet.
        at: Point,
    },
    /// The second edge runs back over the first.
    #[error("the edges at ({:.4}, {:.4}) mm double back on each other; open the corner", at.x, at.y)]
    DoublesBack {
        /// Where they meet.
        at: Point,
    },
    /// The fillet needs more of an edge than there is.
    #[error(
        "a fillet of {radius:.4} mm does not fit; the largest that fits here is {largest:.4} mm"
    )]
    FilletTooLarge {
        /// The radius asked for, in millimetres.
        radius: f64,
        /// The largest radius that fits, in millimetres.
        largest: f64,
    },
    /// The chamfer needs more of an edge than there is.
    #[error(
        "a setback of {setback:.4} mm does not fit on the edge {side} the corner; \
         the largest is {largest:.4} mm"
    )]
    SetbackTooLarge {
        /// The setback asked for, in millimetres.
        setback: f64,
        /// The largest that fits, in millimetres.
        largest: f64,
        /// On which edge.
        side: Side,
    },
    /// A relief asked for at a corner that a cutter goes round outside.
    #[error("the corner at ({:.4}, {:.4}) mm is an outside corner, which needs no relief", at.x, at.y)]
    OutsideCorner {
        /// The corner.
        at: Point,
    },
    /// The relief needs more of an edge than there is.
    #[error(
        "a relief for a cutter of {radius:.4} mm radius needs {needed:.4} mm of the edge {side} the \
         corner, which has {found:.4} mm; take a smaller cutter"
    )]
    ReliefTooLarge {
        /// The radius of the cutter, in millimetres.
        radius: f64,
        /// What it needs of the edge, straight from the corner, in millimetres.
        needed: f64,
        /// What there is, in millimetres.
        found: f64,
        /// On which edge.
        side: Side,
    },
    /// No arc touches the two sides and the end.
    #[error(
        "no arc rounds these sides off against that end; check that the end lies ahead of both sides"
    )]
    NoFullRound,
    /// Something else the kernel refuses.
    #[error(transparent)]
    Geometry(#[from] GeometryError),
}
