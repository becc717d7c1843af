//! Rules a shop applies to a file before it cuts it; one file a rule.
//!
//! The rules see lines and arcs and what they make up ([`Subject`]), whether they are a part of ours or
//! were read from a file; never a design. A place is a [`SourceId`](crate::geometry::SourceId), whose meaning belongs to whoever
//! made the subject.
//!
//! A limit that nobody stands up for ([`Limit::decides`]) makes a notice, never an error.

mod assembly;
mod crossing;
mod duplicate;
mod finding;
mod gap;
mod inside_corner;
mod missing_unit;
mod narrow_web;
mod near_edge;
mod nesting;
mod open_contour;
mod sharp_corner;
mod sheet_size;
mod short_chords;
mod small_opening;
mod subject;
mod swallowed;
mod thin;
mod tool_path;
mod zero_length;

pub use assembly::Assembly;
pub use assembly::Outline;
pub use assembly::assemble;
pub use assembly::chained;
pub use duplicate::same_pieces;
pub use finding::Finding;
pub use finding::Grade;
pub use finding::Rule;
pub use nesting::Nested;
pub use nesting::nest;
pub use subject::Limit;
pub use subject::Limits;
pub use subject::Lines;
pub use subject::Run;
pub use subject::SheetSize;
pub use subject::Subject;
pub use subject::Unit;
pub use thin::Thinned;
pub use thin::thinned;

use finding::Findings;

/// Findings of one rule that are listed one by one; of the rest their number is told.
const MOST_OF_A_RULE: usize = 50;

/// A rule.
type Check = fn(&Subject, &mut Findings);

/// Everything that the rules find, rule by rule; on a tool path only what can be judged on one.
pub fn check(subject: &Subject) -> Vec<Finding> {
    const ON_ANY: [Check; 2] = [missing_unit::check, sheet_size::check];
    const ON_TOOL_PATHS: [Check; 3] = [tool_path::check, zero_length::check, short_chords::check];
    const ON_EDGES: [Check; 12] = [
        open_contour::check,
        gap::check,
        crossing::check,
        duplicate::check,
        zero_length::check,
        short_chords::check,
        small_opening::check,
        swallowed::check,
        narrow_web::check,
        near_edge::check,
        inside_corner::check,
        sharp_corner::check,
    ];
    let rest: &[Check] = match subject.lines {
        Lines::FinishedEdges => &ON_EDGES,
        Lines::ToolPath { .. } => &ON_TOOL_PATHS,
    };
    let mut all = Vec::new();
    for rule in ON_ANY.iter().chain(rest) {
        let mut findings = Findings::new(MOST_OF_A_RULE);
        rule(subject, &mut findings);
        all.append(&mut findings.into_list());
    }
    all
}

#[cfg(test)]
mod tests;
