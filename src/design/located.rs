//! A value of the design file with its place.

use super::expression::Expression;
use super::source::Place;
use schemars::JsonSchema;
use schemars::Schema;
use schemars::SchemaGenerator;
use serde::Deserialize;
use serde::Deserializer;
use serde::de::MapAccess;
use serde::de::SeqAccess;
use serde::de::Visitor;
use std::borrow::Cow;
use std::fmt;
use std::marker::PhantomData;

/// Name by which [`Located`] asks our reader for places.
pub(super) const LOCATED: &str = "$located";

/// Name by which [`List`] and [`Entries`] ask our reader to go on after a faulty entry. Its faults are in
/// the reader's sink by then, so that what is left is never taken for the whole; other readers refuse.
pub(super) const COLLECTION: &str = "$collection";

/// A value and where it stands.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Located<T> {
    /// Where it stands.
    pub place: Place,
    /// The value.
    pub value: T,
}

/// A number, a string with a unit, or an expression, with its place: what any size in a design file
/// may be.
pub type Amount = Located<Expression>;

/// Two amounts in a list: x and y of a point, or two sizes.
pub type Pair = Located<[Amount; 2]>;

/// A word with its place: a name, a title.
pub type Word = Located<String>;

impl<T> Located<T> {
    /// A value at a place.
    pub const fn new(place: Place, value: T) -> Self {
        Self { place, value }
    }
}

impl Word {
    /// The word alone.
    pub fn as_str(&self) -> &str {
        &self.value
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Located<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_tuple_struct(LOCATED, 3, LocatedVisitor(PhantomData))
    }
}

/// Takes start, end and value from our reader.
struct LocatedVisitor<T>(PhantomData<T>);

impl<'de, T: Deserialize<'de>> Visitor<'de> for LocatedVisitor<T> {
    type Value = Located<T>;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str("a value with its place")
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut access: A) -> Result<Self::Value, A::Error> {
        let missing = || serde::de::Error::custom("the reader gives no places");
        let start = access.next_element()?.ok_or_else(missing)?;
        let end = access.next_element()?.ok_or_else(missing)?;
        let value = access.next_element()?.ok_or_else(missing)?;
        Ok(Located::new(Place::new(start, end), value))
    }
}

impl<T: JsonSchema> JsonSchema for Located<T> {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        T::schema_name()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        generator.subschema_for::<T>()
    }
}

/// A named entry of a table of the design file: a dimension, a plate, a part.
#[derive(Clone, Debug, PartialEq)]
pub struct Named<T> {
    /// Its name.
    pub name: Word,
    /// What stands under the name.
    pub entry: T,
}

/// A table of named entries, in the order of the file.
#[derive(Clone, Debug, PartialEq)]
pub struct Entries<T>(Vec<Named<T>>);

impl<T> Default for Entries<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<T> Entries<T> {
    /// The entry of this name.
    pub fn get(&self, name: &str) -> Option<&Named<T>> {
        self.0.iter().find(|named| named.name.value == name)
    }

    /// The entries in the order of the file.
    pub fn iter(&self) -> std::slice::Iter<'_, Named<T>> {
        self.0.iter()
    }

    /// The entry of this name, to be changed.
    pub(crate) fn get_mut(&mut self, name: &str) -> Option<&mut Named<T>> {
        self.0.iter_mut().find(|named| named.name.value == name)
    }

    /// The names in the order of the file.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.0.iter().map(|named| named.name.value.as_str())
    }

    /// How many there are.
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// Whether there is none.
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }
}

impl<'a, T> IntoIterator for &'a Entries<T> {
    type Item = &'a Named<T>;
    type IntoIter = std::slice::Iter<'a, Named<T>>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.iter()
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for Entries<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_newtype_struct(COLLECTION, EntriesVisitor(PhantomData))
    }
}

/// Reads named entries; goes on after a faulty one, so that all faults are found.
struct EntriesVisitor<T>(PhantomData<T>);

impl<'de, T: Deserialize<'de>> Visitor<'de> for EntriesVisitor<T> {
    type Value = Entries<T>;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str("a table of named entries")
    }

    fn visit_newtype_struct<D: Deserializer<'de>>(self, reader: D) -> Result<Entries<T>, D::Error> {
        reader.deserialize_map(self)
    }

    fn visit_map<A: MapAccess<'de>>(self, mut access: A) -> Result<Entries<T>, A::Error> {
        let mut entries = Vec::new();
        while let Some(name) = access.next_key()? {
            if let Ok(entry) = access.next_value() {
                entries.push(Named { name, entry });
            }
        }
        Ok(Entries(entries))
    }
}

impl<T: JsonSchema> JsonSchema for Entries<T> {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        format!("NamedEntriesOf{}", T::schema_name()).into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let entry = generator.subschema_for::<T>();
        schemars::json_schema!({ "type": "object", "additionalProperties": entry })
    }
}

/// A list of entries.
#[derive(Clone, Debug, PartialEq)]
pub struct List<T>(Vec<T>);

impl<T> Default for List<T> {
    fn default() -> Self {
        Self(Vec::new())
    }
}

impl<T> std::ops::Deref for List<T> {
    type Target = [T];

    fn deref(&self) -> &[T] {
        &self.0
    }
}

impl<T> std::ops::DerefMut for List<T> {
    fn deref_mut(&mut self) -> &mut [T] {
        &mut self.0
    }
}

impl<'a, T> IntoIterator for &'a List<T> {
    type Item = &'a T;
    type IntoIter = std::slice::Iter<'a, T>;

    fn into_iter(self) -> Self::IntoIter {
        self.0.iter()
    }
}

impl<'de, T: Deserialize<'de>> Deserialize<'de> for List<T> {
    fn deserialize<D: Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        deserializer.deserialize_newtype_struct(COLLECTION, ListVisitor(PhantomData))
    }
}

/// Reads a list; goes on after a faulty entry, so that all faults are found.
struct ListVisitor<T>(PhantomData<T>);

impl<'de, T: Deserialize<'de>> Visitor<'de> for ListVisitor<T> {
    type Value = List<T>;

    fn expecting(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        formatter.write_str("a list")
    }

    fn visit_newtype_struct<D: Deserializer<'de>>(self, reader: D) -> Result<List<T>, D::Error> {
        reader.deserialize_seq(self)
    }

    fn visit_seq<A: SeqAccess<'de>>(self, mut access: A) -> Result<List<T>, A::Error> {
        let mut entries = Vec::new();
        loop {
            match access.next_element() {
                Ok(Some(entry)) => entries.push(entry),
                Ok(None) => return Ok(List(entries)),
                Err(_) => {}
            }
        }
    }
}

impl<T: JsonSchema> JsonSchema for List<T> {
    fn inline_schema() -> bool {
        true
    }

    fn schema_name() -> Cow<'static, str> {
        Vec::<T>::schema_name()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        Vec::<T>::json_schema(generator)
    }
}
