//! Why a command could not do what was asked.

use crate::exit_code::Outcome;
use crate::files::FileError;
use kerfwise::design::DesignError;
use kerfwise::design::Place;
use kerfwise::design::Source;
use kerfwise::formats::FormatError;
use kerfwise::measures::readings::ReadingError;
use kerfwise::shop::tool_path::ToolPathError;

/// Why a command could not do what was asked.
#[derive(Debug, thiserror::Error)]
pub(crate) enum Failure {
    /// The design cannot be built.
    #[error("the design cannot be built")]
    Design {
        source_text: Box<Source>,
        errors: Vec<DesignError>,
    },
    /// A file cannot be read or written.
    #[error(transparent)]
    File(#[from] FileError),
    /// An output cannot be written in its format.
    #[error(transparent)]
    Format(#[from] FormatError),
    /// The design can be built, but is wrong: nothing to cut by is made of it.
    #[error("{what} is not made of a design that is not right")]
    Unfit {
        what: &'static str,
        source_text: Box<Source>,
        errors: Vec<DesignError>,
    },
    /// A shop would send the file back.
    #[error("{what} is not made of a part that a shop would send back")]
    NotToSend {
        what: &'static str,
        /// What was found, in short.
        found: Vec<String>,
        /// The same for programs.
        facts: Vec<serde_json::Value>,
    },
    /// Readings are not clear.
    #[error("the readings are not clear")]
    Readings {
        source_text: Box<Source>,
        errors: Vec<ReadingError>,
    },
    /// No tool path can be made of a part.
    #[error("{error}")]
    ToolPath {
        source_text: Box<Source>,
        place: Option<Place>,
        error: Box<ToolPathError>,
        /// Of several on one sheet: which.
        piece: Option<String>,
    },
    /// Anything else, said in full.
    #[error("{0}")]
    Said(String),
}

impl Failure {
    /// How the command ends.
    pub(crate) const fn outcome(&self) -> Outcome {
        match self {
            Self::Unfit { .. } | Self::NotToSend { .. } => Outcome::Findings,
            Self::Design { .. }
            | Self::Readings { .. }
            | Self::ToolPath { .. }
            | Self::File(_)
            | Self::Format(_)
            | Self::Said(_) => Outcome::CouldNot,
        }
    }

    /// A failure said in full.
    pub(crate) fn said(error: impl std::fmt::Display) -> Self {
        Self::Said(error.to_string())
    }
}
