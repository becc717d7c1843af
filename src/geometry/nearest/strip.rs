//! Strips beside openings, and inside corners.

use super::clearance;
use super::segments::Nearest;
use crate::geometry::Contour;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::number;
use crate::geometry::tolerance;

/// What an opening stands next to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Neighbour {
    /// The outer edge.
    Outer,
    /// Another opening, by its number in [`Region::holes`].
    Opening(usize),
}

/// The strip of material beside an opening.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Strip {
    /// Its least width and where: the first point on the opening, the second on its neighbour.
    pub nearest: Nearest,
    /// What is on the other side of the strip.
    pub neighbour: Neighbour,
}

/// The narrowest strip beside the opening with this number: the least distance to the outer edge or
/// another opening. `None` when the region has no such opening.
///
/// # Accuracy
/// As [`between`](super::between).
pub fn beside_opening(region: &Region, opening: usize) -> Option<Strip> {
    let hole = region.holes().get(opening)?;
    let strip = |contour: &Contour, neighbour| Strip {
        nearest: clearance::between_contours(hole, contour).nearest,
        neighbour,
    };
    let mut best = strip(region.outer(), Neighbour::Outer);
    for (index, other) in region.holes().iter().enumerate() {
        if index == opening {
            continue;
        }
        let beside = strip(other, Neighbour::Opening(index));
        if beside.nearest.distance < best.nearest.distance {
            best = beside;
        }
    }
    Some(best)
}

/// The inside corner that asks for the smallest cutter.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum InsideCorner {
    /// There is none: every edge is straight or bulges outwards.
    None,
    /// A sharp inside corner, which no round cutter reaches.
    Sharp {
        /// The corner.
        at: Point,
    },
    /// A hollow arc: its radius in millimetres, and its middle.
    Round {
        /// The radius.
        radius: f64,
        /// The middle of the arc.
        at: Point,
    },
}

/// The tightest inside corner of the region: a sharp one if there is any, else the hollow arc of the
/// smallest radius. Round openings count as hollow arcs. Joints that turn by less than
/// [`tolerance::SMOOTH_JOINT`] are no corners.
pub fn tightest_inside_corner(region: &Region) -> InsideCorner {
    let mut tightest = InsideCorner::None;
    for contour in region.contours() {
        let after = contour.pieces().iter().cycle().skip(1);
        for (here, next) in contour.segments().zip(after) {
            // material on the left: what turns right is hollow
            let turn = number::turn(here.direction_at(1.0), next.segment.direction_at(0.0));
            if turn < -tolerance::SMOOTH_JOINT {
                return InsideCorner::Sharp { at: here.end() };
            }
            let Segment::Arc(arc) = here else {
                continue;
            };
            let tighter = match tightest {
                InsideCorner::Round { radius, .. } => arc.radius() < radius,
                _ => true,
            };
            if arc.sweep() < 0.0 && tighter {
                tightest = InsideCorner::Round {
                    radius: arc.radius(),
                    at: arc.point_at(0.5),
                };
            }
        }
    }
    tightest
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Arc;
    use crate::geometry::SourceId;
    use crate::geometry::Turn;

    fn circle(x: f64, y: f64, radius: f64) -> Contour {
        Contour::circle(Point::new(x, y), radius, SourceId::UNTRACED).expect("a circle")
    }

    fn polygon(points: &[(f64, f64)]) -> Contour {
        let points: Vec<Point> = points.iter().map(|&at| at.into()).collect();
        Contour::polygon(&points).expect("closed")
    }

    #[test]
    fn strips_to_the_edge_and_to_another_opening() {
        let plate = polygon(&[(0.0, 0.0), (100.0, 0.0), (100.0, 50.0), (0.0, 50.0)]);
        let holes = vec![
            circle(20.0, 14.0, 10.0),
            circle(43.0, 25.0, 10.0),
            circle(66.0, 25.0, 10.0),
        ];
        let region = Region::new(plate, holes);
        let strip = beside_opening(&region, 0).expect("an opening");
        assert_eq!(strip.neighbour, Neighbour::Outer, "{strip:?}");
        assert_eq!(strip.nearest.distance, 4.0, "{strip:?}");
        assert_eq!(strip.nearest.on_second, Point::new(20.0, 0.0), "{strip:?}");
        let strip = beside_opening(&region, 2).expect("an opening");
        assert_eq!(strip.neighbour, Neighbour::Opening(1), "{strip:?}");
        assert_eq!(strip.nearest.distance, 3.0, "{strip:?}");
        assert_eq!(beside_opening(&region, 3), None, "there are three");
    }

    #[test]
    fn inside_corners() {
        let region = |outer, holes| tightest_inside_corner(&Region::new(outer, holes));
        let square = || polygon(&[(0.0, 0.0), (50.0, 0.0), (50.0, 50.0), (0.0, 50.0)]);
        assert_eq!(region(square(), vec![]), InsideCorner::None, "a square");
        assert_eq!(
            region(circle(0.0, 0.0, 9.0), vec![]),
            InsideCorner::None,
            "a disc"
        );
        let two_holes = vec![circle(15.0, 15.0, 6.0), circle(35.0, 35.0, 4.0)];
        assert!(
            matches!(
                region(square(), two_holes),
                InsideCorner::Round { radius: 4.0, .. }
            ),
            "the smaller hole"
        );
        let window = polygon(&[(10.0, 10.0), (20.0, 10.0), (20.0, 20.0), (10.0, 20.0)]);
        assert!(
            matches!(region(square(), vec![window]), InsideCorner::Sharp { .. }),
            "a square window"
        );
        // an L with its inside corner rounded by 5
        let (a, b) = (Point::new(50.0, 10.0), Point::new(15.0, 10.0));
        let (c, d) = (Point::new(10.0, 15.0), Point::new(10.0, 50.0));
        let corner = Arc::from_centre(b, c, Point::new(15.0, 15.0), Turn::Clockwise);
        let bracket = Contour::from_segments([
            Segment::line(Point::ORIGIN, Point::new(50.0, 0.0)),
            Segment::line(Point::new(50.0, 0.0), a),
            Segment::line(a, b),
            corner.into(),
            Segment::line(c, d),
            Segment::line(d, Point::new(0.0, 50.0)),
            Segment::line(Point::new(0.0, 50.0), Point::ORIGIN),
        ])
        .expect("closed");
        assert!(
            matches!(
                region(bracket, vec![]),
                InsideCorner::Round { radius: 5.0, .. }
            ),
            "the fillet"
        );
    }
}
