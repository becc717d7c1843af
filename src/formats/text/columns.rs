//! Rows of a table in columns.

use super::of_cell;
use super::push_line;
use super::wrap::words;
use super::wrap::wrapped;
use crate::sheet::Align;
use crate::sheet::Table;
use std::fmt::Write as _;

/// Between two columns.
const BETWEEN: usize = 2;

/// A column as it is laid out.
struct Measured {
    align: Align,
    /// Width without any break.
    natural: usize,
    /// Width of its longest word.
    least: usize,
    width: usize,
}

/// Adds heading, rule and rows; nothing for a table without columns.
pub(super) fn write(text: &mut String, table: &Table, width: usize) {
    let headings: Vec<String> = table
        .columns
        .iter()
        .map(|column| super::wrap::clean(&column.heading))
        .collect();
    let rows: Vec<Vec<String>> = table
        .rows
        .iter()
        .map(|row| row.iter().map(of_cell).collect())
        .collect();
    let Some(columns) = laid_out(table, &headings, &rows, width) else {
        return records(text, &headings, &rows, width);
    };
    if headings.iter().any(|heading| !heading.is_empty()) {
        row(text, &columns, &headings, Stand::Bottom);
        let rules: Vec<String> = columns
            .iter()
            .map(|column| "─".repeat(column.width))
            .collect();
        row(text, &columns, &rules, Stand::Top);
    }
    for cells in &rows {
        row(text, &columns, cells, Stand::Top);
    }
}

/// The columns with widths that fit; `None` where they cannot.
fn laid_out(
    table: &Table,
    headings: &[String],
    rows: &[Vec<String>],
    width: usize,
) -> Option<Vec<Measured>> {
    let mut columns: Vec<Measured> = Vec::new();
    for (place, column) in table.columns.iter().enumerate() {
        let cells = rows.iter().filter_map(|row| row.get(place));
        let mut measured = Measured {
            align: column.align,
            natural: 0,
            least: 0,
            width: 0,
        };
        for cell in cells.chain(headings.get(place)) {
            measured.natural = measured.natural.max(cell.chars().count());
            let longest = words(cell).map(|(_, length)| length).max();
            measured.least = measured.least.max(longest.unwrap_or(0));
        }
        measured.width = measured.natural;
        columns.push(measured);
    }
    let gaps = BETWEEN * columns.len().saturating_sub(1);
    let mut total: usize = gaps + columns.iter().map(|column| column.natural).sum::<usize>();
    while total > width {
        // the widest that can still give way, the last of them
        let widest = columns
            .iter_mut()
            .filter(|column| column.width > column.least)
            .max_by_key(|column| column.width)?;
        widest.width -= 1;
        total -= 1;
    }
    Some(columns)
}

/// Where a cell with fewer lines than its row stands.
#[derive(Clone, Copy, PartialEq)]
enum Stand {
    Top,
    Bottom,
}

fn row(text: &mut String, columns: &[Measured], cells: &[String], stand: Stand) {
    let cells: Vec<Vec<String>> = columns
        .iter()
        .enumerate()
        .map(|(place, column)| {
            let words = cells.get(place).map_or("", String::as_str);
            wrapped(words, column.width)
        })
        .collect();
    let height = cells.iter().map(Vec::len).max().unwrap_or(0);
    for number in 0..height {
        let mut line = String::new();
        for (place, (column, cell)) in columns.iter().zip(&cells).enumerate() {
            let above = match stand {
                Stand::Top => 0,
                Stand::Bottom => height - cell.len(),
            };
            let part = number
                .checked_sub(above)
                .and_then(|number| cell.get(number))
                .map_or("", String::as_str);
            if place > 0 {
                line.push_str(&" ".repeat(BETWEEN));
            }
            let width = column.width;
            let _infallible = match column.align {
                Align::Left => write!(line, "{part:<width$}"),
                Align::Right => write!(line, "{part:>width$}"),
            };
        }
        push_line(text, "", &line);
    }
}

/// One block a row: for a table that is too wide for its columns.
fn records(text: &mut String, headings: &[String], rows: &[Vec<String>], width: usize) {
    for (number, cells) in rows.iter().enumerate() {
        if number > 0 {
            text.push('\n');
        }
        for (heading, cell) in headings.iter().zip(cells) {
            if !cell.is_empty() {
                super::hanging(text, "  ", &format!("{heading}: {cell}"), width);
            }
        }
    }
}
