//! The text of a design file, and places in it.

/// A stretch of a design file: byte offsets, the end not included.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Place {
    /// Offset of its first byte.
    pub start: usize,
    /// Offset of the byte after its last.
    pub end: usize,
}
