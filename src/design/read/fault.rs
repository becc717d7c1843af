//! What `serde` reports while the tree is read, before it has a place.

use crate::design::error::DesignError;
use crate::design::error::FileFault;
use crate::design::expression::SIZE;
use serde::de::Expected;
use serde::de::Unexpected;
use std::fmt;

/// A fault on its way to the sink.
#[derive(Debug)]
pub(super) enum Fault {
    /// It is in the sink already.
    Reported,
    /// A key is missing in the table being read.
    Missing(String),
    /// A value is something else than was expected.
    Type {
        /// What was expected.
        expected: String,
        /// What is there.
        found: String,
    },
    /// Whatever a structure says of itself.
    Other(String),
    /// A fault with its place.
    Placed(Box<DesignError>),
}

impl Fault {
    /// A fault with its place.
    pub(super) fn placed(error: DesignError) -> Self {
        Self::Placed(Box::new(error))
    }

    /// The way out.
    pub(super) fn help(&self) -> String {
        match self {
            Self::Missing(key) => format!("add `{key} = …`"),
            Self::Type { expected, .. } => example_of(expected),
            Self::Reported | Self::Other(_) | Self::Placed(_) => String::new(),
        }
    }

    /// The fault of a value called `what`.
    pub(super) fn into_kind(self, what: &str) -> Option<FileFault> {
        match self {
            Self::Reported | Self::Placed(_) => None,
            Self::Missing(key) => Some(FileFault::MissingKey {
                key,
                within: what.to_owned(),
            }),
            Self::Type { expected, found } => Some(FileFault::WrongType {
                what: what.to_owned(),
                expected,
                found,
            }),
            Self::Other(message) => Some(FileFault::Syntax { message }),
        }
    }
}

/// How to write what was expected.
pub(super) fn example_of(expected: &str) -> String {
    match expected {
        SIZE => "write a size such as `305`, `\"12 in\"` or `\"foot / 2\"`".to_owned(),
        "words in quotes" => "put it in quotes".to_owned(),
        other => format!("write {other}"),
    }
}

impl fmt::Display for Fault {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Reported => formatter.write_str("reported before"),
            Self::Missing(key) => write!(formatter, "`{key}` is missing"),
            Self::Type { expected, found } => write!(formatter, "{expected} expected, not {found}"),
            Self::Other(message) => formatter.write_str(message),
            Self::Placed(error) => error.fmt(formatter),
        }
    }
}

impl std::error::Error for Fault {}

impl serde::de::Error for Fault {
    fn custom<T: fmt::Display>(message: T) -> Self {
        Self::Other(message.to_string())
    }

    fn missing_field(field: &'static str) -> Self {
        Self::Missing(field.to_owned())
    }

    fn invalid_type(found: Unexpected<'_>, expected: &dyn Expected) -> Self {
        let found = match found {
            Unexpected::Bool(value) => format!("`{value}`"),
            Unexpected::Float(value) => format!("the number {value}"),
            Unexpected::Str(text) => format!("the string `{}`", super::node::shortened(text)),
            Unexpected::Seq => "a list".to_owned(),
            Unexpected::Map => "a table".to_owned(),
            Unexpected::Unit | Unexpected::Option => "nothing".to_owned(),
            other => other.to_string(),
        };
        Self::Type {
            expected: expected.to_string(),
            found,
        }
    }
}
