//! Data of the trade, each value with its mark: read, read second-hand, remembered, common practice.
//!
//! A value that was only remembered or is common practice is a default that a person can change, and
//! never a limit that something passes or fails by.

pub mod cautions;
pub mod error;
pub mod flatness;
pub mod general_tolerances;
pub mod instruments;
pub mod mark;
pub mod materials;
mod names;
pub mod papers;
pub mod processes;
pub mod screws;
pub mod thickness;
pub mod usual_sizes;

pub use cautions::Caution;
pub use error::TradeError;
pub use general_tolerances::ToleranceClass;
pub use instruments::Instrument;
pub use mark::Figure;
pub use mark::Mark;
pub use materials::Material;
pub use papers::Paper;
pub use processes::Process;
pub use processes::Processes;
pub use screws::Screw;
