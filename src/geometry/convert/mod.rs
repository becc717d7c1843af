//! To and from the shapes of other libraries: `kurbo` paths and `geo` polygons.
//!
//! Both lose something, and say how much: a path has cubic curves for arcs, a polygon has chords.

mod bezier;
mod polygon;

pub use bezier::BezierError;
pub use bezier::Outline;
pub use bezier::contour_to_bezier;
pub use bezier::from_bezier;
pub use bezier::path_to_bezier;
pub use bezier::region_to_bezier;
pub use polygon::Flattened;
pub use polygon::region_from_polygon;
pub use polygon::region_to_polygon;

use super::GeometryError;
use super::tolerance;

/// Refuses a tolerance that no conversion can keep.
fn check_tolerance(value: f64) -> Result<(), GeometryError> {
    if value >= tolerance::FINEST_CONVERSION && value.is_finite() {
        Ok(())
    } else {
        Err(GeometryError::NotUsable {
            what: "tolerance",
            value,
        })
    }
}
