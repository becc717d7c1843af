//! The plates in hand.

use super::amounts::Amounts;
use crate::design::dimensions::Dimension;
use crate::design::error::DimensionFault;
use crate::design::file::DesignFile;
use crate::design::file::GoodFace;
use crate::design::flatness::Flatness;
use crate::design::flatness::FlatnessWay;
use crate::design::located::Amount;
use crate::design::located::Located;
use crate::design::located::Named;
use crate::design::located::Word;
use crate::design::part::Plate;
use crate::design::resolve::PartFault;
use crate::geometry::number::shown;

/// The plates of the file, in its order.
pub(super) fn plates(file: &DesignFile, amounts: &mut Amounts<'_>) -> Vec<Plate> {
    file.plate
        .iter()
        .map(|named| plate(named, amounts))
        .collect()
}

fn plate(named: &Named<crate::design::file::Plate>, amounts: &mut Amounts<'_>) -> Plate {
    let entry = &named.entry;
    let good_face = entry.good_face.as_ref().map(|face| match face.value {
        GoodFace::Up => "up, as drawn",
        GoodFace::Down => "down, as drawn",
        GoodFace::Both => "both",
        GoodFace::Either => "either",
    });
    let gauged = thickness(named, amounts);
    Plate {
        name: named.name.value.clone(),
        material: entry
            .material
            .as_ref()
            .map(|word| word.value.clone())
            .unwrap_or_default(),
        // a plate that was measured is as thick as it was measured, whatever it was sold as
        thickness: gauged
            .as_ref()
            .and_then(|gauged| gauged.mean_reading().or_else(|| gauged.value())),
        gauged: gauged.map(Box::new),
        flatness: entry
            .flatness
            .as_ref()
            .and_then(|flatness| self::flatness(&named.name, flatness, amounts))
            .map(Box::new),
        size: entry
            .size
            .as_ref()
            .and_then(|size| amounts.lengths(size))
            .map(|[a, b]| (a, b)),
        good_face: good_face.map(str::to_owned),
    }
}

/// The thickness; messages call it by the plate's name.
fn thickness(
    named: &Named<crate::design::file::Plate>,
    amounts: &mut Amounts<'_>,
) -> Option<Dimension> {
    let entry = named.entry.thickness.as_ref()?;
    let name = Word::new(
        named.name.place,
        format!("thickness of {}", named.name.value),
    );
    amounts.entry(&name, entry)
}

/// The flatness; what is wrong with it is reported.
fn flatness(
    plate: &Word,
    written: &Located<crate::design::file::Flatness>,
    amounts: &mut Amounts<'_>,
) -> Option<Flatness> {
    let entry = &written.value;
    // the reader has seen to it that there is one of them
    let (way, over) = match (&entry.straight_edge, &entry.span) {
        (Some(over), _) => (FlatnessWay::Gap, over),
        (None, span) => (FlatnessWay::Bow, span.as_ref()?),
    };
    let what = match way {
        FlatnessWay::Gap => "straight edge",
        FlatnessWay::Bow => "span",
    };
    let place = over.place;
    let over = amounts.length(over);
    if let Some(value) = over.filter(|over| *over <= 0.0) {
        let opening = plate.value.clone();
        let fault = PartFault::NotPositive {
            opening,
            what,
            value,
        };
        amounts.fault(fault, place, "give the length that was measured over");
    }
    let mut depth = |what: &str, amount: &Amount| {
        let value = amounts.length(amount)?;
        if value >= 0.0 {
            return Some(value);
        }
        let fault = DimensionFault::Negative {
            what: format!("{what} of `{}`", plate.value),
            value: format!("{} mm", shown(&value)),
        };
        let help =
            "a gap is 0 or more: measure a hump as the gaps beside it, or from the other face";
        amounts.fault(fault, amount.place, help);
        None
    };
    let max = entry.max.as_ref();
    let max = max.and_then(|max| depth("the flatness", max));
    let mill = entry.mill.as_ref();
    let mill = mill.and_then(|mill| depth("the flatness", mill));
    let readings = entry.readings.iter();
    let (readings, reading_places) = readings
        .filter_map(|reading| Some((depth("a reading of the flatness", reading)?, reading.place)))
        .unzip();
    Some(Flatness {
        way,
        over: over.filter(|over| *over > 0.0)?,
        readings,
        max,
        mill,
        with: entry.with.as_ref().map(|with| with.value.clone()),
        with_place: entry.with.as_ref().map_or(written.place, |with| with.place),
        note: entry.note.as_ref().map(|note| note.value.clone()),
        place: written.place,
        reading_places,
    })
}
