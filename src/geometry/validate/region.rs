//! Whether the holes of a region lie where holes may lie.

use super::containment;
use super::simple;
use crate::geometry::Contour;
use crate::geometry::GeometryError;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::bounds_tree::BoundsTree;
use crate::geometry::bounds_tree::SegmentTree;
use crate::geometry::intersect;

/// What is wrong with a region. Holes are numbered from 0 in the order of [`Region::holes`].
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum RegionError {
    /// The outer contour crosses itself.
    #[error("the outer edge: {0}")]
    Outer(GeometryError),
    /// A hole crosses itself.
    #[error("opening {hole}: {error}")]
    Hole {
        /// Which hole.
        hole: usize,
        /// What is wrong with it.
        error: GeometryError,
    },
    /// A hole crosses or touches the outer contour.
    #[error(
        "opening {hole} cuts through the outer edge at ({:.4}, {:.4}) mm; \
         move it inwards or make it part of the outline", at.x, at.y
    )]
    HoleCrossesOuter {
        /// Which hole.
        hole: usize,
        /// Where.
        at: Point,
    },
    /// A hole lies outside the outer contour.
    #[error(
        "opening {hole} at ({:.4}, {:.4}) mm lies outside the part; move it inside", at.x, at.y
    )]
    HoleOutside {
        /// Which hole.
        hole: usize,
        /// A point of it.
        at: Point,
    },
    /// Two holes cross or touch.
    #[error(
        "openings {first} and {second} run into each other at ({:.4}, {:.4}) mm; \
         move them apart or draw them as one", at.x, at.y
    )]
    HolesCross {
        /// The one hole.
        first: usize,
        /// The other hole.
        second: usize,
        /// Where.
        at: Point,
    },
    /// One hole lies within another.
    #[error(
        "opening {inner} at ({:.4}, {:.4}) mm lies within opening {outer}; \
         leave it out, or make it a part of its own", at.x, at.y
    )]
    HolesNested {
        /// The hole inside.
        inner: usize,
        /// The hole round it.
        outer: usize,
        /// A point of the inner one.
        at: Point,
    },
}

/// Checks that every contour is simple, and that every hole lies inside the outer contour and outside
/// every other hole, without touching any.
///
/// # Accuracy
/// As [`check_simple`](super::check_simple) and [`contour_contains`](super::contour_contains). Of several faults
/// the first found is named, always the same one.
///
/// # Errors
/// [`RegionError`] with the place and the holes.
pub fn check_region(region: &Region) -> Result<(), RegionError> {
    check_crossings(region)?;
    check_places(region)
}

/// A piece's contour (0 the outer one, then the holes), its number there and how many that has.
struct Owner {
    contour: usize,
    piece: usize,
    count: usize,
}

fn check_crossings(region: &Region) -> Result<(), RegionError> {
    let mut owners = Vec::new();
    for (contour, outline) in region.contours().enumerate() {
        let count = outline.pieces().len();
        owners.extend((0..count).map(|piece| Owner {
            contour,
            piece,
            count,
        }));
    }
    let tree = SegmentTree::new(region.contours().flat_map(Contour::segments));
    for (first, one, second, other) in tree.pairs() {
        let (Some(a), Some(b)) = (owners.get(first), owners.get(second)) else {
            continue;
        };
        if a.contour == b.contour {
            if let Some(at) = simple::fault(a.count, (a.piece, one), (b.piece, other)) {
                return Err(crosses_itself(a, b, at));
            }
            continue;
        }
        let Some(node) = intersect::meet(one, other).nodes().next() else {
            continue;
        };
        let at = node.point;
        // numbers rise along the contours, so that `a` is the outer one if any is
        let second = b.contour - 1;
        return Err(match a.contour.checked_sub(1) {
            None => RegionError::HoleCrossesOuter { hole: second, at },
            Some(first) => RegionError::HolesCross { first, second, at },
        });
    }
    Ok(())
}

const fn crosses_itself(a: &Owner, b: &Owner, at: Point) -> RegionError {
    let error = GeometryError::CrossesItself {
        at,
        first: a.piece,
        second: b.piece,
    };
    match a.contour.checked_sub(1) {
        None => RegionError::Outer(error),
        Some(hole) => RegionError::Hole { hole, error },
    }
}

/// With no crossings left, one point of a hole tells where all of it lies.
fn check_places(region: &Region) -> Result<(), RegionError> {
    for (hole, contour) in region.holes().iter().enumerate() {
        let at = a_point_of(contour);
        if containment::winding(region.outer(), at) == 0 {
            return Err(RegionError::HoleOutside { hole, at });
        }
    }
    let tree = BoundsTree::new(region.holes().iter().map(Contour::bounds));
    for (inner, contour) in region.holes().iter().enumerate() {
        let at = a_point_of(contour);
        for outer in tree.near(Rect::from_points(at, at), 0.0) {
            let holds = region
                .holes()
                .get(outer)
                .is_some_and(|other| containment::winding(other, at) != 0);
            if outer != inner && holds {
                return Err(RegionError::HolesNested { inner, outer, at });
            }
        }
    }
    Ok(())
}

fn a_point_of(contour: &Contour) -> Point {
    contour
        .segments()
        .next()
        .map_or(Point::ORIGIN, Segment::start)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::SourceId;

    fn circle(x: f64, y: f64, radius: f64) -> Contour {
        Contour::circle(Point::new(x, y), radius, SourceId::UNTRACED).expect("a circle")
    }

    fn plate(holes: Vec<Contour>) -> Region {
        let corners = [(0.0, 0.0), (100.0, 0.0), (100.0, 50.0), (0.0, 50.0)].map(Point::from);
        Region::new(Contour::polygon(&corners).expect("a plate"), holes)
    }

    #[test]
    fn holes_apart_are_fine() {
        let region = plate(vec![circle(20.0, 25.0, 10.0), circle(60.0, 25.0, 10.0)]);
        assert_eq!(check_region(&region), Ok(()), "two holes");
    }

    #[test]
    fn every_fault_is_named_with_its_place() {
        let hole = 1;
        let good = circle(20.0, 25.0, 10.0);
        let with = |second| check_region(&plate(vec![good.clone(), second]));
        assert_eq!(
            with(circle(60.0, 10.0, 10.0)),
            Err(RegionError::HoleCrossesOuter {
                hole,
                at: Point::new(60.0, 0.0)
            }),
            "touches the lower edge"
        );
        assert!(
            matches!(
                with(circle(100.0, 25.0, 10.0)),
                Err(RegionError::HoleCrossesOuter { hole: 1, .. })
            ),
            "cuts the right edge"
        );
        assert_eq!(
            with(circle(200.0, 10.0, 10.0)),
            Err(RegionError::HoleOutside {
                hole,
                at: Point::new(210.0, 10.0)
            }),
            "beside the plate"
        );
        assert_eq!(
            with(circle(40.0, 25.0, 10.0)),
            Err(RegionError::HolesCross {
                first: 0,
                second: 1,
                at: Point::new(30.0, 25.0)
            }),
            "touching holes"
        );
        assert!(
            matches!(
                with(circle(22.0, 25.0, 3.0)),
                Err(RegionError::HolesNested {
                    inner: 1,
                    outer: 0,
                    ..
                })
            ),
            "a hole in a hole"
        );
        assert!(
            matches!(
                with(circle(20.0, 25.0, 10.0)),
                Err(RegionError::HolesCross { .. })
            ),
            "the same hole twice"
        );
        assert!(
            matches!(
                with(circle(50.0, 25.0, 400.0)),
                Err(RegionError::HoleOutside { .. } | RegionError::HolesNested { .. })
            ),
            "a hole round the plate"
        );
    }

    #[test]
    fn a_hole_that_crosses_itself_is_named() {
        let corners = [(5.0, 5.0), (9.0, 9.0), (9.0, 5.0), (5.0, 9.0)].map(Point::from);
        let bow_tie = Contour::polygon(&corners).expect("closed");
        let answer = check_region(&plate(vec![circle(60.0, 25.0, 4.0), bow_tie]));
        assert!(
            matches!(answer, Err(RegionError::Hole { hole: 1, .. })),
            "{answer:?}"
        );
    }
}
