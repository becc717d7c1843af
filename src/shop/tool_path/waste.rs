//! Whether a lead stays in the waste, by exact distances.

use super::setting::Setting;
use super::wanted::Wanted;
use crate::geometry::Contour;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::bounds_tree::SegmentTree;
use crate::geometry::nearest;
use crate::geometry::number;
use crate::geometry::tolerance;

/// The edges that a lead must keep clear of.
#[derive(Debug)]
pub(super) struct Waste<'a> {
    part: SegmentTree<'a>,
    neighbours: SegmentTree<'a>,
    /// Least distance of the middle of a cut from the part, and from a neighbour, on which as much is left.
    reach: f64,
    /// Least distance of the middle of a pierce from them.
    pierce: f64,
}

impl<'a> Waste<'a> {
    pub(super) fn new(wanted: &'a Wanted, setting: &'a Setting) -> Self {
        let neighbours = setting.neighbours.iter().flat_map(Region::contours);
        let half_pierce = setting.kerf.max(setting.pierce) / 2.0;
        Self {
            part: SegmentTree::new(wanted.region.contours().flat_map(Contour::segments)),
            neighbours: SegmentTree::new(neighbours.flat_map(Contour::segments)),
            reach: setting.reach(),
            pierce: half_pierce + setting.allowance,
        }
    }

    /// Whether a cut along the segments leaves the part and its neighbours whole. One that starts or ends
    /// beside the part's edge cannot have crossed it, so the distances alone prove it.
    pub(super) fn is_clear(&self, segments: &[Segment]) -> bool {
        segments.iter().all(|segment| {
            keeps_off(&self.part, segment, self.reach)
                && keeps_off(&self.neighbours, segment, self.reach)
        })
    }

    /// Whether the material may be pierced here.
    pub(super) fn may_pierce(&self, at: Point) -> bool {
        let slack = tolerance::LEAD_CLEARANCE;
        distance(&self.part, at) >= self.pierce - slack
            && distance(&self.neighbours, at) >= self.pierce - slack
    }

    /// The nearest a cut along the segment comes to a neighbour, where it is too near.
    pub(super) fn too_near_neighbour(&self, segment: &Segment) -> Option<(f64, Point)> {
        near(&self.neighbours, segment, self.reach)
            .map(|nearest| (nearest.distance, nearest.on_first))
            .find(|(distance, _)| *distance < self.reach - tolerance::LEAD_CLEARANCE)
    }
}

fn near<'t>(
    tree: &'t SegmentTree<'_>,
    segment: &'t Segment,
    reach: f64,
) -> impl Iterator<Item = nearest::Nearest> + use<'t> {
    tree.near(segment.bounds(), reach)
        .into_iter()
        .filter_map(|index| tree.segment(index))
        .map(|other| nearest::between(segment, other))
}

fn keeps_off(tree: &SegmentTree<'_>, segment: &Segment, reach: f64) -> bool {
    near(tree, segment, reach).all(|nearest| nearest.distance >= reach - tolerance::LEAD_CLEARANCE)
}

/// Distance of a point from the nearest of the segments; infinite if there are none.
pub(super) fn distance(tree: &SegmentTree<'_>, from: Point) -> f64 {
    let mut best = f64::INFINITY;
    for (index, at_least) in tree.by_distance(from) {
        if at_least > best {
            break;
        }
        if let Some(segment) = tree.segment(index) {
            best = best.min(number::length(segment.nearest_point(from) - from));
        }
    }
    best
}

/// The rectangle of one point.
pub(super) fn point_bounds(at: Point) -> Rect {
    Rect::from_points(at, at)
}
