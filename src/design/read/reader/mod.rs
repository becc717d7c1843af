//! The tree handed to `serde` structures, with places.
//!
//! Some names mean something to this reader: [`LOCATED`] and [`EXPRESSION`] ask for places; enums
//! named `$by shape` choose their variant by whether the value is a table, a list or a single value,
//! enums named `$inline a b` by which of the keys a and b the table has (the variant is then read from
//! the whole table). All other enums are tagged by their only key.

mod contents;
mod variant;

use super::fault::Fault;
use super::keys;
use super::node::Node;
use super::node::NodeValue;
use crate::design::error::DesignError;
use crate::design::error::FileFault;
use crate::design::error::Sink;
use crate::design::expression;
use crate::design::expression::EXPRESSION;
use crate::design::expression::Term;
use crate::design::located::LOCATED;
use contents::Elements;
use contents::ExpressionParts;
use contents::Fields;
use contents::LocatedParts;
use serde::de::Deserializer;
use serde::de::Visitor;
use serde::forward_to_deserialize_any;
use std::cell::RefCell;
use std::collections::BTreeSet;
use variant::by_key;
use variant::by_shape;

/// A node being read, what it is called in messages, and where faults go.
#[derive(Clone, Copy)]
pub(super) struct Reader<'a> {
    node: &'a Node,
    what: &'a str,
    sink: &'a RefCell<Sink>,
    /// The names that the expressions read so far use.
    used: &'a RefCell<BTreeSet<String>>,
}

impl<'a> Reader<'a> {
    pub(super) fn new(
        node: &'a Node,
        what: &'a str,
        sink: &'a RefCell<Sink>,
        used: &'a RefCell<BTreeSet<String>>,
    ) -> Self {
        Self {
            node,
            what,
            sink,
            used,
        }
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

    /// Keeps the names that an expression uses.
    fn note_names(self, term: &Term) {
        let mut names = Vec::new();
        term.collect_names(&mut names);
        let mut used = self.used.borrow_mut();
        for (name, _) in names {
            if !used.contains(name) {
                used.insert(name.to_owned());
            }
        }
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
                if let NodeValue::Text(text, start) = &self.node.value {
                    let term = expression::parse(text)
                        .map_err(|fault| Fault::placed(fault.at(self.node.place, *start)))?;
                    self.note_names(&term);
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
            // the key that is missing is there, and misspelt: that was told
            Err(Fault::Missing(key)) if keys::is_misspelt(self.node, known, &key) => {
                Err(Fault::Reported)
            }
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
