//! A tool path where a shop expects finished edges: compensated twice, every size comes out a kerf wrong.

use super::Finding;
use super::Grade;
use super::Lines;
use super::Rule;
use super::Subject;
use super::finding::Findings;
use crate::geometry::Point;
use crate::geometry::SourceId;

pub(super) fn check(subject: &Subject, found: &mut Findings) {
    let Lines::ToolPath { made } = &subject.lines else {
        return;
    };
    let finding = Finding::new(Rule::ToolPath, Grade::Notice, SourceId::UNTRACED, Point::ORIGIN).said(
        format!(
            "the file says that it is a tool path, compensated already {made}: its lines are the middle of the \
             cut with its leads, not the finished edges. Whoever cuts it must not compensate again: the part would \
             come out a kerf too large and its openings a kerf too small. Whether its lines close, and webs and \
             corners, are not judged here"
        ),
        "judge the finished size on the file of the same part made without a process, and send that one to a shop \
         that compensates",
    );
    found.push(Finding {
        at: None,
        ..finding
    });
}
