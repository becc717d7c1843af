//! One sheet of paper: where the drawing, its joints and the words stand on it.
//!
//! Places on a sheet are counted from its middle, in millimetres as they come out of the printer. The
//! drawing's own part of the sheet is the *cell*; the cells of all sheets tile the plane. Beyond the
//! cell's left and top edge a narrow strip repeats the neighbour and is trimmed off; beyond its right
//! and bottom edge a wider one repeats the neighbour, bears the words, and is covered by it.

use super::correction::ReadingError;
use super::error::PatternError;
use super::options::PatternOptions;
use super::options::PatternPaper;
use super::options::Printer;
use crate::formats::pdf::Stretch;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;

/// By how much a sheet shows the drawing beyond its cell, in millimetres.
pub(super) const BLEED: f64 = 5.0;

/// Least width of the strip that bears words, beyond the bleed, in millimetres.
const LEAST_BAND: f64 = 8.0;

/// Least side of a cell in millimetres: register marks and scale bars need room.
const LEAST_CELL: f64 = 70.0;

/// The sheet that all sheets of a pattern share.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Frame {
    /// Width and height of the paper, in millimetres.
    pub(super) page: (f64, f64),
    /// Where anything may be printed, from the middle of the sheet.
    pub(super) printable: Rect,
    /// The sheet's own part of the drawing, from the middle of the sheet; whole millimetres.
    pub(super) cell: Rect,
    /// What undoes the error of the printer.
    pub(super) stretch: Stretch,
}

impl Frame {
    /// The frame on a page of this size.
    pub(super) fn new(page: (f64, f64), options: &PatternOptions) -> Result<Self, PatternError> {
        let stretch = stretch(page, options)?;
        let room = (page.0 - 2.0 * options.margin, page.1 - 2.0 * options.margin);
        let printable = reach(room, &stretch);
        let flap = options.overlap - BLEED;
        // whole millimetres, so that the distances between lining-up lines are round
        let width = (printable.width() - options.overlap).floor();
        let height = (printable.height() - options.overlap).floor();
        if !(width >= LEAST_CELL && height >= LEAST_CELL) {
            return Err(PatternError::PaperTooSmall {
                width: page.0,
                height: page.1,
                left: width.min(height),
                least: LEAST_CELL,
                margin: options.margin,
            });
        }
        let corner = Point::new(printable.x0 + BLEED, printable.y0 + flap);
        Ok(Self {
            page,
            printable,
            cell: Rect::from_origin_size(corner, (width, height)),
            stretch,
        })
    }

    /// The middle of the sheet, from its lower left corner.
    pub(super) fn middle(&self) -> Vec2 {
        Vec2::new(self.page.0 / 2.0, self.page.1 / 2.0)
    }

    /// Where the drawing shows, from the middle of the sheet.
    pub(super) fn window(&self) -> Rect {
        self.cell.inflate(BLEED, BLEED)
    }

    /// The rectangle of the paper that holds a part of the sheet, from the lower left corner, in the
    /// file's millimetres: after the stretch.
    pub(super) fn on_paper(&self, rect: Rect) -> Rect {
        let corners = [
            (rect.x0, rect.y0),
            (rect.x1, rect.y0),
            (rect.x0, rect.y1),
            (rect.x1, rect.y1),
        ];
        let place = |(x, y)| self.stretch.point(Point::new(x, y) + self.middle());
        let first = place((rect.x0, rect.y0));
        corners
            .into_iter()
            .map(place)
            .fold(Rect::from_points(first, first), |sum, point| {
                sum.union_pt(point)
            })
    }
}

fn stretch(page: (f64, f64), options: &PatternOptions) -> Result<Stretch, ReadingError> {
    let Printer::Measured(correction) = &options.printer else {
        return Ok(Stretch {
            about: Point::new(page.0 / 2.0, page.1 / 2.0),
            ..Stretch::NONE
        });
    };
    match options.paper {
        PatternPaper::Sheets { .. } => correction.stretch(page),
        PatternPaper::Roll { .. } | PatternPaper::OnePage => correction.stretch_along(page),
    }
}

/// The largest rectangle about the middle that stays inside the room both as it comes out of the
/// printer and in the file.
fn reach((width, height): (f64, f64), stretch: &Stretch) -> Rect {
    let (a, b) = (width / 2.0, height / 2.0);
    let (x, y) = (stretch.x_axis, stretch.y_axis);
    // half sides u, v with |x.x|·u + |y.x|·v = a and |x.y|·u + |y.y|·v = b
    let determinant = x.x.abs() * y.y.abs() - y.x.abs() * x.y.abs();
    let u = (a * y.y.abs() - b * y.x.abs()) / determinant;
    let v = (b * x.x.abs() - a * x.y.abs()) / determinant;
    let (u, v) = (u.min(a), v.min(b));
    Rect::new(-u, -v, u, v)
}

/// Refuses margins and overlaps that cannot be.
pub(super) fn check(options: &PatternOptions) -> Result<(), PatternError> {
    let within = |what, value: f64, least: f64, most: f64| {
        if value >= least && value <= most {
            return Ok(());
        }
        Err(PatternError::Setting {
            what,
            value,
            least,
            most,
        })
    };
    within("the margin", options.margin, 0.0, 100.0)?;
    within(
        "the overlap",
        options.overlap,
        2.0 * BLEED + LEAST_BAND,
        100.0,
    )?;
    match options.paper {
        PatternPaper::Sheets { width, height, .. } => {
            within("the width of the paper", width, 50.0, 5080.0)?;
            within("the height of the paper", height, 50.0, 5080.0)
        }
        PatternPaper::Roll { width } => within("the width of the roll", width, 100.0, 5080.0),
        PatternPaper::OnePage => Ok(()),
    }
}
