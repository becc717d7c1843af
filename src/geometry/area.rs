//! Areas of contours, exact for arcs.

use super::Contour;
use super::Segment;
use super::number;

/// Area enclosed by the contour in mm², positive when it runs anticlockwise.
///
/// The polygon of the chords, plus a circular segment ½r²(θ − sin θ) for each arc.
///
/// # Accuracy
/// Exact up to rounding; measured from the contour's own first point, so that a part far from the
/// origin loses no digits.
///
/// # Source
/// Green's theorem; the circular segment as in Machinery's Handbook, 31st ed., p. 83.
pub fn signed_area(contour: &Contour) -> f64 {
    let origin = contour.pieces()[0].segment.start();
    let mut twice = 0.0;
    for segment in contour.segments() {
        twice += (segment.start() - origin).cross(segment.end() - origin);
        if let Segment::Arc(arc) = segment {
            twice += arc.radius() * arc.radius() * number::angle_minus_sine(arc.sweep());
        }
    }
    twice / 2.0
}
