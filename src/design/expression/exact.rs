//! Decimals and fractions times a unit, rounded once.
//!
//! Every unit is a decimal number of millimetres, so 1.5 in is 38.1 mm exactly: the product is formed
//! of whole numbers, and becomes a floating-point number at the very end.

use crate::geometry::LengthUnit;

/// A fraction of whole numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Fraction {
    numerator: i128,
    denominator: i128,
}

/// Whole numbers up to this are exact as floating-point numbers: 2^53.
const EXACT: i128 = 1 << 53;

impl Fraction {
    /// A whole number.
    pub(super) const fn whole(number: i128) -> Self {
        Self {
            numerator: number,
            denominator: 1,
        }
    }

    /// A decimal as written: digits, a point, an exponent. `None` if it is none, or has more digits
    /// than fit.
    pub(super) fn decimal(written: &str) -> Option<Self> {
        let (digits, exponent) = match written.split_once(['e', 'E']) {
            Some((digits, exponent)) => (digits, exponent.parse::<i32>().ok()?),
            None => (written, 0),
        };
        let (negative, digits) = match digits.strip_prefix('-') {
            Some(rest) => (true, rest),
            None => (false, digits),
        };
        let (before, after) = digits.split_once('.').unwrap_or((digits, ""));
        let mut numerator: i128 = 0;
        for digit in before.bytes().chain(after.bytes()) {
            let digit = digit.is_ascii_digit().then(|| i128::from(digit - b'0'))?;
            numerator = numerator.checked_mul(10)?.checked_add(digit)?;
        }
        let places = exponent.checked_sub(i32::try_from(after.len()).ok()?)?;
        let scale = 10_i128.checked_pow(places.unsigned_abs())?;
        let fraction = if places < 0 {
            Self::new(numerator, scale)?
        } else {
            Self::whole(numerator.checked_mul(scale)?)
        };
        Some(if negative {
            Self {
                numerator: -fraction.numerator,
                ..fraction
            }
        } else {
            fraction
        })
    }

    /// Numerator over denominator, in lowest terms; `None` over zero.
    pub(super) fn new(numerator: i128, denominator: i128) -> Option<Self> {
        if denominator <= 0 {
            return None;
        }
        let (mut a, mut b) = (numerator.checked_abs()?, denominator);
        while b != 0 {
            (a, b) = (b, a % b);
        }
        let divisor = a.max(1);
        Some(Self {
            numerator: numerator / divisor,
            denominator: denominator / divisor,
        })
    }

    /// The sum.
    pub(super) fn plus(self, other: Self) -> Option<Self> {
        let left = self.numerator.checked_mul(other.denominator)?;
        let right = other.numerator.checked_mul(self.denominator)?;
        Self::new(
            left.checked_add(right)?,
            self.denominator.checked_mul(other.denominator)?,
        )
    }

    /// The product.
    pub(super) fn times(self, other: Self) -> Option<Self> {
        Self::new(
            self.numerator.checked_mul(other.numerator)?,
            self.denominator.checked_mul(other.denominator)?,
        )
    }

    /// The nearest floating-point number.
    ///
    /// # Accuracy
    /// Correctly rounded for every decimal, and for every fraction whose numerator and denominator are
    /// at most 2^53 in lowest terms; within two units in the last place otherwise.
    #[expect(
        clippy::cast_precision_loss,
        reason = "exact where it is promised: both sides are at most 2^53"
    )]
    pub(super) fn to_float(self) -> f64 {
        if self.numerator.abs() <= EXACT && self.denominator <= EXACT {
            return self.numerator as f64 / self.denominator as f64;
        }
        self.as_decimal()
            .and_then(|decimal| decimal.parse().ok())
            .unwrap_or(self.numerator as f64 / self.denominator as f64)
    }

    /// The fraction as a decimal for the standard library to read, if it is a finite one.
    fn as_decimal(self) -> Option<String> {
        let (mut numerator, mut denominator, mut places) = (self.numerator, self.denominator, 0);
        while denominator != 1 {
            let factor = match (denominator % 10, denominator % 5, denominator % 2) {
                (0, _, _) => 1,
                (_, 0, _) => 2,
                (_, _, 0) => 5,
                _ => return None,
            };
            numerator = numerator.checked_mul(factor)?;
            denominator = denominator.checked_mul(factor)? / 10;
            places += 1;
        }
        Some(format!("{numerator}e-{places}"))
    }
}

/// A unit in millimetres, exactly.
const fn millimetres(unit: LengthUnit) -> Fraction {
    let (numerator, denominator) = match unit {
        LengthUnit::Millimetre => (1, 1),
        LengthUnit::Centimetre => (10, 1),
        LengthUnit::Metre => (1000, 1),
        LengthUnit::Inch => (127, 5),
        LengthUnit::Foot => (1524, 5),
    };
    Fraction {
        numerator,
        denominator,
    }
}

/// A fraction of a unit, in millimetres. `None` if it has more digits than fit.
pub(super) fn in_millimetres(number: Fraction, unit: LengthUnit) -> Option<Fraction> {
    number.times(millimetres(unit))
}

/// A number of a unit in millimetres, as if its shortest decimal had been written.
///
/// # Accuracy
/// The floating-point number nearest to the decimal times the unit; within one unit in the last place
/// for numbers beyond 30 digits.
pub fn length_in_millimetres(number: f64, unit: LengthUnit) -> f64 {
    if unit == LengthUnit::Millimetre {
        return number;
    }
    Fraction::decimal(&format!("{number:e}"))
        .and_then(|fraction| in_millimetres(fraction, unit))
        .map_or(number * unit.millimetres(), Fraction::to_float)
}

/// Millimetres as a number of a unit.
pub fn length_in_unit(millimetres_value: f64, unit: LengthUnit) -> f64 {
    if unit == LengthUnit::Millimetre {
        return millimetres_value;
    }
    let inverse = millimetres(unit);
    Fraction::decimal(&format!("{millimetres_value:e}"))
        .and_then(|fraction| fraction.times(Fraction::new(inverse.denominator, inverse.numerator)?))
        .map_or(millimetres_value / unit.millimetres(), Fraction::to_float)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn inches_are_exact() {
        // 1 in = 25.4 mm exactly: international yard, 1959, as in pint 0.25.3. The right sides are the
        // decimal products, rounded once by the compiler.
        for (inches, expected) in [
            (1.0, 25.4),
            (1.5, 38.1),
            (0.1, 2.54),
            (0.3, 7.62),
            (12.7, 322.58),
            (0.001, 0.0254),
            (-4.5, -114.3),
            (3.937_007_874, 99.999_999_999_6),
        ] {
            let got = length_in_millimetres(inches, LengthUnit::Inch);
            assert_eq!(got, expected, "{inches} in became {got:?} mm");
        }
        assert_eq!(
            length_in_millimetres(1.1, LengthUnit::Foot),
            335.28,
            "1.1 ft"
        );
        assert_eq!(
            length_in_millimetres(0.29, LengthUnit::Metre),
            290.0,
            "0.29 m"
        );
        assert_eq!(length_in_unit(38.1, LengthUnit::Inch), 1.5, "38.1 mm");
    }

    #[test]
    fn large_and_small_numbers_do_not_fail() {
        for number in [1e300, -1e300, 1e-300, f64::MAX, f64::MIN_POSITIVE, 0.0] {
            let got = length_in_millimetres(number, LengthUnit::Inch);
            let plain = number * 25.4;
            assert!(
                got == plain || ((got - plain) / plain).abs() < 1e-15,
                "{number:e} in became {got:e}"
            );
        }
    }

    #[test]
    fn fractions_keep_to_lowest_terms() {
        let half = Fraction::new(2, 4).expect("a half");
        assert_eq!(half, Fraction::new(1, 2).expect("a half"), "2/4 is 1/2");
        assert_eq!(Fraction::new(1, 0), None, "nothing over zero");
        let sum = Fraction::new(1, 3).and_then(|third| third.plus(half));
        assert_eq!(sum, Fraction::new(5, 6), "1/3 + 1/2");
    }
}
