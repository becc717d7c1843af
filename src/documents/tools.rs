//! The table of the nearest tools.

use crate::design::Design;
use crate::design::part::Part;
use crate::geometry::LengthUnit;
use crate::measures::tools;
use crate::measures::tools::Changed;
use crate::measures::tools::Choice;
use crate::measures::tools::Rounding;
use crate::measures::tools::Then;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Quantity;
use crate::sheet::Table;
use crate::sheet::number::with_unit;

/// The nearest of the maker's tools for every radius and hole of the parts; nothing if the design
/// names no tools.
pub(super) fn nearest_tools(design: &Design, parts: &[&Part], unit: LengthUnit) -> Option<Block> {
    let choices = tools::nearest(design, parts);
    if choices.is_empty() {
        return None;
    }
    let several = parts.len() > 1;
    let mut table = Table::new(
        "Nearest tools",
        vec![
            Column::words("For", "for"),
            Column::words("Wanted", "wanted"),
            Column::words("Nearest in hand", "tool"),
            Column::numbers("Off by", "off_by"),
            Column::words("With it", "then"),
        ],
    );
    for choice in &choices {
        let mut features = choice.features.join(", ");
        if several {
            features = format!("{}: {features}", choice.part);
        }
        let tool = match (&choice.tool, choice.rounding) {
            (Some(tool), _) => match &tool.note {
                Some(note) => format!("{}, {note}", tool.name),
                None => tool.name.clone(),
            },
            (None, Rounding::Outside) => "no washer or radius gauge in hand".to_owned(),
            (None, _) => "no drill, hole saw or bit in hand".to_owned(),
        };
        let counted = by_diameter(choice.rounding);
        let error = choice.error().map(|error| error * counted);
        table.row(vec![
            features.into(),
            wanted(choice, unit).into(),
            tool.into(),
            error.map_or(Cell::Empty, |error| Quantity::length(error, unit).into()),
            then(choice, design).into(),
        ]);
    }
    table.notes.push(
        "Sizes as measured, where the file says so. Holes are off by their diameter, corners by their radius; a minus is too small. What a tool really cuts shows \
         in a trial hole: drills cut a little over their size, hole saws more."
            .to_owned(),
    );
    Some(Block::Table(table))
}

/// Holes go by their diameter, corners by their radius: how many radii that is.
const fn by_diameter(rounding: Rounding) -> f64 {
    match rounding {
        Rounding::Hole => 2.0,
        Rounding::Inside | Rounding::Outside => 1.0,
    }
}

/// A hole by its diameter, a corner by its radius.
fn wanted(choice: &Choice, unit: LengthUnit) -> String {
    let shown = |length: f64| with_unit(&Quantity::length(length, unit));
    match choice.rounding {
        Rounding::Hole => format!(
            "hole of {}",
            shown(choice.radius * by_diameter(choice.rounding))
        ),
        Rounding::Inside => format!("inside corner, radius {}", shown(choice.radius)),
        Rounding::Outside => format!("outside corner, radius {}", shown(choice.radius)),
    }
}

fn then(choice: &Choice, design: &Design) -> String {
    let at = |changed: &Changed| match changed {
        Changed::Dimension(name, value) => {
            let unit = design
                .dimensions
                .get(name)
                .map_or(design.unit(), |dimension| dimension.unit);
            let value = with_unit(&Quantity::length(*value, unit));
            format!("“{name}” at {value}, resolved again")
        }
        Changed::Features => "all else as it is, resolved again".to_owned(),
    };
    match &choice.then {
        Then::Nothing if choice.tool.is_some() => "the very size".to_owned(),
        Then::Nothing => String::new(),
        Then::Kept(changed) => format!("every limit is kept ({})", at(changed)),
        Then::Broken(changed, limits) => {
            format!("breaks {} ({})", limits.join(", "), at(changed))
        }
        Then::NotBuilt(changed, why) => format!("cannot be built ({}): {why}", at(changed)),
    }
}
