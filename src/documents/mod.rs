//! What a person holds: drawing, pattern, cut file, marking-out sheet, order sheet, job folder.

pub mod pattern;
pub mod stamp;

pub use stamp::Stamp;
