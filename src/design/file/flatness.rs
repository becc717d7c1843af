//! The flatness of a plate as written.

use crate::design::located::Amount;
use crate::design::located::List;
use crate::design::located::Word;
use schemars::JsonSchema;
use serde::Deserialize;

/// How flat a plate is, and how flat it has to be.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a flatness")]
#[schemars(rename = "Flatness")]
pub struct Flatness {
    /// The length of the straight edge under which gaps are measured.
    pub straight_edge: Option<Amount>,
    /// The span over which a bow is measured: from a string or a bar on two equal blocks.
    pub span: Option<Amount>,
    /// The most that is permitted.
    pub max: Option<Amount>,
    /// The gaps or bows that were measured.
    #[serde(default)]
    pub readings: List<Amount>,
    /// What they were measured with; feeler gauges under a straight edge, a steel rule over a span, if not
    /// said.
    pub with: Option<Word>,
    /// What the mill states that it delivers, over the same length.
    pub mill: Option<Amount>,
    /// Remark.
    pub note: Option<Word>,
}
