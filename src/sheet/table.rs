//! A list with units: text, HTML, PDF and JSON are four writers of it.

use crate::geometry::LengthUnit;

/// Rows under headings.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Table {
    /// What the list is, a short title.
    pub title: String,
    /// The columns, left to right.
    pub columns: Vec<Column>,
    /// The rows; each has one cell a column.
    pub rows: Vec<Vec<Cell>>,
    /// Remarks under the list.
    pub notes: Vec<String>,
}

/// A column.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// What stands over it.
    pub heading: String,
    /// Its name for programs: lower case, words joined by underscores.
    pub key: &'static str,
    /// How its cells line up.
    pub align: Align,
}

/// How cells line up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Align {
    /// At the left: words.
    Left,
    /// At the right: numbers.
    Right,
}

/// One cell.
#[derive(Clone, Debug, PartialEq)]
pub enum Cell {
    /// Nothing.
    Empty,
    /// Words.
    Text(String),
    /// A whole number.
    Count(i64),
    /// A number with a unit.
    Quantity(Quantity),
    /// A file beside the document, by its name; a link where there are links.
    File(String),
    /// A space for writing in.
    Blank,
}

/// A number with its unit, and how many decimals it is shown with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quantity {
    /// The number, in `unit`.
    pub value: f64,
    /// Its unit.
    pub unit: Unit,
    /// Decimals shown; JSON gives the number in full.
    pub decimals: usize,
}

/// What a number counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// A pure number.
    None,
    /// A length.
    Length(LengthUnit),
    /// An area, in the square of a unit of length.
    Area(LengthUnit),
    /// Kilograms.
    Kilogram,
    /// Degrees of angle.
    Degree,
    /// Per cent.
    Percent,
}

impl Unit {
    /// Its symbol, empty for a pure number.
    pub const fn symbol(self) -> &'static str {
        match self {
            Self::None => "",
            Self::Length(unit) => unit.symbol(),
            Self::Area(LengthUnit::Millimetre) => "mm²",
            Self::Area(LengthUnit::Centimetre) => "cm²",
            Self::Area(LengthUnit::Metre) => "m²",
            Self::Area(LengthUnit::Inch) => "in²",
            Self::Area(LengthUnit::Foot) => "ft²",
            Self::Kilogram => "kg",
            Self::Degree => "°",
            Self::Percent => "%",
        }
    }
}

impl Quantity {
    /// A length given in millimetres, to be shown in `unit` with decimals fit for it: 0.01 mm or
    /// 0.001 in.
    pub fn length(millimetres: f64, unit: LengthUnit) -> Self {
        let decimals = match unit {
            LengthUnit::Millimetre => 2,
            LengthUnit::Inch | LengthUnit::Centimetre => 3,
            LengthUnit::Metre | LengthUnit::Foot => 5,
        };
        Self {
            value: millimetres / unit.millimetres(),
            unit: Unit::Length(unit),
            decimals,
        }
    }
}

impl Table {
    /// An empty table.
    pub fn new(title: impl Into<String>, columns: Vec<Column>) -> Self {
        Self {
            title: title.into(),
            columns,
            rows: Vec::new(),
            notes: Vec::new(),
        }
    }

    /// Adds a row.
    pub fn row(&mut self, cells: Vec<Cell>) {
        debug_assert_eq!(
            cells.len(),
            self.columns.len(),
            "one cell a column in {}",
            self.title
        );
        self.rows.push(cells);
    }
}

impl Column {
    /// A column of words.
    pub fn words(heading: impl Into<String>, key: &'static str) -> Self {
        Self {
            heading: heading.into(),
            key,
            align: Align::Left,
        }
    }

    /// A column of numbers.
    pub fn numbers(heading: impl Into<String>, key: &'static str) -> Self {
        Self {
            heading: heading.into(),
            key,
            align: Align::Right,
        }
    }
}

impl From<&str> for Cell {
    fn from(words: &str) -> Self {
        Self::Text(words.to_owned())
    }
}

impl From<String> for Cell {
    fn from(words: String) -> Self {
        Self::Text(words)
    }
}

impl From<Quantity> for Cell {
    fn from(quantity: Quantity) -> Self {
        Self::Quantity(quantity)
    }
}
