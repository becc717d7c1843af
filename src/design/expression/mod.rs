//! Numbers, lengths with units, and expressions over the named dimensions.

pub mod kind;

pub use kind::Kind;
pub use kind::Quantity;

use schemars::JsonSchema;
use schemars::Schema;
use schemars::SchemaGenerator;
use serde::Deserialize;
use serde::Deserializer;
use serde::de::SeqAccess;
use serde::de::Visitor;
use std::borrow::Cow;
use std::fmt;

/// Name by which [`Expression`] asks our reader for the place of its text.
pub(super) const EXPRESSION: &str = "$expression";

/// What a size in a design file may be.
#[derive(Clone, Debug, PartialEq)]
pub struct Expression {
    /// What was written.
    pub written: Written,
    /// Byte offset in the file of the first character of the text; `None` for a number, and for a
    /// text that the file spells otherwise (with escapes).
    pub text_start: Option<usize>,
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
        formatter.write_str("a number, or a string with a unit or an expression")
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
        formatter.write_str("a number, or a string with a unit or an expression")
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
