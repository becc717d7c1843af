//! Fractions that look like those of an inch.

use super::ExpressionError;
use super::Kind;
use super::Quantity;
use super::working::plain_number;
use crate::design::error::ExpressionFault;
use crate::geometry::LengthUnit;

/// Denominators on the scales of rules and drills.
const ON_A_SCALE: [&str; 6] = ["2", "4", "8", "16", "32", "64"];

/// Refuses a length that is written as nothing but a fraction of an inch, in a file of millimetres or
/// centimetres: half a millimetre is written 0.5, and whoever writes 1/2 may well mean half an inch.
///
/// # Errors
/// `bare-fraction`.
pub fn refuse_bare(
    text: &str,
    quantity: Quantity,
    wanted: Kind,
    unit: LengthUnit,
) -> Result<(), ExpressionError> {
    let metric = matches!(unit, LengthUnit::Millimetre | LengthUnit::Centimetre);
    if !metric || quantity.kind != Kind::Bare || wanted != Kind::LENGTH {
        return Ok(());
    }
    let is_fraction = text.trim().split_once('/').is_some_and(|(above, below)| {
        let digits = |text: &str| text.bytes().all(|byte| byte.is_ascii_digit());
        ON_A_SCALE.contains(&below.trim()) && digits(above.trim()) && quantity.value < 1.0
    });
    if !is_fraction {
        return Ok(());
    }
    let written = text.trim().to_owned();
    let value = plain_number(quantity.value);
    let help = format!(
        "write `{written} in` for inches, or {value} for {value} {}",
        unit.symbol()
    );
    let fault = ExpressionFault::BareFraction {
        written,
        value: format!("{value} {}", unit.symbol()),
    };
    Err(ExpressionError::new(fault, 0..text.len()).with_help(help))
}
