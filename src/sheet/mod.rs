//! Picture and Table: everything drawn is the one, every list the other, and a Document strings them
//! together. Writers of all three are in `formats`.

pub mod document;
pub mod number;
pub mod picture;
pub mod table;

pub use document::Block;
pub use document::Document;
pub use document::Figure;
pub use picture::Anchor;
pub use picture::Fill;
pub use picture::Item;
pub use picture::Layer;
pub use picture::LineType;
pub use picture::Pen;
pub use picture::Picture;
pub use picture::Shade;
pub use picture::Shape;
pub use picture::Stroke;
pub use picture::Text;
pub use table::Align;
pub use table::Cell;
pub use table::Column;
pub use table::Quantity;
pub use table::Table;
pub use table::Unit;
