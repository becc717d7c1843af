//! What is inside a node, piece by piece: entries of a list, keys and values of a table, and the
//! parts of what is read with its place.

use super::super::fault::Fault;
use super::super::node::Field;
use super::super::node::Node;
use super::super::node::NodeValue;
use super::Reader;
use super::report;
use crate::design::located::Word;
use serde::de::DeserializeSeed;
use serde::de::Deserializer;
use serde::de::IntoDeserializer;
use serde::de::MapAccess;
use serde::de::SeqAccess;
use serde::de::Visitor;
use serde::forward_to_deserialize_any;

/// The entries of a list, one by one; a fault in one goes to the sink.
pub(super) struct Elements<'a> {
    pub(super) nodes: std::slice::Iter<'a, Node>,
    pub(super) reader: Reader<'a>,
}

impl<'de> SeqAccess<'de> for Elements<'_> {
    type Error = Fault;

    fn next_element_seed<S: DeserializeSeed<'de>>(
        &mut self,
        seed: S,
    ) -> Result<Option<S::Value>, Fault> {
        let Some(node) = self.nodes.next() else {
            return Ok(None);
        };
        let reader = self.reader.inner(node, self.reader.what);
        report(seed.deserialize(reader), reader).map(Some)
    }
}

/// The keys and values of a table, one by one; a fault in one goes to the sink.
pub(super) struct Fields<'a> {
    pub(super) rest: std::slice::Iter<'a, Field>,
    pub(super) value: Option<&'a Field>,
    pub(super) known: Option<&'static [&'static str]>,
    pub(super) reader: Reader<'a>,
}

impl<'a> Fields<'a> {
    pub(super) fn of(fields: &'a [Field], reader: Reader<'a>) -> Self {
        Self {
            rest: fields.iter(),
            value: None,
            known: None,
            reader,
        }
    }
}

impl<'de> MapAccess<'de> for Fields<'_> {
    type Error = Fault;

    fn next_key_seed<S: DeserializeSeed<'de>>(
        &mut self,
        seed: S,
    ) -> Result<Option<S::Value>, Fault> {
        let known = self.known;
        let next = self
            .rest
            .find(|field| known.is_none_or(|known| known.contains(&field.key.value.as_str())));
        self.value = next;
        next.map(|field| seed.deserialize(Key(&field.key)))
            .transpose()
    }

    fn next_value_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<S::Value, Fault> {
        let Some(field) = self.value.take() else {
            return Err(Fault::Other("a value without a key".to_owned()));
        };
        let reader = self.reader.inner(&field.node, &field.key.value);
        report(seed.deserialize(reader), reader)
    }
}

/// A key of a table.
struct Key<'a>(&'a Word);

impl<'de> Deserializer<'de> for Key<'_> {
    type Error = Fault;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        visitor.visit_str(&self.0.value)
    }

    fn deserialize_tuple_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: usize,
        visitor: V,
    ) -> Result<V::Value, Fault> {
        visitor.visit_seq(KeyParts {
            key: self.0,
            part: 0,
        })
    }

    forward_to_deserialize_any! {
        bool i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char str string bytes byte_buf option
        unit unit_struct newtype_struct seq tuple map struct enum identifier ignored_any
    }
}

/// Start, end and text of a key.
struct KeyParts<'a> {
    key: &'a Word,
    part: u8,
}

impl<'de> SeqAccess<'de> for KeyParts<'_> {
    type Error = Fault;

    fn next_element_seed<S: DeserializeSeed<'de>>(
        &mut self,
        seed: S,
    ) -> Result<Option<S::Value>, Fault> {
        self.part += 1;
        match self.part {
            1 => seed
                .deserialize(self.key.place.start.into_deserializer())
                .map(Some),
            2 => seed
                .deserialize(self.key.place.end.into_deserializer())
                .map(Some),
            _ => seed.deserialize(Key(self.key)).map(Some),
        }
    }
}

/// Start, end and value of a node.
pub(super) struct LocatedParts<'a> {
    pub(super) reader: Reader<'a>,
    pub(super) part: u8,
}

impl<'de> SeqAccess<'de> for LocatedParts<'_> {
    type Error = Fault;

    fn next_element_seed<S: DeserializeSeed<'de>>(
        &mut self,
        seed: S,
    ) -> Result<Option<S::Value>, Fault> {
        self.part += 1;
        let place = self.reader.node.place;
        match self.part {
            1 => seed.deserialize(place.start.into_deserializer()).map(Some),
            2 => seed.deserialize(place.end.into_deserializer()).map(Some),
            _ => seed.deserialize(self.reader).map(Some),
        }
    }
}

/// Offset of the text, and the value, of an expression.
pub(super) struct ExpressionParts<'a> {
    pub(super) reader: Reader<'a>,
    pub(super) part: u8,
}

impl<'de> SeqAccess<'de> for ExpressionParts<'_> {
    type Error = Fault;

    fn next_element_seed<S: DeserializeSeed<'de>>(
        &mut self,
        seed: S,
    ) -> Result<Option<S::Value>, Fault> {
        self.part += 1;
        if self.part > 1 {
            return seed.deserialize(self.reader).map(Some);
        }
        let start = match &self.reader.node.value {
            NodeValue::Text(_, start) => start.unwrap_or(usize::MAX),
            _ => usize::MAX,
        };
        seed.deserialize(start.into_deserializer()).map(Some)
    }
}
