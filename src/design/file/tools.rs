//! The maker's own tools as written: what there is to drill, saw, rout and scribe round with.

use crate::design::located::Amount;
use crate::design::located::List;
use crate::design::located::Located;
use crate::design::located::Word;
use schemars::JsonSchema;
use serde::Deserialize;

/// The tools in hand. Sizes are diameters, of radius gauges radii.
#[derive(Clone, Debug, Default, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "`tools`")]
#[schemars(rename = "Tools")]
pub struct Tools {
    /// Drills.
    #[serde(default)]
    pub drill: List<ToolEntry>,
    /// Hole saws.
    #[serde(default)]
    pub hole_saw: List<ToolEntry>,
    /// Router bits and milling cutters.
    #[serde(default)]
    pub bit: List<ToolEntry>,
    /// Washers, coins, tins: round things to scribe round.
    #[serde(default)]
    pub washer: List<ToolEntry>,
    /// Radius gauges.
    #[serde(default)]
    pub radius_gauge: List<ToolEntry>,
}

/// A tool: its size alone, or a table.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(rename = "$by shape")]
#[schemars(rename = "Tool", untagged)]
pub enum ToolEntry {
    /// Its size alone.
    #[serde(rename = "value")]
    Size(Amount),
    /// A table.
    #[serde(rename = "table")]
    Table(Located<ToolTable>),
}

/// A tool with what it measures.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a tool")]
#[schemars(rename = "ToolTable")]
pub struct ToolTable {
    /// The size that it is sold as.
    pub size: Amount,
    /// The size that callipers read on it, or on the hole that it makes.
    pub measured: Option<Amount>,
    /// Remark.
    pub note: Option<Word>,
}
