//! The same rules on a part of ours, before its file is sent.

use super::report::findings_table;
use crate::checks;
use crate::checks::Finding;
use crate::checks::Grade;
use crate::checks::Limits;
use crate::checks::Run;
use crate::checks::SheetSize;
use crate::checks::Subject;
use crate::design::part::Part;
use crate::documents::features;
use crate::geometry::Contour;
use crate::geometry::LengthUnit;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::sheet::Block;

/// What the rules find on the part, as blocks of a report, and whether something is of error grade. Holes
/// to drill are not cut, and not looked at.
pub fn before_sending(
    part: &Part,
    limits: &Limits,
    sheet: Option<SheetSize>,
    shown_in: LengthUnit,
) -> (Vec<Block>, bool) {
    let findings = findings(part, limits, sheet, shown_in);
    let wrong = findings.iter().any(|f| f.grade == Grade::Error);
    let heading = Block::Heading(format!("Before sending “{}”", part.name));
    if findings.is_empty() {
        let said = "Nothing was found that a shop would send back.".to_owned();
        return (vec![heading, Block::Paragraph(said)], false);
    }
    let place = |source: SourceId| {
        let origin = part.origin(source);
        origin.map_or_else(String::new, |origin| origin.feature.clone())
    };
    let table = findings_table(&findings, place, shown_in);
    (vec![heading, Block::Table(table)], wrong)
}

fn findings(
    part: &Part,
    limits: &Limits,
    sheet: Option<SheetSize>,
    shown_in: LengthUnit,
) -> Vec<Finding> {
    let drilled = |hole: usize| {
        let opening = part.openings.iter().find(|opening| opening.hole == hole);
        opening.is_some_and(features::is_drilled)
    };
    let holes = part.region.holes().iter().enumerate();
    let cut = holes
        .filter(|&(hole, _)| !drilled(hole))
        .map(|(_, contour)| contour);
    let runs: Vec<Run> = std::iter::once(part.region.outer())
        .chain(cut)
        .map(run)
        .collect();
    let assembly = checks::Assembly {
        outlines: std::iter::once(part.region.outer())
            .chain(part.region.holes())
            .enumerate()
            .filter(|&(index, _)| index == 0 || !drilled(index - 1))
            .map(|(_, contour)| checks::Outline {
                contour: contour.clone(),
                source: source_of(contour),
                layer: 0,
            })
            .collect(),
        ..checks::Assembly::default()
    };
    let nested = checks::nest(&assembly.outlines);
    checks::check(&Subject {
        runs,
        assembly,
        nested,
        unit: checks::Unit::Known,
        shown_in,
        sheet,
        limits: limits.clone(),
    })
}

fn source_of(contour: &Contour) -> SourceId {
    let first = contour.pieces().first();
    first.map_or(SourceId::UNTRACED, |piece| piece.source)
}

fn run(contour: &Contour) -> Run {
    Run {
        segments: contour.segments().copied().collect::<Vec<Segment>>(),
        closed: true,
        layer: 0,
        source: source_of(contour),
        kind: "outline",
        follows_within: None,
    }
}
