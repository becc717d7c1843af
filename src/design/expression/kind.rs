//! What a number of a design is: a length, an area, an angle, a pure number.

use std::fmt;

/// What a number counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// A number written without a unit: it takes the kind that is needed where it stands, a length
    /// in the file's units or an angle in degrees.
    Bare,
    /// A power of a length: 0 a pure number, 1 a length, 2 an area, 3 a volume.
    Power(i8),
    /// An angle.
    Angle,
}

impl Kind {
    /// A pure number: a count, a ratio.
    pub const NUMBER: Self = Self::Power(0);
    /// A length.
    pub const LENGTH: Self = Self::Power(1);
    /// An area.
    pub const AREA: Self = Self::Power(2);
}

impl fmt::Display for Kind {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Bare => formatter.write_str("a bare number"),
            Self::Power(0) => formatter.write_str("a pure number"),
            Self::Power(1) => formatter.write_str("a length"),
            Self::Power(2) => formatter.write_str("an area"),
            Self::Power(3) => formatter.write_str("a volume"),
            Self::Power(power) => write!(formatter, "a length to the power {power}"),
            Self::Angle => formatter.write_str("an angle"),
        }
    }
}

/// A number with its kind.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Quantity {
    /// The number: in millimetres to the power of its kind, in radians, or as written if bare.
    pub value: f64,
    /// What it counts.
    pub kind: Kind,
}
