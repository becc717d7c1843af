//! What cannot be offset, and where.

use crate::geometry::Point;

/// Why there is no certified offset.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum OffsetError {
    /// A distance or limit outside what can be computed.
    #[error("{what} is {value}, and must lie between {least} and {most}")]
    NotUsable {
        /// Which number.
        what: &'static str,
        /// Its value.
        value: f64,
        /// Smallest usable size.
        least: f64,
        /// Largest usable size.
        most: f64,
    },
    /// The source crosses or touches itself, or two of its contours do.
    #[error(
        "the outline crosses or touches itself at ({:.6}, {:.6}) mm; part the edges there",
        at.x, at.y
    )]
    CrossesItself {
        /// Where.
        at: Point,
    },
    /// A hole lies outside its outer contour or inside another hole, or two regions overlap.
    #[error(
        "the contour through ({:.6}, {:.6}) mm is not where a contour of its kind may be; \
         holes belong inside the outer contour and outside one another",
        at.x, at.y
    )]
    Misplaced {
        /// A point of the contour.
        at: Point,
    },
    /// An arc of so large a radius that its centre is not exact enough.
    #[error(
        "the arc at ({:.6}, {:.6}) mm has a radius of {radius:.0} mm, more than {most:.0} mm; \
         draw it as a line",
        at.x, at.y
    )]
    TooFlat {
        /// Where it starts.
        at: Point,
        /// Its radius in millimetres.
        radius: f64,
        /// The largest radius taken.
        most: f64,
    },
    /// No result could be proven right.
    #[error(
        "the offset by {distance} mm cannot be certified near ({:.6}, {:.6}) mm: {doubt}; \
         change the distance or the outline there by 0.01 mm",
        at.x, at.y
    )]
    NotCertified {
        /// The distance asked for, in millimetres.
        distance: f64,
        /// Where the proof fails.
        at: Point,
        /// What fails.
        doubt: Doubt,
    },
}

/// Which part of the proof failed.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Doubt {
    /// The pieces of the new outline do not join up.
    #[error("the pieces do not join up")]
    Unlinked,
    /// Too many short pieces in one place.
    #[error("points spread over {0:e} mm would become one")]
    Crowded(f64),
    /// An edge of the result is too near to the source, by so much.
    #[error("an edge is {0:e} mm too near to the source")]
    TooNear(f64),
    /// An edge that was left out is not certainly covered.
    #[error("an edge that was left out may belong to the result")]
    Uncovered,
    /// Two edges of the result touch.
    #[error("edges of the result come within {0:e} mm of one another")]
    Touching(f64),
    /// Loops lie in one another the wrong way.
    #[error("the loops do not lie in one another as they should")]
    Nesting,
    /// A part of the source lies on the wrong side of the result.
    #[error("the source is not on its side of the result")]
    Containment,
    /// The area is not between its bounds.
    #[error("the area {area} mm² is not between {least} and {most} mm²")]
    Area {
        /// Of the result.
        area: f64,
        /// Smallest possible.
        least: f64,
        /// Largest possible.
        most: f64,
    },
}
