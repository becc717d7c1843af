//! Sizes beyond which something is more likely written in another unit than meant.
//!
//! # Source
//! Common practice. Nothing fails by them: whoever makes such a part knows better, and is only asked.

/// Few parts are longer over all than this, in millimetres: 10 m.
pub const LONGEST_PART: f64 = 10_000.0;

/// Few parts are shorter over all than this, in millimetres.
pub const SHORTEST_PART: f64 = 5.0;

/// Few plates are thinner than this, in millimetres.
pub const THINNEST_PLATE: f64 = 0.3;

/// Few plates are thicker than this, in millimetres.
pub const THICKEST_PLATE: f64 = 100.0;
