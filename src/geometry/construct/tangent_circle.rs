//! Circles of a given radius tangent to two lines or circles.

use super::directed::Carrier;
use super::directed::DirectedCircle;
use super::directed::DirectedLine;
use crate::geometry::Circle;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::intersect::arc_arc;
use crate::geometry::intersect::arc_arc::CirclesMeeting;
use crate::geometry::intersect::line_arc;
use crate::geometry::intersect::line_arc::LineCircleMeeting;
use crate::geometry::intersect::line_line;
use crate::geometry::intersect::line_line::LinesMeeting;
use crate::geometry::number;
use crate::geometry::tolerance;

/// Directed circles tangent to others with the same direction of travel.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum TangentCircles {
    /// None.
    None,
    /// One.
    One(DirectedCircle),
    /// Two.
    Two(DirectedCircle, DirectedCircle),
    /// Endlessly many.
    Endless,
}

impl TangentCircles {
    /// The circles, unless there are endlessly many.
    pub fn circles(&self) -> impl Iterator<Item = DirectedCircle> + use<> {
        let (first, second) = match *self {
            Self::None | Self::Endless => (None, None),
            Self::One(a) => (Some(a), None),
            Self::Two(a, b) => (Some(a), Some(b)),
        };
        first.into_iter().chain(second)
    }
}

/// Circles that touch others, whatever their directions.
#[derive(Clone, Debug, PartialEq)]
pub enum Touching {
    /// The circles, each once; none, or up to eight.
    Circles(Vec<Circle>),
    /// Endlessly many.
    Endless,
}

impl Touching {
    /// Adds circles unless they are known.
    pub(super) fn gather(answers: impl IntoIterator<Item = TangentCircles>) -> Self {
        let mut known: Vec<Circle> = Vec::new();
        for answer in answers {
            if answer == TangentCircles::Endless {
                return Self::Endless;
            }
            for circle in answer.circles().map(|directed| directed.to_circle()) {
                let same = |other: &Circle| {
                    number::length(other.centre - circle.centre) <= tolerance::SAME_POINT
                        && (other.radius - circle.radius).abs() <= tolerance::SAME_POINT
                };
                if !known.iter().any(same) {
                    known.push(circle);
                }
            }
        }
        Self::Circles(known)
    }
}

/// The circles of the given signed radius that touch both carriers, running the same way as each where
/// they touch.
///
/// # Accuracy
/// As the crossings of [`intersect`](crate::geometry::intersect): where two answers become one, as good as
/// the distance that decides it.
///
/// # Source
/// Closed form: the centre lies on the parallel at that distance to the left of a line, and on a circle
/// of radius |s − ρ| about the centre of a circle.
pub fn with_radius(first: &Carrier, second: &Carrier, signed_radius: f64) -> TangentCircles {
    let circle = |centre| DirectedCircle::new(centre, signed_radius);
    let one = |centre| TangentCircles::One(circle(centre));
    let two = |a, b| TangentCircles::Two(circle(a), circle(b));
    match (
        Centres::of(first, signed_radius),
        Centres::of(second, signed_radius),
    ) {
        (Centres::On(a), Centres::On(b)) => match line_line::carriers(&a, &b) {
            LinesMeeting::Cross { point, .. } => one(point),
            LinesMeeting::Parallel { .. } => TangentCircles::None,
            LinesMeeting::Same => TangentCircles::Endless,
        },
        (Centres::On(line), Centres::About(about)) | (Centres::About(about), Centres::On(line)) => {
            match line_arc::carriers(&line, &about) {
                LineCircleMeeting::Apart { .. } => TangentCircles::None,
                LineCircleMeeting::Touch(point) => one(point),
                LineCircleMeeting::Two(a, b) => two(a, b),
            }
        }
        (Centres::About(a), Centres::About(b)) => match arc_arc::carriers(&a, &b) {
            CirclesMeeting::Apart { .. } | CirclesMeeting::Inside { .. } => TangentCircles::None,
            CirclesMeeting::TouchOutside(point) | CirclesMeeting::TouchInside(point) => one(point),
            CirclesMeeting::Two(p, q) => two(p, q),
            CirclesMeeting::Same => TangentCircles::Endless,
        },
    }
}

/// All circles of the given radius that touch both carriers, on whichever side.
///
/// # Accuracy
/// As [`with_radius`].
pub fn touching_two(first: &Carrier, second: &Carrier, radius: f64) -> Touching {
    let sides = [first, second].map(|carrier| [*carrier, carrier.reversed()]);
    let [ones, others] = sides;
    Touching::gather(ones.iter().flat_map(|one| {
        others
            .iter()
            .map(move |other| with_radius(one, other, radius))
    }))
}

/// Where the centres of tangent circles are.
enum Centres {
    On(Line),
    About(Circle),
}

impl Centres {
    fn of(carrier: &Carrier, signed_radius: f64) -> Self {
        match carrier {
            Carrier::Line(line) => Self::On(parallel(line, signed_radius)),
            Carrier::Circle(own) => {
                let apart = (own.signed_radius - signed_radius).abs();
                Self::About(Circle::new(own.centre, apart))
            }
        }
    }
}

fn parallel(line: &DirectedLine, to_left: f64) -> Line {
    let start: Point = line.through + number::left_normal(line.direction) * to_left;
    Line::new(start, start + line.direction)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Vec2;

    fn line(x: f64, y: f64, dx: f64, dy: f64) -> Carrier {
        Carrier::Line(DirectedLine {
            through: Point::new(x, y),
            direction: number::normalized(Vec2::new(dx, dy)).expect("a direction"),
        })
    }

    fn circle(x: f64, y: f64, signed_radius: f64) -> Carrier {
        Carrier::Circle(DirectedCircle::new(Point::new(x, y), signed_radius))
    }

    fn circles(touching: Touching) -> Vec<Circle> {
        match touching {
            Touching::Circles(circles) => circles,
            Touching::Endless => panic!("endlessly many"),
        }
    }

    /// A tool of 1/8 beside a disc of 1.75 about (1.75, 3) and a line at 0.865: worked with symbols on a
    /// public numeric-software mailing list, y = 1.420276923.
    #[test]
    fn a_tool_between_a_disc_and_a_line() {
        let found = circles(touching_two(
            &line(0.865, 0.0, 0.0, 1.0),
            &circle(1.75, 3.0, 1.75),
            0.125,
        ));
        let expected = Point::new(0.74, 1.420_276_923_002);
        let nearest = found
            .iter()
            .map(|one| number::length(one.centre - expected))
            .fold(f64::INFINITY, f64::min);
        assert!(nearest < 1e-11, "{found:?}");
        // each side of the line meets the circle inside and outside
        assert_eq!(found.len(), 8, "{found:?}");
    }

    #[test]
    fn three_four_five_between_a_line_and_a_circle() {
        // centres 2 over the line and 5 from (0, 5)
        let base = line(0.0, 0.0, 1.0, 0.0);
        let disc = circle(0.0, 5.0, -3.0);
        let TangentCircles::Two(a, b) = with_radius(&base, &disc, 2.0) else {
            panic!("two circles");
        };
        for (found, x) in [(a, -4.0), (b, 4.0)] {
            assert_eq!(found.centre, Point::new(x, 2.0), "centre");
            assert_eq!(base.touch(&found), Point::new(x, 0.0), "touch on the line");
            let touch = disc.touch(&found) - Point::new(x * 0.6, 3.2);
            assert!(number::length(touch) < 1e-14, "touch on the circle");
        }
    }

    #[test]
    fn the_cases() {
        let base = line(0.0, 0.0, 1.0, 0.0);
        let top = line(5.0, 10.0, -1.0, 0.0);
        assert_eq!(
            with_radius(&base, &top, 5.0),
            TangentCircles::Endless,
            "between parallels"
        );
        assert_eq!(
            with_radius(&base, &top, 4.0),
            TangentCircles::None,
            "too small"
        );
        assert_eq!(
            touching_two(&base, &top, 5.0),
            Touching::Endless,
            "between parallels"
        );
        let corner = circles(touching_two(&base, &line(0.0, 0.0, 0.0, 1.0), 3.0));
        assert_eq!(corner.len(), 4, "one in each quarter: {corner:?}");
        let apart = circles(touching_two(
            &circle(0.0, 0.0, 5.0),
            &circle(20.0, 0.0, 5.0),
            5.0,
        ));
        assert_eq!(apart.len(), 1, "just between them: {apart:?}");
        assert_eq!(
            with_radius(&circle(0.0, 0.0, 5.0), &circle(0.0, 0.0, 5.0), 2.0),
            TangentCircles::Endless,
            "inside one circle"
        );
        assert_eq!(
            with_radius(&circle(0.0, 0.0, -5.0), &circle(0.0, 0.0, 9.0), 2.0),
            TangentCircles::Endless,
            "in a ring of just that width"
        );
    }
}
