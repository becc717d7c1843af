//! What a pattern says about itself, in plain words.

use super::build::Summary;
use super::options::Extent;
use super::options::Face;
use super::options::PatternOptions;
use super::options::PatternPaper;
use super::options::Printer;
use super::options::RoughCut;
use super::points;
use super::points::Centre;
use crate::design::part::EdgeState;
use crate::design::part::Part;
use crate::documents::Stamp;
use crate::geometry::LengthUnit;
use crate::sheet::number::fixed;
use crate::trade::papers;

/// The few lines written on the part itself.
pub(super) fn title(part: &Part, stamp: &Stamp) -> Vec<String> {
    let mut lines = vec![part.name.clone(), stamp.design.clone()];
    if let Some(plate) = &part.plate {
        let thickness = plate.thickness.map_or_else(String::new, |thickness| {
            format!(", {} thick", points::length(thickness, stamp.unit))
        });
        lines.push(format!("{}{thickness}", plate.material));
    }
    if part.quantity > 1 {
        lines.push(format!("make {}", part.quantity));
    }
    lines
}

/// What the maker needs to know first.
pub(super) fn facts(
    parts: &[Part],
    summary: &Summary,
    options: &PatternOptions,
    stamp: &Stamp,
) -> Vec<String> {
    let mut facts = Vec::new();
    let (width, height) = summary.page;
    let sheets = match summary.sheets {
        1 => "1 sheet".to_owned(),
        count => format!("{count} sheets"),
    };
    let saved = match summary.sheets_saved() {
        0 => String::new(),
        count => format!(" ({count} fewer than as drawn)"),
    };
    let lies = match options.paper {
        PatternPaper::Sheets { .. } if width > height => ", landscape",
        PatternPaper::Sheets { .. } => ", portrait",
        PatternPaper::Roll { .. } | PatternPaper::OnePage => "",
    };
    facts.push(format!(
        "{sheets}{saved} of {}{lies}, {} × {} mm. Print at actual size (100 %), not fitted to the page.",
        options.paper.words(),
        fixed(width, 1),
        fixed(height, 1)
    ));
    facts.push(format!(
        "Printer: {}.",
        summary.printer.trim_start_matches("printer ")
    ));
    facts.extend(rough_cut(options.rough_cut, stamp.unit));
    if options.face == Face::Mirrored {
        facts.push("Mirrored: this pattern goes on the other face of the part.".to_owned());
    }
    for part in parts {
        facts.extend(about(part, stamp.unit));
    }
    facts
}

/// Material, quantity and remark of a part.
fn about(part: &Part, unit: LengthUnit) -> Option<String> {
    let mut words = Vec::new();
    if let Some(plate) = &part.plate {
        words.push(plate.material.clone());
        if let Some(thickness) = plate.thickness {
            words.push(format!("{} thick", points::length(thickness, unit)));
        }
        if let Some(face) = &plate.good_face {
            words.push(format!("good face {face}"));
        }
    }
    if part.quantity > 1 {
        words.push(format!("make {}", part.quantity));
    }
    if let Some(note) = &part.note {
        words.push(note.clone());
    }
    (!words.is_empty()).then(|| format!("{}: {}.", part.name, words.join(", ")))
}

/// The work, step by step.
pub(super) fn steps(sheets: usize, options: &PatternOptions) -> Vec<String> {
    let off_even_then = match options.printer {
        Printer::TakenAsTrue => {
            "a printer that is off even then is measured with the command \"kerfwise printer\", and \
             the next pattern undoes its error"
        }
        Printer::Measured(_) => {
            "if they are off even then, it is not the printer, the paper or the setting that was \
             measured: measure it again"
        }
    };
    let mut steps = vec![format!(
        "Lay a steel rule on the scale bars of the first sheet, both ways. If they are off, print again \
         at actual size (100 %); {off_even_then}."
    )];
    if sheets > 1 {
        steps.push(
            "Start with the top left sheet. Of every further sheet cut off the left and the top strip, \
             along the thin line, as its words say; leave the right and the bottom strip on."
                .to_owned(),
        );
        steps.push(
            "Lay the cut edge on the line of its neighbour. It lies right where the tips of the black \
             triangles meet and the long dash-dotted lines run through. Tape it on the back."
                .to_owned(),
        );
        steps.push(
            "Check the dash-dotted lines over all sheets with a straight edge: align to the base line \
             and the perpendicular, not from sheet to sheet."
                .to_owned(),
        );
    }
    steps.push(
        "Verify the distances above before gluing. The letters stand on the pattern.".to_owned(),
    );
    if options.extent == Extent::CornersOnly {
        steps.push(
            "Only the shaped places are printed. Draw both lining-up lines of each sheet on the plate at \
             the distances written on them, and lay the sheet on the two; join the places with a straight \
             edge."
                .to_owned(),
        );
    }
    steps.push(
        "Glue thinly and dry (spray or rubber cement), from the base line outwards. Punch the crosses of holes only, never those of arc centres on a face that stays; \
         prick the line every 10 to 20 mm and at every tick, where straight and round meet."
            .to_owned(),
    );
    steps.push(
        "The middle of the line is the size. Cut on the waste side, beside the line; file until half of \
         the line is gone."
            .to_owned(),
    );
    steps
}

/// What may go wrong.
pub(super) fn cautions(parts: &[Part], notes: &[String], unit: LengthUnit) -> Vec<String> {
    let reach = parts.iter().map(Part::reach).fold(0.0, f64::max);
    let mut cautions = growth(reach, unit).into_iter().collect::<Vec<_>>();
    let has = |wanted: fn(&EdgeState) -> bool| {
        let mut edges = parts.iter().flat_map(|part| &part.edges);
        edges.any(|edge| wanted(&edge.state))
    };
    if has(|state| *state == EdgeState::PlateEdge) {
        cautions.push(
            "Edges with slanting strokes are the plate's own: dress them and lay the line on them; do not \
             cut."
                .to_owned(),
        );
    }
    if has(|state| matches!(state, EdgeState::LeaveOn(_))) {
        cautions.push(
            "Where a strip is left on, the dashed line is the finished edge and the outer line is cut."
                .to_owned(),
        );
    }
    if has(|state| *state == EdgeState::TrimAtFitting) {
        cautions
            .push("Dashed edges marked \"trim\" are trimmed when the part is fitted.".to_owned());
    }
    cautions.extend(notes.iter().cloned());
    cautions
}

/// How much plain paper grows when it gets damp, on a length in millimetres.
fn growth(reach: f64, unit: LengthUnit) -> Option<String> {
    let plain = papers::GROWTHS.first()?;
    let percent =
        |(least, most): (f64, f64)| format!("{} to {} %", fixed(least, 2), fixed(most, 2));
    let length = |(least, most): (f64, f64)| {
        format!(
            "{} to {}",
            points::length(least, unit),
            points::length(most, unit)
        )
    };
    Some(format!(
        "Paper grows when it gets damp: {} {} along the direction it was made in, {} across it. On \
         the {} of this part that is {} along and {} across. Glue late, cut soon; no water-based paste.",
        plain.paper,
        percent(plain.along_range(100.0)),
        percent(plain.across_range(100.0)),
        points::length(reach.round(), unit),
        length(plain.along_range(reach)),
        length(plain.across_range(reach)),
    ))
}

/// Centres that lie off the part, with the distances to find them by.
pub(super) fn far_centres(part: &Part, far: &[Centre], unit: LengthUnit) -> Vec<String> {
    let place = |centre: &Centre| {
        let running = part.datum.running(centre.at);
        let (side, off) = if running.y < 0.0 {
            ("out, away from the part", -running.y)
        } else {
            ("in", running.y)
        };
        format!(
            "R {} at {} along, {} {side}",
            points::length(centre.radius, unit),
            points::length(running.x, unit),
            points::length(off, unit)
        )
    };
    if far.is_empty() {
        return Vec::new();
    }
    let places: Vec<String> = far.iter().map(place).collect();
    vec![format!(
        "{}: centres off the part, from the datum ({}): {}",
        part.name,
        part.datum.words,
        places.join("; ")
    )]
}

/// Names for which there was no room on the sheets: the first of them, and how many more.
pub(super) fn left_out(names: &[String]) -> String {
    /// More than this nobody reads.
    const TOLD: usize = 12;
    let told = names.iter().take(TOLD).map(String::as_str);
    let told = told.collect::<Vec<_>>().join("; ");
    match names.len().saturating_sub(TOLD) {
        0 => format!("no free place on the sheets for: {told}"),
        more => format!("no free place on the sheets for: {told}; and {more} more"),
    }
}

/// What the line to saw to is, for the first page.
fn rough_cut(rough_cut: RoughCut, unit: LengthUnit) -> Option<String> {
    match rough_cut {
        RoughCut::None => None,
        RoughCut::Allowance(allowance) => Some(format!(
            "The thin dashed line, {} outside the finished one, is the line to saw to.",
            points::length(allowance, unit)
        )),
    }
}
