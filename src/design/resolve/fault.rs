//! What is wrong with a part, with the numbers and without the place.

use crate::geometry::Point;
use crate::geometry::number::shown;
use crate::geometry::number::shown_point;
use crate::trade::TradeError;

/// A fault of a part. Lengths in millimetres.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PartFault {
    /// Parts that mirror or share in a ring.
    #[error("the part `{part}` comes, by way of `{other}`, from itself")]
    Ring {
        /// The part.
        part: String,
        /// The part it comes from.
        other: String,
    },
    /// The outline was written clockwise.
    #[error("the outline runs clockwise as written; it was turned anticlockwise")]
    Turned,
    /// An opening that is nowhere.
    #[error("the opening `{opening}` has no place")]
    NoPlace {
        /// The opening.
        opening: String,
    },
    /// A size of an opening that must be positive.
    #[error("the {what} of `{opening}` is {value} mm; it must be more than 0", value = shown(.value))]
    NotPositive {
        /// The opening.
        opening: String,
        /// Which size.
        what: &'static str,
        /// Its value.
        value: f64,
    },
    /// A slot shorter than it is wide.
    #[error("the slot `{opening}` is {length} mm long over its ends and {width} mm wide", length = shown(.length), width = shown(.width))]
    SlotTooShort {
        /// The opening.
        opening: String,
        /// Its length over the ends.
        length: f64,
        /// Its width.
        width: f64,
    },
    /// Corner radii larger than the rectangle.
    #[error(
        "a corner radius of {radius} mm does not fit in `{opening}`: the largest that fits is {largest} mm", radius = shown(.radius), largest = shown(.largest))]
    RadiusTooLarge {
        /// The opening.
        opening: String,
        /// The radius asked for.
        radius: f64,
        /// The largest that fits.
        largest: f64,
    },
    /// More openings than any part has.
    #[error("this pattern has {found} openings, and a part has at most {most}")]
    TooManyOpenings {
        /// How many there are.
        found: u64,
        /// The most.
        most: u64,
    },
    /// An opening across the edge of the part.
    #[error("the opening `{opening}` cuts through the edge of the part at {place} mm", place = shown_point(.at))]
    CrossesEdge {
        /// The opening.
        opening: String,
        /// Where.
        at: Point,
    },
    /// An opening beside the part.
    #[error("the opening `{opening}` lies outside the part, at {place} mm", place = shown_point(.at))]
    OutsidePart {
        /// The opening.
        opening: String,
        /// Where.
        at: Point,
    },
    /// Two openings that run into each other.
    #[error("the openings `{first}` and `{second}` run into each other at {place} mm", place = shown_point(.at))]
    OpeningsMeet {
        /// The one.
        first: String,
        /// The other.
        second: String,
        /// Where.
        at: Point,
    },
    /// An opening inside another.
    #[error("the opening `{inner}` lies inside the opening `{outer}`, at {place} mm", place = shown_point(.at))]
    InsideOpening {
        /// The one inside.
        inner: String,
        /// The one outside.
        outer: String,
        /// Where.
        at: Point,
    },
    /// A datum along an edge that is curved.
    #[error("the edge `{edge}` is not straight, so nothing can be squared from it")]
    DatumNotStraight {
        /// The edge.
        edge: String,
    },
    /// A datum point that is not on the datum edge's line.
    #[error("`{point}` stands {distance} mm off the line of the edge `{edge}`", distance = shown(.distance))]
    DatumPointOff {
        /// The point.
        point: String,
        /// The edge.
        edge: String,
        /// How far off.
        distance: f64,
    },
    /// A scribed line that is not on the part.
    #[error("a line {inset} mm inside the edge `{edge}` does not lie on the part", inset = shown(.inset))]
    ScribeOutside {
        /// The edge.
        edge: String,
        /// The inset.
        inset: f64,
    },
    /// A mark or scribed line beside the part.
    #[error("`{name}` lies outside the part, at {place} mm", place = shown_point(.at))]
    MarkOutside {
        /// Its name.
        name: String,
        /// Where.
        at: Point,
    },
    /// A strip to leave on beside an edge that is not straight.
    #[error("the strip left on beyond `{edge}` is {width} mm; it must be more than 0", width = shown(.width))]
    StripNotPositive {
        /// The edge.
        edge: String,
        /// The width.
        width: f64,
    },
    /// A tool of no size.
    #[error("a {tool} of {value} mm is none; its size must be more than 0", value = shown(.value))]
    ToolWithoutSize {
        /// What it is.
        tool: &'static str,
        /// Its size.
        value: f64,
    },
    /// A screw that is not known.
    #[error(transparent)]
    UnknownScrew(TradeError),
    /// A screw that has no countersunk head.
    #[error("no countersunk head is known for {screw}")]
    NoCountersink {
        /// The screw.
        screw: &'static str,
    },
    /// A hole that is to be cut and must be drilled.
    #[error("the hole `{opening}` is to be {purpose}: it is drilled, and not cut")]
    MustBeDrilled {
        /// The opening.
        opening: String,
        /// What is done to it.
        purpose: &'static str,
    },
}

named!(PartFault:
    Ring => "ring-of-parts",
    Turned => "clockwise-outline",
    NoPlace => "opening-without-place",
    NotPositive => "size-not-positive",
    SlotTooShort => "slot-too-short",
    RadiusTooLarge => "corner-radius-too-large",
    TooManyOpenings => "too-many-openings",
    CrossesEdge => "opening-through-edge",
    OutsidePart => "opening-outside",
    OpeningsMeet => "openings-meet",
    InsideOpening => "opening-inside-opening",
    DatumNotStraight => "datum-not-straight",
    DatumPointOff => "datum-point-off",
    ScribeOutside => "scribe-outside",
    MarkOutside => "mark-outside",
    StripNotPositive => "strip-not-positive",
    ToolWithoutSize => "tool-without-size",
    UnknownScrew => "unknown-screw",
    NoCountersink => "no-countersink",
    MustBeDrilled => "must-be-drilled",
);
