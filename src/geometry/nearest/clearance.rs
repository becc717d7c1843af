//! Distances between outlines.

use super::segments;
use super::segments::Nearest;
use crate::geometry::Contour;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::bounds_tree::SegmentTree;
use crate::geometry::number;
use crate::geometry::validate::Place;
use crate::geometry::validate::region_contains;

/// The nearest points of two outlines, and the pieces they stand on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Clearance {
    /// The points and their distance.
    pub nearest: Nearest,
    /// Number of the piece of the first outline.
    pub first_piece: usize,
    /// Number of the piece of the second outline.
    pub second_piece: usize,
}

/// The least distance between the edges of two contours, 0 where they cross. One that lies inside the
/// other still has its distance from the other's edge.
///
/// # Accuracy
/// As [`between`](super::between).
pub fn between_contours(first: &Contour, second: &Contour) -> Clearance {
    // the tree over the longer one, a walk along the shorter
    if first.pieces().len() > second.pieces().len() {
        let clearance = between_contours(second, first);
        return Clearance {
            nearest: clearance.nearest.exchanged(),
            first_piece: clearance.second_piece,
            second_piece: clearance.first_piece,
        };
    }
    let tree = SegmentTree::new(second.segments());
    walk(first.segments(), &tree)
}

/// The point of the contour's edge that is nearest to a point, and its piece.
pub fn to_contour(from: Point, contour: &Contour) -> Clearance {
    let start = contour.pieces()[0].segment.start();
    let mut best = Clearance {
        nearest: Nearest::of(from, start),
        first_piece: 0,
        second_piece: 0,
    };
    for (second_piece, segment) in contour.segments().enumerate() {
        let nearest = Nearest::of(from, segment.nearest_point(from));
        if nearest.distance < best.nearest.distance {
            best = Clearance {
                nearest,
                first_piece: 0,
                second_piece,
            };
        }
    }
    best
}

/// The least distance between the material of two regions: 0 where they share material, else between
/// their edges. A region inside a hole of the other keeps its distance from the hole's edge.
///
/// # Accuracy
/// As [`between`](super::between).
pub fn between_regions(first: &Region, second: &Region) -> Nearest {
    let tree = SegmentTree::new(second.contours().flat_map(Contour::segments));
    let edges = walk(first.contours().flat_map(Contour::segments), &tree).nearest;
    if edges.distance == 0.0 {
        return edges;
    }
    // edges apart: one point of each outer contour tells whether one lies in the other
    let corners = [(first, second), (second, first)].map(|(inner, outer)| {
        let corner = inner.outer().pieces()[0].segment.start();
        (region_contains(outer, corner) == Place::Inside).then_some(corner)
    });
    match corners {
        [Some(at), _] | [None, Some(at)] => Nearest::meeting(at),
        [None, None] => edges,
    }
}

/// The least distance from a row of segments to those of a tree.
pub(super) fn walk<'a>(
    segments: impl IntoIterator<Item = &'a Segment>,
    tree: &SegmentTree<'_>,
) -> Clearance {
    let nowhere = Nearest {
        distance: f64::INFINITY,
        on_first: Point::ORIGIN,
        on_second: Point::ORIGIN,
    };
    let mut best = Clearance {
        nearest: nowhere,
        first_piece: 0,
        second_piece: 0,
    };
    for (first_piece, segment) in segments.into_iter().enumerate() {
        let bounds = segment.bounds();
        let middle = bounds.center();
        // no point of the segment is farther from the middle of its bounds than this
        let reach = number::length(bounds.size().to_vec2()) / 2.0;
        for (second_piece, distance) in tree.by_distance(middle) {
            if distance - reach > best.nearest.distance {
                break;
            }
            let Some(other) = tree.segment(second_piece) else {
                continue;
            };
            let nearest = segments::between(segment, other);
            if nearest.distance < best.nearest.distance {
                best = Clearance {
                    nearest,
                    first_piece,
                    second_piece,
                };
            }
        }
    }
    best
}

/// The least distance from a row of segments to those of a tree, if it is below a limit; the time grows with
/// what lies that near only.
pub(crate) fn walk_below<'a>(
    segments: impl IntoIterator<Item = &'a Segment>,
    tree: &SegmentTree<'_>,
    limit: f64,
) -> Option<Nearest> {
    let mut best: Option<Nearest> = None;
    for segment in segments {
        let reach = best.map_or(limit, |best| best.distance);
        for other in tree.near(segment.bounds(), reach) {
            let Some(other) = tree.segment(other) else {
                continue;
            };
            let nearest = segments::between(segment, other);
            if nearest.distance < best.map_or(limit, |best| best.distance) {
                best = Some(nearest);
            }
        }
    }
    best
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::SourceId;

    fn circle(x: f64, radius: f64) -> Contour {
        Contour::circle(Point::new(x, 0.0), radius, SourceId::UNTRACED).expect("a circle")
    }

    #[test]
    fn contours_and_their_pieces() {
        let corners = [(0.0, -30.0), (40.0, -30.0), (40.0, 30.0), (0.0, 30.0)].map(Point::from);
        let plate = Contour::polygon(&corners).expect("closed");
        for (hole, expected, piece) in [
            (circle(15.0, 5.0), 10.0, 3),
            (circle(30.0, 5.0), 5.0, 1),
            (circle(100.0, 20.0), 40.0, 1),
            (circle(0.0, 20.0), 0.0, 3),
        ] {
            let clearance = between_contours(&hole, &plate);
            assert_eq!(clearance.nearest.distance, expected, "{clearance:?}");
            assert_eq!(clearance.second_piece, piece, "{clearance:?}");
            let back = between_contours(&plate, &hole);
            assert_eq!(back.nearest.distance, expected, "the other way: {back:?}");
            assert_eq!(back.first_piece, piece, "the other way: {back:?}");
        }
    }

    #[test]
    fn regions_in_holes_beside_and_within_each_other() {
        let ring = Region::new(circle(0.0, 50.0), vec![circle(0.0, 30.0)]);
        let disc = |x, radius| Region::new(circle(x, radius), Vec::new());
        for (other, expected) in [
            (disc(0.0, 10.0), 20.0),
            (disc(0.0, 100.0), 0.0),
            (disc(40.0, 2.0), 0.0),
            (disc(70.0, 5.0), 15.0),
            (disc(50.0, 5.0), 0.0),
        ] {
            let nearest = between_regions(&ring, &other);
            assert_eq!(nearest.distance, expected, "{nearest:?}");
            let back = between_regions(&other, &ring);
            assert_eq!(back.distance, expected, "the other way: {back:?}");
        }
    }
}
