//! The empty form: what to measure, where, what to expect, and room for the readings.

use super::heading;
use super::rounds;
use super::values;
use crate::design::Design;
use crate::documents::Stamp;
use crate::documents::check::words;
use crate::documents::jaws;
use crate::documents::jaws::Labelled;
use crate::measures::inspection::Item;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Document;
use crate::sheet::Figure;
use crate::sheet::Table;

/// The empty form for these items of a design.
pub fn form(items: &[&Item], design: &Design, stamp: &Stamp) -> Document {
    let mut blocks = vec![
        Block::Table(heading::of_form(items, design, stamp)),
        Block::Table(to_measure(items)),
        Block::Caution(heading::DECIDES.to_owned()),
    ];
    blocks.extend(pictures(items, design).map(Block::Figure));
    blocks.push(Block::Table(to_fill_in(items)));
    blocks.push(Block::Heading("How".to_owned()));
    let mut how = vec![
        "Take each reading afresh, at least three where two people might read differently. Write what \
         you read, not what you expect."
            .to_owned(),
        "A tape is surer from a mark (100 mm, say) than from its hook; say “tape from a mark” if you \
         did so, and take the 100 mm off."
            .to_owned(),
        "Part and instrument should have lain in the same place overnight. Write the temperature down."
            .to_owned(),
    ];
    if items.iter().any(|item| item.ways_of_reading().is_some()) {
        how.push(
            "A row that ends at a rounding has two figures. Write what you read, and which of the two \
             it is; jaws over the rounds are brought to the other figure for you, the rounds as drawn. \
             Where that is not said the row may stay undecided."
                .to_owned(),
        );
    }
    blocks.push(Block::List(how));
    blocks.push(Block::Table(heading::signatures()));
    Document {
        title: super::title("To be measured", stamp),
        footer: super::footer(stamp),
        blocks,
    }
}

/// Where each item is measured that is measured between points of its part.
fn pictures(items: &[&Item], design: &Design) -> Option<Figure> {
    let mut shown: Vec<Labelled<'_>> = Vec::new();
    for item in items {
        let mut parts = design.resolved.parts.iter();
        let part = parts.find(|part| part.name == item.part);
        if let (Some(part), Some(taken)) = (part, &item.taken) {
            let label = item.number.to_string();
            shown.push(Labelled { label, part, taken });
        }
    }
    jaws::in_rows(&shown, "Where each row is measured, by its number")
}

fn number(item: &Item) -> Cell {
    i64::try_from(item.number).map_or(Cell::Empty, Cell::Count)
}

/// What is measured, how, and what to expect.
fn to_measure(items: &[&Item]) -> Table {
    let mut table = Table::new(
        "What is measured",
        vec![
            Column::numbers("Row", "row"),
            Column::words("What", "what"),
            Column::words("How", "how"),
            Column::words("Permitted", "permitted"),
            Column::numbers("Expect", "expected"),
        ],
    );
    for item in items {
        let expected = item
            .expected
            .map_or(Cell::Empty, |expected| values::plain(item, expected).into());
        let name = match &item.note {
            Some(note) => format!("{} ({note})", item.name),
            None => item.name.clone(),
        };
        table.row(vec![
            number(item),
            name.into(),
            super::how_to_read(item).into(),
            words::permitted(item.kind, item.permitted, item.unit).into(),
            expected,
        ]);
    }
    table
}

/// Room for the readings.
fn to_fill_in(items: &[&Item]) -> Table {
    let ways = items.iter().any(|item| item.ways_of_reading().is_some());
    let mut columns = vec![
        Column::numbers("Row", "row"),
        Column::words("Unit", "unit"),
        Column::words("Reading", "reading"),
        Column::words("Reading", "reading"),
        Column::words("Reading", "reading"),
    ];
    if ways {
        columns.push(Column::words("Taken (strike one out)", "taken"));
    }
    columns.push(Column::words("With", "with"));
    let mut table = Table::new("Readings", columns);
    for item in items {
        let mut row = vec![
            number(item),
            item.unit_symbol().into(),
            Cell::Blank,
            Cell::Blank,
            Cell::Blank,
        ];
        if ways {
            let both = rounds::both_ways(item).map(|both| both.replace('`', ""));
            row.push(both.map_or(Cell::Empty, Cell::from));
        }
        row.push(Cell::Blank);
        table.row(row);
    }
    table
}
