//! The finished part against its limits: what is measured, what was read, what can be said of it.

mod form;
mod inspect;
mod item;
mod settle;
mod stops;
mod words;

pub use form::items;
pub use inspect::Found;
pub use inspect::Inspected;
pub use inspect::Inspection;
pub use inspect::Otherwise;
pub use inspect::Rules;
pub use inspect::inspect;
pub use item::Filing;
pub use item::Item;
pub use item::Judging;
pub use item::Taking;
pub use settle::Obstacle;
pub use settle::Settling;
pub use settle::settling;
pub use stops::Stop;
pub use stops::stops;

pub(in crate::measures) use inspect::circumstances;

#[cfg(test)]
mod tests;
