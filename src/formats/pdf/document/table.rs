//! Tables: cells wrapped, rules between rows, headings again on every page.

use super::blocks::count;
use super::columns::CellContent;
use super::columns::Columns;
use super::columns::side;
use super::flow::Flow;
use super::measure;
use super::measure::Letter;
use super::words;
use crate::formats::FormatError;
use crate::geometry::Point;
use crate::sheet::Align;
use crate::sheet::Anchor;
use crate::sheet::Shade;
use crate::sheet::Table;

/// A table with its widths settled and its cells wrapped.
struct Setting {
    letter: Letter,
    /// Left edges of the columns and the right edge of the last, from the table's own left.
    edges: Vec<f64>,
    align: Vec<Align>,
    headings: Row,
    rows: Vec<Row>,
}

/// A row: the lines of each cell.
struct Row {
    cells: Vec<Vec<String>>,
    /// Which cells are for writing in.
    blanks: Vec<bool>,
    height: f64,
}

pub(super) fn set(flow: &mut Flow, table: &Table) -> Result<(), FormatError> {
    let title = words::lines(&table.title, Letter::TABLE_TITLE.size, flow.width());
    flow.gap(measure::AROUND);
    flow.need(least_height(flow, table).min(flow.height()));
    flow.lines(flow.left, Letter::TABLE_TITLE, &title);
    if !title.is_empty() {
        flow.y -= 0.8;
    }
    if let Some(setting) = Setting::new(table, flow.width()) {
        let room = flow.width();
        if setting.width() > room {
            return Err(FormatError::TooManyColumns {
                columns: setting.align.len(),
                width: room,
            });
        }
        set_rows(flow, &setting);
    }
    for note in &table.notes {
        let letter = Letter::SMALL;
        let width = flow.width().min(measure::LONGEST_LINE);
        let lines = words::lines(note, letter.size, width);
        flow.y -= 0.6;
        flow.lines(flow.left, letter, &lines);
    }
    flow.gap(measure::AROUND - measure::BETWEEN_BLOCKS);
    Ok(())
}

/// Title, headings and the first row.
pub(super) fn least_height(flow: &Flow, table: &Table) -> f64 {
    let title = words::lines(&table.title, Letter::TABLE_TITLE.size, flow.width());
    let rows = Setting::new(table, flow.width()).map_or(0.0, |setting| {
        let first = setting.rows.first().map_or(0.0, |row| row.height);
        setting.headings.height + first
    });
    count(&title) * Letter::TABLE_TITLE.leading + 0.8 + rows
}

impl Setting {
    /// `None` for a table without columns.
    fn new(table: &Table, width: f64) -> Option<Self> {
        let Columns {
            content,
            letter,
            widths,
        } = Columns::new(table, width)?;
        let mut edges = vec![0.0];
        let mut edge = 0.0;
        for width in &widths {
            edge += width + 2.0 * side(letter);
            edges.push(edge);
        }
        let align = |index: usize| table.columns.get(index).map_or(Align::Left, |c| c.align);
        let headings: Vec<CellContent> = content
            .headings
            .into_iter()
            .map(CellContent::Words)
            .collect();
        let row = |cells: &Vec<CellContent>| Row::new(cells, &widths, letter);
        Some(Self {
            letter,
            edges,
            align: (0..widths.len()).map(align).collect(),
            headings: Row::new(&headings, &widths, letter),
            rows: content.rows.iter().map(row).collect(),
        })
    }

    fn width(&self) -> f64 {
        self.edges.last().copied().unwrap_or(0.0)
    }
}

impl Row {
    fn new(cells: &[CellContent], widths: &[f64], letter: Letter) -> Self {
        let lines = |(index, &width): (usize, &f64)| match cells.get(index) {
            Some(CellContent::Words(words)) => words::lines(words, letter.size, width),
            Some(CellContent::Blank) | None => Vec::new(),
        };
        let wrapped: Vec<Vec<String>> = widths.iter().enumerate().map(lines).collect();
        let is_blank = |index: usize| cells.get(index) == Some(&CellContent::Blank);
        let blanks: Vec<bool> = (0..widths.len()).map(is_blank).collect();
        let most = wrapped.iter().map(|lines| count(lines)).fold(1.0, f64::max);
        let words = most * letter.leading + 2.0 * measure::CELL_ABOVE;
        let height = if blanks.contains(&true) {
            words.max(measure::WRITING_HEIGHT)
        } else {
            words
        };
        Self {
            cells: wrapped,
            blanks,
            height,
        }
    }
}

fn set_rows(flow: &mut Flow, setting: &Setting) {
    horizontal(flow, setting, measure::WIDE_RULE, Shade::Black);
    // headings as high as that are shown once, like a row
    let repeats = setting.headings.height < flow.height() / 3.0;
    set_row(flow, setting, &setting.headings, false);
    horizontal(flow, setting, measure::RULE, Shade::Black);
    for (index, row) in setting.rows.iter().enumerate() {
        if index > 0 {
            horizontal(flow, setting, measure::HAIRLINE, Shade::Grey);
        }
        set_row(flow, setting, row, repeats);
    }
    horizontal(flow, setting, measure::WIDE_RULE, Shade::Black);
}

/// A row, on the next page when it has no room here; a row higher than a page runs over several.
fn set_row(flow: &mut Flow, setting: &Setting, row: &Row, repeats: bool) {
    if row.height <= flow.room() + 1e-6 {
        cells(flow, setting, row, (0, usize::MAX));
        flow.y -= row.height;
        return;
    }
    let headings = if repeats {
        setting.headings.height
    } else {
        0.0
    };
    if row.height + headings <= flow.height() {
        next_page(flow, setting, repeats);
        cells(flow, setting, row, (0, usize::MAX));
        flow.y -= row.height;
        return;
    }
    let most = row.cells.iter().map(Vec::len).max().unwrap_or(0);
    let mut done = 0;
    while done < most {
        let line = setting.letter.leading;
        let mut fits = 0;
        while done + fits < most
            && flow.room() >= line + 2.0 * measure::CELL_ABOVE + fits_height(fits, line)
        {
            fits += 1;
        }
        if fits == 0 && flow.is_at_top() {
            fits = 1;
        }
        if fits > 0 {
            cells(flow, setting, row, (done, fits));
            flow.y -= fits_height(fits, line) + 2.0 * measure::CELL_ABOVE;
            done += fits;
        }
        if done < most {
            next_page(flow, setting, repeats);
        }
    }
}

fn fits_height(lines: usize, leading: f64) -> f64 {
    leading * u32::try_from(lines).map_or(f64::from(u32::MAX), f64::from)
}

fn next_page(flow: &mut Flow, setting: &Setting, repeats: bool) {
    horizontal(flow, setting, measure::RULE, Shade::Black);
    flow.begin_page();
    horizontal(flow, setting, measure::WIDE_RULE, Shade::Black);
    if repeats {
        cells(flow, setting, &setting.headings, (0, usize::MAX));
        flow.y -= setting.headings.height;
        horizontal(flow, setting, measure::RULE, Shade::Black);
    }
}

/// The cells of a row: of each, `count` lines from line `first`.
fn cells(flow: &mut Flow, setting: &Setting, row: &Row, (first, count): (usize, usize)) {
    let top = flow.y;
    let sides = setting.edges.iter().zip(setting.edges.iter().skip(1));
    let columns = row
        .cells
        .iter()
        .zip(&row.blanks)
        .zip(&setting.align)
        .zip(sides);
    for (((lines, &is_blank), align), (left, right)) in columns {
        let (left, right) = (flow.left + left, flow.left + right);
        if is_blank {
            let low = Point::new(left + 0.8, top - row.height + 0.8);
            let high = Point::new(right - 0.8, top - 0.8);
            flow.frame(low, high, measure::HAIRLINE, Shade::Black);
        }
        let (x, anchor) = match align {
            Align::Left => (left + side(setting.letter), Anchor::Start),
            Align::Right => (right - side(setting.letter), Anchor::End),
        };
        flow.y = top - measure::CELL_ABOVE;
        if row.blanks.contains(&true) {
            // beside a space for writing in, words stand in the middle of the height
            let words = fits_height(lines.len(), setting.letter.leading);
            flow.y = top - ((row.height - words) / 2.0).max(measure::CELL_ABOVE);
        }
        for line in lines.iter().skip(first).take(count) {
            flow.line(x, anchor, setting.letter, line);
        }
    }
    flow.y = top;
}

fn horizontal(flow: &mut Flow, setting: &Setting, width: f64, shade: Shade) {
    let (left, y) = (flow.left, flow.y);
    let to = Point::new(left + setting.width(), y);
    flow.rule(Point::new(left, y), to, width, shade);
}
