//! What the maker and the operator should know about a tool path.

use crate::geometry::Point;

/// Something to know; the path is good. Lengths in millimetres.
#[derive(Clone, Debug, PartialEq)]
pub enum Note {
    /// An inside corner tighter than the cut: it comes out round.
    CornerLeft {
        /// The edge before it, in words.
        feature: String,
        /// Where.
        at: Point,
        /// Radius of the corner as cut.
        radius: f64,
        /// How much stands proud of the drawn corner.
        left: f64,
    },
    /// A lead shorter than asked for, since a longer one would touch.
    ShortLead {
        /// The cut in words.
        what: String,
        /// Where the lead meets the edge.
        at: Point,
        /// Its length (its radius, if it is round).
        length: f64,
        /// What was asked for.
        wanted: f64,
    },
    /// A start that the user chose on a line that has ends of its own.
    StartIgnored {
        /// The cut in words.
        what: String,
    },
}
