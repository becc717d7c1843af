//! Student's distribution of t, both tails together.
//!
//! # Source
//! Abramowitz and Stegun, 26.7.1 with 26.5.27: the level is 1 − Iₓ(ν/2, ½) at x = ν/(ν + t²), and the
//! incomplete beta function by its continued fraction 26.5.8 (evaluated after Lentz).

/// Terms of the continued fraction after which it has settled, for every number of degrees of freedom
/// below [`AS_NORMAL`]: about its square root are needed.
const TERMS: u32 = 4000;

/// From so many degrees of freedom on the normal distribution stands in: they differ by less than
/// 1e-6 in the level.
const AS_NORMAL: f64 = 1e6;

/// The probability that |t| ≤ `factor`, for `freedom` degrees of freedom (infinite: the normal
/// distribution).
pub fn level(factor: f64, freedom: f64) -> f64 {
    let factor = factor.abs();
    if freedom >= AS_NORMAL {
        return libm::erf(factor / f64::sqrt(2.0));
    }
    let x = freedom / (freedom + factor * factor);
    1.0 - incomplete_beta(x, freedom / 2.0, 0.5)
}

/// The t below which |t| lies with probability `level` (above 0, below 1).
///
/// # Accuracy
/// The level of the factor given back is right to 1e-12; held to levels of at most 1 − 1e-9.
///
/// # Example
/// ```
/// use kerfwise::measures::uncertainty::student;
///
/// // JCGM 100:2008, Table G.2: 95 % and 5 degrees of freedom
/// assert!((student::factor(0.95, 5.0) - 2.57).abs() < 0.005);
/// ```
pub fn factor(level: f64, freedom: f64) -> f64 {
    let level = level.clamp(0.0, 1.0 - 1e-9);
    let mut above = 1.0;
    // t = 6.4e8 at one degree of freedom is the largest that is asked for
    while self::level(above, freedom) < level && above < 1e10 {
        above *= 2.0;
    }
    let mut below = 0.0;
    // each step halves the bracket; 200 reach the last digit of any of them
    for _ in 0..200 {
        let middle = f64::midpoint(below, above);
        if middle <= below || middle >= above {
            break;
        }
        if self::level(middle, freedom) < level {
            below = middle;
        } else {
            above = middle;
        }
    }
    f64::midpoint(below, above)
}

/// The regularised incomplete beta function Iₓ(a, b).
fn incomplete_beta(x: f64, a: f64, b: f64) -> f64 {
    if x <= 0.0 {
        return 0.0;
    }
    if x >= 1.0 {
        return 1.0;
    }
    let scale = libm::exp(
        libm::lgamma(a + b) - libm::lgamma(a) - libm::lgamma(b)
            + a * libm::log(x)
            + b * libm::log1p(-x),
    );
    // the fraction settles fast on this side only
    if x < (a + 1.0) / (a + b + 2.0) {
        scale * continued_fraction(x, a, b) / a
    } else {
        1.0 - scale * continued_fraction(1.0 - x, b, a) / b
    }
}

fn continued_fraction(x: f64, a: f64, b: f64) -> f64 {
    const TINY: f64 = 1e-300;
    let kept = |value: f64| if value.abs() < TINY { TINY } else { value };
    let mut c = 1.0;
    let mut d = 1.0 / kept(1.0 - (a + b) * x / (a + 1.0));
    let mut sum = d;
    for term in 1..TERMS {
        let m = f64::from(term);
        let even = m * (b - m) * x / ((a + 2.0 * m - 1.0) * (a + 2.0 * m));
        d = 1.0 / kept(1.0 + even * d);
        c = kept(1.0 + even / c);
        sum *= d * c;
        let odd = -(a + m) * (a + b + m) * x / ((a + 2.0 * m) * (a + 2.0 * m + 1.0));
        d = 1.0 / kept(1.0 + odd * d);
        c = kept(1.0 + odd / c);
        let step = d * c;
        sum *= step;
        if (step - 1.0).abs() < 1e-15 {
            break;
        }
    }
    sum
}
