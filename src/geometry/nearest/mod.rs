//! Nearest points and distances: of two segments, contours and regions; and what a shop asks of a shape:
//! its narrowest web, the strip beside an opening, the tightest inside radius, the width at a station.

mod clearance;
mod segments;
mod station;
mod strip;
mod web;

pub use clearance::Clearance;
pub use clearance::between_contours;
pub use clearance::between_regions;
pub use clearance::to_contour;
pub(crate) use clearance::walk_below;
pub use segments::Nearest;
pub use segments::between;
pub use station::Station;
pub use station::width_at;
pub use strip::InsideCorner;
pub use strip::Neighbour;
pub use strip::Strip;
pub use strip::beside_opening;
pub use strip::tightest_inside_corner;
pub use web::Below;
pub use web::Web;
pub use web::narrowest_web;
pub use web::narrowest_web_below;
