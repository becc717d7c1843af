//! Tolerance stacks: how far the spreads of the dimensions carry a limit or a derived dimension, worst
//! case and most likely, and what moves it most.
//!
//! Nothing here knows a formula: the design is resolved again with other values, and what is asked for
//! is taken again on the parts that come of it.
//!
//! - *Worst case*: every dimension at the end of its spread that carries the value furthest, all at
//!   once, resolved there.
//! - *Most likely*: the root of the sum of squares of what each spread does on its own (first order),
//!   about the middle of the spreads. Where the spreads are so many standard deviations wide, so is
//!   the result.
//!
//! # Source
//! JCGM 100:2008 (GUM), 5.1.2 and 5.1.3, for the root of the sum of squares with sensitivities taken
//! by varying each input; the sum of the absolute values is closed form.

mod bench;
mod room;
mod slope;
mod watch;
mod ways_out;

pub use bench::Bench;
pub(in crate::measures) use bench::Bent;
pub use bench::Free;
pub use bench::Holder;
pub use room::Move;
pub use room::Room;
pub use slope::Contribution;
pub use slope::Course;
pub use slope::Stack;
pub use watch::Stop;
pub(in crate::measures) use watch::Watch;
pub(in crate::measures) use ways_out::ways_out;
