//! What the spreads of the dimensions add up to, and how far each of them may move.

use super::limits::is_in;
use super::room;
use super::words;
use crate::design::Design;
use crate::geometry::LengthUnit;
use crate::measures::Review;
use crate::measures::TakenKind;
use crate::measures::limits::Judged;
use crate::measures::limits::Limit;
use crate::measures::limits::LimitCheck;
use crate::measures::stack::Bench;
use crate::measures::stack::Contribution;
use crate::measures::stack::Course;
use crate::measures::stack::Holder;
use crate::measures::stack::Stack;
use crate::sheet::Block;
use crate::sheet::Column;
use crate::sheet::Table;

/// How many of the values that move a limit most are named.
const NAMED: usize = 3;

pub(super) fn stacks(design: &Design, review: &Review, parts: &[&str]) -> Vec<Block> {
    let judged: Vec<&Judged> = review
        .limits
        .iter()
        .filter(|judged| judged.value.is_some() && is_in(judged, parts))
        .collect();
    let bench = Bench::new(design);
    let limits: Vec<Limit> = judged.iter().map(|judged| judged.limit.clone()).collect();
    let stacks = bench.limits(&limits);
    let mut table = empty("What can come of it");
    let mut bends = false;
    for (limit, stack) in limits.iter().zip(&stacks) {
        if let Some(stack) = stack {
            bends |= stack.course != Course::Straight;
            row(
                &mut table,
                (&limit.name, limit.kind, limit.unit),
                stack,
                |value| LimitCheck::on(Some(value), limit.permitted),
            );
        }
    }
    for (name, stack) in bench.derived() {
        // one with limits or a measure stands above already
        let Some(dimension) = design.dimensions.get(&name) else {
            continue;
        };
        if let (Some(kind), false) = (
            TakenKind::of(dimension.kind),
            limits
                .iter()
                .any(|limit| limit.dimension.as_ref() == Some(&name)),
        ) {
            row(&mut table, (&name, kind, dimension.unit), &stack, |_| {
                LimitCheck::Free
            });
        }
    }
    if table.rows.is_empty() {
        return Vec::new();
    }
    table.notes.push(
        "Worst case: every dimension at the end of its spread at once. Most likely: the root of the \
         sum of squares, about the middle of the spreads. Numbers written straight into an outline \
         have no spread."
            .to_owned(),
    );
    if bends {
        table.notes.push(
            "Where a value bends, its worst case was found by building the part there.".to_owned(),
        );
    }
    let mut blocks = vec![Block::Table(table)];
    blocks.extend(room::room(&bench, &limits, design));
    blocks
}

fn empty(title: &str) -> Table {
    Table::new(
        title,
        vec![
            Column::words("What", "what"),
            Column::numbers("As designed", "value"),
            Column::words("Worst case", "worst"),
            Column::words("Most likely", "likely"),
            Column::words("Verdict", "verdict"),
            Column::words("What moves it most", "moved_by"),
        ],
    )
}

fn row(
    table: &mut Table,
    (name, kind, unit): (&str, TakenKind, LengthUnit),
    stack: &Stack,
    on: impl Fn(f64) -> LimitCheck,
) {
    table.row(vec![
        name.into(),
        words::quantity(kind, stack.value, unit).into(),
        words::range(kind, stack.worst, unit).into(),
        words::range(kind, stack.likely, unit).into(),
        verdict(stack, on, kind, unit).into(),
        moved_by(stack, kind, unit).into(),
    ]);
}

/// Whether the spreads can carry it past a limit.
fn verdict(
    stack: &Stack,
    on: impl Fn(f64) -> LimitCheck,
    kind: TakenKind,
    unit: LengthUnit,
) -> String {
    let broken = |ends: [f64; 2]| {
        let by = |verdict: LimitCheck| match verdict {
            LimitCheck::TooSmall(by) | LimitCheck::TooLarge(by) => Some(by),
            _ => None,
        };
        ends.into_iter()
            .filter_map(|end| by(on(end)))
            .reduce(f64::max)
    };
    if on(stack.value) == LimitCheck::Free {
        return String::new();
    }
    let shown = |by: f64| words::shown(kind, by, unit);
    match (
        broken([stack.value; 2]),
        broken(stack.likely),
        broken(stack.worst),
    ) {
        (Some(by), _, _) => format!("broken as designed, by {}", shown(by)),
        (None, Some(by), _) => format!("likely to break it, by up to {}", shown(by)),
        (None, None, Some(by)) => format!("the worst case breaks it, by {}", shown(by)),
        (None, None, None) => "safe".to_owned(),
    }
}

fn moved_by(stack: &Stack, kind: TakenKind, unit: LengthUnit) -> String {
    let one = |contribution: &Contribution| {
        let name = match contribution.holder {
            Holder::Dimension => contribution.name.clone(),
            Holder::Plate => format!("thickness of {}", contribution.name),
        };
        format!("{name} ±{}", words::shown(kind, contribution.reach, unit))
    };
    let named: Vec<String> = stack.contributions.iter().take(NAMED).map(one).collect();
    let more = stack.contributions.len().saturating_sub(NAMED);
    match (named.is_empty(), more) {
        (true, _) => "nothing with a spread".to_owned(),
        (false, 0) => named.join(", "),
        (false, more) => format!("{}, {more} more", named.join(", ")),
    }
}
