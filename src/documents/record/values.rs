//! Values of items as cells, rounded once.

use crate::documents::check::words;
use crate::measures::inspection::Item;
use crate::sheet::Cell;
use crate::sheet::Quantity;
use crate::sheet::number::with_unit;

/// A value of an item with so many decimals.
fn quantity(item: &Item, value: f64, decimals: usize) -> Quantity {
    Quantity {
        decimals,
        ..plain(item, value)
    }
}

/// A value of an item as a maker can use it.
pub(super) fn plain(item: &Item, value: f64) -> Quantity {
    words::quantity(item.kind, value, item.unit)
}

/// A value with so many decimals as a cell.
pub(super) fn cell(item: &Item, value: f64, decimals: usize) -> Cell {
    quantity(item, value, decimals).into()
}

/// The same as text.
pub(super) fn text(item: &Item, value: f64, decimals: usize) -> String {
    with_unit(&quantity(item, value, decimals))
}

/// Decimals that show two digits of a standard uncertainty, as finely as a result is stated (JCGM
/// 100:2008, 7.2.6), but no finer than anybody reads.
pub(super) fn decimals(item: &Item, standard: f64) -> usize {
    let plain = plain(item, standard);
    let most = plain.decimals + 1;
    let (mut standard, mut decimals) = (plain.value, 0);
    while standard < 10.0 && decimals < most {
        standard *= 10.0;
        decimals += 1;
    }
    decimals
}
