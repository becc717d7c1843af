//! Readings, limits, differences, verdicts, and what follows.

use super::filing;
use super::rounds;
use super::values;
use crate::measures::inspection::Found;
use crate::measures::inspection::Inspected;
use crate::measures::inspection::Inspection;
use crate::measures::inspection::Item;
use crate::measures::inspection::Judging;
use crate::measures::inspection::Obstacle;
use crate::measures::inspection::Settling;
use crate::measures::uncertainty::temperature;
use crate::measures::verdict::Claimant;
use crate::measures::verdict::Judgement;
use crate::measures::verdict::Side;
use crate::measures::verdict::Verdict;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Table;
use crate::sheet::number::trimmed;

/// What was read.
pub(super) fn readings(inspection: &Inspection) -> Table {
    let mut table = Table::new(
        "What was read",
        vec![
            Column::numbers("Row", "row"),
            Column::words("What", "what"),
            Column::words("How", "how"),
            Column::words("Readings", "readings"),
            Column::words("With", "with"),
            Column::words("°C", "temperature"),
        ],
    );
    let mut unread = false;
    for Inspected { item, found } in &inspection.items {
        let Some(found) = found else { continue };
        let read = found.readings.temperature.or(inspection.rules.temperature);
        unread |= read.is_none();
        let shown = read.map_or_else(|| "not read".to_owned(), |read| trimmed(read, 1));
        let name = match &item.note {
            Some(note) => format!("{} ({note})", item.name),
            None => item.name.clone(),
        };
        table.row(vec![
            count(item.number),
            name.into(),
            rounds::how_read(item, found).into(),
            raw(item, found).into(),
            found.circumstances.means.words().into(),
            shown.into(),
        ]);
        for note in &found.readings.notes {
            table.notes.push(format!("Row {}: {note}", item.number));
        }
    }
    if unread {
        table.notes.push(format!(
            "Temperature not read: taken as {} °C to within {} K.",
            trimmed(temperature::REFERENCE, 0),
            trimmed(temperature::UNREAD_WITHIN, 0)
        ));
    }
    table
}

fn count(number: usize) -> Cell {
    i64::try_from(number).map_or(Cell::Empty, Cell::Count)
}

/// The readings as they were written, in the unit of the form where they had none.
fn raw(item: &Item, found: &Found) -> String {
    let written: Vec<&str> = found
        .readings
        .readings
        .iter()
        .map(|reading| reading.written.as_str())
        .collect();
    let bare = written
        .iter()
        .all(|written| written.ends_with(|last: char| last.is_ascii_digit()));
    let unit = if bare {
        format!(" {}", item.unit_symbol())
    } else {
        String::new()
    };
    format!("{}{unit}", written.join("; "))
}

/// Each value beside its limit.
pub(super) fn comparison(inspection: &Inspection) -> Table {
    let mut table = Table::new(
        "Readings and limits",
        vec![
            Column::numbers("Row", "row"),
            Column::words("What", "what"),
            Column::numbers("Value", "value"),
            Column::words("Nearest limit", "limit"),
            Column::words("Difference", "difference"),
            Column::numbers("Sure to ±", "sure_to"),
            Column::words("Verdict", "verdict"),
        ],
    );
    let mut corrected = Vec::new();
    for inspected in &inspection.items {
        let Inspected { item, found } = inspected;
        let Some(found) = found else { continue };
        let decimals = values::decimals(item, found.budget.combined.standard);
        let sure = found.factor * found.budget.combined.standard;
        let (limit, difference, verdict) = match &found.judgement {
            Some(judgement) => (
                limit_words(item, judgement),
                match &found.otherwise {
                    Some(other) => rounds::or_over_the_rounds(item, judgement, other, decimals),
                    None => difference_words(item, judgement, decimals),
                },
                inspected.verdict().map_or("", Verdict::words).to_owned(),
            ),
            None => ("none".to_owned(), String::new(), String::new()),
        };
        table.row(vec![
            count(item.number),
            item.name.as_str().into(),
            values::cell(item, found.budget.value, decimals),
            limit.into(),
            difference.into(),
            values::cell(item, sure, decimals),
            verdict.into(),
        ]);
        table.notes.extend(rounds::brought(item, found, decimals));
        if found.budget.correction.abs() >= found.budget.combined.standard / 10.0 {
            corrected.push(format!(
                "{} by {}",
                item.number,
                values::text(item, found.budget.correction, decimals)
            ));
        }
    }
    let kinds = inspection.items.iter().filter_map(|inspected| {
        let found = inspected.found.as_ref()?;
        (found.sample.count > 1).then_some(inspected.item.judging)
    });
    let kinds: Vec<Judging> = kinds.collect();
    if kinds.contains(&Judging::Mean) {
        let note = "The value of a row with several readings is their mean.";
        table.notes.push(note.to_owned());
    }
    if kinds.contains(&Judging::Each) {
        let note = "Every reading of a plate must keep the limits: the value is the worst of them.";
        table.notes.push(note.to_owned());
    }
    if !corrected.is_empty() {
        table.notes.push(format!(
            "Brought to 20 °C, for the part grows with heat otherwise than the scale: row {}.",
            corrected.join(", row ")
        ));
    }
    table
}

fn limit_words(item: &Item, judgement: &Judgement) -> String {
    let limit = item.shown(judgement.limit);
    match judgement.side {
        Side::Least => format!("at least {limit}"),
        Side::Most => format!("at most {limit}"),
    }
}

pub(super) fn difference_words(item: &Item, judgement: &Judgement, decimals: usize) -> String {
    let by = values::text(item, judgement.inside.abs(), decimals);
    if judgement.inside < 0.0 {
        format!("{by} outside")
    } else {
        format!("{by} inside")
    }
}

/// What the whole comes to for the one who claims.
pub(super) fn summary(inspection: &Inspection) -> String {
    let [conform, not, close, open] = [
        Verdict::Conforms,
        Verdict::DoesNotConform,
        Verdict::TooClose,
        Verdict::NotDecided,
    ]
    .map(|verdict| inspection.count(verdict));
    let missing = inspection.missing().count();
    let limits = conform + not + close + open + missing;
    let counts = format!(
        "Of {limits} limits {conform} {}, {not} {}, {close} {} too close to call{}{}.",
        if conform == 1 {
            "is shown to be kept"
        } else {
            "are shown to be kept"
        },
        if not == 1 {
            "is shown to be broken"
        } else {
            "are shown to be broken"
        },
        if close == 1 { "is" } else { "are" },
        match open {
            0 => String::new(),
            1 => ", 1 is not decided, for nothing says what was read".to_owned(),
            _ => format!(", {open} are not decided, for nothing says what was read"),
        },
        if missing == 0 {
            String::new()
        } else {
            format!(", {missing} not measured")
        }
    );
    let claim = match inspection.rules.claimant {
        Claimant::Maker if conform == limits && limits > 0 => {
            "The maker's claim that the part keeps its limits is shown."
        }
        Claimant::Maker => "The maker's claim that the part keeps its limits is not shown.",
        Claimant::Inspector if not > 0 => {
            "The inspector's claim that the part does not keep its limits is shown."
        }
        Claimant::Inspector => {
            "The inspector's claim that the part does not keep its limits is not shown."
        }
    };
    format!("{counts} {claim}")
}

/// What can still be done, row by row.
pub(super) fn what_follows(inspection: &Inspection) -> Vec<String> {
    let mut lines = Vec::new();
    for inspected in &inspection.items {
        let Inspected { item, found } = inspected;
        let Some(found) = found else { continue };
        let (Some(judgement), Some(verdict)) = (&found.judgement, inspected.verdict()) else {
            continue;
        };
        let decimals = values::decimals(item, found.budget.combined.standard);
        let remedy =
            |judgement: &Judgement| filing::remedy(inspection, inspected, judgement, decimals);
        let mut words: Vec<String> = match &found.otherwise {
            Some(otherwise) => rounds::unsaid(inspected, otherwise, decimals, remedy)
                .into_iter()
                .collect(),
            None => vec![remedy(judgement)],
        };
        if let Some(settling) = &found.settling {
            words.push(settles(item, settling, found));
        }
        words.retain(|words| !words.is_empty());
        if !words.is_empty() {
            lines.push(format!(
                "{} {}, {}: {}",
                item.number,
                item.name,
                verdict.words(),
                words.join("; ")
            ));
        }
    }
    lines
}

/// What would settle it.
fn settles(item: &Item, settling: &Settling, found: &Found) -> String {
    if let Some(means) = &settling.instrument {
        return format!(
            "{} would settle it, if it reads the same",
            article(&means.words())
        );
    }
    let now = found.circumstances.means.words();
    match settling.obstacle {
        Some(Obstacle::Scatter) => {
            return "the readings are too few, or too far apart, for any instrument to settle it: take \
                    more"
            .to_owned();
        }
        Some(Obstacle::Temperature) => {
            return "no instrument settles it while the temperature is so little known: let part and \
                    instrument lie side by side, and read it"
            .to_owned();
        }
        None => {}
    }
    if settling.needed <= 0.0 || values::text(item, settling.needed, 3).starts_with("0.000 ") {
        return "it reads the limit itself, which no instrument settles".to_owned();
    }
    format!(
        "an instrument that is off by no more than {} would settle it, if it reads the same; {} is \
         not enough",
        values::text(item, settling.needed, 3),
        article(&now)
    )
}

fn article(name: &str) -> String {
    let vowel = name.starts_with(['a', 'e', 'i', 'o', 'u']);
    format!("{} {name}", if vowel { "an" } else { "a" })
}
