//! The flatness of a plate.

use super::source::Place;

/// How flat a plate is, and how flat it has to be. Lengths in millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct Flatness {
    /// How it is measured.
    pub way: FlatnessWay,
    /// The length of the straight edge, or the span.
    pub over: f64,
    /// What was measured, never negative.
    pub readings: Vec<f64>,
    /// The most that is permitted.
    pub max: Option<f64>,
    /// What the mill states that it delivers.
    pub mill: Option<f64>,
    /// With what it was measured, as written.
    pub with: Option<String>,
    /// Where that stands; where the flatness stands, if it is not said.
    pub with_place: Place,
    /// Remark.
    pub note: Option<String>,
    /// Where it stands in the design file.
    pub place: Place,
    /// Where each reading stands.
    pub reading_places: Vec<Place>,
}

/// How the flatness of a plate is measured.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FlatnessWay {
    /// The widest gap under a straight edge that lies on the plate.
    Gap,
    /// The depth of the hollow below a line between two points of the plate.
    Bow,
}
