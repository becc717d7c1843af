//! Documents and tables as text for a terminal or a mail: aligned columns, units in the cells,
//! cautions set off.
//!
//! Widths are counted in characters. Control characters never reach the terminal.

mod columns;
mod wrap;

use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Document;
use crate::sheet::Table;
use crate::sheet::number;
use wrap::wrapped;

/// Lines are not made narrower than this many characters, however narrow the terminal.
pub const NARROWEST: usize = 40;

/// The document as text in lines of at most `width` characters, save where a single word is longer.
/// Pictures are named by their captions.
///
/// # Example
/// ```
/// use kerfwise::formats::text;
/// use kerfwise::sheet::{Block, Document};
///
/// let document = Document {
///     title: "Leeboard".to_owned(),
///     footer: String::new(),
///     blocks: vec![Block::Caution("Measure the plate first.".to_owned())],
/// };
/// assert_eq!(text::write(&document, 60), "Leeboard\n========\n\n  ! Measure the plate first.\n");
/// ```
pub fn write(document: &Document, width: usize) -> String {
    let width = width.max(NARROWEST);
    let document = &document.on_paper();
    let mut text = String::new();
    if !document.title.is_empty() {
        underlined(&mut text, &document.title, '=', width);
    }
    for block in &document.blocks {
        self::block(&mut text, block, width);
    }
    if !document.footer.is_empty() {
        gap(&mut text);
        lines(&mut text, &wrapped(&document.footer, width), "");
    }
    text
}

/// The table as text in lines of at most `width` characters. Columns of words are wrapped to fit;
/// where even that is too wide, each row becomes a block of lines, one a column.
///
/// # Example
/// ```
/// use kerfwise::formats::text;
/// use kerfwise::geometry::LengthUnit;
/// use kerfwise::sheet::{Column, Quantity, Table};
///
/// let mut table = Table::new(
///     "Sizes",
///     vec![Column::words("What", "what"), Column::numbers("Size", "size")],
/// );
/// table.row(vec!["foot".into(), Quantity::length(305.0, LengthUnit::Millimetre).into()]);
/// assert_eq!(text::write_table(&table, 60), "\
/// Sizes
/// What       Size
/// ────  ─────────
/// foot  305.00 mm
/// ");
/// ```
pub fn write_table(table: &Table, width: usize) -> String {
    let width = width.max(NARROWEST);
    let mut text = String::new();
    self::table(&mut text, &table.on_paper(), width);
    text
}

fn block(text: &mut String, block: &Block, width: usize) {
    if !matches!(block, Block::PageBreak) {
        gap(text);
    }
    match block {
        Block::Heading(words) => underlined(text, words, '-', width),
        Block::Paragraph(words) => lines(text, &wrapped(words, width), ""),
        Block::Caution(words) => lines(text, &wrapped(words, width - 4), "  ! "),
        Block::List(items) => {
            for item in items {
                hanging(text, "  - ", item, width);
            }
        }
        Block::Steps(items) => {
            let last = items.len().to_string().len();
            for (number, item) in (1..).zip(items) {
                hanging(text, &format!("  {number:>last$}. "), item, width);
            }
        }
        Block::Table(table) => self::table(text, table, width),
        Block::Figure(figure) => hanging(text, "Picture: ", &figure.caption, width),
        Block::PageBreak => {}
    }
}

fn table(text: &mut String, table: &Table, width: usize) {
    if !table.title.is_empty() {
        lines(text, &wrapped(&table.title, width), "");
    }
    columns::write(text, table, width);
    for note in &table.notes {
        hanging(text, "  ", note, width);
    }
}

/// Words behind a mark, their further lines indented as far.
fn hanging(text: &mut String, mark: &str, words: &str, width: usize) {
    let indent = mark.chars().count();
    let wrapped = wrapped(words, width.saturating_sub(indent).max(1));
    let spaces = " ".repeat(indent);
    for (place, line) in wrapped.iter().enumerate() {
        let start = if place == 0 { mark } else { &spaces };
        push_line(text, start, line);
    }
}

fn underlined(text: &mut String, words: &str, stroke: char, width: usize) {
    let wrapped = wrapped(words, width);
    let longest = wrapped.iter().map(|line| line.chars().count()).max();
    lines(text, &wrapped, "");
    let stroke = String::from(stroke).repeat(longest.unwrap_or(0));
    push_line(text, "", &stroke);
}

fn lines(text: &mut String, lines: &[String], start: &str) {
    for line in lines {
        push_line(text, start, line);
    }
}

/// Adds a line; non-breaking spaces have done their work and become plain ones.
fn push_line(text: &mut String, start: &str, line: &str) {
    let whole = format!("{start}{}", line.replace(wrap::NON_BREAKING, " "));
    text.push_str(whole.trim_end());
    text.push('\n');
}

/// An empty line, unless nothing stands above it.
fn gap(text: &mut String) {
    if !text.is_empty() {
        text.push('\n');
    }
}

/// What stands in a cell, on one line. A number keeps to its unit by a non-breaking space.
pub(super) fn of_cell(cell: &Cell) -> String {
    match cell {
        Cell::Empty => String::new(),
        Cell::Text(words) | Cell::File(words) => wrap::clean(words),
        Cell::Count(count) => count.to_string(),
        Cell::Quantity(quantity) => number::with_unit(quantity).replace(' ', "\u{a0}"),
        Cell::Blank => "________".to_owned(),
    }
}

#[cfg(test)]
mod tests;
