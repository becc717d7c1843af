//! What a measure came to.

use crate::geometry::Point;

/// A measure taken on a shape.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taken {
    /// What it counts.
    pub kind: TakenKind,
    /// Its value: millimetres, mm², kilograms or radians.
    pub value: f64,
    /// The two points that it is taken between: where the jaws or the ends of the tape go. For a
    /// radius the centre and a point of the arc, for an angle a point on either edge.
    pub between: Option<[Point; 2]>,
    /// For an angle the corner.
    pub about: Option<Point>,
    /// How it is taken.
    pub how: How,
    /// What jaws read, where that is another number.
    pub jaws: Option<Jaws>,
}

/// What a measure counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TakenKind {
    /// Millimetres.
    Length,
    /// Square millimetres.
    Area,
    /// Radians.
    Angle,
    /// Kilograms.
    Weight,
}

/// How a measure is taken.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum How {
    /// Straight, on what is there.
    Straight,
    /// To the corner where the edges would meet without their rounding.
    SharpCorner,
    /// Over the roundings, on the metal that is there.
    OverTheRounds,
    /// The metal alone, openings left out.
    MetalOnly,
    /// With a gauge laid into it or onto it.
    Gauge,
    /// On the scales.
    Scales,
    /// Worked out from the outline; nobody measures it directly.
    WorkedOut,
}

impl How {
    /// In a reader's words.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Straight => "straight across",
            Self::SharpCorner => "to the sharp corner",
            Self::OverTheRounds => "over the rounds",
            Self::MetalOnly => "metal only",
            Self::Gauge => "with a gauge",
            Self::Scales => "on the scales",
            Self::WorkedOut => "worked out",
        }
    }
}

/// What jaws read that close on the roundings of a corner, where the measure itself runs to the sharp
/// corner or through the rounding.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Jaws {
    /// The reading in millimetres.
    pub reading: f64,
    /// Where they touch.
    pub between: [Point; 2],
}

impl Taken {
    /// A length between two points.
    pub(super) const fn length(value: f64, between: [Point; 2], how: How) -> Self {
        Self {
            kind: TakenKind::Length,
            value,
            between: Some(between),
            about: None,
            how,
            jaws: None,
        }
    }

    /// Something that is not taken between two points.
    pub(super) const fn whole(kind: TakenKind, value: f64, how: How) -> Self {
        Self {
            kind,
            value,
            between: None,
            about: None,
            how,
            jaws: None,
        }
    }
}
