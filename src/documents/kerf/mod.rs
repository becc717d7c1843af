//! Kerf allowances side by side, and the ways of cutting that they are of.

mod processes;

pub use processes::processes;
