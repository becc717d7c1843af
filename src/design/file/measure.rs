//! How a dimension or limit is taken on the finished part, as written.

use crate::design::located::Amount;
use crate::design::located::Located;
use crate::design::located::Word;
use schemars::JsonSchema;
use serde::Deserialize;

/// What a person would measure. Features are named: edges, corners, rounds, openings.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(rename = "$inline along")]
#[schemars(rename = "Measure")]
pub enum Measure {
    /// The weight of the part.
    #[serde(rename = "weight")]
    Weight,
    /// The area of one face.
    #[serde(rename = "area")]
    Area,
    /// The thickness of the plate.
    #[serde(rename = "thickness")]
    Thickness,
    /// The width square to the datum, at a station.
    #[serde(rename = "width")]
    Width(Width),
    /// The distance between two features.
    #[serde(rename = "distance")]
    Distance(Distance),
    /// The radius of a round, fillet, arc or round opening.
    #[serde(rename = "radius")]
    Radius(Word),
    /// The diameter of a round opening.
    #[serde(rename = "diameter")]
    Diameter(Word),
    /// The height of a curved edge over the straight line between its ends, full or hollow: the ends
    /// that the finished edge has, beside the roundings of its corners.
    #[serde(rename = "bow")]
    Bow(Word),
    /// The size of a rectangle or slot: from one side to the side opposite.
    #[serde(rename = "size")]
    Size(OpeningSize),
    /// The angle between two edges, inside the material.
    #[serde(rename = "angle")]
    Angle(Between),
    /// The least width of metal between two features.
    #[serde(rename = "strip")]
    Strip(Between),
    /// From the rim of an opening to the edge of the part.
    #[serde(rename = "edge_distance")]
    EdgeDistance(EdgeDistance),
    /// The place of a feature along the datum or square to it.
    #[serde(rename = "position")]
    Position(FeaturePosition),
    /// The distance between two features along an edge.
    #[serde(rename = "along")]
    #[schemars(untagged)]
    Along(Along),
}

/// The width square to the datum, at a station.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(try_from = "WidthText")]
#[schemars(with = "WidthText")]
pub struct Width {
    /// The feature that the station is counted from.
    pub from: Word,
    /// How far into the part the station is.
    pub by: Amount,
    /// Where the width ends; the tool chooses if it is not said.
    pub to: Option<Located<WidthEnd>>,
    /// Whether openings are left out of it.
    pub metal: MetalCount,
}

/// What counts into a width.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MetalCount {
    /// From the outermost crossing to the other, openings or not.
    OverAll,
    /// Metal only.
    MetalOnly,
}

/// Where a width ends that runs to a rounded corner.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename = "to")]
#[schemars(rename = "WidthEnd")]
pub enum WidthEnd {
    /// Where the edges would meet without the rounding.
    #[serde(rename = "sharp corner")]
    SharpCorner,
    /// On the metal that is there.
    #[serde(rename = "over the rounds")]
    OverTheRounds,
}

/// The keys of a width.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a width")]
#[schemars(rename = "Width")]
struct WidthText {
    /// The feature that the station is counted from.
    above: Option<Word>,
    /// The same as `above`.
    from: Option<Word>,
    /// How far into the part the station is, from the feature.
    by: Amount,
    /// Where the width ends, if it runs to a rounded corner.
    to: Option<Located<WidthEnd>>,
    /// Whether openings are left out of it.
    #[serde(default)]
    metal_only: bool,
}

impl TryFrom<WidthText> for Width {
    type Error = &'static str;

    fn try_from(text: WidthText) -> Result<Self, Self::Error> {
        Ok(Self {
            from: text
                .above
                .or(text.from)
                .ok_or("a width needs `above` or `from`")?,
            by: text.by,
            to: text.to,
            metal: if text.metal_only {
                MetalCount::MetalOnly
            } else {
                MetalCount::OverAll
            },
        })
    }
}

/// The distance between two features along an edge.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a distance along an edge")]
#[schemars(rename = "Along")]
pub struct Along {
    /// The edge whose direction counts.
    pub along: Word,
    /// The feature that it starts at.
    pub from: Word,
    /// The feature that it ends at.
    pub to: Word,
}

/// The distance between two features: centres of openings and rounds, points of corners, the nearest
/// of edges.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a distance")]
#[schemars(rename = "Distance")]
pub struct Distance {
    /// The one feature.
    pub from: Word,
    /// The other.
    pub to: Word,
}

/// The size of an opening with parallel sides: a rectangle, a slot.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "the size of an opening")]
#[schemars(rename = "OpeningSize")]
pub struct OpeningSize {
    /// The opening.
    pub of: Word,
    /// Which of its sizes.
    pub way: Located<SizeWay>,
}

/// Which size of an opening, by the word that it is written with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename = "way")]
#[schemars(rename = "SizeWay")]
pub enum SizeWay {
    /// The `width` of a rectangle or slot.
    #[serde(rename = "width")]
    Width,
    /// The `height` of a rectangle.
    #[serde(rename = "height")]
    Height,
}

/// Two features.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a measure between two features")]
#[schemars(rename = "Between")]
pub struct Between {
    /// Their names.
    pub between: [Word; 2],
}

/// From the rim of an opening to the edge of the part.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "an edge distance")]
#[schemars(rename = "EdgeDistance")]
pub struct EdgeDistance {
    /// The opening.
    pub of: Word,
    /// The edge; the nearest if not given.
    pub to: Option<Word>,
}

/// The place of a feature along the datum or square to it.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a position")]
#[schemars(rename = "FeaturePosition")]
pub struct FeaturePosition {
    /// The feature.
    pub of: Word,
    /// What it is counted from; the datum point if not given.
    pub from: Option<Word>,
    /// Which way it is counted.
    pub way: Located<Way>,
}

/// Which way a position is counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename = "way")]
#[schemars(rename = "Way")]
pub enum Way {
    /// Along the datum edge.
    #[serde(rename = "along")]
    Along,
    /// Square to the datum edge.
    #[serde(rename = "square")]
    Square,
}
