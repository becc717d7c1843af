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
    let rounds: Vec<Point> = regions
        .iter()
        .flat_map(Region::holes)
        .filter_map(|hole| Some(motion.point(hole.as_circle()?.0)))
        .collect();
    let mut markings: Vec<Option<Marking>> = vec![None; holes.len()];
    // pairs of a hole and a point near it, the nearest first: a point marks the hole that it is nearest to
    let mut pairs: Vec<(f64, usize, usize)> = Vec::new();
    for (hole, &(_, centre, diameter)) in holes.iter().enumerate() {
        for (spot, &at) in spots.iter().enumerate() {
            let away = number::length(at - centre);
            // further off than the hole is wide it is rather another thing's
            if away <= diameter.max(FAR_OFF) {
                pairs.push((away, hole, spot));
            }
        }
    }
    pairs.sort_by(|a, b| a.0.total_cmp(&b.0));
    let mut taken = vec![false; spots.len()];
    for (away, hole, spot) in pairs {
        let (_, centre, diameter) = holes[hole];
        let is_round = |round: &Point| number::length(*round - centre) <= diameter;
        // what is drawn as an outline needs no point, and a point beside it marks something else
        let is_drawn = away > AT_HOLE && rounds.iter().any(is_round);
        if markings[hole].is_none() && !taken[spot] && !is_drawn {
            taken[spot] = true;
            markings[hole] = Some(if away <= AT_HOLE {
                Marking::Marked
            } else {
                Marking::Off(away)
            });
        }
    }
    holes
        .into_iter()
        .zip(markings)
        .map(|((opening, centre, diameter), marking)| {
            let is_round = |round: &Point| number::length(*round - centre) <= diameter;
            let not = || Marking::Not {
                drawn: rounds.iter().any(is_round),
            };
            (opening, centre, marking.unwrap_or_else(not))
        })
        .collect()
}

/// A point so far off is still taken for the mark of a small hole, in millimetres.
const FAR_OFF: f64 = 10.0;
