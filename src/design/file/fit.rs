//! Fits as written: what goes into what, and what is laid on or taken off on the way.

use super::measure::Measure;
use crate::design::located::Amount;
use crate::design::located::List;
use crate::design::located::Located;
use crate::design::located::Word;
use schemars::JsonSchema;
use serde::Deserialize;

/// Something that goes into something else, and how loose it is to be.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a fit")]
#[schemars(rename = "Fit")]
pub struct Fit {
    /// What goes into what, in words.
    pub what: Word,
    /// What goes in: a part in its slot, a tenon in its mortise, a pin.
    pub inner: Side,
    /// What it goes into.
    pub outer: Side,
    /// A second piece that the same pins go through: its holes.
    pub second: Option<Side>,
    /// Not less clearance than this; 0 if not given.
    pub min: Option<Amount>,
    /// Not more clearance than this.
    pub max: Option<Amount>,
    /// Remark.
    pub note: Option<Word>,
}

/// One side of a fit: a measure on a part, or a size bought or measured.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a side of a fit")]
#[schemars(rename = "FitSide")]
pub struct Side {
    /// The part that it is measured on; the only one if not given.
    pub part: Option<Word>,
    /// Its size as it is measured on the part.
    pub measure: Option<Located<Measure>>,
    /// Its size, where it is no part of this file: a bolt, the slot of the boat.
    pub size: Option<Amount>,
    /// What its size may be off, as a plus-or-minus; for a measured part what its dimensions bring.
    pub spread: Option<Amount>,
    /// How far two pins or two holes stand apart, measured on the part.
    pub apart: Option<Located<Measure>>,
    /// What that distance may be off, as a plus-or-minus; what its dimensions bring if not given.
    pub apart_spread: Option<Amount>,
    /// Thickness of the paint or coating on each of its faces; none if not given.
    pub coating: Option<Amount>,
}

/// What is taken off an edge or a face after it was cut, and what is laid on it.
#[derive(Clone, Debug, Default, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a finish")]
#[schemars(rename = "Finish")]
pub struct Finish {
    /// How far outside the line it is sawn or cut; edges only.
    pub saw: Option<Amount>,
    /// What filing takes off.
    pub file: Option<Amount>,
    /// What sanding takes off.
    pub sand: Option<Amount>,
    /// What polishing takes off.
    pub polish: Option<Amount>,
    /// Thickness of what is laid on: paint, zinc, anodising, as it grows outward.
    pub coating: Option<Amount>,
}

/// Every fit of a file.
pub type Fits = List<Located<Fit>>;
