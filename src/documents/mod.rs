//! What a person holds: drawing, pattern, cut file, marking-out sheet, order sheet, job folder,
//! inspection record.

pub mod check;
pub mod cut_file;
pub mod drawing;
pub mod error;
mod features;
pub mod inspection;
pub mod jaws;
pub mod job;
pub mod kerf;
mod lettering;
pub mod marking_out;
pub mod pattern;
pub mod reading;
pub mod record;
#[cfg(test)]
mod samples;
pub mod stamp;
pub mod summary;
mod tools;

pub use error::DocumentError;
pub use stamp::Stamp;
