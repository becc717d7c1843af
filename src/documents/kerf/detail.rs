//! The figures behind the first page: only what kerf changes.

use super::Compared;
use super::words;
use crate::documents::features;
use crate::geometry::LengthUnit;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Quantity;
use crate::sheet::Table;
use crate::sheet::Unit;
use crate::sheet::number::fixed;
use crate::shop::kerf::Case;
use crate::shop::kerf::Comparison;
use crate::shop::kerf::Judged;
use crate::shop::kerf::Kind;
use crate::shop::kerf::Mend;
use crate::shop::kerf::Reading;
use crate::trade::cautions::Step;
use crate::trade::processes::Start;
use crate::trade::processes::iso9013;

pub(super) fn blocks(compared: &Compared<'_>, unit: LengthUnit) -> Vec<Block> {
    let mut blocks = Vec::new();
    if compared.compared().next().is_none() {
        return blocks;
    }
    blocks.push(Block::PageBreak);
    blocks.push(Block::Heading("What the cut takes".to_owned()));
    blocks.push(Block::Table(work(compared, unit)));
    for one in compared.compared() {
        blocks.push(Block::Heading(format!(
            "{}: kerf {}",
            one.process.key,
            features::length_with_unit(one.kerf.value, unit)
        )));
        blocks.push(Block::List(facts(compared, one, unit)));
        if compared.judged.is_empty() {
            blocks.push(Block::Paragraph(
                "Nothing here limits what kerf changes.".to_owned(),
            ));
        } else {
            blocks.push(Block::Table(cases(compared, one, unit)));
        }
    }
    blocks
}

/// Length, starts, time, money, material, side by side.
fn work(compared: &Compared<'_>, unit: LengthUnit) -> Table {
    let columns = vec![
        Column::words("Process", "process"),
        Column::numbers("Length of cut", "length"),
        Column::words("Starts", "starts"),
        Column::words("Minutes", "minutes"),
        Column::words("Cost", "cost"),
        Column::numbers("Material lost", "lost"),
        Column::numbers("Leave on to file", "stock"),
        Column::words("Inside corner left", "corner"),
    ];
    let mut table = Table::new("", columns);
    let mut any_cost = false;
    for one in compared.compared() {
        let Some(work) = &one.work else {
            continue;
        };
        let starts = match work.start {
            Start::Pierces => work.starts.to_string(),
            Start::DrilledHole => format!("{} drilled", work.starts),
            Start::EdgeOnly if work.starts == 0 => "0".to_owned(),
            Start::EdgeOnly => format!("{} it cannot make", work.starts),
        };
        let minutes = work.minutes.map_or("not known".to_owned(), |[fast, slow]| {
            format!("{} to {}", fixed(fast, 1), fixed(slow, 1))
        });
        let cost = work.cost.map_or(String::new(), |cost| {
            any_cost = true;
            let hours = if cost.hours_counted {
                ""
            } else {
                ", without the hours"
            };
            format!(
                "{} to {} {}{hours}",
                fixed(cost.least, 2),
                fixed(cost.most, 2),
                compared.currency
            )
        });
        let lost = Quantity {
            value: work.lost,
            unit: Unit::Area(LengthUnit::Millimetre),
            decimals: 0,
        };
        table.row(vec![
            one.process.key.clone().into(),
            Quantity::length(work.length + work.ways_in, unit).into(),
            starts.into(),
            minutes.into(),
            cost.into(),
            lost.into(),
            Quantity::length(work.stock, unit).into(),
            words::corner(one.corner, unit).into(),
        ]);
    }
    table.notes = vec![
        "Times are by usual feeds, most of them from memory: for asking prices, never for setting a \
         machine. They leave loading and getting through the plate out unless the processes file has \
         `pierce_time`."
            .to_owned(),
        "“Leave on to file” covers the widest kerf, the leaning face and the usual error.".to_owned(),
    ];
    if !any_cost {
        table
            .notes
            .push("For cost state the shop's `rates` in a processes file.".to_owned());
    }
    table
}

fn facts(compared: &Compared<'_>, one: &Comparison, unit: LengthUnit) -> Vec<String> {
    let mm = |value| features::length_with_unit(value, unit);
    let kerf = one.kerf;
    let mut facts = vec![format!(
        "Kerf {} to {} ({}). Compensated, the middle of the cut runs {} outside the outline; not \
         compensated, on it; twice, {} outside.",
        mm(kerf.low),
        mm(kerf.high),
        one.process.kerf.origin.words(),
        mm(0.5 * kerf.value),
        mm(kerf.value)
    )];
    if one.taper > 0.0 {
        let range = if matches!(one.process.step, Step::Laser | Step::Plasma) {
            iso9013::range_of(one.taper, one.thickness).map_or(String::new(), |range| {
                format!(
                    " That is range {range} of ISO 9013 ({}).",
                    iso9013::LEANING_MARK.words()
                )
            })
        } else {
            String::new()
        };
        facts.push(format!(
            "A cut face leans by {}: the part is smaller by half of that all round at the top, and \
             larger by half of it at the bottom.{range}",
            mm(one.taper)
        ));
    }
    facts.extend(
        one.concerns
            .iter()
            .map(|concern| format!("Care: {}.", words::concern(concern, &compared.judged, unit))),
    );
    let web = |case| one.case(case).and_then(|result| result.web);
    if let (Some(right), Some(not)) = (web(Case::Right), web(Case::NotCompensated)) {
        let least = one.process.web.as_ref().map_or(String::new(), |figure| {
            format!("; {} is usual at least", mm(figure.at(one.thickness)))
        });
        facts.push(format!(
            "Narrowest material: {} compensated, {} not{least}.",
            mm(right),
            mm(not)
        ));
    }
    for case in Case::ALL {
        let lost = one.case(case).map(|result| result.lost.as_slice());
        let lost: Vec<String> = lost
            .unwrap_or_default()
            .iter()
            .map(|lost| lost.what.words())
            .collect();
        if !lost.is_empty() {
            facts.push(format!("{}: {}.", case.words(), lost.join("; ")));
        }
    }
    if !one.process.note.is_empty() {
        facts.push(one.process.note.clone());
    }
    facts
}

/// Every limit and fit that kerf changes, in every case.
fn cases(compared: &Compared<'_>, one: &Comparison, unit: LengthUnit) -> Table {
    let mut columns = vec![
        Column::words("What", "what"),
        Column::words("Permitted", "permitted"),
    ];
    let keys = ["compensated", "narrow", "wide", "not_compensated", "twice"];
    for (case, key) in Case::ALL.into_iter().zip(keys) {
        columns.push(Column::words(case.words(), key));
    }
    let mut table = Table::new("Limits and fits that kerf changes", columns);
    let mut unchanged = Vec::new();
    for (index, judged) in compared.judged.iter().enumerate() {
        if judged.mend == Mend::Nothing {
            unchanged.push(judged.name.clone());
            continue;
        }
        let (what, by) = match judged.kind {
            Kind::Limit => (judged.name.clone(), String::new()),
            Kind::Fit => (format!("{}: clearance", judged.name), String::new()),
            Kind::Class(class) => (
                judged.name.clone(),
                format!(" by ISO 2768-{}", class.letter()),
            ),
            Kind::General => (judged.name.clone(), " by ISO 2768-m".to_owned()),
        };
        let permitted = words::permitted(judged, unit);
        let mut row: Vec<Cell> = vec![what.into(), format!("{permitted}{by}").into()];
        for case in Case::ALL {
            let reading = one.case(case).and_then(|result| result.readings.get(index));
            row.push(reading.map_or(Cell::Empty, |reading| cell(judged, reading, unit)));
        }
        table.row(row);
    }
    if one.taper > 0.0 {
        table
            .notes
            .push("From one face to the other; the worse one decides.".to_owned());
    }
    if !unchanged.is_empty() {
        table
            .notes
            .push(format!("No kerf changes: {}.", unchanged.join(", ")));
    }
    table
}

fn cell(judged: &Judged, reading: &Reading, unit: LengthUnit) -> Cell {
    let (Some(least), Some(most)) = (reading.least, reading.most) else {
        return "gone".into();
    };
    let shown = |value| words::value(judged, value, unit);
    let (low, high) = (shown(least), shown(most));
    let span = if low == high {
        low
    } else {
        format!("{} to {high}", low.split(' ').next().unwrap_or(&low))
    };
    if reading.room.is_some_and(|room| room < -1e-6) {
        format!("{span}: {}", words::verdict(judged, reading, unit)).into()
    } else {
        span.into()
    }
}
