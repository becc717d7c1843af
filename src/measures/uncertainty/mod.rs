//! How sure a measured value is: the mean of readings, standard uncertainties of type A and B, their
//! combination, coverage.
//!
//! # Source
//! JCGM 100:2008 (the GUM): type A 4.2, type B 4.3 (limits ±a without more knowledge: a/√3, 4.3.7),
//! combination 5.1.2, effective degrees of freedom by Welch and Satterthwaite G.4.1.

mod budget;
mod component;
mod means;
mod sample;
pub mod student;
pub mod temperature;

pub use budget::Budget;
pub use budget::Circumstances;
pub use component::Combined;
pub use component::Component;
pub use component::Evaluation;
pub use component::combine;
pub use means::Accuracy;
pub use means::Means;
pub use means::MeansFault;
pub use sample::Sample;

#[cfg(test)]
mod tests;
