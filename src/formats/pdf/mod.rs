//! PDF: pictures on pages of true size.
//!
//! A picture is written once, about its own centre (numbers in the file have 24 binary digits), and
//! shown on as many pages as ask for it, each through its own window. Arcs become cubic curves
//! within [`DRAWN_CURVE`](crate::geometry::tolerance::DRAWN_CURVE); layers become optional content
//! groups; words can be searched and copied. The file asks the print dialog not to scale.

mod document;
mod drawing;
mod file;
mod letters;

pub use document::Paper;
pub use document::document;
pub use document::document_on_one_page;
pub use document::lay_out;

use super::FormatError;
use crate::geometry::Motion;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::sheet::Picture;

/// Points of 1/72 inch in a millimetre, the unit of the format.
const POINTS: f64 = 72.0 / 25.4;

/// Smallest page side: 3 points (PDF Reference, 5th ed., appendix C).
const LEAST_SIDE: f64 = 3.0 / POINTS;

/// Largest page side: 14 400 points, 200 inches (PDF Reference, 5th ed., appendix C).
const LARGEST_SIDE: f64 = 5080.0;

/// A file of pages.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct PdfFile {
    /// Its title, shown in the head of the window.
    pub title: String,
    /// What it is about: design fingerprint and version of the tool.
    pub subject: String,
    /// What is drawn; each written once.
    pub pictures: Vec<Picture>,
    /// The pages, first to last.
    pub pages: Vec<PdfPage>,
}

/// A page.
#[derive(Clone, Debug, PartialEq)]
pub struct PdfPage {
    /// Its width in millimetres.
    pub width: f64,
    /// Its height in millimetres.
    pub height: f64,
    /// What stands on it, first to last.
    pub placements: Vec<Placement>,
    /// Its name, shown instead of a page number: `A1`, `B3`. Empty for the number.
    pub label: String,
}

/// A picture on a page.
#[derive(Clone, Debug, PartialEq)]
pub struct Placement {
    /// Which of the file's pictures, counted from 0.
    pub picture: usize,
    /// From the picture's millimetres to those of the page, which has its origin at the lower left.
    pub motion: Motion,
    /// The stretch applied after that.
    pub stretch: Stretch,
    /// The part of the page through which it is seen, in millimetres; `None` for all of it.
    pub clip: Option<Rect>,
}

impl Placement {
    /// A picture moved onto the page, neither stretched nor clipped.
    pub const fn new(picture: usize, motion: Motion) -> Self {
        Self {
            picture,
            motion,
            stretch: Stretch::NONE,
            clip: None,
        }
    }
}

/// A stretch about a point that stays: undoes the error of a printer that does not print true, or
/// makes a figure smaller.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// What becomes of the unit vector along x.
    pub x_axis: Vec2,
    /// What becomes of the unit vector along y.
    pub y_axis: Vec2,
    /// The point of the page that stays, in millimetres.
    pub about: Point,
}

impl Stretch {
    /// Everything stays.
    pub const NONE: Self = Self {
        x_axis: Vec2::new(1.0, 0.0),
        y_axis: Vec2::new(0.0, 1.0),
        about: Point::ORIGIN,
    };

    /// Lengths along x times `x`, along y times `y`.
    pub const fn scale(x: f64, y: f64, about: Point) -> Self {
        Self {
            x_axis: Vec2::new(x, 0.0),
            y_axis: Vec2::new(0.0, y),
            about,
        }
    }

    /// Image of a vector.
    pub fn vector(&self, vector: Vec2) -> Vec2 {
        self.x_axis * vector.x + self.y_axis * vector.y
    }

    /// Image of a point.
    pub fn point(&self, point: Point) -> Point {
        self.about + self.vector(point - self.about)
    }
}

/// The file.
///
/// # Accuracy
/// Places within 1 µm of the picture's, arcs included.
///
/// # Errors
/// [`FormatError::NoPages`], [`FormatError::PageSize`] for a side under 3 points or over 5080 mm,
/// [`FormatError::NoSuchPicture`], [`FormatError::DrawingTooLarge`] for a picture larger than
/// [`LARGEST_PDF_DRAWING`](crate::geometry::tolerance::LARGEST_PDF_DRAWING),
/// [`FormatError::NotUsable`] for a number that cannot be drawn.
///
/// # Example
/// ```
/// use kerfwise::formats::pdf::{self, PdfFile, PdfPage, Placement};
/// use kerfwise::geometry::{Motion, Point, Vec2};
/// use kerfwise::sheet::{Layer, Pen, Picture};
///
/// let mut picture = Picture::new();
/// picture.line(Layer::Mark, Point::ORIGIN, Point::new(100.0, 0.0), Pen::solid(0.2));
/// let file = PdfFile {
///     title: "A line of 100 mm".to_owned(),
///     pictures: vec![picture],
///     pages: vec![PdfPage {
///         width: 210.0,
///         height: 297.0,
///         placements: vec![Placement::new(0, Motion::shift(Vec2::new(55.0, 148.5)))],
///         label: String::new(),
///     }],
///     ..PdfFile::default()
/// };
/// assert!(pdf::write(&file)?.starts_with(b"%PDF-1.7"));
/// # Ok::<(), kerfwise::formats::FormatError>(())
/// ```
pub fn write(file: &PdfFile) -> Result<Vec<u8>, FormatError> {
    file::write(file)
}

#[cfg(test)]
mod tests;
