//! Writers of pictures, tables and documents (DXF, SVG, PDF, PNG, HTML, JSON, text) and readers of
//! DXF and SVG.

pub mod curve;
pub mod drawn;
pub mod dxf;
pub mod error;
pub mod font;
pub mod pdf;
pub mod svg;
pub mod text;

pub use error::FormatError;
