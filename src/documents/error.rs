//! What documents refuse.

use crate::geometry::GeometryError;

/// A document that cannot be made.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum DocumentError {
    /// Dimensions are still to be measured, and a shop must not cut by a draft.
    #[error(
        "the {document} is not made from a draft: still to be measured: {}; measure and write them in the design file",
        open.join(", ")
    )]
    Draft {
        /// What was asked for.
        document: &'static str,
        /// Names of the open dimensions.
        open: Vec<String>,
    },
    /// The drawing has no room on the sheet at any scale.
    #[error(
        "the part of {length:.1} × {width:.1} mm with its {labels} labels does not fit on a sheet of {sheet_width:.0} × {sheet_height:.0} mm at any scale down to 1:{smallest:.0}; choose a larger sheet"
    )]
    NoRoom {
        /// Size of the part as drawn, in millimetres.
        length: f64,
        /// Its other size, in millimetres.
        width: f64,
        /// How many labels it has.
        labels: usize,
        /// Width of the sheet in millimetres.
        sheet_width: f64,
        /// Height of the sheet in millimetres.
        sheet_height: f64,
        /// The smallest scale tried, as so many of the part's millimetres in one of paper.
        smallest: f64,
    },
    /// A sheet size that is none.
    #[error(
        "a sheet of {width} × {height} mm cannot be drawn on; it must be at least {least:.0} × {least:.0} mm"
    )]
    BadSheet {
        /// Its width in millimetres.
        width: f64,
        /// Its height in millimetres.
        height: f64,
        /// The least width and height in millimetres.
        least: f64,
    },
    /// A construction failed.
    #[error(transparent)]
    Geometry(#[from] GeometryError),
}
