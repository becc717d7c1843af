//! Chamfers: a corner cut off straight.

use super::corner;
use super::corner::Corner;
use super::corner::Side;
use super::error::ConstructError;
use crate::geometry::GeometryError;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::number;
use crate::geometry::tolerance;

/// How far from the sharp corner a chamfer starts and ends, each measured straight from the corner, in
/// millimetres.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setbacks {
    /// On the edge that runs up to the corner.
    pub before: f64,
    /// On the edge that leaves it.
    pub after: f64,
}

impl Setbacks {
    /// The same on both sides.
    pub const fn equal(setback: f64) -> Self {
        Self {
            before: setback,
            after: setback,
        }
    }
}

/// A corner cut off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chamfer {
    /// What is left of the edge before; `None` when the chamfer uses it up.
    pub before: Option<Segment>,
    /// The new edge.
    pub edge: Line,
    /// What is left of the edge after; `None` when the chamfer uses it up.
    pub after: Option<Segment>,
}

/// The chamfer between two segments, lines or arcs, of which the second starts where the first ends. On
/// an arc the setback is the chord from the corner.
///
/// # Accuracy
/// Exact up to rounding.
///
/// # Errors
/// [`ConstructError::SetbackTooLarge`] with the largest that fits, [`ConstructError::NoCorner`],
/// [`ConstructError::DoublesBack`], [`ConstructError::NotJoined`], and [`GeometryError::NotUsable`] for a
/// setback that is none.
pub fn chamfer(
    before: &Segment,
    after: &Segment,
    setbacks: Setbacks,
) -> Result<Chamfer, ConstructError> {
    let corner = Corner::between(before, after)?;
    let backwards = corner.before.reversed();
    let from = point_at_chord(&backwards, setbacks.before, Side::Before)?;
    let to = point_at_chord(&corner.after, setbacks.after, Side::After)?;
    Ok(Chamfer {
        before: corner.before_until(from),
        edge: Line::new(from, to),
        after: corner.after_from(to),
    })
}

/// The point of the segment at a straight distance from its start.
pub(super) fn point_at_chord(
    segment: &Segment,
    chord: f64,
    side: Side,
) -> Result<Point, ConstructError> {
    if !(chord >= tolerance::SHORTEST_SEGMENT && chord.is_finite()) {
        return Err(ConstructError::Geometry(GeometryError::NotUsable {
            what: "setback",
            value: chord,
        }));
    }
    let largest = corner::longest_chord(segment);
    if chord > largest + tolerance::SAME_POINT {
        return Err(ConstructError::SetbackTooLarge {
            setback: chord,
            largest,
            side,
        });
    }
    let far = number::length(segment.end() - segment.start());
    let whole = (chord - far).abs() <= tolerance::SAME_POINT;
    Ok(match segment {
        Segment::Arc(arc) if arc.sweep().abs() > number::HALF_TURN => {
            let angle = 2.0 * number::arcsin(chord / (2.0 * arc.radius()));
            segment.point_at(angle / arc.sweep().abs())
        }
        _ if whole => segment.end(),
        Segment::Arc(arc) => {
            let angle = 2.0 * number::arcsin(chord / (2.0 * arc.radius()));
            segment.point_at(angle / arc.sweep().abs())
        }
        Segment::Line(line) => line.start + line.direction() * chord,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Arc;

    #[test]
    fn a_corner_of_two_lines() {
        let corner = Point::new(100.0, 0.0);
        let bottom = Segment::line(Point::ORIGIN, corner);
        let side = Segment::line(corner, Point::new(100.0, 50.0));
        let setbacks = Setbacks {
            before: 4.0,
            after: 3.0,
        };
        let cut = chamfer(&bottom, &side, setbacks).expect("it fits");
        assert_eq!(cut.edge.length(), 5.0, "3-4-5");
        assert_eq!(
            cut.before.map(|segment| segment.end()),
            Some(cut.edge.start),
            "joined before"
        );
        assert_eq!(
            cut.after.map(|segment| segment.start()),
            Some(cut.edge.end),
            "joined after"
        );
        let refused = chamfer(&bottom, &side, Setbacks::equal(50.001));
        assert_eq!(
            refused,
            Err(ConstructError::SetbackTooLarge {
                setback: 50.001,
                largest: 50.0,
                side: Side::After
            }),
            "longer than the side"
        );
        let whole = chamfer(&bottom, &side, Setbacks::equal(50.0)).expect("it just fits");
        assert_eq!(whole.after, None, "the side is used up");
    }

    #[test]
    fn on_an_arc_the_setback_is_a_chord() {
        let arc = Arc::from_angles(
            Point::ORIGIN,
            50.0,
            -number::QUARTER_TURN,
            number::HALF_TURN,
        );
        let corner = arc.end();
        let top = Segment::line(corner, corner + kurbo::Vec2::new(0.0, 80.0));
        let cut = chamfer(&arc.into(), &top, Setbacks::equal(10.0)).expect("it fits");
        let chord = number::length(cut.edge.start - corner);
        assert!((chord - 10.0).abs() < 1e-12, "chord {chord}");
        let radius = number::length(cut.edge.start - Point::ORIGIN);
        assert!((radius - 50.0).abs() < 1e-12, "on the arc: {radius}");
        assert!(
            chamfer(&arc.into(), &top, Setbacks::equal(0.0)).is_err(),
            "no setback"
        );
        assert!(
            chamfer(&arc.into(), &top, Setbacks::equal(f64::NAN)).is_err(),
            "no number"
        );
    }
}
