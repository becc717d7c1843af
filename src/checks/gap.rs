//! Ends that do not quite meet.

use super::Finding;
use super::Grade;
use super::Rule;
use super::Subject;
use super::finding::Findings;
use crate::geometry::number;
use crate::geometry::tolerance;

pub(super) fn check(subject: &Subject, found: &mut Findings) {
    for gap in &subject.assembly.gaps {
        let width = number::length(gap.to - gap.from);
        let mut finding = Finding::new(Rule::Gap, Grade::Error, gap.source, gap.from)
            .measured(width)
            .said(
                format!("the ends here are {} apart", subject.length(width)),
                "join them; --mend does it, half the way each",
            );
        finding.limit = Some(tolerance::FILE_JOINT);
        found.push(finding);
    }
}
