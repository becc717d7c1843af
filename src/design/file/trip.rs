//! The round trip of an outline as written: corners, rounds, and the edges that leave them.

use super::edge::Edge;
use crate::design::located::Amount;
use crate::design::located::Located;
use crate::design::located::Pair;
use crate::design::located::Word;
use schemars::JsonSchema;
use serde::Deserialize;

/// An entry of an outline, anticlockwise round the part.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(rename = "$inline corner round")]
#[schemars(rename = "Entry", untagged)]
pub enum Entry {
    /// A point.
    #[serde(rename = "corner")]
    Corner(Box<Located<Corner>>),
    /// A circle that its neighbours run onto.
    #[serde(rename = "round")]
    Round(Box<Located<Round>>),
}

impl Entry {
    /// Its name.
    pub fn name(&self) -> &Word {
        match self {
            Self::Corner(corner) => &corner.value.name,
            Self::Round(round) => &round.value.name,
        }
    }

    /// The edge that leaves it, if anything is said about it.
    pub fn edge(&self) -> Option<&Located<Edge>> {
        match self {
            Self::Corner(corner) => corner.value.edge.as_ref(),
            Self::Round(round) => round.value.edge.as_ref(),
        }
    }

    /// Where it stands in the file.
    pub fn place(&self) -> crate::design::Place {
        match self {
            Self::Corner(corner) => corner.place,
            Self::Round(round) => round.place,
        }
    }
}

/// A point of an outline.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(try_from = "CornerText")]
#[schemars(with = "CornerText")]
pub struct Corner {
    /// Its name.
    pub name: Word,
    /// Where it is.
    pub at: Pair,
    /// What becomes of it.
    pub treatment: CornerTreatment,
    /// The edge that leaves it.
    pub edge: Option<Located<Edge>>,
}

/// What becomes of a corner.
#[derive(Clone, Debug, PartialEq)]
pub enum CornerTreatment {
    /// It stays sharp.
    Sharp,
    /// Rounded to a radius.
    Fillet(Amount),
    /// Cut off: so much of both edges, or of the edge before and of the edge after.
    Chamfer(OneOrPair),
    /// An inside corner cut out for a square mate.
    Relief(Relief),
}

/// One amount, or two in a list.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(rename = "$by shape")]
#[schemars(rename = "OneOrPair", untagged)]
pub enum OneOrPair {
    /// The same on both sides.
    #[serde(rename = "value")]
    One(Amount),
    /// Of the edge before, and of the edge after.
    #[serde(rename = "list")]
    Two(Pair),
}

/// An inside corner cut out by a round cutter, so that a square corner fits in.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a relief")]
#[schemars(rename = "Relief")]
pub struct Relief {
    /// The diameter of the cutter.
    pub cutter: Amount,
    /// Which way it cuts; both edges alike if not given.
    pub into: Option<Located<ReliefSide>>,
}

/// Which way a relief cuts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename = "into")]
#[schemars(rename = "ReliefSide")]
pub enum ReliefSide {
    /// Along the line that halves the corner.
    #[serde(rename = "both")]
    Both,
    /// Into the edge before.
    #[serde(rename = "edge before")]
    EdgeBefore,
    /// Into the edge after.
    #[serde(rename = "edge after")]
    EdgeAfter,
}

/// A circle that the neighbours of it run onto, tangent.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(from = "RoundText")]
#[schemars(with = "RoundText")]
pub struct Round {
    /// Its name.
    pub name: Word,
    /// Its centre.
    pub about: Pair,
    /// Its radius.
    pub radius: Amount,
    /// Where the material is.
    pub side: RoundSide,
    /// The edge that leaves it.
    pub edge: Option<Located<Edge>>,
}

/// Where the material of a round is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RoundSide {
    /// Inside the circle.
    Full,
    /// Outside it.
    Hollow,
}

/// The keys of a corner.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a corner")]
#[schemars(rename = "Corner")]
struct CornerText {
    /// Its name.
    corner: Word,
    /// Where it is.
    at: Pair,
    /// Radius that it is rounded to.
    fillet: Option<Amount>,
    /// How much of the edges is cut off.
    chamfer: Option<OneOrPair>,
    /// An inside corner cut out for a square mate.
    relief: Option<Relief>,
    /// The edge that leaves it.
    edge: Option<Located<Edge>>,
}

impl TryFrom<CornerText> for Corner {
    type Error = &'static str;

    fn try_from(text: CornerText) -> Result<Self, Self::Error> {
        let treatment = match (text.fillet, text.chamfer, text.relief) {
            (None, None, None) => CornerTreatment::Sharp,
            (Some(radius), None, None) => CornerTreatment::Fillet(radius),
            (None, Some(size), None) => CornerTreatment::Chamfer(size),
            (None, None, Some(relief)) => CornerTreatment::Relief(relief),
            _ => return Err("a corner has only one of `fillet`, `chamfer`, `relief`"),
        };
        Ok(Self {
            name: text.corner,
            at: text.at,
            treatment,
            edge: text.edge,
        })
    }
}

/// The keys of a round.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a round")]
#[schemars(rename = "Round")]
struct RoundText {
    /// Its name.
    round: Word,
    /// Its centre.
    about: Pair,
    /// Its radius.
    radius: Amount,
    /// Whether the material is outside it.
    #[serde(default)]
    hollow: bool,
    /// The edge that leaves it.
    edge: Option<Located<Edge>>,
}

impl From<RoundText> for Round {
    fn from(text: RoundText) -> Self {
        Self {
            name: text.round,
            about: text.about,
            radius: text.radius,
            side: if text.hollow {
                RoundSide::Hollow
            } else {
                RoundSide::Full
            },
            edge: text.edge,
        }
    }
}
