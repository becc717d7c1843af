//! Numbers and verdicts as the check says them.

use crate::design::dimensions::Permitted;
use crate::geometry::LengthUnit;
use crate::geometry::number;
use crate::measures::TakenKind;
use crate::measures::limits::LimitCheck;
use crate::sheet::Cell;
use crate::sheet::Quantity;
use crate::sheet::Unit;
use crate::sheet::number::trimmed;
use crate::sheet::number::with_unit;

/// A value as a number with its unit, with as many decimals as a maker can use.
pub(in crate::documents) fn quantity(kind: TakenKind, value: f64, unit: LengthUnit) -> Quantity {
    match kind {
        TakenKind::Length => Quantity::length(value, unit),
        TakenKind::Area => {
            let side = unit.millimetres();
            let (value, unit) = (value / (side * side), Unit::Area(unit));
            Quantity {
                value,
                unit,
                decimals: 2,
            }
        }
        TakenKind::Angle => Quantity {
            value: value * 180.0 / number::HALF_TURN,
            unit: Unit::Degree,
            decimals: 2,
        },
        TakenKind::Weight => Quantity {
            value,
            unit: Unit::Kilogram,
            decimals: 3,
        },
        TakenKind::Number => Quantity {
            value,
            unit: Unit::None,
            decimals: 3,
        },
    }
}

/// The same as a cell.
pub(in crate::documents) fn cell(kind: TakenKind, value: Option<f64>, unit: LengthUnit) -> Cell {
    value.map_or(Cell::Empty, |value| quantity(kind, value, unit).into())
}

/// The same as text.
pub(super) fn shown(kind: TakenKind, value: f64, unit: LengthUnit) -> String {
    with_unit(&quantity(kind, value, unit))
}

/// How far a value is from a limit, as text: where the usual digits show nothing, one digit more.
pub(in crate::documents) fn difference(kind: TakenKind, by: f64, unit: LengthUnit) -> String {
    let usual = quantity(kind, by, unit);
    let decimals = if shows_nothing(kind, by, unit) {
        usual.decimals + 1
    } else {
        usual.decimals
    };
    with_unit(&Quantity { decimals, ..usual })
}

/// Whether the usual digits of a value are all zeros.
pub(in crate::documents) fn shows_nothing(kind: TakenKind, value: f64, unit: LengthUnit) -> bool {
    let usual = quantity(kind, value, unit);
    trimmed(usual.value, usual.decimals) == trimmed(0.0, usual.decimals)
}

/// From one value to another.
pub(super) fn range(kind: TakenKind, [low, high]: [f64; 2], unit: LengthUnit) -> String {
    format!("{} to {}", shown(kind, low, unit), shown(kind, high, unit))
}

/// What is permitted, in words; the limits as written, with no more decimals than they have.
pub(in crate::documents) fn permitted(
    kind: TakenKind,
    permitted: Permitted,
    unit: LengthUnit,
) -> String {
    let shown = |value: f64| kind.shown(value, unit);
    match (permitted.min, permitted.max) {
        (Some(min), Some(max)) => format!("{} to {}", shown(min), shown(max)),
        (Some(min), None) => format!("not less than {}", shown(min)),
        (None, Some(max)) => format!("not more than {}", shown(max)),
        (None, None) => "no limit".to_owned(),
    }
}

/// A verdict in words.
pub(in crate::documents) fn verdict(
    verdict: LimitCheck,
    kind: TakenKind,
    unit: LengthUnit,
) -> String {
    match verdict {
        LimitCheck::Keeps => "keeps it".to_owned(),
        LimitCheck::TooSmall(by) => format!("too small by {}", difference(kind, by, unit)),
        LimitCheck::TooLarge(by) => format!("too large by {}", difference(kind, by, unit)),
        LimitCheck::Free => "no limit".to_owned(),
        LimitCheck::Open => "not known yet".to_owned(),
    }
}
