//! Where two circles meet.

use super::contact::Candidates;
use crate::geometry::Arc;
use crate::geometry::Circle;
use crate::geometry::Point;
use crate::geometry::number;
use crate::geometry::tolerance;

/// How two circles meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CirclesMeeting {
    /// Each lies outside the other.
    Apart {
        /// The distance between them, in millimetres.
        gap: f64,
    },
    /// The smaller lies inside the larger.
    Inside {
        /// The least distance between them, in millimetres.
        gap: f64,
    },
    /// They touch, each outside the other.
    TouchOutside(Point),
    /// They touch, the smaller inside the larger.
    TouchInside(Point),
    /// They cross twice: first the point on the right of the way from the first centre to the second,
    /// then the one on its left.
    Two(Point, Point),
    /// They are one circle.
    Same,
}

/// Where two circles meet. They touch when their least distance, or the depth of their overlap, is
/// within [`tolerance::SAME_POINT`].
///
/// # Accuracy
/// Half the common chord is taken from Heron's formula in factors, so that near tangency it is as good
/// as the gap between the circles is.
pub fn carriers(first: &Circle, second: &Circle) -> CirclesMeeting {
    let between = second.centre - first.centre;
    let distance = number::length(between);
    let (sum, difference) = (
        first.radius + second.radius,
        (first.radius - second.radius).abs(),
    );
    let outside = distance - sum;
    let inside = difference - distance;
    if distance + difference <= tolerance::SAME_POINT {
        return CirclesMeeting::Same;
    }
    if outside > tolerance::SAME_POINT {
        return CirclesMeeting::Apart { gap: outside };
    }
    if inside > tolerance::SAME_POINT {
        return CirclesMeeting::Inside { gap: inside };
    }
    let Some(along) = number::normalized(between) else {
        return CirclesMeeting::Same;
    };
    if outside >= -tolerance::SAME_POINT {
        return CirclesMeeting::TouchOutside(first.centre + along * (first.radius + outside / 2.0));
    }
    if inside >= -tolerance::SAME_POINT {
        let touch = if first.radius > second.radius {
            first.centre + along * first.radius
        } else {
            second.centre - along * second.radius
        };
        return CirclesMeeting::TouchInside(touch);
    }
    let reach = f64::midpoint(distance, (first.radius - second.radius) / distance * sum);
    let heron = (sum + distance) * -outside * -inside * (difference + distance);
    let half = heron.max(0.0).sqrt() / (2.0 * distance);
    let (foot, left) = (
        first.centre + along * reach,
        number::left_normal(along) * half,
    );
    CirclesMeeting::Two(foot - left, foot + left)
}

pub(super) fn candidates(first: &Arc, second: &Arc) -> Candidates {
    let (a, b) = (Circle::from(first), Circle::from(second));
    let reach = |curvature: f64| (4.0 * tolerance::SAME_POINT / curvature).sqrt();
    let (one, other) = (1.0 / a.radius, 1.0 / b.radius);
    match carriers(&a, &b) {
        CirclesMeeting::Apart { .. } | CirclesMeeting::Inside { .. } | CirclesMeeting::Same => {
            Candidates::None
        }
        CirclesMeeting::TouchOutside(point) => Candidates::Touch {
            point,
            reach: reach(one + other),
        },
        CirclesMeeting::TouchInside(point) => Candidates::Touch {
            point,
            reach: reach((one - other).abs()).min(a.radius.min(b.radius)),
        },
        CirclesMeeting::Two(p, q) => Candidates::Two(p, q),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn three_four_five() {
        let a = Circle::new(Point::ORIGIN, 5.0);
        let b = Circle::new(Point::new(6.0, 0.0), 5.0);
        assert_eq!(
            carriers(&a, &b),
            CirclesMeeting::Two(Point::new(3.0, -4.0), Point::new(3.0, 4.0)),
            "3-4-5 triangles"
        );
    }

    #[test]
    fn the_cases_without_a_crossing() {
        let a = Circle::new(Point::ORIGIN, 5.0);
        let at = |x: f64, radius: f64| carriers(&a, &Circle::new(Point::new(x, 0.0), radius));
        assert_eq!(at(9.0, 3.0), CirclesMeeting::Apart { gap: 1.0 }, "apart");
        assert_eq!(at(1.0, 3.0), CirclesMeeting::Inside { gap: 1.0 }, "inside");
        assert_eq!(at(0.0, 7.0), CirclesMeeting::Inside { gap: 2.0 }, "ring");
        assert_eq!(at(0.0, 5.0), CirclesMeeting::Same, "same");
        let point = Point::new(5.0, 0.0);
        assert_eq!(at(8.0, 3.0), CirclesMeeting::TouchOutside(point), "outside");
        assert_eq!(at(2.0, 3.0), CirclesMeeting::TouchInside(point), "inside");
        assert_eq!(
            at(-3.0, 8.0),
            CirclesMeeting::TouchInside(point),
            "the other round the first"
        );
    }
}
