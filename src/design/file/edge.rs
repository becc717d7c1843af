//! An edge as written: its shape and its state.

use crate::design::located::Amount;
use crate::design::located::List;
use crate::design::located::Pair;
use crate::design::located::Word;
use schemars::JsonSchema;
use serde::Deserialize;

/// The edge that leaves an entry of the outline.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(try_from = "EdgeText")]
#[schemars(with = "EdgeText")]
pub struct Edge {
    /// Its name.
    pub name: Option<Word>,
    /// What happens to it.
    pub state: EdgeState,
    /// How it runs.
    pub shape: EdgeShape,
}

/// What happens to an edge.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum EdgeState {
    /// It is cut, as usual.
    #[default]
    Cut,
    /// It is the plate's own, dressed and not cut.
    PlateEdge,
    /// A strip is left on, so wide.
    LeaveOn(Amount),
    /// It is trimmed when the part is fitted.
    TrimAtFitting,
}

/// How an edge runs from its entry to the next.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum EdgeShape {
    /// Straight, and tangent to a round at its end.
    #[default]
    Straight,
    /// An arc of this radius with the material inside it.
    Full(Amount),
    /// An arc of this radius with the material outside it.
    Hollow(Amount),
    /// An arc of this bow on its own chord, with the material inside it.
    FullBy(Amount),
    /// An arc of this bow on its own chord, with the material outside it.
    HollowBy(Amount),
    /// An arc through this point.
    Through(Pair),
    /// An arc tangent to the edge before.
    TangentToPrevious,
    /// An arc tangent to the edges before and after.
    TangentToBoth(BothFix),
    /// A half round, tangent to both neighbours and to the line between its corners.
    FullRound,
    /// A fair curve through stations.
    Fair(Fair),
    /// A quarter of an ellipse.
    Ellipse,
}

/// What fixes an arc that is tangent to both its neighbours.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(rename = "`tangent_to_both`")]
#[schemars(rename = "TangentToBoth")]
pub enum BothFix {
    /// Its radius.
    #[serde(rename = "radius")]
    Radius(Amount),
    /// The height of its crown above the chord between the two corners.
    #[serde(rename = "crown")]
    Crown(Amount),
    /// A point that it runs through.
    #[serde(rename = "through")]
    Through(Pair),
}

/// A fair curve.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a fair curve")]
#[schemars(rename = "Fair")]
pub struct Fair {
    /// The points it runs through, between the corners at its ends.
    pub stations: List<Pair>,
    /// The direction of travel at its start, from the x axis; natural if not given.
    pub start_direction: Option<Amount>,
    /// The direction of travel at its end, from the x axis; natural if not given.
    pub end_direction: Option<Amount>,
}

/// The word for the state of an edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename = "as")]
#[schemars(rename = "EdgeState")]
enum StateWord {
    /// It is cut.
    #[serde(rename = "cut")]
    Cut,
    /// The plate's own edge, dressed and not cut.
    #[serde(rename = "plate edge")]
    PlateEdge,
    /// A strip is left on, as wide as `strip` says.
    #[serde(rename = "leave on")]
    LeaveOn,
    /// It is trimmed when the part is fitted.
    #[serde(rename = "trim at fitting")]
    TrimAtFitting,
}

/// The keys of an edge.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "an edge")]
#[schemars(rename = "Edge")]
struct EdgeText {
    /// Its name.
    name: Option<Word>,
    /// What happens to it; `cut` if not given.
    #[serde(rename = "as")]
    state: Option<StateWord>,
    /// How wide a strip is left on.
    strip: Option<Amount>,
    /// Radius of an arc with the material inside it.
    full: Option<Amount>,
    /// Radius of an arc with the material outside it.
    hollow: Option<Amount>,
    /// Bow of an arc with the material inside it, measured on its own chord.
    full_by: Option<Amount>,
    /// Bow of an arc with the material outside it, measured on its own chord.
    hollow_by: Option<Amount>,
    /// A point that the arc runs through.
    through: Option<Pair>,
    /// An arc tangent to the edge before.
    #[serde(default)]
    tangent_to_previous: bool,
    /// An arc tangent to the edges before and after, fixed by one more thing.
    tangent_to_both: Option<BothFix>,
    /// A half round, tangent to both neighbours and to the line between its corners.
    #[serde(default)]
    full_round: bool,
    /// A fair curve through stations.
    fair: Option<Fair>,
    /// A quarter of an ellipse.
    #[serde(default)]
    ellipse: bool,
}

impl TryFrom<EdgeText> for Edge {
    type Error = &'static str;

    fn try_from(text: EdgeText) -> Result<Self, Self::Error> {
        let state = match (text.state.unwrap_or(StateWord::Cut), text.strip.clone()) {
            (StateWord::Cut, None) => EdgeState::Cut,
            (StateWord::PlateEdge, None) => EdgeState::PlateEdge,
            (StateWord::TrimAtFitting, None) => EdgeState::TrimAtFitting,
            (StateWord::LeaveOn, Some(strip)) => EdgeState::LeaveOn(strip),
            (StateWord::LeaveOn, None) => return Err("`leave on` needs a `strip`"),
            (_, Some(_)) => return Err("`strip` goes with `leave on` only"),
        };
        Ok(Self {
            name: text.name.clone(),
            state,
            shape: text.into_shape(),
        })
    }
}

impl EdgeText {
    /// The one shape given; that there is only one is checked when the keys are read.
    fn into_shape(self) -> EdgeShape {
        let flags = [
            (self.tangent_to_previous, EdgeShape::TangentToPrevious),
            (self.full_round, EdgeShape::FullRound),
            (self.ellipse, EdgeShape::Ellipse),
        ];
        let given = [
            self.full.map(EdgeShape::Full),
            self.hollow.map(EdgeShape::Hollow),
            self.full_by.map(EdgeShape::FullBy),
            self.hollow_by.map(EdgeShape::HollowBy),
            self.through.map(EdgeShape::Through),
            self.tangent_to_both.map(EdgeShape::TangentToBoth),
            self.fair.map(EdgeShape::Fair),
        ];
        given
            .into_iter()
            .flatten()
            .chain(
                flags
                    .into_iter()
                    .filter_map(|(on, shape)| on.then_some(shape)),
            )
            .next()
            .unwrap_or_default()
    }
}
