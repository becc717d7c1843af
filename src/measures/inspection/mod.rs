//! The finished part against its limits: what is measured, what was read, what can be said of it.

mod inspect;
mod item;
mod settle;

pub use inspect::Found;
pub use inspect::Inspected;
pub use inspect::Inspection;
pub use inspect::Rules;
pub use inspect::inspect;
pub use item::Filing;
pub use item::Item;
pub use item::ItemKind;
pub use item::Judging;
pub use settle::Settling;
pub use settle::settling;

#[cfg(test)]
mod tests;
