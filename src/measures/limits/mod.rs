//! Everything of a design that has limits, and whether the part as drawn keeps them.

mod collect;
mod judge;

#[cfg(test)]
mod tests;

pub use collect::Limit;
pub use collect::Limits;
pub use collect::limits;
pub use judge::Judged;
pub use judge::Verdict;
pub(super) use judge::broken_by;
pub use judge::judge;
pub use judge::value_at;
