//! The design file: text with places, units, expressions, dimensions, and the part they resolve to.
//!
//! Stages: a [`Source`] is read into a [`DesignFile`], whose structures are those of the file and
//! keep the place of every value; [`Dimensions`] are its named dimensions evaluated, and evaluate any
//! other amount of the file.

pub mod dimensions;
pub mod error;
pub mod expression;
pub mod fault;
pub mod file;
pub mod fingerprint;
pub mod flatness;
pub mod limits;
mod load;
pub mod located;
pub mod measure_fault;
mod names;
pub mod part;
pub mod processes;
mod read;
pub mod resolve;
pub mod schema;
pub mod source;
pub mod tools;
mod unused;

pub use dimensions::Band;
pub use dimensions::Dimension;
pub use dimensions::Dimensions;
pub use dimensions::Override;
pub use dimensions::Unresolved;
pub use error::DesignError;
pub use error::DesignErrorKind;
pub use error::Severity;
pub use error::Sink;
pub use file::DesignFile;
pub use load::Design;
pub use located::Amount;
pub use located::Entries;
pub use located::List;
pub use located::Located;
pub use located::Named;
pub use located::Pair;
pub use located::Word;
pub(crate) use read::keys::suggestion;
pub use schema::json_schema;
pub use source::Place;
pub use source::Position;
pub use source::Source;
pub use source::SourceKind;
