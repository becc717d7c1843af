//! Kerf allowances side by side: what each way of cutting does to a part, when it goes right and when
//! somebody errs.
//!
//! # Words
//! - *Line of the tool*: what the middle of the cut runs along. Compensated, it is the outline grown by
//!   half the kerf; not compensated, the outline itself; compensated by both builder and shop, the
//!   outline grown by the whole kerf.
//! - *As cut*: what the cut leaves of the material inside the line of the tool: the line shrunk by half
//!   the kerf that the tool really has. So a tool fills inside corners by half its kerf, and goes round
//!   outside corners; every figure is measured on that shape.
//! - *Faces*: a cut face that leans leaves the part smaller at the top than at half its thickness, and
//!   larger at the bottom. Verdicts take the worst face.
//!
//! What is not cut does not move: the plate's own edges, edges that are dressed later, drilled holes.

mod as_cut;
mod case;
mod compare;
mod error;
mod general;
mod judged;
mod lost;
mod own;
mod pins;
mod room;
mod standing;
pub mod trial_cut;
mod work;

#[cfg(test)]
mod design_tests;
#[cfg(test)]
mod tests;

pub use as_cut::AsCut;
pub use case::Case;
pub use case::CaseResult;
pub use case::Kerf;
pub use case::Reading;
pub use compare::Asked;
pub use compare::Comparison;
pub use compare::Wanted;
pub use compare::compare;
pub use error::KerfError;
pub use general::narrowest;
pub use judged::Judged;
pub use judged::Kind;
pub use judged::Mend;
pub use judged::judged;
pub use judged::limits_anything;
pub use lost::Lost;
pub use lost::WhatIsLost;
pub use room::Broken;
pub use room::Room;
pub use room::room;
pub use standing::Concern;
pub use standing::Standing;
pub use work::Cost;
pub use work::Work;
