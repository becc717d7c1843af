//! Names that the trade data do not hold.

/// A name that is not known here, with the nearest that are.
#[derive(Clone, Debug, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum TradeError {
    /// No such material.
    #[error(
        "no material is called \"{asked}\"{}; give its density",
        nearest_names(nearest)
    )]
    UnknownMaterial {
        /// What was asked for.
        asked: String,
        /// The nearest names, the nearest first.
        nearest: Vec<&'static str>,
    },
    /// No such paper.
    #[error(
        "no paper is called \"{asked}\"{}; give its width and height",
        nearest_names(nearest)
    )]
    UnknownPaper {
        /// What was asked for.
        asked: String,
        /// The nearest names, the nearest first.
        nearest: Vec<&'static str>,
    },
    /// No such measuring instrument.
    #[error(
        "no measuring instrument is called \"{asked}\"{}; give its error",
        nearest_names(nearest)
    )]
    UnknownInstrument {
        /// What was asked for.
        asked: String,
        /// The nearest names, the nearest first.
        nearest: Vec<&'static str>,
    },
    /// No such way of cutting.
    #[error(
        "no way of cutting is called \"{asked}\"{}",
        nearest_or_all(nearest, known)
    )]
    UnknownProcess {
        /// What was asked for.
        asked: String,
        /// The nearest names, the nearest first.
        nearest: Vec<String>,
        /// All there are.
        known: Vec<String>,
    },
    /// No such screw.
    #[error(
        "no screw is called \"{asked}\"{}; there are {}, or give the hole as a circle",
        nearest_names(nearest),
        known.join(", ")
    )]
    UnknownScrew {
        /// What was asked for.
        asked: String,
        /// The nearest names, the nearest first.
        nearest: Vec<&'static str>,
        /// All names.
        known: Vec<&'static str>,
    },
}

fn nearest_or_all(nearest: &[String], known: &[String]) -> String {
    if nearest.is_empty() {
        format!("; there is {}", known.join(", "))
    } else {
        format!(" (nearest: {})", nearest.join("; "))
    }
}

fn nearest_names(nearest: &[&str]) -> String {
    if nearest.is_empty() {
        String::new()
    } else {
        format!(" (nearest: {})", nearest.join("; "))
    }
}
