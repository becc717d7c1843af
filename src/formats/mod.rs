//! Writers of pictures, tables and documents (DXF, SVG, PDF, PNG, HTML, JSON, text) and readers of
//! DXF and SVG.

pub mod dxf;

pub mod error;

pub mod text;

pub use error::FormatError;
