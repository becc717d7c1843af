//! What the builder refuses, with the entry at fault and the numbers.

use crate::geometry::GeometryError;
use crate::geometry::Point;
use crate::geometry::construct::ConstructError;
use crate::geometry::fair_curve::FairCurveError;
use crate::geometry::number::shown;
use crate::geometry::number::shown_point;

/// A fault of an outline: which entry, which part of it, and what is wrong.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[error("{fault}")]
pub struct OutlineError {
    /// Index of the entry.
    pub entry: usize,
    /// Whether the corner or round itself, or the edge that leaves it.
    pub part: OutlinePart,
    /// What is wrong.
    pub fault: OutlineFault,
}

/// A part of an entry.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OutlinePart {
    /// The corner or round itself.
    Place,
    /// The edge that leaves it.
    Edge,
}

/// What is wrong with an outline. Lengths in millimetres.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum OutlineFault {
    /// Too few entries to enclose anything.
    #[error("an outline needs at least two entries, and has {0}")]
    TooFewEntries(usize),
    /// A size that must be positive is not, or is no usable number.
    #[error("the {what} is {value} mm; it must be more than 0 and less than 1 km", value = shown(.value))]
    NotPositive {
        /// Which size.
        what: &'static str,
        /// Its value.
        value: f64,
    },
    /// The straight tangent between two ends does not exist: one lies inside the other.
    #[error(
        "no straight edge can run tangent here: `{from}` and `{to}` are {distance} mm apart, and \
         the edge needs more than {needed} mm", distance = shown(.distance), needed = shown(.needed))]
    NoStraightTangent {
        /// Name of the entry it leaves.
        from: String,
        /// Name of the entry it runs to.
        to: String,
        /// Distance of the points or centres.
        distance: f64,
        /// What it must exceed.
        needed: f64,
    },
    /// Two corners in a row are one point.
    #[error("the edge from `{from}` to `{to}` has no length")]
    ZeroLengthEdge {
        /// Name of the entry it leaves.
        from: String,
        /// Name of the entry it runs to.
        to: String,
    },
    /// The radius cannot span the distance.
    #[error(
        "a radius of {radius} mm cannot reach from `{from}` to `{to}`: the least is {least} mm", radius = shown(.radius), least = shown(.least))]
    RadiusTooSmall {
        /// Name of the entry it leaves.
        from: String,
        /// Name of the entry it runs to.
        to: String,
        /// The radius asked for.
        radius: f64,
        /// The least that works.
        least: f64,
    },
    /// The bow is more than half a circle.
    #[error(
        "a bow of {bow} mm is more than half a circle between `{from}` and `{to}`: the most is {most} mm", bow = shown(.bow), most = shown(.most))]
    BowTooLarge {
        /// Name of the entry it leaves.
        from: String,
        /// Name of the entry it runs to.
        to: String,
        /// The bow asked for.
        bow: f64,
        /// The most that works.
        most: f64,
    },
    /// The point that the arc should run through is on the straight line, or out of reach.
    #[error("no arc from `{from}` to `{to}` runs through {place} mm", place = shown_point(.point))]
    PointOutOfReach {
        /// Name of the entry it leaves.
        from: String,
        /// Name of the entry it runs to.
        to: String,
        /// The point.
        point: Point,
    },
    /// An edge tangent to the edge before leaves a round, where every edge is tangent already.
    #[error("`{0}` is a round: every edge leaves it tangent already")]
    LeavesRound(String),
    /// Every edge waits for the direction of another.
    #[error("every edge here takes its direction from the one before, all the way round")]
    NoDirection,
    /// The arc that continues the edge before comes back to where it started, or never arrives.
    #[error("no arc that leaves `{from}` in the direction of the edge before arrives at `{to}`")]
    NoTangentArc {
        /// Name of the entry it leaves.
        from: String,
        /// Name of the entry it runs to.
        to: String,
    },
    /// An edge tangent to both neighbours needs a sharp corner at each end.
    #[error("`{0}` must be a sharp corner: the arc next to it replaces the corner")]
    NeedsSharpCorner(String),
    /// An edge tangent to both neighbours needs straight neighbours.
    #[error("the neighbour {0} must be straight for an arc tangent to both")]
    NeighbourNotStraight(String),
    /// The neighbours are parallel, so that the radius is fixed.
    #[error("the two neighbours are parallel, {apart} mm apart: the radius can only be {half} mm, and {radius} mm is asked for", apart = shown(.apart), radius = shown(.radius), half = shown(&(.apart / 2.0)))]
    ParallelNeighbours {
        /// Their distance.
        apart: f64,
        /// The radius asked for.
        radius: f64,
    },
    /// No circle touches both neighbours as asked.
    #[error("no arc touches both neighbours as asked")]
    NoArcBetween,
    /// The arc touches a neighbour beyond its end.
    #[error("the arc would touch {neighbour} {beyond} mm beyond its end, at {place} mm", place = shown_point(.at), beyond = shown(.beyond))]
    TouchesBeyond {
        /// The neighbour.
        neighbour: String,
        /// How far beyond.
        beyond: f64,
        /// Where.
        at: Point,
    },
    /// A fair curve or an elliptical quarter that meets a round.
    #[error("`{0}` is a round: a fair curve or an elliptical quarter runs from corner to corner")]
    CurveNeedsCorner(String),
    /// The edges beside an elliptical quarter do not point at a common corner.
    #[error(
        "the edges before and after do not run towards a common corner that a quarter of an ellipse could round"
    )]
    NoQuarter,
    /// The batten cannot be drawn, or not followed by arcs.
    #[error("{0}")]
    Curve(#[from] FairCurveError),
    /// The edges at a corner run on into each other, so there is nothing to round.
    #[error("the edges at `{0}` run on tangent: there is no corner to work on")]
    NoCorner(String),
    /// A fillet or chamfer larger than the edges beside it.
    #[error(
        "{what} of {size} mm does not fit at `{corner}`: the largest that fits is {largest} mm", size = shown(.size), largest = shown(.largest))]
    TreatmentTooLarge {
        /// "a fillet" or "a chamfer".
        what: &'static str,
        /// Name of the corner.
        corner: String,
        /// The size asked for.
        size: f64,
        /// The largest that fits, were the other corners left as they are.
        largest: f64,
    },
    /// A corner that cannot be worked for another reason.
    #[error("the {what} at `{corner}`: {error}")]
    Corner {
        /// Name of the corner.
        corner: String,
        /// "fillet", "chamfer" or "relief".
        what: &'static str,
        /// Why not.
        error: ConstructError,
    },
    /// Two treatments want more than the whole edge between them.
    #[error(
        "the roundings at `{first}` and `{second}` need {first_needs} mm and {second_needs} mm \
         of the edge between them, which has only {length} mm", first_needs = shown(.first_needs), second_needs = shown(.second_needs), length = shown(.length))]
    TreatmentsOverlap {
        /// Name of the corner at the start of the edge.
        first: String,
        /// Name of the corner at its end.
        second: String,
        /// What the first takes of the edge.
        first_needs: f64,
        /// What the second takes.
        second_needs: f64,
        /// What there is.
        length: f64,
    },
    /// The outline crosses itself.
    #[error("the outline crosses itself at {place} mm, where {first} meets {second}", place = shown_point(.at))]
    CrossesItself {
        /// Where.
        at: Point,
        /// The one edge or rounding.
        first: String,
        /// The other.
        second: String,
    },
    /// The finished contour is refused for another reason.
    #[error("{0}")]
    Geometry(#[from] GeometryError),
}

named!(OutlineFault:
    TooFewEntries => "too-few-entries",
    NotPositive => "outline-size-not-positive",
    NoStraightTangent => "no-straight-tangent",
    ZeroLengthEdge => "zero-length-edge",
    RadiusTooSmall => "radius-too-small",
    BowTooLarge => "bow-too-large",
    PointOutOfReach => "point-out-of-reach",
    LeavesRound => "leaves-round",
    NoDirection => "no-direction",
    NoTangentArc => "no-tangent-arc",
    NeedsSharpCorner => "needs-sharp-corner",
    NeighbourNotStraight => "neighbour-not-straight",
    ParallelNeighbours => "parallel-neighbours",
    NoArcBetween => "no-arc-between",
    TouchesBeyond => "touches-beyond",
    CurveNeedsCorner => "curve-needs-corner",
    NoQuarter => "no-quarter",
    Curve => "unfair-curve",
    NoCorner => "no-corner",
    TreatmentTooLarge => "treatment-too-large",
    Corner => "corner",
    TreatmentsOverlap => "treatments-overlap",
    CrossesItself => "outline-crosses-itself",
    Geometry => "geometry-of-outline",
);
