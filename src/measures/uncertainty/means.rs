//! With what something is measured, and how it is named.

use super::Component;
use crate::geometry::number;
use crate::trade::Instrument;
use crate::trade::TradeError;
use crate::trade::instruments;
use crate::trade::instruments::MeasuredFrom;

/// With what something is measured.
#[derive(Clone, Debug, PartialEq)]
pub struct Means {
    /// Its name, with what was stated of it, as a record shows it and [`Means::parse`] reads it.
    pub name: String,
    /// What it may be off by.
    pub accuracy: Accuracy,
}

/// What is known of how far an instrument may be off.
#[derive(Clone, Debug, PartialEq)]
pub enum Accuracy {
    /// It is one of the instruments known here, used from a mark or from its end.
    Known(&'static Instrument, MeasuredFrom),
    /// It was stated that it is off by so much at most, in the unit of what is measured.
    Within(f64),
    /// A certificate states an expanded uncertainty, in that unit, and the factor it was expanded by.
    Certificate {
        /// The expanded uncertainty.
        expanded: f64,
        /// The coverage factor.
        factor: f64,
    },
}

/// What is wrong with the name of an instrument.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum MeansFault {
    /// There is no such instrument.
    #[error(transparent)]
    Unknown(#[from] TradeError),
    /// An uncertainty that is none.
    #[error("`{written}` is no uncertainty: it needs a number above 0, such as ±0.02")]
    NoUncertainty {
        /// What was written.
        written: String,
    },
}

/// The coverage factor of a certificate that states none: the usual one.
const USUAL_FACTOR: f64 = 2.0;

impl Means {
    /// An instrument known here.
    ///
    /// # Errors
    /// [`TradeError::UnknownInstrument`].
    pub fn known(name: &str, from: MeasuredFrom) -> Result<Self, TradeError> {
        let instrument = instruments::find(name)?;
        Ok(Self::of(instrument, from))
    }

    /// This instrument.
    pub fn of(instrument: &'static Instrument, from: MeasuredFrom) -> Self {
        Self {
            name: instrument.name.to_owned(),
            accuracy: Accuracy::Known(instrument, from),
        }
    }

    /// An instrument as a person names it: `steel rule`, `tape from a mark`, or any words with what
    /// they may be off by (`old calliper ±0.1 mm`) or with the expanded uncertainty of a certificate
    /// (`plug gauge U 0.01 mm k 2`; k is 2 if it is not said).
    ///
    /// `length_of` reads a size in the unit of what is measured.
    ///
    /// # Errors
    /// [`MeansFault`].
    pub fn parse(text: &str, length_of: impl Fn(&str) -> Option<f64>) -> Result<Self, MeansFault> {
        let text = text.trim();
        let positive = |written: &str| {
            length_of(written.trim())
                .filter(|size| *size > 0.0 && size.is_finite())
                .ok_or_else(|| MeansFault::NoUncertainty {
                    written: written.trim().to_owned(),
                })
        };
        if let Some((_, size)) = text.split_once('±').or_else(|| text.split_once("+-")) {
            return Ok(Self {
                name: text.to_owned(),
                accuracy: Accuracy::Within(positive(size)?),
            });
        }
        if let Some(size) = certificate(text) {
            let (size, factor) = match size.split_once(" k") {
                Some((size, factor)) => (size, pure(factor)?),
                None => (size, USUAL_FACTOR),
            };
            return Ok(Self {
                name: text.to_owned(),
                accuracy: Accuracy::Certificate {
                    expanded: positive(size)?,
                    factor,
                },
            });
        }
        let (plain, from) = match text.strip_suffix(" from a mark") {
            Some(plain) => (plain, MeasuredFrom::Mark),
            None => (text, MeasuredFrom::End),
        };
        Ok(Self::known(plain, from)?)
    }

    /// What it may be off by over `length`, as a component of uncertainty.
    pub fn component(&self, length: f64) -> Component {
        let source = self.words();
        match self.accuracy {
            Accuracy::Known(instrument, from) => {
                Component::within(source, instrument.permissible_error(length, from))
            }
            Accuracy::Within(limit) => Component::within(source, limit),
            Accuracy::Certificate { expanded, factor } => {
                Component::known(source, expanded / factor)
            }
        }
    }

    /// How far a careful reading of it is off, either way, in millimetres; 0 where that is part of
    /// what was stated.
    pub fn reading(&self) -> f64 {
        match self.accuracy {
            Accuracy::Known(instrument, _) => instrument.reading.value,
            Accuracy::Within(_) | Accuracy::Certificate { .. } => 0.0,
        }
    }

    /// Whether it measures so long a distance in one go, in millimetres.
    pub fn reaches(&self, length: f64) -> bool {
        match self.accuracy {
            Accuracy::Known(instrument, _) => instrument.reaches(length),
            Accuracy::Within(_) | Accuracy::Certificate { .. } => true,
        }
    }

    /// Whether it is a scale to lay along something, as tapes and rules are, and not a pair of jaws.
    pub fn has_scale(&self) -> bool {
        match self.accuracy {
            Accuracy::Known(instrument, _) => {
                matches!(instrument.error, instruments::ErrorLaw::Tape { .. })
            }
            Accuracy::Within(_) | Accuracy::Certificate { .. } => true,
        }
    }

    /// Its name, with the end it is used from where that counts.
    pub fn words(&self) -> String {
        match self.accuracy {
            Accuracy::Known(_, MeasuredFrom::Mark) if self.has_scale() => {
                format!("{} from a mark", self.name)
            }
            _ => self.name.clone(),
        }
    }
}

/// What follows a `U` that stands alone before a number.
fn certificate(text: &str) -> Option<&str> {
    let at_start = text.strip_prefix("U ").or_else(|| text.strip_prefix("U="));
    let size = match at_start {
        Some(size) => size,
        None => text.split_once(" U ").or_else(|| text.split_once(" U="))?.1,
    };
    size.trim_start()
        .starts_with(|first: char| first.is_ascii_digit())
        .then_some(size)
}

/// The factor after `k`, at least 1.
fn pure(written: &str) -> Result<f64, MeansFault> {
    let plain = written
        .trim()
        .trim_start_matches('=')
        .trim()
        .replace(',', ".");
    plain
        .parse()
        .ok()
        .filter(|factor: &f64| *factor >= 1.0 && factor.is_finite())
        .ok_or_else(|| MeansFault::NoUncertainty {
            written: format!("k {}", number::trimmed(plain.parse().unwrap_or(0.0), 3)),
        })
}
