//! The uncertainty of a reading taken on a part.

use super::Combined;
use super::Component;
use super::Means;
use super::Sample;
use super::combine;
use super::temperature;
use super::temperature::Temperature;
use crate::trade::instruments;

/// How readings came about.
#[derive(Clone, Debug, PartialEq)]
pub struct Circumstances {
    /// With what.
    pub means: Means,
    /// How warm part and instrument were.
    pub temperature: Temperature,
    /// Growth of the part with heat in 1e-6 per kelvin, where it is known and what is measured is a
    /// length. Wood moves with damp instead.
    pub expansion: Option<f64>,
}

/// A measured value with its sources of uncertainty.
#[derive(Clone, Debug, PartialEq)]
pub struct Budget {
    /// The value: the mean of the readings, at 20 °C where heat counts.
    pub value: f64,
    /// What was added to the mean for the temperature.
    pub correction: f64,
    /// Where the uncertainty comes from.
    pub components: Vec<Component>,
    /// What it comes to.
    pub combined: Combined,
}

impl Budget {
    /// The budget of the mean of readings.
    ///
    /// The reading of the scale and the scatter of several readings are two views of one thing: the
    /// larger of them counts (common practice).
    pub fn of_the_mean(sample: &Sample, circumstances: &Circumstances) -> Self {
        let read = Component::within("reading the scale", circumstances.means.reading());
        let scatter = Component::of_readings("scatter of the readings", sample);
        let of_reading = if scatter.contribution() > read.contribution() {
            scatter
        } else {
            read
        };
        Self::new(sample.mean, of_reading, circumstances)
    }

    /// The budget of a single reading out of several, each of which must keep the limit.
    pub fn of_one(reading: f64, circumstances: &Circumstances) -> Self {
        let read = Component::within("reading the scale", circumstances.means.reading());
        Self::new(reading, read, circumstances)
    }

    fn new(reading: f64, of_reading: Component, circumstances: &Circumstances) -> Self {
        let mut components = vec![circumstances.means.component(reading)];
        if of_reading.contribution() > 0.0 {
            components.push(of_reading);
        }
        let mut value = reading;
        if let Some(expansion) = circumstances.expansion {
            let (warmth, scale) = (circumstances.temperature, instruments::SCALE_EXPANSION);
            let warmer = warmth.from_reference();
            value = temperature::at_reference(reading, (expansion, warmer), (scale.value, warmer));
            // part and scale are equally warm: only the difference of their growth is left
            let per_kelvin = reading * (expansion - scale.value).abs() * 1e-6;
            let source = if warmth == Temperature::UNREAD {
                "temperature, not read"
            } else {
                "temperature"
            };
            let component = Component::within(source, warmth.within).with_sensitivity(per_kelvin);
            if component.contribution() > 0.0 {
                components.push(component);
            }
        }
        let combined = combine(&components);
        Self {
            value,
            correction: value - reading,
            components,
            combined,
        }
    }
}
