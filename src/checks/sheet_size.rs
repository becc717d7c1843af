//! Size out of the sheet.

use super::Finding;
use super::Grade;
use super::Rule;
use super::Subject;
use super::finding::Findings;
use crate::geometry::Rect;
use crate::geometry::SourceId;

pub(super) fn check(subject: &Subject, found: &mut Findings) {
    let Some(sheet) = subject.sheet else {
        return;
    };
    let closed = subject.assembly.outlines.iter().map(|o| o.contour.bounds());
    let open = subject.assembly.open.iter().map(|o| o.path.bounds());
    let Some(bounds) = closed.chain(open).reduce(|a: Rect, b| a.union(b)) else {
        return;
    };
    let (long, short) = ordered(bounds.width(), bounds.height());
    let (sheet_long, sheet_short) = ordered(sheet.width, sheet.height);
    let over = (long - sheet_long).max(short - sheet_short);
    if over <= 0.0 {
        return;
    }
    let said = format!(
        "all of it is {} × {}, and the sheet {} × {}",
        subject.length(long),
        subject.length(short),
        subject.length(sheet_long),
        subject.length(sheet_short)
    );
    let (measured, limit) = if long - sheet_long >= short - sheet_short {
        (long, sheet_long)
    } else {
        (short, sheet_short)
    };
    let finding = Finding::new(
        Rule::SheetSize,
        Grade::Error,
        SourceId::UNTRACED,
        bounds.center(),
    )
    .measured(measured)
    .said(said, "take a larger sheet, or check the unit");
    found.push(Finding {
        at: None,
        limit: Some(limit),
        ..finding
    });
}

const fn ordered(a: f64, b: f64) -> (f64, f64) {
    if a >= b { (a, b) } else { (b, a) }
}
