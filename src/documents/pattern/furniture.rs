//! What stands on every sheet beside the drawing: its name, its neighbours, scale bars, where it
//! comes from. All of it in two bands, below and to the right, that the neighbours cover.

use super::frame::BLEED;
use super::frame::Frame;
use super::grid::Grid;
use super::grid::Place;
use super::ink::Ink;
use super::outline::FINISHED;
use super::outline::THIN;
use super::points;
use crate::documents::Stamp;
use crate::formats::font;
use crate::geometry::LengthUnit;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::sheet::Anchor;
use crate::sheet::Layer;
use crate::sheet::Picture;
use crate::sheet::Text;

/// Size of the sheet's name.
const NAME: f64 = 6.0;
/// Size of the words in the bands.
const WORDS: f64 = 2.2;
/// Distance of two lines of words.
const LEADING: f64 = 3.0;

/// What all sheets of a pattern say.
pub(super) struct Heading {
    /// The parts, and whether they are mirrored.
    pub(super) parts: String,
    /// One line about the printer.
    pub(super) printer: String,
    /// How many sheets there are.
    pub(super) sheets: usize,
}

/// The bands of one sheet, counted from its middle.
pub(super) fn bands(
    frame: &Frame,
    grid: &Grid,
    place: Place,
    heading: &Heading,
    stamp: &Stamp,
) -> Picture {
    let mut picture = Picture::new();
    let number = grid.sheets().take_while(|&other| other != place).count() + 1;
    let below = covered_by(grid, place.below(), "below");
    let right = covered_by(grid, place.right(), "to the right");
    let counted = format!("sheet {number} of {}", heading.sheets);
    let (below, right) = if heading.sheets > 1 {
        (below, right)
    } else {
        ("full size".to_owned(), "full size".to_owned())
    };
    bottom_band(
        &mut picture,
        frame,
        &place.name(),
        &[counted, below],
        stamp.unit,
    );
    let trim = trim_words(grid, place);
    let lines = [
        format!("{right}{trim}"),
        format!("{} · {} · {}", heading.parts, heading.printer, stamp.line()),
    ];
    right_band(&mut picture, frame, &lines, stamp.unit);
    picture
}

/// "cut off" on the strips that are trimmed, where nothing else stands; `ink` is everything drawn, in
/// the drawing's own places.
pub(super) fn trimmed_strips(
    picture: &mut Picture,
    frame: &Frame,
    grid: &Grid,
    (place, ink): (Place, &Ink),
) {
    const WORDS_ON_STRIP: &str = "cut off";
    let is_printed = |place: Option<Place>| place.is_some_and(|place| grid.is_printed(place));
    let (cell, own) = (frame.cell, grid.rect(place));
    let width = font::text_width(WORDS_ON_STRIP, WORDS);
    let strips = [
        (
            place.left(),
            Point::new(cell.x0 - 1.7, cell.y0),
            Vec2::new(0.0, 1.0),
            cell.height(),
        ),
        (
            place.above(),
            Point::new(cell.x0, cell.y1 + 1.6),
            Vec2::new(1.0, 0.0),
            cell.width(),
        ),
    ];
    for (neighbour, start, along, length) in strips {
        if !is_printed(neighbour) {
            continue;
        }
        let middle = (length - width) / 2.0;
        let starts = (0..30).flat_map(|step| {
            let off = f64::from(step) * length / 70.0;
            [middle + off, middle - off]
        });
        let free = starts.map(|at| start + along * at).find(|&at| {
            let end = at + along * width + number::left_normal(along) * WORDS;
            let on_sheet = Rect::from_points(at, end).inflate(0.8, 0.5);
            let place = on_sheet + (own.origin() - cell.origin());
            !ink.touches(&place)
        });
        if let Some(at) = free {
            write(picture, at, WORDS, number::direction(along), WORDS_ON_STRIP);
        }
    }
}

fn covered_by(grid: &Grid, place: Place, side: &str) -> String {
    if grid.is_printed(place) {
        format!("{} covers this strip, up to the line", place.name())
    } else {
        format!("no sheet {side}")
    }
}

fn trim_words(grid: &Grid, place: Place) -> String {
    let is_printed = |place: Option<Place>| place.is_some_and(|place| grid.is_printed(place));
    let words = match (is_printed(place.left()), is_printed(place.above())) {
        (true, true) => "left and top edges",
        (true, false) => "left edge",
        (false, true) => "top edge",
        (false, false) => return String::new(),
    };
    format!(" · cut off the {words} along the line")
}

fn bottom_band(
    picture: &mut Picture,
    frame: &Frame,
    name: &str,
    lines: &[String],
    unit: LengthUnit,
) {
    let area = frame.printable;
    let height = frame.cell.y0 - area.y0 - BLEED;
    let left = area.x0 + 1.0;
    write(picture, Point::new(left, area.y0 + 1.8), NAME, 0.0, name);
    let from = left + font::text_width(name, NAME) + 4.0;
    // words to the right of the bar need about 40 mm
    let room = frame.cell.x1 - from - 34.0;
    let start = Point::new(from, area.y0 + 2.2);
    let end = scale_bar(picture, start, Vec2::new(1.0, 0.0), room, unit);
    let top = area.y0 + height - WORDS - 0.4;
    for (index, line) in (0_u32..).zip(lines) {
        let at = Point::new(end.x + 4.0, top - f64::from(index) * LEADING);
        let size = fitted(line, area.x1 - height - 1.0 - at.x);
        write(picture, at, size, 0.0, line);
    }
}

fn right_band(picture: &mut Picture, frame: &Frame, lines: &[String], unit: LengthUnit) {
    let area = frame.printable;
    // both bands are as wide, also where other things stand farther to the right
    let right = frame.cell.x1 + frame.cell.y0 - area.y0;
    let left = frame.cell.x1 + BLEED;
    let start = Point::new(right - 2.2, frame.cell.y0);
    let room = frame.cell.y1 - start.y - 90.0;
    let end = scale_bar(picture, start, Vec2::new(0.0, 1.0), room, unit);
    for (index, line) in (0_u32..).zip(lines) {
        let x = left + WORDS + 0.7 + f64::from(index) * LEADING;
        let at = Point::new(x, end.y + 4.0);
        let size = fitted(line, area.y1 - at.y - 1.0);
        write(picture, at, size, number::QUARTER_TURN, line);
    }
}

/// The size at which words fit, never larger than usual.
fn fitted(words: &str, room: f64) -> f64 {
    let width = font::text_width(words, WORDS);
    if width > room && room > 0.0 {
        WORDS * room / width
    } else {
        WORDS
    }
}

pub(super) fn write(picture: &mut Picture, at: Point, size: f64, angle: f64, words: &str) {
    picture.text(Text {
        layer: Layer::Words,
        at,
        size,
        anchor: Anchor::Start,
        angle,
        content: words.to_owned(),
    });
}

/// A bar of a round length, divided, with its length in words at the end; gives back where the words
/// end. At least 50 mm or 2 in long, even where there is less room.
pub(super) fn scale_bar(
    picture: &mut Picture,
    start: Point,
    along: Vec2,
    room: f64,
    unit: LengthUnit,
) -> Point {
    let (step, lengths): (f64, [u32; 3]) = match unit {
        LengthUnit::Inch | LengthUnit::Foot => (12.7, [12, 8, 4]),
        LengthUnit::Millimetre | LengthUnit::Centimetre | LengthUnit::Metre => (10.0, [15, 10, 5]),
    };
    let words_room = 16.0;
    let fits = |count: &&u32| f64::from(**count) * step + words_room <= room;
    let count = lengths
        .iter()
        .find(fits)
        .or(lengths.last())
        .copied()
        .unwrap_or(5);
    let length = f64::from(count) * step;
    let up = number::left_normal(along);
    let end = start + along * length;
    picture.line(Layer::Guides, start, end, FINISHED);
    for tick in 0..=count {
        let at = start + along * (f64::from(tick) * step);
        let is_end = tick == 0 || tick == count;
        let height = if is_end { 4.0 } else { 1.6 };
        let pen = if is_end { FINISHED } else { THIN };
        picture.line(Layer::Guides, at, at + up * height, pen);
    }
    let bar_unit = match unit {
        LengthUnit::Inch | LengthUnit::Foot => LengthUnit::Inch,
        LengthUnit::Millimetre | LengthUnit::Centimetre | LengthUnit::Metre => {
            LengthUnit::Millimetre
        }
    };
    let words = points::length(length, bar_unit);
    let at = end + along * 1.5 + up * 0.4;
    write(picture, at, 2.6, number::direction(along), &words);
    at + along * font::text_width(&words, 2.6)
}
