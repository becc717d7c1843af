//! The table of limits: what is permitted, what the part has, and how it is measured.

use super::words;
use crate::design::Design;
use crate::design::Dimensions;
use crate::design::file::Origin;
use crate::design::part::Part;
use crate::design::resolve::resolve;
use crate::documents::jaws;
use crate::documents::jaws::Labelled;
use crate::documents::reading;
use crate::geometry::tolerance;
use crate::measures::Review;
use crate::measures::limits::Judged;
use crate::measures::limits::value_as_drawn;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Figure;
use crate::sheet::Table;

/// Whether a limit belongs to one of the parts asked for.
pub(super) fn is_in(judged: &Judged, parts: &[&str]) -> bool {
    judged
        .limit
        .part
        .as_deref()
        .is_none_or(|part| parts.contains(&part))
}

pub(super) fn limits(design: &Design, review: &Review, parts: &[&str]) -> Option<Block> {
    let rows: Vec<&Judged> = review
        .limits
        .iter()
        .filter(|judged| judged.limit.permitted.is_limited() && is_in(judged, parts))
        .collect();
    if rows.is_empty() {
        return None;
    }
    let written = as_written(design, &rows);
    let mut columns = vec![
        Column::words("What", "what"),
        Column::words("Permitted", "permitted"),
    ];
    if written.is_some() {
        columns.push(Column::numbers("As the file says", "as_written"));
    }
    columns.extend([
        Column::numbers("The part has", "value"),
        Column::words("Verdict", "verdict"),
        Column::numbers("Room down", "room_down"),
        Column::numbers("Room up", "room_up"),
        Column::words("How it is measured", "how"),
        Column::words("Source, remark", "remark"),
    ]);
    let mut table = Table::new("Limits", columns);
    for (index, judged) in rows.iter().enumerate() {
        let limit = &judged.limit;
        let (kind, unit) = (limit.kind, limit.unit);
        let (down, up) = judged.room();
        let mut row: Vec<Cell> = vec![
            limit.name.as_str().into(),
            words::permitted(kind, limit.permitted, unit).into(),
        ];
        if let Some(written) = &written {
            let value = written.get(index).copied().flatten();
            row.push(words::cell(kind, value, unit));
        }
        row.extend([
            words::cell(kind, judged.value, unit),
            words::verdict(judged.verdict, kind, unit).into(),
            words::cell(kind, down, unit),
            words::cell(kind, up, unit),
            reading::how(judged, design).into(),
            remark(design, judged).into(),
        ]);
        table.row(row);
    }
    table.notes.push(
        "These are the part as designed; how far it may come out otherwise is in the next table."
            .to_owned(),
    );
    Some(Block::Table(table))
}

/// Where each limit is measured that is measured between points of its part.
pub(super) fn pictures(parts: &[&Part], review: &Review) -> Option<Figure> {
    let mut shown: Vec<Labelled<'_>> = Vec::new();
    for judged in &review.limits {
        let of_limit = judged.limit.part.as_deref();
        let part = parts.iter().find(|part| of_limit == Some(&part.name));
        let limited = judged.limit.permitted.is_limited();
        if let (Some(part), Some(taken), true) = (part, &judged.taken, limited) {
            let label = judged.limit.name.clone();
            shown.push(Labelled { label, part, taken });
        }
    }
    jaws::in_rows(&shown, "Where each limit is measured")
}

/// The values without what is set, where that makes a difference.
fn as_written(design: &Design, rows: &[&Judged]) -> Option<Vec<Option<f64>>> {
    let dimensions = Dimensions::evaluate(&design.file, &[]).ok()?;
    let resolved = resolve(&design.file, &dimensions).ok()?;
    let values: Vec<Option<f64>> = rows
        .iter()
        .map(|judged| value_as_drawn(&judged.limit, &dimensions, &resolved.parts))
        .collect();
    let differs = |(judged, value): (&&Judged, &Option<f64>)| {
        judged
            .value
            .zip(*value)
            .is_some_and(|(a, b)| (a - b).abs() > tolerance::SAME_DIMENSION)
    };
    rows.iter().zip(&values).any(differs).then_some(values)
}

/// Where a limit comes from.
fn remark(design: &Design, judged: &Judged) -> String {
    let origin = match judged.limit.origin {
        Some(Origin::Rule) => design
            .file
            .rules
            .as_ref()
            .and_then(|rules| rules.title.as_ref())
            .map(|title| title.value.clone()),
        Some(Origin::Measured) => Some("measured".to_owned()),
        Some(Origin::Chosen) => Some("chosen".to_owned()),
        Some(Origin::Derived) => Some("follows from others".to_owned()),
        None => None,
    };
    let said = [origin, judged.limit.note.clone()];
    let said: Vec<String> = said.into_iter().flatten().collect();
    said.join(": ")
}
