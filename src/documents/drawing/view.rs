//! How the part lies on the paper: turned by less than half a quarter turn, so that its datum edge
//! stands upright or lies level, and drawn to scale.

use crate::design::part::Edge;
use crate::design::part::EdgeState;
use crate::design::part::Part;
use crate::documents::features;
use crate::geometry::Arc;
use crate::geometry::Motion;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;

/// Distance of the lines beside edges of special state from their edges, in millimetres of paper.
const BESIDE: f64 = 1.5;

/// The part on paper.
#[derive(Clone, Debug)]
pub(crate) struct View<'a> {
    /// The part.
    pub(crate) part: &'a Part,
    /// From the part to the paper.
    pub(crate) motion: Motion,
    /// Millimetres of paper for one of the part.
    pub(crate) scale: f64,
    /// Bounds of the outline on paper.
    pub(crate) bounds: Rect,
    /// Bounds of the outline with the strips and lines beside its edges.
    pub(crate) envelope: Rect,
}

impl<'a> View<'a> {
    /// The part to scale, somewhere on the paper.
    pub(crate) fn new(part: &'a Part, scale: f64) -> Self {
        let turn = Motion::turn(levelling(part.datum.along));
        let motion = turn.then(&Motion::scale(scale));
        let bounds = motion.contour(part.region.outer()).bounds();
        let view = Self {
            part,
            motion,
            scale,
            bounds,
            envelope: bounds,
        };
        let beside = part.edges.iter().flat_map(|edge| view.beside(edge));
        let envelope = beside.fold(bounds, |sum, one| sum.union(one.bounds()));
        Self { envelope, ..view }
    }

    /// Bounds on paper of the outline with the strips that are left on: the plate that the part takes.
    pub(crate) fn with_strips(&self) -> Rect {
        let is_strip = |edge: &&Edge| matches!(edge.state, EdgeState::LeaveOn(_));
        let strips = self.part.edges.iter().filter(is_strip);
        strips
            .flat_map(|edge| self.beside(edge))
            .fold(self.bounds, |sum, one| sum.union(one.bounds()))
    }

    /// The same view shifted on the paper.
    pub(crate) fn shifted(&self, by: Vec2) -> Self {
        Self {
            motion: self.motion.then(&Motion::shift(by)),
            bounds: self.bounds + by,
            envelope: self.envelope + by,
            ..self.clone()
        }
    }

    /// A point on paper.
    pub(crate) fn point(&self, point: Point) -> Point {
        self.motion.point(point)
    }

    /// A segment on paper.
    pub(crate) fn segment(&self, segment: &Segment) -> Segment {
        self.motion.segment(segment)
    }

    /// Direction of the datum edge on paper.
    pub(crate) fn along(&self) -> Vec2 {
        self.motion.vector(self.part.datum.along) / self.scale
    }

    /// Direction on paper from the datum edge into the part.
    pub(crate) fn across(&self) -> Vec2 {
        self.motion.vector(self.part.datum.across) / self.scale
    }

    /// Whether the datum edge stands upright on the paper.
    pub(crate) fn is_upright(&self) -> bool {
        self.along().y.abs() > self.along().x.abs()
    }

    /// Running dimensions of a point of the part as they lie on paper: level, then upright.
    pub(crate) fn running(&self, point: Point) -> Vec2 {
        let running = self.part.datum.running(point);
        if self.is_upright() {
            Vec2::new(running.y, running.x)
        } else {
            running
        }
    }

    /// The line beside an edge that is not simply cut, on paper: the far side of a strip that is left
    /// on, or a line to mark the plate's own edge or an edge to trim.
    pub(super) fn beside(&self, edge: &Edge) -> Vec<Segment> {
        let (distance, list) = match edge.state {
            EdgeState::Cut => return Vec::new(),
            EdgeState::PlateEdge | EdgeState::TrimAtFitting => (BESIDE, &edge.finished),
            // a strip ends square at the ends of the edge before its corners are rounded
            EdgeState::LeaveOn(width) => (width * self.scale, &edge.sharp),
        };
        let outward = if features::runs_with_outline(self.part, edge) {
            distance
        } else {
            -distance
        };
        let moved = list
            .iter()
            .map(|one| moved_right(&self.segment(one), outward));
        moved.flatten().collect()
    }
}

/// The segment moved square to itself, to the right of its direction; `None` where an arc has no
/// room for it.
fn moved_right(segment: &Segment, distance: f64) -> Option<Segment> {
    let moved = |fraction: f64| {
        let normal = number::left_normal(segment.direction_at(fraction));
        segment.point_at(fraction) - normal * distance
    };
    match segment {
        Segment::Line(_) => Some(Segment::line(moved(0.0), moved(1.0))),
        Segment::Arc(arc) => {
            let radius = arc.radius() + distance * arc.turn().sign();
            let grown = Arc::from_angles(arc.centre(), radius, arc.start_angle(), arc.sweep());
            (radius > 0.0).then(|| Segment::Arc(grown.with_ends(moved(0.0), moved(1.0))))
        }
    }
}

/// The smallest turn that brings a direction upright or level.
fn levelling(along: Vec2) -> f64 {
    let angle = number::direction(along);
    let off = angle - (angle / number::QUARTER_TURN).round() * number::QUARTER_TURN;
    if off.abs() < tolerance::SAME_DIRECTION {
        0.0
    } else {
        -off
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::documents::samples;

    #[test]
    fn the_datum_edge_is_upright_or_level() {
        for angle in [0.0, 0.2, 0.79, -0.3, 1.5, 3.0, -2.2] {
            let part = samples::turned(&samples::leeboard(), angle);
            let view = View::new(&part, 0.2);
            let along = view.along();
            let level = along.x.abs().min(along.y.abs());
            assert!(level < 1e-12, "turned by {angle}: along {along:?}");
            let (a, b) = (view.bounds.width(), view.bounds.height());
            assert!(
                (a.max(b) - 974.0 * 0.2).abs() < 1e-9,
                "turned by {angle}: {a} by {b}"
            );
        }
    }

    #[test]
    fn a_part_that_stands_straight_is_not_turned_at_all() {
        let part = samples::leeboard();
        let view = View::new(&part, 1.0);
        assert_eq!(
            view.motion.contour(part.region.outer()),
            *part.region.outer(),
            "the same numbers"
        );
    }
}
