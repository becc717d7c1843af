//! Headings, paragraphs, tables and figures in reading order.

use super::Cell;
use super::Picture;
use super::Table;

/// Something to read: the writers of HTML, PDF, text and JSON take it whole.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Document {
    /// Its title.
    pub title: String,
    /// One line printed at the foot of every page: design fingerprint and version of the tool.
    pub footer: String,
    /// What it holds, in order.
    pub blocks: Vec<Block>,
}

/// A part of a document.
#[derive(Clone, Debug, PartialEq)]
pub enum Block {
    /// A heading of the second rank.
    Heading(String),
    /// Running words.
    Paragraph(String),
    /// A caution, set off from the rest.
    Caution(String),
    /// Items of a list, in order, without numbers.
    List(Vec<String>),
    /// What is done one after another; the writers number it from 1.
    Steps(Vec<String>),
    /// A list with units.
    Table(Table),
    /// A picture.
    Figure(Figure),
    /// What follows starts a new page, where there are pages.
    PageBreak,
}

/// A picture with its caption.
#[derive(Clone, Debug, PartialEq)]
pub struct Figure {
    /// The picture, in millimetres of paper; scaled down to fit the page, never up.
    pub picture: Picture,
    /// What it shows; also its text for who cannot see it.
    pub caption: String,
}

/// Words as they stand on paper: the names that messages put between backticks stand between “ and ”.
///
/// # Example
/// ```
/// use kerfwise::sheet::document::on_paper;
///
/// assert_eq!(on_paper("nothing is left of `toe`"), "nothing is left of “toe”");
/// ```
pub fn on_paper(words: &str) -> String {
    let mut pieces = words.split('`');
    let mut text = pieces.next().unwrap_or_default().to_owned();
    while let Some(name) = pieces.next() {
        if let Some(behind) = pieces.next() {
            text.push('“');
            text.push_str(name);
            text.push('”');
            text.push_str(behind);
        } else {
            // one without a partner is no name
            text.push('`');
            text.push_str(name);
        }
    }
    text
}

fn all_on_paper(words: &[String]) -> Vec<String> {
    words.iter().map(|words| on_paper(words)).collect()
}

impl Document {
    /// The document with its words as [`on_paper`] has them. Every writer starts by this, so that messages
    /// can go onto a page as they are.
    #[must_use]
    pub fn on_paper(&self) -> Self {
        Self {
            title: on_paper(&self.title),
            footer: on_paper(&self.footer),
            blocks: self.blocks.iter().map(Block::on_paper).collect(),
        }
    }
}

impl Block {
    fn on_paper(&self) -> Self {
        match self {
            Self::Heading(words) => Self::Heading(on_paper(words)),
            Self::Paragraph(words) => Self::Paragraph(on_paper(words)),
            Self::Caution(words) => Self::Caution(on_paper(words)),
            Self::List(items) => Self::List(all_on_paper(items)),
            Self::Steps(items) => Self::Steps(all_on_paper(items)),
            Self::Table(table) => Self::Table(table.on_paper()),
            Self::Figure(figure) => Self::Figure(Figure {
                picture: figure.picture.clone(),
                caption: on_paper(&figure.caption),
            }),
            Self::PageBreak => Self::PageBreak,
        }
    }
}

impl Table {
    /// The table with its words as [`on_paper`] has them.
    #[must_use]
    pub fn on_paper(&self) -> Self {
        let cell = |cell: &Cell| match cell {
            Cell::Text(words) => Cell::Text(on_paper(words)),
            other => other.clone(),
        };
        let row = |row: &Vec<Cell>| row.iter().map(cell).collect();
        Self {
            title: on_paper(&self.title),
            columns: self.columns.clone(),
            rows: self.rows.iter().map(row).collect(),
            notes: all_on_paper(&self.notes),
        }
    }
}
