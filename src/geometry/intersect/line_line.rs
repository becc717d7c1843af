//! Where two lines meet.

use super::contact::Candidates;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::tolerance;

/// How two infinite lines meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LinesMeeting {
    /// In one point.
    Cross {
        /// Where.
        point: Point,
        /// The fraction of the first line's own length, outside 0 … 1 on its extension.
        on_first: f64,
        /// The fraction of the second line's own length.
        on_second: f64,
    },
    /// Parallel and apart: the distance of the second from the first, positive to its left, in
    /// millimetres.
    Parallel {
        /// The distance.
        distance: f64,
    },
    /// Parallel, and nearer than [`tolerance::SAME_POINT`] over the length of both.
    Same,
}

/// Where the infinite lines through `first` and `second` meet. They are parallel when their
/// directions differ by less than [`tolerance::SAME_DIRECTION`], or one has no length.
pub fn carriers(first: &Line, second: &Line) -> LinesMeeting {
    let (u, v) = (first.direction(), second.direction());
    let between = second.start - first.start;
    let sine = u.cross(v);
    if sine.abs() > tolerance::SAME_DIRECTION {
        let along_first = between.cross(v) / sine;
        let along_second = between.cross(u) / sine;
        return LinesMeeting::Cross {
            point: first.start + u * along_first,
            on_first: along_first / first.length(),
            on_second: along_second / second.length(),
        };
    }
    let (at_start, at_end) = (u.cross(between), u.cross(second.end - first.start));
    let distance = f64::midpoint(at_start, at_end);
    // seen from the second line as well: the first may be the longer one
    let backwards = [first.start, first.end].map(|point| v.cross(point - second.start).abs());
    let farthest = backwards
        .into_iter()
        .chain([at_start.abs(), at_end.abs()])
        .fold(0.0, f64::max);
    if farthest <= tolerance::SAME_POINT {
        LinesMeeting::Same
    } else {
        LinesMeeting::Parallel { distance }
    }
}

/// The crossing of the infinite lines. Lines at less than a few units in the last place of an angle
/// have none: where they meet at all, an end of one lies on the other.
pub(super) fn candidates(first: &Line, second: &Line) -> Candidates {
    let (u, v) = (first.end - first.start, second.end - second.start);
    let between = second.start - first.start;
    let cross = u.cross(v);
    if cross * cross <= u.dot(u) * v.dot(v) * (8.0 * f64::EPSILON * f64::EPSILON) {
        return Candidates::None;
    }
    let on_first = between.cross(v) / cross;
    let on_second = between.cross(u) / cross;
    // an early way out for the many pairs that miss each other; ends are looked at on their own
    let within = |t: f64| (0.0..=1.0).contains(&t);
    if within(on_first) && within(on_second) {
        Candidates::One(first.start + u * on_first)
    } else {
        Candidates::None
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn parallel_lines_give_their_distance() {
        let a = Line::new(Point::new(0.0, 0.0), Point::new(10.0, 0.0));
        let b = Line::new(Point::new(3.0, 2.0), Point::new(-7.0, 2.0));
        assert_eq!(
            carriers(&a, &b),
            LinesMeeting::Parallel { distance: 2.0 },
            "2 mm to the left"
        );
        let c = Line::new(Point::new(30.0, 0.0), Point::new(40.0, 0.0));
        assert_eq!(carriers(&a, &c), LinesMeeting::Same, "one line");
    }

    #[test]
    fn extensions_cross() {
        let a = Line::new(Point::new(0.0, 0.0), Point::new(10.0, 0.0));
        let b = Line::new(Point::new(20.0, 5.0), Point::new(20.0, 10.0));
        let LinesMeeting::Cross {
            point,
            on_first,
            on_second,
        } = carriers(&a, &b)
        else {
            panic!("square lines cross");
        };
        assert_eq!(point, Point::new(20.0, 0.0), "where they cross");
        assert_eq!((on_first, on_second), (2.0, -1.0), "fractions");
    }
}
