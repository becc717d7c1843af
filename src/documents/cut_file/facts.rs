//! What stands both at the head of the file and on the order sheet.

use super::CutFile;
use crate::design::flatness::FlatnessWay;
use crate::design::part::Part;
use crate::design::part::Plate;
use crate::design::part::ScrewPurpose;
use crate::documents::features;
use crate::documents::pattern::Face;
use crate::geometry::LengthUnit;
use crate::sheet::Quantity;
use crate::sheet::number::fixed;
use crate::sheet::number::trimmed;
use crate::shop::tool_path::Drilled;
use crate::shop::tool_path::WhyDrilled;
use crate::trade::screws;

/// How the words about the lines of a tool path begin and end.
const MIDDLE_OF_THE_CUT: (&str, &str) = (
    "tool path of the middle of the cut, by ",
    "; not the finished size",
);

/// How the words about the kerf of a tool path begin and end.
const COMPENSATED: (&str, &str) = (
    "compensated in this file for a cut ",
    " wide; nobody compensates again",
);

/// By what a tool path of ours was made, and for which width of cut, as the comments of a file have it; none if
/// they do not say that it is one.
pub fn tool_path_said(comments: &[String]) -> Option<String> {
    // a writer breaks long lines at spaces
    let all = comments.join(" ");
    if !all.contains("kerfwise") {
        return None;
    }
    let within = |(before, after): (&str, &str)| {
        let rest = all.split_once(before)?.1;
        rest.split_once(after).map(|(words, _)| words.to_owned())
    };
    let by = within(MIDDLE_OF_THE_CUT)?;
    let kerf = within(COMPENSATED)?;
    Some(format!("for a cut {kerf} wide, by {by}"))
}

/// One line of what the shop must know.
pub(super) struct Fact {
    pub(super) name: &'static str,
    /// Empty when the design file does not say.
    pub(super) value: String,
}

impl Fact {
    /// In a line.
    pub(super) fn said(&self) -> String {
        format!("{}: {}", self.name, self.value)
    }
}

pub(super) fn facts(file: &CutFile<'_>) -> Vec<Fact> {
    let (part, unit) = (file.part, file.stamp.unit);
    let plate = part.plate.as_ref();
    let bounds = part.region.bounds();
    let fact = |name, value: String| Fact { name, value };
    vec![
        fact("lines", lines(file)),
        fact("kerf", kerf(file)),
        fact(
            "unit",
            format!("1 unit = 1 {} ({})", unit.symbol(), unit.name()),
        ),
        fact(
            "overall size",
            format!(
                "{} × {} {} (x × y){}",
                size(bounds.width(), unit),
                size(bounds.height(), unit),
                unit.symbol(),
                if file.cutting.is_some() {
                    ", the finished part"
                } else {
                    ""
                }
            ),
        ),
        fact(
            "material",
            plate.map_or_else(String::new, |plate| plate.material.clone()),
        ),
        fact(
            "thickness",
            plate.map_or_else(String::new, |plate| thickness(plate, unit)),
        ),
        fact("quantity", part.quantity.to_string()),
        fact("good face", good_face(file)),
        fact("mirrored", mirrored(file)),
        fact("holes to drill", drilled(file)),
        fact("holes for screws", screw_holes(file)),
        fact("to mark only", marked(part)),
    ]
}

/// What is cut of the holes for screws, and what is done to them later.
fn screw_holes(file: &CutFile<'_>) -> String {
    let (part, unit) = (file.part, file.stamp.unit);
    let mut words = Vec::new();
    for group in features::groups(part) {
        let first = group.members.first().and_then(|&i| part.openings.get(i));
        let Some((opening, screw)) = first.and_then(|one| one.screw.as_ref().map(|s| (one, s)))
        else {
            continue;
        };
        let how = if features::is_drilled(opening) {
            "marked here, to be drilled"
        } else {
            match screw.purpose {
                ScrewPurpose::Countersunk { .. } => "the hole is cut, the countersink comes later",
                _ => "cut",
            }
        };
        let what = features::group(part, &group, unit).replace(", drilled", "");
        words.push(format!("{what}: {how}"));
    }
    if words.is_empty() {
        return "none".to_owned();
    }
    format!("{} (sizes {})", words.join("; "), screws::MARK.words())
}

/// A length in the unit with its full decimals.
pub(super) fn size(millimetres: f64, unit: LengthUnit) -> String {
    let quantity = Quantity::length(millimetres, unit);
    fixed(quantity.value, quantity.decimals)
}

fn lines(file: &CutFile<'_>) -> String {
    let Some(cutting) = file.cutting else {
        return "nominal finished size; no kerf allowance".to_owned();
    };
    let allowance = if cutting.setting.allowance > 0.0 {
        format!(
            ", with {} left on every cut edge for finishing",
            features::length_with_unit(cutting.setting.allowance, file.stamp.unit)
        )
    } else {
        String::new()
    };
    format!(
        "{}{}{allowance}{}",
        MIDDLE_OF_THE_CUT.0, cutting.process, MIDDLE_OF_THE_CUT.1
    )
}

fn kerf(file: &CutFile<'_>) -> String {
    let Some(cutting) = file.cutting else {
        return "the shop compensates: it moves the cut to the waste side by half its own kerf"
            .to_owned();
    };
    // with more digits than a size has: half of it is in every coordinate
    let unit = file.stamp.unit;
    let width = trimmed(cutting.setting.kerf / unit.millimetres(), 4);
    format!(
        "{}{width} {}{}",
        COMPENSATED.0,
        unit.symbol(),
        COMPENSATED.1
    )
}

fn thickness(plate: &Plate, unit: LengthUnit) -> String {
    let shown = |value| features::length_with_unit(value, unit);
    let Some(thickness) = plate.thickness else {
        return String::new();
    };
    let mut words = match plate.sold_as() {
        Some(sold_as) => format!("{} as sold, {} measured", shown(sold_as), shown(thickness)),
        None => shown(thickness),
    };
    match plate.permitted() {
        (Some(least), Some(most)) => {
            let (least, most) = (features::length(least, unit), shown(most));
            words = format!("{words}; {least} to {most} permitted");
        }
        (Some(least), None) => words = format!("{words}; not less than {}", shown(least)),
        (None, Some(most)) => words = format!("{words}; not more than {}", shown(most)),
        (None, None) => {}
    }
    if let Some((flatness, max)) = plate
        .flatness
        .as_deref()
        .and_then(|flatness| Some((flatness, flatness.max?)))
    {
        let under = match flatness.way {
            FlatnessWay::Gap => "under a straight edge of",
            FlatnessWay::Bow => "over a span of",
        };
        let (max, over) = (shown(max), shown(flatness.over));
        words = format!("{words}; flat to {max} {under} {over}");
    }
    words
}

fn good_face(file: &CutFile<'_>) -> String {
    let said = file
        .part
        .plate
        .as_ref()
        .and_then(|plate| plate.good_face.as_deref());
    match (said, file.face) {
        (None, _) => String::new(),
        (Some(said), Face::AsDrawn) => said.to_owned(),
        (Some("up, as drawn"), Face::Mirrored) => "down: this file shows the other face".to_owned(),
        (Some("down, as drawn"), Face::Mirrored) => "up: this file shows the other face".to_owned(),
        (Some(said), Face::Mirrored) => format!("{said}; this file shows the other face"),
    }
}

/// Whether the file is a mirror image, and how the plate lies. Nothing is said of a good face that the
/// design does not name.
fn mirrored(file: &CutFile<'_>) -> String {
    let up = match (good_face(file).as_str(), file.face) {
        (face, _) if face.starts_with("up") => ", good face up",
        (face, _) if face.starts_with("down") => ", good face down",
        _ => "",
    };
    match (file.face, &file.part.mirror_of) {
        (Face::AsDrawn, None) => format!("no; cut as drawn{up}"),
        (Face::AsDrawn, Some(other)) => format!(
            "already drawn as the mirror image of “{other}”; cut as drawn{up}, do not mirror again"
        ),
        (Face::Mirrored, _) => format!(
            "yes: the part as seen from its other face; cut as it lies in the file{up}, do not mirror again"
        ),
    }
}

fn drilled(file: &CutFile<'_>) -> String {
    let (part, unit) = (file.part, file.stamp.unit);
    let mut words: Vec<String> = features::groups(part)
        .iter()
        .filter(|group| {
            let first = group.members.first().and_then(|&i| part.openings.get(i));
            first.is_some_and(features::is_drilled)
        })
        .map(|group| features::group(part, group, unit).replace(", drilled", ""))
        .collect();
    let too_small = file
        .cutting
        .iter()
        .flat_map(|cutting| &cutting.path.drilled)
        .filter(|hole| hole.why == WhyDrilled::TooSmall);
    let too_small: Vec<&Drilled> = too_small.collect();
    let named = too_small.iter().map(|hole| {
        let diameter = features::length(hole.diameter, unit);
        format!("{} Ø {diameter}", hole.name)
    });
    words.extend(named);
    if words.is_empty() {
        return "none".to_owned();
    }
    let mut said = format!(
        "{} {}; only their centres are marked, on the layer “drill”: do not cut them",
        words.join(", "),
        unit.symbol()
    );
    if !too_small.is_empty() {
        let names: Vec<&str> = too_small.iter().map(|hole| hole.name.as_str()).collect();
        said = format!("{said}; too small to cut well: {}", names.join(", "));
    }
    said
}

/// What stands on the layer of lines and places that are marked and never cut.
fn marked(part: &Part) -> String {
    let scribes = part.scribes.iter().map(|scribe| scribe.name.as_str());
    let names: Vec<&str> = scribes
        .chain(part.marks.iter().map(|mark| mark.name.as_str()))
        .collect();
    if names.is_empty() {
        return "nothing".to_owned();
    }
    format!(
        "{}; on the layer “mark”: do not cut these lines, mark them or leave them out",
        names.join(", ")
    )
}
