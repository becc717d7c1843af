//! Edges that the tool does not cut: the plate's own, and those that are dressed to a line later.
//!
//! An offset moves every edge. So before it material is put on beyond these edges, wider than any cut,
//! and afterwards all that lies beyond them is taken off again: they stay where they are, and the cut
//! runs off past their ends.

use crate::design::part::Edge;
use crate::design::part::EdgeState;
use crate::design::part::Part;
use crate::geometry::Contour;
use crate::geometry::GeometryError;
use crate::geometry::Line;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::Vec2;
use crate::geometry::half_plane::left_of;
use crate::geometry::number;
use crate::geometry::tolerance;

/// An end that runs off an edge at less than about 12° is carried on square to the edge instead.
const STEEP_ENOUGH: f64 = 0.2;

/// The straight edges of a part that are not cut.
#[derive(Clone, Debug)]
pub(super) struct OwnEdges {
    lines: Vec<(SourceId, Line)>,
    taken_as_cut: Vec<String>,
}

impl OwnEdges {
    pub(super) fn of(part: &Part) -> Self {
        let (mut lines, mut taken_as_cut) = (Vec::new(), Vec::new());
        let uncut = |edge: &&Edge| edge.state != EdgeState::Cut;
        for edge in part.edges.iter().filter(uncut) {
            // as it runs in the outline: a mirror image runs against the direction written
            let pieces = part.region.outer().pieces().iter();
            let bears = |piece: &&Piece| piece.source == edge.source;
            let pieces: Vec<Segment> = pieces.filter(bears).map(|piece| piece.segment).collect();
            match pieces.as_slice() {
                [Segment::Line(line)] if has_all_on_left(&part.region, line) => {
                    lines.push((edge.source, *line));
                }
                _ => taken_as_cut.push(edge.name.clone()),
            }
        }
        Self {
            lines,
            taken_as_cut,
        }
    }

    /// Whether pieces of this source are not cut.
    pub(super) fn has(&self, source: SourceId) -> bool {
        self.lines.iter().any(|(own, _)| *own == source)
    }

    pub(super) fn taken_as_cut(&self) -> &[String] {
        &self.taken_as_cut
    }

    /// The outline with material put on, `by` millimetres wide, beyond the edges that are not cut.
    pub(super) fn extended(&self, outer: &Contour, by: f64) -> Result<Contour, GeometryError> {
        if self.lines.is_empty() {
            return Ok(outer.clone());
        }
        let pieces = outer.pieces();
        let count = pieces.len();
        let mut extended = Vec::with_capacity(count + 2 * self.lines.len());
        for (index, piece) in pieces.iter().enumerate() {
            if !self.has(piece.source) {
                extended.push(*piece);
                continue;
            }
            let before = pieces.get((index + count - 1) % count);
            let after = pieces.get((index + 1) % count);
            let (Some(before), Some(after)) = (before, after) else {
                continue;
            };
            let (start, end) = (piece.segment.start(), piece.segment.end());
            let outwards = -number::left_normal(piece.segment.direction_at(0.0));
            let by = before_they_meet(before, piece, after, by);
            let runs_off = before.segment.direction_at(1.0);
            let from = self.carried_on(start, before, (runs_off, outwards), by);
            let runs_off = -after.segment.direction_at(0.0);
            let to = self.carried_on(end, after, (runs_off, outwards), by);
            if from.shared {
                // the neighbour has brought the outline here already
            } else {
                extended.push(Piece::new(Segment::line(start, from.at), piece.source));
            }
            extended.push(Piece::new(Segment::line(from.at, to.at), piece.source));
            if !to.shared {
                extended.push(Piece::new(Segment::line(to.at, end), piece.source));
            }
        }
        Contour::new(extended)
    }

    /// Where the end of an edge goes when the edge is moved outwards.
    fn carried_on(
        &self,
        end: Point,
        neighbour: &Piece,
        (runs_off, outwards): (Vec2, Vec2),
        by: f64,
    ) -> CarriedOn {
        let steepness = runs_off.dot(outwards);
        if self.has(neighbour.source) {
            // two such edges meet: both are moved, and the corner goes along with them
            let other = -number::left_normal(neighbour.segment.direction_at(0.5));
            let both = 1.0 + outwards.dot(other);
            if both > STEEP_ENOUGH {
                let at = end + (outwards + other) * (by / both);
                return CarriedOn { at, shared: true };
            }
        }
        let step = if steepness > STEEP_ENOUGH {
            runs_off * (by / steepness)
        } else {
            outwards * by
        };
        CarriedOn {
            at: end + step,
            shared: false,
        }
    }

    /// What of the regions does not lie beyond the edges that are not cut.
    pub(super) fn trimmed(&self, mut regions: Vec<Region>) -> Result<Vec<Region>, GeometryError> {
        for (source, line) in &self.lines {
            regions = left_of(&regions, line, *source)?;
        }
        Ok(regions)
    }
}

/// How far both neighbours of an edge can be carried on beyond it without meeting, at most `by`. What is
/// left must still be wider than any cut, a third of `by`; if it is not, the crossing is left to be found.
fn before_they_meet(before: &Piece, edge: &Piece, after: &Piece, by: f64) -> f64 {
    let along = edge.segment.direction_at(0.0);
    let outwards = -number::left_normal(along);
    let towards_middle = |runs_off: Vec2, towards: Vec2| {
        let steepness = runs_off.dot(outwards);
        if steepness > STEEP_ENOUGH {
            runs_off.dot(towards) / steepness
        } else {
            0.0
        }
    };
    let closing = towards_middle(before.segment.direction_at(1.0), along)
        + towards_middle(-after.segment.direction_at(0.0), -along);
    if closing <= 0.0 {
        return by;
    }
    let room = 0.9 * edge.segment.length() / closing;
    if room > by / 3.0 { by.min(room) } else { by }
}

/// Where an end goes, and whether the neighbour goes there too.
struct CarriedOn {
    at: Point,
    shared: bool,
}

/// Whether nothing of the region lies on the right of a line, as with the plate's own edge.
fn has_all_on_left(region: &Region, line: &Line) -> bool {
    let outwards = -number::left_normal(line.direction());
    region.outer().segments().all(|segment| {
        (segment.farthest(outwards) - line.start).dot(outwards) <= tolerance::SAME_DIMENSION
    })
}
