//! Documents on paper: plain black and white, after the manner of technical drawings.
//!
//! Blocks run down the page one after another. What belongs together stays together where a page has
//! room for it: a heading with what follows, a row of a table, a figure with its caption. Words are
//! wrapped by the font's own widths; a word too long for its line is broken.

mod blocks;
mod columns;
mod flow;
mod measure;
mod table;
mod words;

use super::PdfFile;
use super::PdfPage;
use super::Placement;
use super::Stretch;
use crate::formats::FormatError;
use crate::geometry::Motion;
use crate::geometry::Point;
use crate::geometry::Vec2;
use crate::sheet::Document;
use crate::sheet::Picture;
use flow::Flow;
use flow::Sheet;

/// A sheet of paper, upright or lying.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Paper {
    /// Width in millimetres.
    pub width: f64,
    /// Height in millimetres.
    pub height: f64,
}

impl Paper {
    /// ISO A4, 210 × 297 mm, upright.
    pub const A4: Self = Self {
        width: 210.0,
        height: 297.0,
    };
}

/// The document as a PDF file.
///
/// # Errors
/// [`FormatError::PaperTooSmall`] when nothing fits between the margins,
/// [`FormatError::TooManyColumns`] for a table whose columns cannot stand side by side, and as
/// [`super::write`] for the figures.
///
/// # Example
/// ```
/// use kerfwise::formats::pdf::{self, Paper};
/// use kerfwise::sheet::{Block, Document};
///
/// let document = Document {
///     title: "Marking out the daggerboard".to_owned(),
///     footer: "Fingerprint 9c1185a5".to_owned(),
///     blocks: vec![Block::Paragraph("Mark the base line first.".to_owned())],
/// };
/// assert!(pdf::document(&document, Paper::A4)?.starts_with(b"%PDF-1.7"));
/// # Ok::<(), kerfwise::formats::FormatError>(())
/// ```
pub fn document(document: &Document, paper: Paper) -> Result<Vec<u8>, FormatError> {
    super::write(&lay_out(document, paper)?)
}

/// The pages of a document, as pictures that can still be added to or put beside others.
///
/// # Errors
/// As [`document`].
pub fn lay_out(document: &Document, paper: Paper) -> Result<PdfFile, FormatError> {
    let document = &document.on_paper();
    let mut flow = Flow::new(paper, &document.footer)?;
    blocks::set(&mut flow, document)?;
    let sheets = flow.finish();
    let mut pictures: Vec<Picture> = Vec::new();
    let mut pages = Vec::new();
    for sheet in sheets {
        pages.push(page(sheet, paper, &mut pictures));
    }
    Ok(PdfFile {
        title: document.title.clone(),
        subject: document.footer.clone(),
        pictures,
        pages,
    })
}

/// Sizes tried to bring a document onto one page, the last one the smallest that is read with ease: the
/// usual text of 3.4 mm is then 2.4 mm high.
const SIZES: [f64; 6] = [1.0, 0.93, 0.86, 0.8, 0.75, 0.7];

/// The document on one page, set as much smaller as that takes; on several pages at the usual size if
/// even the smallest size does not bring it onto one.
///
/// # Errors
/// As [`document`].
pub fn document_on_one_page(document: &Document, paper: Paper) -> Result<Vec<u8>, FormatError> {
    for size in SIZES {
        let larger = Paper {
            width: paper.width / size,
            height: paper.height / size,
        };
        let mut file = lay_out(document, larger)?;
        let [page] = file.pages.as_mut_slice() else {
            continue;
        };
        for placement in &mut page.placements {
            placement.motion = placement.motion.then(&Motion::scale(size));
            placement.stretch.about = (placement.stretch.about.to_vec2() * size).to_point();
        }
        (page.width, page.height) = (paper.width, paper.height);
        return super::write(&file);
    }
    self::document(document, paper)
}

fn page(sheet: Sheet, paper: Paper, pictures: &mut Vec<Picture>) -> PdfPage {
    let mut placements = vec![Placement::new(pictures.len(), Motion::IDENTITY)];
    pictures.push(sheet.picture);
    for figure in sheet.figures {
        let Vec2 { x, y } = figure.at - figure.from;
        let mut placement = Placement::new(pictures.len(), Motion::shift(Vec2::new(x, y)));
        placement.stretch = Stretch::scale(figure.scale, figure.scale, figure.at);
        placements.push(placement);
        pictures.push(figure.picture);
    }
    PdfPage {
        width: paper.width,
        height: paper.height,
        placements,
        label: String::new(),
    }
}

/// A figure with its place on a page.
struct PlacedFigure {
    picture: Picture,
    /// The point of the picture that goes to `at`.
    from: Point,
    at: Point,
    scale: f64,
}

#[cfg(test)]
mod tests;
