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

/// Largest distance between an arc and the chords by which a pattern decides which sheets it needs and
/// where marks and words may stand, in millimetres; never used for what is drawn.
pub const LAID_OUT: f64 = 0.05;

/// Directions that differ by less than this make a joint to tick as tangent on a pattern, in radians: a
/// step that no file would show.
pub const DRAWN_TANGENT: f64 = 1e-6;
