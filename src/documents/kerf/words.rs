//! Values and verdicts in a reader's words.

use crate::documents::features;
use crate::geometry::LengthUnit;
use crate::geometry::nearest::InsideCorner;
use crate::measures::TakenKind;
use crate::sheet::number;
use crate::sheet::number::fixed;
use crate::shop::kerf::Case;
use crate::shop::kerf::Comparison;
use crate::shop::kerf::Concern;
use crate::shop::kerf::Judged;
use crate::shop::kerf::Reading;

/// A value of what is judged, with its unit.
pub(super) fn value(judged: &Judged, value: f64, unit: LengthUnit) -> String {
    match judged.counts {
        TakenKind::Length => features::length_with_unit(value, unit),
        TakenKind::Area => format!("{} mm²", fixed(value, 0)),
        TakenKind::Angle => features::degrees(value),
        TakenKind::Weight => format!("{} kg", fixed(value, 3)),
        TakenKind::Number => number::trimmed(value, 3),
    }
}

/// What is permitted: "303.00 to 309.00 mm".
pub(super) fn permitted(judged: &Judged, unit: LengthUnit) -> String {
    let shown = |limit| value(judged, limit, unit);
    match (judged.min, judged.max) {
        (Some(min), Some(max)) => format!("{} to {}", shown(min), shown(max)),
        (Some(min), None) => format!("not less than {}", shown(min)),
        (None, Some(max)) => format!("not more than {}", shown(max)),
        (None, None) => String::new(),
    }
}

/// What a reading outside its limits means: "0.80 mm too large: scrap".
pub(super) fn verdict(judged: &Judged, reading: &Reading, unit: LengthUnit) -> String {
    let (Some(room), Some(worst)) = (reading.room, reading.worst) else {
        return "nothing left to measure".to_owned();
    };
    let side = if judged.max.is_some_and(|max| worst > max) {
        "too large"
    } else {
        "too small"
    };
    let end = if judged.can_be_filed(worst) {
        "can be filed"
    } else {
        "scrap"
    };
    format!("{} {side}: {end}", value(judged, -room, unit))
}

/// What happens in a case, in one line: "fits", or the worst that breaks.
pub(super) fn outcome(
    comparison: &Comparison,
    case: Case,
    all: &[Judged],
    unit: LengthUnit,
) -> String {
    let Some(result) = comparison.case(case) else {
        return String::new();
    };
    if let Some(lost) = result.lost.first() {
        return lost.what.plain_words();
    }
    let broken = comparison.broken(case, all);
    let Some((judged, reading)) = broken.first() else {
        return "fits".to_owned();
    };
    let more = match broken.len() - 1 {
        0 => String::new(),
        more => format!("; {more} more"),
    };
    format!("{} {}{more}", judged.name, verdict(judged, reading, unit))
}

/// What happens when the shop compensates, at the ends of its kerf too.
pub(super) fn compensated(comparison: &Comparison, all: &[Judged], unit: LengthUnit) -> String {
    for case in [Case::Right, Case::Wide, Case::Narrow] {
        if comparison.holds(case, all) {
            continue;
        }
        let said = outcome(comparison, case, all, unit);
        let (_, kerf) = case.line_and_kerf(comparison.kerf);
        return if case == Case::Right && comparison.taper > 0.0 {
            format!("fits, but on a leaning face: {said}")
        } else if case == Case::Right {
            said
        } else {
            format!(
                "fits, but at a kerf of {}: {said}",
                features::length_with_unit(kerf, unit)
            )
        };
    }
    "fits".to_owned()
}

/// What speaks against a way of cutting.
pub(super) fn concern(concern: &Concern, all: &[Judged], unit: LengthUnit) -> String {
    let mm = |value| features::length_with_unit(value, unit);
    let standing = |sure: &bool| if *sure { "stated" } else { "usual" };
    match concern {
        Concern::SmallHole {
            opening,
            has,
            least,
            sure,
        } => format!(
            "“{opening}” is {} across, and the {} smallest hole is {}: have it drilled",
            mm(*has),
            standing(sure),
            mm(*least)
        ),
        Concern::ThinWeb { has, least, sure } => format!(
            "metal of {} between two cuts, and the {} least is {}",
            mm(*has),
            standing(sure),
            mm(*least)
        ),
        Concern::SharpCorner { has, least, sure } => {
            let corner = if *has > 0.0 {
                format!("an inside corner of R {}", mm(*has))
            } else {
                "a sharp inside corner".to_owned()
            };
            format!(
                "{corner}, and the {} smallest radius is {}",
                standing(sure),
                mm(*least)
            )
        }
        Concern::DrilledStarts => "every opening needs a drilled hole to start from".to_owned(),
        Concern::NoOpenings => {
            "it comes from the edge, so the openings have to be made another way".to_owned()
        }
        Concern::StraightOnly => "it only cuts straight, and the outline is curved".to_owned(),
        Concern::TooLong { has, most, sure } => format!(
            "the part is {} long, and {} machines take {}",
            mm(*has),
            standing(sure),
            mm(*most)
        ),
        Concern::TooThick { has, most, sure } => format!(
            "the plate is {} thick, and the {} most is {}",
            mm(*has),
            standing(sure),
            mm(*most)
        ),
        Concern::Inexact {
            usual,
            room,
            judged,
            sure,
        } => format!(
            "it cuts to {} ±{}, and {} has {} to spare: leave metal on and file to the line",
            if *sure { "a stated" } else { "about" },
            mm(*usual),
            all.get(*judged)
                .map_or("a limit", |judged| judged.name.as_str()),
            mm(*room)
        ),
    }
}

/// The sharpest inside corner: "R 0.50 mm".
pub(super) fn corner(corner: InsideCorner, unit: LengthUnit) -> String {
    match corner {
        InsideCorner::None => "none".to_owned(),
        InsideCorner::Sharp { .. } => "sharp".to_owned(),
        InsideCorner::Round { radius, .. } => {
            format!("R {}", features::length_with_unit(radius, unit))
        }
    }
}
