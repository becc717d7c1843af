//! What a pattern refuses.

use crate::formats::FormatError;
use crate::geometry::GeometryError;

/// A pattern that cannot be made as asked.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PatternError {
    /// A dimension is still open.
    #[error(
        "no pattern while a dimension is open: {}; measure it and write its value into the design",
        names.join(", ")
    )]
    Draft {
        /// Names of the open dimensions.
        names: Vec<String>,
    },
    /// There is no part.
    #[error("there is no part to make a pattern of: name one that the design has")]
    NoPart,
    /// A setting that is no usable number.
    #[error("{what} is {value} mm, which cannot be: give {least} to {most} mm")]
    Setting {
        /// What was set.
        what: &'static str,
        /// To what, in millimetres.
        value: f64,
        /// The least that can be.
        least: f64,
        /// The most that can be.
        most: f64,
    },
    /// Too little of the sheet is left for the drawing.
    #[error(
        "paper of {width:.1} × {height:.1} mm leaves {left:.1} mm between margins and overlaps, and \
         {least:.0} mm is the least: take larger paper, or a smaller margin than {margin:.1} mm"
    )]
    PaperTooSmall {
        /// Width of the paper in millimetres.
        width: f64,
        /// Height of the paper in millimetres.
        height: f64,
        /// The shorter side of what is left, in millimetres.
        left: f64,
        /// The least that can be used, in millimetres.
        least: f64,
        /// The margin asked for, in millimetres.
        margin: f64,
    },
    /// A single page larger than a page can be.
    #[error(
        "one page would be {width:.0} × {height:.0} mm, and {largest:.0} mm is the most that a page \
         can have: print on sheets or a roll instead"
    )]
    PageTooLarge {
        /// Its width in millimetres.
        width: f64,
        /// Its height in millimetres.
        height: f64,
        /// The largest side in millimetres.
        largest: f64,
    },
    /// More sheets than anyone would join.
    #[error(
        "this would take about {sheets} sheets, and {most} is the most: take larger paper, a roll, or \
         print the corners only"
    )]
    TooManySheets {
        /// How many there would be.
        sheets: usize,
        /// The most that are made.
        most: usize,
    },
    /// A strip to leave on that cannot be drawn.
    #[error(
        "edge `{edge}` leaves {width:.2} mm on, but it is hollow with a radius of {radius:.2} mm: a \
         strip must be narrower than that"
    )]
    StripTooWide {
        /// Name of the edge.
        edge: String,
        /// Width of the strip in millimetres.
        width: f64,
        /// Radius of the edge in millimetres.
        radius: f64,
    },
    /// The rough-cut line could not be made.
    #[error(
        "no line to saw to at {allowance:.2} mm could be made: {reason}; take a smaller allowance"
    )]
    RoughCut {
        /// The allowance asked for, in millimetres.
        allowance: f64,
        /// Why not.
        reason: String,
    },
    /// A place on a joint without room for its marks.
    #[error(
        "sheets {first} and {second} have no free place for marks on their joint: take larger paper, or \
         turn the part by hand"
    )]
    NoRoomForMarks {
        /// The one sheet.
        first: String,
        /// The other sheet.
        second: String,
    },
    /// A reading that cannot be right.
    #[error(transparent)]
    Reading(#[from] super::correction::ReadingError),
    /// A construction failed.
    #[error(transparent)]
    Geometry(#[from] GeometryError),
    /// It cannot be written.
    #[error(transparent)]
    Format(#[from] FormatError),
}
