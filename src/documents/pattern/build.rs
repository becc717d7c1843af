//! From parts to the pages of a pattern.

use super::drawing::deciding;
use super::drawing::draw;
use super::drawing::lines_of;
use super::error::PatternError;
use super::frame;
use super::frame::Frame;
use super::moved;
use super::options::Face;
use super::options::Orientation;
use super::options::PatternOptions;
use super::options::PatternPaper;
use super::pages::compose;
use super::placing;
use super::placing::Laid;
use super::placing::Layout;
use super::points;
use crate::design::part::Part;
use crate::documents::Stamp;
use crate::formats::pdf::PdfFile;
use crate::geometry::Motion;
use crate::geometry::Point;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::sheet::Table;

/// A pattern: the file to write, and what to say about it.
#[derive(Clone, Debug, PartialEq)]
pub struct PatternFile {
    /// Its pages.
    pub pdf: PdfFile,
    /// What was made.
    pub summary: Summary,
}

/// What a pattern turned out to be.
#[derive(Clone, Debug, PartialEq)]
pub struct Summary {
    /// Sheets of the part, without the page that comes first.
    pub sheets: usize,
    /// Sheets that it would have taken as drawn, its corner in the corner of a sheet.
    pub sheets_as_drawn: usize,
    /// Pages in all.
    pub pages: usize,
    /// Width and height of a sheet in millimetres.
    pub page: (f64, f64),
    /// From each part's own millimetres to those of the drawing over all sheets.
    pub placed: Vec<Motion>,
    /// What is done about the printer, in words.
    pub printer: String,
    /// The distances to verify.
    pub checks: Table,
    /// What the maker should know: words left out, centres off the pattern.
    pub notes: Vec<String>,
}

impl Summary {
    /// How far the first part is turned, in degrees, anticlockwise.
    pub fn turned(&self) -> f64 {
        let x_axis = |motion: &Motion| motion.vector(Vec2::new(1.0, 0.0));
        self.placed
            .first()
            .map_or(0.0, |motion| number::direction(x_axis(motion)).to_degrees())
    }

    /// Sheets saved by turning and shifting.
    pub const fn sheets_saved(&self) -> usize {
        self.sheets_as_drawn.saturating_sub(self.sheets)
    }
}

/// The pattern of one or several parts, at full size.
///
/// Every page has its origin at the lower left; the first is a map with the distances to verify, the
/// others are the sheets, row by row. Several parts lie beside one another on the same sheets.
///
/// # Accuracy
/// The drawing is exact to what the file can hold (1 µm). On paper it is as true as the printer, or as
/// its readings if it was measured.
///
/// # Errors
/// [`PatternError::Draft`] while a dimension is open; [`PatternError::Setting`],
/// [`PatternError::PaperTooSmall`], [`PatternError::PageTooLarge`] for paper that cannot be;
/// [`PatternError::TooManySheets`]; [`PatternError::NoRoomForMarks`]; [`PatternError::Reading`] for a
/// correction that cannot be right or belongs to other paper.
pub fn build(
    parts: &[Part],
    stamp: &Stamp,
    options: &PatternOptions,
) -> Result<PatternFile, PatternError> {
    if stamp.is_draft() {
        return Err(PatternError::Draft {
            names: stamp.open.clone(),
        });
    }
    if parts.is_empty() {
        return Err(PatternError::NoPart);
    }
    frame::check(options)?;
    let faced = faced(parts, options.face);
    let mut laid = lay(&faced, options)?;
    if options.face == Face::Mirrored {
        for motion in &mut laid.motions {
            *motion = Motion::mirror_left_right().then(motion);
        }
    }
    let placed: Vec<Part> = parts
        .iter()
        .zip(&laid.motions)
        .map(|(part, motion)| moved::moved(part, motion))
        .collect();
    let drawing = draw(&placed, &laid, stamp, options)?;
    let file = compose(&placed, &laid, drawing, stamp, options)?;
    Ok(file)
}

fn faced(parts: &[Part], face: Face) -> Vec<Part> {
    match face {
        Face::AsDrawn => parts.to_vec(),
        Face::Mirrored => {
            let mirror = Motion::mirror_left_right();
            parts
                .iter()
                .map(|part| moved::moved(part, &mirror))
                .collect()
        }
    }
}

/// A layout and the frame it is for.
pub(super) struct LaidOn {
    pub(super) motions: Vec<Motion>,
    pub(super) frame: Frame,
    pub(super) anchor: Point,
    pub(super) as_drawn: usize,
}

fn lay(parts: &[Part], options: &PatternOptions) -> Result<LaidOn, PatternError> {
    let mut chords = Vec::new();
    let mut centres = Vec::new();
    for part in parts {
        chords.push(deciding(&lines_of(part, options)?, options.extent));
        centres.push(points::hole_centres(part));
    }
    match &options.paper {
        PatternPaper::Sheets { width, height, .. } => {
            let (short, long) = (width.min(*height), width.max(*height));
            let sizes: &[(f64, f64)] = match options.orientation {
                Orientation::Portrait => &[(short, long)],
                Orientation::Landscape => &[(long, short)],
                Orientation::FewestSheets => &[(short, long), (long, short)],
            };
            let mut frames = Vec::new();
            for &size in sizes {
                frames.push(Frame::new(size, options)?);
            }
            let laid = placing::lay(&Layout {
                parts: &chords,
                off_joints: &centres,
                frames: &frames,
                turning: options.turning,
            })?;
            let frame = frames.get(laid.frame).copied();
            let frame = frame.ok_or(PatternError::NoPart)?;
            Ok(on(laid, frame))
        }
        PatternPaper::Roll { width } => super::long::on_roll((&chords, &centres), *width, options)
            .map(|(laid, frame)| on(laid, frame)),
        PatternPaper::OnePage => {
            super::long::on_one_page(&chords, options).map(|(laid, frame)| on(laid, frame))
        }
    }
}

fn on(laid: Laid, frame: Frame) -> LaidOn {
    LaidOn {
        motions: laid.motions,
        frame,
        anchor: laid.anchor,
        as_drawn: laid.as_drawn,
    }
}
