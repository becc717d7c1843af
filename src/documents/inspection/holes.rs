//! The holes to drill, held against the points that mark them in a drawing.

use super::Inspection;
use crate::design::part::Opening;
use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::documents::features;
use crate::formats::incoming::DrawnShape;
use crate::geometry::Motion;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::number;

/// Places within this of a hole to drill mark it, in millimetres.
const AT_HOLE: f64 = 0.05;

/// How a hole to drill is marked in a drawing.
#[derive(Clone, Debug, PartialEq)]
pub enum Marking {
    /// By a point in its place.
    Marked,
    /// By a point so far off its place, in millimetres.
    Off(f64),
    /// By no point, or drawn as an outline.
    Not {
        /// Whether a round outline stands about its place.
        drawn: bool,
    },
}

/// The points of a drawing, moved onto the part.
pub(super) fn spots(inspection: &Inspection, motion: &Motion) -> Vec<Point> {
    let drawn = inspection.drawing.drawn.iter();
    drawn
        .filter_map(|drawn| match drawn.shape {
            DrawnShape::Spot(at) => Some(motion.point(at)),
            DrawnShape::Run { .. } => None,
        })
        .collect()
}

/// Every hole to drill of the part, and how the drawing marks it. A point that marks one hole is no mark of
/// another.
pub(super) fn markings<'a>(
    part: &'a Part,
    spots: &[Point],
    regions: &[Region],
    motion: &Motion,
) -> Vec<(&'a Opening, Point, Marking)> {
    let holes: Vec<(&Opening, Point, f64)> = part
        .openings
        .iter()
        .filter_map(|opening| match opening.shape {
            OpeningShape::Circle { centre, diameter } if features::is_drilled(opening) => {
                Some((opening, centre, diameter))
            }
            _ => None,
        })
        .collect();
    let at_hole = |spot: &Point, hole: &Point| number::length(*spot - *hole) <= AT_HOLE;
    let is_free = |spot: &&Point| !holes.iter().any(|(_, centre, _)| at_hole(spot, centre));
    let free: Vec<Point> = spots.iter().filter(is_free).copied().collect();
    let rounds: Vec<Point> = regions
        .iter()
        .flat_map(Region::holes)
        .filter_map(|hole| Some(motion.point(hole.as_circle()?.0)))
        .collect();
    holes
        .iter()
        .map(|&(opening, centre, diameter)| {
            let away = |spot: &Point| number::length(*spot - centre);
            if spots.iter().any(|spot| at_hole(spot, &centre)) {
                return (opening, centre, Marking::Marked);
            }
            if rounds.iter().any(|round| away(round) <= diameter) {
                return (opening, centre, Marking::Not { drawn: true });
            }
            // a point further off than the hole is wide is rather another thing's
            let nearest = free.iter().map(away).fold(f64::INFINITY, f64::min);
            let marking = if nearest <= diameter.max(FAR_OFF) {
                Marking::Off(nearest)
            } else {
                Marking::Not { drawn: false }
            };
            (opening, centre, marking)
        })
        .collect()
}

/// A point so far off is still taken for the mark of a small hole, in millimetres.
const FAR_OFF: f64 = 10.0;
