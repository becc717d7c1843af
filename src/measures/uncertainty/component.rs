//! Sources of uncertainty, and what they come to together.

use super::Sample;
use super::student;

/// How a standard uncertainty was come by.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Evaluation {
    /// From the scatter of repeated readings (type A).
    Readings,
    /// From anything else: the limits of an instrument, a certificate, a table (type B).
    Knowledge,
}

impl Evaluation {
    /// The letter of the GUM.
    pub const fn letter(self) -> &'static str {
        match self {
            Self::Readings => "A",
            Self::Knowledge => "B",
        }
    }
}

/// One source of uncertainty of a result.
#[derive(Clone, Debug, PartialEq)]
pub struct Component {
    /// What it is, in words.
    pub source: String,
    /// How it was come by.
    pub evaluation: Evaluation,
    /// Standard uncertainty of the quantity itself, in its own unit.
    pub standard: f64,
    /// By how much the result changes for one unit of the quantity.
    pub sensitivity: f64,
    /// Degrees of freedom; infinite where the standard uncertainty itself is taken as known.
    pub freedom: f64,
}

impl Component {
    /// The scatter of readings, as it enters their mean.
    pub fn of_readings(source: impl Into<String>, sample: &Sample) -> Self {
        Self {
            source: source.into(),
            evaluation: Evaluation::Readings,
            standard: sample.of_the_mean(),
            sensitivity: 1.0,
            freedom: sample.freedom().unwrap_or(f64::INFINITY),
        }
    }

    /// Something that lies within ±`half_width`, anywhere alike: a rectangular distribution.
    pub fn within(source: impl Into<String>, half_width: f64) -> Self {
        Self::known(source, half_width / f64::sqrt(3.0))
    }

    /// A standard uncertainty that is taken as known.
    pub fn known(source: impl Into<String>, standard: f64) -> Self {
        Self {
            source: source.into(),
            evaluation: Evaluation::Knowledge,
            standard: standard.abs(),
            sensitivity: 1.0,
            freedom: f64::INFINITY,
        }
    }

    /// The same with so many degrees of freedom.
    #[must_use]
    pub const fn with_freedom(mut self, freedom: f64) -> Self {
        self.freedom = freedom;
        self
    }

    /// The same with another sensitivity.
    #[must_use]
    pub const fn with_sensitivity(mut self, sensitivity: f64) -> Self {
        self.sensitivity = sensitivity;
        self
    }

    /// Standard uncertainty that it brings to the result, in the result's unit.
    pub fn contribution(&self) -> f64 {
        (self.standard * self.sensitivity).abs()
    }
}

/// The standard uncertainty of a result.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Combined {
    /// Combined standard uncertainty, in the result's unit.
    pub standard: f64,
    /// Effective degrees of freedom; infinite if all components have infinitely many.
    pub freedom: f64,
}

/// What sources that have nothing to do with each other come to: the root of the sum of squares, with
/// the effective degrees of freedom ν = u⁴ / Σ (uᵢ⁴/νᵢ).
///
/// # Example
/// Three readings, and an instrument with limits of ±0.05 mm:
/// ```
/// use kerfwise::measures::uncertainty::{Component, Sample, combine};
///
/// let sample = Sample::of(&[12.46, 12.48, 12.50]).ok_or("no readings")?;
/// let together = combine(&[
///     Component::of_readings("readings", &sample),
///     Component::within("calliper", 0.05),
/// ]);
/// assert!((together.standard - 0.0311).abs() < 1e-4, "0.0115 and 0.0289 mm");
/// # Ok::<(), &str>(())
/// ```
pub fn combine(components: &[Component]) -> Combined {
    let squares: f64 = components
        .iter()
        .map(|component| component.contribution().powi(2))
        .sum();
    let lost: f64 = components
        .iter()
        .map(|component| component.contribution().powi(4) / component.freedom)
        .sum();
    let freedom = if lost > 0.0 {
        squares * squares / lost
    } else {
        f64::INFINITY
    };
    Combined {
        standard: squares.sqrt(),
        freedom,
    }
}

impl Combined {
    /// By what to multiply the standard uncertainty for an interval that holds the true value with
    /// probability `level` (0 to 1): Student's t, with the degrees of freedom cut to a whole number
    /// (GUM G.4.1).
    pub fn coverage_factor(&self, level: f64) -> f64 {
        student::factor(level, self.whole_freedom())
    }

    /// Half the width of that interval.
    pub fn expanded(&self, level: f64) -> f64 {
        self.coverage_factor(level) * self.standard
    }

    /// The probability that the true value lies within ±`factor` standard uncertainties.
    pub fn level_of(&self, factor: f64) -> f64 {
        student::level(factor, self.whole_freedom())
    }

    /// By what to multiply the standard uncertainty so that the interval holds the true value as surely
    /// as ±`factor` does where the uncertainty is well known: Student's t for the probability of that
    /// factor in a normal distribution (GUM G.4.2 and Table G.2). Never less than `factor`.
    ///
    /// # Example
    /// Two readings, and nothing else that counts:
    /// ```
    /// use kerfwise::measures::uncertainty::Combined;
    ///
    /// let two_readings = Combined { standard: 0.05, freedom: 1.0 };
    /// // JCGM 100:2008, Table G.2: 95.45 % and 1 degree of freedom
    /// assert!((two_readings.factor_as_sure_as(2.0) - 13.97).abs() < 0.005);
    /// let well_known = Combined { standard: 0.05, freedom: f64::INFINITY };
    /// assert_eq!(well_known.factor_as_sure_as(2.0), 2.0);
    /// ```
    pub fn factor_as_sure_as(&self, factor: f64) -> f64 {
        let freedom = self.whole_freedom();
        if freedom.is_infinite() {
            return factor;
        }
        let level = student::level(factor, f64::INFINITY);
        student::factor(level, freedom).max(factor)
    }

    /// The degrees of freedom cut to a whole number, at least 1.
    pub fn whole_freedom(&self) -> f64 {
        self.freedom.floor().max(1.0)
    }
}
