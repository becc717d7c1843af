//! A file without a unit gets cut 25.4 times too small, or too large.

use super::Finding;
use super::Grade;
use super::Rule;
use super::Subject;
use super::Unit;
use super::finding::Findings;
use crate::geometry::Point;
use crate::geometry::SourceId;

pub(super) fn check(subject: &Subject, found: &mut Findings) {
    let Unit::Likely { reason, could_say } = &subject.unit else {
        return;
    };
    let grade = if *could_say {
        Grade::Error
    } else {
        Grade::Notice
    };
    let said = if *could_say {
        "the file does not say its unit"
    } else {
        "the file cannot say its unit, and has no remark that does"
    };
    let finding = Finding::new(Rule::MissingUnit, grade, SourceId::UNTRACED, Point::ORIGIN).said(
        format!("{said}: {reason}"),
        "check one size, say it with --units, and have the file written with its unit",
    );
    found.push(Finding {
        at: None,
        ..finding
    });
}
