//! What can be measured on a part: area, weight, widths, limits.

pub mod inspection;
pub mod readings;
pub mod uncertainty;
pub mod verdict;
