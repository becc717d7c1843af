//! The plates in hand.

use super::amounts::Amounts;
use crate::design::dimensions::Dimension;
use crate::design::file::DesignFile;
use crate::design::file::GoodFace;
use crate::design::located::Named;
use crate::design::located::Word;
use crate::design::part::Plate;

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
