//! Sizes over all: whether parts go on their plates, and whether the unit is likely to be meant.

use super::taken::TakenKind;
use crate::design::Design;
use crate::design::DesignError;
use crate::design::error::MeasureFault;
use crate::design::part::Part;
use crate::design::part::Plate;
use crate::geometry::LengthUnit;
use crate::geometry::Segment;
use crate::geometry::oversize::Oversize;
use crate::trade::usual_sizes;

/// What is wrong with the sizes of parts and plates. A part that does not go on a plate of known size is an
/// error; a size that few parts or plates have is a notice. Mirror images are as large as their originals.
pub(super) fn findings(design: &Design) -> Vec<DesignError> {
    let parts = design.resolved.parts.iter();
    let parts: Vec<&Part> = parts.filter(|part| part.mirror_of.is_none()).collect();
    let on_plates = parts.iter().filter_map(|part| off_plate(design, part));
    let of_parts = parts.iter().filter_map(|part| unlikely_part(design, part));
    let plates = design.resolved.plates.iter();
    let of_plates = plates.filter_map(unlikely_plate);
    on_plates.chain(of_parts).chain(of_plates).collect()
}

/// The error that a part is larger than its plate.
fn off_plate(design: &Design, part: &Part) -> Option<DesignError> {
    let plate = part.plate.as_ref()?;
    let (along, across) = plate.size?;
    let lines: Vec<&Segment> = part.region.outer().segments().collect();
    let over = Oversize::of(&lines, [along, across])?;
    let (kind, unit) = (TakenKind::Length, design.unit());
    let (measured, room) = over.worse();
    let more = kind.decimals_to_tell(measured, room, unit);
    let shown = |[long, short]: [f64; 2]| {
        let shown = |side| kind.shown_finer(side, unit, more);
        format!("{} × {}", shown(long), shown(short))
    };
    let fault = MeasureFault::LargerThanPlate {
        part: part.name.clone(),
        size: shown(over.size),
        plate: plate.name.clone(),
        plate_size: shown(over.sheet),
    };
    let written = design.file.plate.get(&plate.name)?;
    let place = written.entry.size.as_ref()?.place;
    let error = DesignError::new(fault, place).with_help("take a larger plate, or check the unit");
    Some(match design.file.part.get(&part.name) {
        Some(part) => error.with_also(part.name.place, "the part is here"),
        None => error,
    })
}

/// The notice that a part is so long or short that its unit may be another.
fn unlikely_part(design: &Design, part: &Part) -> Option<DesignError> {
    let bounds = part.region.bounds();
    let length = bounds.width().max(bounds.height());
    let (than, limit) = if length > usual_sizes::LONGEST_PART {
        ("longer", usual_sizes::LONGEST_PART)
    } else if length < usual_sizes::SHORTEST_PART {
        ("shorter", usual_sizes::SHORTEST_PART)
    } else {
        return None;
    };
    let fault = unlikely(
        (format!("the part `{}`", part.name), "over all"),
        (length, than, limit),
        design.unit(),
    );
    let place = design.file.part.get(&part.name)?.name.place;
    Some(DesignError::notice(fault, place).with_help(is_unit_right(design.unit())))
}

/// The notice that a plate is so thick or thin that its unit may be another.
fn unlikely_plate(plate: &Plate) -> Option<DesignError> {
    let thickness = plate.thickness?;
    let (than, limit) = if thickness > usual_sizes::THICKEST_PLATE {
        ("thicker", usual_sizes::THICKEST_PLATE)
    } else if thickness < usual_sizes::THINNEST_PLATE {
        ("thinner", usual_sizes::THINNEST_PLATE)
    } else {
        return None;
    };
    let gauged = plate.gauged.as_deref()?;
    let fault = unlikely(
        (format!("the plate `{}`", plate.name), "thick"),
        (thickness, than, limit),
        gauged.unit,
    );
    Some(DesignError::notice(fault, gauged.value_place).with_help(is_unit_right(gauged.unit)))
}

fn unlikely(
    (what, way): (String, &'static str),
    (size, than, limit): (f64, &'static str, f64),
    unit: LengthUnit,
) -> MeasureFault {
    let kind = TakenKind::Length;
    let more = kind.decimals_to_tell(size, limit, unit);
    MeasureFault::UnlikelySize {
        what,
        way,
        size: kind.shown_finer(size, unit, more),
        than,
        limit: kind.shown_finer(limit, unit, more),
    }
}

fn is_unit_right(unit: LengthUnit) -> String {
    let symbol = unit.symbol();
    format!("is the unit right? a number without one is in {symbol} here")
}

#[cfg(test)]
mod tests;
