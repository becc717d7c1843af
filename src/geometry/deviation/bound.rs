//! The greatest distance of a piece from one other segment, or something above it.

use crate::geometry::Arc;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::number;

/// An upper bound of the distance of any point of `piece` from `other`: the greatest distance itself where
/// the whole piece lies beside the other's inside, or where both are straight.
pub(super) fn greatest(piece: &Segment, other: &Segment) -> f64 {
    let beside = match other {
        Segment::Line(line) => beside_line(piece, line),
        Segment::Arc(arc) => beside_arc(piece, arc),
    };
    beside.unwrap_or_else(|| {
        // the ends are points of the other
        furthest_from(piece, other.start()).min(furthest_from(piece, other.end()))
    })
}

/// Half the length of a piece: no point of it is further from its middle.
fn half(piece: &Segment) -> f64 {
    piece.length() / 2.0
}

fn beside_line(piece: &Segment, line: &Line) -> Option<f64> {
    if let Segment::Line(piece) = piece {
        // the distance from a segment is convex along a line
        let at = |point: Point| number::length(line.nearest_point(point) - point);
        return Some(at(piece.start).max(at(piece.end)));
    }
    let along = line.direction();
    let (middle, reach) = (piece.point_at(0.5), half(piece));
    let from_start = (middle - line.start).dot(along);
    let slack = 1e-12 * reach;
    if from_start + slack < reach || line.length() - from_start + slack < reach {
        return None;
    }
    let normal = number::left_normal(along);
    let away = |point: Point| (point - line.start).dot(normal).abs();
    let mut greatest = away(piece.start()).max(away(piece.end()));
    if let Segment::Arc(arc) = piece {
        for side in [1.0, -1.0] {
            let top = arc.centre() + normal * (side * arc.radius());
            if arc.fraction_towards(top).is_some() {
                greatest = greatest.max(away(top));
            }
        }
    }
    Some(greatest)
}

fn beside_arc(piece: &Segment, arc: &Arc) -> Option<f64> {
    let (middle, reach) = (piece.point_at(0.5), half(piece));
    let from_centre = number::length(middle - arc.centre());
    if !arc.is_circle() {
        // the disc about the middle that holds the piece must lie within the arc's sector
        let fraction = arc.fraction_towards(middle)?;
        if from_centre <= reach {
            return None;
        }
        let needed = number::arcsin(reach / from_centre);
        let span = arc.sweep().abs();
        let slack = 1e-12;
        if fraction * span + slack < needed || (1.0 - fraction) * span + slack < needed {
            return None;
        }
    }
    let (least, most) = distances_from(piece, arc.centre());
    Some(
        (most - arc.radius())
            .abs()
            .max((arc.radius() - least).abs()),
    )
}

fn furthest_from(piece: &Segment, point: Point) -> f64 {
    distances_from(piece, point).1
}

/// The least and the greatest distance of a piece from a point.
fn distances_from(piece: &Segment, point: Point) -> (f64, f64) {
    let away = |other: Point| number::length(other - point);
    let (start, end) = (away(piece.start()), away(piece.end()));
    let (mut least, mut most) = (start.min(end), start.max(end));
    match piece {
        Segment::Line(line) => least = least.min(away(line.nearest_point(point))),
        Segment::Arc(arc) => {
            let Some(direction) = number::normalized(arc.centre() - point) else {
                return (arc.radius(), arc.radius());
            };
            for side in [1.0, -1.0] {
                let extreme = arc.centre() + direction * (side * arc.radius());
                if arc.fraction_towards(extreme).is_some() {
                    least = least.min(away(extreme));
                    most = most.max(away(extreme));
                }
            }
        }
    }
    (least, most)
}
