//! A named dimension as written.

use super::measure::Measure;
use crate::design::located::Amount;
use crate::design::located::List;
use crate::design::located::Located;
use crate::design::located::Word;
use schemars::JsonSchema;
use serde::Deserialize;

/// A dimension: a value alone, or a table with limits and where it comes from.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(rename = "$by shape")]
#[schemars(rename = "Dimension", untagged)]
pub enum DimensionEntry {
    /// The value alone.
    #[serde(rename = "value")]
    Short(Amount),
    /// A table.
    #[serde(rename = "table")]
    Table(Located<Box<DimensionTable>>),
}

/// A dimension with limits and where it comes from.
#[derive(Clone, Debug, Default, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a dimension")]
#[schemars(rename = "DimensionTable")]
pub struct DimensionTable {
    /// Its value, or `"open"` if it is still to be measured.
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
    /// Where it comes from.
    pub origin: Option<Located<Origin>>,
    /// Remark: the clause, what is measured.
    pub note: Option<Word>,
    /// What the maker achieves or the instrument reads: a plus-or-minus, or `plus` and `minus`.
    pub spread: Option<SpreadEntry>,
    /// What it is or was measured with.
    pub with: Option<Word>,
    /// What was measured; their mean is the value if none is given.
    #[serde(default)]
    pub readings: List<Amount>,
    /// The unit of its bare numbers, `"none"` for a count.
    pub unit: Option<Located<DimensionUnit>>,
    /// What it repeats.
    pub reference: Option<Reference>,
    /// How it is taken on the finished part.
    pub measure: Option<Located<Measure>>,
    /// The part that the measure is taken on, if the file has several.
    pub part: Option<Word>,
}

/// How far a dimension is expected to come out from its value.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(rename = "$by shape")]
#[schemars(rename = "Spread", untagged)]
pub enum SpreadEntry {
    /// The same both ways.
    #[serde(rename = "value")]
    Both(Amount),
    /// Another way up than down.
    #[serde(rename = "table")]
    Each(SpreadBand),
}

/// A spread that is larger to one side, such as that of an edge which is only ever left too large.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a spread")]
#[schemars(rename = "SpreadBand")]
pub struct SpreadBand {
    /// Upwards; nothing if not given.
    pub plus: Option<Amount>,
    /// Downwards, as a positive number; nothing if not given.
    pub minus: Option<Amount>,
}

/// Where a dimension comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename = "origin", rename_all = "lowercase")]
#[schemars(rename = "Origin")]
pub enum Origin {
    /// The rules or the sketch say so.
    Rule,
    /// It was measured, on the boat or on the plate.
    Measured,
    /// The builder chose it.
    Chosen,
    /// It follows from other dimensions.
    Derived,
}

/// The unit of the bare numbers of a dimension.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename = "unit")]
#[schemars(rename = "DimensionUnit")]
pub enum DimensionUnit {
    /// A count or a ratio.
    #[serde(rename = "none")]
    None,
    /// Millimetres.
    #[serde(rename = "mm")]
    Millimetre,
    /// Centimetres.
    #[serde(rename = "cm")]
    Centimetre,
    /// Metres.
    #[serde(rename = "m")]
    Metre,
    /// Inches.
    #[serde(rename = "in")]
    Inch,
    /// Feet.
    #[serde(rename = "ft")]
    Foot,
    /// Degrees of angle.
    #[serde(rename = "deg")]
    Degree,
}

/// What a dimension repeats.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a reference")]
#[schemars(rename = "Reference")]
pub struct Reference {
    /// The expression that it must agree with, within its own tolerance.
    pub of: Amount,
}

/// What is permitted, as written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Tolerance<'a> {
    /// Nothing is said.
    Unsaid,
    /// The same both ways of the value.
    Both(&'a Amount),
    /// Upwards and downwards of the value; what is left out is zero.
    Each(Option<&'a Amount>, Option<&'a Amount>),
}

impl<'a> Tolerance<'a> {
    /// What `tol`, `plus` and `minus` say together.
    pub fn of(
        tol: Option<&'a Amount>,
        plus: Option<&'a Amount>,
        minus: Option<&'a Amount>,
    ) -> Self {
        match (tol, plus, minus) {
            (Some(tol), _, _) => Self::Both(tol),
            (None, None, None) => Self::Unsaid,
            (None, plus, minus) => Self::Each(plus, minus),
        }
    }
}

impl DimensionTable {
    /// The tolerance that was written: `tol`, or `plus` and `minus`.
    pub fn tolerance(&self) -> Tolerance<'_> {
        Tolerance::of(self.tol.as_ref(), self.plus.as_ref(), self.minus.as_ref())
    }
}
