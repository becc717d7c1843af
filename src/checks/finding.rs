//! What a rule finds.

use crate::geometry::Point;
use crate::geometry::SourceId;

/// How bad it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Grade {
    /// The file should not be cut as it is.
    Error,
    /// Worth knowing; the shop decides.
    Notice,
}

impl Grade {
    /// Its word.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Error => "error",
            Self::Notice => "notice",
        }
    }
}

/// The rules.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Rule {
    /// The file does not say its unit.
    MissingUnit,
    /// It is larger than the sheet.
    SheetSize,
    /// The lines are a tool path, compensated already, and not the finished edges.
    ToolPath,
    /// A line to cut does not close.
    OpenContour,
    /// Two ends do not quite meet.
    Gap,
    /// Lines to cut cross or touch.
    Crossing,
    /// The same line twice.
    Duplicate,
    /// A line or arc without length.
    ZeroLength,
    /// A curve in many short straight pieces, or a spline.
    ShortChords,
    /// An opening or slot below what the process can cut.
    SmallOpening,
    /// An opening that the width of the cut swallows.
    Swallowed,
    /// A web too narrow.
    NarrowWeb,
    /// A hole too near the edge.
    NearEdge,
    /// An inside corner tighter than the cutter.
    InsideCorner,
    /// A sharp inside corner where a load could tear the part.
    SharpCorner,
}

impl Rule {
    /// Every rule, in the order in which they are applied.
    pub const ALL: [Self; 15] = [
        Self::MissingUnit,
        Self::SheetSize,
        Self::ToolPath,
        Self::OpenContour,
        Self::Gap,
        Self::Crossing,
        Self::Duplicate,
        Self::ZeroLength,
        Self::ShortChords,
        Self::SmallOpening,
        Self::Swallowed,
        Self::NarrowWeb,
        Self::NearEdge,
        Self::InsideCorner,
        Self::SharpCorner,
    ];

    /// A short name for programs and look-ups.
    pub const fn name(self) -> &'static str {
        match self {
            Self::MissingUnit => "missing-unit",
            Self::SheetSize => "larger-than-sheet",
            Self::ToolPath => "tool-path",
            Self::OpenContour => "open-contour",
            Self::Gap => "gap",
            Self::Crossing => "crossing",
            Self::Duplicate => "duplicate",
            Self::ZeroLength => "zero-length",
            Self::ShortChords => "short-chords",
            Self::SmallOpening => "small-opening",
            Self::Swallowed => "swallowed-by-kerf",
            Self::NarrowWeb => "narrow-web",
            Self::NearEdge => "near-edge",
            Self::InsideCorner => "tight-inside-corner",
            Self::SharpCorner => "sharp-inside-corner",
        }
    }
}

/// One thing found.
#[derive(Clone, Debug, PartialEq)]
pub struct Finding {
    /// The rule.
    pub rule: Rule,
    /// How bad it is.
    pub grade: Grade,
    /// What it was found on.
    pub source: SourceId,
    /// Where, in millimetres; none where it is about the whole.
    pub at: Option<Point>,
    /// What was measured, in millimetres.
    pub measured: Option<f64>,
    /// What it should be at least (or at most), in millimetres.
    pub limit: Option<f64>,
    /// What is wrong, in words and numbers.
    pub message: String,
    /// One way out.
    pub help: String,
    /// Who stands behind the limit; empty where there is none.
    pub basis: String,
}

impl Finding {
    /// A finding without a limit.
    pub(super) fn new(rule: Rule, grade: Grade, source: SourceId, at: Point) -> Self {
        Self {
            rule,
            grade,
            source,
            at: Some(at),
            measured: None,
            limit: None,
            message: String::new(),
            help: String::new(),
            basis: String::new(),
        }
    }

    pub(super) fn said(mut self, message: String, help: &str) -> Self {
        self.message = message;
        help.clone_into(&mut self.help);
        self
    }

    pub(super) const fn measured(mut self, measured: f64) -> Self {
        self.measured = Some(measured);
        self
    }

    /// Held against a limit, which also says how bad it is.
    pub(super) fn against(mut self, limit: &super::Limit) -> Self {
        self.limit = Some(limit.value);
        self.basis.clone_from(&limit.basis);
        self.grade = if limit.decides {
            Grade::Error
        } else {
            Grade::Notice
        };
        self
    }
}

/// Takes findings of one rule, up to a number.
pub(super) struct Findings {
    list: Vec<Finding>,
    most: usize,
    more: usize,
}

impl Findings {
    pub(super) const fn new(most: usize) -> Self {
        Self {
            list: Vec::new(),
            most,
            more: 0,
        }
    }

    pub(super) fn push(&mut self, finding: Finding) {
        if self.list.len() < self.most {
            self.list.push(finding);
        } else {
            self.more += 1;
        }
    }

    pub(super) fn extend(&mut self, findings: impl IntoIterator<Item = Finding>) {
        for finding in findings {
            self.push(finding);
        }
    }

    pub(super) fn into_list(mut self) -> Vec<Finding> {
        if self.more > 0
            && let Some(last) = self.list.last()
        {
            let (rule, grade) = (last.rule, last.grade);
            self.list.push(Finding {
                message: format!("and {} more of this kind, which are not listed", self.more),
                ..Finding::new(rule, grade, SourceId::UNTRACED, Point::ORIGIN)
            });
            if let Some(last) = self.list.last_mut() {
                last.at = None;
            }
        }
        self.list
    }
}
