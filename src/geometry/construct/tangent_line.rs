//! Lines tangent to two circles.

use super::directed::DirectedCircle;
use crate::geometry::Circle;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::number;
use crate::geometry::tolerance;

/// The straight way from one directed circle onto another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TangentLine {
    /// None: one circle lies inside the other, as their directions count.
    None {
        /// How far the centres are too near each other, in millimetres.
        missing: f64,
    },
    /// The circles touch, running the same way, at this point; the line has no length.
    Touch(Point),
    /// The line from its point on the first circle to its point on the second.
    One(Line),
    /// The circles are one: a tangent everywhere.
    Same,
}

/// The line that leaves the first directed circle and runs onto the second, keeping the sense of travel
/// of both. There is never more than one. Circles that run the same way give an outside tangent, circles
/// that run opposite ways a crossed one; a radius of 0 is a point.
///
/// # Accuracy
/// The length is taken from (d − Δ)(d + Δ), with Δ the difference of the signed radii: as good near a
/// touch as the distance d of the centres is. They touch when d and Δ agree within
/// [`tolerance::SAME_POINT`].
///
/// # Example
/// ```
/// use kerfwise::geometry::Point;
/// use kerfwise::geometry::construct::DirectedCircle;
/// use kerfwise::geometry::construct::TangentLine;
/// use kerfwise::geometry::construct::tangent_line;
///
/// let toe = DirectedCircle::new(Point::ORIGIN, 8.0);
/// let heel = DirectedCircle::new(Point::new(13.0, 0.0), 3.0);
/// let TangentLine::One(edge) = tangent_line(&toe, &heel) else { panic!("they are apart") };
/// assert_eq!(edge.length(), 12.0); // 5-12-13
/// ```
///
/// # Source
/// Closed form; the belt of the Encyclopædia Britannica, 11th ed., vol. 17, "Mechanics", §59.
pub fn tangent_line(from: &DirectedCircle, to: &DirectedCircle) -> TangentLine {
    let between = to.centre - from.centre;
    let distance = number::length(between);
    let difference = to.signed_radius - from.signed_radius;
    let missing = difference.abs() - distance;
    if missing > tolerance::SAME_POINT {
        return TangentLine::None { missing };
    }
    let Some(along) = number::normalized(between).filter(|_| distance > tolerance::SAME_POINT)
    else {
        return TangentLine::Same;
    };
    if missing >= -tolerance::SAME_POINT {
        // the left normal of the common direction points along the line of centres
        let normal = along * difference.signum();
        return TangentLine::Touch(from.centre - normal * from.signed_radius);
    }
    let length = ((distance - difference) * (distance + difference)).sqrt();
    let left = number::left_normal(along);
    let normal = along * (difference / distance) + left * (length / distance);
    TangentLine::One(Line::new(
        from.centre - normal * from.signed_radius,
        to.centre - normal * to.signed_radius,
    ))
}

/// All lines tangent to two circles, whatever the direction. Outside tangents run from the first circle
/// to the second, the first of them with both circles on its left; crossed ones likewise, the first with
/// the first circle on its left.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CommonTangents {
    /// One circle lies inside the other.
    None,
    /// They touch inside: the one tangent at this point.
    TouchInside(Point),
    /// They cross: two outside tangents.
    Outside([Line; 2]),
    /// They touch outside: two outside tangents, and the one at the point where they touch.
    TouchOutside([Line; 2], Point),
    /// They are apart: two outside and two crossed tangents.
    Apart([Line; 2], [Line; 2]),
    /// They are one circle.
    Same,
}

/// The lines tangent to two circles.
///
/// # Accuracy
/// As [`tangent_line`].
pub fn common_tangents(first: &Circle, second: &Circle) -> CommonTangents {
    let run = |circle: &Circle, sign: f64| DirectedCircle::new(circle.centre, circle.radius * sign);
    let pair =
        |sign: f64| [1.0, -1.0].map(|way| tangent_line(&run(first, way), &run(second, way * sign)));
    match (pair(1.0), pair(-1.0)) {
        ([TangentLine::Same, _], _) => CommonTangents::Same,
        ([TangentLine::Touch(at), _], _) => CommonTangents::TouchInside(at),
        ([TangentLine::One(a), TangentLine::One(b)], crossed) => match crossed {
            [TangentLine::One(c), TangentLine::One(d)] => CommonTangents::Apart([a, b], [c, d]),
            [TangentLine::Touch(at), _] => CommonTangents::TouchOutside([a, b], at),
            _ => CommonTangents::Outside([a, b]),
        },
        _ => CommonTangents::None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Arc;
    use crate::geometry::Segment;
    use crate::geometry::intersect;
    use crate::geometry::intersect::Meeting;

    fn directed(x: f64, signed_radius: f64) -> DirectedCircle {
        DirectedCircle::new(Point::new(x, 0.0), signed_radius)
    }

    /// Length of a belt round two pulleys: two straight runs and what is left of the circles.
    fn belt(first: f64, second: f64, distance: f64) -> f64 {
        let (a, b) = (directed(0.0, first), directed(distance, second));
        let (TangentLine::One(there), TangentLine::One(back)) =
            (tangent_line(&a, &b), tangent_line(&b, &a))
        else {
            panic!("apart");
        };
        let wrap = |circle: &DirectedCircle, from: &Line, to: &Line| {
            let turn = number::turn(from.direction(), to.direction());
            let sign = circle.signed_radius.signum();
            circle.signed_radius.abs() * number::positive_angle(turn * sign)
        };
        there.length() + back.length() + wrap(&b, &there, &back) + wrap(&a, &back, &there)
    }

    /// Belt lengths: formulas of the Encyclopædia Britannica, 11th ed., vol. 17, "Mechanics", §59,
    /// eq. 32 (with the sign of the crossed one put right), evaluated to fifteen digits.
    #[test]
    fn belts_open_and_crossed() {
        for (first, second, distance, length) in [
            (8.0, 3.0, 13.0, 62.505_430_386_485),
            (8.0, -3.0, 13.0, 70.605_909_173_403),
            (3.0, -2.0, 13.0, 43.655_874_464_947),
            (5.0, 2.5, 20.0, 63.874_853_723_733),
        ] {
            let got = belt(first, second, distance);
            assert!(
                (got - length).abs() < 1e-11,
                "{first}, {second}: {got} for {length}"
            );
            let mirrored = belt(-first, -second, distance);
            assert!(
                (mirrored - length).abs() < 1e-11,
                "the other way round: {mirrored}"
            );
        }
    }

    #[test]
    fn every_case_of_two_circles() {
        let with = |x: f64, radius: f64| {
            common_tangents(
                &Circle::new(Point::ORIGIN, 5.0),
                &Circle::new(Point::new(x, 0.0), radius),
            )
        };
        assert_eq!(with(1.0, 3.0), CommonTangents::None, "inside");
        assert_eq!(with(0.0, 3.0), CommonTangents::None, "about one centre");
        assert_eq!(with(0.0, 5.0), CommonTangents::Same, "the same");
        let at = Point::new(5.0, 0.0);
        assert_eq!(
            with(2.0, 3.0),
            CommonTangents::TouchInside(at),
            "touch inside"
        );
        assert_eq!(
            with(-3.0, 8.0),
            CommonTangents::TouchInside(at),
            "the other round it"
        );
        assert!(
            matches!(with(6.0, 3.0), CommonTangents::Outside(_)),
            "crossing"
        );
        assert!(
            matches!(with(8.0, 3.0), CommonTangents::TouchOutside(_, touch) if touch == at),
            "touch outside"
        );
        let CommonTangents::Apart(outside, crossed) = with(13.0, 3.0) else {
            panic!("apart");
        };
        for line in outside.into_iter().chain(crossed) {
            for (x, radius) in [(0.0, 5.0), (13.0, 3.0)] {
                let circle = Segment::Arc(Arc::circle(Point::new(x, 0.0), radius));
                let meeting = intersect::meet(&Segment::Line(line), &circle);
                assert!(
                    matches!(meeting, Meeting::Touch(_)),
                    "{line:?}: {meeting:?}"
                );
            }
        }
    }

    #[test]
    fn from_a_point_and_a_hair_from_touching() {
        let TangentLine::One(line) = tangent_line(&directed(0.0, 0.0), &directed(13.0, 5.0)) else {
            panic!("the point is outside");
        };
        assert_eq!(
            (line.start, line.length()),
            (Point::ORIGIN, 12.0),
            "5-12-13"
        );
        // internally tangent but for 1e-6: length √(1e-6 · (10 + 1e-6))
        let TangentLine::One(line) = tangent_line(&directed(0.0, 8.0), &directed(5.000_001, 3.0))
        else {
            panic!("just apart");
        };
        let expected = (1e-6_f64 * 10.000_001).sqrt();
        assert!(
            (line.length() / expected - 1.0).abs() < 1e-9,
            "{}",
            line.length()
        );
        assert!(
            matches!(
                tangent_line(&directed(0.0, 8.0), &directed(4.0, 3.0)),
                TangentLine::None { missing: 1.0 }
            ),
            "inside"
        );
    }
}
