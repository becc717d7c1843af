//! The papers of a trial cut: the form to read it by, and what the readings say.

use crate::design::part::Part;
use crate::design::processes::kerf_table;
use crate::documents::DocumentError;
use crate::documents::Stamp;
use crate::documents::drawing;
use crate::geometry::LengthUnit;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Document;
use crate::sheet::Figure;
use crate::sheet::Quantity;
use crate::sheet::Table;
use crate::sheet::number::trimmed;
use crate::shop::kerf::trial_cut::Found;
use crate::shop::kerf::trial_cut::ROWS;
use crate::shop::kerf::trial_cut::Readings;
use std::fmt::Write;

fn length(value: f64) -> Cell {
    Quantity::length(value, LengthUnit::Millimetre).into()
}

/// The form to read the piece by.
///
/// # Errors
/// As [`drawing::draw`].
pub fn form(part: &Part, stamp: &Stamp) -> Result<Document, DocumentError> {
    let columns = vec![
        Column::words("Row", "row"),
        Column::words("What", "what"),
        Column::numbers("Drawn", "drawn"),
        Column::words("Read at the top", "top"),
        Column::words("Read at the bottom", "bottom"),
    ];
    let mut table = Table::new("Readings in millimetres", columns);
    for row in ROWS {
        table.row(vec![
            i64::from(row.number).to_string().into(),
            row.what.into(),
            length(row.drawn),
            Cell::Blank,
            Cell::Blank,
        ]);
    }
    let drawn = drawing::draw(part, stamp, drawing::SheetSize::A4)?;
    Ok(Document {
        title: stamp.design.clone(),
        footer: stamp.line(),
        blocks: vec![
            Block::List(vec![
                "Have it cut on the line, with no allowance for the kerf, from the plate, with the \
                 nozzle, bit or blade and at the speed of the real part."
                    .to_owned(),
                "Take the burrs off, file nothing. Mark the face where the cut started: that is the top."
                    .to_owned(),
                "Measure with callipers, to 0.02 mm, at the top face and at the bottom face; one of them \
                 is enough if they are the same. Leave out what you cannot reach."
                    .to_owned(),
                "Write the readings into the table beside this form (a text file), and let `kerfwise \
                 trial-cut --readings` say the kerf."
                    .to_owned(),
            ]),
            Block::Table(table),
            Block::PageBreak,
            Block::Figure(Figure {
                picture: drawn.picture,
                caption: format!("The piece, scale {}", drawn.scale),
            }),
        ],
    })
}

/// The table to write the readings into, as comma-separated values.
pub fn readings_form() -> String {
    let mut text =
        "# readings of a trial cut, for kerfwise: millimetres with a decimal point; leave \
                    empty what was not measured\nrow,what,drawn,top,bottom\n"
            .to_owned();
    for row in ROWS {
        let what = row.what.replace(',', "");
        let _ = writeln!(text, "{},{what},{},,", row.number, trimmed(row.drawn, 2));
    }
    text
}

/// What the readings say, and the lines for a processes file: of the process `key`, as stated by `by`,
/// `on` a day; either may be empty.
pub fn result(key: &str, readings: &Readings, found: &Found, by: &str, on: &str) -> Document {
    let mm = |value: f64| format!("{} mm", trimmed(value, 3));
    let mut said = vec![
        format!(
            "Kerf {}, most likely within {} of it.",
            mm(found.kerf),
            mm(found.kerf_uncertainty)
        ),
        format!(
            "A single cut strays up to {} either way (19 times in 20).",
            mm(found.spread)
        ),
    ];
    match found.scale {
        Some(scale) if found.steps_wrong() => said.push(format!(
            "The machine makes lengths {} {}, that is {} on a metre: tell the shop.",
            trimmed(100.0 * scale.abs(), 3),
            if scale > 0.0 { "% too long" } else { "% too short" },
            mm(1000.0 * scale.abs())
        )),
        Some(_) => said.push("The machine's lengths are true as far as this can tell.".to_owned()),
        None => said.push(
            "Outside sizes or openings alone cannot tell a wide cut from a machine that steps short: \
             measure both."
                .to_owned(),
        ),
    }
    if let Some(taper) = found.taper {
        let smaller = if taper >= 0.0 { "top" } else { "bottom" };
        said.push(format!(
            "The cut faces lean by {}: the part is smaller at the {smaller}.",
            mm(taper.abs())
        ));
    }
    let columns = vec![
        Column::words("Row", "row"),
        Column::words("What", "what"),
        Column::numbers("Drawn", "drawn"),
        Column::numbers("Read", "read"),
        Column::numbers("Off the line", "residual"),
    ];
    let mut table = Table::new("Readings", columns);
    for (reading, residual) in readings.all.iter().zip(&found.residuals) {
        table.row(vec![
            reading.row.number.to_string().into(),
            reading.row.what.into(),
            length(reading.row.drawn),
            length(reading.middle()),
            length(*residual),
        ]);
    }
    let lines = kerf_table(
        key,
        (found.kerf, found.spread.max(0.001)),
        found.taper,
        by,
        on,
    );
    let mut blocks = vec![
        Block::List(said),
        Block::Table(table),
        Block::Heading("For the processes file".to_owned()),
    ];
    blocks.extend(lines.lines().map(|line| Block::Paragraph(line.to_owned())));
    Document {
        title: "Kerf by trial cut".to_owned(),
        footer: String::new(),
        blocks,
    }
}
