//! A design file as a tree of values with their places, whether it was TOML or JSON.

use crate::design::located::Word;
use crate::design::source::Place;

/// A value of the file.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Node {
    /// Where it stands; of a table under a header, the header.
    pub(crate) place: Place,
    /// What it is.
    pub(crate) value: NodeValue,
}

/// What a value of the file is.
#[derive(Clone, Debug, PartialEq)]
pub(crate) enum NodeValue {
    /// JSON's null.
    Null,
    /// true or false.
    Boolean(bool),
    /// A number.
    Number(f64),
    /// A string, with the offset of its first character if the file spells it as it is.
    Text(String, Option<usize>),
    /// TOML's dates and times, which no design has.
    Date,
    /// A list.
    List(Vec<Node>),
    /// A table, in the order of the file.
    Table(Vec<Field>),
}

/// A key with its value.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Field {
    /// The key.
    pub(crate) key: Word,
    /// The value.
    pub(crate) node: Node,
}

impl Node {
    /// The value of a key, if this is a table that has it.
    pub(crate) fn get(&self, key: &str) -> Option<&Field> {
        match &self.value {
            NodeValue::Table(fields) => fields.iter().find(|field| field.key.value == key),
            _ => None,
        }
    }

    /// What it is, in words.
    pub(crate) fn description(&self) -> String {
        match &self.value {
            NodeValue::Null => "nothing (null)".to_owned(),
            NodeValue::Boolean(value) => format!("`{value}`"),
            NodeValue::Number(value) => format!("the number {value}"),
            NodeValue::Text(text, _) => format!("the string `{}`", shortened(text)),
            NodeValue::Date => "a date or time".to_owned(),
            NodeValue::List(_) => "a list".to_owned(),
            NodeValue::Table(_) => "a table".to_owned(),
        }
    }
}

/// A text cut to a length that fits a message.
pub(crate) fn shortened(text: &str) -> String {
    const LONGEST: usize = 40;
    if text.chars().count() <= LONGEST {
        return text.to_owned();
    }
    let start: String = text.chars().take(LONGEST - 1).collect();
    format!("{start}…")
}

/// The offset in `source` of the characters of a string that stands at `place` with its quotes;
/// `None` if the file spells it otherwise.
pub(crate) fn text_start(source: &str, place: Place, text: &str) -> Option<usize> {
    [1, 3].into_iter().find_map(|quotes| {
        let start = place.start + quotes;
        let end = start + text.len();
        (end + quotes == place.end && source.get(start..end) == Some(text)).then_some(start)
    })
}
