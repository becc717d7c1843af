//! What is wrong with a part, with the numbers and without the place.

use crate::geometry::Point;

/// A fault of a part. Lengths in millimetres.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum PartFault {
    /// Neither an outline nor a part to mirror.
    #[error("the part `{part}` has neither an `outline` nor `mirror_of`")]
    NoOutline {
        /// The part.
        part: String,
    },
    /// Both an outline and a part to mirror.
    #[error("the part `{part}` mirrors another and has an outline of its own")]
    OutlineAndMirror {
        /// The part.
        part: String,
    },
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
    #[error("the {what} of `{opening}` is {value:.4} mm; it must be more than 0")]
    NotPositive {
        /// The opening.
        opening: String,
        /// Which size.
        what: &'static str,
        /// Its value.
        value: f64,
    },
    /// A slot shorter than it is wide.
    #[error("the slot `{opening}` is {length:.4} mm long over its ends and {width:.4} mm wide")]
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
        "a corner radius of {radius:.4} mm does not fit in `{opening}`: the largest that fits is {largest:.4} mm"
    )]
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
    #[error("the opening `{opening}` cuts through the edge of the part at ({:.4}, {:.4}) mm", at.x, at.y)]
    CrossesEdge {
        /// The opening.
        opening: String,
        /// Where.
        at: Point,
    },
    /// An opening beside the part.
    #[error("the opening `{opening}` lies outside the part, at ({:.4}, {:.4}) mm", at.x, at.y)]
    OutsidePart {
        /// The opening.
        opening: String,
        /// Where.
        at: Point,
    },
    /// Two openings that run into each other.
    #[error("the openings `{first}` and `{second}` run into each other at ({:.4}, {:.4}) mm", at.x, at.y)]
    OpeningsMeet {
        /// The one.
        first: String,
        /// The other.
        second: String,
        /// Where.
        at: Point,
    },
    /// An opening inside another.
    #[error("the opening `{inner}` lies inside the opening `{outer}`, at ({:.4}, {:.4}) mm", at.x, at.y)]
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
    #[error("`{point}` stands {distance:.4} mm off the line of the edge `{edge}`")]
    DatumPointOff {
        /// The point.
        point: String,
        /// The edge.
        edge: String,
        /// How far off.
        distance: f64,
    },
    /// A scribed line that is not on the part.
    #[error("a line {inset:.4} mm inside the edge `{edge}` does not lie on the part")]
    ScribeOutside {
        /// The edge.
        edge: String,
        /// The inset.
        inset: f64,
    },
    /// A mark or scribed line beside the part.
    #[error("`{name}` lies outside the part, at ({:.4}, {:.4}) mm", at.x, at.y)]
    MarkOutside {
        /// Its name.
        name: String,
        /// Where.
        at: Point,
    },
    /// A strip to leave on beside an edge that is not straight.
    #[error("the strip left on beyond `{edge}` is {width:.4} mm; it must be more than 0")]
    StripNotPositive {
        /// The edge.
        edge: String,
        /// The width.
        width: f64,
    },
}

impl PartFault {
    /// A short name for programs and look-ups.
    pub const fn name(&self) -> &'static str {
        match self {
            Self::NoOutline { .. } => "no-outline",
            Self::OutlineAndMirror { .. } => "outline-and-mirror",
            Self::Ring { .. } => "ring-of-parts",
            Self::Turned => "clockwise-outline",
            Self::NoPlace { .. } => "opening-without-place",
            Self::NotPositive { .. } => "size-not-positive",
            Self::SlotTooShort { .. } => "slot-too-short",
            Self::RadiusTooLarge { .. } => "corner-radius-too-large",
            Self::TooManyOpenings { .. } => "too-many-openings",
            Self::CrossesEdge { .. } => "opening-through-edge",
            Self::OutsidePart { .. } => "opening-outside",
            Self::OpeningsMeet { .. } => "openings-meet",
            Self::InsideOpening { .. } => "opening-inside-opening",
            Self::DatumNotStraight { .. } => "datum-not-straight",
            Self::DatumPointOff { .. } => "datum-point-off",
            Self::ScribeOutside { .. } => "scribe-outside",
            Self::MarkOutside { .. } => "mark-outside",
            Self::StripNotPositive { .. } => "strip-not-positive",
        }
    }
}
