//! What is wrong with a measure, a limit or a fit, without its place.

use crate::geometry::number::shown;

/// A fault of something that is to be measured on a part. Lengths in millimetres.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum MeasureFault {
    /// A name that no feature of the part bears.
    #[error("the part `{part}` has no corner, round, edge or opening `{name}`")]
    UnknownFeature {
        /// The name.
        name: String,
        /// The part.
        part: String,
    },
    /// A name that several features bear, where one is needed.
    #[error(
        "`{name}` is the name of {count} features of the part `{part}`, and one is needed here"
    )]
    SeveralFeatures {
        /// The name.
        name: String,
        /// How many.
        count: usize,
        /// The part.
        part: String,
    },
    /// A feature of which this cannot be taken.
    #[error("`{name}` is {found}, and {wanted} is needed here")]
    WrongFeature {
        /// Its name.
        name: String,
        /// What it is.
        found: &'static str,
        /// What was needed.
        wanted: &'static str,
    },
    /// A station beside the part.
    #[error(
        "a station {by} mm from `{from}` lies outside the part, which has stations from {least} to {most} mm there",
        by = shown(.by), least = shown(.least), most = shown(.most)
    )]
    StationOutside {
        /// What it is counted from.
        from: String,
        /// How far into the part it was to be.
        by: f64,
        /// The first station there is.
        least: f64,
        /// The last one.
        most: f64,
    },
    /// A feature that this shape of the part has lost.
    #[error("`{name}` is no more on this shape of the part `{part}`")]
    NotOnShape {
        /// Its name.
        name: String,
        /// The part.
        part: String,
    },
    /// Two features with no metal between them.
    #[error("there is no strip of metal between `{first}` and `{second}`")]
    NoMetalBetween {
        /// The one.
        first: String,
        /// The other.
        second: String,
    },
    /// A part of a plate without a thickness.
    #[error("the thickness of the plate of `{part}` is not given")]
    NoThickness {
        /// The part.
        part: String,
    },
    /// A part of a material whose density is not known.
    #[error("the density of `{material}`, of which `{part}` is made, is not known")]
    NoDensity {
        /// The material as written.
        material: String,
        /// The part.
        part: String,
    },
    /// A dimension with a measure in a file with several parts.
    #[error("`{name}` does not say on which part it is measured, and there are {count}")]
    WhichPart {
        /// The dimension.
        name: String,
        /// How many parts there are.
        count: usize,
    },
}

named!(MeasureFault:
    UnknownFeature => "unknown-feature",
    SeveralFeatures => "several-features",
    WrongFeature => "wrong-feature",
    StationOutside => "station-outside",
    NotOnShape => "not-on-shape",
    NoMetalBetween => "no-metal-between",
    NoThickness => "no-thickness",
    NoDensity => "no-density",
    WhichPart => "which-part",
);
