//! Words, lists and a figure down a page, and on to the next one where it is full.

use super::furniture::write;
use super::outline::THIN;
use crate::formats::font;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::sheet::Anchor;
use crate::sheet::Cell;
use crate::sheet::Layer;
use crate::sheet::Picture;
use crate::sheet::Table;
use crate::sheet::Text;
use crate::sheet::number;

/// Size of running words.
const WORDS: f64 = 3.0;
/// Distance of lines, of their size.
const LEADING: f64 = 1.35;

/// Least width of a column of words.
const COLUMN: f64 = 125.0;
/// Room between two columns.
const BETWEEN: f64 = 9.0;

/// Pages that are written from the top down, in as many columns as they are wide for.
pub(super) struct Flow {
    /// The column that is being written.
    area: Rect,
    /// Right end of the last column.
    right: f64,
    /// Left end of the first column.
    left: f64,
    y: f64,
    pub(super) pages: Vec<Picture>,
}

impl Flow {
    /// Starts at the top of an area, the same on every page.
    pub(super) fn new(area: Rect) -> Self {
        let count = ((area.width() + BETWEEN) / (COLUMN + BETWEEN))
            .floor()
            .clamp(1.0, 3.0);
        let width = (area.width() - (count - 1.0) * BETWEEN) / count;
        Self {
            area: Rect::new(area.x0, area.y0, area.x0 + width, area.y1),
            right: area.x1,
            left: area.x0,
            y: area.y1,
            pages: vec![Picture::new()],
        }
    }

    fn need(&mut self, height: f64) {
        if self.y - height >= self.area.y0 || self.y >= self.area.y1 {
            return;
        }
        let width = self.area.width();
        let mut next = self.area.x1 + BETWEEN;
        if next + width > self.right + 1.0 {
            self.pages.push(Picture::new());
            next = self.left;
        }
        self.area.x0 = next;
        self.area.x1 = next + width;
        self.y = self.area.y1;
    }

    fn line(&mut self, words: &str, size: f64, indent: f64) {
        self.need(size * LEADING);
        self.y -= size * LEADING;
        let at = Point::new(self.area.x0 + indent, self.y + size * 0.25);
        if let Some(page) = self.pages.last_mut() {
            write(page, at, size, 0.0, words);
        }
    }

    /// A heading, kept with what follows.
    pub(super) fn heading(&mut self, words: &str, size: f64) {
        self.need(size * 4.0);
        self.space(size * 0.5);
        for line in wrapped(words, size, self.area.width()) {
            self.line(&line, size, 0.0);
        }
        self.space(size * 0.15);
    }

    /// Running words.
    pub(super) fn paragraph(&mut self, words: &str) {
        for line in wrapped(words, WORDS, self.area.width()) {
            self.line(&line, WORDS, 0.0);
        }
        self.space(1.0);
    }

    /// An item that hangs from its sign: a number or a dot.
    pub(super) fn item(&mut self, sign: &str, words: &str) {
        let indent = 6.0;
        let lines = wrapped(words, WORDS, self.area.width() - indent);
        for (index, line) in lines.iter().enumerate() {
            self.line(line, WORDS, indent);
            if index == 0
                && let Some(page) = self.pages.last_mut()
            {
                let at = Point::new(self.area.x0, self.y + WORDS * 0.25);
                write(page, at, WORDS, 0.0, sign);
            }
        }
        self.space(0.7);
    }

    /// Leaves some room.
    pub(super) fn space(&mut self, height: f64) {
        if self.y < self.area.y1 {
            self.y -= height;
        }
    }

    /// Width of a column.
    pub(super) fn width(&self) -> f64 {
        self.area.width()
    }

    /// A figure as wide as the area; what draws it is told its rectangle.
    pub(super) fn figure(&mut self, height: f64, draw: impl FnOnce(&mut Picture, Rect)) {
        self.need(height);
        let rect = Rect::new(self.area.x0, self.y - height, self.area.x1, self.y);
        if let Some(page) = self.pages.last_mut() {
            draw(page, rect);
        }
        self.y -= height;
        self.space(2.0);
    }

    /// A list, its rows under one another; cells to write in get a line.
    pub(super) fn table(&mut self, table: &Table) {
        let gap = 3.0;
        let texts: Vec<Vec<String>> = table
            .rows
            .iter()
            .map(|row| row.iter().map(cell_words).collect())
            .collect();
        let headings: Vec<String> = table.columns.iter().map(|c| c.heading.clone()).collect();
        // smaller letters where the list is wide; what is left over goes to the last column, where the
        // reader writes
        let mut size = 3.0;
        let used = |size: f64| {
            let widths = column_widths(&headings, &texts, size);
            widths.iter().map(|width| width + gap).sum::<f64>() + 8.0
        };
        while size > 1.8 && used(size) > self.area.width() {
            size -= 0.1;
        }
        let mut widths = column_widths(&headings, &texts, size);
        let over = self.area.width() - used(size) + 8.0;
        if let Some(last) = widths.last_mut() {
            *last = (*last + over).clamp(14.0, 40.0);
        }
        let wide = widths.iter().map(|width| width + gap).sum::<f64>() - gap;
        self.table_row(&headings, &widths, (size, gap));
        self.rule(wide);
        for row in &texts {
            self.space(0.9);
            self.table_row(row, &widths, (size, gap));
            self.rule(wide);
        }
        self.space(2.0);
    }

    fn table_row(&mut self, row: &[String], widths: &[f64], (size, gap): (f64, f64)) {
        self.need(size * LEADING + 1.0);
        self.y -= size * LEADING;
        let mut x = self.area.x0;
        let last = row.len().saturating_sub(1);
        for (index, (words, width)) in row.iter().zip(widths).enumerate() {
            let is_number = index + 1 == last;
            let anchor = if is_number {
                Anchor::End
            } else {
                Anchor::Start
            };
            let at = Point::new(if is_number { x + width } else { x }, self.y + size * 0.25);
            if let Some(page) = self.pages.last_mut() {
                page.text(Text {
                    layer: Layer::Words,
                    at,
                    size,
                    anchor,
                    angle: 0.0,
                    content: words.clone(),
                });
            }
            x += width + gap;
        }
    }

    fn rule(&mut self, wide: f64) {
        let (from, to) = (
            Point::new(self.area.x0, self.y - 0.4),
            Point::new(self.area.x0 + wide, self.y - 0.4),
        );
        if let Some(page) = self.pages.last_mut() {
            page.line(Layer::Guides, from, to, THIN);
        }
    }
}

fn column_widths(headings: &[String], rows: &[Vec<String>], size: f64) -> Vec<f64> {
    let width = |index: usize| {
        let cells = rows.iter().filter_map(|row| row.get(index));
        cells
            .chain(headings.get(index))
            .map(|words| font::text_width(words, size))
            .fold(0.0, f64::max)
    };
    (0..headings.len()).map(width).collect()
}

fn cell_words(cell: &Cell) -> String {
    match cell {
        Cell::Empty | Cell::Blank => String::new(),
        Cell::Text(words) | Cell::File(words) => words.clone(),
        Cell::Count(count) => count.to_string(),
        Cell::Quantity(quantity) => number::with_unit(quantity),
    }
}

/// Words in lines no wider than `width`, broken at spaces.
pub(super) fn wrapped(words: &str, size: f64, width: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    for word in words.split_whitespace() {
        match lines.last_mut() {
            Some(line) if font::text_width(&format!("{line} {word}"), size) <= width => {
                line.push(' ');
                line.push_str(word);
            }
            _ => lines.push(word.to_owned()),
        }
    }
    lines
}
