//! A figure of a process, which may depend on the thickness of the plate, and who stands behind it.

use crate::trade::Mark;

/// Who stands behind a figure.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Origin {
    /// The data of the trade.
    Trade {
        /// How it was come by.
        mark: Mark,
        /// Where it stands; empty for memory and common practice.
        source: &'static str,
    },
    /// A person: the shop, or the user's own test piece.
    Stated {
        /// Who said so; empty if not told.
        by: String,
        /// When; empty if not told.
        on: String,
    },
}

impl Origin {
    /// Words for a reader, to stand behind the value.
    pub fn words(&self) -> String {
        match self {
            Self::Trade { mark, source: "" } => mark.words().to_owned(),
            Self::Trade { mark, source } => format!("{}: {source}", mark.words()),
            Self::Stated { by, on } => {
                let by = if by.is_empty() { "your file" } else { by };
                if on.is_empty() {
                    format!("stated by {by}")
                } else {
                    format!("stated by {by}, {on}")
                }
            }
        }
    }

    /// Whether something may pass or fail by the value: if it was read, or if somebody stands up for it.
    pub const fn is_authority(&self) -> bool {
        match self {
            Self::Trade { mark, .. } => mark.is_authority(),
            Self::Stated { .. } => true,
        }
    }
}

/// A value that grows with the thickness of the plate along a line, and is never less than so much.
#[derive(Clone, Debug, PartialEq)]
pub struct ByThickness {
    /// What it never falls below.
    pub least: f64,
    /// Its value at thickness 0.
    pub base: f64,
    /// By how much it grows a millimetre of thickness.
    pub per_thickness: f64,
    /// How far below the value it may usually lie.
    pub below: f64,
    /// How far above the value it may usually lie.
    pub above: f64,
    /// Who stands behind it.
    pub origin: Origin,
}

impl ByThickness {
    /// The same for every thickness.
    pub const fn constant(value: f64, origin: Origin) -> Self {
        Self {
            least: 0.0,
            base: value,
            per_thickness: 0.0,
            below: 0.0,
            above: 0.0,
            origin,
        }
    }

    /// So much a millimetre of thickness, and at least `least`.
    pub const fn proportional(per_thickness: f64, least: f64, origin: Origin) -> Self {
        Self {
            least,
            base: 0.0,
            per_thickness,
            below: 0.0,
            above: 0.0,
            origin,
        }
    }

    /// The same, usually between so much less and so much more.
    #[must_use]
    pub const fn within(mut self, below: f64, above: f64) -> Self {
        self.below = below;
        self.above = above;
        self
    }

    /// The value to reckon with at a thickness.
    pub fn at(&self, thickness: f64) -> f64 {
        (self.base + self.per_thickness * thickness).max(self.least)
    }

    /// The lowest usual value at a thickness.
    pub fn low(&self, thickness: f64) -> f64 {
        self.at(thickness) - self.below
    }

    /// The highest usual value at a thickness.
    pub fn high(&self, thickness: f64) -> f64 {
        self.at(thickness) + self.above
    }

    /// Whether it is the same for every thickness.
    pub fn is_constant(&self) -> bool {
        self.per_thickness == 0.0
    }
}
