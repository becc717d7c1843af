//! What a fair curve refuses, with the numbers and one way out.

use super::super::Point;
use super::super::number::shown;

/// A table that makes no fair curve, or a curve that no arcs can follow.
///
/// Stations are counted from 0, in the order of the table.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FairCurveError {
    /// Too few points for the curve asked for.
    #[error("a fair curve needs at least {needed} points here, and has {found}: add stations")]
    TooFewPoints {
        /// How many are needed.
        needed: usize,
        /// How many there are.
        found: usize,
    },
    /// A number that is not finite, or beyond 1 km.
    #[error(
        "{what} of station {station} is {value}, which is not a usable number of millimetres: \
         correct it"
    )]
    NotUsable {
        /// What the number was meant to be.
        what: &'static str,
        /// The station (for a Bézier curve its control point).
        station: usize,
        /// The number.
        value: f64,
    },
    /// Two stations in a row are one point.
    #[error(
        "stations {first} and {second} are the same point ({:.6}, {:.6}) mm: leave one of them out",
        at.x, at.y
    )]
    SamePoint {
        /// The earlier station.
        first: usize,
        /// The station that repeats it.
        second: usize,
        /// Where they are.
        at: Point,
    },
    /// Stations of a function that do not run one way.
    #[error(
        "station {station} at x = {x} mm does not go on from x = {before} mm before it: put the \
         stations in order, or fit a curve through points instead"
    )]
    OutOfOrder {
        /// The station.
        station: usize,
        /// Its x in millimetres.
        x: f64,
        /// x of the station before.
        before: f64,
    },
    /// A direction that is none, or that runs against the table.
    #[error(
        "({x}, {y}) is no direction to start or end this curve in: give one that runs the way of \
         the table"
    )]
    NoDirection {
        /// Its x.
        x: f64,
        /// Its y.
        y: f64,
    },
    /// A tolerance that cannot be kept.
    #[error("a fit within {tolerance} mm cannot be made: ask for {finest} mm or more")]
    Tolerance {
        /// The tolerance asked for, in millimetres.
        tolerance: f64,
        /// The finest that is possible, in millimetres.
        finest: f64,
    },
    /// An ellipse or a circle without size.
    #[error("{what} is {value} mm: give it a size above {smallest} mm", value = shown(.value), smallest = shown(.smallest))]
    NoSize {
        /// What has no size.
        what: &'static str,
        /// The size, in millimetres.
        value: f64,
        /// What it must exceed, in millimetres.
        smallest: f64,
    },
    /// The curve turns on the spot: no tangent arcs can follow it.
    #[error(
        "the curve comes to a point at ({:.4}, {:.4}) mm, near station {station} (radius \
         {radius:.2e} mm): check that station, or end the curve there and start another",
        at.x, at.y
    )]
    Cusp {
        /// The nearest station.
        station: usize,
        /// Where.
        at: Point,
        /// Radius of curvature there, in millimetres.
        radius: f64,
    },
    /// The arcs found leave the curve by more than asked.
    #[error(
        "the arcs leave the curve by {deviation} mm, more than {tolerance} mm: allow more, or give more stations where \
         the curve turns most",
        deviation = shown(.deviation),
        tolerance = shown(.tolerance)
    )]
    TooFar {
        /// The deviation, in millimetres.
        deviation: f64,
        /// What was asked for, in millimetres.
        tolerance: f64,
    },
    /// Breakpoints that do not belong to the curve.
    #[error(
        "breakpoint {index} at {position} does not lie between {after} and {last}: fit the curve \
         anew"
    )]
    Breakpoints {
        /// Which one.
        index: usize,
        /// Where it stands along the curve.
        position: f64,
        /// Where the one before stands.
        after: f64,
        /// Where the curve ends.
        last: f64,
    },
}
