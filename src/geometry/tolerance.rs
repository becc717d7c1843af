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

/// Lengths that differ by less than this are one to a steel rule, in millimetres: what a paper names as the whole
/// or as beyond a line.
pub const SHOWN_BY_A_RULE: f64 = 0.05;

/// Directions that differ by less than this make a joint to tick as tangent on a pattern, in radians: a
/// step that no file would show.
pub const DRAWN_TANGENT: f64 = 1e-6;
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
/// Offsets: two fronts meet when they come as near as this, in millimetres. Far above rounding at
/// 10 m, far below anything that shows.
pub const OFFSET_TOUCH: f64 = 1e-9;

/// Offsets: a piece of a front shorter than this is shrunk to a point, in millimetres. Twice
/// [`SHORTEST_SEGMENT`], so that what comes out is always a contour.
pub const OFFSET_SHORTEST: f64 = 2e-6;

/// Offsets: the widest group of points that shrinking short pieces may draw together, in
/// millimetres. Anything wider is not certified.
pub const OFFSET_WIDEST_NODE: f64 = 1e-5;

/// Offsets: how much too near to the source (mm) a piece of a front may seem and still count as
/// being at the full distance. The values are tried in this order.
pub const OFFSET_NEAR: [f64; 3] = [1e-9, 1e-11, 1e-8];

/// Offsets: how far from the promised distance (mm) an edge of a certified result may lie, where
/// nothing had to be drawn together.
pub const OFFSET_EXACT: f64 = 2e-8;

/// Offsets: two edges of a result nearer than this to one another are a tie (a gap of exactly twice
/// the distance), in millimetres.
pub const OFFSET_TIE: f64 = 2e-7;

/// Offsets: what is added to the distance, in millimetres, when there is a tie or the certificate
/// fails. The first that can be certified is taken.
pub const OFFSET_NUDGES: [f64; 8] = [0.0, 1e-6, 2.3e-6, 0.7e-6, 3.9e-6, 5.1e-6, 7.7e-6, 9.3e-6];

/// Offsets: smallest distance that is not refused, in millimetres.
pub const OFFSET_LEAST: f64 = 1e-4;

/// Offsets: an arc of a lower bow than this is taken for a line, in millimetres.
pub const OFFSET_FLAT_ARC: f64 = 1e-8;

/// Offsets: arcs of larger radius are taken for chords, in millimetres (10 km): their centre is not
/// known to the accuracy promised. Refused are those that would need very many.
pub const OFFSET_LARGEST_RADIUS: f64 = 1e7;
/// A dimension this much past its limit is on it, in millimetres: sums of decimals are not exact, and
/// nobody measures a nanometre. Also how far a repeated dimension may differ where no tolerance is
/// given.
pub const SAME_DIMENSION: f64 = 1e-6;

/// Ends in somebody else's file that come this near to each other meet, in millimetres: six decimals of an
/// inch are 2.5e-5 mm. Above it there is a gap, which is reported.
pub const FILE_JOINT: f64 = 1e-4;

/// The greatest distance between two sets of curves is found to this, in millimetres.
pub const DEVIATION: f64 = 1e-9;
/// Tool paths: a lead may seem this much nearer to the part than half the kerf, in millimetres: where it
/// joins the path it is exactly there, and an offset is good to [`OFFSET_WIDEST_NODE`] beside a tie.
pub const LEAD_CLEARANCE: f64 = 2.0 * OFFSET_WIDEST_NODE;

/// Tool paths: what stands proud of a drawn corner by less than this is not told, in millimetres.
pub const LEFT_STANDING: f64 = 0.01;

/// Tool paths: an edge that leaves the plate at a flatter angle than this, in radians, runs along it and
/// does not cross it.
pub const RUNS_ALONG: f64 = 0.05;
