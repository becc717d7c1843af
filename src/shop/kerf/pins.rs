//! Tongues of an outline: what goes into another part's slot.

use crate::design::Located;
use crate::design::Place;
use crate::design::file::Measure;
use crate::design::file::measure::Distance;
use crate::design::part::Edge;
use crate::design::part::EdgeState;
use crate::design::part::Part;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;

/// A tongue: its end, and how its width is measured.
pub(super) struct Tongue {
    /// Name of the edge at its end.
    pub(super) end: String,
    /// Where that stands in the design file.
    pub(super) place: Place,
    /// Across it, between its sides.
    pub(super) width: Located<Measure>,
    /// Its two sides.
    pub(super) sides: [Segment; 2],
}

/// The tongues of the outline: an end between two straight sides that run against one another, each from
/// an inside corner. A side or end that is not cut makes none.
pub(super) fn tongues(part: &Part) -> Vec<Tongue> {
    let edges = &part.edges;
    let count = edges.len();
    let at = |index: usize| edges.get(index % count.max(1));
    // edges stand in the direction written, in which a mirror image is run clockwise
    let hand = if part.mirror_of.is_some() { -1.0 } else { 1.0 };
    let one = |index: usize| {
        let (root, rise) = (at(index)?, at(index + 1)?);
        let (end, fall) = (at(index + 2)?, at(index + 3)?);
        let foot = at(index + 4)?;
        let [root_d, rise_d, end_d, fall_d, foot_d] = [
            direction(root, 1.0)?,
            straight(rise)?,
            straight(end)?,
            straight(fall)?,
            direction(foot, 0.0)?,
        ];
        let turns_out =
            |from: Vec2, to: Vec2| hand * number::turn(from, to) > tolerance::SMOOTH_JOINT;
        let against = (number::turn(rise_d, -fall_d)).abs() < tolerance::SAME_WALL;
        let is_tongue = against
            && turns_out(rise_d, end_d)
            && turns_out(end_d, fall_d)
            && turns_out(rise_d, root_d)
            && turns_out(foot_d, fall_d);
        let sides = [*rise.finished.first()?, *fall.finished.first()?];
        is_tongue.then(|| Tongue {
            end: end.name.clone(),
            place: end.place,
            sides,
            width: Located::new(
                end.place,
                Measure::Distance(Distance {
                    from: Located::new(end.place, rise.name.clone()),
                    to: Located::new(end.place, fall.name.clone()),
                }),
            ),
        })
    };
    if count < 5 {
        return Vec::new();
    }
    (0..count).filter_map(one).collect()
}

/// The direction of a straight edge that is cut.
fn straight(edge: &Edge) -> Option<Vec2> {
    match (edge.state, edge.finished.as_slice()) {
        (EdgeState::Cut, [Segment::Line(line)]) => Some(line.direction()),
        _ => None,
    }
}

/// The direction of an edge at its start or end.
fn direction(edge: &Edge, fraction: f64) -> Option<Vec2> {
    let piece = if fraction > 0.5 {
        edge.sharp.last()
    } else {
        edge.sharp.first()
    };
    piece.map(|piece| piece.direction_at(fraction))
}
