//! The processes file: the shop's own figures over those known without being told, and ways of cutting
//! of its own.
//!
//! ```toml
//! stated_by = "Quay Metalwork"
//! stated_on = "2026-11-20"
//!
//! [process.waterjet]
//! kerf  = { value = 0.95, spread = 0.05 }
//! rates = { per_hour = 110, set_up = 25 }
//!
//! [process.old-jet]
//! like = "waterjet"
//! kerf = { value = 1.3, spread = 0.1, stated_by = "Anna", on = "2026-11-12" }
//! ```

mod apply;
mod checked;
mod fault;
mod file;
mod print;

pub use fault::ProcessFault;
pub use file::FeedEntry;
pub use file::FigureEntry;
pub use file::FigureTable;
pub use file::NeverEntry;
pub use file::ProcessEntry;
pub use file::ProcessesFile;
pub use file::RatesEntry;
pub use file::SideWord;
pub use file::StartWord;
pub use print::kerf_table;
pub use print::to_file;

use super::error::DesignError;
use super::read;
use super::source::Source;
use crate::trade::Processes;

/// Reads a processes file, TOML or JSON, over the processes that are known without being told.
///
/// What the file does not speak of stays as it is, with its own mark; what it states is the word of
/// whoever stated it. A process that is not known yet says what it is `like`, or gives its kerf with a
/// spread.
///
/// # Errors
/// All that is wrong with it, each with its place.
///
/// # Example
/// ```
/// use kerfwise::design::Source;
/// use kerfwise::design::processes;
///
/// let text = "[process.waterjet]\nkerf = { value = 0.95, spread = 0.05 }\n";
/// let known = processes::read(&Source::new("shop.toml", text)).expect("a processes file");
/// let jet = known.find("waterjet").expect("it is there");
/// assert_eq!((jet.kerf.at(6.0), jet.kerf.above), (0.95, 0.05), "the shop's own");
/// ```
pub fn read(source: &Source) -> Result<Processes, Vec<DesignError>> {
    let file: ProcessesFile = read::structure(source)?;
    apply::apply(&file, Processes::default())
}

#[cfg(test)]
mod tests;
