//! What a measure came to.

use crate::design::expression::Kind;
use crate::geometry::LengthUnit;
use crate::geometry::Point;
use crate::geometry::number;

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
    /// A pure number: of a dimension that is a count or a ratio.
    Number,
}

impl TakenKind {
    /// The kind of a dimension; `None` for volumes and the like.
    pub const fn of(kind: Kind) -> Option<Self> {
        match kind {
            Kind::LENGTH => Some(Self::Length),
            Kind::AREA => Some(Self::Area),
            Kind::Angle => Some(Self::Angle),
            Kind::NUMBER => Some(Self::Number),
            Kind::Bare | Kind::Power(_) => None,
        }
    }

    /// The kind that an amount of it has in a design file; a weight is a number of kilograms.
    pub const fn written(self) -> Kind {
        match self {
            Self::Length => Kind::LENGTH,
            Self::Area => Kind::AREA,
            Self::Angle => Kind::Angle,
            Self::Weight | Self::Number => Kind::NUMBER,
        }
    }

    /// What it is, with its article.
    pub const fn noun(self) -> &'static str {
        match self {
            Self::Length => "a length",
            Self::Area => "an area",
            Self::Angle => "an angle",
            Self::Weight => "a weight",
            Self::Number => "a number",
        }
    }

    /// A value as text with its unit: micrometres and grams, no finer.
    pub fn shown(self, value: f64, unit: LengthUnit) -> String {
        self.shown_finer(value, unit, 0)
    }

    /// The same with so many decimals more.
    pub fn shown_finer(self, value: f64, unit: LengthUnit, more: usize) -> String {
        let (number, decimals) = self.in_unit(value, unit);
        let text = number::trimmed(number, decimals + more);
        let symbol = unit.symbol();
        match self {
            Self::Length => format!("{text} {symbol}"),
            Self::Area => format!("{text} {symbol}²"),
            Self::Angle => format!("{text}°"),
            Self::Weight => format!("{text} kg"),
            Self::Number => text,
        }
    }

    /// How many decimals more than usual it takes to tell two values apart; none for what is the same.
    pub fn decimals_to_tell(self, one: f64, other: f64, unit: LengthUnit) -> usize {
        let ((one, usual), (other, _)) = (self.in_unit(one, unit), self.in_unit(other, unit));
        number::decimals_to_tell(one, other, usual) - usual
    }

    /// A value as the number that is printed, and its usual decimals.
    fn in_unit(self, value: f64, unit: LengthUnit) -> (f64, usize) {
        let side = unit.millimetres();
        let decimals = match unit {
            LengthUnit::Millimetre => 3,
            LengthUnit::Centimetre => 4,
            LengthUnit::Inch => 5,
            LengthUnit::Metre | LengthUnit::Foot => 6,
        };
        match self {
            Self::Length => (value / side, decimals),
            Self::Area => (value / (side * side), decimals),
            Self::Angle => (value * 180.0 / number::HALF_TURN, 4),
            Self::Weight => (value, 3),
            Self::Number => (value, 6),
        }
    }
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
    /// The material alone, openings left out.
    MetalOnly,
    /// With a straight edge laid on the face from end to end of the edge, and a rule from it.
    StraightEdge,
    /// With a gauge laid into it or onto it.
    Gauge,
    /// With a protractor laid on both edges.
    Protractor,
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
            Self::MetalOnly => "material only",
            Self::StraightEdge => "straight edge from end to end of it, and a rule",
            Self::Gauge => "with a gauge",
            Self::Protractor => "with a protractor",
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
    /// What to add to a reading over the rounds for the value of the measure itself, the roundings as
    /// drawn; `None` where jaws read no other number. Millimetres, with the sign of the value.
    pub fn beyond_the_rounds(&self) -> Option<f64> {
        let jaws = self.jaws?;
        Some((self.value.abs() - jaws.reading) * self.value.signum())
    }

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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn two_values_never_print_alike() {
        let kind = TakenKind::Length;
        for (one, other, unit, expected) in [
            (
                232.0,
                232.002,
                LengthUnit::Millimetre,
                ["232 mm", "232.002 mm"],
            ),
            (
                232.0,
                232.00004,
                LengthUnit::Millimetre,
                ["232 mm", "232.00004 mm"],
            ),
            (25.4, 25.400_254, LengthUnit::Inch, ["1 in", "1.00001 in"]),
            (
                1000.0,
                1_000.000_2,
                LengthUnit::Metre,
                ["1 m", "1.0000002 m"],
            ),
        ] {
            let more = kind.decimals_to_tell(one, other, unit);
            let shown = [one, other].map(|value| kind.shown_finer(value, unit, more));
            assert_eq!(shown, expected, "as many decimals as tell them apart");
        }
        let none = kind.decimals_to_tell(5.0, 5.0, LengthUnit::Millimetre);
        assert_eq!(none, 0, "what is the same prints alike");
    }
}
