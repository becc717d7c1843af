//! What kerf allowances cannot be compared of.

use crate::geometry::GeometryError;
use crate::geometry::offset::OffsetError;

/// A comparison that cannot be made.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum KerfError {
    /// A kerf that is none.
    #[error(
        "a kerf of {kerf} mm is no cut: give its width as measured in a trial cut, more than 0 mm"
    )]
    NotACut {
        /// What was given.
        kerf: f64,
    },
    /// A kerf wider than the part itself takes.
    #[error(
        "a kerf of {kerf} mm leaves nothing of `{part}`: give a kerf below {most:.1} mm, its smaller side"
    )]
    WiderThanPart {
        /// What was given.
        kerf: f64,
        /// The part.
        part: String,
        /// The smaller side of its bounds.
        most: f64,
    },
    /// The shape as cut is not certain.
    #[error("the shape as cut of `{part}` with a kerf of {kerf} mm: {fault}")]
    Offset {
        /// The part.
        part: String,
        /// The kerf in millimetres.
        kerf: f64,
        /// What cannot be computed.
        fault: OffsetError,
    },
    /// A construction failed.
    #[error(transparent)]
    Geometry(#[from] GeometryError),
}

named!(KerfError:
    NotACut => "not-a-cut",
    WiderThanPart => "wider-than-part",
    Offset => "offset",
    Geometry => "geometry",
);
