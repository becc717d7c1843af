//! The same line twice: the machine cuts it twice.

use super::Finding;
use super::Grade;
use super::Rule;
use super::Run;
use super::Subject;
use super::finding::Findings;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;

/// Pieces with one middle that are compared with each other at most.
const MOST_IN_ONE_PLACE: usize = 32;

/// Side of the cells in which pieces are sought by their middles, in joints of a file.
const CELL: f64 = 10.0 * tolerance::FILE_JOINT;

pub(super) fn check(subject: &Subject, found: &mut Findings) {
    for (again, first) in same_pieces(&subject.runs) {
        let piece = subject
            .runs
            .get(again.0)
            .and_then(|run| Some((run, run.segments.get(again.1)?)));
        let Some((run, segment)) = piece else {
            continue;
        };
        let what = match subject.runs.get(first.0) {
            Some(other) if other.source != run.source => "the same line as another",
            _ => "the same line twice",
        };
        found.push(
            Finding::new(
                Rule::Duplicate,
                Grade::Error,
                run.source,
                segment.point_at(0.5),
            )
            .measured(segment.length())
            .said(
                format!("{what}, {} long", subject.length(segment.length())),
                "take one of them out; --mend does it",
            ),
        );
    }
}

/// A piece by the number of its run and its own in it.
type PieceNumber = (usize, usize);

/// Pieces that lie on one before them from end to end, each with that one: same ends within
/// [`tolerance::FILE_JOINT`], either way, and the same middle. Whichever layers they are on.
pub fn same_pieces(runs: &[Run]) -> Vec<(PieceNumber, PieceNumber)> {
    let mut pieces: Vec<Sought<'_>> = Vec::new();
    for (run_number, run) in runs.iter().enumerate() {
        for (number, segment) in run.segments.iter().enumerate() {
            if segment.length() >= tolerance::FILE_JOINT {
                let middle = middle(segment);
                pieces.push(Sought {
                    cell: cell(middle),
                    number: (run_number, number),
                    segment,
                    middle,
                });
            }
        }
    }
    let mut order: Vec<usize> = (0..pieces.len()).collect();
    // in a cell in the order of the drawing
    order.sort_unstable_by_key(|&index| pieces.get(index).map(|piece| (piece.cell, index)));
    let mut is_again = vec![false; pieces.len()];
    let mut found = Vec::new();
    for (index, piece) in pieces.iter().enumerate() {
        let before = piece.cells().find_map(|cell| {
            let start = order.partition_point(|&other| pieces[other].cell < cell);
            let in_cell = order[start..]
                .iter()
                .take_while(|&&other| other < index && pieces[other].cell == cell)
                .filter(|&&other| !is_again[other])
                .take(MOST_IN_ONE_PLACE);
            let mut same = in_cell.filter(|&&other| is_same(piece.segment, pieces[other].segment));
            same.next()
        });
        if let Some(&first) = before {
            is_again[index] = true;
            found.push((piece.number, pieces[first].number));
        }
    }
    found
}

/// A piece with the cell of its middle.
struct Sought<'a> {
    cell: (i64, i64),
    number: PieceNumber,
    segment: &'a Segment,
    middle: Point,
}

impl Sought<'_> {
    /// The cells in which the middle of a piece on this one may lie: mostly one.
    fn cells(&self) -> impl Iterator<Item = (i64, i64)> + use<> {
        let by = Vec2::new(tolerance::FILE_JOINT, tolerance::FILE_JOINT);
        let ((x0, y0), (x1, y1)) = (cell(self.middle - by), cell(self.middle + by));
        (x0..=x1).flat_map(move |x| (y0..=y1).map(move |y| (x, y)))
    }
}

/// The centre for a whole circle, which may start anywhere.
fn middle(segment: &Segment) -> Point {
    match segment {
        Segment::Arc(arc) if arc.is_circle() => arc.centre(),
        _ => segment.point_at(0.5),
    }
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "coordinates are below 1e6 mm, cells 1e-3 mm"
)]
fn cell(at: Point) -> (i64, i64) {
    ((at.x / CELL).floor() as i64, (at.y / CELL).floor() as i64)
}

fn is_same(one: &Segment, other: &Segment) -> bool {
    let near = |a: Point, b: Point| number::length(a - b) <= tolerance::FILE_JOINT;
    if let (Segment::Arc(a), Segment::Arc(b)) = (one, other)
        && a.is_circle()
        && b.is_circle()
    {
        let radii = (a.radius() - b.radius()).abs();
        return near(a.centre(), b.centre()) && radii <= tolerance::FILE_JOINT;
    }
    let ends = (near(one.start(), other.start()) && near(one.end(), other.end()))
        || (near(one.start(), other.end()) && near(one.end(), other.start()));
    ends && near(one.point_at(0.5), other.point_at(0.5))
}
