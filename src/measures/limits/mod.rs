//! Everything of a design that has limits, and whether the part as drawn keeps them.

mod collect;
mod judge;

pub use collect::Limit;
pub use collect::Limits;
pub use collect::limits;
pub use judge::Judged;
pub use judge::LimitCheck;
pub(super) use judge::broken_by;
pub use judge::judge;
pub use judge::value_at;

#[cfg(test)]
mod hands_tests;
#[cfg(test)]
mod tests;
