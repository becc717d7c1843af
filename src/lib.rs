//! Exact outlines of flat parts from their dimensions, and the papers and files a shop can use.
//!
//! Units: millimetres and radians inside; the y axis points up; anticlockwise is positive.
//! The library does no input or output: text and bytes in, values and bytes out.

#[macro_use]
mod named;

pub mod checks;
pub mod design;
pub mod documents;
pub mod formats;
pub mod geometry;
pub mod measures;
pub mod sheet;
pub mod shop;
pub mod trade;
