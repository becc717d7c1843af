//! Whether one contour crosses itself.

use crate::geometry::Contour;
use crate::geometry::GeometryError;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::bounds_tree::SegmentTree;
use crate::geometry::intersect;
use crate::geometry::intersect::Crossing;

/// Checks that the contour neither crosses nor touches itself. Pieces that follow each other may share
/// their joint and nothing else; a spike that doubles back on itself counts as a crossing.
///
/// # Accuracy
/// By [`intersect::meet`]: pieces nearer than [`tolerance::SAME_POINT`](super::super::tolerance::SAME_POINT)
/// touch. Of several faults the one with the lowest piece number is named.
///
/// # Errors
/// [`GeometryError::CrossesItself`] with the place and the two pieces, numbered from 0 along the
/// contour.
///
/// # Example
/// ```
/// use kerfwise::geometry::Contour;
/// use kerfwise::geometry::GeometryError;
/// use kerfwise::geometry::Point;
/// use kerfwise::geometry::validate::check_simple;
///
/// let points = [(0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0)].map(Point::from);
/// let bow_tie = Contour::polygon(&points)?;
/// let at = Point::new(5.0, 5.0);
/// let crossing = GeometryError::CrossesItself { at, first: 0, second: 2 };
/// assert_eq!(check_simple(&bow_tie), Err(crossing));
/// # Ok::<(), GeometryError>(())
/// ```
pub fn check_simple(contour: &Contour) -> Result<(), GeometryError> {
    let tree = SegmentTree::new(contour.segments());
    let count = contour.pieces().len();
    for (first, one, second, other) in tree.pairs() {
        if let Some(at) = fault(count, (first, one), (second, other)) {
            return Err(GeometryError::CrossesItself { at, first, second });
        }
    }
    Ok(())
}

/// Where two pieces of a contour of `count` pieces share more than a joint.
pub(super) fn fault(
    count: usize,
    (first, one): (usize, &Segment),
    (second, other): (usize, &Segment),
) -> Option<Point> {
    let follows = second == first + 1;
    // the joint at which the contour closes
    let closes = first == 0 && second + 1 == count;
    let is_joint = |crossing: &Crossing| {
        (follows && crossing.on_first == 1.0 && crossing.on_second == 0.0)
            || (closes && crossing.on_first == 0.0 && crossing.on_second == 1.0)
    };
    let meeting = intersect::meet(one, other);
    let doubled = meeting.stretches().map(|stretch| stretch.from.point).next();
    let crossed = meeting
        .points()
        .find(|crossing| !is_joint(crossing))
        .map(|crossing| crossing.point);
    doubled.or(crossed)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Arc;
    use crate::geometry::Motion;
    use crate::geometry::Turn;
    use crate::geometry::Vec2;
    use crate::geometry::number;

    fn polygon(points: &[(f64, f64)]) -> Contour {
        let points: Vec<Point> = points.iter().map(|&at| at.into()).collect();
        Contour::polygon(&points).expect("closed")
    }

    /// Checks the contour started at every piece, run both ways, turned, mirrored and moved.
    fn assert_everywhere(contour: &Contour, simple: bool) {
        let pieces = contour.pieces();
        for start in 0..pieces.len() {
            let mut turned = pieces.to_vec();
            turned.rotate_left(start);
            let started = Contour::new(turned).expect("still closed");
            for motion in [
                Motion::IDENTITY,
                Motion::turn(1.0),
                Motion::mirror_left_right().then(&Motion::shift(Vec2::new(7e3, -7e3))),
            ] {
                let moved = motion.contour(&started);
                for one in [moved.clone(), moved.reversed()] {
                    let answer = check_simple(&one);
                    assert_eq!(answer.is_ok(), simple, "{answer:?} for {one:?}");
                }
            }
        }
    }

    #[test]
    fn plain_outlines_are_simple() {
        assert_everywhere(&polygon(&[(0.0, 0.0), (9.0, 0.0), (4.0, 5.0)]), true);
        let (a, b) = (Point::new(0.0, 0.0), Point::new(60.0, 0.0));
        let (c, d) = (Point::new(60.0, 40.0), Point::new(0.0, 40.0));
        let end = |from, to| Arc::with_radius(from, to, 20.0, Turn::Anticlockwise).expect("fits");
        let slot = Contour::from_segments([
            Segment::line(a, b),
            end(b, c).into(),
            Segment::line(c, d),
            end(d, a).into(),
        ])
        .expect("closed");
        assert_everywhere(&slot, true);
        let half = Contour::from_segments([end(b, c).into(), Segment::line(c, b)]);
        assert_everywhere(&half.expect("closed"), true);
        let circle = Contour::circle(a, 5.0, crate::geometry::SourceId::UNTRACED);
        assert_everywhere(&circle.expect("a circle"), true);
    }

    #[test]
    fn crossings_touches_and_spikes_are_found() {
        let bow_tie = [(0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 10.0)];
        assert_everywhere(&polygon(&bow_tie), false);
        let corner_on_edge = [(0.0, 0.0), (10.0, 0.0), (10.0, 9.0), (5.0, 0.0), (0.0, 9.0)];
        assert_everywhere(&polygon(&corner_on_edge), false);
        let corner_on_corner = [
            (0.0, 0.0),
            (5.0, 5.0),
            (10.0, 0.0),
            (10.0, 10.0),
            (5.0, 5.0),
            (0.0, 10.0),
        ];
        assert_everywhere(&polygon(&corner_on_corner), false);
        let spike = [
            (0.0, 0.0),
            (10.0, 0.0),
            (15.0, 0.0),
            (10.0, 0.0),
            (10.0, 9.0),
        ];
        assert_everywhere(&polygon(&spike), false);
        let no_area = [(0.0, 0.0), (10.0, 0.0)];
        assert_everywhere(&polygon(&no_area), false);
        // an arc back through the line before it
        let (a, b, c) = (
            Point::new(0.0, 0.0),
            Point::new(10.0, 0.0),
            Point::new(2.0, 3.0),
        );
        let back = Arc::through(b, Point::new(6.0, -2.0), c).expect("an arc");
        let outline =
            Contour::from_segments([Segment::line(a, b), back.into(), Segment::line(c, a)]);
        assert_everywhere(&outline.expect("closed"), false);
    }

    #[test]
    fn a_hundred_thousand_edges_take_no_square_time() {
        let count = 100_000_i32;
        let points: Vec<Point> = (0..count)
            .map(|index| {
                let angle = f64::from(index) / f64::from(count) * number::FULL_TURN;
                let radius = if index % 2 == 0 { 5000.0 } else { 5000.3 };
                Point::ORIGIN + number::unit(angle) * radius
            })
            .collect();
        let mut crossed = points.clone();
        let outline = Contour::polygon(&points).expect("closed");
        assert_eq!(check_simple(&outline), Ok(()), "a gear with fine teeth");
        crossed.swap(50_000, 50_002);
        let outline = Contour::polygon(&crossed).expect("closed");
        assert!(check_simple(&outline).is_err(), "two teeth exchanged");
    }
}
