//! The page on which a printer is measured: two long lines and both diagonals of their rectangle.

use super::correction::Readings;
use super::error::PatternError;
use super::frame;
use super::furniture::write;
use super::options::PatternOptions;
use super::options::PatternPaper;
use super::options::Printer;
use super::outline::FINISHED;
use super::outline::THIN;
use crate::formats::font;
use crate::formats::pdf::PdfFile;
use crate::formats::pdf::PdfPage;
use crate::formats::pdf::Placement;
use crate::geometry::Motion;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::sheet::Layer;
use crate::sheet::Picture;
use crate::sheet::number::fixed;

/// Length of the cross at each corner of the rectangle, in millimetres.
const CROSS: f64 = 5.0;

/// A calibration page, with what it should show.
#[derive(Clone, Debug, PartialEq)]
pub struct CalibrationPage {
    /// The page.
    pub pdf: PdfFile,
    /// What a true printer gives, in millimetres.
    pub asked: Readings,
    /// Width and height of the sheet, in millimetres.
    pub paper: (f64, f64),
}

/// The calibration page for a paper, always upright and never corrected.
///
/// A rectangle of whole centimetres, as large as the printable area allows, its corners marked by
/// crosses, with both diagonals. A sheet of a roll is taken 420 mm long; for one page of a plot shop the
/// page is 420 × 594 mm.
///
/// # Errors
/// [`PatternError::Setting`] and [`PatternError::PaperTooSmall`] for paper that cannot be.
pub fn calibration_page(options: &PatternOptions) -> Result<CalibrationPage, PatternError> {
    let plain = PatternOptions {
        printer: Printer::TakenAsTrue,
        ..options.clone()
    };
    frame::check(&plain)?;
    let paper = match plain.paper {
        PatternPaper::Sheets { width, height, .. } => (width.min(height), width.max(height)),
        PatternPaper::Roll { width } => (width, 420.0),
        PatternPaper::OnePage => (420.0, 594.0),
    };
    let room = |side: f64| ((side - 2.0 * plain.margin - 2.0 * CROSS) / 10.0).floor() * 10.0;
    let (width, height) = (room(paper.0), room(paper.1));
    if !(width >= 70.0 && height >= 70.0) {
        return Err(PatternError::PaperTooSmall {
            width: paper.0,
            height: paper.1,
            left: width.min(height),
            least: 70.0,
            margin: plain.margin,
        });
    }
    let rect = Rect::new(-width / 2.0, -height / 2.0, width / 2.0, height / 2.0);
    let asked = Readings::of_rectangle(width, height);
    let mut picture = Picture::new();
    draw_lines(&mut picture, &rect);
    draw_words(&mut picture, &rect, &asked, &plain.paper.words());
    let middle = Vec2::new(paper.0 / 2.0, paper.1 / 2.0);
    let page = PdfPage {
        width: paper.0,
        height: paper.1,
        placements: vec![Placement::new(0, Motion::shift(middle))],
        label: String::new(),
    };
    let pdf = PdfFile {
        title: format!("Calibration page, {}", plain.paper.words()),
        subject: concat!("kerfwise ", env!("CARGO_PKG_VERSION")).to_owned(),
        pictures: vec![picture],
        pages: vec![page],
    };
    Ok(CalibrationPage { pdf, asked, paper })
}

fn corners(rect: &Rect) -> [Point; 4] {
    [
        Point::new(rect.x0, rect.y0),
        Point::new(rect.x1, rect.y0),
        Point::new(rect.x1, rect.y1),
        Point::new(rect.x0, rect.y1),
    ]
}

fn draw_lines(picture: &mut Picture, rect: &Rect) {
    let [a, b, c, d] = corners(rect);
    for (from, to) in [(a, b), (b, c), (c, d), (d, a)] {
        let along = number::normalized(to - from).unwrap_or(Vec2::ZERO) * CROSS;
        picture.line(Layer::Guides, from - along, to + along, FINISHED);
    }
    for (from, to) in [(a, c), (d, b)] {
        picture.line(Layer::Guides, from, to, THIN);
    }
}

fn draw_words(picture: &mut Picture, rect: &Rect, asked: &Readings, paper: &str) {
    let [a, b, c, d] = corners(rect);
    let inside = Vec2::new(3.0, 2.5);
    for (corner, name, to) in [
        (a, "A", Vec2::new(inside.x + 4.0, inside.y)),
        (b, "B", Vec2::new(-inside.x - 6.5, inside.y)),
        (c, "C", Vec2::new(-inside.x - 6.5, -inside.y - 3.0)),
        (d, "D", Vec2::new(inside.x + 4.0, -inside.y - 3.0)),
    ] {
        write(picture, corner + to, 4.5, 0.0, name);
    }
    let millimetres = |value: f64| format!("{} mm", fixed(value, 2));
    let beside_x = format!("x: A to B is {}", millimetres(asked.x));
    let at = Point::new(-font::text_width(&beside_x, 3.0) / 2.0, rect.y0 + 2.0);
    write(picture, at, 3.0, 0.0, &beside_x);
    let beside_y = format!("y: A to D is {}", millimetres(asked.y));
    let at = Point::new(rect.x0 + 4.5, -font::text_width(&beside_y, 3.0) / 2.0);
    write(picture, at, 3.0, number::QUARTER_TURN, &beside_y);
    let lines = [
        format!("Calibration page, {paper}. Print it at actual size (100 %), not fitted to the page."),
        "Lay a steel rule from middle of line to middle of line, and read to a fifth of a millimetre.".to_owned(),
        format!("x, A to B: {}          read: ____________ mm", millimetres(asked.x)),
        format!("y, A to D: {}          read: ____________ mm", millimetres(asked.y)),
        format!("rising, A to C: {}     read: ____________ mm", millimetres(asked.rising)),
        format!("falling, D to B: {}    read: ____________ mm", millimetres(asked.falling)),
        "Print patterns with the same printer, settings and paper, fed the same way.".to_owned(),
    ];
    // between the diagonals there is most room under the upper side
    let widest = lines
        .iter()
        .map(|line| font::text_width(line, 3.2))
        .fold(0.0, f64::max);
    let size = 3.2 * (rect.width() * 0.72 / widest).min(1.0);
    for (index, line) in (0_u32..).zip(&lines) {
        let left = -font::text_width(line, size) / 2.0;
        let at = Point::new(left, rect.y1 - 7.0 - f64::from(index) * size * 1.5);
        write(picture, at, size, 0.0, line);
    }
}
