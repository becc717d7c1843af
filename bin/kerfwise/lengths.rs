//! Lengths on the command line: a bare number is in millimetres, and a unit may stand behind it.

use kerfwise::design::expression;
use kerfwise::design::expression::Kind;
use kerfwise::design::expression::Quantity;
use kerfwise::design::expression::Scope;
use kerfwise::geometry::LengthUnit;

/// No dimension can be named here.
struct NoNames;

impl Scope for NoNames {
    fn unit(&self) -> LengthUnit {
        LengthUnit::Millimetre
    }

    fn value(&self, _: &str) -> Option<Quantity> {
        None
    }

    fn names(&self) -> Vec<&str> {
        Vec::new()
    }
}

/// A length in millimetres, as `3.2`, `1/8 in` or `6-1/2 in`.
///
/// # Errors
/// In words, for what is no length.
pub(crate) fn length(text: &str) -> Result<f64, String> {
    let example = "write millimetres, as 3.2, or a unit behind the number, as \"1/8 in\"";
    let refused = |error: expression::ExpressionError| format!("{}; {example}", error.fault);
    let term = expression::parse(text).map_err(refused)?;
    let quantity = expression::evaluate(&term, text, &NoNames).map_err(refused)?;
    let quantity = expression::adapted(quantity, Kind::LENGTH, LengthUnit::Millimetre);
    if quantity.kind == Kind::LENGTH {
        Ok(quantity.value)
    } else {
        Err(format!("{} is no length; {example}", quantity.kind))
    }
}

#[cfg(test)]
mod tests {
    use super::length;

    #[test]
    fn lengths_are_in_millimetres_or_say_their_unit() {
        for (text, millimetres) in [
            ("3.2", 3.2),
            ("1/8 in", 3.175),
            ("6-1/2 in", 165.1),
            ("2 cm", 20.0),
        ] {
            assert_eq!(length(text), Ok(millimetres), "{text}");
        }
        for text in ["", "3,2", "blade", "3 deg", "3 mm * 2 mm"] {
            assert!(length(text).is_err(), "{text} was taken for a length");
        }
    }
}
