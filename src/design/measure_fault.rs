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
    #[error("there is no strip of material between `{first}` and `{second}`")]
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
    /// A limit that limits nothing.
    #[error("the limit `{name}` has none of `min`, `max`, `tol`, `plus`, `minus`")]
    NothingLimited {
        /// What it is on.
        name: String,
    },
    /// A limit whose bounds contradict each other.
    #[error("nothing is permitted of `{name}`: at least {min} and at most {max}")]
    LimitsContradict {
        /// What it is on.
        name: String,
        /// Not less than this.
        min: String,
        /// Not more than this.
        max: String,
    },
    /// The part as drawn breaks a limit.
    #[error(
        "`{name}` comes to {value} on the part `{part}` as drawn, {by} {side} the {limit} permitted"
    )]
    LimitBroken {
        /// What is limited.
        name: String,
        /// The part.
        part: String,
        /// What it comes to.
        value: String,
        /// How far past the limit.
        by: String,
        /// `over` or `under`.
        side: &'static str,
        /// The limit.
        limit: String,
    },
    /// A dimension whose measure gives another number than its value.
    #[error("`{name}` is {value}, but as it is measured the part `{part}` has {found}")]
    MeasureDisagrees {
        /// The dimension.
        name: String,
        /// Its value.
        value: String,
        /// The part.
        part: String,
        /// What the measure gives.
        found: String,
    },
    /// A reading of a plate past the limits of its thickness.
    #[error(
        "reading {number} of the {name} is {reading}, {by} {side} the {limit} permitted, and every reading counts"
    )]
    ReadingOutside {
        /// "thickness of stock".
        name: String,
        /// Which reading, from 1.
        number: usize,
        /// The reading.
        reading: String,
        /// How far past the limit.
        by: String,
        /// `over` or `under`.
        side: &'static str,
        /// The limit.
        limit: String,
    },
    /// Stock that the mill may deliver outside the limits of the part.
    #[error(
        "{material} of {nominal} may come from {least} to {most} thick, and {permitted} is permitted"
    )]
    StockNotTrusted {
        /// The material.
        material: String,
        /// The nominal thickness.
        nominal: String,
        /// The thinnest that is ordinary.
        least: String,
        /// The thickest that is ordinary.
        most: String,
        /// What is permitted.
        permitted: String,
    },
    /// Stock that the mill may deliver less flat than the part has to be.
    #[error(
        "{material} of {nominal} may come with a gap of {most} under a straight edge of {over}, and {permitted} is permitted"
    )]
    StockNotFlat {
        /// The material.
        material: String,
        /// The nominal thickness.
        nominal: String,
        /// The widest gap that is ordinary.
        most: String,
        /// The length of the straight edge.
        over: String,
        /// What is permitted.
        permitted: String,
    },
    /// Something that is not known to measure with.
    #[error("what `{plate}` is measured with is not known: {why}")]
    UnknownMeans {
        /// The plate.
        plate: String,
        /// Why not.
        why: String,
    },
    /// A side of a fit that does not say its size.
    #[error("a side of the fit `{name}` has {found} of `measure` and `size`")]
    SideWithoutSize {
        /// The fit.
        name: String,
        /// `none` or `both`.
        found: &'static str,
    },
    /// Something that does not go in, or is too loose.
    #[error(
        "`{name}`: the clearance comes to {clearance} {when}, {by} {side} the {limit} permitted"
    )]
    FitBroken {
        /// The fit.
        name: String,
        /// `as designed` or `in the worst case`.
        when: &'static str,
        /// The clearance then.
        clearance: String,
        /// How far past the limit.
        by: String,
        /// `over` or `under`.
        side: &'static str,
        /// The limit.
        limit: String,
    },
    /// A part that does not go on its plate, either way round.
    #[error("the part `{part}` is {size} over all, and its plate `{plate}` is {plate_size}")]
    LargerThanPlate {
        /// The part.
        part: String,
        /// Its longer and its shorter side.
        size: String,
        /// The plate.
        plate: String,
        /// Its longer and its shorter side.
        plate_size: String,
    },
    /// A part or a plate of a size that few have.
    #[error("{what} is {size} {way}, and few are {than} than {limit}")]
    UnlikelySize {
        /// The part or the plate.
        what: String,
        /// Its size.
        size: String,
        /// `over all` or `thick`.
        way: &'static str,
        /// `longer`, `shorter`, `thicker` or `thinner`.
        than: &'static str,
        /// What few go beyond.
        limit: String,
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
    NothingLimited => "nothing-limited",
    LimitsContradict => "limits-contradict",
    LimitBroken => "limit-broken",
    MeasureDisagrees => "measure-disagrees",
    ReadingOutside => "reading-outside",
    StockNotTrusted => "stock-not-trusted",
    StockNotFlat => "stock-not-flat",
    UnknownMeans => "unknown-means",
    SideWithoutSize => "side-without-size",
    FitBroken => "fit-broken",
    LargerThanPlate => "larger-than-plate",
    UnlikelySize => "unlikely-size",
);
