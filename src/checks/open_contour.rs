//! Lines to cut that do not close.

use super::Finding;
use super::Grade;
use super::Rule;
use super::Subject;
use super::finding::Findings;
use crate::geometry::number;

pub(super) fn check(subject: &Subject, found: &mut Findings) {
    for open in &subject.assembly.open {
        let (start, end) = (open.path.start(), open.path.end());
        let apart = number::length(end - start);
        let said = format!(
            "a line of {} ends {} from its start and meets nothing there",
            subject.length(open.path.length()),
            subject.length(apart)
        );
        found.push(
            Finding::new(Rule::OpenContour, Grade::Error, open.source, end)
                .measured(apart)
                .said(
                    said,
                    "close it, or put it on a layer that is not cut (--not-cut LAYER)",
                ),
        );
    }
}
