//! The line to saw to: outside the finished line by an allowance for filing.

use super::error::PatternError;
use super::options::RoughCut;
use crate::design::part::Part;
use crate::sheet::Picture;

/// Draws the line to saw to.
pub(super) fn draw(
    _picture: &mut Picture,
    _part: &Part,
    rough_cut: RoughCut,
) -> Result<(), PatternError> {
    match rough_cut {
        RoughCut::None => Ok(()),
        RoughCut::Allowance(allowance) => Err(PatternError::RoughCut {
            allowance,
            reason: "the offset of a region is not there yet".to_owned(),
        }),
    }
}
