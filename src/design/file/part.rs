//! A part as written.

use super::fit::Finish;
use super::mark::Limit;
use super::mark::Mark;
use super::mark::Scribe;
use super::opening::Opening;
use super::trip::Entry;
use crate::design::located::Amount;
use crate::design::located::List;
use crate::design::located::Located;
use crate::design::located::Pair;
use crate::design::located::Word;
use schemars::JsonSchema;
use serde::Deserialize;

/// A part as written. It has an outline, or mirrors another part.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a part")]
#[schemars(rename = "Part")]
pub struct Part {
    /// The plate that it is cut from.
    pub plate: Option<Word>,
    /// How many are made; one if not given.
    pub quantity: Option<Amount>,
    /// Anything to say about it.
    pub note: Option<Word>,
    /// The edge and the point that everything is measured from.
    pub datum: Option<Located<Datum>>,
    /// The part that this one is the mirror image of.
    pub mirror_of: Option<Word>,
    /// Openings taken over from another part.
    pub share_openings: Option<Located<SharedOpenings>>,
    /// The outline, anticlockwise.
    pub outline: Option<Located<List<Entry>>>,
    /// What is done to its edges after they are cut.
    pub edges: Option<Located<Finish>>,
    /// Its openings.
    #[serde(default)]
    pub opening: List<Located<Opening>>,
    /// Lines to scribe on it.
    #[serde(default)]
    pub scribe: List<Scribe>,
    /// Points to mark on it.
    #[serde(default)]
    pub mark: List<Located<Mark>>,
    /// Limits that no named dimension carries.
    #[serde(default)]
    pub limit: List<Located<Limit>>,
}

/// What everything is measured from.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a datum")]
#[schemars(rename = "Datum")]
pub struct Datum {
    /// The straight edge.
    pub along: Word,
    /// The corner or other point.
    pub from: Word,
}

/// Openings taken over from another part, such as pin holes that must line up.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "`share_openings`")]
#[schemars(rename = "SharedOpenings")]
pub struct SharedOpenings {
    /// The part that has them.
    pub of: Word,
    /// Their names; all of them if not given.
    pub names: Option<List<Word>>,
    /// How far they are moved.
    pub shift: Option<Pair>,
}
