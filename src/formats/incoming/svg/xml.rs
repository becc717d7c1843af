//! Text into tags, each with its line. Documents that define entities of their own are refused: they can
//! grow without bound.

use std::borrow::Cow;

use super::malformed;
use crate::formats::FormatError;

/// Most attributes of one element.
const MOST_ATTRIBUTES: usize = 256;

/// A piece of the document.
#[derive(Debug)]
pub(super) enum Event<'a> {
    Start {
        name: &'a str,
        attributes: Vec<(&'a str, Cow<'a, str>)>,
        /// Whether it ends at once.
        empty: bool,
        line: usize,
    },
    End {
        name: &'a str,
        line: usize,
    },
    Comment(&'a str),
}

/// The pieces of a document, one after another.
pub(super) struct Xml<'a> {
    rest: &'a str,
    line: usize,
}

impl<'a> Xml<'a> {
    pub(super) const fn new(text: &'a str) -> Self {
        Self {
            rest: text,
            line: 1,
        }
    }

    pub(super) const fn line(&self) -> usize {
        self.line
    }

    fn skip(&mut self, bytes: usize) -> &'a str {
        let (taken, rest) = self.rest.split_at_checked(bytes).unwrap_or((self.rest, ""));
        self.line += taken.bytes().filter(|&byte| byte == b'\n').count();
        self.rest = rest;
        taken
    }

    /// Takes everything up to `end` and `end` itself.
    fn skip_past(&mut self, end: &str, what: &str) -> Result<&'a str, FormatError> {
        let Some(at) = self.rest.find(end) else {
            return Err(malformed(self.line, format!("{what} without its end")));
        };
        let taken = self.skip(at);
        self.skip(end.len());
        Ok(taken)
    }

    pub(super) fn next_event(&mut self) -> Result<Option<Event<'a>>, FormatError> {
        loop {
            let Some(at) = self.rest.find('<') else {
                self.skip(self.rest.len());
                return Ok(None);
            };
            self.skip(at);
            let line = self.line;
            if self.rest.starts_with("<!--") {
                self.skip(4);
                return Ok(Some(Event::Comment(self.skip_past("-->", "a comment")?)));
            }
            if self.rest.starts_with("<![CDATA[") {
                self.skip_past("]]>", "a section of letters")?;
            } else if self.rest.starts_with("<?") {
                self.skip_past("?>", "an instruction")?;
            } else if self.rest.starts_with("<!") {
                let declared = self.skip_past(">", "a declaration")?;
                if declared.contains('[') {
                    return Err(malformed(
                        line,
                        "it defines entities of its own, which are not read",
                    ));
                }
            } else if self.rest.starts_with("</") {
                self.skip(2);
                let name = self.skip_past(">", "an end tag")?.trim();
                return Ok(Some(Event::End {
                    name: local(name),
                    line,
                }));
            } else {
                self.skip(1);
                return self.start(line).map(Some);
            }
        }
    }

    fn start(&mut self, line: usize) -> Result<Event<'a>, FormatError> {
        let name = self.name();
        if name.is_empty() {
            return Err(malformed(line, "a < that starts no element"));
        }
        let mut attributes = Vec::new();
        loop {
            let blank = self.rest.len() - self.rest.trim_start().len();
            self.skip(blank);
            if self.rest.starts_with("/>") {
                self.skip(2);
                return Ok(Event::Start {
                    name: local(name),
                    attributes,
                    empty: true,
                    line,
                });
            }
            if self.rest.starts_with('>') {
                self.skip(1);
                return Ok(Event::Start {
                    name: local(name),
                    attributes,
                    empty: false,
                    line,
                });
            }
            if attributes.len() >= MOST_ATTRIBUTES {
                return Err(malformed(line, "an element with too many attributes"));
            }
            attributes.push(self.attribute()?);
        }
    }

    fn name(&mut self) -> &'a str {
        let end = self
            .rest
            .find(|letter: char| letter.is_whitespace() || "=/><\"'".contains(letter))
            .unwrap_or(self.rest.len());
        self.skip(end)
    }

    fn attribute(&mut self) -> Result<(&'a str, Cow<'a, str>), FormatError> {
        let line = self.line;
        let name = self.name();
        if name.is_empty() {
            return Err(malformed(line, "an element that does not end"));
        }
        let blank = self.rest.len() - self.rest.trim_start().len();
        self.skip(blank);
        if !self.rest.starts_with('=') {
            return Err(malformed(line, "an attribute without a value"));
        }
        self.skip(1);
        let blank = self.rest.len() - self.rest.trim_start().len();
        self.skip(blank);
        let quote = match self.rest.bytes().next() {
            Some(b'"') => "\"",
            Some(b'\'') => "'",
            _ => return Err(malformed(line, "an attribute without quotes")),
        };
        self.skip(1);
        let value = self.skip_past(quote, "an attribute")?;
        Ok((local(name), unescaped(value, line)?))
    }
}

/// A name without its prefix.
fn local(name: &str) -> &str {
    name.rsplit_once(':').map_or(name, |(_, local)| local)
}

fn unescaped(value: &str, line: usize) -> Result<Cow<'_, str>, FormatError> {
    if !value.contains('&') {
        return Ok(Cow::Borrowed(value));
    }
    let mut text = String::with_capacity(value.len());
    let mut rest = value;
    while let Some((before, after)) = rest.split_once('&') {
        text.push_str(before);
        let Some((entity, after)) = after.split_once(';') else {
            return Err(malformed(line, "an & that starts no entity"));
        };
        let number = |digits: &str, base: u32| {
            u32::from_str_radix(digits, base)
                .ok()
                .and_then(char::from_u32)
        };
        let letter = match entity {
            "amp" => Some('&'),
            "lt" => Some('<'),
            "gt" => Some('>'),
            "quot" => Some('"'),
            "apos" => Some('\''),
            _ => match entity.strip_prefix('#') {
                Some(digits) => match digits.strip_prefix('x') {
                    Some(digits) => number(digits, 16),
                    None => number(digits, 10),
                },
                None => None,
            },
        };
        match letter {
            Some(letter) => text.push(letter),
            None => return Err(malformed(line, "an entity that is not known")),
        }
        rest = after;
    }
    text.push_str(rest);
    Ok(Cow::Owned(text))
}
