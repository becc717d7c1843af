//! The line to saw to: outside the finished line by an allowance for filing.

use super::error::PatternError;
use super::options::RoughCut;
use super::outline::THIN;
use crate::design::part::EdgeState;
use crate::design::part::Part;
use crate::geometry::Contour;
use crate::geometry::GeometryError;
use crate::geometry::Path;
use crate::geometry::Piece;
use crate::geometry::SourceId;
use crate::geometry::offset::Join;
use crate::geometry::offset::offset;
use crate::sheet::Layer;
use crate::sheet::LineType;
use crate::sheet::Picture;

/// Draws the line to saw to, where there is something to saw: not along the plate's own edges, nor
/// where a strip is left on.
pub(super) fn draw(
    picture: &mut Picture,
    part: &Part,
    rough_cut: RoughCut,
) -> Result<(), PatternError> {
    let RoughCut::Allowance(allowance) = rough_cut else {
        return Ok(());
    };
    let failed = |reason: String| PatternError::RoughCut { allowance, reason };
    if !(allowance > 0.0 && allowance <= 50.0) {
        return Err(failed("an allowance is 0 to 50 mm".to_owned()));
    }
    let grown =
        offset(&part.region, allowance, Join::Round).map_err(|error| failed(error.to_string()))?;
    for region in &grown.regions {
        for contour in region.contours() {
            draw_contour(picture, part, contour)?;
        }
    }
    Ok(())
}

fn draw_contour(
    picture: &mut Picture,
    part: &Part,
    contour: &Contour,
) -> Result<(), GeometryError> {
    let dashed = THIN.line_type(LineType::Dashed);
    let pieces = contour.pieces();
    let is_sawn = |source: SourceId| {
        !matches!(
            part.edge_of(source).map(|edge| edge.state),
            Some(EdgeState::PlateEdge | EdgeState::LeaveOn(_))
        )
    };
    if pieces.iter().all(|piece| is_sawn(piece.source)) {
        picture.contour(Layer::Mark, contour.clone(), dashed);
        return Ok(());
    }
    // from the first piece that is not sawn all runs are whole
    let start = pieces.iter().position(|piece| !is_sawn(piece.source));
    let mut run: Vec<Piece> = Vec::new();
    let in_order = pieces.iter().cycle().skip(start.unwrap_or(0));
    for piece in in_order.take(pieces.len() + 1) {
        if is_sawn(piece.source) {
            run.push(*piece);
        } else if !run.is_empty() {
            picture.path(Layer::Mark, Path::new(std::mem::take(&mut run))?, dashed);
        }
    }
    Ok(())
}
