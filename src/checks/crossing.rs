//! Lines to cut that cross or touch, themselves or each other.

use super::Finding;
use super::Grade;
use super::Rule;
use super::Subject;
use super::finding::Findings;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::bounds_tree::SegmentTree;
use crate::geometry::intersect;
use crate::geometry::intersect::Crossing;
use crate::geometry::intersect::Meeting;

/// Pairs looked at in all, at most.
const MOST_PAIRS: usize = 5_000_000;

/// A piece of a line, and its place in it.
struct Member {
    line: usize,
    number: usize,
    /// How many pieces the line has.
    count: usize,
    closed: bool,
    source: SourceId,
}

pub(super) fn check(subject: &Subject, found: &mut Findings) {
    let mut members = Vec::new();
    let mut segments: Vec<&Segment> = Vec::new();
    let closed = subject.assembly.outlines.iter();
    let closed = closed.map(|outline| (outline.contour.pieces(), true));
    let open = subject.assembly.open.iter();
    let open = open.map(|open| (open.path.pieces(), false));
    for (line, (pieces, closed)) in closed.chain(open).enumerate() {
        for (number, piece) in pieces.iter().enumerate() {
            members.push(Member {
                line,
                number,
                count: pieces.len(),
                closed,
                source: piece.source,
            });
            segments.push(&piece.segment);
        }
    }
    if subject.nested.unfinished {
        unfinished(found);
    }
    let tree = SegmentTree::new(segments);
    let mut last: Option<(usize, usize)> = None;
    for (looked, (first, one, second, other)) in tree.pairs().enumerate() {
        if looked > MOST_PAIRS {
            unfinished(found);
            return;
        }
        let (Some(a), Some(b)) = (members.get(first), members.get(second)) else {
            continue;
        };
        let Some(crossing) = fault((a, one), (b, other)) else {
            continue;
        };
        // one finding for two lines, however often they cross in a row
        if last == Some((a.line, b.line)) {
            continue;
        }
        last = Some((a.line, b.line));
        let said = if a.line == b.line {
            "a line crosses or touches itself"
        } else {
            "two lines cross or touch"
        };
        found.push(
            Finding::new(Rule::Crossing, Grade::Error, a.source, crossing.point)
                .said(said.to_owned(), "draw one outline, each place once"),
        );
    }
}

/// Says that not everything was looked at.
fn unfinished(found: &mut Findings) {
    let mut finding = Finding::new(
        Rule::Crossing,
        Grade::Notice,
        SourceId::UNTRACED,
        Point::ORIGIN,
    )
    .said(
        "so many lines lie on each other that not all were compared".to_owned(),
        "thin the drawing out first",
    );
    finding.at = None;
    found.push(finding);
}

/// Where two pieces share more than a joint of their line.
fn fault((a, one): (&Member, &Segment), (b, other): (&Member, &Segment)) -> Option<Crossing> {
    let same_line = a.line == b.line;
    let follows = same_line && b.number == a.number + 1;
    let closes = same_line && a.closed && a.number == 0 && b.number + 1 == a.count;
    let meeting = intersect::meet(one, other);
    if let Meeting::Overlap(_) = meeting {
        // the same piece twice is told as such
        let twice = one.bounds() == other.bounds() && !same_line;
        return (!twice).then(|| meeting.nodes().next()).flatten();
    }
    meeting.points().find(|crossing| {
        let joint = (follows && crossing.on_first == 1.0 && crossing.on_second == 0.0)
            || (closes && crossing.on_first == 0.0 && crossing.on_second == 1.0);
        // an open line may end anywhere: it is told as open
        let open_end = (!a.closed && at_end(a, crossing.on_first))
            || (!b.closed && at_end(b, crossing.on_second));
        !joint && !open_end
    })
}

fn at_end(member: &Member, fraction: f64) -> bool {
    (member.number == 0 && fraction == 0.0)
        || (member.number + 1 == member.count && fraction == 1.0)
}
