//! Full-size paper patterns: printed on any paper, joined by register marks, glued on the plate.
//!
//! The stages: the lines of each part (`outline`), turned and shifted for the fewest sheets
//! (`placing`), which cells of the grid are printed (`grid`), joints and lining-up lines
//! (`joints`), points and words (`points`, `labels`), distances to verify (`checks`), the
//! bands of every sheet (`furniture`) and the page that comes first (`assembly`). The whole drawing
//! is one picture, which every page shows through its own window.
//!
//! A printer's error is measured on a [`calibration`] page and undone by a [`correction`].

mod assembly;
mod build;
pub mod calibration;
mod checks;
pub mod correction;
mod drawing;
mod error;
mod flow;
mod frame;
mod furniture;
mod grid;
mod ink;
mod joints;
mod labels;
mod long;
mod moved;
pub mod options;
mod outline;
mod pages;
mod placing;
mod points;
mod rough_cut;
mod words;

pub use build::PatternFile;
pub use build::Summary;
pub use build::build;
pub use calibration::CalibrationPage;
pub use calibration::calibration_page;
pub use correction::Correction;
pub use correction::PrinterError;
pub use correction::ReadingError;
pub use correction::Readings;
pub use error::PatternError;
pub use options::Extent;
pub use options::Face;
pub use options::Orientation;
pub use options::PatternOptions;
pub use options::PatternPaper;
pub use options::Printer;
pub use options::RoughCut;
pub use options::Turning;
