//! Where a value comes from, and how far it can be trusted.

/// How a value was come by.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Mark {
    /// Read in a source with its own authority: a statute, a standard, a textbook.
    Read,
    /// Read where somebody restates such a source.
    ReadSecondHand,
    /// From memory, not looked up: a default to be changed, never a limit.
    Remembered,
    /// What is usually done; there is no source.
    CommonPractice,
    /// Computed from the values named.
    Computed,
}

impl Mark {
    /// Words for a reader, to stand behind the value.
    pub const fn words(self) -> &'static str {
        match self {
            Self::Read => "read",
            Self::ReadSecondHand => "read second-hand",
            Self::Remembered => "from memory, not looked up",
            Self::CommonPractice => "usual practice",
            Self::Computed => "computed",
        }
    }

    /// Whether something may pass or fail by the value: only if it was read or computed.
    pub const fn is_authority(self) -> bool {
        matches!(self, Self::Read | Self::ReadSecondHand | Self::Computed)
    }
}

/// A number of the trade: the value to reckon with, the spread that its sources give, and its mark.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figure {
    /// The value to reckon with unless the user gives another.
    pub value: f64,
    /// The lowest value that is given for it.
    pub low: f64,
    /// The highest value that is given for it.
    pub high: f64,
    /// How it was come by.
    pub mark: Mark,
    /// Where it stands.
    pub source: &'static str,
}

impl Figure {
    /// A value on which the sources agree.
    pub const fn exact(value: f64, mark: Mark, source: &'static str) -> Self {
        Self {
            value,
            low: value,
            high: value,
            mark,
            source,
        }
    }

    /// A value with the spread `low` … `high` of its sources.
    pub const fn within(value: f64, spread: (f64, f64), mark: Mark, source: &'static str) -> Self {
        Self {
            value,
            low: spread.0,
            high: spread.1,
            mark,
            source,
        }
    }
}
