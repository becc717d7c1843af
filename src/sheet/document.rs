//! Headings, paragraphs, tables and figures in reading order.

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
