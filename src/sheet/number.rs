//! How a number becomes text for a reader.

use super::Quantity;

pub use crate::geometry::number::fixed;
pub use crate::geometry::number::trimmed;

/// The quantity with its unit: `12.50 mm`, `30.0°`.
pub fn with_unit(quantity: &Quantity) -> String {
    let number = fixed(quantity.value, quantity.decimals);
    match quantity.unit.symbol() {
        "" => number,
        symbol @ ("°" | "%") => format!("{number}{symbol}"),
        symbol => format!("{number} {symbol}"),
    }
}
