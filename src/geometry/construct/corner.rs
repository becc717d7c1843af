//! A corner between two segments, seen from the corner.

use super::error::ConstructError;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;

/// One of the two edges at a corner.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// The edge that runs up to it.
    Before,
    /// The edge that leaves it.
    After,
}

impl std::fmt::Display for Side {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        formatter.write_str(match self {
            Self::Before => "before",
            Self::After => "after",
        })
    }
}

/// Where two segments meet, with what is needed to round, break or relieve it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Corner {
    pub(super) at: Point,
    /// Direction of travel up to the corner and from it.
    pub(super) arriving: Vec2,
    pub(super) leaving: Vec2,
    /// Turn from the one to the other, anticlockwise positive.
    pub(super) turn: f64,
    pub(super) before: Segment,
    pub(super) after: Segment,
}

impl Corner {
    /// The corner between two segments of which the second starts where the first ends.
    pub(super) fn between(before: &Segment, after: &Segment) -> Result<Self, ConstructError> {
        let at = before.end();
        let gap = number::length(after.start() - at);
        if gap > tolerance::SAME_POINT || !gap.is_finite() {
            return Err(ConstructError::NotJoined { at, gap });
        }
        let (arriving, leaving) = (before.direction_at(1.0), after.direction_at(0.0));
        let turn = number::turn(arriving, leaving);
        if turn.abs() <= tolerance::SAME_DIRECTION {
            return Err(ConstructError::NoCorner { at });
        }
        if turn.abs() >= number::HALF_TURN - tolerance::SAME_DIRECTION {
            return Err(ConstructError::DoublesBack { at });
        }
        Ok(Self {
            at,
            arriving,
            leaving,
            turn,
            before: *before,
            after: after.with_ends(at, after.end()),
        })
    }

    /// What is left of the edge before the corner when it ends at `point` instead; `None` when nothing
    /// is.
    pub(super) fn before_until(&self, point: Point) -> Option<Segment> {
        trimmed_end(&self.before, point)
    }

    /// What is left of the edge after the corner when it starts at `point` instead.
    pub(super) fn after_from(&self, point: Point) -> Option<Segment> {
        trimmed_end(&self.after.reversed(), point).map(|segment| segment.reversed())
    }
}

/// The segment from its start to `point`, a point of it; `None` when no usable length is left.
pub(super) fn trimmed_end(segment: &Segment, point: Point) -> Option<Segment> {
    let start = segment.start();
    if number::length(point - start) < tolerance::SHORTEST_SEGMENT {
        return None;
    }
    match segment {
        Segment::Line(_) => Some(Segment::line(start, point)),
        Segment::Arc(arc) => {
            let trimmed = crate::geometry::Arc::from_centre(start, point, arc.centre(), arc.turn());
            Some(trimmed.into())
        }
    }
}

/// The longest way from the corner that stays on the segment's half (straight, in millimetres): the
/// chord to the far end, or the diameter of an arc that goes past its half.
pub(super) fn longest_chord(segment: &Segment) -> f64 {
    match segment {
        Segment::Arc(arc) if arc.sweep().abs() > number::HALF_TURN => 2.0 * arc.radius(),
        _ => number::length(segment.end() - segment.start()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn corners_that_are_none() {
        let line = |a: (f64, f64), b: (f64, f64)| Segment::line(a.into(), b.into());
        let base = line((0.0, 0.0), (10.0, 0.0));
        let corner = |after| Corner::between(&base, &after).map(|corner| corner.turn);
        let at = Point::new(10.0, 0.0);
        assert_eq!(
            corner(line((10.0, 0.0), (20.0, 0.0))),
            Err(ConstructError::NoCorner { at }),
            "straight on"
        );
        assert_eq!(
            corner(line((10.0, 0.0), (3.0, 0.0))),
            Err(ConstructError::DoublesBack { at }),
            "straight back"
        );
        assert_eq!(
            corner(line((10.0, 2.0), (10.0, 9.0))),
            Err(ConstructError::NotJoined { at, gap: 2.0 }),
            "2 mm off"
        );
        assert_eq!(
            corner(line((10.0, 0.0), (10.0, 9.0))),
            Ok(number::QUARTER_TURN),
            "a left turn"
        );
    }
}
