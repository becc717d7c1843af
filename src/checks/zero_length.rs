//! Lines and arcs without length.

use super::Finding;
use super::Grade;
use super::Rule;
use super::Subject;
use super::finding::Findings;
use crate::geometry::tolerance;

pub(super) fn check(subject: &Subject, found: &mut Findings) {
    for run in &subject.runs {
        for segment in &run.segments {
            let length = segment.length();
            if length >= tolerance::FILE_JOINT {
                continue;
            }
            let at = segment.start();
            let mut finding = Finding::new(Rule::ZeroLength, Grade::Error, run.source, at)
                .measured(length)
                .said(
                    format!("a piece only {} long", subject.length(length)),
                    "take it out; --mend does it",
                );
            finding.limit = Some(tolerance::FILE_JOINT);
            found.push(finding);
        }
    }
}
