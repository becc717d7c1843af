//! The only place where a number becomes text for a reader.

use super::Quantity;

/// The number with so many decimals, rounded half to even on its exact binary value (ISO 80000-1,
/// Annex B, rule A); never "−0".
pub fn fixed(value: f64, decimals: usize) -> String {
    let text = format!("{value:.decimals$}");
    let is_zero = text
        .trim_start_matches('-')
        .chars()
        .all(|c| c == '0' || c == '.');
    if is_zero {
        text.trim_start_matches('-').to_owned()
    } else {
        text
    }
}

/// The number with at most so many decimals, without trailing zeros.
pub fn trimmed(value: f64, decimals: usize) -> String {
    let text = fixed(value, decimals);
    if !text.contains('.') {
        return text;
    }
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// The quantity with its unit: `12.50 mm`, `30.0°`.
pub fn with_unit(quantity: &Quantity) -> String {
    let number = fixed(quantity.value, quantity.decimals);
    match quantity.unit.symbol() {
        "" => number,
        symbol @ ("°" | "%") => format!("{number}{symbol}"),
        symbol => format!("{number} {symbol}"),
    }
}
