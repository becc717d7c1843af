//! The variant of an enum: by the shape of its value, a key of its table, or a word.

use super::super::fault::Fault;
use super::super::keys;
use super::super::node::Field;
use super::super::node::NodeValue;
use super::super::node::shortened;
use super::Reader;
use super::report;
use crate::design::error::DesignError;
use crate::design::error::FileFault;
use crate::design::located::Word;
use serde::de::DeserializeSeed;
use serde::de::EnumAccess;
use serde::de::IntoDeserializer;
use serde::de::VariantAccess;
use serde::de::Visitor;

/// The variant of an enum named for the shape of its value.
pub(super) fn by_shape<'a>(
    reader: Reader<'a>,
    variants: &[&'static str],
) -> Result<Chosen<'a>, Fault> {
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
pub(super) fn by_key<'a>(
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
        word: shortened(word),
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
pub(super) struct Chosen<'a> {
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
