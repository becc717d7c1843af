//! Lengths at 20 °C from readings at another temperature.

/// The temperature at which lengths are stated, in °C.
///
/// # Source
/// ISO 1; Directive 2014/32/EU, Annex X, chapter I, for tapes.
pub const REFERENCE: f64 = 20.0;

/// How far part and instrument may be from a temperature that was read, in kelvin, either way: common
/// practice.
pub const READ_WITHIN: f64 = 2.0;

/// How far they may be from 20 °C when nobody read the temperature, in kelvin, either way: common
/// practice for a shed.
pub const UNREAD_WITHIN: f64 = 10.0;

/// A temperature and how surely it is known.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Temperature {
    /// In °C.
    pub value: f64,
    /// How far off it may be, either way, in kelvin.
    pub within: f64,
}

impl Temperature {
    /// One that was read, in °C.
    pub const fn read(value: f64) -> Self {
        Self {
            value,
            within: READ_WITHIN,
        }
    }

    /// That of a place where nobody read it.
    pub const UNREAD: Self = Self {
        value: REFERENCE,
        within: UNREAD_WITHIN,
    };

    /// How far it is from the reference, in kelvin.
    pub fn from_reference(self) -> f64 {
        self.value - REFERENCE
    }
}

/// The length at 20 °C of a thing whose length was read from a scale, both `warmer` than 20 °C by so
/// many kelvin: the scale has grown too, so that it reads too little.
///
/// # Units
/// Lengths in millimetres; growth of the thing and of the scale in 1e-6 per kelvin.
///
/// # Example
/// An aluminium plate of 1200 mm against a steel tape, 10 K above the reference: 0.14 mm.
/// ```
/// use kerfwise::measures::uncertainty::temperature;
///
/// let at_20 = temperature::at_reference(1200.0, (23.6, 10.0), (11.7, 10.0));
/// assert!((1200.0 - at_20 - 0.1428).abs() < 1e-4, "mm");
/// ```
pub fn at_reference(reading: f64, thing: (f64, f64), scale: (f64, f64)) -> f64 {
    let growth = |(per_kelvin, warmer): (f64, f64)| 1.0 + per_kelvin * 1e-6 * warmer;
    reading * growth(scale) / growth(thing)
}
