//! Openings as written.

use super::trip::Entry;
use super::trip::Relief;
use crate::design::located::Amount;
use crate::design::located::List;
use crate::design::located::Located;
use crate::design::located::Pair;
use crate::design::located::Word;
use schemars::JsonSchema;
use serde::Deserialize;

/// An opening, or a pattern of equal ones.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(try_from = "OpeningText")]
#[schemars(with = "OpeningText")]
pub struct Opening {
    /// Its name.
    pub name: Word,
    /// How it is made; the shop chooses if not said.
    pub make: Option<Located<Make>>,
    /// Its shape.
    pub shape: OpeningShape,
    /// Where it is, or where they are.
    pub placement: Placement,
}

/// How an opening is made.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename = "make", rename_all = "lowercase")]
#[schemars(rename = "Make")]
pub enum Make {
    /// Cut with the outline.
    Cut,
    /// Marked, and drilled afterwards.
    Drill,
}

/// The shape of an opening.
#[derive(Clone, Debug, PartialEq)]
pub enum OpeningShape {
    /// A circle.
    Circle(Circle),
    /// A slot with half-round ends.
    Slot(Slot),
    /// A rectangle, its corners rounded if wanted.
    Rectangle(Rectangle),
    /// Any outline, written anticlockwise round the opening.
    Outline(List<Entry>),
    /// A round hole for a screw.
    Hole(Hole),
}

/// Where an opening is.
#[derive(Clone, Debug, PartialEq)]
pub enum Placement {
    /// Once, at the shape's own `at` (an outline: where its corners say).
    AtShape,
    /// At each of these places; with an outline, moved by each.
    Places(List<Pair>),
    /// At the places of a grid.
    Grid(Grid),
    /// Evenly round a circle.
    BoltCircle(BoltCircle),
}

/// A round opening.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(try_from = "CircleText")]
#[schemars(with = "CircleText")]
pub struct Circle {
    /// Its centre, unless the placement says it.
    pub at: Option<Pair>,
    /// Its size.
    pub size: CircleSize,
}

/// The size of a circle, as written.
#[derive(Clone, Debug, PartialEq)]
pub enum CircleSize {
    /// By its diameter.
    Diameter(Amount),
    /// By its radius.
    Radius(Amount),
}

/// The keys of a circle.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a circle")]
#[schemars(rename = "Circle")]
struct CircleText {
    /// Its centre, unless the placement says it.
    at: Option<Pair>,
    /// Its diameter.
    diameter: Option<Amount>,
    /// Its radius.
    radius: Option<Amount>,
}

impl TryFrom<CircleText> for Circle {
    type Error = &'static str;

    fn try_from(text: CircleText) -> Result<Self, Self::Error> {
        let size = match (text.diameter, text.radius) {
            (Some(diameter), None) => CircleSize::Diameter(diameter),
            (None, Some(radius)) => CircleSize::Radius(radius),
            _ => return Err("a circle needs one of `diameter`, `radius`"),
        };
        Ok(Self { at: text.at, size })
    }
}

/// A round hole by the screw that it is for; its size is looked up.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a hole")]
#[schemars(rename = "Hole")]
pub struct Hole {
    /// Its centre, unless the placement says it.
    pub at: Option<Pair>,
    /// The screw: "M8", "1/4-20".
    #[serde(rename = "for")]
    pub screw: Word,
    /// What the hole is for.
    pub purpose: Located<HolePurpose>,
    /// How much room the screw has in it; medium if not given. Only for holes that a screw goes through.
    pub fit: Option<Located<ClearanceSeries>>,
}

/// What a hole for a screw is for.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename = "purpose", rename_all = "lowercase")]
#[schemars(rename = "HolePurpose")]
pub enum HolePurpose {
    /// The screw goes through it.
    Clearance,
    /// It gets a thread.
    Tapped,
    /// It is reamed to the screw's own diameter.
    Reamed,
    /// The screw goes through it, and its head into a countersink.
    Countersunk,
}

/// How much room a screw has in its hole.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize, JsonSchema)]
#[serde(rename = "fit", rename_all = "lowercase")]
#[schemars(rename = "ClearanceSeries")]
pub enum ClearanceSeries {
    /// Little.
    Fine,
    /// As usual.
    Medium,
    /// Much.
    Coarse,
}

/// A slot with half-round ends.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a slot")]
#[schemars(rename = "Slot")]
pub struct Slot {
    /// Its middle, unless the placement says it.
    pub at: Option<Pair>,
    /// Its length over the ends.
    pub length: Amount,
    /// Its width.
    pub width: Amount,
    /// The direction of its length from the x axis.
    pub angle: Option<Amount>,
}

/// A rectangle.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a rectangle")]
#[schemars(rename = "Rectangle")]
pub struct Rectangle {
    /// Its middle, unless the placement says it.
    pub at: Option<Pair>,
    /// Its size along its own x axis.
    pub width: Amount,
    /// Its size along its own y axis.
    pub height: Amount,
    /// The radius of its corners; sharp if not given.
    pub radius: Option<Amount>,
    /// Its corners cut out for a square tenon, by a round cutter.
    pub relief: Option<Located<Relief>>,
    /// The direction of its own x axis.
    pub angle: Option<Amount>,
}

/// A grid of places.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a grid")]
#[schemars(rename = "Grid")]
pub struct Grid {
    /// Its first place, at the lower left before turning.
    pub at: Pair,
    /// How many along.
    pub columns: Amount,
    /// How many across.
    pub rows: Amount,
    /// The distance along; needed with more than one column.
    pub column_pitch: Option<Amount>,
    /// The distance across; needed with more than one row.
    pub row_pitch: Option<Amount>,
    /// How far it is turned about its first place.
    pub angle: Option<Amount>,
}

/// Places evenly round a circle.
#[derive(Clone, Debug, PartialEq, Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "a bolt circle")]
#[schemars(rename = "BoltCircle")]
pub struct BoltCircle {
    /// Its centre.
    pub at: Pair,
    /// Its diameter.
    pub diameter: Amount,
    /// How many.
    pub count: Amount,
    /// The direction of the first from the x axis.
    pub start: Option<Amount>,
}

/// The keys of an opening.
#[derive(Deserialize, JsonSchema)]
#[serde(deny_unknown_fields, rename = "an opening")]
#[schemars(rename = "Opening")]
struct OpeningText {
    /// Its name.
    name: Word,
    /// How it is made.
    make: Option<Located<Make>>,
    /// A circle.
    circle: Option<Circle>,
    /// A round hole for a screw.
    hole: Option<Hole>,
    /// A slot with half-round ends.
    slot: Option<Slot>,
    /// A rectangle.
    rectangle: Option<Rectangle>,
    /// Any outline, written anticlockwise round the opening.
    outline: Option<List<Entry>>,
    /// Places of equal ones.
    places: Option<List<Pair>>,
    /// A grid of equal ones.
    grid: Option<Grid>,
    /// Equal ones evenly round a circle.
    bolt_circle: Option<BoltCircle>,
}

impl TryFrom<OpeningText> for Opening {
    type Error = &'static str;

    fn try_from(text: OpeningText) -> Result<Self, Self::Error> {
        let shapes = [
            text.circle.map(OpeningShape::Circle),
            text.hole.map(OpeningShape::Hole),
            text.slot.map(OpeningShape::Slot),
            text.rectangle.map(OpeningShape::Rectangle),
            text.outline.map(OpeningShape::Outline),
        ];
        let mut shapes = shapes.into_iter().flatten();
        let (Some(shape), None) = (shapes.next(), shapes.next()) else {
            return Err("an opening needs one of `circle`, `hole`, `slot`, `rectangle`, `outline`");
        };
        let placement = match (text.places, text.grid, text.bolt_circle) {
            (None, None, None) => Placement::AtShape,
            (Some(places), None, None) => Placement::Places(places),
            (None, Some(grid), None) => Placement::Grid(grid),
            (None, None, Some(circle)) => Placement::BoltCircle(circle),
            _ => return Err("an opening has only one of `places`, `grid`, `bolt_circle`"),
        };
        Ok(Self {
            name: text.name,
            make: text.make,
            shape,
            placement,
        })
    }
}
