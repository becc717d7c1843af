//! What a person holds: drawing, pattern, cut file, marking-out sheet, order sheet, job folder.

pub mod check;
pub mod cut_file;
pub mod drawing;
pub mod error;
mod features;
pub mod job;
pub mod kerf;
mod lettering;
pub mod marking_out;
pub mod pattern;
#[cfg(test)]
mod samples;
pub mod stamp;
pub mod summary;

pub use error::DocumentError;
pub use stamp::Stamp;
