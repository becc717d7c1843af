//! Where two segments meet, with every case named.
//!
//! [`meet`] works on segments as they are, with their ends; [`line_line::carriers`],
//! [`line_arc::carriers`] and [`arc_arc::carriers`] on the infinite lines and whole circles that carry
//! them.
//!
//! # What counts as meeting
//!
//! Points nearer than [`tolerance::SAME_POINT`] are one point. So an end that comes that near to the
//! other segment meets it; curves that come that near without reaching each other, or cut no deeper than
//! that into each other, *touch*; and segments that stay that near over a stretch *overlap* there.
//! Whatever is nearer to an end than that is put onto the end exactly: its fraction is then 0 or 1 and
//! its point the end itself.

pub mod arc_arc;
mod contact;
pub mod line_arc;
pub mod line_line;

use super::Circle;
use super::Point;
use super::Segment;
#[cfg(doc)]
use super::tolerance;

/// A point shared by two segments.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crossing {
    /// Where.
    pub point: Point,
    /// The fraction of the first segment's length at which it stands, 0 … 1.
    pub on_first: f64,
    /// The fraction of the second segment's length, 0 … 1.
    pub on_second: f64,
}

/// A stretch shared by two segments, in the direction of the first; the second may run it backwards.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// Where it starts, along the first segment.
    pub from: Crossing,
    /// Where it ends, along the first segment.
    pub to: Crossing,
}

/// What two segments share that lie partly on one another.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Overlap {
    /// One stretch.
    One(Stretch),
    /// Two stretches: arcs of one circle that overlap at both ends, or a circle that starts within
    /// the other (then the two stretches adjoin). In the order of the first segment.
    Two(Stretch, Stretch),
    /// One stretch, and apart from it a point: arcs of one circle that together go all the way round.
    OneAndPoint(Stretch, Crossing),
}

/// How two segments meet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Meeting {
    /// They do not.
    None,
    /// At one point, where they cross or one of them ends.
    One(Crossing),
    /// At one point, tangent to each other there. It may be the end of either.
    Touch(Crossing),
    /// At two points, in the order of the first segment.
    Two(Crossing, Crossing),
    /// Along a stretch.
    Overlap(Overlap),
}

impl Meeting {
    /// The shared points that are no part of a shared stretch.
    pub fn points(&self) -> impl Iterator<Item = Crossing> + use<> {
        let (first, second) = match *self {
            Self::One(a) | Self::Touch(a) | Self::Overlap(Overlap::OneAndPoint(_, a)) => {
                (Some(a), None)
            }
            Self::Two(a, b) => (Some(a), Some(b)),
            Self::None | Self::Overlap(_) => (None, None),
        };
        first.into_iter().chain(second)
    }

    /// The shared stretches.
    pub fn stretches(&self) -> impl Iterator<Item = Stretch> + use<> {
        let (first, second) = match *self {
            Self::Overlap(Overlap::One(a) | Overlap::OneAndPoint(a, _)) => (Some(a), None),
            Self::Overlap(Overlap::Two(a, b)) => (Some(a), Some(b)),
            _ => (None, None),
        };
        first.into_iter().chain(second)
    }

    /// Every shared point, the ends of shared stretches among them.
    pub fn nodes(&self) -> impl Iterator<Item = Crossing> + use<> {
        let ends = self
            .stretches()
            .flat_map(|stretch| [stretch.from, stretch.to]);
        self.points().chain(ends)
    }
}

/// How the two segments meet.
///
/// # Accuracy
/// Points of a crossing at a clear angle are good to a few units in the last place of the
/// coordinates. Near tangency the place along the curves is as uncertain as the question is (two
/// crossings 2s apart on a radius r need s²/2r told apart); the point stays within
/// [`tolerance::SAME_POINT`] of both segments in every case. Radii beyond
/// [`tolerance::LARGEST_COORDINATE`] lose digits in proportion.
///
/// # Source
/// Closed form: two linear equations; the height of a centre over a line; Heron's formula for the
/// triangle of two centres and a crossing.
///
/// # Example
/// ```
/// use kerfwise::geometry::Arc;
/// use kerfwise::geometry::Point;
/// use kerfwise::geometry::Segment;
/// use kerfwise::geometry::intersect::Meeting;
/// use kerfwise::geometry::intersect::meet;
///
/// let line = Segment::line(Point::new(-50.0, 40.0), Point::new(50.0, 40.0));
/// let circle = Segment::Arc(Arc::circle(Point::ORIGIN, 50.0));
/// let Meeting::Two(first, second) = meet(&line, &circle) else {
///     panic!("a line 40 mm from the centre of a 50 mm circle crosses it twice");
/// };
/// assert_eq!((first.point.x, second.point.x), (-30.0, 30.0));
/// ```
pub fn meet(first: &Segment, second: &Segment) -> Meeting {
    let candidates = match (first, second) {
        (Segment::Line(a), Segment::Line(b)) => line_line::candidates(a, b),
        (Segment::Line(a), Segment::Arc(b)) => line_arc::candidates(a, b),
        (Segment::Arc(a), Segment::Line(b)) => line_arc::candidates(b, a),
        (Segment::Arc(a), Segment::Arc(b)) => arc_arc::candidates(a, b),
    };
    contact::assemble(first, second, candidates)
}

/// Where the infinite lines or whole circles that carry two segments meet, nearest to a point; `None`
/// when they do not, or are one.
///
/// # Accuracy
/// As the `carriers` of the pair.
pub fn carriers_near(first: &Segment, second: &Segment, near: Point) -> Option<Point> {
    let (a, b) = match (first, second) {
        (Segment::Line(a), Segment::Line(b)) => match line_line::carriers(a, b) {
            line_line::LinesMeeting::Cross { point, .. } => (Some(point), None),
            _ => (None, None),
        },
        (Segment::Line(line), Segment::Arc(arc)) | (Segment::Arc(arc), Segment::Line(line)) => {
            match line_arc::carriers(line, &Circle::from(arc)) {
                line_arc::LineCircleMeeting::Apart { .. } => (None, None),
                line_arc::LineCircleMeeting::Touch(point) => (Some(point), None),
                line_arc::LineCircleMeeting::Two(a, b) => (Some(a), Some(b)),
            }
        }
        (Segment::Arc(a), Segment::Arc(b)) => {
            match arc_arc::carriers(&Circle::from(a), &Circle::from(b)) {
                arc_arc::CirclesMeeting::TouchOutside(point)
                | arc_arc::CirclesMeeting::TouchInside(point) => (Some(point), None),
                arc_arc::CirclesMeeting::Two(a, b) => (Some(a), Some(b)),
                _ => (None, None),
            }
        }
    };
    let away = |point: &Point| (*point - near).dot(*point - near);
    match (a, b) {
        (Some(a), Some(b)) if away(&b) < away(&a) => Some(b),
        (a, _) => a,
    }
}

#[cfg(test)]
mod tests;
