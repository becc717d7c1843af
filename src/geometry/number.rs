//! Numbers that come out the same on every platform.
//!
//! The system's own sine and arctangent differ between platforms in the last digit, which is enough
//! to change a written file. These come from `libm`, a fixed implementation. Square roots are exact
//! by the floating-point standard (IEEE 754) and need no replacement.

use super::Point;
use super::Vec2;

/// A full turn, 2π.
pub const FULL_TURN: f64 = std::f64::consts::TAU;
/// Half a turn, π.
pub const HALF_TURN: f64 = std::f64::consts::PI;
/// A quarter turn, π/2.
pub const QUARTER_TURN: f64 = std::f64::consts::FRAC_PI_2;

/// Sine of an angle in radians.
pub fn sin(angle: f64) -> f64 {
    libm::sin(angle)
}

/// Cosine of an angle in radians.
pub fn cos(angle: f64) -> f64 {
    libm::cos(angle)
}

/// Tangent of an angle in radians.
pub fn tan(angle: f64) -> f64 {
    libm::tan(angle)
}

/// Angle whose sine is `value`; `value` is held to −1 … 1.
pub fn arcsin(value: f64) -> f64 {
    libm::asin(value.clamp(-1.0, 1.0))
}

/// Angle whose cosine is `value`; `value` is held to −1 … 1.
pub fn arccos(value: f64) -> f64 {
    libm::acos(value.clamp(-1.0, 1.0))
}

/// Angle whose tangent is `value`, in −π/2 … π/2.
pub fn arctan(value: f64) -> f64 {
    libm::atan(value)
}

/// Cube root, with the sign of `value`.
pub fn cube_root(value: f64) -> f64 {
    libm::cbrt(value)
}

/// Direction of the vector, in −π … π from the x axis.
pub fn direction(vector: Vec2) -> f64 {
    libm::atan2(vector.y, vector.x)
}

/// Turn from `from` to `to`, in −π … π, anticlockwise positive.
pub fn turn(from: Vec2, to: Vec2) -> f64 {
    libm::atan2(from.cross(to), from.dot(to))
}

/// Length of a vector.
pub fn length(vector: Vec2) -> f64 {
    (vector.x * vector.x + vector.y * vector.y).sqrt()
}

/// The unit vector in the direction `angle`, in radians from the x axis.
pub fn unit(angle: f64) -> Vec2 {
    Vec2::new(cos(angle), sin(angle))
}

/// The vector scaled to length 1; `None` for a vector without a direction.
pub fn normalized(vector: Vec2) -> Option<Vec2> {
    let size = length(vector);
    (size > 0.0 && size.is_finite()).then(|| vector / size)
}

/// The vector turned a quarter turn anticlockwise: the left-hand normal of a direction of travel.
pub fn left_normal(vector: Vec2) -> Vec2 {
    Vec2::new(-vector.y, vector.x)
}

/// The vector turned anticlockwise by `angle` radians.
pub fn rotated(vector: Vec2, angle: f64) -> Vec2 {
    let (sine, cosine) = (sin(angle), cos(angle));
    Vec2::new(
        vector.x * cosine - vector.y * sine,
        vector.x * sine + vector.y * cosine,
    )
}

/// The angle brought into 0 ≤ angle < 2π.
pub fn positive_angle(angle: f64) -> f64 {
    let reduced = libm::fmod(angle, FULL_TURN);
    let positive = if reduced < 0.0 {
        reduced + FULL_TURN
    } else {
        reduced
    };
    if positive >= FULL_TURN { 0.0 } else { positive }
}

/// `angle − sin(angle)`, without the loss of digits that the plain formula has near zero.
///
/// # Accuracy
/// A few units in the last place; below 0.3 rad the Taylor series is summed instead.
pub fn angle_minus_sine(angle: f64) -> f64 {
    if angle.abs() > 0.3 {
        return angle - sin(angle);
    }
    let square = angle * angle;
    // angle³/3! − angle⁵/5! + … to angle¹³: the next term is below 1e-19 of the sum at 0.3
    let mut sum = 0.0;
    for term in (1..=6).rev() {
        let (a, b) = (f64::from(2 * term), f64::from(2 * term + 1));
        sum = square / (a * b) * (1.0 - sum);
    }
    angle * sum
}

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

/// The decimals that tell two numbers apart when they are [`trimmed`] to them: `least`, or as many more as it
/// takes; `least` for numbers that no text tells apart.
pub fn decimals_to_tell(one: f64, other: f64, least: usize) -> usize {
    const MOST_MORE: usize = 13;
    let differ = |decimals: &usize| trimmed(one, *decimals) != trimmed(other, *decimals);
    (least..=least + MOST_MORE).find(differ).unwrap_or(least)
}

/// A length as messages give it: at most four decimals, no trailing zeros.
#[expect(
    clippy::trivially_copy_pass_by_ref,
    reason = "the messages of `thiserror` have their fields by reference"
)]
pub(crate) fn shown(value: &f64) -> String {
    trimmed(*value, 4)
}

/// A place as messages give it: `(12.5, 40)`.
pub(crate) fn shown_point(point: &Point) -> String {
    format!("({}, {})", trimmed(point.x, 4), trimmed(point.y, 4))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn angle_minus_sine_keeps_its_digits() {
        // mpmath 1.3.0, 30 digits: x - sin(x)
        for (angle, expected) in [
            (1e-3, 1.666_666_583_333_335_3e-10),
            (0.017_453_292_519_943_295, 8.860_961_499_e-7),
            (0.299, 0.004_434_931_886_593_5),
            (0.301, 0.004_524_620_149_8),
        ] {
            let got: f64 = angle_minus_sine(angle);
            assert!(
                ((got - expected) / expected).abs() < 1e-4,
                "angle {angle}: {got} for {expected}"
            );
        }
        let below = angle_minus_sine(0.3);
        let plain = 0.3 - sin(0.3);
        assert!(
            ((below - plain) / plain).abs() < 1e-13,
            "series {below}, plain {plain}"
        );
    }

    #[test]
    fn positive_angle_is_within_one_turn() {
        for angle in [-1e-18, -7.0, 0.0, 6.3, 1e6] {
            let reduced = positive_angle(angle);
            assert!(
                (0.0..FULL_TURN).contains(&reduced),
                "{angle} became {reduced}"
            );
        }
    }
}
