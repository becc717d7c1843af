//! The known ways of cutting, as a list.

use crate::geometry::LengthUnit;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Document;
use crate::sheet::Quantity;
use crate::sheet::Table;
use crate::sheet::number::trimmed;
use crate::trade::Process;
use crate::trade::Processes;
use crate::trade::processes::ByThickness;
use crate::trade::processes::Origin;

/// Thickness in millimetres that the list is for.
const SHOWN_FOR: f64 = 6.0;

/// The known ways of cutting: kerf, smallest features, what each cuts, and who says so.
pub fn processes(known: &Processes) -> Document {
    let columns = vec![
        Column::words("Process", "process"),
        Column::numbers("Kerf", "kerf"),
        Column::words("usually, mm", "between"),
        Column::numbers("Smallest hole", "smallest_hole"),
        Column::numbers("Web", "web"),
        Column::words("Cuts", "cuts"),
        Column::words("Kerf known from", "origin"),
    ];
    let title = format!("Figures for plate of {} mm", trimmed(SHOWN_FOR, 0));
    let mut table = Table::new(title, columns);
    for process in &known.all {
        table.row(row(process));
    }
    table.notes = vec![
        "None of it is a promise. Ask the shop, cut a test piece, and state what you find in a file: \
         `kerfwise processes --out FILE` writes one to edit, `--processes FILE` uses it."
            .to_owned(),
        "What is from memory or usual practice warns, and fails no part.".to_owned(),
    ];
    let refused: Vec<String> = known
        .all
        .iter()
        .flat_map(|process| {
            process.never.iter().map(|refusal| {
                format!(
                    "{}: never {}, because {}.",
                    process.key,
                    refusal.of.word(),
                    refusal.why
                )
            })
        })
        .collect();
    let mut blocks = vec![Block::Table(table)];
    if !refused.is_empty() {
        blocks.push(Block::Heading("Never".to_owned()));
        blocks.push(Block::List(refused));
    }
    Document {
        title: "Ways of cutting".to_owned(),
        footer: String::new(),
        blocks,
    }
}

fn row(process: &Process) -> Vec<Cell> {
    let kerf = &process.kerf;
    let size = |figure: Option<&ByThickness>| {
        figure.map_or(Cell::Empty, |figure| length(figure.at(SHOWN_FOR)))
    };
    let cuts: Vec<&str> = process.cuts.iter().map(|of| of.word()).collect();
    vec![
        process.key.clone().into(),
        length(kerf.at(SHOWN_FOR)),
        between(kerf, SHOWN_FOR).into(),
        size(process.smallest_hole.as_ref()),
        size(process.web.as_ref()),
        cuts.join(", ").into(),
        standing(&kerf.origin).into(),
    ]
}

/// Who stands behind a figure, without the title of the book.
fn standing(origin: &Origin) -> String {
    match origin {
        Origin::Trade { mark, .. } => mark.words().to_owned(),
        Origin::Stated { .. } => origin.words(),
    }
}

fn length(value: f64) -> Cell {
    Quantity::length(value, LengthUnit::Millimetre).into()
}

/// "0.8 to 1.3": between what a figure usually lies.
fn between(figure: &ByThickness, thickness: f64) -> String {
    format!(
        "{} to {}",
        trimmed(figure.low(thickness), 2),
        trimmed(figure.high(thickness), 2)
    )
}
