//! Arcs as cubic curves, for formats that have no arc.

use crate::geometry::Arc;
use crate::geometry::Point;
use crate::geometry::number;
use crate::geometry::tolerance;

/// A cubic curve that continues from wherever the pen is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cubic {
    /// First control point.
    pub first: Point,
    /// Second control point.
    pub second: Point,
    /// Where it ends.
    pub end: Point,
}

/// The cubic curves, end to end, that stand for an arc.
///
/// At least three a quadrant; more for an arc so large that three would leave it by more than
/// [`tolerance::DRAWN_CURVE`]. The curves meet the arc at their ends, have its directions there, and
/// lie outside it between.
///
/// # Accuracy
/// Within [`tolerance::DRAWN_CURVE`]; at a radius of 500 mm within 0.2 µm.
///
/// # Source
/// Control points at 4/3·tan(θ/4) of the radius along the tangents (closed form; the radial error at
/// 30° is 3.7e-7 of the radius, and falls with the sixth power of the angle).
pub fn cubics(arc: &Arc) -> impl Iterator<Item = Cubic> {
    let count = count(arc.radius(), arc.sweep().abs());
    let step = arc.sweep() / f64::from(count);
    let handle = arc.radius() * 4.0 / 3.0 * number::tan(step / 4.0);
    let arc = *arc;
    let share = move |index: u32| f64::from(index) / f64::from(count);
    (0..count).map(move |index| {
        let (from, to) = (share(index), share(index + 1));
        let (start, end) = (arc.point_at(from), arc.point_at(to));
        // the sign of the turn is in the step and in the direction of travel: take it out of one
        let reach = handle.abs();
        Cubic {
            first: start + arc.direction_at(from) * reach,
            second: end - arc.direction_at(to) * reach,
            end,
        }
    })
}

/// How many curves an arc needs.
fn count(radius: f64, sweep: f64) -> u32 {
    let largest_step = number::QUARTER_TURN / 3.0;
    let mut count: u32 = 1;
    while sweep / f64::from(count) > largest_step * (1.0 + tolerance::SAME_DIRECTION) {
        count += 1;
    }
    // radial error at 30°, as a fraction of the radius
    let at_largest_step = 3.726_6e-7;
    let error = |count: u32| {
        let ratio = sweep / f64::from(count) / largest_step;
        let cube = ratio * ratio * ratio;
        radius * at_largest_step * cube * cube
    };
    while error(count) > tolerance::DRAWN_CURVE {
        count += 1;
    }
    count
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Turn;

    /// Largest distance of the curves from the circle, sampled densely.
    fn largest_error(arc: &Arc) -> f64 {
        let mut start = arc.start();
        let mut largest: f64 = 0.0;
        for cubic in cubics(arc) {
            for sample in 0..=64 {
                let t = f64::from(sample) / 64.0;
                let u = 1.0 - t;
                let (a, b, c) = (
                    start.to_vec2(),
                    cubic.first.to_vec2(),
                    cubic.second.to_vec2(),
                );
                let d = cubic.end.to_vec2();
                let at = a * (u * u * u)
                    + b * (3.0 * u * u * t)
                    + c * (3.0 * u * t * t)
                    + d * (t * t * t);
                let off = number::length(at - arc.centre().to_vec2()) - arc.radius();
                largest = largest.max(off.abs());
            }
            start = cubic.end;
        }
        largest
    }

    #[test]
    fn three_a_quadrant_keep_half_a_metre_within_a_fifth_of_a_micron() {
        let arc = Arc::from_angles(Point::new(10.0, -20.0), 500.0, 0.3, number::QUARTER_TURN);
        assert_eq!(cubics(&arc).count(), 3, "curves in a quadrant");
        let error = largest_error(&arc);
        // closed form: 3.7266e-7 of the radius at 30°
        assert!((error - 1.863e-4).abs() < 2e-6, "error is {error} mm");
    }

    #[test]
    fn every_arc_stays_within_the_tolerance_and_keeps_its_ends() {
        for (radius, sweep) in [
            (6124.71, 0.05),
            (1e6, 0.9),
            (20_000.0, -3.0),
            (3.0, -6.2),
            (1e9, 1e-6),
            (40.0, number::FULL_TURN),
        ] {
            let arc = Arc::from_angles(Point::new(5.0, 7.0), radius, 2.0, sweep);
            let error = largest_error(&arc);
            // at a million millimetres a digit of the radius itself is 1e-10
            assert!(
                error <= tolerance::DRAWN_CURVE * 1.01 + radius * 1e-15,
                "r {radius}, sweep {sweep}: {error} mm"
            );
            let last = cubics(&arc).last().unwrap();
            assert_eq!(last.end, arc.end(), "the end of r {radius}");
        }
    }

    #[test]
    fn a_clockwise_arc_bulges_the_other_way() {
        let (start, end) = (Point::new(0.0, 0.0), Point::new(10.0, 0.0));
        for (turn, side) in [(Turn::Anticlockwise, -5.0), (Turn::Clockwise, 5.0)] {
            let arc = Arc::from_centre(start, end, Point::new(5.0, 0.0), turn);
            let middle = cubics(&arc).nth(2).unwrap().end;
            assert!(
                (middle.y - side).abs() < 1e-9,
                "{turn:?}: middle {middle:?}"
            );
        }
    }
}
