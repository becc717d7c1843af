//! The tree handed to `serde` structures, with places.
//!
//! Some names mean something to this reader: [`LOCATED`] and [`EXPRESSION`] ask for places; enums
//! named `$by shape` choose their variant by whether the value is a table, a list or a single value,
//! enums named `$inline a b` by which of the keys a and b the table has (the variant is then read from
//! the whole table). All other enums are tagged by their only key.

use super::fault::Fault;
use super::keys;
use super::node::Field;
use super::node::Node;
use super::node::NodeValue;
use crate::design::error::DesignError;
use crate::design::error::FileFault;
use crate::design::error::Sink;
use crate::design::expression;
use crate::design::expression::EXPRESSION;
use crate::design::located::LOCATED;
use crate::design::located::Word;
use serde::de::DeserializeSeed;
use serde::de::Deserializer;
use serde::de::EnumAccess;
use serde::de::IntoDeserializer;
use serde::de::MapAccess;
use serde::de::SeqAccess;
use serde::de::VariantAccess;
use serde::de::Visitor;
use serde::forward_to_deserialize_any;
use std::cell::RefCell;

/// A node being read, what it is called in messages, and where faults go.
#[derive(Clone, Copy)]
pub(super) struct Reader<'a> {
    node: &'a Node,
    what: &'a str,
    sink: &'a RefCell<Sink>,
}

impl<'a> Reader<'a> {
    pub(super) fn new(node: &'a Node, what: &'a str, sink: &'a RefCell<Sink>) -> Self {
        Self { node, what, sink }
    }

    /// A node inside this one.
    fn inner(self, node: &'a Node, what: &'a str) -> Self {
        Self { node, what, ..self }
    }

    fn label(self) -> String {
        if self.what.contains(' ') || self.what.contains('`') {
            self.what.to_owned()
        } else {
            format!("`{}`", self.what)
        }
    }

    fn wrong_type(self, expected: &str) -> Fault {
        let fault = FileFault::WrongType {
            what: self.label(),
            expected: expected.to_owned(),
            found: self.node.description(),
        };
        Fault::placed(
            DesignError::new(fault, self.node.place).with_help(super::fault::example_of(expected)),
        )
    }

    fn push(self, error: DesignError) {
        self.sink.borrow_mut().push(error);
    }
}

/// Puts the fault of a value into the sink, with the value's place if it has none yet.
pub(super) fn report<T>(result: Result<T, Fault>, reader: Reader<'_>) -> Result<T, Fault> {
    result.map_err(|fault| {
        match fault {
            Fault::Placed(error) => reader.push(*error),
            fault => {
                let help = fault.help();
                if let Some(kind) = fault.into_kind(&reader.label()) {
                    reader.push(DesignError::new(kind, reader.node.place).with_help(help));
                }
            }
        }
        Fault::Reported
    })
}

impl<'de> Deserializer<'de> for Reader<'_> {
    type Error = Fault;

    fn deserialize_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match &self.node.value {
            NodeValue::Null => visitor.visit_unit(),
            NodeValue::Boolean(value) => visitor.visit_bool(*value),
            NodeValue::Number(value) => visitor.visit_f64(*value),
            NodeValue::Text(text, _) => visitor.visit_str(text),
            NodeValue::Date => Err(self.wrong_type("a number or words in quotes")),
            NodeValue::List(nodes) => visitor.visit_seq(Elements {
                nodes: nodes.iter(),
                reader: self,
            }),
            NodeValue::Table(fields) => visitor.visit_map(Fields::of(fields, self)),
        }
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match &self.node.value {
            NodeValue::Boolean(value) => visitor.visit_bool(*value),
            _ => Err(self.wrong_type("true or false, without quotes")),
        }
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match &self.node.value {
            NodeValue::Text(text, _) => visitor.visit_str(text),
            _ => Err(self.wrong_type("words in quotes")),
        }
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match &self.node.value {
            NodeValue::Null => visitor.visit_none(),
            _ => visitor.visit_some(self),
        }
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match &self.node.value {
            NodeValue::List(nodes) => visitor.visit_seq(Elements {
                nodes: nodes.iter(),
                reader: self,
            }),
            NodeValue::Table(_) => Err(list_wanted(self)),
            _ => Err(self.wrong_type("a list in [ ]")),
        }
    }

    fn deserialize_tuple<V: Visitor<'de>>(
        self,
        expected: usize,
        visitor: V,
    ) -> Result<V::Value, Fault> {
        match &self.node.value {
            NodeValue::List(nodes) if nodes.len() == expected => visitor.visit_seq(Elements {
                nodes: nodes.iter(),
                reader: self,
            }),
            NodeValue::List(nodes) => Err(wrong_count(self, expected, nodes)),
            _ => Err(self.wrong_type(&format!("a list of {expected} in [ ]"))),
        }
    }

    fn deserialize_tuple_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        length: usize,
        visitor: V,
    ) -> Result<V::Value, Fault> {
        match name {
            LOCATED => visitor.visit_seq(LocatedParts {
                reader: self,
                part: 0,
            }),
            EXPRESSION => {
                if let NodeValue::Text(text, start) = &self.node.value
                    && let Err(fault) = expression::parse(text)
                {
                    return Err(Fault::placed(fault.at(self.node.place, *start)));
                }
                visitor.visit_seq(ExpressionParts {
                    reader: self,
                    part: 0,
                })
            }
            _ => self.deserialize_tuple(length, visitor),
        }
    }

    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        match &self.node.value {
            NodeValue::Table(fields) => visitor.visit_map(Fields::of(fields, self)),
            _ => Err(self.wrong_type("a table")),
        }
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        name: &'static str,
        known: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        let NodeValue::Table(fields) = &self.node.value else {
            return Err(self.wrong_type(&format!("{name} in {{ }}")));
        };
        let errors = keys::faults(self.node, name, known);
        let faulty = !errors.is_empty();
        for error in errors {
            self.push(error);
        }
        let reader = Reader { what: name, ..self };
        let fields = Fields {
            known: Some(known),
            ..Fields::of(fields, reader)
        };
        match visitor.visit_map(fields) {
            // what the structure would say of itself repeats the faults of its keys
            Ok(_) | Err(Fault::Other(_)) if faulty => Err(Fault::Reported),
            result => report(result, reader),
        }
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        name: &'static str,
        variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, Fault> {
        let chosen = if name == "$by shape" {
            by_shape(self, variants)?
        } else {
            by_key(self, name, variants)?
        };
        visitor.visit_enum(chosen)
    }

    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        visitor: V,
    ) -> Result<V::Value, Fault> {
        visitor.visit_newtype_struct(self)
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, Fault> {
        self.deserialize_string(visitor)
    }

    forward_to_deserialize_any! {
        i8 i16 i32 i64 i128 u8 u16 u32 u64 u128 f32 f64 char bytes byte_buf unit unit_struct
        identifier ignored_any
    }
}

fn list_wanted(reader: Reader<'_>) -> Fault {
    let fault = FileFault::WrongType {
        what: reader.label(),
        expected: "a list".to_owned(),
        found: "a table".to_owned(),
    };
    let help = format!(
        "write its header with two brackets, [[… .{}]], or put the table into [ ]",
        reader.what
    );
    Fault::placed(DesignError::new(fault, reader.node.place).with_help(help))
}

fn wrong_count(reader: Reader<'_>, expected: usize, nodes: &[Node]) -> Fault {
    let fault = FileFault::WrongCount {
        what: reader.label(),
        expected,
        found: nodes.len(),
    };
    let help = if nodes.len() > expected {
        "numbers have a decimal point; the comma stands between entries"
    } else {
        "write both, such as [305, 0]"
    };
    Fault::placed(DesignError::new(fault, reader.node.place).with_help(help))
}

/// The variant of an enum named for the shape of its value.
fn by_shape<'a>(reader: Reader<'a>, variants: &[&'static str]) -> Result<Chosen<'a>, Fault> {
    let shape = match &reader.node.value {
        NodeValue::Table(_) => "table",
        NodeValue::List(_) => "list",
        _ => "value",
    };
    match variants.iter().find(|variant| **variant == shape) {
        Some(variant) => Ok(Chosen {
            variant,
            content: Some(reader),
            reader,
        }),
        None if variants.contains(&"table") => Err(reader.wrong_type("a length or a table")),
        None => Err(reader.wrong_type("a length or a list of two")),
    }
}

/// The variant of an enum by a key of its table, or by the word it is.
fn by_key<'a>(
    reader: Reader<'a>,
    name: &'static str,
    variants: &'static [&'static str],
) -> Result<Chosen<'a>, Fault> {
    let inline: Vec<&str> = name
        .strip_prefix("$inline ")
        .map(|keys| keys.split(' ').collect())
        .unwrap_or_default();
    let only_inline = variants.iter().all(|variant| inline.contains(variant));
    match &reader.node.value {
        NodeValue::Text(word, _) if !only_inline => by_word(reader, word, variants),
        NodeValue::Table(fields) => {
            let mut whole = fields
                .iter()
                .filter(|field| inline.contains(&field.key.value.as_str()));
            match (whole.next(), whole.next(), only_inline) {
                (Some(first), Some(second), true) => Err(only_one(reader, first, second)),
                (Some(first), _, _) => chosen(&first.key, reader, reader, variants),
                (None, _, true) => Err(one_needed(reader, &inline)),
                (None, _, false) => by_only_key(reader, fields, variants),
            }
        }
        _ if only_inline => Err(reader.wrong_type("a table")),
        _ => Err(reader.wrong_type(&keys::listed(variants))),
    }
}

fn by_word<'a>(
    reader: Reader<'a>,
    word: &str,
    variants: &'static [&'static str],
) -> Result<Chosen<'a>, Fault> {
    if let Some(variant) = variants.iter().find(|variant| **variant == word) {
        return Ok(Chosen {
            variant,
            content: None,
            reader,
        });
    }
    let fault = FileFault::UnknownWord {
        word: super::node::shortened(word),
        what: reader.label(),
    };
    let help = keys::suggestion(word, variants);
    Err(Fault::placed(
        DesignError::new(fault, reader.node.place).with_help(help),
    ))
}

fn by_only_key<'a>(
    reader: Reader<'a>,
    fields: &'a [Field],
    variants: &'static [&'static str],
) -> Result<Chosen<'a>, Fault> {
    match fields {
        [] => Err(one_needed(reader, variants)),
        [field] => {
            let content = reader.inner(&field.node, &field.key.value);
            chosen(&field.key, content, reader, variants)
        }
        [first, second, ..] => Err(only_one(reader, first, second)),
    }
}

fn chosen<'a>(
    key: &Word,
    content: Reader<'a>,
    reader: Reader<'a>,
    variants: &'static [&'static str],
) -> Result<Chosen<'a>, Fault> {
    match variants.iter().find(|variant| **variant == key.value) {
        Some(variant) => Ok(Chosen {
            variant,
            content: Some(content),
            reader,
        }),
        None => Err(Fault::placed(keys::unknown_key(
            key,
            &reader.label(),
            variants,
        ))),
    }
}

fn one_needed(reader: Reader<'_>, keys: &[&str]) -> Fault {
    let fault = FileFault::OneIsNeeded {
        within: reader.label(),
        choices: keys::listed(keys),
    };
    let help = format!("add {}", keys::listed(keys));
    Fault::placed(DesignError::new(fault, reader.node.place).with_help(help))
}

fn only_one(reader: Reader<'_>, first: &Field, second: &Field) -> Fault {
    let fault = FileFault::OnlyOneOf {
        within: reader.label(),
        first: first.key.value.clone(),
        second: second.key.value.clone(),
    };
    Fault::placed(
        DesignError::new(fault, second.key.place)
            .with_also(first.key.place, format!("`{}` is here", first.key.value))
            .with_help("take one of them out"),
    )
}

/// A chosen variant, and what it is read from.
struct Chosen<'a> {
    variant: &'static str,
    content: Option<Reader<'a>>,
    reader: Reader<'a>,
}

impl<'de> EnumAccess<'de> for Chosen<'_> {
    type Error = Fault;
    type Variant = Self;

    fn variant_seed<S: DeserializeSeed<'de>>(self, seed: S) -> Result<(S::Value, Self), Fault> {
        let variant = IntoDeserializer::<Fault>::into_deserializer(self.variant);
        Ok((seed.deserialize(variant)?, self))
    }
}

impl<'de> VariantAccess<'de> for Chosen<'_> {
    type Error = Fault;

    fn unit_variant(self) -> Result<(), Fault> {
        match self.content {
            None => Ok(()),
            Some(_) => Err(self
                .reader
                .wrong_type(&format!("the word \"{}\" alone", self.variant))),
        }
    }

    fn newtype_variant_seed<S: DeserializeSeed<'de>>(self, seed: S) -> Result<S::Value, Fault> {
        match self.content {
            Some(content) => report(seed.deserialize(content), content),
            None => Err(self
                .reader
                .wrong_type(&format!("a table {{ {} = … }}", self.variant))),
        }
    }

    fn tuple_variant<V: Visitor<'de>>(self, _: usize, _: V) -> Result<V::Value, Fault> {
        Err(self.reader.wrong_type("a table"))
    }

    fn struct_variant<V: Visitor<'de>>(
        self,
        _: &'static [&'static str],
        _: V,
    ) -> Result<V::Value, Fault> {
        Err(self.reader.wrong_type("a table"))
    }
}

/// The entries of a list, one by one; a fault in one goes to the sink.
struct Elements<'a> {
    nodes: std::slice::Iter<'a, Node>,
    reader: Reader<'a>,
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
struct Fields<'a> {
    rest: std::slice::Iter<'a, Field>,
    value: Option<&'a Field>,
    known: Option<&'static [&'static str]>,
    reader: Reader<'a>,
}

impl<'a> Fields<'a> {
    fn of(fields: &'a [Field], reader: Reader<'a>) -> Self {
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
struct LocatedParts<'a> {
    reader: Reader<'a>,
    part: u8,
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
struct ExpressionParts<'a> {
    reader: Reader<'a>,
    part: u8,
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
