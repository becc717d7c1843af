//! How flat the plates are.

use super::words;
use crate::design::flatness::FlatnessWay;
use crate::measures::TakenKind;
use crate::measures::flatness::Flat;
use crate::measures::plates::Stock;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Table;

const LENGTH: TakenKind = TakenKind::Length;

/// The table of readings, and what is to be said of ordinary stock.
pub(super) fn flatnesses(plates: &[Flat]) -> Vec<Block> {
    if plates.is_empty() {
        return Vec::new();
    }
    let mut blocks = vec![Block::Table(table(plates))];
    blocks.extend(plates.iter().filter_map(stock).map(Block::Paragraph));
    blocks
}

fn table(plates: &[Flat]) -> Table {
    let mut table = Table::new(
        "Flatness of the plates",
        vec![
            Column::words("Plate", "plate"),
            Column::words("What is measured", "how"),
            Column::words("Permitted", "permitted"),
            Column::numbers("Readings", "readings"),
            Column::numbers("Least", "least"),
            Column::numbers("Greatest", "greatest"),
            Column::numbers("Sure to ±", "sure_to"),
            Column::words("With", "with"),
            Column::words("Verdict", "verdict"),
        ],
    );
    for plate in plates {
        let cell = |value: Option<f64>| words::cell(LENGTH, value, plate.unit);
        let readings = plate.readings;
        let count = readings.map_or(0, |readings| readings.count);
        let how = match &plate.flatness.note {
            Some(note) => format!("{}; {note}", measured(plate)),
            None => measured(plate),
        };
        let verdict = match (plate.judgement, readings) {
            (Some(judgement), _) => judgement.verdict.words(),
            (None, Some(_)) => "no limit",
            (None, None) => "not measured yet",
        };
        table.row(vec![
            plate.plate.as_str().into(),
            how.into(),
            words::permitted(LENGTH, plate.permitted(), plate.unit).into(),
            Cell::Count(i64::try_from(count).unwrap_or(i64::MAX)),
            cell(readings.map(|readings| readings.least)),
            cell(readings.map(|readings| readings.greatest)),
            cell(plate.sure_to),
            plate.means.words().into(),
            verdict.into(),
        ]);
    }
    table.notes.push(
        "Every reading counts: the verdict is on the greatest, with the limit drawn in by what it is \
         sure to (g = 2). Lay the straight edge along, across and cornerwise on both faces, and turn \
         it end for end: what changes then is its own."
            .to_owned(),
    );
    table
}

fn measured(plate: &Flat) -> String {
    let over = LENGTH.shown(plate.flatness.over, plate.unit);
    match plate.flatness.way {
        FlatnessWay::Gap => format!("gap under a straight edge of {over}"),
        FlatnessWay::Bow => format!("bow over a span of {over}"),
    }
}

/// What is to be said of ordinary stock.
fn stock(plate: &Flat) -> Option<String> {
    let mill = plate.mill?;
    let source = if plate.flatness.mill.is_some() {
        mill.source.to_owned()
    } else {
        format!(
            "{}; {}; put what the mill itself states into `mill`",
            mill.source,
            mill.mark.words()
        )
    };
    let shown = |value: f64| LENGTH.shown(value, plate.unit);
    let sold_as = plate.nominal.map_or_else(String::new, |nominal| {
        format!(" sold as {}", shown(nominal))
    });
    let ordinary = format!(
        "Ordinary {}{sold_as} may come with a gap of {} over {} ({source})",
        plate.material,
        shown(mill.gap),
        shown(plate.flatness.over),
    );
    let measured = plate.readings.is_some();
    Some(match plate.stock? {
        Stock::Trusted => format!("{ordinary}: all of that is flat enough."),
        Stock::NotTrusted if measured => {
            format!(
                "{ordinary}: it cannot be trusted to be flat enough, but this plate was measured."
            )
        }
        Stock::NotTrusted => format!(
            "{ordinary}: it cannot be trusted to be flat enough. Lay a straight edge on the very plate \
             before buying."
        ),
    })
}
