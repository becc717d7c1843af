//! Numbers, lengths with units, and expressions over the named dimensions.

//!
//! An expression is cut into pieces, parsed into a [`Term`] with places and bounded depth,
//! and evaluated with the kind checked at every step: a length and an area cannot be added.
//!
//! A number written without a unit is *bare*: in sums it takes the kind of the other side, in products
//! it is a pure number, and where a length is wanted it is one in the file's units.

pub mod evaluate;
mod exact;
mod fraction;
pub mod kind;
mod literal;
mod parse;
pub mod term;
mod token;
pub mod working;

pub use evaluate::Scope;
pub use evaluate::adapted;
pub use evaluate::evaluate;
pub use exact::length_in_millimetres;
pub use exact::length_in_unit;
pub use fraction::refuse_bare;
pub use kind::Kind;
pub use kind::Quantity;
pub(crate) use literal::is_unit_word;
pub use parse::parse;
pub use term::Term;
pub(crate) use token::is_name_character;

use super::error::DesignError;
use super::error::ExpressionFault;
use super::source::Place;

use schemars::JsonSchema;
use schemars::Schema;
use schemars::SchemaGenerator;
use serde::Deserialize;
use serde::Deserializer;
use serde::de::SeqAccess;
use serde::de::Visitor;
use std::borrow::Cow;
use std::fmt;
use std::ops::Range;

/// Name by which [`Expression`] asks our reader for the place of its text.
pub(super) const EXPRESSION: &str = "$expression";

/// What is expected where a size is wanted, for messages.
pub(super) const SIZE: &str = "a number, a length or an expression";

/// What a size in a design file may be.
#[derive(Clone, Debug, PartialEq)]
pub struct Expression {
    /// What was written.
    pub written: Written,
    /// Byte offset in the file of the first character of the text; `None` for a number, and for a
    /// text that the file spells otherwise (with escapes).
    pub text_start: Option<usize>,
}

impl Expression {
    /// The place in the file of a stretch of the text; the whole of `place` if the file spells the
    /// text otherwise.
    pub fn place_of(&self, place: Place, range: &Range<usize>) -> Place {
        place_in_text(place, self.text_start, range)
    }
}

fn place_in_text(place: Place, text_start: Option<usize>, range: &Range<usize>) -> Place {
    text_start.map_or(place, |start| {
        Place::new(start + range.start, start + range.end)
    })
}

/// What is wrong with an expression, with its place in the text.
#[derive(Clone, Debug, PartialEq)]
pub struct ExpressionError {
    /// What is wrong.
    pub fault: ExpressionFault,
    /// Byte offsets in the text.
    pub range: Range<usize>,
    /// One way out; empty if there is none to name.
    pub help: String,
}

impl ExpressionError {
    /// A fault at a place in the text.
    pub fn new(fault: ExpressionFault, range: Range<usize>) -> Self {
        Self {
            fault,
            range,
            help: String::new(),
        }
    }

    /// The same with a way out.
    #[must_use]
    pub fn with_help(mut self, help: impl Into<String>) -> Self {
        self.help = help.into();
        self
    }

    /// The error in a file, where the expression stands at `place` and its text starts at
    /// `text_start`.
    pub fn at(self, place: Place, text_start: Option<usize>) -> DesignError {
        let place = place_in_text(place, text_start, &self.range);
        DesignError::new(self.fault, place).with_help(self.help)
    }
}

/// What was written where a size is wanted.
#[derive(Clone, Debug, PartialEq)]
pub enum Written {
    /// A bare number.
    Number(f64),
    /// A string: a length with its unit, or an expression.
    Text(String),
}

impl<'de> Deserialize<'de> for Expression {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_tuple_struct(EXPRESSION, 2, ExpressionVisitor)
    }
}

/// Takes the offset of the text and the value from our reader.
struct ExpressionVisitor;

impl<'de> Visitor<'de> for ExpressionVisitor {
    type Value = Expression;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(SIZE)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut access: A) -> Result<Expression, A::Error> {
        let missing = || serde::de::Error::custom("the reader gives no places");
        let start: usize = access.next_element()?.ok_or_else(missing)?;
        let written = access.next_element()?.ok_or_else(missing)?;
        Ok(Expression {
            written,
            text_start: (start != usize::MAX).then_some(start),
        })
    }
}

impl<'de> Deserialize<'de> for Written {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_any(WrittenVisitor)
    }
}

/// Takes a number or a string.
struct WrittenVisitor;

impl Visitor<'_> for WrittenVisitor {
    type Value = Written;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str(SIZE)
    }

    fn visit_f64<E>(self, value: f64) -> Result<Written, E> {
        Ok(Written::Number(value))
    }

    fn visit_str<E>(self, value: &str) -> Result<Written, E> {
        Ok(Written::Text(value.to_owned()))
    }
}

impl JsonSchema for Expression {
    fn schema_name() -> Cow<'static, str> {
        "Amount".into()
    }

    fn json_schema(_: &mut SchemaGenerator) -> Schema {
        schemars::json_schema!({
            "type": ["number", "string"],
            "description": "A number in the file's units, a string with a unit (\"318 mm\", \"2 ft 4-1/2 in\"), or an expression over the named dimensions"
        })
    }
}

#[cfg(test)]
mod tests;
