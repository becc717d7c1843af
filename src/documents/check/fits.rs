//! Fits: how loose one thing is in another.

use super::words;
use crate::geometry::LengthUnit;
use crate::measures::Review;
use crate::measures::TakenKind;
use crate::measures::fits::SideSize;
use crate::measures::limits::LimitCheck;
use crate::sheet::Block;
use crate::sheet::Column;
use crate::sheet::Quantity;
use crate::sheet::Table;

const LENGTH: TakenKind = TakenKind::Length;

pub(super) fn fits(review: &Review, unit: LengthUnit) -> Option<Block> {
    if review.fits.is_empty() {
        return None;
    }
    let mut table = Table::new(
        "Fits",
        vec![
            Column::words("What goes into what", "what"),
            Column::words("Inner", "inner"),
            Column::words("Outer", "outer"),
            Column::numbers("Coating takes", "coating"),
            Column::numbers("Clearance", "clearance"),
            Column::words("Least and greatest", "worst"),
            Column::words("Most likely", "likely"),
            Column::words("Permitted", "permitted"),
            Column::words("Verdict", "verdict"),
        ],
    );
    for fit in &review.fits {
        let side = |side: &SideSize| {
            let size = words::shown(LENGTH, side.size.value, unit);
            match (&side.part, side.apart) {
                (Some(part), Some(apart)) => {
                    format!(
                        "{part} {size}, {} apart",
                        words::shown(LENGTH, apart.value, unit)
                    )
                }
                (Some(part), None) => format!("{part} {size}"),
                (None, _) => size,
            }
        };
        let outer = match &fit.second {
            Some(second) => format!("{} and {}", side(&fit.outer), side(second)),
            None => side(&fit.outer),
        };
        let what = match &fit.note {
            Some(note) => format!("{}: {note}", fit.what),
            None => fit.what.clone(),
        };
        table.row(vec![
            what.into(),
            side(&fit.inner).into(),
            outer.into(),
            Quantity::length(fit.coating, unit).into(),
            Quantity::length(fit.clearance, unit).into(),
            words::range(LENGTH, fit.worst, unit).into(),
            words::range(LENGTH, fit.likely, unit).into(),
            words::permitted(LENGTH, fit.permitted, unit).into(),
            verdict(fit.verdict, fit.worst_verdict, unit).into(),
        ]);
    }
    table.notes.push(
        "The clearance is what is left in all, both faces together, after paint or coating. Each side \
         is made for itself, so its spreads count for themselves."
            .to_owned(),
    );
    Some(Block::Table(table))
}

fn verdict(nominal: LimitCheck, worst: LimitCheck, unit: LengthUnit) -> String {
    let words = |verdict: LimitCheck| match verdict {
        LimitCheck::TooSmall(by) => format!("too tight by {}", words::difference(LENGTH, by, unit)),
        LimitCheck::TooLarge(by) => format!("too loose by {}", words::difference(LENGTH, by, unit)),
        _ => "goes in".to_owned(),
    };
    if nominal.is_broken() {
        words(nominal)
    } else if worst.is_broken() {
        format!("goes in as designed; in the worst case {}", words(worst))
    } else {
        words(worst)
    }
}
