//! The design file: text with places, units, expressions, dimensions, and the part they resolve to.

pub mod part;
pub mod source;
