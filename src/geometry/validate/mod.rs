//! Whether contours cross themselves or one another, and what lies inside them.
//!
//! [`check_simple`] looks at one contour, [`check_region`] at an outer contour with its holes, and
//! [`contains`](fn@contour_contains) tells where a point lies. Pairs of pieces near each other are found
//! with a tree of their bounding rectangles, so that the cost grows as n log n for outlines that do not
//! crowd.

mod containment;
mod region;
mod simple;

pub use containment::Place;
pub use containment::contour_contains;
pub use containment::region_contains;
pub use region::RegionError;
pub use region::check_region;
pub use simple::check_simple;
