//! The dimensioned drawing of a part, to scale on one sheet.
//!
//! The part is turned so that its datum edge stands upright or lies level. Running dimensions from
//! the datum stand left of it and under it, overall dimensions at the right and on top, and the names
//! and sizes of its features in one margin, each with a leader. The layout is tried at every scale of
//! ISO 5455 from the largest down, on the sheet upright and lying, until everything has room; so no
//! words ever lie on other words.

pub(crate) mod body;
mod features_named;
mod frame;
pub(crate) mod labels;
pub(crate) mod near;
pub(crate) mod obstacles;
mod ordinates;
mod overall;
mod spread;
pub(crate) mod symbols;
pub(crate) mod view;

use super::DocumentError;
use super::Stamp;
use super::features;
use crate::design::part::Part;
use crate::geometry::LengthUnit;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::sheet::Layer;
use crate::sheet::Picture;
use frame::Frame;
use labels::Label;
use labels::Margin;
use labels::Placed;
use labels::Side;
use obstacles::Obstacles;
use ordinates::Axis;
use ordinates::Ordinates;
use symbols::THIN;
use view::View;

/// Size of a sheet of paper in millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SheetSize {
    /// From left to right.
    pub width: f64,
    /// From bottom to top.
    pub height: f64,
}

impl SheetSize {
    /// ISO 216 A4, upright.
    pub const A4: Self = Self {
        width: 210.0,
        height: 297.0,
    };
    /// ISO 216 A3, upright.
    pub const A3: Self = Self {
        width: 297.0,
        height: 420.0,
    };
    /// Letter, 8 1/2 × 11 in, upright.
    pub const LETTER: Self = Self {
        width: 215.9,
        height: 279.4,
    };

    /// The same sheet with its sides exchanged.
    #[must_use]
    pub const fn turned(self) -> Self {
        Self {
            width: self.height,
            height: self.width,
        }
    }
}

/// Width and height below which a sheet is refused.
const LEAST_SHEET: f64 = 140.0;
/// Width and height above which a sheet is refused.
const LARGEST_SHEET: f64 = 5000.0;

/// A drawing, ready to be written.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawing {
    /// The sheet it fills, upright or lying; its lower left corner is the origin of the picture.
    pub sheet: SheetSize,
    /// Its scale in words, such as `1:5`.
    pub scale: String,
    /// Everything on it, in millimetres of paper.
    pub picture: Picture,
}

/// A scale of ISO 5455: millimetres of paper, and of the part, that belong together.
type Scale = (f64, f64);

const SCALES: [Scale; 9] = [
    (5.0, 1.0),
    (2.0, 1.0),
    (1.0, 1.0),
    (1.0, 2.0),
    (1.0, 5.0),
    (1.0, 10.0),
    (1.0, 20.0),
    (1.0, 50.0),
    (1.0, 100.0),
];

/// Font sizes of labels: the usual one, and one for crowded parts.
const LABEL_SIZES: [f64; 2] = [3.0, 2.2];
/// Distance from the line of the overall dimension to where leaders bend.
const LEAD: f64 = 4.0;

/// The drawing of the part, on the sheet upright or lying, whichever gives the larger scale.
///
/// # Units
/// The picture is in millimetres of paper; numbers on it are in the stamp's unit.
///
/// # Errors
/// [`DocumentError::BadSheet`] for a sheet that is too small to draw on, [`DocumentError::NoRoom`]
/// when the part with its labels fits at no scale.
pub fn draw(part: &Part, stamp: &Stamp, sheet: SheetSize) -> Result<Drawing, DocumentError> {
    let fine = |side: f64| (LEAST_SHEET..=LARGEST_SHEET).contains(&side);
    if !fine(sheet.width) || !fine(sheet.height) {
        return Err(DocumentError::BadSheet {
            width: sheet.width,
            height: sheet.height,
            least: LEAST_SHEET,
        });
    }
    let largest = SCALES
        .iter()
        .position(|&scale| {
            candidates(part, sheet)
                .iter()
                .any(|&(sheet, _)| has_room(part, stamp, sheet, scale))
        })
        .unwrap_or(SCALES.len());
    for (scale, size, key) in attempts(largest) {
        for (sheet, manner) in candidates(part, sheet) {
            if key != (manner == Manner::Key) {
                continue;
            }
            if let Some(picture) = try_at(part, stamp, sheet, (scale, manner, size)) {
                return Ok(Drawing {
                    sheet,
                    scale: words_of(scale),
                    picture,
                });
            }
        }
    }
    let view = View::new(part, 1.0);
    Err(DocumentError::NoRoom {
        length: view.bounds.width(),
        width: view.bounds.height(),
        labels: features_named::labels(&view, stamp.unit).len(),
        sheet_width: sheet.width,
        sheet_height: sheet.height,
        smallest: SCALES.iter().map(|scale| scale.1).fold(1.0, f64::max),
    })
}

/// How labels are placed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Manner {
    /// Each near its feature.
    Near,
    /// All in one margin.
    Margin(Side),
    /// Numbers near the features, and what they stand for in a list.
    Key,
}

/// Scales and sizes of labels in the order in which they are tried, and whether with a key: words on
/// the drawing are worth one step of scale, more than that not.
fn attempts(largest: usize) -> Vec<(Scale, f64, bool)> {
    let [usual, crowded] = LABEL_SIZES;
    let near = SCALES.iter().skip(largest).take(2);
    let mut attempts = Vec::new();
    attempts.extend(near.clone().map(|&scale| (scale, usual, false)));
    attempts.extend(near.map(|&scale| (scale, crowded, false)));
    attempts.extend(
        SCALES
            .iter()
            .skip(largest)
            .map(|&scale| (scale, crowded, true)),
    );
    attempts
}

/// The sheet upright and lying with every manner of labels, the likeliest first.
fn candidates(part: &Part, sheet: SheetSize) -> [(SheetSize, Manner); 8] {
    let view = View::new(part, 1.0);
    let upright = if sheet.width <= sheet.height {
        sheet
    } else {
        sheet.turned()
    };
    let lying = upright.turned();
    let (first, second, sides) = if view.bounds.height() >= view.bounds.width() {
        (upright, lying, [Side::Right, Side::Top])
    } else {
        (lying, upright, [Side::Top, Side::Right])
    };
    let [side, other] = sides.map(Manner::Margin);
    [
        (first, Manner::Near),
        (second, Manner::Near),
        (first, side),
        (first, other),
        (second, side),
        (second, other),
        (first, Manner::Key),
        (second, Manner::Key),
    ]
}

/// Whether the part without labels has room on the sheet at this scale.
fn has_room(part: &Part, stamp: &Stamp, sheet: SheetSize, scale: Scale) -> bool {
    let area = Frame::new(part, stamp, sheet, &[]).area;
    let view = View::new(part, scale.0 / scale.1);
    let around = overall::AWAY + ordinates::AWAY;
    view.envelope.width() + around <= area.width()
        && view.envelope.height() + around <= area.height()
}

/// What the numbers on a drawing stand for: "7  pivot Ø 13 at 884 | 90"; single openings with their
/// places, along the datum and across.
fn key(part: &Part, unit: LengthUnit) -> Vec<String> {
    let labels = features_named::labels(&View::new(part, 1.0), unit);
    let numbered = (1..).zip(labels);
    let entry = |(number, label): (u32, Label)| {
        let place = label.place.map_or_else(String::new, |place| {
            let running = part.datum.running(place);
            let (along, across) = (
                features::length(running.x, unit),
                features::length(running.y, unit),
            );
            format!(" at {along} | {across}")
        });
        format!("{number}  {}{place}", label.words)
    };
    numbered.map(entry).collect()
}

/// The picture, if everything has room on the sheet at this scale, with labels of this size placed in
/// this manner.
fn try_at(
    part: &Part,
    stamp: &Stamp,
    sheet: SheetSize,
    (scale, manner, size): (Scale, Manner, f64),
) -> Option<Picture> {
    let key = match manner {
        Manner::Near | Manner::Margin(_) => Vec::new(),
        Manner::Key => key(part, stamp.unit),
    };
    let frame = Frame::new(part, stamp, sheet, &key);
    let area = frame.area;
    let view = View::new(part, scale.0 / scale.1);
    let spots = match manner {
        Manner::Near | Manner::Margin(_) => ordinates::spots(&view),
        Manner::Key => ordinates::spots_without_single_openings(&view),
    };
    let left = ordinates::depth(&view, &spots, Axis::Upright, stamp.unit);
    let bottom = ordinates::depth(&view, &spots, Axis::Level, stamp.unit);
    let overall = Vec2::new(
        view.envelope.x1 - view.bounds.x1,
        view.envelope.y1 - view.bounds.y1,
    ) + Vec2::new(overall::AWAY, overall::AWAY);
    let (right, top) = match manner {
        Manner::Near | Manner::Key => (overall.x + 2.0, overall.y + 3.6),
        Manner::Margin(Side::Right) => {
            let named = features_named::labels(&view, stamp.unit);
            let column = labels::column_width(&named, size);
            (overall.x + LEAD + column, overall.y + 3.6)
        }
        Manner::Margin(Side::Top) => (overall.x + 2.0, overall.y + LEAD + labels::pitch(size)),
    };
    let slack = Vec2::new(
        area.width() - left - view.bounds.width() - right,
        area.height() - bottom - view.bounds.height() - top,
    );
    if slack.x < 0.0 || slack.y < 0.0 {
        return None;
    }
    let corner = Point::new(area.x0 + left, area.y0 + bottom);
    let to_corner = corner - Point::new(view.bounds.x0, view.bounds.y0);
    // labels at the top need room to the right of the part and over it: there it stays low and left
    let shares = match manner {
        Manner::Near | Manner::Key => &[(0.5, 0.5), (0.1, 0.5), (0.9, 0.5)][..],
        Manner::Margin(Side::Right) => &[(0.5, 0.5)][..],
        Manner::Margin(Side::Top) => &[(0.5, 0.3), (0.5, 0.0), (0.0, 0.0)][..],
    };
    shares.iter().find_map(|&(x, y)| {
        let view = view.shifted(to_corner + Vec2::new(slack.x * x, slack.y * y));
        // the corner below at the left belongs to the upright numbers
        let beside = area;
        let below = Rect::new(view.bounds.x0 - 4.0, area.y0, area.x1, area.y1);
        let level = ordinates::arrange(&view, &spots, Axis::Level, stamp.unit, below)?;
        let upright = ordinates::arrange(&view, &spots, Axis::Upright, stamp.unit, beside)?;
        let sheet = Layout {
            stamp,
            view,
            ordinates: [level, upright],
            area,
            size,
        };
        let mut picture = match manner {
            Manner::Near => sheet.labelled_near(&sheet.labels())?,
            Manner::Key => sheet.labelled_near(&sheet.numbers())?,
            Manner::Margin(side) => sheet.labelled_in_margin(side)?,
        };
        let words = words_of(scale);
        frame.draw(&mut picture, part, stamp, &words);
        Some(picture)
    })
}

/// A scale in words: `1:5`.
fn words_of(scale: Scale) -> String {
    let number = |value| crate::sheet::number::trimmed(value, 0);
    format!("{}:{}", number(scale.0), number(scale.1))
}

/// The part and its running dimensions in their places, labels still to come.
struct Layout<'a> {
    stamp: &'a Stamp,
    view: View<'a>,
    ordinates: [Ordinates; 2],
    area: Rect,
    size: f64,
}

impl Layout<'_> {
    fn body(&self) -> Picture {
        let mut picture = Picture::new();
        if self.stamp.is_draft() {
            symbols::draft(&mut picture, self.area);
        }
        body::draw(&mut picture, &self.view);
        for ordinates in &self.ordinates {
            ordinates.draw(&mut picture);
        }
        picture
    }

    fn extension_lines(&self) -> Vec<(Point, Point)> {
        self.ordinates.iter().flat_map(Ordinates::lines).collect()
    }

    fn labels(&self) -> Vec<Label> {
        features_named::labels(&self.view, self.stamp.unit)
    }

    /// The labels with numbers for their words.
    fn numbers(&self) -> Vec<Label> {
        let numbered = (1..).zip(self.labels());
        numbered
            .map(|(number, label)| Label {
                words: number.to_string(),
                ..label
            })
            .collect()
    }

    /// Each label near its feature.
    fn labelled_near(&self, labels: &[Label]) -> Option<Picture> {
        let mut picture = self.body();
        overall::draw(&mut picture, &self.view, self.stamp.unit, &[])?;
        draw_datum(&mut picture, &self.view, &self.extension_lines());
        let obstacles = Obstacles::of(&picture);
        for placed in near::place(labels, obstacles, self.area, self.size)? {
            draw_label(&mut picture, &placed);
        }
        Some(picture)
    }

    /// All labels in one margin.
    fn labelled_in_margin(&self, side: Side) -> Option<Picture> {
        let (area, bounds) = (self.area, self.view.bounds);
        let (envelope, overall) = (self.view.envelope, overall::AWAY + LEAD);
        // leaders must not run through the running dimensions
        let margin = match side {
            Side::Right => Margin {
                side,
                bend: envelope.x1 + overall,
                room: Rect::new(area.x0, bounds.y0 - ordinates::AWAY, area.x1, area.y1),
                size: self.size,
            },
            Side::Top => Margin {
                side,
                bend: envelope.y1 + overall,
                room: Rect::new(bounds.x0, area.y0, area.x1, area.y1),
                size: self.size,
            },
        };
        let placed = labels::place(self.labels(), &margin)?;
        let mut picture = self.body();
        let mut leaders = Vec::new();
        for placed in &placed {
            leaders.extend(lines(&placed.leader));
            draw_label(&mut picture, placed);
        }
        overall::draw(&mut picture, &self.view, self.stamp.unit, &leaders)?;
        leaders.extend(self.extension_lines());
        draw_datum(&mut picture, &self.view, &leaders);
        Some(picture)
    }
}

fn lines(points: &[Point]) -> Vec<(Point, Point)> {
    points
        .iter()
        .zip(points.iter().skip(1))
        .map(|(&a, &b)| (a, b))
        .collect()
}

fn draw_label(picture: &mut Picture, placed: &Placed) {
    draw_plain_label(picture, placed);
    if let [foot, elbow, ..] = placed.leader.as_slice()
        && let Some(towards) = number::normalized(*foot - *elbow)
    {
        symbols::arrow(picture, *foot, towards);
    }
}

/// A label whose leader has no arrow: it points at a dot.
pub(crate) fn draw_plain_label(picture: &mut Picture, placed: &Placed) {
    for (from, to) in lines(&placed.leader) {
        picture.line(Layer::Dimensions, from, to, THIN);
    }
    picture.text(placed.text.clone());
}

/// The circle at the origin, and the datum sign where the datum edge is free of other lines.
pub(crate) fn draw_datum(picture: &mut Picture, view: &View<'_>, obstacles: &[(Point, Point)]) {
    let origin = view.point(view.part.datum.origin);
    symbols::origin(picture, origin);
    let outward = -view.across();
    let along = view.along();
    let reach = |point: Point| (point - origin).dot(along);
    // the stretch of outline that lies on the datum line
    let on_line = |point: Point| (point - origin).dot(outward).abs() < 0.01;
    let outline = view.motion.contour(view.part.region.outer());
    let edge = outline
        .segments()
        .filter(|one| on_line(one.start()) && on_line(one.end()))
        .max_by(|a, b| a.length().total_cmp(&b.length()));
    let (from, to) = edge.map_or_else(
        || (origin, origin + along * 30.0),
        |edge| (edge.start(), edge.end()),
    );
    let (from, to) = if reach(from) <= reach(to) {
        (from, to)
    } else {
        (to, from)
    };
    let room_at = |at: Point| symbols::datum_room(at, outward);
    if let Some(foot) = symbols::free_place(from, to, obstacles, room_at) {
        symbols::datum(picture, foot, outward);
    }
}

#[cfg(test)]
mod tests;
