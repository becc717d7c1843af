//! Values of items as cells, rounded once.

use crate::geometry::number;
use crate::measures::inspection::Item;
use crate::measures::inspection::ItemKind;
use crate::sheet::Cell;
use crate::sheet::Quantity;
use crate::sheet::Unit;
use crate::sheet::number::with_unit as number_with_unit;

/// A value of an item in the item's unit.
fn in_unit(item: &Item, value: f64) -> (f64, Unit) {
    let side = item.unit.millimetres();
    match item.kind {
        ItemKind::Length => (value / side, Unit::Length(item.unit)),
        ItemKind::Area => (value / (side * side), Unit::Area(item.unit)),
        ItemKind::Angle => (value * 180.0 / number::HALF_TURN, Unit::Degree),
        ItemKind::Weight => (value, Unit::Kilogram),
    }
}

/// A value of an item with so many decimals.
pub(super) fn quantity(item: &Item, value: f64, decimals: usize) -> Quantity {
    let (value, unit) = in_unit(item, value);
    Quantity {
        value,
        unit,
        decimals,
    }
}

/// The same as a cell.
pub(super) fn cell(item: &Item, value: f64, decimals: usize) -> Cell {
    quantity(item, value, decimals).into()
}

/// The same as text.
pub(super) fn text(item: &Item, value: f64, decimals: usize) -> String {
    number_with_unit(&quantity(item, value, decimals))
}

/// Decimals that show two digits of a standard uncertainty, as finely as a result is stated (JCGM
/// 100:2008, 7.2.6), but no finer than anybody reads.
pub(super) fn decimals(item: &Item, standard: f64) -> usize {
    let (mut standard, _) = in_unit(item, standard);
    let mut decimals = 0;
    let most = plain_decimals(item) + 1;
    while standard < 10.0 && decimals < most {
        standard *= 10.0;
        decimals += 1;
    }
    decimals
}

/// Decimals that a plain size of an item is shown with.
pub(super) const fn plain_decimals(item: &Item) -> usize {
    match item.kind {
        ItemKind::Length => match item.unit {
            crate::geometry::LengthUnit::Millimetre => 2,
            crate::geometry::LengthUnit::Inch | crate::geometry::LengthUnit::Centimetre => 3,
            crate::geometry::LengthUnit::Metre | crate::geometry::LengthUnit::Foot => 5,
        },
        ItemKind::Angle => 2,
        ItemKind::Area => 1,
        ItemKind::Weight => 3,
    }
}
