//! Where something is measured, in a measurer's words.

use crate::design::Design;
use crate::design::file::Measure;
use crate::design::file::measure::SizeWay;
use crate::design::file::measure::Way;
use crate::design::flatness::Flatness;
use crate::design::flatness::FlatnessWay;
use crate::geometry::LengthUnit;
use crate::geometry::number;

/// Where the thickness of a plate is measured.
pub(super) const THICKNESS: &str = "across the faces, at several places; every reading counts";

/// Where the flatness of a plate is measured.
pub(super) fn flatness(flatness: &Flatness, unit: LengthUnit) -> String {
    let over = length(flatness.over, unit);
    match flatness.way {
        FlatnessWay::Gap => format!(
            "widest gap under a straight edge of {over}, laid along, across and cornerwise; every \
             reading counts"
        ),
        FlatnessWay::Bow => format!(
            "deepest hollow below a line over a span of {over}, along, across and cornerwise; every \
             reading counts"
        ),
    }
}

/// A length with a hundredth of a millimetre, a thousandth of an inch.
fn length(millimetres: f64, unit: LengthUnit) -> String {
    let decimals = if unit == LengthUnit::Millimetre { 2 } else { 3 };
    let value = number::trimmed(millimetres / unit.millimetres(), decimals);
    format!("{value} {}", unit.symbol())
}

/// Where a measure is taken.
pub(super) fn place(measure: &Measure, design: &Design) -> String {
    let length = |millimetres: f64| length(millimetres, design.unit());
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
        Measure::Bow(name) => format!(
            "height of “{}” over the straight line between its ends",
            name.value
        ),
        Measure::Size(size) => {
            let way = match size.way.value {
                SizeWay::Width => "width",
                SizeWay::Height => "height",
            };
            format!("{way} of “{}”, from side to side", size.of.value)
        }
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
