//! The nearest points of two segments.

use crate::geometry::Arc;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::intersect;
use crate::geometry::number;
use crate::geometry::tolerance;

/// The nearest points of two shapes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nearest {
    /// Their distance in millimetres, 0 when the shapes meet.
    pub distance: f64,
    /// The point on the first shape.
    pub on_first: Point,
    /// The point on the second shape.
    pub on_second: Point,
}

impl Nearest {
    pub(super) fn of(on_first: Point, on_second: Point) -> Self {
        Self {
            distance: number::length(on_second - on_first),
            on_first,
            on_second,
        }
    }

    pub(super) const fn meeting(at: Point) -> Self {
        Self {
            distance: 0.0,
            on_first: at,
            on_second: at,
        }
    }

    /// The same, with first and second exchanged.
    #[must_use]
    pub const fn exchanged(&self) -> Self {
        Self {
            distance: self.distance,
            on_first: self.on_second,
            on_second: self.on_first,
        }
    }
}

/// The nearest points of two segments. Where several pairs are equally near (parallel lines, arcs about
/// one centre) it is one of them.
///
/// # Accuracy
/// Exact up to rounding: the least of the distances between ends and the other segment, and between
/// points with a common normal. Segments that meet by [`intersect::meet`] have the distance 0.
///
/// # Source
/// Closed form: at the least distance each point is an end, or lies on a normal through the other.
///
/// # Example
/// ```
/// use kerfwise::geometry::Arc;
/// use kerfwise::geometry::Point;
/// use kerfwise::geometry::Segment;
/// use kerfwise::geometry::nearest;
///
/// let hole = Segment::Arc(Arc::circle(Point::new(0.0, 20.0), 6.0));
/// let edge = Segment::line(Point::new(-50.0, 0.0), Point::new(50.0, 0.0));
/// assert_eq!(nearest::between(&hole, &edge).distance, 14.0);
/// ```
pub fn between(first: &Segment, second: &Segment) -> Nearest {
    let bounds = first
        .bounds()
        .inflate(tolerance::SAME_POINT, tolerance::SAME_POINT);
    if bounds.overlaps(second.bounds())
        && let Some(node) = intersect::meet(first, second).nodes().next()
    {
        return Nearest::meeting(node.point);
    }
    let mut best = Nearest::of(first.start(), second.nearest_point(first.start()));
    let mut offer = |candidate: Nearest| {
        if candidate.distance < best.distance {
            best = candidate;
        }
    };
    offer(Nearest::of(first.end(), second.nearest_point(first.end())));
    for end in [second.start(), second.end()] {
        offer(Nearest::of(first.nearest_point(end), end));
    }
    for (on_first, on_second) in common_normals(first, second) {
        offer(Nearest::of(on_first, on_second));
    }
    best
}

/// Pairs of points inside the segments whose connection is normal to both, as far as they are single.
pub(super) fn common_normals(first: &Segment, second: &Segment) -> Vec<(Point, Point)> {
    match (first, second) {
        (Segment::Line(_), Segment::Line(_)) => Vec::new(),
        (Segment::Line(line), Segment::Arc(arc)) => line_and_arc(line, arc),
        (Segment::Arc(arc), Segment::Line(line)) => line_and_arc(line, arc)
            .into_iter()
            .map(|(on_line, on_arc)| (on_arc, on_line))
            .collect(),
        (Segment::Arc(a), Segment::Arc(b)) => arc_and_arc(a, b),
    }
}

fn line_and_arc(line: &Line, arc: &Arc) -> Vec<(Point, Point)> {
    let along = line.end - line.start;
    let t = (arc.centre() - line.start).dot(along) / along.dot(along);
    let Some(unit) = number::normalized(along) else {
        return Vec::new();
    };
    if !(0.0..=1.0).contains(&t) {
        return Vec::new();
    }
    let foot = line.point_at(t);
    let normal = number::left_normal(unit) * arc.radius();
    on_both_sides(arc, normal)
        .map(|on_arc| (foot, on_arc))
        .collect()
}

fn arc_and_arc(first: &Arc, second: &Arc) -> Vec<(Point, Point)> {
    let Some(along) = number::normalized(second.centre() - first.centre()) else {
        return Vec::new();
    };
    on_both_sides(first, along * first.radius())
        .flat_map(|on_first| {
            on_both_sides(second, along * second.radius())
                .map(move |on_second| (on_first, on_second))
        })
        .collect()
}

/// The points centre ± radius that lie on the arc.
fn on_both_sides(arc: &Arc, radius: kurbo::Vec2) -> impl Iterator<Item = Point> {
    [radius, -radius]
        .into_iter()
        .map(move |radius| arc.centre() + radius)
        .filter(|&point| arc.fraction_towards(point).is_some())
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::geometry::Motion;
    use crate::geometry::Vec2;

    fn arc(centre: (f64, f64), radius: f64, start: f64, sweep: f64) -> Segment {
        let (start, sweep) = (start.to_radians(), sweep.to_radians());
        Segment::Arc(Arc::from_angles(centre.into(), radius, start, sweep))
    }

    fn line(x0: f64, y0: f64, x1: f64, y1: f64) -> Segment {
        Segment::line(Point::new(x0, y0), Point::new(x1, y1))
    }

    fn assert_distance(a: &Segment, b: &Segment, expected: f64) {
        for motion in [
            Motion::IDENTITY,
            Motion::turn(0.9).then(&Motion::shift(Vec2::new(7e3, -7e3))),
            Motion::mirror_left_right(),
        ] {
            let (a, b) = (motion.segment(a), motion.segment(b));
            for (a, b) in [(a, b), (b, a), (a.reversed(), b)] {
                let nearest = between(&a, &b);
                assert!(
                    (nearest.distance - expected).abs() < 1e-11,
                    "{} for {expected}: {a:?}, {b:?}",
                    nearest.distance
                );
            }
        }
    }

    #[test]
    fn every_pair_of_shapes() {
        let base = line(0.0, 0.0, 10.0, 0.0);
        assert_distance(&base, &line(2.0, 3.0, 8.0, 3.0), 3.0);
        assert_distance(&base, &line(13.0, 4.0, 20.0, 4.0), 5.0);
        assert_distance(&base, &line(5.0, 2.0, 5.0, 9.0), 2.0);
        assert_distance(&base, &line(5.0, -2.0, 5.0, 9.0), 0.0);
        // line and arc: over the middle, past its end, from inside
        let circle = arc((5.0, 9.0), 4.0, 0.0, 360.0);
        assert_distance(&base, &circle, 5.0);
        assert_distance(&base, &arc((5.0, 9.0), 4.0, 0.0, 180.0), 9.0);
        assert_distance(&line(4.0, 9.0, 6.0, 9.0), &circle, 3.0);
        assert_distance(&base, &arc((14.0, 3.0), 1.0, 0.0, 360.0), 4.0);
        // arcs: apart, one inside the other, about one centre, ends only
        assert_distance(&circle, &arc((17.0, 18.0), 5.0, 0.0, 360.0), 6.0);
        assert_distance(&circle, &arc((6.0, 9.0), 2.0, 0.0, 360.0), 1.0);
        assert_distance(&circle, &arc((5.0, 9.0), 1.0, 30.0, 40.0), 3.0);
        let (east, west) = (
            arc((0.0, 0.0), 10.0, -45.0, 90.0),
            arc((0.0, 0.0), 10.0, 135.0, 90.0),
        );
        assert_distance(&east, &west, 10.0 * std::f64::consts::SQRT_2);
    }

    fn segment() -> impl Strategy<Value = Segment> {
        let place = || -20.0..20.0_f64;
        let straight =
            (place(), place(), place(), place()).prop_map(|(a, b, c, d)| line(a, b, c, d));
        let round = (
            place(),
            place(),
            0.1..20.0_f64,
            0.0..360.0_f64,
            -360.0..360.0_f64,
        )
            .prop_map(|(x, y, radius, start, sweep)| arc((x, y), radius, start, sweep));
        prop_oneof![straight, round]
    }

    proptest! {
        #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(1000) })]

        /// Two hundred points on each never come nearer than the answer, and come near it.
        #[test]
        fn sampling_finds_nothing_nearer(a in segment(), b in segment()) {
            let nearest = between(&a, &b);
            let off = number::length(a.nearest_point(nearest.on_first) - nearest.on_first)
                + number::length(b.nearest_point(nearest.on_second) - nearest.on_second);
            prop_assert!(off < 1e-10, "points off the segments by {}", off);
            let steps = 200_i32;
            let sampled = (0..=steps)
                .flat_map(|step| {
                    let t = f64::from(step) / f64::from(steps);
                    let (p, q) = (a.point_at(t), b.point_at(t));
                    [number::length(b.nearest_point(p) - p), number::length(a.nearest_point(q) - q)]
                })
                .fold(f64::INFINITY, f64::min);
            prop_assert!(nearest.distance <= sampled + 1e-10, "{} over {}", nearest.distance, sampled);
            let step = a.length().max(b.length()) / f64::from(steps);
            prop_assert!(sampled - nearest.distance <= step, "{} far under {}", nearest.distance, sampled);
        }
    }
}
