//! The empty form: what to measure, where, what to expect, and room for the readings.

use super::heading;
use super::values;
use crate::design::Design;
use crate::documents::Stamp;
use crate::measures::inspection::Row;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Document;
use crate::sheet::Table;

/// The empty form for these rows of a design.
pub fn form(rows: &[&Row], design: &Design, stamp: &Stamp) -> Document {
    let mut blocks = vec![
        Block::Table(heading::of_form(rows, design, stamp)),
        Block::Table(to_fill_in(rows)),
    ];
    blocks.push(Block::Heading("How".to_owned()));
    blocks.push(Block::List(vec![
        "Take each reading afresh, at least three where two people might read differently. Write what \
         you read, not what you expect."
            .to_owned(),
        "A tape is surer from a mark (100 mm, say) than from its hook; say \"tape from a mark\" if you \
         did so, and take the 100 mm off."
            .to_owned(),
        "Part and instrument should have lain in the same place overnight. Write the temperature down."
            .to_owned(),
        "A thickness is read at several places of the plate: every reading counts.".to_owned(),
    ]));
    blocks.push(Block::Table(heading::signatures()));
    blocks.push(Block::Caution(heading::DECIDES.to_owned()));
    Document {
        title: super::title("To be measured", stamp),
        footer: super::footer(stamp),
        blocks,
    }
}

fn to_fill_in(rows: &[&Row]) -> Table {
    let mut table = Table::new(
        "Readings",
        vec![
            Column::numbers("Row", "row"),
            Column::words("What, and how it is measured", "what"),
            Column::words("Permitted", "permitted"),
            Column::numbers("Expect", "expected"),
            Column::words("Reading", "reading"),
            Column::words("Reading", "reading"),
            Column::words("Reading", "reading"),
            Column::words("With", "with"),
        ],
    );
    for row in rows {
        let item = &row.item;
        let expected = item.expected.map_or(Cell::Empty, |expected| {
            values::cell(item, expected, values::plain_decimals(item))
        });
        let name = match &item.note {
            Some(note) => format!("{} ({note})", item.name),
            None => item.name.clone(),
        };
        table.row(vec![
            i64::try_from(item.number).map_or(Cell::Empty, Cell::Count),
            format!("{name}: {}", item.how).into(),
            item.permitted_words().into(),
            expected,
            Cell::Blank,
            Cell::Blank,
            Cell::Blank,
            Cell::Blank,
        ]);
    }
    table
}
