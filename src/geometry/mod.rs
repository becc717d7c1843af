//! The kernel: exact lines and circular arcs in the plane.
//!
//! # Conventions
//!
//! - `f64`, millimetres and radians; y points up; anticlockwise turns and areas are positive.
//! - Material lies on the left of a contour: outer contours run anticlockwise, holes clockwise.
//! - A positive offset grows the material.
//! - A [`Segment`] is a line or a circular arc, and stays one: nothing here is flattened, except in
//!   [`convert`], which says by how much.
//! - [`tolerance`] is the only place that owns an epsilon; [`number`] holds the sine and its
//!   relatives, the same on every platform.
//!
//! Points and vectors are those of `kurbo`.

pub mod arc;
pub mod area;
pub(crate) mod bounds_tree;
pub mod chain;
pub mod circle;
pub mod construct;
pub mod contour;
pub mod convert;
pub mod deviation;
pub mod error;
pub mod fair_curve;
pub mod half_plane;
pub mod intersect;
pub mod lay;
pub mod line;
pub mod moments;
pub mod nearest;
pub mod number;
pub mod offset;
pub mod outline;
pub mod oversize;
pub mod refit;
pub mod region;
pub mod segment;
pub mod tolerance;
pub mod transform;
pub mod unit;
pub mod validate;

pub use arc::Arc;
pub use arc::Turn;
pub use circle::Circle;
pub use contour::Contour;
pub use contour::Path;
pub use contour::Piece;
pub use contour::SourceId;
pub use error::GeometryError;
pub use kurbo::Point;
pub use kurbo::Rect;
pub use kurbo::Vec2;
pub use line::Line;
pub use region::Region;
pub use segment::Segment;
pub use transform::Motion;
pub use unit::LengthUnit;
