//! The text of a design file, and places in it.

use super::error::DesignError;
use super::error::FileFault;
use super::limits;

/// A stretch of a design file: byte offsets, the end not included.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// Offset of its first byte.
    pub start: usize,
    /// Offset of the byte after its last.
    pub end: usize,
}

impl Place {
    /// The stretch from `start` up to `end`.
    pub const fn new(start: usize, end: usize) -> Self {
        Self { start, end }
    }

    /// The least stretch that holds both.
    #[must_use]
    pub fn to(self, other: Self) -> Self {
        Self::new(self.start.min(other.start), self.end.max(other.end))
    }
}

/// How a design file is written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SourceKind {
    /// TOML, for people.
    Toml,
    /// JSON, for programs.
    Json,
}

/// Line and column, both counted from 1; columns count characters, not bytes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Position {
    /// The line.
    pub line: usize,
    /// The character in the line.
    pub column: usize,
}

/// The text of a design file with its name.
#[derive(Clone, Debug)]
pub struct Source {
    name: String,
    text: String,
    kind: SourceKind,
    line_starts: Vec<usize>,
}

impl Source {
    /// A design file from its text. It is taken for JSON if its first character is `{` or its name
    /// ends in `.json`, otherwise for TOML. A byte order mark is dropped.
    pub fn new(name: impl Into<String>, text: impl Into<String>) -> Self {
        let (name, mut text) = (name.into(), text.into());
        if text.starts_with('\u{feff}') {
            text.drain(..'\u{feff}'.len_utf8());
        }
        let json = text.trim_start().starts_with('{')
            || name
                .rsplit_once('.')
                .is_some_and(|(_, ending)| ending.eq_ignore_ascii_case("json"));
        let kind = if json {
            SourceKind::Json
        } else {
            SourceKind::Toml
        };
        Self::with_kind(name, text, kind)
    }

    /// A design file of a known kind.
    pub fn with_kind(name: impl Into<String>, text: impl Into<String>, kind: SourceKind) -> Self {
        let text = text.into();
        let mut line_starts = vec![0];
        line_starts.extend(text.match_indices('\n').map(|(at, _)| at + 1));
        Self {
            name: name.into(),
            text,
            kind,
            line_starts,
        }
    }

    /// A design file from the bytes of a file.
    ///
    /// # Errors
    /// `not-text` if the bytes are no UTF-8, `too-large` beyond 32 MiB.
    pub fn from_bytes(name: impl Into<String>, bytes: &[u8]) -> Result<Self, DesignError> {
        if bytes.len() > limits::LARGEST_FILE {
            let fault = FileFault::TooLarge {
                bytes: bytes.len(),
                limit: limits::LARGEST_FILE,
            };
            return Err(DesignError::new(fault, Place::default()).with_help(
                "a design file holds dimensions, not drawings: take out what is not one",
            ));
        }
        match std::str::from_utf8(bytes) {
            Ok(text) => Ok(Self::new(name, text)),
            Err(error) => {
                let offset = error.valid_up_to();
                let fault = FileFault::NotText { offset };
                Err(DesignError::new(fault, Place::default())
                    .with_help("save the file as plain text in UTF-8"))
            }
        }
    }

    /// Its name, as shown in messages.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// Its text.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// How it is written.
    pub fn kind(&self) -> SourceKind {
        self.kind
    }

    /// Line and column of a byte offset; an offset past the end is the end.
    pub fn position(&self, offset: usize) -> Position {
        let offset = offset.min(self.text.len());
        let line = self.line_starts.partition_point(|&start| start <= offset);
        let start = self.line_starts.get(line - 1).copied().unwrap_or(0);
        let column = self
            .text
            .get(start..)
            .unwrap_or("")
            .char_indices()
            .take_while(|(at, _)| start + at < offset)
            .count();
        Position {
            line,
            column: column + 1,
        }
    }

    /// The text at a place; empty for a place outside the text.
    pub fn text_at(&self, place: Place) -> &str {
        self.text.get(place.start..place.end).unwrap_or("")
    }

    /// Offset of the first byte of a line, counted from 1; the end of the text past the last line.
    pub fn line_start(&self, number: usize) -> usize {
        number
            .checked_sub(1)
            .and_then(|at| self.line_starts.get(at).copied())
            .unwrap_or(self.text.len())
    }

    /// The line with this number, counted from 1, without its ending; empty past the last.
    pub fn line(&self, number: usize) -> &str {
        let Some(&start) = number
            .checked_sub(1)
            .and_then(|at| self.line_starts.get(at))
        else {
            return "";
        };
        let end = self
            .line_starts
            .get(number)
            .map_or(self.text.len(), |next| next - 1);
        self.text
            .get(start..end)
            .unwrap_or("")
            .trim_end_matches('\r')
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_characters() {
        let source = Source::new("a.toml", "title = \"é\"\r\nunits = 'mm'\n");
        let quote = source.text().rfind("\"\r").expect("the closing quote");
        assert_eq!(
            source.position(quote),
            Position {
                line: 1,
                column: 11
            },
            "the two bytes of é are one column"
        );
        assert_eq!(source.line(2), "units = 'mm'", "second line");
        assert_eq!(source.line(1), "title = \"é\"", "no carriage return");
        assert_eq!(source.line(0), "", "there is no line 0");
        assert_eq!(
            source.position(usize::MAX),
            Position { line: 3, column: 1 },
            "past the end is the end"
        );
    }

    #[test]
    fn the_kind_is_seen_from_text_or_name() {
        assert_eq!(Source::new("x", " {}").kind(), SourceKind::Json, "brace");
        assert_eq!(Source::new("x.JSON", "").kind(), SourceKind::Json, "name");
        assert_eq!(Source::new("x.toml", "").kind(), SourceKind::Toml, "TOML");
        assert_eq!(Source::new("x", "\u{feff}a = 1").text(), "a = 1", "mark");
    }

    #[test]
    fn bytes_that_are_no_text_are_refused() {
        let error = Source::from_bytes("x", b"a = \"\xff\"").expect_err("not UTF-8");
        assert_eq!(error.kind.name(), "not-text", "{error}");
    }
}
