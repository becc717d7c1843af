//! Whether a drawing keeps the limits of the design it was held against.

use super::Against;
use super::Inspection;
use crate::design::Design;
use crate::design::file::Measure;
use crate::design::part::Part;
use crate::documents::check::words;
use crate::geometry::Contour;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::SourceId;
use crate::geometry::number;
use crate::measures::Shape;
use crate::measures::limits;
use crate::measures::limits::LimitCheck;
use crate::measures::take;
use crate::sheet::Column;
use crate::sheet::Table;

/// The limits of the design, measured on the drawing as it was laid onto the part, and whether all are kept;
/// `None` where the part has none that is measured on it.
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
    design: &Design,
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
    for limit in limits::limits(design).limits {
        let here = limit.part.as_deref() == Some(part.name.as_str());
        let (Some(measure), true, true) = (&limit.measure, here, limit.permitted.is_limited())
        else {
            continue;
        };
        // no drawing says how thick the plate is
        if measure.value == Measure::Thickness {
            continue;
        }
        let taken = take(&shape, measure, &design.dimensions).ok();
        let check = LimitCheck::on(taken.map(|taken| taken.value), limit.permitted);
        kept &= !check.is_broken();
        let verdict = match check {
            LimitCheck::Open => "cannot be measured on this drawing".to_owned(),
            known => words::verdict(known, limit.kind, limit.unit),
        };
        table.row(vec![
            limit.name.as_str().into(),
            words::cell(limit.kind, taken.map(|taken| taken.value), limit.unit),
            words::permitted(limit.kind, limit.permitted, limit.unit).into(),
            verdict.into(),
        ]);
    }
    (!table.rows.is_empty()).then_some((table, kept))
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
