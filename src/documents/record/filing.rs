//! What filing can still do, with all rows in view that an edge has part in.

use super::values;
use crate::measures::TakenKind;
use crate::measures::inspection;
use crate::measures::inspection::Filing;
use crate::measures::inspection::Inspected;
use crate::measures::inspection::Inspection;
use crate::measures::inspection::Stop;
use crate::measures::verdict::Judgement;
use crate::measures::verdict::Remedy;

/// Less than this is nothing, in millimetres: nobody files it.
const NOTHING: f64 = 0.001;

/// What filing can still do.
pub(super) fn remedy(
    inspection: &Inspection,
    inspected: &Inspected,
    judgement: &Judgement,
    decimals: usize,
) -> String {
    let item = &inspected.item;
    let stopped =
        |most: Option<f64>, least: f64| stopped(inspection, inspected, (most, least), decimals);
    let shown = |value: f64| values::text(item, value, decimals);
    let filing = match item.filing {
        Filing::Lowers => "file off",
        Filing::Raises | Filing::Neither => "file it larger by",
    };
    match judgement.remedy {
        Remedy::Free => String::new(),
        Remedy::Spare { most } => format!(
            "you may still {filing} {}{}",
            shown(most),
            stopped(Some(most), 0.0)
        ),
        Remedy::TakeOff { least, most } => {
            let at_most =
                most.map_or_else(String::new, |most| format!(" and at most {}", shown(most)));
            format!(
                "{filing} at least {}{at_most}, and it is shown to conform{}",
                shown(least),
                stopped(most, least)
            )
        }
        Remedy::Scrap { by } => {
            let past = match item.filing {
                Filing::Raises => "too large",
                Filing::Lowers | Filing::Neither => "too small",
            };
            format!(
                "scrap: {} {past}, and filing puts no material back",
                shown(by)
            )
        }
        // of the rows that are not taken on an outline only the flatness is not changed by filing
        Remedy::NotByFiling if item.taken.is_none() => {
            "filing does not mend it: have it flattened, or take another plate".to_owned()
        }
        Remedy::NotByFiling => "filing does not mend it: scrap, unless it can be moved".to_owned(),
        Remedy::MeasureBetter => match item.filing {
            Filing::Neither => "filing does not change it".to_owned(),
            Filing::Lowers | Filing::Raises => "filing would make it worse".to_owned(),
        },
        Remedy::NoRoom => "no reading with so rough an instrument can show that it keeps both \
                           limits"
            .to_owned(),
    }
}

/// What other rows say of the edges that would be filed: `most` is what this row alone permits, `least` what
/// it needs.
fn stopped(
    inspection: &Inspection,
    inspected: &Inspected,
    (most, least): (Option<f64>, f64),
    decimals: usize,
) -> String {
    let item = &inspected.item;
    if item.kind != TakenKind::Length {
        return String::new();
    }
    if item.mended_at().next().is_none() {
        return " (as far as this row alone tells)".to_owned();
    }
    let stops = inspection::stops(inspection, inspected);
    let sooner = |stop: &&Stop| {
        stop.number != item.number && most.is_none_or(|most| stop.amount < most - NOTHING)
    };
    let off = |stop: &Stop| {
        let (edge, number, name) = (&stop.edge, stop.number, &stop.name);
        if stop.depth < NOTHING {
            format!("nothing off “{edge}” (row {number}, {name}, stops it)")
        } else {
            let depth = values::text(item, stop.depth, decimals);
            format!("no more than {depth} off “{edge}” (row {number}, {name}, stops it)")
        }
    };
    let words: Vec<String> = stops.iter().filter(sooner).map(off).collect();
    if words.is_empty() {
        return String::new();
    }
    let reached: f64 = stops.iter().map(|stop| stop.amount).sum();
    let short = if stops.len() == item.mended_at().count() && reached < least {
        ": too little to mend it"
    } else {
        ""
    };
    format!(" by this row, but {}{short}", words.join(", "))
}
