//! What the kernel refuses, with the numbers and without a place: the design layer adds that.

use super::Point;

/// A construction that has no answer, or input that is no geometry.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum GeometryError {
    /// A coordinate or size is not a number, infinite, or beyond 1 km.
    #[error("{what} is {value}, which is not a usable number of millimetres")]
    NotUsable {
        /// What the number was meant to be.
        what: &'static str,
        /// The number.
        value: f64,
    },
    /// A segment of (almost) no length.
    #[error("an edge at ({:.6}, {:.6}) mm is only {length:e} mm long", at.x, at.y)]
    ZeroLength {
        /// Where it stands.
        at: Point,
        /// Its length in millimetres.
        length: f64,
    },
    /// Two segments in a row do not meet.
    #[error("the outline is open by {gap:.6} mm at ({:.6}, {:.6}) mm", at.x, at.y)]
    NotClosed {
        /// End of the earlier segment.
        at: Point,
        /// Distance to the start of the next, in millimetres.
        gap: f64,
    },
    /// A contour needs more segments than it was given.
    #[error("an outline needs at least {needed} edges here, and has {found}")]
    TooFewSegments {
        /// How many are needed.
        needed: usize,
        /// How many there are.
        found: usize,
    },
    /// The three points of an arc lie on one line, or two of them are one point.
    #[error("no arc runs through these three points: they lie on one line")]
    PointsInLine,
    /// A radius too small to span two points.
    #[error(
        "a radius of {radius:.6} mm cannot span {distance:.6} mm: the least radius is {:.6} mm",
        distance / 2.0
    )]
    RadiusTooSmall {
        /// The radius in millimetres.
        radius: f64,
        /// The distance between the points in millimetres.
        distance: f64,
    },
    /// The contour encloses (almost) nothing.
    #[error("the outline encloses no area ({area:e} mm²)")]
    NoArea {
        /// Its signed area in mm².
        area: f64,
    },
    /// The contour crosses or touches itself.
    #[error("the outline crosses itself at ({:.4}, {:.4}) mm", at.x, at.y)]
    CrossesItself {
        /// Where.
        at: Point,
        /// Index of the one segment.
        first: usize,
        /// Index of the other segment.
        second: usize,
    },
}
