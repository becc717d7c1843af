//! Where a point lies: inside, outside or on the edge, exact with arcs.

use crate::geometry::Arc;
use crate::geometry::Contour;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::number;
use crate::geometry::tolerance;

/// Where a point lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Place {
    /// Within, and off the edge.
    Inside,
    /// Without, and off the edge.
    Outside,
    /// Nearer to the edge than [`tolerance::SAME_POINT`].
    OnEdge,
}

/// Where the point lies as regards the contour, whichever way that runs.
///
/// # Accuracy
/// Exact for points off the edge: the winding number of the polygon of chords, whose edge cases are
/// settled by one rule, and one more or less for each arc between whose chord and curve the point lies.
///
/// # Source
/// Closed form; the rule for points level with a corner as in Hormann and Agathos, "The point in
/// polygon problem for arbitrary polygons", Computational Geometry 20 (2001), from memory.
pub fn contour_contains(contour: &Contour, point: Point) -> Place {
    if is_on_edge(contour, point) {
        Place::OnEdge
    } else if winding(contour, point) == 0 {
        Place::Outside
    } else {
        Place::Inside
    }
}

/// Where the point lies as regards the region: inside a hole is outside.
///
/// # Accuracy
/// As [`contour_contains`].
///
/// # Example
/// ```
/// use kerfwise::geometry::Contour;
/// use kerfwise::geometry::Point;
/// use kerfwise::geometry::Region;
/// use kerfwise::geometry::SourceId;
/// use kerfwise::geometry::validate::Place;
/// use kerfwise::geometry::validate::region_contains;
///
/// let circle = |radius| Contour::circle(Point::ORIGIN, radius, SourceId::UNTRACED);
/// let ring = Region::new(circle(50.0)?, vec![circle(30.0)?]);
/// let at = |x| region_contains(&ring, Point::new(x, 0.0));
/// assert_eq!([at(20.0), at(30.0), at(40.0)], [Place::Outside, Place::OnEdge, Place::Inside]);
/// # Ok::<(), kerfwise::geometry::GeometryError>(())
/// ```
pub fn region_contains(region: &Region, point: Point) -> Place {
    match contour_contains(region.outer(), point) {
        Place::Inside => {}
        place => return place,
    }
    for hole in region.holes() {
        match contour_contains(hole, point) {
            Place::Outside => {}
            Place::Inside => return Place::Outside,
            Place::OnEdge => return Place::OnEdge,
        }
    }
    Place::Inside
}

fn is_on_edge(contour: &Contour, point: Point) -> bool {
    contour.segments().any(|segment| {
        let away = segment.nearest_point(point) - point;
        away.dot(away) <= tolerance::SAME_POINT * tolerance::SAME_POINT
    })
}

/// How often the contour runs round the point, anticlockwise positive. Meant for points off its edge.
pub(super) fn winding(contour: &Contour, point: Point) -> i32 {
    let mut total = 0;
    for segment in contour.segments() {
        let (from, to) = (segment.start(), segment.end());
        let left = is_left(from, to, point);
        let rises = from.y <= point.y && point.y < to.y;
        let falls = to.y <= point.y && point.y < from.y;
        if rises && left {
            total += 1;
        } else if falls && !left {
            total -= 1;
        }
        if let Segment::Arc(arc) = segment {
            total += between_chord_and_arc(arc, left, point);
        }
    }
    total
}

/// Whether the point lies left of the chord. On its line it counts as lying a trace higher (and,
/// should that not help, to the right), which is what the half-open levels of `winding` mean.
fn is_left(from: Point, to: Point, point: Point) -> bool {
    let chord = to - from;
    let side = chord.cross(point - from);
    if side != 0.0 {
        side > 0.0
    } else if chord.x != 0.0 {
        chord.x > 0.0
    } else {
        chord.y < 0.0
    }
}

/// What the arc adds to the winding number of its chord.
fn between_chord_and_arc(arc: &Arc, left: bool, point: Point) -> i32 {
    let away = point - arc.centre();
    let in_disc = number::length(away) < arc.radius();
    // an anticlockwise arc bulges to the right of its chord
    match (in_disc, arc.sweep() > 0.0) {
        (false, _) => 0,
        (true, true) => i32::from(!left || arc.is_circle()),
        (true, false) => -i32::from(left || arc.is_circle()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Motion;
    use crate::geometry::Turn;
    use crate::geometry::Vec2;

    /// A keyhole: three quarters of a circle of 10 about the origin, with a square corner at (10, 10).
    fn keyhole() -> Contour {
        let (a, b, c) = (
            Point::new(0.0, 10.0),
            Point::new(10.0, 0.0),
            Point::new(10.0, 10.0),
        );
        let arc = Arc::from_centre(a, b, Point::ORIGIN, Turn::Anticlockwise);
        Contour::from_segments([arc.into(), Segment::line(b, c), Segment::line(c, a)])
            .expect("closed")
    }

    #[test]
    fn every_grid_point_of_a_keyhole() {
        let outline = keyhole();
        for motion in [
            Motion::IDENTITY,
            Motion::turn(number::QUARTER_TURN),
            Motion::turn(number::HALF_TURN),
            Motion::turn(0.3),
            Motion::mirror_left_right(),
            Motion::shift(Vec2::new(1e4, -1e4)),
        ] {
            for (x, y) in (-24..=24).flat_map(|x| (-24..=24).map(move |y| (x, y))) {
                // half millimetres, so that many lie level with corners and on the chord's line
                let (x, y) = (f64::from(x) / 2.0, f64::from(y) / 2.0);
                let (square, radius) = (x >= 0.0 && y >= 0.0, x * x + y * y);
                let expected = if square {
                    match f64::max(x, y) {
                        reach if reach < 10.0 => Place::Inside,
                        10.0 => Place::OnEdge,
                        _ => Place::Outside,
                    }
                } else {
                    match radius {
                        r if r < 100.0 => Place::Inside,
                        100.0 => Place::OnEdge,
                        _ => Place::Outside,
                    }
                };
                let moved = motion.contour(&outline);
                let at = motion.point(Point::new(x, y));
                for contour in [moved.clone(), moved.reversed()] {
                    assert_eq!(
                        contour_contains(&contour, at),
                        expected,
                        "({x}, {y}) under {motion:?}"
                    );
                }
            }
        }
    }

    #[test]
    fn a_hollow_edge_keeps_points_out() {
        // a square of 20 whose lower edge is hollowed by a half circle
        let (a, b) = (Point::new(-10.0, 0.0), Point::new(10.0, 0.0));
        let (c, d) = (Point::new(10.0, 20.0), Point::new(-10.0, 20.0));
        let hollow = Arc::from_centre(a, b, Point::ORIGIN, Turn::Clockwise);
        let outline = Contour::from_segments([
            hollow.into(),
            Segment::line(b, c),
            Segment::line(c, d),
            Segment::line(d, a),
        ])
        .expect("closed");
        for (x, y, expected) in [
            (0.0, 0.0, Place::Outside),
            (0.0, 9.9, Place::Outside),
            (0.0, 10.0, Place::OnEdge),
            (0.0, 10.1, Place::Inside),
            (9.9, 5.0, Place::Inside),
            (0.0, -1.0, Place::Outside),
            (-11.0, 0.0, Place::Outside),
        ] {
            let place = contour_contains(&outline, Point::new(x, y));
            assert_eq!(place, expected, "({x}, {y})");
        }
    }
}
