//! What is wrong with readings.

use crate::design::Place;
use crate::design::error::ExpressionFault;
use crate::measures::uncertainty::MeansFault;

/// What is wrong with readings.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ReadingFault {
    /// Nothing at all.
    #[error("there are no readings")]
    Empty,
    /// Readings for the form of another design.
    #[error("these readings are by the form of design {written}, and this is design {this}")]
    OtherDesign {
        /// The design that the readings name.
        written: String,
        /// This one.
        this: String,
    },
    /// A column that means nothing.
    #[error("`{heading}` is no column of readings")]
    UnknownColumn {
        /// Its heading.
        heading: String,
    },
    /// A column twice.
    #[error("there are two columns `{heading}`")]
    DoubledColumn {
        /// Its heading.
        heading: String,
    },
    /// A column that is needed.
    #[error("there is no column `{heading}`")]
    MissingColumn {
        /// Its heading.
        heading: &'static str,
    },
    /// More fields than columns.
    #[error("this line has {found} fields, and there are {expected} columns")]
    TooManyFields {
        /// How many it has.
        found: usize,
        /// How many there are.
        expected: usize,
    },
    /// A field in quotation marks that never ends, and the like.
    #[error("this line cannot be read: {message}")]
    BadLine {
        /// What the reader says.
        message: String,
    },
    /// A line with readings and no row.
    #[error("this line names no row of the form")]
    NoRow,
    /// A row that the form does not have.
    #[error("`{written}` is no row of the form, which has rows 1 to {last}")]
    UnknownRow {
        /// What was written.
        written: String,
        /// The last row.
        last: usize,
    },
    /// A name that no row has.
    #[error("no row of the form is called `{name}`")]
    UnknownName {
        /// The name.
        name: String,
    },
    /// Two rows with this name, on two parts.
    #[error("rows {first} and {second} of the form are both called `{name}`")]
    NameOfTwo {
        /// The name.
        name: String,
        /// The one row.
        first: usize,
        /// The other row.
        second: usize,
    },
    /// Number and name of two rows.
    #[error("row {number} of the form is `{name}`, not `{written}`")]
    NamesDisagree {
        /// The number.
        number: usize,
        /// The name of that row.
        name: String,
        /// The name that was written.
        written: String,
    },
    /// The same row again, further down.
    #[error("row {number} (`{name}`) has readings on line {line} already, with other rows between")]
    Duplicate {
        /// The number.
        number: usize,
        /// Its name.
        name: String,
        /// The line.
        line: usize,
    },
    /// Not a number.
    #[error("`{written}` is no reading: {why}")]
    NotANumber {
        /// What was written.
        written: String,
        /// Why not.
        why: Box<ExpressionFault>,
    },
    /// A point and a comma in one number.
    #[error("`{written}` has both a point and a comma, or several of them")]
    TwoMarks {
        /// What was written.
        written: String,
    },
    /// A unit that does not measure this.
    #[error("`{written}` does not measure {what}")]
    WrongUnit {
        /// What was written.
        written: String,
        /// What is measured.
        what: &'static str,
    },
    /// A word that is no unit, in the column of units.
    #[error("`{written}` is no unit")]
    UnknownUnit {
        /// What was written.
        written: String,
    },
    /// A unit in the reading and another in its column.
    #[error("`{written}` has a unit, and the column says `{unit}`")]
    TwoUnits {
        /// What was written.
        written: String,
        /// The unit of the column.
        unit: String,
    },
    /// A size below zero.
    #[error("`{written}` is not above 0, which `{name}` is")]
    NotPositive {
        /// What was written.
        written: String,
        /// What is measured.
        name: String,
    },
    /// A temperature that is none.
    #[error("`{written}` is no temperature in °C between −40 and 60")]
    BadTemperature {
        /// What was written.
        written: String,
    },
    /// An instrument that is not known.
    #[error(transparent)]
    Means(#[from] MeansFault),
    /// A way of reading that is not one of the row.
    #[error("row {number} (`{name}`) is taken {how}, and not `{written}`")]
    NotTakenSo {
        /// The row.
        number: usize,
        /// Its name.
        name: String,
        /// What was written.
        written: String,
        /// How it is taken.
        how: &'static str,
    },
    /// Readings of one row, of which only some say which of its two figures they are, or not the same.
    #[error(
        "the readings of row {number} (`{name}`) do not all say alike which of its two figures they are"
    )]
    TwoWays {
        /// The row.
        number: usize,
        /// Its name.
        name: String,
    },
    /// A dimension with two figures, of which nothing says which was read.
    #[error(
        "row {number} (`{name}`) is {value} {how}, and jaws over the rounds read {jaws}: nothing says which was read"
    )]
    NotSaidWhich {
        /// The row.
        number: usize,
        /// Its name.
        name: String,
        /// How it is taken.
        how: &'static str,
        /// What it reads so on the part as designed, with its unit.
        value: String,
        /// What jaws read over the rounds, with its unit.
        jaws: String,
    },
    /// Two instruments in one row.
    #[error("row {number} (`{name}`) was measured with `{one}` and with `{other}`")]
    TwoMeans {
        /// The row.
        number: usize,
        /// Its name.
        name: String,
        /// The one.
        one: String,
        /// The other.
        other: String,
    },
    /// Two temperatures in one row.
    #[error("row {number} (`{name}`) was measured at {one} °C and at {other} °C")]
    TwoTemperatures {
        /// The row.
        number: usize,
        /// Its name.
        name: String,
        /// The one.
        one: f64,
        /// The other.
        other: f64,
    },
    /// It looks like a slip.
    #[error("row {number} (`{name}`) reads {read}, where {expected} is expected: {suspicion}")]
    Suspected {
        /// The row.
        number: usize,
        /// Its name.
        name: String,
        /// The reading, with its unit.
        read: String,
        /// What was expected, with its unit.
        expected: String,
        /// What it looks like.
        suspicion: String,
    },
    /// Nothing said about the instrument.
    #[error(
        "nothing says what row {number} (`{name}`) was measured with, so nothing says how sure it is"
    )]
    NoMeans {
        /// The row.
        number: usize,
        /// Its name.
        name: String,
    },
    /// An instrument of lengths used for something else.
    #[error("row {number} (`{name}`) is {what}, and `{means}` measures lengths")]
    NotForThis {
        /// The row.
        number: usize,
        /// Its name.
        name: String,
        /// What it is.
        what: &'static str,
        /// The instrument.
        means: String,
    },
    /// An instrument that is too short.
    #[error("row {number} (`{name}`) reads {read}, and a {means} reaches {reach} mm")]
    TooShort {
        /// The row.
        number: usize,
        /// Its name.
        name: String,
        /// The reading, with its unit.
        read: String,
        /// The instrument.
        means: String,
        /// How far it reaches, in millimetres.
        reach: f64,
    },
    /// A reading that is not the value of its dimension.
    #[error(
        "row {number} (`{name}`) does not read the dimension itself: it is {value}, and reads {expected}"
    )]
    NotTheDimension {
        /// The row.
        number: usize,
        /// Its name.
        name: String,
        /// The value of the dimension, with its unit.
        value: String,
        /// What its measure reads on the part as designed, with its unit.
        expected: String,
    },
    /// A dimension that is read on a part and on its mirror image.
    #[error("rows {first} and {second} both read the dimension `{name}`, on two parts")]
    DimensionTwice {
        /// The one row.
        first: usize,
        /// The other.
        second: usize,
        /// The dimension.
        name: String,
    },
    /// Readings from which no dimension follows.
    #[error("none of these readings is of a dimension, so no part changes by them")]
    NoDimension,
}

named!(ReadingFault:
    Empty => "no-readings",
    OtherDesign => "readings-of-another-design",
    UnknownColumn => "unknown-column",
    DoubledColumn => "doubled-column",
    MissingColumn => "missing-column",
    TooManyFields => "too-many-fields",
    BadLine => "bad-line",
    NoRow => "no-row",
    UnknownRow => "unknown-row",
    UnknownName => "unknown-row-name",
    NameOfTwo => "name-of-two-rows",
    NamesDisagree => "row-and-name-disagree",
    Duplicate => "duplicate-row",
    NotANumber => "no-reading",
    TwoMarks => "two-decimal-marks",
    WrongUnit => "wrong-unit",
    UnknownUnit => "unknown-unit-of-reading",
    TwoUnits => "two-units",
    NotPositive => "reading-not-positive",
    BadTemperature => "bad-temperature",
    Means => "unknown-instrument",
    NotTakenSo => "not-taken-so",
    TwoWays => "two-ways-of-reading",
    NotSaidWhich => "not-said-which",
    TwoMeans => "two-instruments",
    TwoTemperatures => "two-temperatures",
    Suspected => "suspected-reading",
    NoMeans => "no-instrument",
    NotForThis => "instrument-of-lengths",
    TooShort => "instrument-too-short",
    NotTheDimension => "not-the-dimension",
    DimensionTwice => "dimension-read-twice",
    NoDimension => "no-dimension-read",
);

/// What is wrong with readings, its place among them, and one way out.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("{fault}; {help}")]
pub struct ReadingError {
    /// What is wrong.
    pub fault: Box<ReadingFault>,
    /// Where, in the text of the readings.
    pub place: Place,
    /// One way out.
    pub help: String,
}

impl ReadingError {
    /// A fault at a place.
    pub fn new(fault: impl Into<ReadingFault>, place: Place, help: impl Into<String>) -> Self {
        Self {
            fault: Box::new(fault.into()),
            place,
            help: help.into(),
        }
    }
}
