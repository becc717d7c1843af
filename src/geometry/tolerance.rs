//! The one owner of tolerances: every length or angle that counts as nothing stands here, with what
//! it is and is not used for.
//!
//! The kernel computes in `f64` millimetres. At 10 m from the origin one unit in the last place is
//! 1.8e-12 mm, and a chain of constructions loses two or three digits of that.

/// Two points nearer than this are one point, in millimetres. Used where constructions meet (an arc
/// that should end on a line); not a licence to move points that a user gave.
pub const SAME_POINT: f64 = 1e-8;

/// Directions that differ by less than this are one, in radians: whether a joint is tangent, whether
/// two lines are parallel.
pub const SAME_DIRECTION: f64 = 1e-9;

/// A segment of an outline shorter than this is refused, in millimetres: a thousandth of what any
/// machine resolves.
pub const SHORTEST_SEGMENT: f64 = 1e-6;

/// Coordinates and radii larger than this are refused, in millimetres (1 km): the exactness
/// promised elsewhere would not hold.
pub const LARGEST_COORDINATE: f64 = 1e6;

/// Largest distance between an arc and the cubic curves that stand for it where a format has no arc,
/// in millimetres.
pub const DRAWN_CURVE: f64 = 1e-3;

/// Largest side of a drawing in a PDF, in millimetres: its numbers have 24 binary digits and count
/// from the drawing's own centre, which keeps every place within 0.4 µm up to this size.
pub const LARGEST_PDF_DRAWING: f64 = 23_000.0;

/// Walls whose directions differ by less than this face each other squarely, in radians: over 100 mm
/// they come nearer by a ten-thousandth of a millimetre. Used where the narrowest place of a strip is
/// sought.
pub const SAME_WALL: f64 = 1e-6;

/// A joint that turns by less than this counts as smooth, in radians: no cutter or file shows it.
pub const SMOOTH_JOINT: f64 = 1e-3;
/// A line read back from a written file may lie this far from what was written, in millimetres. The
/// corners come back closer; an arc whose ends were made to meet its neighbours ([`SAME_POINT`]) is
/// another one by a few times that when it is built anew from its ends and its bulge or radius.
pub const READ_BACK: f64 = 5.0 * SAME_POINT;
/// Greatest distance between a fair curve and the arcs that stand for it, where the user states none,
/// in millimetres: a tenth of what a good shop cuts to.
pub const FITTED_CURVE: f64 = 0.01;

/// A finer fit of a fair curve than this is refused, in millimetres: rounding would show.
pub const FINEST_FIT: f64 = 1e-6;

/// A table of points whose every point is this near one circle is a table of that circle, in
/// millimetres. Far below what anybody writes into a table, above what computing one loses.
pub const SAME_CIRCLE: f64 = 1e-6;
