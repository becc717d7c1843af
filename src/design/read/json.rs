//! JSON into the tree.
//!
//! `serde_json` judges the syntax and says what is wrong; it gives no places afterwards, so a small
//! walker over the text, by then known to be JSON, records them.

use super::node::Field;
use super::node::Node;
use super::node::NodeValue;
use super::node::text_start;
use super::toml::usable;
use crate::design::error::DesignError;
use crate::design::error::FileFault;
use crate::design::error::Sink;
use crate::design::limits;
use crate::design::located::Located;
use crate::design::located::Word;
use crate::design::source::Place;
use crate::design::source::Source;

/// The tree of a JSON text; `None` after faults, which are in the sink.
pub(super) fn read(source: &Source, sink: &mut Sink) -> Option<Node> {
    let text = source.text();
    if let Err(error) = serde_json::from_str::<serde::de::IgnoredAny>(text) {
        sink.push(syntax_error(source, &error));
        return None;
    }
    let mut walker = Walker { text, at: 0 };
    let node = sink.take(walker.node(0))?;
    for error in duplicate_keys(&node) {
        sink.push(error);
    }
    Some(node)
}

fn text_end(source: &Source) -> usize {
    source.text().trim_end().len()
}

fn syntax_error(source: &Source, error: &serde_json::Error) -> DesignError {
    // serde_json counts columns in bytes, from 1; 0 is the line's own start
    let start = source.line_start(error.line());
    let mut offset = (start + error.column().saturating_sub(1)).min(text_end(source));
    while !source.text().is_char_boundary(offset) {
        offset -= 1;
    }
    let message = error.to_string();
    let message = message
        .rsplit_once(" at line ")
        .map_or(message.as_str(), |(message, _)| message);
    let fault = FileFault::Syntax {
        message: message.to_owned(),
    };
    DesignError::new(fault, Place::new(offset, offset))
        .with_help("look for a comma, quote or bracket too many or too few just before")
}

/// Every key that stands twice in one table.
fn duplicate_keys(node: &Node) -> Vec<DesignError> {
    let mut errors = Vec::new();
    match &node.value {
        NodeValue::Table(fields) => {
            let mut keys: Vec<&Word> = fields.iter().map(|field| &field.key).collect();
            keys.sort_by(|one, other| (&one.value, one.place).cmp(&(&other.value, other.place)));
            for pair in keys.windows(2) {
                if let [first, second] = pair
                    && first.value == second.value
                {
                    let fault = FileFault::DuplicateKey {
                        key: second.value.clone(),
                        within: "its table".to_owned(),
                    };
                    errors.push(
                        DesignError::new(fault, second.place)
                            .with_also(first.place, "it stands here first")
                            .with_help("keep one of the two"),
                    );
                }
            }
            for field in fields {
                errors.extend(duplicate_keys(&field.node));
            }
        }
        NodeValue::List(nodes) => errors.extend(nodes.iter().flat_map(duplicate_keys)),
        _ => {}
    }
    errors
}

/// Goes through a text that is JSON.
struct Walker<'a> {
    text: &'a str,
    at: usize,
}

impl Walker<'_> {
    /// The next byte that is no white space, not yet taken.
    fn peek(&mut self) -> Option<u8> {
        let rest = self.text.as_bytes().get(self.at..)?;
        let blank = rest
            .iter()
            .take_while(|byte| byte.is_ascii_whitespace())
            .count();
        self.at += blank;
        rest.get(blank).copied()
    }

    /// Takes the next byte if it is this one.
    fn took(&mut self, byte: u8) -> bool {
        let found = self.peek() == Some(byte);
        self.at += usize::from(found);
        found
    }

    fn node(&mut self, depth: usize) -> Result<Node, DesignError> {
        let first = self.peek();
        let start = self.at;
        if depth > limits::DEEPEST_TABLE {
            let fault = FileFault::TooDeep {
                limit: limits::DEEPEST_TABLE,
            };
            return Err(DesignError::new(fault, Place::new(start, start + 1))
                .with_help("a design needs six levels at most"));
        }
        let value = match first {
            Some(b'{') => self.table(depth)?,
            Some(b'[') => self.list(depth)?,
            Some(b'"') => {
                let word = self.string()?;
                let offset = text_start(self.text, word.place, &word.value);
                NodeValue::Text(word.value, offset)
            }
            _ => self.scalar()?,
        };
        Ok(Node {
            place: Place::new(start, self.at),
            value,
        })
    }

    fn table(&mut self, depth: usize) -> Result<NodeValue, DesignError> {
        self.at += 1;
        let mut fields = Vec::new();
        while !self.took(b'}') {
            self.peek();
            let key = self.string()?;
            if !self.took(b':') {
                return Err(self.lost());
            }
            let node = self.node(depth + 1)?;
            fields.push(Field { key, node });
            self.took(b',');
        }
        Ok(NodeValue::Table(fields))
    }

    fn list(&mut self, depth: usize) -> Result<NodeValue, DesignError> {
        self.at += 1;
        let mut nodes = Vec::new();
        while !self.took(b']') {
            nodes.push(self.node(depth + 1)?);
            self.took(b',');
        }
        Ok(NodeValue::List(nodes))
    }

    /// A string with its quotes.
    fn string(&mut self) -> Result<Word, DesignError> {
        let start = self.at;
        let mut escaped = false;
        let rest = self.text.as_bytes().get(start + 1..).unwrap_or(&[]);
        let length = rest.iter().position(|&byte| {
            let closes = byte == b'"' && !escaped;
            escaped = byte == b'\\' && !escaped;
            closes
        });
        let Some(length) = length else {
            return Err(self.lost());
        };
        self.at = start + length + 2;
        let place = Place::new(start, self.at);
        let spelled = self.text.get(place.start..place.end).unwrap_or("");
        if let Ok(text) = serde_json::from_str(spelled) {
            return Ok(Located::new(place, text));
        }
        let fault = FileFault::Syntax {
            message: "the string has an escape that stands for no character".to_owned(),
        };
        Err(DesignError::new(fault, place).with_help("write the character itself"))
    }

    /// A number, true, false or null.
    fn scalar(&mut self) -> Result<NodeValue, DesignError> {
        let start = self.at;
        let rest = self.text.get(start..).unwrap_or("");
        let length = rest
            .find(|character: char| {
                !(character.is_ascii_alphanumeric() || matches!(character, '+' | '-' | '.'))
            })
            .unwrap_or(rest.len());
        if length == 0 {
            return Err(self.lost());
        }
        self.at += length;
        let place = Place::new(start, self.at);
        match rest.get(..length).unwrap_or("") {
            "null" => Ok(NodeValue::Null),
            "true" => Ok(NodeValue::Boolean(true)),
            "false" => Ok(NodeValue::Boolean(false)),
            number => usable(self.text, place, number.parse().ok()).map(NodeValue::Number),
        }
    }

    /// For what JSON does not have; the syntax was judged before.
    fn lost(&self) -> DesignError {
        let fault = FileFault::Syntax {
            message: "the text is not JSON here".to_owned(),
        };
        DesignError::new(fault, Place::new(self.at, self.at))
    }
}
