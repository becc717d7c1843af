//! Size out of the sheet.

use super::Finding;
use super::Grade;
use super::Rule;
use super::Subject;
use super::finding::Findings;
use crate::geometry::Rect;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::oversize::Oversize;

pub(super) fn check(subject: &Subject, found: &mut Findings) {
    let Some(sheet) = subject.sheet else {
        return;
    };
    let closed = subject.assembly.outlines.iter().map(|o| o.contour.bounds());
    let open = subject.assembly.open.iter().map(|o| o.path.bounds());
    let Some(bounds) = closed.chain(open).reduce(|a: Rect, b| a.union(b)) else {
        return;
    };
    let closed = subject.assembly.outlines.iter();
    let open = subject.assembly.open.iter();
    let lines = closed.flat_map(|o| o.contour.segments());
    let lines: Vec<&Segment> = lines.chain(open.flat_map(|o| o.path.segments())).collect();
    let Some(over) = Oversize::of(&lines, [sheet.width, sheet.height]) else {
        return;
    };
    let ([long, short], [sheet_long, sheet_short]) = (over.size, over.sheet);
    let (measured, limit) = over.worse();
    let sides = [long, short, sheet_long, sheet_short];
    let [long, short, sheet_long, sheet_short] = subject.lengths(sides, (measured, limit));
    let said = format!("all of it is {long} × {short}, and the sheet {sheet_long} × {sheet_short}");
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
