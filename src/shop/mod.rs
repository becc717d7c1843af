//! Kerf, tool paths, marking out, plate layout.

pub mod kerf;
pub mod tool_path;
