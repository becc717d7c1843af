//! DXF: the file that a shop cuts by.
//!
//! [`write()`] turns a [`Picture`](crate::sheet::Picture) into DXF text; [`read_contours`] reads such a
//! file back, to be held against the picture with [`compare`](super::contents::compare) before it is
//! put in place.
//!
//! # What is written
//!
//! - A closed line is one closed polyline with bulges (LWPOLYLINE; POLYLINE in R12), a whole circle a
//!   CIRCLE, an open line an open polyline, a lone line a LINE, a lone arc an ARC, a place to mark or
//!   drill a POINT, words a TEXT. Filled areas are written as their edge, those in white not at all.
//! - Arcs above half a turn are written as two equal arcs, so that no bulge is beyond ±1: the bulge
//!   grows without bound towards a whole turn, and readers lose digits with it.
//! - Only the layers in use are written, all of them colour 7 (black on white, white on black) and
//!   continuous: a dash may get cut as a dash. Pens are for the other formats.
//! - Coordinates are in the unit asked for, with 12 decimals, less trailing zeros: within 5e-13 of
//!   that unit of the geometry. Bulges have 16.
//! - No date, no user, no random identifier: the same picture gives the same bytes.
//!
//! # Why the tags are written here
//!
//! The `dxf` library's model fits, but of what its writer puts out hardly a table is without fault
//! (no table handles and owners, no blocks, empty references, subclass markers in R12, polylines left
//! out in R12 without a word), and it asks the clock and a random source for values that must be
//! overwritten. Mending took more lines than writing. The tests read every file with that library and
//! with another one in another language.

mod entity;
mod incoming;
mod read;
mod tables;
mod tag;
mod write;

pub(in crate::formats) use incoming::read as read_incoming;
pub use read::read_contours;
pub use write::DxfOptions;
pub use write::DxfVersion;
pub use write::write;
