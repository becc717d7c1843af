//! Shapes found by place: a tree of their bounding rectangles.

use rstar::AABB;
use rstar::PointDistance;
use rstar::RTree;
use rstar::RTreeObject;

use super::Point;
use super::Rect;
use super::Segment;
use super::tolerance;

/// A bounding rectangle and the number of the shape it bounds.
#[derive(Clone, Copy, Debug)]
struct Entry {
    bounds: Rect,
    index: usize,
}

impl RTreeObject for Entry {
    type Envelope = AABB<[f64; 2]>;

    fn envelope(&self) -> Self::Envelope {
        envelope(self.bounds)
    }
}

impl PointDistance for Entry {
    fn distance_2(&self, point: &[f64; 2]) -> f64 {
        let [x, y] = *point;
        let beyond = |low: f64, value: f64, high: f64| (low - value).max(value - high).max(0.0);
        let dx = beyond(self.bounds.x0, x, self.bounds.x1);
        let dy = beyond(self.bounds.y0, y, self.bounds.y1);
        dx * dx + dy * dy
    }
}

fn envelope(bounds: Rect) -> AABB<[f64; 2]> {
    AABB::from_corners([bounds.x0, bounds.y0], [bounds.x1, bounds.y1])
}

/// Numbered shapes (0, 1, … in the order given), found by their bounding rectangles.
#[derive(Debug)]
pub(crate) struct BoundsTree {
    tree: RTree<Entry>,
}

impl BoundsTree {
    pub(crate) fn new(bounds: impl IntoIterator<Item = Rect>) -> Self {
        let entries = bounds
            .into_iter()
            .enumerate()
            .map(|(index, bounds)| Entry { bounds, index })
            .collect();
        Self {
            tree: RTree::bulk_load(entries),
        }
    }

    /// Numbers of the shapes whose bounds come within `margin` of the rectangle, rising.
    pub(crate) fn near(&self, bounds: Rect, margin: f64) -> Vec<usize> {
        let grown = bounds.inflate(margin, margin);
        let mut found: Vec<usize> = self
            .tree
            .locate_in_envelope_intersecting(envelope(grown))
            .map(|entry| entry.index)
            .collect();
        found.sort_unstable();
        found
    }

    /// The shapes by rising distance of their bounds from the point: number and distance.
    pub(crate) fn by_distance(&self, from: Point) -> impl Iterator<Item = (usize, f64)> {
        self.tree
            .nearest_neighbor_iter_with_distance_2([from.x, from.y])
            .map(|(entry, square)| (entry.index, square.sqrt()))
    }
}

/// Segments by number, found by place.
#[derive(Debug)]
pub(crate) struct SegmentTree<'a> {
    segments: Vec<&'a Segment>,
    tree: BoundsTree,
}

impl<'a> SegmentTree<'a> {
    pub(crate) fn new(segments: impl IntoIterator<Item = &'a Segment>) -> Self {
        let segments: Vec<&Segment> = segments.into_iter().collect();
        let tree = BoundsTree::new(segments.iter().map(|segment| segment.bounds()));
        Self { segments, tree }
    }

    /// The segment with this number.
    pub(crate) fn segment(&self, index: usize) -> Option<&'a Segment> {
        self.segments.get(index).copied()
    }

    /// The segments by rising distance of their bounds from the point: number and distance.
    pub(crate) fn by_distance(&self, from: Point) -> impl Iterator<Item = (usize, f64)> {
        self.tree.by_distance(from)
    }

    /// Numbers of the segments whose bounds come within `margin` of the rectangle, rising.
    pub(crate) fn near(&self, bounds: Rect, margin: f64) -> Vec<usize> {
        self.tree.near(bounds, margin)
    }

    /// Every pair of different segments whose bounds meet, each once, in rising order.
    pub(crate) fn pairs(&self) -> impl Iterator<Item = (usize, &'a Segment, usize, &'a Segment)> {
        let every = self.segments.iter().copied().enumerate();
        every.flat_map(move |(index, segment)| {
            self.tree
                .near(segment.bounds(), 2.0 * tolerance::SAME_POINT)
                .into_iter()
                .filter(move |&other| other > index)
                .filter_map(move |other| Some((index, segment, other, self.segment(other)?)))
        })
    }
}
