//! What the maker asks of a pattern.

use super::correction::Correction;

/// Everything that can be chosen about a pattern.
#[derive(Clone, Debug, PartialEq)]
pub struct PatternOptions {
    /// What it is printed on.
    pub paper: PatternPaper,
    /// Which way round the sheets lie.
    pub orientation: Orientation,
    /// The rim of every sheet on which the printer cannot print, in millimetres.
    pub margin: f64,
    /// By how much neighbouring sheets show the same, in millimetres.
    pub overlap: f64,
    /// How far the part may be turned to need fewer sheets.
    pub turning: Turning,
    /// Which face of the part is up.
    pub face: Face,
    /// Whether all of the part is printed.
    pub extent: Extent,
    /// A line to saw to, outside the finished one.
    pub rough_cut: RoughCut,
    /// What is known of the printer.
    pub printer: Printer,
}

impl PatternOptions {
    /// The usual choices for a paper: 8 mm of margin, 18 mm of overlap, turned and laid for the
    /// fewest sheets, printer taken to be true.
    ///
    /// # Source
    /// Common practice: the overlap is wider than what a printer leaves white.
    pub const fn new(paper: PatternPaper) -> Self {
        Self {
            paper,
            orientation: Orientation::FewestSheets,
            margin: 8.0,
            overlap: 18.0,
            turning: Turning::AnyAngle,
            face: Face::AsDrawn,
            extent: Extent::Whole,
            rough_cut: RoughCut::None,
            printer: Printer::TakenAsTrue,
        }
    }
}

/// What a pattern is printed on.
#[derive(Clone, Debug, PartialEq)]
pub enum PatternPaper {
    /// Sheets of one size.
    Sheets {
        /// Their name, as in "A4".
        name: String,
        /// Their shorter side in millimetres.
        width: f64,
        /// Their longer side in millimetres.
        height: f64,
    },
    /// A roll, cut to the length needed.
    Roll {
        /// Its width in millimetres.
        width: f64,
    },
    /// One page as large as the pattern, for a plot shop.
    OnePage,
}

impl PatternPaper {
    /// Sheets of a size that has no name.
    pub fn custom(width: f64, height: f64) -> Self {
        use crate::sheet::number::trimmed;
        Self::Sheets {
            name: format!("{} × {} mm", trimmed(width, 2), trimmed(height, 2)),
            width,
            height,
        }
    }

    /// Its name in words.
    pub fn words(&self) -> String {
        match self {
            Self::Sheets { name, .. } => name.clone(),
            Self::Roll { width } => {
                format!("roll {} mm wide", crate::sheet::number::trimmed(*width, 2))
            }
            Self::OnePage => "one page".to_owned(),
        }
    }
}

/// Which way round sheets lie.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Orientation {
    /// Shorter side across.
    Portrait,
    /// Longer side across.
    Landscape,
    /// Whichever needs fewer sheets.
    FewestSheets,
}

/// How far a part may be turned to need fewer sheets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Turning {
    /// Not at all.
    AsDrawn,
    /// By a quarter turn.
    QuarterTurns,
    /// By any angle.
    AnyAngle,
}

/// Which face of a part is up.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Face {
    /// The face that the design shows.
    AsDrawn,
    /// The other face: everything mirrored.
    Mirrored,
}

/// How much of a part is printed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Extent {
    /// All of it.
    Whole,
    /// Only the shaped places; long straight edges between them are left out.
    CornersOnly,
}

/// A line to saw to, outside the finished one.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum RoughCut {
    /// None.
    None,
    /// At this allowance for filing, in millimetres.
    Allowance(f64),
}

/// What is known of the printer.
#[derive(Clone, Debug, PartialEq)]
pub enum Printer {
    /// It is taken to print true.
    TakenAsTrue,
    /// It was measured; its error is undone.
    Measured(Correction),
}
