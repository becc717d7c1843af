//! Reliefs: an inside corner opened so that a square corner fits into it, by a round cutter.

use super::corner;
use super::corner::Corner;
use super::corner::Side;
use super::error::ConstructError;
use super::fillet;
use crate::geometry::Arc;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Turn;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;

/// The way the cutter is moved into the corner until it has cleared it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ReliefDirection {
    /// Along the bisector of the corner: cuts into both edges alike, and least deep.
    Bisector,
    /// Along the edge before the corner: touches it at the corner and cuts into the edge after.
    AlongBefore,
    /// Along the edge after the corner: touches it at the corner and cuts into the edge before.
    AlongAfter,
}

/// A relieved corner.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Relief {
    /// What is left of the edge before; `None` when the relief uses it up.
    pub before: Option<Segment>,
    /// The round of the cutter, through the sharp corner, clockwise (material on the left).
    pub arc: Arc,
    /// What is left of the edge after; `None` when the relief uses it up.
    pub after: Option<Segment>,
}

/// The relief for a cutter of the given radius at an inside corner: one that turns right with material
/// on the left. The cutter passes through the sharp corner exactly, and no deeper.
///
/// # Accuracy
/// Exact up to rounding.
///
/// # Errors
/// [`ConstructError::OutsideCorner`] for a corner that turns left, [`ConstructError::ReliefTooLarge`],
/// [`ConstructError::NoCorner`], [`ConstructError::DoublesBack`], [`ConstructError::NotJoined`], and
/// [`NotUsable`](crate::geometry::GeometryError::NotUsable) for a radius that is none.
///
/// # Source
/// Common practice for slots cut by a router that take square tenons; closed form.
pub fn relief(
    before: &Segment,
    after: &Segment,
    radius: f64,
    direction: ReliefDirection,
) -> Result<Relief, ConstructError> {
    fillet::check_radius(radius)?;
    let corner = Corner::between(before, after)?;
    if corner.turn > 0.0 {
        return Err(ConstructError::OutsideCorner { at: corner.at });
    }
    // the void is on the right of travel
    let right = |travel: Vec2| -number::left_normal(travel);
    let to_centre = match direction {
        ReliefDirection::Bisector => right(number::rotated(corner.arriving, corner.turn / 2.0)),
        ReliefDirection::AlongBefore => right(corner.arriving),
        ReliefDirection::AlongAfter => right(corner.leaving),
    };
    let centre = corner.at + to_centre * radius;
    let from = match direction {
        ReliefDirection::AlongBefore => corner.at,
        _ => second_crossing(&corner, Side::Before, centre, radius)?,
    };
    let to = match direction {
        ReliefDirection::AlongAfter => corner.at,
        _ => second_crossing(&corner, Side::After, centre, radius)?,
    };
    Ok(Relief {
        before: corner.before_until(from),
        arc: Arc::from_centre(from, to, centre, Turn::Clockwise),
        after: corner.after_from(to),
    })
}

/// Where the cutter's circle, which runs through the corner, crosses the edge a second time.
fn second_crossing(
    corner: &Corner,
    side: Side,
    centre: Point,
    radius: f64,
) -> Result<Point, ConstructError> {
    let segment = match side {
        Side::Before => corner.before.reversed(),
        Side::After => corner.after,
    };
    let to_corner = corner.at - centre;
    let crossing = match &segment {
        Segment::Line(line) => {
            let along = line.direction();
            corner.at - along * (2.0 * to_corner.dot(along))
        }
        // the corner mirrored in the line of the two centres
        Segment::Arc(arc) => {
            let Some(between) = number::normalized(arc.centre() - centre) else {
                return Err(ConstructError::DoublesBack { at: corner.at });
            };
            centre + between * (2.0 * to_corner.dot(between)) - to_corner
        }
    };
    let needed = number::length(crossing - corner.at);
    let leaves = (crossing - corner.at).dot(segment.direction_at(0.0)) > 0.0;
    let found = corner::longest_chord(&segment);
    if !leaves || needed > found - tolerance::SAME_POINT {
        return Err(ConstructError::ReliefTooLarge {
            radius,
            needed,
            found,
            side,
        });
    }
    Ok(crossing)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Motion;

    /// The inside corner of an L: along −x to the origin, then up y.
    fn square() -> (Segment, Segment) {
        let at = Point::ORIGIN;
        (
            Segment::line(Point::new(40.0, 0.0), at),
            Segment::line(at, Point::new(0.0, 40.0)),
        )
    }

    #[test]
    fn a_square_corner() {
        let (before, after) = square();
        let radius = 3.0;
        let at = |direction| relief(&before, &after, radius, direction).expect("it fits");
        let both = at(ReliefDirection::Bisector);
        let chord = 3.0 * std::f64::consts::SQRT_2;
        assert!((both.arc.start().x - chord).abs() < 1e-12, "{both:?}");
        assert!((both.arc.end().y - chord).abs() < 1e-12, "{both:?}");
        assert!(
            (both.arc.sweep() + number::HALF_TURN).abs() < 1e-12,
            "half a circle: {both:?}"
        );
        let along = at(ReliefDirection::AlongAfter);
        assert_eq!(
            along.arc.centre(),
            Point::new(3.0, 0.0),
            "on the edge before"
        );
        assert_eq!(along.arc.start(), Point::new(6.0, 0.0), "{along:?}");
        assert_eq!(along.arc.end(), Point::ORIGIN, "{along:?}");
        let along = at(ReliefDirection::AlongBefore);
        assert_eq!(
            along.arc.centre(),
            Point::new(0.0, 3.0),
            "on the edge after"
        );
        assert_eq!(along.arc.end(), Point::new(0.0, 6.0), "{along:?}");
    }

    #[test]
    fn the_cutter_clears_the_corner_and_leaves_the_void() {
        for degrees in [30.0_f64, 60.0, 90.0, 120.0, 160.0] {
            let opening = degrees.to_radians();
            let before = Segment::line(Point::new(40.0, 0.0), Point::ORIGIN);
            let after = Segment::line(Point::ORIGIN, Point::ORIGIN + number::unit(opening) * 40.0);
            for direction in [
                ReliefDirection::Bisector,
                ReliefDirection::AlongBefore,
                ReliefDirection::AlongAfter,
            ] {
                for motion in [Motion::IDENTITY, Motion::turn(1.0)] {
                    let (before, after) = (motion.segment(&before), motion.segment(&after));
                    let made = relief(&before, &after, 3.0, direction).expect("it fits");
                    let off = number::length(made.arc.nearest_point(Point::ORIGIN).to_vec2());
                    assert!(off < 1e-12, "{degrees}° {direction:?}: passes by {off}");
                    assert!(made.arc.sweep() < 0.0, "{degrees}° {direction:?}: hollow");
                }
            }
        }
    }

    #[test]
    fn refused_where_it_makes_no_sense() {
        let (before, after) = square();
        let mirror = Motion::mirror_left_right();
        let (left, right) = (mirror.segment(&before), mirror.segment(&after));
        assert!(
            matches!(
                relief(&left, &right, 3.0, ReliefDirection::Bisector),
                Err(ConstructError::OutsideCorner { .. })
            ),
            "a left turn"
        );
        assert!(
            matches!(
                relief(&before, &after, 30.0, ReliefDirection::AlongBefore),
                Err(ConstructError::ReliefTooLarge {
                    needed: 60.0,
                    found: 40.0,
                    side: Side::After,
                    ..
                })
            ),
            "60 mm of 40"
        );
    }

    #[test]
    fn between_two_arcs() {
        // the inside corner where two round openings of 20 mm run into each other
        let (one, other) = (Point::new(-15.0, 0.0), Point::new(15.0, 0.0));
        let waist = Point::new(0.0, (400.0_f64 - 225.0).sqrt());
        let start = Point::new(15.0, 20.0);
        let end = Point::new(-15.0, 20.0);
        let before = Arc::from_centre(start, waist, other, Turn::Anticlockwise);
        let after = Arc::from_centre(waist, end, one, Turn::Anticlockwise);
        let made = relief(
            &before.into(),
            &after.into(),
            2.0,
            ReliefDirection::Bisector,
        )
        .expect("it fits");
        for (point, centre) in [(made.arc.start(), other), (made.arc.end(), one)] {
            let radius = number::length(point - centre);
            assert!((radius - 20.0).abs() < 1e-12, "still on the edge: {radius}");
            let cutter = number::length(point - made.arc.centre());
            assert!((cutter - 2.0).abs() < 1e-12, "on the cutter: {cutter}");
        }
    }
}
