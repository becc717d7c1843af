//! Whether a drawing keeps the limits of the design it was held against.

use super::Against;
use super::Inspection;
use super::holes;
use crate::design::Design;
use crate::design::Unresolved;
use crate::design::file::Measure;
use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::documents::check::words;
use crate::documents::features;
use crate::geometry::Contour;
use crate::geometry::Motion;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::number;
use crate::measures::Shape;
use crate::measures::limits::Limit;
use crate::measures::limits::LimitCheck;
use crate::measures::limits::limits;
use crate::measures::take;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Table;

/// A piece further from every piece of the part than this part of its size is none of them; and in
/// millimetres, for small parts.
const FURTHEST: (f64, f64) = (0.02, 2.0);

/// The limits of the design on this part, of its dimensions and of its `limit` tables, measured on the
/// drawing as it was laid onto the part, and whether all that can be measured are kept; `None` where
/// nothing has limits and a measure.
///
/// A piece of the drawing stands for the piece of the part that it lies on. What strays far from the part
/// stands for none; a measure that needs it cannot be taken, and the table says what is missing. Holes that
/// are drilled are taken about the points that mark them, with the design's diameter.
///
/// # Accuracy
/// Exact lines and arcs, as [`take`].
pub fn against_limits(
    inspection: &Inspection,
    found: &Against,
    part: &Part,
    design: &Design,
) -> Option<(Table, bool)> {
    let limits: Vec<Limit> = limits(design)
        .limits
        .into_iter()
        .filter(|limit| {
            let own = limit.part.as_ref().is_some_and(|name| *name == part.name);
            // no drawing says how thick the plate is
            let thick = limit
                .measure
                .as_ref()
                .is_some_and(|measure| measure.value == Measure::Thickness);
            own && !thick && limit.permitted.is_limited()
        })
        .collect();
    if limits.is_empty() {
        return None;
    }
    let regions = regions(inspection, found, part);
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
    for limit in &limits {
        let (kind, unit) = (limit.kind, limit.unit);
        let taken = limit
            .measure
            .as_ref()
            .map(|measure| take(&shape, measure, &design.dimensions));
        let (value, said) = match taken {
            Some(Ok(taken)) => {
                let verdict = LimitCheck::on(Some(taken.value), limit.permitted);
                kept &= !verdict.is_broken();
                let value = words::cell(kind, Some(taken.value), unit);
                (value, words::verdict(verdict, kind, unit))
            }
            Some(Err(why)) => (Cell::Empty, cannot(&why)),
            None => (Cell::Empty, "the design does not say how".to_owned()),
        };
        table.row(vec![
            limit.name.as_str().into(),
            value,
            words::permitted(kind, limit.permitted, unit).into(),
            said.into(),
        ]);
    }
    Some((table, kept))
}

fn cannot(why: &Unresolved) -> String {
    let why = match why {
        Unresolved::Fault(error) => error.kind.to_string(),
        open @ Unresolved::Open(_) => open.to_string(),
    };
    format!("cannot be measured on this drawing: {why}")
}

/// The material of the drawing laid onto the part, with the sources of the part's pieces.
fn regions(inspection: &Inspection, found: &Against, part: &Part) -> Vec<Region> {
    let motion = found.lying.motion();
    let known = Known::of(part);
    let mut regions: Vec<Region> = inspection
        .subject
        .nested
        .regions
        .iter()
        .map(|region| known.traced(&motion.region(region)))
        .collect();
    let drilled = drilled(inspection, part, &motion, known.reach);
    let by_area = |a: &&mut Region, b: &&mut Region| a.area().total_cmp(&b.area());
    if let Some(largest) = regions.iter_mut().max_by(by_area) {
        let mut holes = largest.holes().to_vec();
        holes.extend(drilled);
        *largest = Region::new(largest.outer().clone(), holes);
    }
    regions
}

/// The holes that are drilled, each about the point that marks it.
fn drilled(inspection: &Inspection, part: &Part, motion: &Motion, reach: f64) -> Vec<Contour> {
    let spots = holes::spots(inspection, motion);
    let about = |opening: &crate::design::part::Opening| {
        let OpeningShape::Circle { centre, .. } = opening.shape else {
            return None;
        };
        let away = |spot: &Point| number::length(*spot - centre);
        let nearest = spots.iter().min_by(|a, b| away(a).total_cmp(&away(b)))?;
        let hole = part.region.holes().get(opening.hole)?;
        (away(nearest) <= reach).then(|| Motion::shift(*nearest - centre).contour(hole))
    };
    part.openings
        .iter()
        .filter(|opening| features::is_drilled(opening))
        .filter_map(about)
        .collect()
}

/// The pieces of a part, to be known again.
struct Known {
    pieces: Vec<Piece>,
    reach: f64,
}

impl Known {
    fn of(part: &Part) -> Self {
        let contours = part.region.contours();
        let bounds = part.region.bounds();
        let size = number::length(bounds.size().to_vec2());
        Self {
            pieces: contours
                .flat_map(|contour| contour.pieces().iter().copied())
                .collect(),
            reach: (FURTHEST.0 * size).max(FURTHEST.1),
        }
    }

    /// The source of the piece that a segment lies on: that which is nearest to its middle.
    fn source(&self, segment: &Segment) -> SourceId {
        let at = segment.point_at(0.5);
        let away = |piece: &Piece| number::length(piece.segment.nearest_point(at) - at);
        let all = self.pieces.iter().map(|piece| (away(piece), piece.source));
        let nearest = all.min_by(|a, b| a.0.total_cmp(&b.0));
        nearest
            .filter(|(away, _)| *away <= self.reach)
            .map_or(SourceId::UNTRACED, |(_, source)| source)
    }

    /// The region with each piece bearing the source of the piece of the part that it lies on.
    fn traced(&self, region: &Region) -> Region {
        let contour = |contour: &Contour| {
            let pieces = contour.pieces().iter();
            let traced = pieces.map(|piece| Piece::new(piece.segment, self.source(&piece.segment)));
            Contour::new(traced.collect()).unwrap_or_else(|_| contour.clone())
        };
        Region::new(
            contour(region.outer()),
            region.holes().iter().map(contour).collect(),
        )
    }
}
