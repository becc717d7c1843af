//! Plates: readings of their thickness and flatness, what the mill may deliver, and what is done to their faces; the
//! edges of the parts.

use super::flatness;
use super::words;
use crate::design::Design;
use crate::geometry::LengthUnit;
use crate::measures::Review;
use crate::measures::TakenKind;
use crate::measures::finish::Step;
use crate::measures::plates::Gauged;
use crate::measures::plates::Stock;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Quantity;
use crate::sheet::Table;

const LENGTH: TakenKind = TakenKind::Length;

pub(super) fn plates(design: &Design, review: &Review) -> Vec<Block> {
    let mut blocks = Vec::new();
    if !review.plates.is_empty() {
        blocks.push(Block::Table(thicknesses(&review.plates)));
        blocks.extend(review.plates.iter().filter_map(stock).map(Block::Paragraph));
    }
    blocks.extend(flatness::flatnesses(&review.flatnesses));
    let unit = design.unit();
    for budget in &review.budgets.edges {
        let mut table = steps(
            format!("{}: work on its edges", budget.part),
            &budget.steps,
            unit,
        );
        let over = words::shown(LENGTH, budget.over.abs(), unit);
        table.notes.push(match budget.over {
            over_line if over_line.abs() < 5e-4 => {
                "The edge ends on the line, with what is laid on it.".to_owned()
            }
            over_line if over_line > 0.0 => {
                format!(
                    "The edge ends {over} outside the line: take off more, or saw nearer to it."
                )
            }
            _ => format!("The edge ends {over} inside the line: saw farther from it."),
        });
        blocks.push(Block::Table(table));
    }
    for budget in &review.budgets.faces {
        let title = format!("{}: work on each face", budget.plate);
        let mut table = steps(title, &budget.steps, unit);
        if let Some((before, after)) = budget.thickness {
            let ends = budget.finished.map(|ends| {
                format!(
                    ", at its thinnest and thickest {}",
                    words::range(LENGTH, ends, unit)
                )
            });
            table.notes.push(format!(
                "Both faces done, {} becomes {}{}: {}.",
                words::shown(LENGTH, before, unit),
                words::shown(LENGTH, after, unit),
                ends.unwrap_or_default(),
                words::verdict(budget.verdict, LENGTH, unit),
            ));
        }
        blocks.push(Block::Table(table));
    }
    blocks
}

fn thicknesses(plates: &[Gauged]) -> Table {
    let mut table = Table::new(
        "Thickness of the plates",
        vec![
            Column::words("Plate", "plate"),
            Column::numbers("Sold as", "nominal"),
            Column::words("Permitted", "permitted"),
            Column::words("Readings", "readings"),
            Column::numbers("Mean", "mean"),
            Column::numbers("Least", "least"),
            Column::numbers("Greatest", "greatest"),
            Column::numbers("Variation", "variation"),
            Column::words("Verdict", "verdict"),
        ],
    );
    for plate in plates {
        let unit = plate.thickness.unit;
        let readings = plate.readings;
        let cell = |value: Option<f64>| words::cell(LENGTH, value, unit);
        let count = readings.map_or(0, |readings| readings.count);
        table.row(vec![
            plate.name.as_str().into(),
            cell(plate.thickness.value()),
            words::permitted(LENGTH, plate.thickness.permitted, unit).into(),
            Cell::Count(i64::try_from(count).unwrap_or(i64::MAX)),
            cell(readings.map(|readings| readings.mean)),
            cell(readings.map(|readings| readings.least)),
            cell(readings.map(|readings| readings.greatest)),
            cell(readings.map(|readings| readings.variation())),
            words::verdict(plate.verdict, LENGTH, unit).into(),
        ]);
    }
    table.notes.push(
        "Every single reading must keep the limits; the mean serves the half-thickness line and the \
         weight."
            .to_owned(),
    );
    table
}

/// What is to be said of ordinary stock.
fn stock(plate: &Gauged) -> Option<String> {
    let (mill, nominal) = (plate.mill?, plate.thickness.value()?);
    let unit = plate.thickness.unit;
    let ends = [nominal - mill.minus, nominal + mill.plus];
    let ordinary = format!(
        "Ordinary {} sold as {} may come from {} ({}; {})",
        plate.material,
        plate.thickness.shown(nominal),
        words::range(LENGTH, ends, unit),
        mill.source,
        mill.mark.words(),
    );
    let measured = plate.readings.is_some();
    Some(match plate.stock? {
        Stock::Trusted => format!("{ordinary}: all of that keeps the limit."),
        Stock::NotTrusted if measured => {
            format!(
                "{ordinary}: it cannot be trusted to keep the limit, but this plate was measured."
            )
        }
        Stock::NotTrusted => format!(
            "{ordinary}: it cannot be trusted to keep the limit. Measure the very plate before buying."
        ),
    })
}

fn steps(title: String, steps: &[Step], unit: LengthUnit) -> Table {
    let mut table = Table::new(
        title,
        vec![
            Column::words("Step", "step"),
            Column::numbers("Takes off", "takes"),
            Column::numbers("Stands outside", "stands"),
        ],
    );
    for step in steps {
        table.row(vec![
            step.what.into(),
            Quantity::length(step.takes, unit).into(),
            Quantity::length(step.stands, unit).into(),
        ]);
    }
    table
}
