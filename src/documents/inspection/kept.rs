//! Whether a drawing keeps the limits of the design it was held against.

use super::Against;
use super::Inspection;
use crate::design::Dimension;
use crate::design::Dimensions;
use crate::design::part::Part;
use crate::documents::check::permitted;
use crate::geometry::Contour;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::SourceId;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::measures::Shape;
use crate::measures::Taken;
use crate::measures::take;
use crate::sheet::Column;
use crate::sheet::Table;

/// The limits of the design, measured on the drawing as it was laid onto the part, and whether all are kept;
/// `None` where no dimension has limits and a measure.
///
/// A piece of the drawing stands for the piece of the part that it lies on, so what strays far from the part
/// cannot be measured, and is said to be so.
///
/// # Accuracy
/// Exact lines and arcs, as [`take`].
pub fn against_limits(
    inspection: &Inspection,
    found: &Against,
    part: &Part,
    dimensions: &Dimensions,
) -> Option<(Table, bool)> {
    let motion = found.lying.motion();
    let regions: Vec<Region> = inspection
        .subject
        .nested
        .regions
        .iter()
        .map(|region| traced(&motion.region(region), part))
        .collect();
    let shape = Shape::changed(part, &regions);
    let mut table = Table::new(
        "Limits of the design, measured on the drawing",
        vec![
            Column::words("Name", "name"),
            Column::numbers("In the drawing", "measured"),
            Column::words("Permitted", "permitted"),
            Column::words("Verdict", "verdict"),
        ],
    );
    let mut kept = true;
    for dimension in dimensions {
        let limited = dimension.permitted.min.is_some() || dimension.permitted.max.is_some();
        let other = dimension
            .part
            .as_ref()
            .is_some_and(|name| *name != part.name);
        let Some(measure) = dimension.measure.as_ref().filter(|_| limited && !other) else {
            continue;
        };
        let (value, verdict) = match take(&shape, measure, dimensions) {
            Ok(taken) => {
                let (verdict, keeps) = verdict(dimension, &taken);
                kept &= keeps;
                (dimension.shown(taken.value), verdict)
            }
            Err(_) => (String::new(), "cannot be measured on this drawing"),
        };
        table.row(vec![
            dimension.name.as_str().into(),
            value.into(),
            permitted(dimension).into(),
            verdict.into(),
        ]);
    }
    (!table.rows.is_empty()).then_some((table, kept))
}

fn verdict(dimension: &Dimension, taken: &Taken) -> (&'static str, bool) {
    let slack = tolerance::SAME_DIMENSION;
    let (min, max) = (dimension.permitted.min, dimension.permitted.max);
    if min.is_some_and(|min| taken.value < min - slack) {
        ("too small", false)
    } else if max.is_some_and(|max| taken.value > max + slack) {
        ("too large", false)
    } else {
        ("kept", true)
    }
}

/// The region with each piece bearing the source of the piece of the part nearest to its middle.
fn traced(region: &Region, part: &Part) -> Region {
    let known: Vec<Piece> = part
        .region
        .contours()
        .flat_map(|contour| contour.pieces().iter().copied())
        .collect();
    let source = |at: Point| {
        let mut best = (f64::INFINITY, SourceId::UNTRACED);
        for piece in &known {
            let distance = number::length(piece.segment.nearest_point(at) - at);
            if distance < best.0 {
                best = (distance, piece.source);
            }
        }
        best.1
    };
    let contour = |contour: &Contour| {
        let pieces = contour.pieces().iter();
        let traced = pieces.map(|piece| {
            let own = source(piece.segment.point_at(0.5));
            Piece::new(piece.segment, own)
        });
        Contour::new(traced.collect()).unwrap_or_else(|_| contour.clone())
    };
    Region::new(
        contour(region.outer()),
        region.holes().iter().map(contour).collect(),
    )
}
