//! Tables that are one circle.

use super::super::Arc;
use super::super::Point;
use super::super::Segment;
use super::super::Turn;
use super::super::Vec2;
use super::super::number;
use super::super::tolerance;
use super::BattenEnd;

/// The one circular arc through all points of a table, in their order, if they are that exactly
/// (within [`tolerance::SAME_CIRCLE`]).
///
/// Free ends need five points: four are on one circle whenever a table is symmetric. A direction at
/// both ends fixes the circle, and two points are enough; each direction given must be that of the
/// circle.
///
/// # Accuracy
/// Every point lies within [`tolerance::SAME_CIRCLE`] of the arc.
pub fn arc_through_all(points: &[Point], start: BattenEnd, end: BattenEnd) -> Option<Segment> {
    let (&first, &last) = (points.first()?, points.last()?);
    let directions = [start, end].map(|end| match end {
        BattenEnd::Natural => None,
        BattenEnd::Direction(given) => number::normalized(given),
    });
    let given = directions.iter().flatten().count();
    if points.len() + given * 2 < 5 || (given < 2 && points.len() < 3) {
        return None;
    }
    let arc = if points.len() > 2 {
        Arc::through(first, *points.get(points.len() / 2)?, last).ok()?
    } else {
        let chord = number::normalized(last - first)?;
        let bulge = number::tan(number::turn(directions[0]?, chord) / 2.0);
        Arc::from_bulge(first, last, bulge).ok()?
    };
    let runs = |given: Option<Vec2>, at: f64| {
        given.is_none_or(|direction| {
            number::turn(direction, arc.direction_at(at)).abs() * arc.length()
                <= tolerance::SAME_CIRCLE
        })
    };
    let fits = in_order_on(&arc, points) && runs(directions[0], 0.0) && runs(directions[1], 1.0);
    fits.then_some(Segment::Arc(arc))
}

/// The whole circle through all points, in their order once round, if there are four or more and they
/// are that exactly. It starts at the first point.
pub(super) fn circle_through_all(points: &[Point]) -> Option<Segment> {
    let &first = points.first()?;
    let count = points.len();
    if count < 4 {
        return None;
    }
    let part = Arc::through(first, *points.get(count / 3)?, *points.get(2 * count / 3)?).ok()?;
    let circle = Arc::from_centre(first, first, part.centre(), Turn::Anticlockwise);
    let circle = match part.turn() {
        Turn::Anticlockwise => circle,
        Turn::Clockwise => circle.reversed(),
    };
    in_order_on(&circle, points).then_some(Segment::Arc(circle))
}

/// Whether the points lie on the arc, each further along than the one before.
fn in_order_on(arc: &Arc, points: &[Point]) -> bool {
    let mut along = 0.0;
    let inner = points.get(1..).unwrap_or_default();
    for &point in inner {
        let off = number::length(point - arc.centre()) - arc.radius();
        let turn = number::turn(arc.start() - arc.centre(), point - arc.centre());
        let swept = number::positive_angle(turn * arc.turn().sign());
        let is_end = point == arc.end();
        if off.abs() > tolerance::SAME_CIRCLE || (swept <= along && !is_end) {
            return false;
        }
        along = swept;
    }
    along <= arc.sweep().abs() + tolerance::SAME_DIRECTION
}
