//! From text to the structures of a design file.
//!
//! Stages: [`toml`] and [`json`] make a tree of values with their places; [`reader`] hands the tree to
//! the structures (which are ordinary `serde` ones), and adds the place to whatever is wrong. A fault
//! in one entry of a list or table does not hide the faults of the next.

mod fault;
mod json;
pub(crate) mod keys;
pub(crate) mod node;
mod reader;
mod toml;

use super::error::DesignError;
use super::error::Sink;
use super::file::DesignFile;
use super::fingerprint;
use super::names;
use super::source::Source;
use super::source::SourceKind;
use node::Node;
use reader::Reader;
use serde::Deserialize;
use std::cell::RefCell;
use std::collections::BTreeSet;

impl DesignFile {
    /// Reads a design file, TOML or JSON.
    ///
    /// # Errors
    /// All that is wrong with it as a text: syntax, unknown keys, wrong types, expressions that cannot
    /// be read, names that cannot be names, references to what is not there. Each has its place.
    ///
    /// # Example
    /// ```
    /// use kerfwise::design::DesignFile;
    /// use kerfwise::design::Source;
    ///
    /// let text = "[dims]\nfoot = 305\n\n[part.board]\noutline = []\n";
    /// let source = Source::new("board.toml", text);
    /// let file = DesignFile::read(&source).expect("a design file");
    /// assert_eq!(file.dims.len(), 1, "one dimension");
    /// ```
    pub fn read(source: &Source) -> Result<Self, Vec<DesignError>> {
        let (tree, mut file, used, mut sink) = tree_and_structure::<Self>(source)?;
        file.used_names = used;
        file.canonical = fingerprint::canonical(&tree);
        names::check(&file, &tree, &mut sink);
        if sink.has_errors() {
            return Err(sink.into_errors());
        }
        Ok(file)
    }
}

/// A structure read from a text that is no design, and all that is wrong with it.
pub(in crate::design) fn structure<T: for<'de> Deserialize<'de>>(
    source: &Source,
) -> Result<T, Vec<DesignError>> {
    let (_, structure, _, sink) = tree_and_structure(source)?;
    if sink.has_errors() {
        return Err(sink.into_errors());
    }
    Ok(structure)
}

/// The tree of a text, the structure read from it, the names that its expressions use, and what is wrong
/// although it could be read.
fn tree_and_structure<T: for<'de> Deserialize<'de>>(
    source: &Source,
) -> Result<(Node, T, BTreeSet<String>, Sink), Vec<DesignError>> {
    let mut sink = Sink::new();
    let tree = match source.kind() {
        SourceKind::Toml => toml::read(source.text(), &mut sink),
        SourceKind::Json => json::read(source, &mut sink),
    };
    let Some(tree) = tree else {
        return Err(sink.into_errors());
    };
    let sink = RefCell::new(sink);
    let used = RefCell::default();
    let reader = Reader::new(&tree, "the file", &sink, &used);
    let structure = reader::report(T::deserialize(reader), reader);
    let sink = sink.into_inner();
    match structure {
        Ok(structure) => Ok((tree, structure, used.into_inner(), sink)),
        Err(_) => Err(sink.into_errors()),
    }
}
