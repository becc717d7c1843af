//! How a limit is measured, in a reader's words: to the sharp corner or over the rounds, and what the
//! jaws read.

use crate::design::Design;
use crate::design::file::Measure;
use crate::design::part::Part;
use crate::geometry::LengthUnit;
use crate::measures::How;
use crate::measures::Taken;
use crate::measures::TakenKind;
use crate::measures::limits::Judged;
use crate::measures::review;
use crate::sheet::Quantity;
use crate::sheet::number::with_unit;

/// How a limit is measured.
pub fn how(judged: &Judged, design: &Design) -> String {
    match (&judged.taken, &judged.limit.measure) {
        (Some(taken), Some(measure)) => {
            let how = how_taken(taken, design.unit());
            match station(&measure.value, judged, design) {
                Some(station) => format!("{station}, {how}"),
                None => how,
            }
        }
        (Some(taken), None) => how_taken(taken, design.unit()),
        (None, Some(_)) => "when its values are known".to_owned(),
        (None, None) => "cannot be measured: it names no `measure`".to_owned(),
    }
}

/// In which direction a width is taken, and at which station: square to “sole”, 200 mm along it from “heel”.
fn station(measure: &Measure, judged: &Judged, design: &Design) -> Option<String> {
    let Measure::Width(width) = measure else {
        return None;
    };
    let name = judged.limit.part.as_deref()?;
    let mut parts = design.resolved.parts.iter();
    let datum = &parts.find(|part| part.name == name)?.datum;
    let edge = match &datum.edge {
        Some(edge) => format!("“{edge}”"),
        None => "the datum".to_owned(),
    };
    let by = design.dimensions.length(&width.by).ok()?;
    let from = &width.from.value;
    Some(if by == 0.0 {
        format!("square to {edge} at “{from}”")
    } else {
        let by = TakenKind::Length.shown(by, design.unit());
        format!("square to {edge}, {by} along it from “{from}”")
    })
}

/// How a measure is taken, and what jaws read if that is another number.
pub fn how_taken(taken: &Taken, unit: LengthUnit) -> String {
    let words = taken.how.words();
    let Some(jaws) = taken.jaws else {
        return words.to_owned();
    };
    let reading = with_unit(&Quantity::length(jaws.reading, unit));
    match taken.how {
        How::SharpCorner => format!(
            "{words}, which its rounding has taken away: jaws over the rounds read {reading}"
        ),
        _ => format!("{words}; jaws over the rounds read {reading}"),
    }
}

/// The part with a remark more for every limit whose number no jaws read: a drawing that shows a foot of
/// 305 and an overall width of 300.61 has to say why.
pub fn noted(design: &Design, part: &Part) -> Part {
    let unit = design.unit();
    let said = |judged: &Judged| {
        let taken = judged.taken.as_ref()?;
        let here = judged.limit.part.as_deref() == Some(part.name.as_str());
        (here && taken.jaws.is_some()).then(|| {
            let value = with_unit(&Quantity::length(taken.value, unit));
            let name = &judged.limit.name;
            format!("“{name}”, {value}, runs {}.", how_taken(taken, unit))
        })
    };
    let limits = review(design).limits;
    let notes: Vec<String> = part
        .note
        .iter()
        .cloned()
        .chain(limits.iter().filter_map(said))
        .collect();
    Part {
        note: (!notes.is_empty()).then(|| notes.join(" ")),
        ..part.clone()
    }
}
