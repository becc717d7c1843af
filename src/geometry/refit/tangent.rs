//! Arcs that were put back, made exactly tangent to the lines beside them where they nearly are.

use crate::geometry::Arc;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;

/// An arc that leaves a line by less than this was drawn tangent to it, in radians: 3°.
const NEARLY: f64 = 0.05;

/// The segments with every arc between lines that it nearly touches made tangent to them; none if there is no such
/// arc. The lines stay on their own lines; only the joints move along them.
pub(super) fn snapped(segments: &[Segment]) -> Option<Vec<Segment>> {
    let mut made = segments.to_vec();
    let mut changed = false;
    for index in 0..made.len() {
        let before = index.checked_sub(1).and_then(|before| made.get(before));
        let neighbours = (before.copied(), made.get(index + 1).copied());
        let Some(Segment::Arc(arc)) = made.get(index).copied() else {
            continue;
        };
        let arriving = line(neighbours.0).filter(|line| {
            let leaves = number::turn(line.direction(), arc.direction_at(0.0));
            leaves.abs() < NEARLY
        });
        let leaving = line(neighbours.1).filter(|line| {
            let leaves = number::turn(arc.direction_at(1.0), line.direction());
            leaves.abs() < NEARLY
        });
        match (arriving, leaving) {
            (Some(arriving), Some(leaving)) => {
                let Some((touching, first, last)) = between(&arriving, &arc, &leaving) else {
                    continue;
                };
                made[index - 1] = Segment::line(arriving.start, first);
                made[index] = Segment::Arc(touching);
                made[index + 1] = Segment::line(last, leaving.end);
                changed = true;
            }
            // an arc beside another keeps the joint with it as it is
            (Some(arriving), None) if neighbours.1.is_none() => {
                if let Some(arc) = from(arc.start(), arriving.direction(), arc.end()) {
                    made[index] = Segment::Arc(arc);
                    changed = true;
                }
            }
            (None, Some(leaving)) if neighbours.0.is_none() => {
                if let Some(arc) = from(arc.end(), -leaving.direction(), arc.start()) {
                    made[index] = Segment::Arc(arc.reversed());
                    changed = true;
                }
            }
            _ => {}
        }
    }
    changed.then_some(made)
}

fn line(segment: Option<Segment>) -> Option<Line> {
    match segment {
        Some(Segment::Line(line)) => Some(line),
        _ => None,
    }
}

/// The arc that touches both lines, with its joints as near to those of the arc as they will go along them.
fn between(arriving: &Line, arc: &Arc, leaving: &Line) -> Option<(Arc, Point, Point)> {
    let (u, v) = (arriving.direction(), leaving.direction());
    let side = arc.sweep().signum();
    let mut turn = number::turn(u, v);
    // the same way round as the arc, and about as far
    turn += number::FULL_TURN * ((arc.sweep() - turn) / number::FULL_TURN).round();
    let (joint, other) = (arc.start(), arc.end());
    let normal = number::left_normal(u) * side;
    let across = u.cross(v);
    let (first, last, radius) = if across.abs() < tolerance::SAME_WALL {
        // there and back along parallel lines: half their distance
        let radius = (leaving.start - arriving.start).dot(normal) / 2.0;
        let middle = joint.midpoint(other);
        let first = arriving.start + u * (middle - arriving.start).dot(u);
        (first, first + normal * (2.0 * radius), radius)
    } else {
        let corner = arriving.start + u * ((leaving.start - arriving.start).cross(v) / across);
        let away = f64::midpoint((corner - joint).dot(u), (other - corner).dot(v));
        let radius = away / number::tan(turn.abs() / 2.0);
        (corner - u * away, corner + v * away, radius)
    };
    let long_enough =
        |from: Point, to: Point, way: Vec2| (to - from).dot(way) > tolerance::SHORTEST_SEGMENT;
    let fits = radius > tolerance::SHORTEST_SEGMENT
        && long_enough(arriving.start, first, u)
        && long_enough(last, leaving.end, v);
    if !fits {
        return None;
    }
    let centre = first + normal * radius;
    let start = number::direction(first - centre);
    let touching = Arc::from_angles(centre, radius, start, turn).with_ends(first, last);
    Some((touching, first, last))
}

/// The arc from a point in a direction to another point.
fn from(start: Point, direction: Vec2, end: Point) -> Option<Arc> {
    let chord = end - start;
    let lean = number::turn(direction, chord);
    let length = number::length(chord);
    if lean.abs() < tolerance::SAME_WALL || length < tolerance::SHORTEST_SEGMENT {
        return None;
    }
    let radius = length / (2.0 * number::sin(lean.abs()));
    let centre = start + number::left_normal(direction) * (radius * lean.signum());
    let angle = number::direction(start - centre);
    Some(Arc::from_angles(centre, radius, angle, 2.0 * lean).with_ends(start, end))
}
