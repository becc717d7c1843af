//! What the offset tests share: contours from rows of `x y bulge`, and sums over results.

use kerfwise::geometry::Arc;
use kerfwise::geometry::Contour;
use kerfwise::geometry::Point;
use kerfwise::geometry::Region;
use kerfwise::geometry::Segment;

/// A vertex and the bulge of the edge that leaves it.
pub(crate) type Vertex = (f64, f64, f64);

/// The closed contour through the vertices.
pub(crate) fn contour(vertices: &[Vertex]) -> Contour {
    Contour::from_segments(segments(vertices)).expect("a usable contour")
}

/// The closed chain of segments through the vertices.
pub(crate) fn segments(vertices: &[Vertex]) -> Vec<Segment> {
    let following = vertices.iter().cycle().skip(1);
    vertices
        .iter()
        .zip(following)
        .map(|(&(x, y, bulge), &(next_x, next_y, _))| {
            let (start, end) = (Point::new(x, y), Point::new(next_x, next_y));
            if bulge == 0.0 {
                Segment::line(start, end)
            } else {
                Segment::Arc(Arc::from_bulge(start, end, bulge).expect("a usable arc"))
            }
        })
        .collect()
}

/// The region inside the vertices.
pub(crate) fn region(vertices: &[Vertex]) -> Region {
    Region::new(contour(vertices), Vec::new())
}

/// Area of several regions together.
pub(crate) fn area(regions: &[Region]) -> f64 {
    regions.iter().map(Region::area).sum()
}

/// Length of all edges.
pub(crate) fn perimeter(regions: &[Region]) -> f64 {
    regions.iter().map(Region::perimeter).sum()
}

/// Number of contours.
pub(crate) fn loops(regions: &[Region]) -> usize {
    regions.iter().map(|region| 1 + region.holes().len()).sum()
}
