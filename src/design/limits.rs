//! How much a design file may ask for: bounds that keep a broken or hostile file from costing more
//! than a moment. No true design comes near them.

/// Largest design file, in bytes.
pub const LARGEST_FILE: usize = 32 * 1024 * 1024;

/// Deepest nesting of tables and lists.
pub const DEEPEST_TABLE: usize = 32;

/// Longest expression, in bytes.
pub const LONGEST_EXPRESSION: usize = 2000;

/// Deepest nesting of an expression: parentheses, signs, powers.
pub const DEEPEST_EXPRESSION: usize = 64;

/// Errors reported of one file; the rest is counted.
pub const MOST_ERRORS: usize = 100;

/// Longest name of a dimension, part or feature, in characters.
pub const LONGEST_NAME: usize = 60;

/// Highest power of a length that an expression may pass through.
pub const HIGHEST_POWER: i8 = 9;

/// Names compared with a wrong one to find the nearest.
pub const MOST_COMPARED: usize = 2000;
