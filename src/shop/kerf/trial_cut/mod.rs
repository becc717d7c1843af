//! A small piece to cut first, on the line, with no allowance for the kerf: what it measures says how
//! wide the cut is.
//!
//! Outside sizes come out smaller by the kerf and openings larger by it, so that the kerf, and a machine
//! that steps too far or too short, are told apart by least squares.

mod fit;
mod readings;

pub use fit::Found;
pub use fit::fit;
pub use readings::ReadingFault;
pub use readings::Readings;
pub use readings::TrialReading;

/// The piece as a design: 100 × 60 mm with a tongue, steps, holes and slots.
pub const DESIGN: &str = include_str!("trial_cut.toml");

/// Something to measure on the piece.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Row {
    /// Its number on the form.
    pub number: u32,
    /// What it is.
    pub what: &'static str,
    /// As drawn, in millimetres.
    pub drawn: f64,
    /// Whether it is an outside size or an opening.
    pub side: Side,
}

/// Whether a size is taken over metal or in an opening.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Side {
    /// Over metal: it loses the kerf.
    Outside,
    /// In an opening: it gains the kerf.
    Inside,
}

impl Side {
    /// What the kerf does to the size: −1 or +1.
    pub const fn sign(self) -> f64 {
        match self {
            Self::Outside => -1.0,
            Self::Inside => 1.0,
        }
    }
}

const fn row(number: u32, what: &'static str, drawn: f64, side: Side) -> Row {
    Row {
        number,
        what,
        drawn,
        side,
    }
}

/// What is measured, in the order of the form; the sizes are those of [`DESIGN`].
pub const ROWS: [Row; 12] = [
    row(1, "length over the tongue", 100.0, Side::Outside),
    row(2, "length beside the tongue, below", 80.0, Side::Outside),
    row(3, "length at the top step", 60.0, Side::Outside),
    row(4, "height at the left", 60.0, Side::Outside),
    row(5, "height at the step", 50.0, Side::Outside),
    row(6, "width of the tongue", 10.0, Side::Outside),
    row(7, "small hole, diameter", 8.0, Side::Inside),
    row(8, "middle hole, diameter", 12.0, Side::Inside),
    row(9, "large hole, diameter", 20.0, Side::Inside),
    row(10, "narrow slot, width", 6.0, Side::Inside),
    row(11, "wide slot, width", 14.0, Side::Inside),
    row(12, "wide slot, length", 30.0, Side::Inside),
];

#[cfg(test)]
mod tests;
