//! What a way of cutting can do, as limits.

use crate::checks::Limit;
use crate::checks::Limits;
use crate::trade::processes::ByThickness;
use crate::trade::processes::Process;

/// The limits of a process in a plate of a thickness in millimetres. Figures from memory or common practice
/// make limits that only warn.
pub fn of_process(process: &Process, thickness: f64) -> Limits {
    let limit = |figure: &ByThickness| Limit {
        value: figure.at(thickness),
        basis: format!("{}, {}", process.title, figure.origin.words()),
        decides: figure.origin.is_authority(),
    };
    Limits {
        smallest_opening: process.smallest_hole.as_ref().map(limit),
        web: process.web.as_ref().map(limit),
        inside_radius: process.inside_radius.as_ref().map(limit),
        kerf: Some(limit(&process.kerf)),
    }
}
