//! Scribed lines, marked points and limits as written.

use super::dimension::Tolerance;
use super::measure::Measure;
use crate::design::located::Amount;
use crate::design::located::List;
use crate::design::located::Located;
use crate::design::located::Pair;
use crate::design::located::Word;
use schemars::JsonSchema;
use serde::Deserialize;

/// A line to scribe on the part.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(rename = "$inline along from")]
#[schemars(rename = "ScribeLine", untagged)]
pub enum ScribeLine {
    /// Along an edge, inside it.
    #[serde(rename = "along")]
    Along(ScribeAlong),
    /// Straight, between two points.
    #[serde(rename = "from")]
    Between(ScribeBetween),
}

/// A line to scribe, with its place.
pub type Scribe = Located<ScribeLine>;

impl ScribeLine {
    /// Its name.
    pub fn name(&self) -> &Word {
        match self {
            Self::Along(line) => &line.name,
            Self::Between(line) => &line.name,
        }
    }
}

/// A line to scribe along an edge.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a scribed line along an edge")]
#[schemars(rename = "ScribeAlong")]
pub struct ScribeAlong {
    /// Its name.
    pub name: Word,
    /// The edge.
    pub along: Word,
    /// How far inside the edge.
    pub inset: Amount,
}

/// A line to scribe between two points.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a scribed line between points")]
#[schemars(rename = "ScribeBetween")]
pub struct ScribeBetween {
    /// Its name.
    pub name: Word,
    /// Its one end.
    pub from: Pair,
    /// Its other end.
    pub to: Pair,
}

/// A point to mark, or several.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(try_from = "MarkText")]
#[schemars(with = "MarkText")]
pub struct Mark {
    /// Its name.
    pub name: Word,
    /// Where.
    pub places: Vec<Pair>,
}

/// The keys of a mark.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a mark")]
#[schemars(rename = "Mark")]
struct MarkText {
    /// Its name.
    name: Word,
    /// Where it is.
    at: Option<Pair>,
    /// Where they are.
    places: Option<List<Pair>>,
}

impl TryFrom<MarkText> for Mark {
    type Error = &'static str;

    fn try_from(text: MarkText) -> Result<Self, Self::Error> {
        let places = match (text.at, text.places) {
            (Some(at), None) => vec![at],
            (None, Some(places)) => places.to_vec(),
            _ => return Err("a mark needs one of `at`, `places`"),
        };
        Ok(Self {
            name: text.name,
            places,
        })
    }
}

/// A limit on something that is no named dimension.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a limit")]
#[schemars(rename = "Limit")]
pub struct Limit {
    /// What is limited, in words.
    pub what: Word,
    /// How it is taken on the finished part.
    pub measure: Located<Measure>,
    /// The value that `tol`, `plus` and `minus` are about; what the part has if not given.
    pub value: Option<Amount>,
    /// The same permitted deviation both ways.
    pub tol: Option<Amount>,
    /// Permitted deviation upwards.
    pub plus: Option<Amount>,
    /// Permitted deviation downwards, as a positive number.
    pub minus: Option<Amount>,
    /// Not less than this.
    pub min: Option<Amount>,
    /// Not more than this.
    pub max: Option<Amount>,
    /// Remark: the clause.
    pub note: Option<Word>,
}

impl Limit {
    /// The tolerance that was written: `tol`, or `plus` and `minus`.
    pub fn tolerance(&self) -> Tolerance<'_> {
        Tolerance::of(self.tol.as_ref(), self.plus.as_ref(), self.minus.as_ref())
    }
}
