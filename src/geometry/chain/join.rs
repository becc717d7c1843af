//! Ends that are made to meet.

use crate::geometry::Arc;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::number;
use crate::geometry::tolerance;

/// Segments whose ends meet exactly.
#[derive(Clone, Debug, PartialEq)]
pub struct Joined {
    /// The segments in order of travel, none without length.
    pub segments: Vec<Segment>,
    /// How far an end was moved at most, in millimetres.
    pub moved: f64,
}

/// Makes each segment start where the one before ends, and the first where the last ends if `closed`:
/// both ends of a joint are moved half of its gap. Segments shorter than
/// [`tolerance::SHORTEST_SEGMENT`] are left out.
///
/// A line takes its new ends. An arc whose ends move by no more than rounding keeps its circle; otherwise
/// it is the arc through its new ends and its old middle, so that no point of it moves further than its
/// ends do.
pub fn join(segments: &[Segment], closed: bool) -> Joined {
    let kept: Vec<Segment> = segments
        .iter()
        .filter(|segment| segment.length() >= tolerance::SHORTEST_SEGMENT)
        .copied()
        .collect();
    let count = kept.len();
    let whole = matches!(kept.as_slice(), [Segment::Arc(arc)] if arc.is_circle());
    if whole || count == 0 {
        return Joined {
            segments: kept,
            moved: 0.0,
        };
    }
    let joint = |index: usize| -> Option<Point> {
        // the place between a segment and the one before it
        let before = match index.checked_sub(1) {
            Some(before) => before,
            None if closed => count - 1,
            None => return None,
        };
        let (end, start) = (kept.get(before)?.end(), kept.get(index)?.start());
        Some(if end == start {
            start
        } else {
            end.midpoint(start)
        })
    };
    let mut moved: f64 = 0.0;
    let mut joined = Vec::with_capacity(count);
    for (index, segment) in kept.iter().enumerate() {
        let start = joint(index).unwrap_or(segment.start());
        let end = if index + 1 < count {
            joint(index + 1)
        } else if closed {
            joint(0)
        } else {
            None
        };
        let end = end.unwrap_or(segment.end());
        moved = moved
            .max(number::length(start - segment.start()))
            .max(number::length(end - segment.end()));
        joined.push(with_new_ends(segment, start, end));
    }
    Joined {
        segments: joined,
        moved,
    }
}

fn with_new_ends(segment: &Segment, start: Point, end: Point) -> Segment {
    let Segment::Arc(arc) = segment else {
        return Segment::line(start, end);
    };
    let far = number::length(start - arc.start()).max(number::length(end - arc.end()));
    if far <= tolerance::SAME_POINT {
        return Segment::Arc(arc.with_ends(start, end));
    }
    if arc.is_circle() {
        return *segment;
    }
    match Arc::through(start, arc.point_at(0.5), end) {
        Ok(through) if through.turn() == arc.turn() => Segment::Arc(through),
        _ => Segment::line(start, end),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ends_meet_in_the_middle_of_the_gap() {
        let arc = Arc::from_angles(Point::ORIGIN, 10.0, 0.0, number::HALF_TURN);
        let line = Segment::line(Point::new(-10.04, 0.0), Point::new(10.0, 0.0));
        let joined = join(&[arc.into(), line], true);
        assert!((joined.moved - 0.02).abs() < 1e-12, "{joined:?}");
        assert_eq!(joined.segments[0].end(), joined.segments[1].start(), "meet");
        assert_eq!(
            joined.segments[1].end(),
            joined.segments[0].start(),
            "close"
        );
        let Segment::Arc(moved) = joined.segments[0] else {
            panic!("an arc stays one: {joined:?}")
        };
        let top = number::length(moved.point_at(0.5) - Point::new(0.0, 10.0));
        assert!(top < 0.02, "the middle stays near: {top}");
    }
}
