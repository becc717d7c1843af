//! Values and verdicts in a reader's words.

use crate::documents::check::words as check;
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
use crate::shop::kerf::Kind;
use crate::shop::kerf::Reading;
use crate::shop::kerf::limits_anything;

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

/// How far a value is from a limit: "0.80 mm"; where the usual digits show nothing, with one more.
pub(super) fn difference(judged: &Judged, by: f64, unit: LengthUnit) -> String {
    if check::shows_nothing(judged.counts, by, unit) {
        check::difference(judged.counts, by, unit)
    } else {
        value(judged, by, unit)
    }
}

/// What a reading outside its limits means: "0.80 mm too large: scrap". Outside the general tolerance
/// nothing is scrap: "0.80 mm too large".
pub(super) fn verdict(judged: &Judged, reading: &Reading, unit: LengthUnit) -> String {
    let (Some(room), Some(worst)) = (reading.room, reading.worst) else {
        return "has nothing left to measure".to_owned();
    };
    let over = judged.max.is_some_and(|max| worst > max);
    let side = match (judged.kind, over) {
        (Kind::Fit, true) => "too loose",
        (Kind::Fit, false) => "too tight",
        (_, true) => "too large",
        (_, false) => "too small",
    };
    let by = difference(judged, -room, unit);
    if check::shows_nothing(judged.counts, room, unit) {
        return format!("at the limit, {by} {side}");
    }
    match (judged.kind, judged.can_be_filed(worst)) {
        (Kind::General, _) => format!("{by} {side}"),
        (_, true) => format!("{by} {side}: can be filed"),
        (_, false) => format!("{by} {side}: scrap"),
    }
}

/// By what a row of the general tolerance is judged.
pub(super) const BY_GENERAL: &str = "by ISO 2768-m, not a limit of the design";

/// What is outside the general tolerance in a case, if anything is.
pub(super) fn remark(
    comparison: &Comparison,
    case: Case,
    all: &[Judged],
    unit: LengthUnit,
) -> Option<String> {
    let beyond = comparison.beyond_general(case, all);
    let (judged, reading) = beyond.first()?;
    let verdict = verdict(judged, reading, unit);
    Some(format!("{} {verdict} ({BY_GENERAL})", judged.name))
}

/// What to say of a way of cutting that breaks no limit.
fn holds(all: &[Judged]) -> &'static str {
    if limits_anything(all) {
        "fits"
    } else {
        "not limited"
    }
}

/// What happens in a case, in one line: "fits" with what is to be remarked, or the worst that breaks.
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
        return lost.what.words();
    }
    let broken = comparison.broken(case, all);
    let Some((judged, reading)) = broken.first() else {
        let remark = remark(comparison, case, all, unit);
        return match remark {
            Some(remark) => format!("{}; {remark}", holds(all)),
            None => holds(all).to_owned(),
        };
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
    let with_kerf = |case: Case| {
        let remark = remark(comparison, case, all, unit)?;
        let (_, kerf) = case.line_and_kerf(comparison.kerf);
        Some(match case {
            Case::Right => remark,
            _ => format!(
                "at a kerf of {} {remark}",
                features::length_with_unit(kerf, unit)
            ),
        })
    };
    let mut cases = [Case::Right, Case::Wide, Case::Narrow].into_iter();
    match cases.find_map(with_kerf) {
        Some(remark) => format!("{}; {remark}", holds(all)),
        None => holds(all).to_owned(),
    }
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
            "material of {} between two cuts, and the {} least is {}",
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
            "it cuts to {} ±{}, and {} has {} to spare: leave material on and work to the line",
            if *sure { "a stated" } else { "about" },
            mm(*usual),
            all.get(*judged)
                .map_or("a limit", |judged| judged.name.as_str()),
            all.get(*judged)
                .map_or_else(|| mm(*room), |judged| difference(judged, *room, unit))
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
