//! Circles and arcs through points.

use crate::geometry::Arc;
use crate::geometry::Circle;
use crate::geometry::GeometryError;
use crate::geometry::Point;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;

/// The circles of a given radius through two points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CirclesThrough {
    /// The points are farther apart than the diameter.
    TooFarApart {
        /// Their distance in millimetres; the radius must be at least half of it.
        distance: f64,
    },
    /// The points are one: a circle of this radius in every direction.
    AnyDirection,
    /// The points are one and the radius is 0: the point itself.
    Point,
    /// The distance is the diameter.
    One(Circle),
    /// First the one with its centre to the left of the way from the first point to the second, then
    /// the one to the right.
    Two(Circle, Circle),
}

/// The circles of `radius` through two points.
///
/// # Accuracy
/// Half the distance counts as the radius within [`tolerance::SAME_POINT`]. The height of the centre
/// over the chord is taken from (r − c/2)(r + c/2).
///
/// # Errors
/// [`GeometryError::NotUsable`] for a radius or point that is none.
///
/// # Source
/// Closed form. All its cases as in the table of the task "Circles of given radius through two points"
/// on Rosetta Code.
pub fn circles_of_radius(
    first: Point,
    second: Point,
    radius: f64,
) -> Result<CirclesThrough, GeometryError> {
    if !(0.0..=tolerance::LARGEST_COORDINATE).contains(&radius) {
        return Err(GeometryError::NotUsable {
            what: "radius",
            value: radius,
        });
    }
    let chord = second - first;
    let distance = number::length(chord);
    if !distance.is_finite() {
        return Err(GeometryError::NotUsable {
            what: "distance",
            value: distance,
        });
    }
    if distance <= tolerance::SAME_POINT {
        return Ok(if radius <= tolerance::SAME_POINT {
            CirclesThrough::Point
        } else {
            CirclesThrough::AnyDirection
        });
    }
    let (half, middle) = (distance / 2.0, first.midpoint(second));
    if half > radius + tolerance::SAME_POINT {
        return Ok(CirclesThrough::TooFarApart { distance });
    }
    if half >= radius - tolerance::SAME_POINT {
        return Ok(CirclesThrough::One(Circle::new(middle, half)));
    }
    let height = ((radius - half) * (radius + half)).sqrt();
    let left = number::left_normal(chord / distance) * height;
    Ok(CirclesThrough::Two(
        Circle::new(middle + left, radius),
        Circle::new(middle - left, radius),
    ))
}

/// The circle through three points.
///
/// # Accuracy
/// As [`Arc::through`], whose formula it is: relative to the first point, so that a place far from the
/// origin costs nothing.
///
/// # Errors
/// [`GeometryError::PointsInLine`] when no circle runs through the three.
pub fn circle_through(first: Point, second: Point, third: Point) -> Result<Circle, GeometryError> {
    Ok(Circle::from(&Arc::through(first, second, third)?))
}

/// The arc from `start`, where it runs in `direction`, to `end`.
///
/// # Accuracy
/// Exact up to rounding: its radius is c²/2h, with c the distance of the points and h that of the end
/// from the tangent at the start.
///
/// # Errors
/// [`GeometryError::ZeroLength`] when the points are one, [`GeometryError::PointsInLine`] when the end
/// lies on the tangent (ahead, where a straight line does it, or behind), [`GeometryError::NotUsable`]
/// for a direction that is none.
pub fn tangent_arc(start: Point, direction: Vec2, end: Point) -> Result<Arc, GeometryError> {
    let chord = end - start;
    let length = number::length(chord);
    if length <= tolerance::SAME_POINT {
        return Err(GeometryError::ZeroLength { at: start, length });
    }
    let Some(along) = number::normalized(direction) else {
        return Err(GeometryError::NotUsable {
            what: "direction",
            value: number::length(direction),
        });
    };
    // half the sweep is the angle between tangent and chord
    let half = number::turn(along, chord);
    let straight = half.abs().min(number::HALF_TURN - half.abs());
    let height = along.cross(chord).abs();
    if straight <= tolerance::SAME_DIRECTION || height <= tolerance::SAME_POINT {
        return Err(GeometryError::PointsInLine);
    }
    Arc::from_bulge(start, end, number::tan(half / 2.0))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn assert_centre(circle: Circle, x: f64, y: f64) {
        let off = number::length(circle.centre - Point::new(x, y));
        assert!(off < 1e-11, "{circle:?}, expected centre ({x}, {y})");
    }

    /// Rosetta Code, "Circles of given radius through two points": its table of five, with the digits
    /// computed to twelve places.
    #[test]
    fn every_case_of_two_points() {
        let of = |x0, y0, x1, y1, radius| {
            circles_of_radius(Point::new(x0, y0), Point::new(x1, y1), radius).expect("numbers")
        };
        let CirclesThrough::Two(left, right) = of(0.1234, 0.9876, 0.8765, 0.2345, 2.0) else {
            panic!("two circles");
        };
        assert_centre(left, 1.863_111_801_658, 1.974_211_801_658);
        assert_centre(right, -0.863_211_801_658, -0.752_111_801_658);
        let CirclesThrough::One(circle) = of(0.0, 2.0, 0.0, 0.0, 1.0) else {
            panic!("the points are a diameter");
        };
        assert_centre(circle, 0.0, 1.0);
        assert_eq!(
            of(0.1234, 0.9876, 0.1234, 0.9876, 2.0),
            CirclesThrough::AnyDirection,
            "coincident points"
        );
        assert!(
            matches!(
                of(0.1234, 0.9876, 0.8765, 0.2345, 0.5),
                CirclesThrough::TooFarApart { .. }
            ),
            "too far apart"
        );
        assert_eq!(
            of(0.1234, 0.9876, 0.1234, 0.9876, 0.0),
            CirclesThrough::Point,
            "coincident points, no radius"
        );
    }

    #[test]
    fn numbers_that_are_none_are_refused() {
        for radius in [f64::NAN, -1.0, f64::INFINITY] {
            let answer = circles_of_radius(Point::ORIGIN, Point::new(1.0, 0.0), radius);
            assert!(answer.is_err(), "radius {radius}");
        }
        let nowhere = Point::new(f64::NAN, 0.0);
        assert!(
            circles_of_radius(nowhere, Point::ORIGIN, 1.0).is_err(),
            "no point"
        );
    }

    /// Rosetta Code, "Centre and radius of a circle passing through 3 points in a plane".
    #[test]
    fn three_points() {
        let circle = circle_through(
            Point::new(22.83, 2.07),
            Point::new(14.39, 30.24),
            Point::new(33.65, 17.31),
        )
        .expect("a circle");
        assert!((circle.centre.x - 18.978_515_66).abs() < 1e-8, "{circle:?}");
        assert!((circle.centre.y - 16.265_410_80).abs() < 1e-8, "{circle:?}");
        assert!(
            (circle.radius - 14.708_623_978_334_18).abs() < 1e-12,
            "{circle:?}"
        );
    }

    #[test]
    fn an_arc_that_starts_in_a_direction() {
        let start = Point::new(7000.0, -7000.0);
        for (dx, dy, radius, sweep) in [
            (10.0, 10.0, 10.0, number::QUARTER_TURN),
            (0.0, 20.0, 10.0, number::HALF_TURN),
            (-10.0, 10.0, 10.0, 3.0 * number::QUARTER_TURN),
            (10.0, -10.0, 10.0, -number::QUARTER_TURN),
        ] {
            let end = start + Vec2::new(dx, dy);
            let arc = tangent_arc(start, Vec2::new(5.0, 0.0), end).expect("an arc");
            assert!(
                (arc.radius() - radius).abs() < 1e-12,
                "({dx}, {dy}): {arc:?}"
            );
            assert!((arc.sweep() - sweep).abs() < 1e-12, "({dx}, {dy}): {arc:?}");
            assert!(
                (arc.direction_at(0.0).x - 1.0).abs() < 1e-12,
                "({dx}, {dy}): {arc:?}"
            );
        }
        let ahead = tangent_arc(start, Vec2::new(1.0, 0.0), start + Vec2::new(9.0, 0.0));
        assert_eq!(ahead, Err(GeometryError::PointsInLine), "straight ahead");
    }
}
