//! The raw curve: every piece of the boundary moved to its right, and arcs or tips round the outside
//! corners.
//!
//! At an inside corner the fronts are trimmed to their crossing, if that is plain (`trim`). Elsewhere,
//! and where an arc is too small to be moved, they simply end: what would close the curve there lies
//! within the grown region (it is swept by the two pieces themselves) and never shows.

use crate::geometry::Point;
use crate::geometry::SourceId;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;

use super::curve::Circle;
use super::curve::Curve;
use super::curve::Extent;
use super::curve::Shape;
use super::join::Join;
use super::join::Kite;
use super::source::CornerKind;
use super::source::Source;
use super::trim;

/// One piece of the raw curve.
#[derive(Clone, Copy, Debug)]
pub(super) struct Front {
    pub(super) curve: Curve,
    /// The piece of the boundary it belongs to.
    piece: u32,
    way: Way,
    /// Nodes at start and end.
    pub(super) nodes: [u32; 2],
}

/// How a front belongs to its piece of the boundary.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Way {
    Parallel,
    /// It goes round the corner at the end of the piece.
    Round,
}

impl Front {
    /// The piece of the boundary it is parallel to.
    pub(super) fn own(&self) -> Option<usize> {
        (self.way == Way::Parallel).then_some(self.piece as usize)
    }

    /// The piece of the source that it is said to come from.
    pub(super) fn id(&self, source: &Source) -> SourceId {
        let link = &source.links[self.piece as usize];
        match self.way {
            Way::Parallel => link.id,
            Way::Round => link.corner,
        }
    }

    /// The pieces that it must come as near to as the distance: its own and those it meets there.
    pub(super) fn kin(&self, source: &Source) -> [u32; 3] {
        let link = &source.links[self.piece as usize];
        match self.way {
            Way::Parallel => [link.previous, self.piece, link.next],
            Way::Round => [self.piece, self.piece, link.next],
        }
    }

    /// The only pieces near it, if it is known that there are no others: its own and those next to that.
    pub(super) fn only_near(&self, source: &Source) -> Option<[u32; 3]> {
        let link = &source.links[self.piece as usize];
        let only = [link.previous, self.piece, link.next];
        source.is_lonely(self.piece).then_some(only)
    }
}

/// The raw curve.
#[derive(Debug)]
pub(super) struct Fronts {
    pub(super) all: Vec<Front>,
    /// Places of the nodes made so far.
    pub(super) nodes: Vec<Point>,
    /// Nodes that a front too short to count connects.
    pub(super) shrunk: Vec<[u32; 2]>,
    pub(super) kites: Vec<Kite>,
    /// Nodes at the tips of kites.
    pub(super) tips: Vec<u32>,
}

/// Where the front of one piece ends and that of the next begins.
#[derive(Clone, Copy, Debug)]
struct Joint {
    before: (Point, u32),
    after: (Point, u32),
    /// A front between the two.
    between: Between,
}

#[derive(Clone, Copy, Debug)]
enum Between {
    Nothing,
    Arc,
    /// Tip of a kite, its node, and whether the edges before and after are lines that run on to it.
    Tip(Point, u32),
}

/// Radius of the front of a curve.
fn moved_radius(curve: &Curve, reach: f64) -> f64 {
    match curve.shape() {
        Shape::Line { .. } => f64::INFINITY,
        Shape::Arc(round) => (round.radius + round.sign * reach).abs(),
    }
}

impl Fronts {
    pub(super) fn new(source: &Source, reach: f64, join: Join) -> Self {
        let mut raw = Self {
            all: Vec::with_capacity(2 * source.curves.len()),
            nodes: Vec::with_capacity(2 * source.curves.len()),
            shrunk: Vec::new(),
            kites: Vec::new(),
            tips: Vec::new(),
        };
        let mut trims = Vec::new();
        for contour in &source.contours {
            if contour.len() == 1 {
                raw.add_circle(source, contour.start, reach);
                continue;
            }
            trim::trims(source, contour.clone(), reach, &mut trims);
            let trim_of = |index: usize| trims[index - contour.start];
            let last = contour.end - 1;
            let first = raw.joint(source, last, trim_of(last), (reach, join));
            let mut before = first;
            for index in contour.clone() {
                let after = if index == last {
                    first
                } else {
                    raw.joint(source, index, trim_of(index), (reach, join))
                };
                raw.add_parallel(source, index, reach, (before.after, after.before));
                raw.add_between(source, index, reach, &after);
                before = after;
            }
        }
        raw
    }

    fn node(&mut self, at: Point) -> u32 {
        self.nodes.push(at);
        to_number(self.nodes.len() - 1)
    }

    fn add_circle(&mut self, source: &Source, index: usize, reach: f64) {
        let Shape::Arc(round) = source.curves[index].shape() else {
            return;
        };
        let radius = round.radius + round.sign * reach;
        if radius <= 0.0 {
            return;
        }
        let start = round.centre + round.from() * radius;
        let circle = Circle {
            radius,
            ..round.circle()
        };
        let node = self.node(start);
        self.add(
            Curve::arc(start, start, circle, Extent::Whole),
            (index, Way::Parallel),
            [node, node],
        );
    }

    /// A joint at one point.
    fn shared(&mut self, at: Point) -> Joint {
        let node = self.node(at);
        Joint {
            before: (at, node),
            after: (at, node),
            between: Between::Nothing,
        }
    }

    /// The joint at the end of the piece `index`.
    fn joint(
        &mut self,
        source: &Source,
        index: usize,
        trim: f64,
        (reach, join): (f64, Join),
    ) -> Joint {
        if trim > 0.0
            && let Some(at) = trim::crossing(source, index, reach)
        {
            return self.shared(at);
        }
        let next = source.links[index].next as usize;
        let (one, two) = (&source.curves[index], &source.curves[next]);
        let corner = one.end;
        let (t1, t2) = (one.end_direction(), two.start_direction());
        let normals = [t1, t2].map(|t| Vec2::new(t.y, -t.x));
        let ends = normals.map(|normal| corner + normal * reach);
        let (sine, cosine) = (t1.cross(t2), t1.dot(t2));
        let gap = number::length(normals[1] - normals[0]) * reach;
        // moved sideways by half the gap, a point of an arc of that radius leaves it by less than shows
        let bend = reach
            .min(moved_radius(one, reach))
            .min(moved_radius(two, reach));
        if cosine > 0.0 && gap <= tolerance::OFFSET_SHORTEST.min(1e-3 * bend) {
            // tangent, as far as the result can show: both run to the point between
            let sum = normals[0] + normals[1];
            let middle = if gap == 0.0 {
                ends[0]
            } else {
                corner + number::normalized(sum).unwrap_or(normals[0]) * reach
            };
            return self.shared(middle);
        }
        // a cusp turns by half a turn either way: curvature tells which side the material is
        let outside = if cosine < 0.0 && sine.abs() <= tolerance::SAME_DIRECTION {
            -two.curvature() > one.curvature()
        } else {
            sine > 0.0
        };
        let outside = outside || source.links[index].corner_kind == CornerKind::Tip;
        let (before, after) = ((ends[0], self.node(ends[0])), (ends[1], self.node(ends[1])));
        let mut joint = Joint {
            before,
            after,
            between: Between::Nothing,
        };
        if !outside {
            return joint;
        }
        joint.between = Between::Arc;
        if let Join::Mitre { limit } = join
            && let Some(kite) = Kite::new(corner, normals, reach, limit)
        {
            let tip = (kite.tip, self.node(kite.tip));
            joint.between = Between::Tip(tip.0, tip.1);
            if one.is_line() {
                joint.before = tip;
            }
            if two.is_line() {
                joint.after = tip;
            }
            self.kites.push(kite);
            self.tips.push(tip.1);
        }
        joint
    }

    fn add_parallel(
        &mut self,
        source: &Source,
        index: usize,
        reach: f64,
        ends: ((Point, u32), (Point, u32)),
    ) {
        let ((start, from), (end, to)) = ends;
        let curve = match source.curves[index].shape() {
            Shape::Line { direction, .. } => Curve::line(start, end, direction),
            Shape::Arc(round) => {
                let radius = round.radius + round.sign * reach;
                if radius <= 0.0 {
                    return;
                }
                let circle = Circle {
                    radius,
                    ..round.circle()
                };
                Curve::arc(start, end, circle, round.extent)
            }
        };
        self.add(curve, (index, Way::Parallel), [from, to]);
    }

    fn add_between(&mut self, source: &Source, index: usize, reach: f64, joint: &Joint) {
        match joint.between {
            Between::Nothing => {}
            Between::Arc => {
                let circle = Circle {
                    centre: source.curves[index].end,
                    radius: reach,
                    sign: 1.0,
                };
                let curve = Curve::arc(joint.before.0, joint.after.0, circle, Extent::Minor);
                let nodes = [joint.before.1, joint.after.1];
                self.add(curve, (index, Way::Round), nodes);
            }
            Between::Tip(tip, node) => {
                let ends = [(joint.before, (tip, node)), ((tip, node), joint.after)];
                for ((start, from), (end, to)) in ends {
                    if from != to {
                        let along = source.curves[index].end_direction();
                        let side = Curve::line(start, end, along);
                        self.add(side, (index, Way::Round), [from, to]);
                    }
                }
            }
        }
    }

    fn add(&mut self, curve: Curve, (piece, way): (usize, Way), nodes: [u32; 2]) {
        if curve.is_shorter_than(tolerance::OFFSET_SHORTEST) {
            self.shrunk.push(nodes);
            return;
        }
        self.all.push(Front {
            curve,
            piece: to_number(piece),
            way,
            nodes,
        });
    }
}

/// The number of a node, front or edge as it is kept: half the room.
#[expect(
    clippy::cast_possible_truncation,
    reason = "more than 4e9 of them do not fit in memory"
)]
pub(super) const fn to_number(index: usize) -> u32 {
    index as u32
}
