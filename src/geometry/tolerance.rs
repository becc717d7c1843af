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

/// Walls whose directions differ by less than this face each other squarely, in radians: over 100 mm
/// they come nearer by a ten-thousandth of a millimetre. Used where the narrowest place of a strip is
/// sought.
pub const SAME_WALL: f64 = 1e-6;

/// A joint that turns by less than this counts as smooth, in radians: no cutter or file shows it.
pub const SMOOTH_JOINT: f64 = 1e-3;

/// Equations in numbers of about 1 that differ by less than this say the same. Used where the circle
/// tangent to three others is sought: about five thousand units in the last place.
pub const DEPENDENT: f64 = 1e-12;

/// Second moments about two axes that differ by less than this part of their size are the same: every
/// axis is a principal one.
pub const SAME_MOMENT: f64 = 1e-11;

/// An area smaller than this is none, in mm²: the thinnest strip that the shortest edge could bound.
pub const SMALLEST_AREA: f64 = 1e-9;

/// The finest tolerance that a conversion to curves or chords takes, in millimetres: a nanometre, near
/// what counts as one point.
pub const FINEST_CONVERSION: f64 = 1e-6;
