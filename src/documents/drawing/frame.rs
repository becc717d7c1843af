//! Frame, notes and title block of the sheet.

use super::SheetSize;
use super::symbols;
use crate::design::part::EdgeState;
use crate::design::part::Part;
use crate::documents::Stamp;
use crate::documents::features;
use crate::documents::lettering;
use crate::formats::font;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::sheet::Anchor;
use crate::sheet::Layer;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Text;

/// Border of the sheet.
const BORDER: f64 = 10.0;
/// Width of the title block (ISO 7200), or of the sheet if that is hardly wider.
const TITLE_WIDTH: f64 = 180.0;
/// Height of one of its rows.
const ROW: f64 = 8.5;
/// Font size of notes.
const NOTE: f64 = 2.6;
/// Room between the border and notes.
const INDENT: f64 = 3.0;
/// Least width in which notes stand beside the title block.
const NOTES_BESIDE: f64 = 70.0;

/// A sheet with its title block and notes, and the area left for the drawing.
#[derive(Clone, Debug)]
pub(super) struct Frame {
    inner: Rect,
    title: Rect,
    notes: Vec<(Point, String)>,
    /// The area left for the drawing.
    pub(super) area: Rect,
}

impl Frame {
    /// Lays out a sheet; `key` is what numbers on the drawing stand for.
    pub(super) fn new(part: &Part, stamp: &Stamp, sheet: SheetSize, key: &[String]) -> Self {
        let inner = Rect::new(BORDER, BORDER, sheet.width - BORDER, sheet.height - BORDER);
        let width = if inner.width() < TITLE_WIDTH + 25.0 {
            inner.width()
        } else {
            TITLE_WIDTH
        };
        let title = Rect::new(inner.x1 - width, inner.y0, inner.x1, inner.y0 + 3.0 * ROW);
        let beside = key.is_empty() && title.x0 - inner.x0 >= NOTES_BESIDE;
        let (right, bottom) = if beside {
            (title.x0, inner.y0)
        } else {
            (inner.x1, title.y1)
        };
        let left = inner.x0 + INDENT;
        let room = right - left - INDENT;
        let mut sentences = notes(part, stamp);
        if !key.is_empty() {
            let words = "Places in the list: along the datum edge | square to it.";
            sentences.push(words.to_owned());
        }
        let lines: Vec<String> = sentences
            .iter()
            .flat_map(|one| lettering::wrapped(one, NOTE, room))
            .collect();
        let pitch = lettering::line_pitch(NOTE);
        let (columns, step) = columns(key, room);
        let key_rows = key.len().div_ceil(columns);
        let height = features::of_count(lines.len() + key_rows) * pitch + 3.0;
        let top = (bottom + height).max(title.y1);
        let at = |row: usize, column: usize| {
            Point::new(
                left + features::of_count(column) * step,
                top - 1.2 - features::of_count(row + 1) * pitch + 0.8,
            )
        };
        let mut notes: Vec<(Point, String)> = Vec::new();
        for (index, entry) in key.iter().enumerate() {
            let place = at(index % key_rows.max(1), index / key_rows.max(1));
            notes.push((place, entry.clone()));
        }
        for (row, line) in lines.into_iter().enumerate() {
            notes.push((at(key_rows + row, 0), line));
        }
        Self {
            inner,
            title,
            notes,
            area: Rect::new(inner.x0 + 1.5, top + 1.0, inner.x1 - 1.5, inner.y1 - 1.5),
        }
    }

    /// Draws the frame, the notes and the title block.
    pub(super) fn draw(&self, picture: &mut Picture, part: &Part, stamp: &Stamp, scale: &str) {
        symbols::framed(picture, self.inner, Pen::solid(0.5));
        for (at, line) in &self.notes {
            picture.text(words(*at, NOTE, line.clone()));
        }
        symbols::framed(picture, self.title, Pen::solid(0.35));
        let plate = part.plate.as_ref();
        let thickness = plate.and_then(|plate| plate.thickness);
        let material = plate.map_or_else(String::new, |plate| plate.material.clone());
        let mut made_of = match stamp.general {
            Some(class) => vec![
                (0.4, "material", material),
                (0.22, "general tolerances", class.name().to_owned()),
            ],
            None => vec![(0.62, "material", material)],
        };
        made_of.extend([
            (
                0.22,
                "thickness",
                thickness.map_or_else(String::new, |thickness| {
                    features::length_with_unit(thickness, stamp.unit)
                }),
            ),
            (0.16, "quantity", part.quantity.to_string()),
        ]);
        let rows: [&[(f64, &str, String)]; 3] = [
            &[
                (0.62, "title", stamp.design.clone()),
                (0.38, "part", part.name.clone()),
            ],
            &made_of,
            &[
                (0.62, "made from", stamp.short_line()),
                (0.22, "lengths in", stamp.unit.name().to_owned()),
                (0.16, "scale", scale.to_owned()),
            ],
        ];
        let mut top = self.title.y1;
        for row in rows {
            let mut left = self.title.x0;
            for (share, caption, value) in row {
                let right = left + share * self.title.width();
                let cell = Rect::new(left, top - ROW, right, top);
                draw_cell(picture, cell, caption, value);
                left = right;
            }
            top -= ROW;
        }
    }
}

/// How many columns of entries fit side by side, and their distance.
fn columns(entries: &[String], room: f64) -> (usize, f64) {
    let widths = entries.iter().map(|entry| font::text_width(entry, NOTE));
    let step = widths.fold(0.0, f64::max) + 4.0;
    let fit = |&count: &usize| features::of_count(count) * step <= room;
    ((1..=12).rev().find(fit).unwrap_or(1), step)
}

fn draw_cell(picture: &mut Picture, cell: Rect, caption: &str, value: &str) {
    symbols::rectangle(picture, cell);
    let left = cell.x0 + 1.2;
    picture.text(words(
        Point::new(left, cell.y1 - 2.4),
        1.9,
        caption.to_owned(),
    ));
    let (value, size) = lettering::fitted(value, 3.6, 2.0, cell.width() - 2.4);
    if !value.is_empty() {
        picture.text(words(Point::new(left, cell.y0 + 1.6), size, value));
    }
}

fn words(at: Point, size: f64, content: String) -> Text {
    Text {
        layer: Layer::Words,
        at,
        size,
        anchor: Anchor::Start,
        angle: 0.0,
        content,
    }
}

/// What a person must know and lines cannot say.
fn notes(part: &Part, stamp: &Stamp) -> Vec<String> {
    let mut notes = Vec::new();
    if stamp.is_draft() {
        notes.push(format!(
            "DRAFT, not for making. Still to be measured: {}.",
            stamp.open.join(", ")
        ));
    }
    notes.extend(stamp.otherwise_words());
    notes.push(format!(
        "Finished sizes in {}. Places are running dimensions from the datum A: {}.",
        stamp.unit.name(),
        part.datum.words
    ));
    for edge in &part.edges {
        let name = &edge.name;
        notes.push(match edge.state {
            EdgeState::Cut => continue,
            EdgeState::PlateEdge => {
                format!("“{name}” is the plate's own edge: dress it, do not cut it.")
            }
            EdgeState::LeaveOn(width) => format!(
                "“{name}”: leave on a strip of {} beyond the line.",
                features::length_with_unit(width, stamp.unit)
            ),
            EdgeState::TrimAtFitting => format!("“{name}” is trimmed when the part is fitted."),
        });
    }
    if let Some(other) = &part.mirror_of {
        notes.push(format!("Mirror image of “{other}”."));
    }
    if let Some(face) = part
        .plate
        .as_ref()
        .and_then(|plate| plate.good_face.as_ref())
    {
        notes.push(format!("Seen on the good face: {face}."));
    }
    if let Some(note) = &part.note {
        notes.push(note.clone());
    }
    notes
}
