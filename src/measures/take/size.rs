//! The size of an opening with parallel sides: a rectangle, a slot.

use crate::design::DesignError;
use crate::design::Word;
use crate::design::file::measure::OpeningSize;
use crate::design::file::measure::SizeWay;
use crate::design::part::Opening;
use crate::design::part::OpeningShape;
use crate::geometry::Contour;
use crate::geometry::Line;
use crate::geometry::Piece;
use crate::geometry::Segment;
use crate::geometry::tolerance;
use crate::measures::find;
use crate::measures::shape::Shape;
use crate::measures::shape::apart;
use crate::measures::shape::foot;
use crate::measures::taken::How;
use crate::measures::taken::Taken;

const SIDED: &str = "a rectangle, or the width of a slot,";

/// From one side of an opening to the side opposite, square to both; of a pattern the least.
pub(super) fn size(shape: &Shape<'_>, size: &OpeningSize) -> Result<Taken, DesignError> {
    let way = size.way.value;
    let mut best: Option<Taken> = None;
    for (opening, contour) in find::openings(shape, &size.of)? {
        if !has(opening, way) {
            return Err(wrong(&size.of, opening));
        }
        let taken = between_sides(opening, &contour, way)
            .ok_or_else(|| find::wrong(&size.of, "without such sides here", SIDED))?;
        if best.is_none_or(|best| taken.value < best.value) {
            best = Some(taken);
        }
    }
    best.ok_or_else(|| find::wrong(&size.of, "no opening", SIDED))
}

/// Whether an opening has such a size.
pub(super) const fn has(opening: &Opening, way: SizeWay) -> bool {
    match opening.shape {
        OpeningShape::Rectangle { .. } => true,
        OpeningShape::Slot { .. } => matches!(way, SizeWay::Width),
        // a rectangle with relieved corners; one that is written as an outline has edges with names
        OpeningShape::Outline => opening.features.edges.is_empty(),
        OpeningShape::Circle { .. } => false,
    }
}

/// The distance of two opposite sides, from the middle of the one.
fn between_sides(opening: &Opening, contour: &Contour, way: SizeWay) -> Option<Taken> {
    let start = opening.sources.start;
    let line = |piece: &Piece| match piece.segment {
        Segment::Line(line) => Some(line),
        Segment::Arc(_) => None,
    };
    let mut pieces = contour.pieces().iter();
    let lines: Vec<Line> = match (opening.shape, way) {
        (OpeningShape::Slot { .. }, _) => pieces.filter_map(line).collect(),
        // four corners and the sides that leave them, by turns: bottom, right, top, left
        (_, SizeWay::Width) => sides(&mut pieces, [start + 3, start + 7], line),
        (_, SizeWay::Height) => sides(&mut pieces, [start + 1, start + 5], line),
    };
    let (one, other) = (lines.first()?, lines.last()?);
    let middle = one.start.midpoint(one.end);
    let between = [middle, foot(other, middle)];
    let value = apart(between[0], between[1]);
    (value > tolerance::SAME_DIMENSION).then(|| Taken::length(value, between, How::Straight))
}

fn sides<'a>(
    pieces: &mut impl Iterator<Item = &'a Piece>,
    sources: [u32; 2],
    line: impl Fn(&Piece) -> Option<Line>,
) -> Vec<Line> {
    pieces
        .filter(|piece| sources.contains(&piece.source.0))
        .filter_map(line)
        .collect()
}

fn wrong(of: &Word, opening: &Opening) -> DesignError {
    let (found, help) = match opening.shape {
        OpeningShape::Circle { .. } => (
            "a round opening",
            format!("take `diameter = \"{}\"`", of.value),
        ),
        OpeningShape::Slot { .. } => (
            "a slot, which has a width only,",
            "take its `width`, or the distance of one of its ends from something else".to_owned(),
        ),
        OpeningShape::Rectangle { .. } | OpeningShape::Outline => (
            "an opening of another outline",
            "take `distance = { from = \"…\", to = \"…\" }` between two of its edges".to_owned(),
        ),
    };
    find::wrong(of, found, SIDED).with_help(help)
}
