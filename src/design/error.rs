//! What is wrong with a design, where it stands in the file, and one way out.

use super::limits;
use super::source::Place;
use super::source::Source;
use crate::geometry::GeometryError;
use crate::geometry::outline::OutlineFault;
use std::fmt;

pub use super::fault::DimensionFault;
pub use super::fault::ExpressionFault;
pub use super::fault::FileFault;
pub use super::measure_fault::MeasureFault;
pub use super::processes::ProcessFault;
pub use super::resolve::PartFault;

/// What is wrong, by the stage that found it.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum DesignErrorKind {
    /// The file is not written as a design file is.
    #[error(transparent)]
    File(#[from] FileFault),
    /// An expression has no value.
    #[error(transparent)]
    Expression(#[from] ExpressionFault),
    /// The dimensions do not agree.
    #[error(transparent)]
    Dimension(#[from] DimensionFault),
    /// An outline cannot be built.
    #[error(transparent)]
    Outline(#[from] OutlineFault),
    /// A part cannot be put together.
    #[error(transparent)]
    Part(#[from] PartFault),
    /// Something cannot be measured, or breaks its limit.
    #[error(transparent)]
    Measure(#[from] MeasureFault),
    /// A way of cutting is not as it can be.
    #[error(transparent)]
    Process(#[from] ProcessFault),
    /// A construction has no answer.
    #[error(transparent)]
    Geometry(#[from] GeometryError),
}

impl DesignErrorKind {
    /// A short name for programs and look-ups: lower case, words joined by hyphens.
    pub fn name(&self) -> &'static str {
        match self {
            Self::File(fault) => fault.name(),
            Self::Expression(fault) => fault.name(),
            Self::Dimension(fault) => fault.name(),
            Self::Outline(fault) => fault.name(),
            Self::Part(fault) => fault.name(),
            Self::Measure(fault) => fault.name(),
            Self::Process(fault) => fault.name(),
            Self::Geometry(_) => "geometry",
        }
    }

    /// Whether it asks if the unit of a size is the one that is meant.
    pub const fn is_of_unit(&self) -> bool {
        matches!(self, Self::Measure(MeasureFault::UnlikelySize { .. }))
    }

    /// Whether it is that a part does not go on the plate that the design states: of no account where it is
    /// to be cut from another sheet.
    pub const fn is_of_plate_size(&self) -> bool {
        matches!(self, Self::Measure(MeasureFault::LargerThanPlate { .. }))
    }
}

/// How much a finding weighs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Severity {
    /// Something to know or still to do; the design is good.
    Notice,
    /// The design is wrong, or breaks one of its own limits.
    Error,
}

impl Severity {
    /// Its word in messages.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Notice => "notice",
            Self::Error => "error",
        }
    }
}

/// A fault of a design with its place in the file.
#[derive(Clone, Debug, PartialEq)]
pub struct DesignError {
    /// What is wrong, with numbers.
    pub kind: Box<DesignErrorKind>,
    /// How much it weighs.
    pub severity: Severity,
    /// Where it stands.
    pub place: Place,
    /// Other places that have to do with it, each with what stands there.
    pub also: Vec<(Place, String)>,
    /// One way out; empty if there is none to name.
    pub help: String,
}

impl DesignError {
    /// An error at a place.
    pub fn new(kind: impl Into<DesignErrorKind>, place: Place) -> Self {
        Self {
            kind: Box::new(kind.into()),
            severity: Severity::Error,
            place,
            also: Vec::new(),
            help: String::new(),
        }
    }

    /// A notice at a place.
    pub fn notice(kind: impl Into<DesignErrorKind>, place: Place) -> Self {
        Self {
            severity: Severity::Notice,
            ..Self::new(kind, place)
        }
    }

    /// The same with a way out.
    #[must_use]
    pub fn with_help(mut self, help: impl Into<String>) -> Self {
        self.help = help.into();
        self
    }

    /// The same with a further place and what stands there.
    #[must_use]
    pub fn with_also(mut self, place: Place, label: impl Into<String>) -> Self {
        self.also.push((place, label.into()));
        self
    }

    /// The error in plain lines: what, where, what else, and the way out.
    pub fn to_text(&self, source: &Source) -> String {
        let position = source.position(self.place.start);
        let mut text = format!(
            "{}[{}]: {}\n --> {}:{}:{}\n",
            self.severity.word(),
            self.kind.name(),
            self.kind,
            source.name(),
            position.line,
            position.column
        );
        for (place, label) in &self.also {
            let position = source.position(place.start);
            text.push_str(&format_also(source, position, label));
        }
        if !self.help.is_empty() {
            text.push_str("help: ");
            text.push_str(&self.help);
            text.push('\n');
        }
        text
    }
}

fn format_also(source: &Source, position: super::source::Position, label: &str) -> String {
    format!(
        "  at {}:{}:{}: {label}\n",
        source.name(),
        position.line,
        position.column
    )
}

impl fmt::Display for DesignError {
    fn fmt(&self, formatter: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(formatter, "{}", self.kind)?;
        if !self.help.is_empty() {
            write!(formatter, "; {}", self.help)?;
        }
        Ok(())
    }
}

impl std::error::Error for DesignError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        Some(&*self.kind)
    }
}

/// Gathers what is wrong, so that a run reports all of it and not the first only.
#[derive(Clone, Debug, Default)]
pub struct Sink {
    errors: Vec<DesignError>,
    dropped: usize,
}

impl Sink {
    /// Nothing wrong so far.
    pub fn new() -> Self {
        Self::default()
    }

    /// Adds one; past the first hundred they are only counted. The same error twice is one.
    pub fn push(&mut self, error: DesignError) {
        if self.errors.len() >= limits::MOST_ERRORS {
            self.dropped += 1;
        } else if !self.errors.contains(&error) {
            self.errors.push(error);
        }
    }

    /// Adds one that is made only if it is kept: the nearest of many names is slow to find.
    pub fn push_with(&mut self, make: impl FnOnce() -> DesignError) {
        if self.errors.len() >= limits::MOST_ERRORS {
            self.dropped += 1;
        } else {
            self.push(make());
        }
    }

    /// Keeps the value of a result, or its error.
    pub fn take<T>(&mut self, result: Result<T, DesignError>) -> Option<T> {
        match result {
            Ok(value) => Some(value),
            Err(error) => {
                self.push(error);
                None
            }
        }
    }

    /// Whether anything of error grade was found.
    pub fn has_errors(&self) -> bool {
        self.errors
            .iter()
            .any(|error| error.severity == Severity::Error)
    }

    /// How many were counted but not kept.
    pub fn dropped(&self) -> usize {
        self.dropped
    }

    /// All that was found, by place in the file.
    pub fn into_errors(self) -> Vec<DesignError> {
        let mut errors = self.errors;
        errors.sort_by_key(|error| error.place);
        if self.dropped > 0 {
            let place = errors.last().map_or(Place::default(), |last| last.place);
            let fault = FileFault::MoreErrors {
                count: self.dropped,
            };
            errors.push(DesignError::new(fault, place).with_help("mend these first"));
        }
        errors
    }
}
