//! Bytes into tags.

use std::borrow::Cow;

use super::malformed;
use crate::formats::FormatError;

/// One group code with its value.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::formats::dxf) struct Tag<'a> {
    pub(in crate::formats::dxf) code: i32,
    pub(in crate::formats::dxf) value: Cow<'a, str>,
    /// Line of the code in the file, from 1.
    pub(in crate::formats::dxf) line: usize,
}

impl Tag<'_> {
    /// Its value as a number.
    pub(in crate::formats::dxf) fn real(&self) -> Result<f64, FormatError> {
        match self.value.trim().parse::<f64>() {
            Ok(value) if value.is_finite() => Ok(value),
            _ => Err(malformed(
                self.line + 1,
                format!("\"{}\" is no number", shortened(&self.value)),
            )),
        }
    }

    /// Its value as a whole number.
    pub(in crate::formats::dxf) fn whole(&self) -> Result<i64, FormatError> {
        self.value.trim().parse().map_err(|_| {
            malformed(
                self.line + 1,
                format!("\"{}\" is no whole number", shortened(&self.value)),
            )
        })
    }
}

/// The first letters of a value, for a message.
pub(in crate::formats::dxf) fn shortened(value: &str) -> String {
    value
        .chars()
        .take(20)
        .filter(|letter| !letter.is_control())
        .collect()
}

/// The tags of a file, one after another.
pub(in crate::formats::dxf) struct Tags<'a> {
    rest: &'a [u8],
    line: usize,
}

impl<'a> Tags<'a> {
    pub(in crate::formats::dxf) const fn new(bytes: &'a [u8]) -> Self {
        Self {
            rest: bytes,
            line: 0,
        }
    }

    /// How many lines have been read.
    pub(in crate::formats::dxf) const fn line(&self) -> usize {
        self.line
    }

    fn next_line(&mut self) -> Option<&'a [u8]> {
        if self.rest.is_empty() {
            return None;
        }
        self.line += 1;
        let end = self.rest.iter().position(|&byte| byte == b'\n');
        let (line, rest) = match end {
            Some(end) => (self.rest.get(..end)?, self.rest.get(end + 1..)?),
            None => (self.rest, &[][..]),
        };
        self.rest = rest;
        Some(line.strip_suffix(b"\r").unwrap_or(line))
    }

    /// The next tag; none at the end of the bytes.
    pub(in crate::formats::dxf) fn next_tag(&mut self) -> Result<Option<Tag<'a>>, FormatError> {
        let Some(code) = self.next_line() else {
            return Ok(None);
        };
        let line = self.line;
        let code = std::str::from_utf8(code)
            .ok()
            .and_then(|code| code.trim().parse::<i32>().ok())
            .ok_or_else(|| malformed(line, "no group code"))?;
        let Some(value) = self.next_line() else {
            return Err(malformed(line, "a group code without a value"));
        };
        Ok(Some(Tag {
            code,
            value: String::from_utf8_lossy(value),
            line,
        }))
    }
}
