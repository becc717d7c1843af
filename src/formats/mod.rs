//! Writers of pictures, tables and documents (DXF, SVG, PDF, PNG, HTML, JSON, text) and readers of
//! DXF and SVG.

pub mod contents;
pub mod curve;
pub mod drawn;
pub mod dxf;
pub mod error;
pub mod font;
pub mod html;
pub mod incoming;
pub mod json;
pub mod pdf;
pub mod png;
pub mod svg;
pub mod svg_read;
pub mod text;

pub use contents::Contents;
pub use contents::FileFormat;
pub use error::FormatError;
pub use incoming::Incoming;
