//! A part in numbers: size, area, weight, openings, edges.

mod fair_curves;

use super::Stamp;
use super::features;
use super::features::Form;
use crate::design::part::Part;
use crate::geometry::LengthUnit;
use crate::geometry::Segment;
use crate::geometry::moments::Moments;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Quantity;
use crate::sheet::Table;
use crate::sheet::Unit;
use crate::trade::TradeError;
use crate::trade::materials;

/// Tables of a part: its numbers (overall size, area, length of its edges, centroid, weight when a
/// density in kg/m³ and a thickness are known), its edges and its openings.
pub fn part_tables(part: &Part, stamp: &Stamp, density: Option<f64>) -> Vec<Block> {
    let unit = stamp.unit;
    let mut blocks = vec![Block::Table(numbers(part, unit, density))];
    if !part.edges.is_empty() {
        blocks.push(Block::Table(edges(part, unit)));
    }
    blocks.extend(fair_curves::fair_curves(part, unit).map(Block::Table));
    if !part.openings.is_empty() {
        blocks.push(Block::Table(openings(part, unit)));
    }
    blocks
}

fn length(millimetres: f64, unit: LengthUnit) -> Cell {
    Quantity::length(millimetres, unit).into()
}

fn area(square_millimetres: f64, unit: LengthUnit) -> Cell {
    let decimals = match unit {
        LengthUnit::Millimetre => 0,
        LengthUnit::Centimetre | LengthUnit::Inch => 2,
        LengthUnit::Foot => 4,
        LengthUnit::Metre => 5,
    };
    Cell::Quantity(Quantity {
        value: square_millimetres / (unit.millimetres() * unit.millimetres()),
        unit: Unit::Area(unit),
        decimals,
    })
}

fn numbers(part: &Part, unit: LengthUnit, density: Option<f64>) -> Table {
    let mut table = Table::new(
        format!("{}: size and weight", part.name),
        vec![
            Column::words("what", "what"),
            Column::numbers("value", "value"),
        ],
    );
    let bounds = features::running_bounds(part, part.region.outer());
    let mut row = |what: &str, cell: Cell| table.row(vec![what.into(), cell]);
    row(
        "overall, along the datum edge",
        length(bounds.width(), unit),
    );
    row("overall, square to it", length(bounds.height(), unit));
    row("area without openings", area(part.region.area(), unit));
    row(
        "outline, all round",
        length(part.region.outer().perimeter(), unit),
    );
    row(
        "all edges, openings too",
        length(part.region.perimeter(), unit),
    );
    if let Ok(moments) = Moments::of_region(&part.region) {
        let running = part.datum.running(moments.centroid);
        row("centroid, along the datum edge", length(running.x, unit));
        row("centroid, square to it", length(running.y, unit));
    }
    let thickness = part.plate.as_ref().and_then(|plate| plate.thickness);
    if let Some(thickness) = thickness {
        row("thickness", length(thickness, unit));
    }
    let weight = density.and_then(|density| part.weight(density));
    if let Some(weight) = weight {
        let kilograms = Quantity {
            value: weight,
            unit: Unit::Kilogram,
            decimals: 3,
        };
        row("weight, edges square", kilograms.into());
    }
    row("quantity", Cell::Count(i64::from(part.quantity)));
    if weight.is_none() {
        let missing = if thickness.is_none() {
            "No weight: the thickness of the plate is not given.".to_owned()
        } else {
            let near = nearest_material(part);
            let near = near
                .map(|near| format!(" Is it {near}?"))
                .unwrap_or_default();
            format!("No weight: the density of the material is not known.{near}")
        };
        table.notes.push(missing);
    }
    table
}

fn edges(part: &Part, unit: LengthUnit) -> Table {
    let mut table = Table::new(
        format!("{}: edges", part.name),
        vec![
            Column::words("edge", "edge"),
            Column::words("form", "form"),
            Column::numbers("length between its corners' roundings", "length"),
            Column::words("state", "state"),
        ],
    );
    for edge in &part.edges {
        let form = match features::form(part, edge) {
            Form::Straight => "straight".to_owned(),
            Form::Full(arc) => format!("full, R {}", features::length(arc.radius(), unit)),
            Form::Hollow(arc) => format!("hollow, R {}", features::length(arc.radius(), unit)),
            Form::Curve(count) => format!("curve of {count} pieces"),
        };
        let state = match features::state(edge.state, unit) {
            state if state.is_empty() => edge.state.name().to_owned(),
            state => state,
        };
        let finished: f64 = edge.finished.iter().map(Segment::length).sum();
        table.row(vec![
            edge.name.clone().into(),
            form.into(),
            length(finished, unit),
            state.into(),
        ]);
    }
    table
}

fn openings(part: &Part, unit: LengthUnit) -> Table {
    let mut table = Table::new(
        format!("{}: openings", part.name),
        vec![
            Column::words("opening", "opening"),
            Column::words("size", "size"),
            Column::numbers("along the datum edge", "along"),
            Column::numbers("square to it", "across"),
            Column::numbers("area", "area"),
            Column::words("made", "made"),
        ],
    );
    for opening in &part.openings {
        let running = part.datum.running(features::opening_centre(part, opening));
        let hole = part.region.holes().get(opening.hole);
        let made = if features::is_drilled(opening) {
            "drilled"
        } else {
            "cut"
        };
        table.row(vec![
            opening.name.clone().into(),
            features::opening_size(part, opening, unit).into(),
            length(running.x, unit),
            length(running.y, unit),
            hole.map_or(Cell::Empty, |hole| area(hole.signed_area().abs(), unit)),
            made.into(),
        ]);
    }
    table
}

/// The known material whose name is nearest to what the part's plate is said to be, if one is near.
fn nearest_material(part: &Part) -> Option<&'static str> {
    let plate = part.plate.as_ref()?;
    match materials::find(&plate.material) {
        Err(TradeError::UnknownMaterial { nearest, .. }) => nearest.first().copied(),
        _ => None,
    }
}

#[cfg(test)]
mod tests;
