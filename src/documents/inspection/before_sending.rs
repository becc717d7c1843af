//! The same rules on a part of ours, before its file is sent.

use super::mend::place;
use super::report::findings_table;
use crate::checks;
use crate::checks::Finding;
use crate::checks::Grade;
use crate::checks::Limits;
use crate::checks::Run;
use crate::checks::SheetSize;
use crate::checks::Subject;
use crate::design::part::Part;
use crate::documents::cut_file::Cutting;
use crate::documents::features;
use crate::geometry::Contour;
use crate::geometry::LengthUnit;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::sheet::Block;

/// What the rules find on a part before its file is sent.
#[derive(Clone, Debug, PartialEq)]
pub struct BeforeSending<'a> {
    /// The part.
    pub part: &'a Part,
    /// What was found; a source is the part's.
    pub findings: Vec<Finding>,
    /// The unit that it is told in.
    pub shown_in: LengthUnit,
}

/// Applies the rules to a part, as it is drawn or, with a tool path, as that leaves it. Holes to drill are
/// not cut, and not looked at.
pub fn before_sending<'a>(
    part: &'a Part,
    cutting: Option<&Cutting>,
    limits: &Limits,
    sheet: Option<SheetSize>,
    shown_in: LengthUnit,
) -> BeforeSending<'a> {
    let named_to_drill = |name: &str| {
        let mut drilled = cutting.iter().flat_map(|cutting| &cutting.path.drilled);
        // on a sheet of several parts the name says of which
        let of_part = format!("{name} of {}", part.name);
        drilled.any(|hole| hole.name == name || hole.name.starts_with(&of_part))
    };
    let drilled = |hole: usize| {
        let opening = part.openings.iter().find(|opening| opening.hole == hole);
        opening
            .is_some_and(|opening| features::is_drilled(opening) || named_to_drill(&opening.name))
    };
    let contours: Vec<&Contour> = std::iter::once(part.region.outer())
        .chain(
            part.region
                .holes()
                .iter()
                .enumerate()
                .filter(|&(hole, _)| !drilled(hole))
                .map(|(_, contour)| contour),
        )
        .collect();
    let outline = |contour: &&Contour| checks::Outline {
        contour: (*contour).clone(),
        source: source_of(contour),
        layer: 0,
    };
    let assembly = checks::Assembly {
        outlines: contours.iter().map(outline).collect(),
        ..checks::Assembly::default()
    };
    let nested = checks::nest(&assembly.outlines);
    let findings = checks::check(&Subject {
        runs: contours.iter().map(|contour| run(contour)).collect(),
        assembly,
        nested,
        lines: checks::Lines::FinishedEdges,
        unit: checks::Unit::Known,
        shown_in,
        sheet,
        limits: limits.clone(),
    });
    BeforeSending {
        part,
        findings,
        shown_in,
    }
}

impl BeforeSending<'_> {
    /// Whether something is of error grade: the file is not to be sent.
    pub fn has_errors(&self) -> bool {
        self.findings
            .iter()
            .any(|finding| finding.grade == Grade::Error)
    }

    /// The feature of the part that a finding is about; empty for the whole.
    pub fn place(&self, source: SourceId) -> String {
        let origin = self.part.origin(source);
        origin.map_or_else(String::new, |origin| origin.feature.clone())
    }

    /// All of it as blocks of a report.
    pub fn blocks(&self) -> Vec<Block> {
        let heading = Block::Heading(format!("Before sending “{}”", self.part.name));
        if self.findings.is_empty() {
            let said = "Nothing was found that a shop would send back.".to_owned();
            return vec![heading, Block::Paragraph(said)];
        }
        let place = |source| self.place(source);
        let table = findings_table(&self.findings, place, self.shown_in);
        vec![heading, Block::Table(table)]
    }

    /// The same in short, for a terminal: of each rule the worst, with its place on a second line, and how
    /// many more there are.
    pub fn lines(&self) -> Vec<String> {
        let mut told: Vec<(&Finding, usize)> = Vec::new();
        for finding in &self.findings {
            let same = told
                .iter_mut()
                .find(|(first, _)| first.rule == finding.rule && first.grade == finding.grade);
            match same {
                Some((worst, count)) => {
                    *count += 1;
                    if share(finding) < share(worst) {
                        *worst = finding;
                    }
                }
                None => told.push((finding, 1)),
            }
        }
        told.into_iter()
            .map(|(finding, count)| self.line(finding, count))
            .collect()
    }

    fn line(&self, finding: &Finding, count: usize) -> String {
        let feature = self.place(finding.source);
        let at = finding
            .at
            .map(|at| format!("at {}", place(at, self.shown_in)));
        let others = match count {
            1 => None,
            2 => Some("and 1 more place".to_owned()),
            several => Some(format!("and {} more places", several - 1)),
        };
        let mut places = vec![format!("`{}`", self.part.name)];
        places.extend((!feature.is_empty()).then_some(feature));
        places.extend(at);
        let places = places.join(", ");
        let others = others.map_or_else(String::new, |others| format!(" {others}"));
        let help = match finding.help.as_str() {
            "" => String::new(),
            help => format!("; {help}"),
        };
        let basis = match finding.basis.as_str() {
            "" => String::new(),
            basis => format!(" [{basis}]"),
        };
        let (grade, rule) = (finding.grade.word(), finding.rule.name());
        format!(
            "{grade}[{rule}]: {}{help}{basis}\n  --> {places}{others}",
            finding.message
        )
    }
}

/// What was measured as a part of the limit.
fn share(finding: &Finding) -> f64 {
    let pair = finding.measured.zip(finding.limit);
    pair.map_or(1.0, |(measured, limit)| measured / limit)
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
