//! Where a line and a circle meet.

use super::contact::Candidates;
use crate::geometry::Arc;
use crate::geometry::Circle;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::tolerance;

/// How an infinite line and a circle meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LineCircleMeeting {
    /// They pass each other at a distance of `gap` millimetres.
    Apart {
        /// The distance between line and circle.
        gap: f64,
    },
    /// They touch at one point.
    Touch(Point),
    /// They cross at two points, in the direction of the line.
    Two(Point, Point),
}

/// Where the infinite line through `line` meets the circle. They touch when the distance of the centre
/// is the radius within [`tolerance::SAME_POINT`].
///
/// # Accuracy
/// Half the chord is taken from (r − h)(r + h), so that near tangency it is as good as the distance h
/// of the centre is.
pub fn carriers(line: &Line, circle: &Circle) -> LineCircleMeeting {
    let along = line.direction();
    let to_centre = circle.centre - line.start;
    let height = along.cross(to_centre).abs();
    let foot = line.start + along * along.dot(to_centre);
    let gap = height - circle.radius;
    if gap > tolerance::SAME_POINT {
        LineCircleMeeting::Apart { gap }
    } else if gap >= -tolerance::SAME_POINT {
        LineCircleMeeting::Touch(foot)
    } else {
        let half = ((circle.radius - height) * (circle.radius + height)).sqrt();
        LineCircleMeeting::Two(foot - along * half, foot + along * half)
    }
}

pub(super) fn candidates(line: &Line, arc: &Arc) -> Candidates {
    let circle = Circle::from(arc);
    match carriers(line, &circle) {
        LineCircleMeeting::Apart { .. } => Candidates::None,
        LineCircleMeeting::Touch(point) => Candidates::Touch {
            point,
            // where the circle has left the line by the tolerance that made this a touch
            reach: (4.0 * circle.radius * tolerance::SAME_POINT).sqrt(),
        },
        LineCircleMeeting::Two(a, b) => Candidates::Two(a, b),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_past_a_circle_tells_the_gap() {
        let circle = Circle::new(Point::new(0.0, 10.0), 4.0);
        let line = Line::new(Point::new(-1.0, 0.0), Point::new(1.0, 0.0));
        assert_eq!(
            carriers(&line, &circle),
            LineCircleMeeting::Apart { gap: 6.0 },
            "10 - 4"
        );
        let tangent = Line::new(Point::new(4.0, 0.0), Point::new(4.0, 1.0));
        assert_eq!(
            carriers(&tangent, &circle),
            LineCircleMeeting::Touch(Point::new(4.0, 10.0)),
            "at the height of the centre"
        );
    }
}
