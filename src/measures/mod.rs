//! What can be measured on a part: widths, distances, radii, weight; limits, and how far the sum of
//! tolerances can carry the part past them.
//!
//! # Words
//! - A [`Shape`] is the part as drawn, or another shape of the same part: grown by a kerf error, or
//!   resolved again with other values. Features are found on the shape itself, so a measure is what a
//!   measurer would find on that piece and never "the value, plus or minus something".
//! - [`take`] takes one measure and says between which points, how, and what jaws read if that is
//!   another number.
//! - [`inspection`] holds [`readings`] of the finished part against its limits: a [`verdict`] counts
//!   the [`uncertainty`] of the measuring.

mod feature;
mod find;
pub mod finish;
pub mod fits;
pub mod flatness;
pub mod inspection;
pub mod limits;
mod over_all;
pub mod plates;
pub mod readings;
mod review;
mod shape;
pub mod stack;
mod take;
mod taken;
pub mod tools;
pub mod uncertainty;
pub mod verdict;

pub use review::Review;
pub use review::review;
pub use shape::Shape;
pub use take::FiledEdge;
pub use take::filed_edges;
pub use take::take;
pub use taken::How;
pub use taken::Jaws;
pub use taken::Taken;
pub use taken::TakenKind;
