//! Where something is measured, in a measurer's words.

use crate::design::Design;
use crate::design::file::Measure;
use crate::design::file::measure::Way;
use crate::geometry::LengthUnit;
use crate::geometry::number;

/// Where the thickness of a plate is measured.
pub(super) const THICKNESS: &str = "across the faces, at several places; every reading counts";

/// Where a measure is taken.
pub(super) fn place(measure: &Measure, design: &Design) -> String {
    let unit = design.unit();
    // a hundredth of a millimetre, a thousandth of an inch
    let decimals = if unit == LengthUnit::Millimetre { 2 } else { 3 };
    let length = |millimetres: f64| {
        let value = number::trimmed(millimetres / unit.millimetres(), decimals);
        format!("{value} {}", unit.symbol())
    };
    match measure {
        Measure::Weight => "the whole part".to_owned(),
        Measure::Area => "one face".to_owned(),
        Measure::Thickness => THICKNESS.to_owned(),
        Measure::Width(width) => {
            let station = match design.dimensions.length(&width.by) {
                Ok(by) if by.abs() > 0.0 => format!("{} from “{}”", length(by), width.from.value),
                _ => format!("at “{}”", width.from.value),
            };
            format!("across the part, {station}, square to the datum edge")
        }
        Measure::Distance(distance) => {
            let [from, to] = [&distance.from.value, &distance.to.value];
            format!("straight from “{from}” to “{to}”")
        }
        Measure::Radius(name) => format!("radius of “{}”", name.value),
        Measure::Diameter(name) => format!("diameter of “{}”", name.value),
        Measure::Angle(between) => {
            let [one, other] = &between.between;
            format!("angle between “{}” and “{}”", one.value, other.value)
        }
        Measure::Strip(between) => {
            let [one, other] = &between.between;
            format!(
                "narrowest material between “{}” and “{}”",
                one.value, other.value
            )
        }
        Measure::EdgeDistance(of) => match &of.to {
            Some(to) => format!("from the rim of “{}” to “{}”", of.of.value, to.value),
            None => format!("from the rim of “{}” to the nearest edge", of.of.value),
        },
        Measure::Position(position) => {
            let from = position
                .from
                .as_ref()
                .map_or("the datum point", |from| &from.value);
            let way = match position.way.value {
                Way::Along => "along the datum edge",
                Way::Square => "square to the datum edge",
            };
            format!("from {from} to “{}”, {way}", position.of.value)
        }
        Measure::Along(along) => format!(
            "along “{}” from “{}” to “{}”",
            along.along.value, along.from.value, along.to.value
        ),
    }
}
