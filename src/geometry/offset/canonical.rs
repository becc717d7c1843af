//! Canonical input: the parts of each piece made to agree.

use crate::geometry::Arc;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;

use super::curve::Circle;
use super::curve::Curve;
use super::curve::Extent;
use super::curve::Shape;
use super::error::OffsetError;

/// Appends the curves of a segment with their parts made to agree: the ends of an arc lie on its circle
/// to the last digit, an arc too flat to be one is a line, and one whose centre is too far away to be
/// exact is a few chords.
pub(super) fn canonical(segment: &Segment, curves: &mut Vec<Curve>) -> Result<(), OffsetError> {
    match segment {
        Segment::Line(_) => curves.push(Curve::of_segment(segment)),
        Segment::Arc(arc) => {
            let flat = arc.bow() < tolerance::OFFSET_FLAT_ARC;
            if flat || arc.radius() > tolerance::OFFSET_LARGEST_RADIUS {
                return chords(arc, curves);
            }
            curves.push(refitted(arc));
        }
    }
    Ok(())
}

/// Chords of a very flat arc, within [`tolerance::OFFSET_FLAT_ARC`].
fn chords(arc: &Arc, curves: &mut Vec<Curve>) -> Result<(), OffsetError> {
    let count = (arc.bow() / tolerance::OFFSET_FLAT_ARC).sqrt().ceil();
    if count > MOST_CHORDS {
        return Err(OffsetError::TooFlat {
            at: arc.start(),
            radius: arc.radius(),
            most: tolerance::OFFSET_LARGEST_RADIUS,
        });
    }
    let (start, step) = (arc.start(), arc.end() - arc.start());
    // bows out to the right when it turns to the left; a parabola to far below the last digit
    let out =
        Vec2::new(step.y, -step.x) * (arc.turn().sign() * 4.0 * arc.bow() / number::length(step));
    let on = |t: f64| start + step * t + out * (t * (1.0 - t));
    let mut before = start;
    let mut index = 1.0;
    while index < count {
        let after = on(index / count);
        curves.push(Curve::line(before, after, step));
        before = after;
        index += 1.0;
    }
    curves.push(Curve::line(before, arc.end(), step));
    Ok(())
}

/// The most chords that one flat arc is taken for.
const MOST_CHORDS: f64 = 2000.0;

fn refitted(arc: &Arc) -> Curve {
    let plain = Curve::of_segment(&Segment::Arc(*arc));
    let Shape::Arc(round) = plain.shape() else {
        return plain;
    };
    if round.extent == Extent::Whole {
        return plain;
    }
    let (start, end) = (arc.start(), arc.end());
    let chord = end - start;
    let square = chord.dot(chord);
    // the centre is moved along the chord until both ends are equally far from it
    let middle = start.midpoint(end);
    let shift = chord * ((middle - arc.centre()).dot(chord) / square);
    let moved = number::length(shift);
    if !moved.is_finite() || moved > tolerance::OFFSET_SHORTEST {
        return plain;
    }
    let centre = arc.centre() + shift;
    let radius = f64::midpoint(number::length(start - centre), number::length(end - centre));
    // a radius that only rounding would change stays as it was given
    let radius = if (radius - arc.radius()).abs() <= 4.0 * f64::EPSILON * radius {
        arc.radius()
    } else {
        radius
    };
    let circle = Circle {
        centre,
        radius,
        sign: round.sign,
    };
    Curve::arc(start, end, circle, round.extent)
}
