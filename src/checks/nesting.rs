//! Outlines within outlines: what is material, and what is an opening.

use super::Outline;
use crate::geometry::Contour;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Region;
use crate::geometry::bounds_tree::BoundsTree;
use crate::geometry::validate::Place;
use crate::geometry::validate::contour_contains;

/// Pieces of material, and the outlines they are made of.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Nested {
    /// The pieces of material, in the order of their outer outlines.
    pub regions: Vec<Region>,
    /// For each outline given, how many others it lies in.
    pub depth: Vec<usize>,
    /// Whether so many lie within each other that not all were looked at; those count as lying in none.
    pub unfinished: bool,
}

/// Edges that are looked at in all, at most.
const MOST_LOOKED: usize = 100_000_000;

/// Outlines that lie in no other, or in an even number of others, bound material; those next inside are its
/// openings.
pub fn nest(outlines: &[Outline]) -> Nested {
    let contours: Vec<&Contour> = outlines.iter().map(|outline| &outline.contour).collect();
    let bounds: Vec<Rect> = contours.iter().map(|contour| contour.bounds()).collect();
    let tree = BoundsTree::new(bounds.iter().copied());
    let size = |index: usize| bounds.get(index).map_or(0.0, |b| b.width() * b.height());
    let mut depth = vec![0; contours.len()];
    let mut parent: Vec<Option<usize>> = vec![None; contours.len()];
    let mut looked: usize = 0;
    for (index, contour) in contours.iter().enumerate() {
        let Some(own) = bounds.get(index) else {
            continue;
        };
        if looked > MOST_LOOKED {
            break;
        }
        let probe = point_on(contour);
        let at = Rect::from_points(probe, probe);
        let near = tree.near(at, 0.0);
        let edges = |&other: &usize| contours.get(other).map_or(0, |c| c.pieces().len());
        looked += near.iter().map(edges).sum::<usize>();
        let mut holds: Vec<usize> = near
            .into_iter()
            .filter(|&other| {
                other != index
                    && bounds.get(other).is_some_and(|b| covers(b, own))
                    && contours
                        .get(other)
                        .is_some_and(|c| contour_contains(c, probe) == Place::Inside)
            })
            .collect();
        holds.sort_by(|&a, &b| size(a).total_cmp(&size(b)));
        if let (Some(depth), Some(slot)) = (depth.get_mut(index), parent.get_mut(index)) {
            *depth = holds.len();
            *slot = holds.first().copied();
        }
    }
    let mut holes_of: Vec<Vec<usize>> = vec![Vec::new(); contours.len()];
    for (hole, outer) in parent.iter().enumerate() {
        let odd = depth.get(hole).is_some_and(|depth| depth % 2 == 1);
        if let Some(list) = outer
            .filter(|_| odd)
            .and_then(|outer| holes_of.get_mut(outer))
        {
            list.push(hole);
        }
    }
    let mut regions = Vec::new();
    for (index, contour) in contours.iter().enumerate() {
        if depth.get(index).is_some_and(|depth| depth % 2 == 0) {
            let holes = holes_of
                .get(index)
                .into_iter()
                .flatten()
                .filter_map(|&hole| contours.get(hole).map(|&hole| hole.clone()))
                .collect();
            regions.push(Region::new((*contour).clone(), holes));
        }
    }
    Nested {
        regions,
        depth,
        unfinished: looked > MOST_LOOKED,
    }
}

fn covers(outer: &Rect, inner: &Rect) -> bool {
    outer.x0 <= inner.x0 && outer.y0 <= inner.y0 && outer.x1 >= inner.x1 && outer.y1 >= inner.y1
}

/// A point on the contour away from its corners, which other outlines are likely to touch.
fn point_on(contour: &Contour) -> Point {
    let mut longest: Option<(f64, Point)> = None;
    for segment in contour.segments() {
        let length = segment.length();
        if longest.is_none_or(|(known, _)| length > known) {
            longest = Some((length, segment.point_at(0.5)));
        }
    }
    longest.map_or(Point::ORIGIN, |(_, point)| point)
}
