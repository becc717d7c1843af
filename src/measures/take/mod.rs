//! Measures, one file a kind.

mod angle;
mod bow;
mod distance;
mod filed;
mod gauge;
mod size;
mod strip;
mod whole;
mod width;

pub use filed::FiledEdge;
pub use filed::filed_edges;

use super::shape::Shape;
use super::taken::Taken;
use crate::design::Dimensions;
use crate::design::Located;
use crate::design::Unresolved;
use crate::design::file::Measure;

/// Takes a measure on a shape of a part.
///
/// Of a pattern of openings distances and strips are those of the nearest one, radii and diameters the
/// least.
///
/// # Units
/// As [`Taken::value`].
///
/// # Errors
/// [`Unresolved::Open`] when a station depends on what is still to be measured;
/// [`Unresolved::Fault`] with its place: a feature that the part or this shape of it does not have, or
/// of which this cannot be taken; a station beside the part; two features with no metal between them;
/// a weight of what has no thickness or density.
///
/// # Accuracy
/// Closed form on exact lines and arcs, good to 1e-9 mm on the part as drawn; on an offset shape as good
/// as the offset is.
pub fn take(
    shape: &Shape<'_>,
    measure: &Located<Measure>,
    dimensions: &Dimensions,
) -> Result<Taken, Unresolved> {
    let place = measure.place;
    Ok(match &measure.value {
        Measure::Weight => whole::weight(shape, place)?,
        Measure::Area => whole::area(shape),
        Measure::Thickness => whole::thickness(shape, place)?,
        Measure::Width(width) => width::width(shape, width, dimensions)?,
        Measure::Distance(distance) => distance::distance(shape, distance)?,
        Measure::Along(along) => distance::along(shape, along)?,
        Measure::Position(position) => distance::position(shape, position)?,
        Measure::Radius(name) => gauge::radius(shape, name)?,
        Measure::Diameter(name) => gauge::diameter(shape, name)?,
        Measure::Bow(name) => bow::bow(shape, name)?,
        Measure::Size(size) => size::size(shape, size)?,
        Measure::Angle(between) => angle::angle(shape, between)?,
        Measure::Strip(between) => strip::strip(shape, between, place)?,
        Measure::EdgeDistance(of) => strip::edge_distance(shape, of)?,
    })
}
