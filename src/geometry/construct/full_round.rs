//! Full-round ends: one arc tangent to two sides and the end between them.

use super::corner;
use super::directed::Carrier;
use super::directed::DirectedCircle;
use super::directed::DirectedLine;
use super::error::ConstructError;
use super::three;
use crate::geometry::Arc;
use crate::geometry::GeometryError;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Turn;
use crate::geometry::number;
use crate::geometry::tolerance;

/// A rounded end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FullRound {
    /// What is left of the side before; `None` when the arc uses it up.
    pub before: Option<Segment>,
    /// The arc.
    pub arc: Arc,
    /// Where the arc touches the end line.
    pub touch: Point,
    /// What is left of the side after; `None` when the arc uses it up.
    pub after: Option<Segment>,
}

/// The arc that leaves the side `before`, touches the line of `end` and runs onto the side `after`,
/// tangent to all three and in their direction of travel. It turns the way the corners between them do.
///
/// # Accuracy
/// As [`tangent_to_three`](super::tangent_to_three).
///
/// # Errors
/// [`ConstructError::NoFullRound`] when no arc touches both sides within their lengths;
/// [`GeometryError::ZeroLength`] for an end or side without length.
pub fn full_round(
    before: &Segment,
    end: &Line,
    after: &Segment,
) -> Result<FullRound, ConstructError> {
    let no_length =
        |at: Point| ConstructError::Geometry(GeometryError::ZeroLength { at, length: 0.0 });
    let (Some(first), Some(last)) = (Carrier::of(before), Carrier::of(after)) else {
        return Err(no_length(before.start()));
    };
    let Some(line) = DirectedLine::along(end) else {
        return Err(no_length(end.start));
    };
    let middle = Carrier::Line(line);
    three::tangent_to_three(&[first, middle, last])
        .circles()
        .find_map(|circle| {
            let touches = [first, middle, last].map(|carrier| carrier.touch(&circle));
            rounded(before, after, &circle, touches)
        })
        .ok_or(ConstructError::NoFullRound)
}

fn rounded(
    before: &Segment,
    after: &Segment,
    circle: &DirectedCircle,
    [from, touch, to]: [Point; 3],
) -> Option<FullRound> {
    let on_side = |segment: &Segment, point: Point| {
        number::length(segment.nearest_point(point) - point) <= tolerance::SAME_POINT
    };
    if !on_side(before, from) || !on_side(after, to) {
        return None;
    }
    let turn = Turn::of_sign(circle.signed_radius);
    let arc = Arc::from_centre(from, to, circle.centre, turn);
    // from the first side over the end to the second, less than once round
    let inside = arc.fraction_towards(touch)?;
    let usable = (0.0..=1.0).contains(&inside)
        && !arc.is_circle()
        && arc.length() >= tolerance::SHORTEST_SEGMENT;
    usable.then(|| FullRound {
        before: corner::trimmed_end(before, from),
        arc,
        touch,
        after: corner::trimmed_end(&after.reversed(), to).map(|rest| rest.reversed()),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Motion;
    use crate::geometry::Vec2;

    fn line(x0: f64, y0: f64, x1: f64, y1: f64) -> Line {
        Line::new(Point::new(x0, y0), Point::new(x1, y1))
    }

    fn moved() -> [Motion; 3] {
        [
            Motion::IDENTITY,
            Motion::turn(2.5).then(&Motion::shift(Vec2::new(7e3, -7e3))),
            Motion::mirror_left_right(),
        ]
    }

    #[test]
    fn the_end_of_a_bar_is_half_a_circle() {
        for motion in moved() {
            let of = |x0, y0, x1, y1| motion.segment(&line(x0, y0, x1, y1).into());
            let Segment::Line(end) = of(100.0, 0.0, 100.0, 30.0) else {
                panic!("a line");
            };
            let made = full_round(&of(0.0, 0.0, 100.0, 0.0), &end, &of(100.0, 30.0, 0.0, 30.0))
                .expect("a bar");
            assert!((made.arc.radius() - 15.0).abs() < 1e-11, "{made:?}");
            assert!(
                (made.arc.sweep().abs() - number::HALF_TURN).abs() < 1e-11,
                "{made:?}"
            );
            let middle = motion.point(Point::new(100.0, 15.0));
            assert!(number::length(made.touch - middle) < 1e-11, "{made:?}");
            let rest = made.before.expect("the side is longer").length();
            assert!((rest - 85.0).abs() < 1e-11, "{made:?}");
        }
    }

    #[test]
    fn a_tapered_tongue_and_a_curved_side() {
        // sides that include 2·atan(1/10): the inscribed circle of the triangle they cut off
        let (before, end, after) = (
            line(0.0, 0.0, 100.0, 10.0),
            line(100.0, 10.0, 100.0, 30.0),
            line(100.0, 30.0, 0.0, 40.0),
        );
        let made = full_round(&before.into(), &end, &after.into()).expect("it fits");
        for direction in [before, end, after].map(|side| side.direction()) {
            let touch = DirectedCircle::from(&made.arc).point_towards(direction);
            assert!(made.arc.fraction_towards(touch).is_some(), "{made:?}");
        }
        assert!(
            made.arc.sweep() < number::HALF_TURN,
            "less than half round: {made:?}"
        );
        let bowed = Arc::through(
            Point::ORIGIN,
            Point::new(50.0, -4.0),
            Point::new(100.0, 0.0),
        )
        .expect("an arc");
        let made = full_round(
            &bowed.into(),
            &line(100.0, 0.0, 100.0, 30.0),
            &line(100.0, 30.0, 0.0, 30.0).into(),
        )
        .expect("it fits");
        let smooth = |a: Vec2, b: Vec2| a.dot(b) > 1.0 - 1e-12;
        let side = made.before.expect("some is left");
        assert!(
            smooth(side.direction_at(1.0), made.arc.direction_at(0.0)),
            "{made:?}"
        );
    }

    #[test]
    fn an_end_that_is_not_ahead() {
        let made = full_round(
            &line(0.0, 0.0, 10.0, 0.0).into(),
            &line(100.0, 0.0, 100.0, 30.0),
            &line(10.0, 30.0, 0.0, 30.0).into(),
        );
        assert_eq!(
            made,
            Err(ConstructError::NoFullRound),
            "the sides are too short"
        );
    }
}
