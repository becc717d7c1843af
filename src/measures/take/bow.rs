//! The bow of a curved edge over the chord between its ends.

use crate::design::DesignError;
use crate::design::Word;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::measures::feature::Feature;
use crate::measures::find;
use crate::measures::shape::Shape;
use crate::measures::shape::foot;
use crate::measures::taken::How;
use crate::measures::taken::Taken;

const CURVED: &str = "a curved edge, of one arc or a fair curve,";

/// The greatest height of an edge over the straight line between its ends, full or hollow.
///
/// The ends are those that the finished edge has, where the roundings of its corners begin: a straight edge
/// can be laid to those, and not to corners that are not there any more.
pub(super) fn bow(shape: &Shape<'_>, name: &Word) -> Result<Taken, DesignError> {
    let feature = find::one(shape, name)?;
    let wrong = |found| find::wrong(name, found, CURVED);
    let Feature::Edge(edge) = &feature else {
        return Err(wrong(feature.what()));
    };
    let (Some(first), Some(last)) = (edge.finished.first(), edge.finished.last()) else {
        return Err(wrong("rounded away"));
    };
    let chord = Line {
        start: first.start(),
        end: last.end(),
    };
    let Some(along) = number::normalized(chord.end - chord.start) else {
        return Err(wrong("closed in itself"));
    };
    let out = number::left_normal(along);
    let height = |point: &Point| (*point - chord.start).dot(out).abs();
    let farthest = |segment: &Segment| [segment.farthest(out), segment.farthest(-out)];
    let crown = edge
        .finished
        .iter()
        .flat_map(farthest)
        .max_by(|a, b| height(a).total_cmp(&height(b)))
        .filter(|crown| height(crown) > tolerance::SAME_DIMENSION);
    let Some(crown) = crown else {
        return Err(wrong(feature.what()));
    };
    let between = [foot(&chord, crown), crown];
    Ok(Taken::length(height(&crown), between, How::StraightEdge))
}
