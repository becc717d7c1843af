//! What is wrong with a processes file, beyond how it is written.

/// A figure or a name in a processes file is wrong.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum ProcessFault {
    /// Zero or less where something has a size.
    #[error("{what} is {value}, and must be more than 0")]
    NotASize {
        /// What it is.
        what: String,
        /// Its value, with its unit.
        value: String,
    },
    /// A spread that leaves nothing of the value, or less than nothing.
    #[error("{what} lies between {low} and {high}, which {why}")]
    BadSpread {
        /// What it is.
        what: String,
        /// Its lower end, with its unit.
        low: String,
        /// Its upper end, with its unit.
        high: String,
        /// What is wrong with it, in words that follow "which".
        why: &'static str,
    },
    /// A new process of which nothing is known.
    #[error("`{process}` is none of the known ways of cutting, and has no `{key}`")]
    TooLittleKnown {
        /// Its name.
        process: String,
        /// What is missing.
        key: &'static str,
    },
    /// A process that is to be like one that there is not.
    #[error("there is no way of cutting `{name}`")]
    UnknownProcess {
        /// The name.
        name: String,
    },
    /// A cut that is wider than an opening.
    #[error(
        "the kerf of {process} is {kerf} mm, and the opening `{opening}` is {width}: the cut has no room in it"
    )]
    WiderThanOpening {
        /// The process.
        process: String,
        /// Its kerf in millimetres.
        kerf: String,
        /// The opening.
        opening: String,
        /// How wide it is, in words.
        width: String,
    },
    /// No such material and no such family of materials.
    #[error("there is no material `{name}`")]
    UnknownMaterial {
        /// The name.
        name: String,
    },
}

named!(ProcessFault:
    NotASize => "not-a-size",
    BadSpread => "bad-spread",
    TooLittleKnown => "too-little-known",
    UnknownProcess => "unknown-process",
    WiderThanOpening => "wider-than-opening",
    UnknownMaterial => "unknown-material",
);
