//! Everything of a design that has limits, and whether the part as drawn keeps them.

mod collect;
mod judge;
mod on_curve;

pub use collect::Limit;
pub use collect::Limits;
pub use collect::limits;
pub use judge::Judged;
pub use judge::LimitCheck;
pub(super) use judge::broken_by;
pub use judge::judge;
pub(super) use judge::on_true_curve;
pub use judge::value_as_drawn;
pub use judge::value_at;

#[cfg(test)]
mod curve_tests;
#[cfg(test)]
mod hands_tests;
#[cfg(test)]
mod tests;
