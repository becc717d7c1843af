//! Curves in many short straight pieces, and splines: a rough edge and a slow cut.

use super::Finding;
use super::Grade;
use super::Rule;
use super::Subject;
use super::finding::Findings;
use crate::geometry::Piece;
use crate::geometry::Segment;
use crate::geometry::number;
use crate::geometry::tolerance;

/// Chords in a row that make a curve: common practice.
const FEWEST: usize = 8;
/// Chords in a row turn by less than this at each joint, in radians: 20°, common practice.
const GENTLE: f64 = 0.35;

pub(super) fn check(subject: &Subject, found: &mut Findings) {
    for run in &subject.runs {
        let (Some(within), Some(first)) = (run.follows_within, run.segments.first()) else {
            continue;
        };
        found.push(
            Finding::new(Rule::ShortChords, Grade::Notice, run.source, first.start())
                .measured(within)
                .said(
                    format!(
                        "{}: not every machine reads one; {} arcs follow it within {}",
                        run.kind,
                        run.segments.len(),
                        subject.length(within)
                    ),
                    "have it written as arcs; --mend does it",
                ),
        );
    }
    let closed = subject.assembly.outlines.iter();
    let closed = closed.map(|outline| outline.contour.pieces());
    let open = subject.assembly.open.iter().map(|open| open.path.pieces());
    for pieces in closed.chain(open) {
        curves(subject, pieces, found);
    }
}

fn curves(subject: &Subject, pieces: &[Piece], found: &mut Findings) {
    let mut start = 0;
    for end in 1..=pieces.len() {
        let goes_on = matches!(
            (pieces.get(end - 1), pieces.get(end)),
            (Some(before), Some(here)) if turns_gently(&before.segment, &here.segment)
        );
        if goes_on {
            continue;
        }
        if end - start >= FEWEST
            && let Some(chords) = pieces.get(start..end)
        {
            tell(subject, chords, found);
        }
        start = end;
    }
}

fn turns_gently(before: &Segment, here: &Segment) -> bool {
    let (Segment::Line(before), Segment::Line(here)) = (before, here) else {
        return false;
    };
    let turn = number::turn(before.direction(), here.direction()).abs();
    turn > tolerance::SAME_DIRECTION && turn < GENTLE
}

fn tell(subject: &Subject, chords: &[Piece], found: &mut Findings) {
    let Some(first) = chords.first() else {
        return;
    };
    let shortest = chords
        .iter()
        .map(|piece| piece.segment.length())
        .fold(f64::INFINITY, f64::min);
    found.push(
        Finding::new(
            Rule::ShortChords,
            Grade::Notice,
            first.source,
            first.segment.start(),
        )
        .measured(shortest)
        .said(
            format!(
                "a curve in {} straight pieces, the shortest {} long",
                chords.len(),
                subject.length(shortest)
            ),
            "have it written as arcs; --mend does it",
        ),
    );
}
