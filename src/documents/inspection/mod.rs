//! What a shop would find wrong with a drawing, its mending, and its comparison with a design.
//!
//! [`inspect`] applies the rules of [`checks`] to a drawing from elsewhere,
//! [`before_sending`] to a part of ours; [`mend`](mend()) repairs what can be repaired without moving
//! anything further than allowed; [`against`](against()) holds it against a part.

mod against;
mod before_sending;
mod holes;
mod kept;
mod limits;
mod lying;
mod mend;
mod report;

pub use against::Against;
pub use against::against;
pub use before_sending::BeforeSending;
pub use before_sending::before_sending;
pub use holes::Marking;
pub use kept::against_limits;
pub use limits::of_process;
pub use mend::MendOptions;
pub use mend::Mended;
pub use mend::mend;
pub use report::findings_table;
pub use report::report;

pub use crate::geometry::lay::Lying;

use crate::checks;
use crate::checks::Finding;
use crate::checks::Grade;
use crate::checks::Limits;
use crate::checks::Run;
use crate::checks::SheetSize;
use crate::checks::Subject;
use crate::documents::cut_file;
use crate::formats::Incoming;
use crate::formats::incoming::Drawn;
use crate::formats::incoming::DrawnKind;
use crate::formats::incoming::DrawnShape;
use crate::formats::incoming::Known;
use crate::geometry::LengthUnit;
use crate::geometry::SourceId;
use crate::sheet::Layer;

/// Ends wider apart than this are no joint, in millimetres, unless the user says otherwise: half of what a
/// careful shop cuts to.
pub const USUAL_JOIN: f64 = 0.05;

/// How a drawing is inspected.
#[derive(Clone, Debug, PartialEq)]
pub struct InspectOptions {
    /// What the way of cutting can do.
    pub limits: Limits,
    /// The sheet that it should fit on.
    pub sheet: Option<SheetSize>,
    /// Layers that are not cut, by name; [`Layer::Mark`] and those after it never are.
    pub not_cut: Vec<String>,
    /// Ends up to this far apart are taken to be one joint with a gap, in millimetres.
    pub join: f64,
    /// The unit that lengths are shown in.
    pub shown_in: LengthUnit,
}

impl Default for InspectOptions {
    /// No limits, no sheet, every layer cut, [`USUAL_JOIN`], millimetres.
    fn default() -> Self {
        Self {
            limits: Limits::default(),
            sheet: None,
            not_cut: Vec::new(),
            join: USUAL_JOIN,
            shown_in: LengthUnit::Millimetre,
        }
    }
}

/// A drawing, what it makes up, and what was found.
#[derive(Clone, Debug, PartialEq)]
pub struct Inspection {
    /// The drawing.
    pub drawing: Incoming,
    /// What of it is cut. A source is a number in [`Incoming::drawn`].
    pub subject: Subject,
    /// What the rules found.
    pub findings: Vec<Finding>,
    /// How many pieces were left out of what they make up, because they are there twice.
    pub duplicates: usize,
    /// How many pieces were left out because they have no length.
    pub nothings: usize,
    /// How it was inspected.
    pub options: InspectOptions,
}

impl Inspection {
    /// Whether something is wrong: a finding of error grade, or something that could not be read.
    pub fn has_errors(&self) -> bool {
        let error = |finding: &Finding| finding.grade == Grade::Error;
        !self.drawing.faults.is_empty() || self.findings.iter().any(error)
    }

    /// By what a tool path is made, in words, if the file says that it is one: it is compensated already, so its
    /// lines are no edges to mend or to compare.
    pub fn tool_path(&self) -> Option<&str> {
        match &self.subject.lines {
            checks::Lines::FinishedEdges => None,
            checks::Lines::ToolPath { made } => Some(made),
        }
    }

    /// What a source is.
    pub(super) fn drawn(&self, source: SourceId) -> Option<&Drawn> {
        let number = usize::try_from(source.0).ok()?;
        self.drawing.drawn.get(number)
    }

    /// Where a source stands in the file, in words; empty for the whole.
    pub fn place(&self, source: SourceId) -> String {
        let Some(drawn) = self.drawn(source) else {
            return String::new();
        };
        let mut words = format!("{} in line {}", drawn.kind.word(), drawn.place.line);
        if drawn.place.handle != 0 {
            words = format!("{words}, handle {:X}", drawn.place.handle);
        }
        if drawn.place.through != 0 {
            words = format!("{words}, drawn by line {}", drawn.place.through);
        }
        words
    }

    /// Whether a layer is cut.
    pub fn is_cut(&self, layer: usize) -> bool {
        let name = self.drawing.layers.get(layer);
        name.is_none_or(|name| is_cut(name, &self.options.not_cut))
    }
}

/// Whether the layer of this name is cut.
fn is_cut(name: &str, not_cut: &[String]) -> bool {
    let ours = Layer::ALL
        .into_iter()
        .filter(|layer| !matches!(layer, Layer::Outside | Layer::Inside));
    let named = |other: &str| other.eq_ignore_ascii_case(name);
    !(ours.map(Layer::name).any(named) || not_cut.iter().any(|other| named(other)))
}

/// Inspects a drawing.
pub fn inspect(drawing: Incoming, options: InspectOptions) -> Inspection {
    let runs: Vec<Run> = drawing
        .drawn
        .iter()
        .enumerate()
        .filter(|(_, drawn)| {
            let name = drawing.layers.get(drawn.layer);
            name.is_none_or(|name| is_cut(name, &options.not_cut))
        })
        .filter_map(|(number, drawn)| run(number, drawn))
        .collect();
    let lines = match cut_file::tool_path_said(&drawing.comments) {
        Some(made) => checks::Lines::ToolPath { made },
        None => checks::Lines::FinishedEdges,
    };
    // what is there twice is told as such, and would only tangle what the lines make up; a tool path overlaps
    // itself on purpose
    let thinned = match lines {
        checks::Lines::FinishedEdges => checks::thinned(&runs, options.join),
        checks::Lines::ToolPath { .. } => checks::Thinned {
            runs: runs.clone(),
            duplicates: 0,
            nothings: 0,
        },
    };
    let assembly = checks::assemble(&thinned.runs, options.join);
    let nested = checks::nest(&assembly.outlines);
    let unit = match &drawing.unit.known {
        Known::Stated | Known::Remark | Known::Told => checks::Unit::Known,
        Known::Likely { reason, could_say } => checks::Unit::Likely {
            reason: reason.clone(),
            could_say: *could_say,
        },
    };
    let subject = Subject {
        runs,
        assembly,
        nested,
        lines,
        unit,
        shown_in: options.shown_in,
        sheet: options.sheet,
        limits: options.limits.clone(),
    };
    let findings = checks::check(&subject);
    Inspection {
        drawing,
        subject,
        findings,
        duplicates: thinned.duplicates,
        nothings: thinned.nothings,
        options,
    }
}

fn run(number: usize, drawn: &Drawn) -> Option<Run> {
    let DrawnShape::Run { segments, closed } = &drawn.shape else {
        return None;
    };
    let follows = matches!(drawn.kind, DrawnKind::Spline | DrawnKind::Ellipse)
        && (drawn.deviation > 0.0 || segments.len() > 1);
    Some(Run {
        segments: segments.clone(),
        closed: *closed,
        layer: drawn.layer,
        source: SourceId(u32::try_from(number).unwrap_or(u32::MAX)),
        kind: match drawn.kind {
            DrawnKind::Ellipse => "an ellipse",
            DrawnKind::Spline => "a spline",
            other => other.word(),
        },
        follows_within: follows.then_some(drawn.deviation),
    })
}

#[cfg(test)]
mod tests;
#[cfg(test)]
mod tool_path_tests;
