//! Kerf, tool paths, marking out, plate layout.
