//! The readings of a trial cut, as a table of comma-separated values.

use super::ROWS;
use super::Row;

/// Farther than this from what is drawn (mm), a reading is of something else.
const FARTHEST: f64 = 8.0;

/// A reading of one row.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TrialReading {
    /// What was measured.
    pub row: Row,
    /// At the face where the cut starts, or anywhere if only one is given, in millimetres.
    pub top: f64,
    /// At the other face, if it was measured.
    pub bottom: Option<f64>,
}

impl TrialReading {
    /// At half the thickness.
    pub fn middle(&self) -> f64 {
        self.bottom
            .map_or(self.top, |bottom| f64::midpoint(self.top, bottom))
    }
}

/// Readings in the order of the file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Readings {
    /// They; rows without a reading are left out.
    pub all: Vec<TrialReading>,
}

/// What is wrong with a table of readings.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ReadingFault {
    /// Not such a table.
    #[error("line {line}: {message}; the columns are row, what, drawn, top, bottom")]
    Table {
        /// The line, counted from 1.
        line: u64,
        /// What the reader of the table says.
        message: String,
    },
    /// A row number that the form does not have.
    #[error("line {line}: there is no row `{found}`; the form has rows 1 to {most}")]
    UnknownRow {
        /// The line.
        line: u64,
        /// What stands there.
        found: String,
        /// The last row.
        most: usize,
    },
    /// The same row twice.
    #[error("line {line}: row {row} was read before; keep one of the two")]
    Twice {
        /// The line.
        line: u64,
        /// The row.
        row: u32,
    },
    /// No number.
    #[error(
        "line {line}: `{found}` is no reading of row {row}; write millimetres with a decimal point, such as {drawn}.05"
    )]
    NotANumber {
        /// The line.
        line: u64,
        /// What stands there.
        found: String,
        /// The row.
        row: u32,
        /// As drawn.
        drawn: f64,
    },
    /// A reading of something else.
    #[error(
        "line {line}: row {row} ({what}) is drawn {drawn} mm and read {found} mm: is it the right row?"
    )]
    FarOff {
        /// The line.
        line: u64,
        /// The row.
        row: u32,
        /// What it is.
        what: &'static str,
        /// As drawn.
        drawn: f64,
        /// As read.
        found: f64,
    },
    /// Too few to tell.
    #[error(
        "{found} readings tell no kerf: measure at least {least} rows, outside sizes and openings"
    )]
    TooFew {
        /// How many there are.
        found: usize,
        /// How many are needed.
        least: usize,
    },
    /// They say that the cut has no width.
    #[error(
        "by these readings the kerf is {kerf:.3} mm: either the piece was cut with an allowance, or outside and inside are exchanged"
    )]
    NoCut {
        /// What they say, in millimetres.
        kerf: f64,
    },
}

named!(ReadingFault:
    Table => "table",
    UnknownRow => "unknown-row",
    Twice => "twice",
    NotANumber => "not-a-number",
    FarOff => "far-off",
    TooFew => "too-few",
    NoCut => "no-cut",
);

impl Readings {
    /// Reads the form as filled in: comma- or semicolon-separated, lines that start with `#` are remarks.
    ///
    /// # Errors
    /// [`ReadingFault`] with the line.
    pub fn read(text: &str) -> Result<Self, ReadingFault> {
        let semicolons = text
            .lines()
            .find(|line| !line.trim_start().starts_with('#') && !line.trim().is_empty())
            .is_some_and(|line| line.contains(';'));
        let mut reader = csv::ReaderBuilder::new()
            .comment(Some(b'#'))
            .delimiter(if semicolons { b';' } else { b',' })
            .flexible(true)
            .trim(csv::Trim::All)
            .from_reader(text.trim_start_matches('\u{feff}').as_bytes());
        let mut readings = Self::default();
        for record in reader.records() {
            let record = record.map_err(|error| ReadingFault::Table {
                line: error.position().map_or(0, csv::Position::line),
                message: error.to_string(),
            })?;
            let line = record.position().map_or(0, csv::Position::line);
            if let Some(reading) = one(&record, line)? {
                let number = reading.row.number;
                if readings.all.iter().any(|known| known.row.number == number) {
                    return Err(ReadingFault::Twice { line, row: number });
                }
                readings.all.push(reading);
            }
        }
        Ok(readings)
    }
}

fn one(record: &csv::StringRecord, line: u64) -> Result<Option<TrialReading>, ReadingFault> {
    let field = |index: usize| record.get(index).unwrap_or("");
    let unknown = || ReadingFault::UnknownRow {
        line,
        found: field(0).chars().take(20).collect(),
        most: ROWS.len(),
    };
    let number: u32 = field(0).parse().map_err(|_| unknown())?;
    let row = ROWS
        .into_iter()
        .find(|row| row.number == number)
        .ok_or_else(unknown)?;
    let read = |text: &str| {
        if text.is_empty() {
            return Ok(None);
        }
        let value = text.parse::<f64>().ok().filter(|value| value.is_finite());
        let found = value.ok_or_else(|| ReadingFault::NotANumber {
            line,
            found: text.chars().take(20).collect(),
            row: number,
            drawn: row.drawn,
        })?;
        if (found - row.drawn).abs() > FARTHEST {
            return Err(ReadingFault::FarOff {
                line,
                row: number,
                what: row.what,
                drawn: row.drawn,
                found,
            });
        }
        Ok(Some(found))
    };
    let (top, bottom) = (read(field(3))?, read(field(4))?);
    Ok(match (top, bottom) {
        (Some(top), bottom) => Some(TrialReading { row, top, bottom }),
        // only the lower face was measured: it stands for both
        (None, Some(only)) => Some(TrialReading {
            row,
            top: only,
            bottom: None,
        }),
        (None, None) => None,
    })
}
