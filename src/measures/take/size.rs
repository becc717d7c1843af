//! The size of an opening with parallel sides: a rectangle, a slot.

use crate::design::DesignError;
use crate::design::Word;
use crate::design::file::measure::OpeningSize;
use crate::design::file::measure::SizeWay;
use crate::design::part::Opening;
use crate::design::part::OpeningShape;
use crate::geometry::Contour;
use crate::geometry::Line;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;
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
        let across = across(opening, way).ok_or_else(|| wrong(&size.of, opening))?;
        let taken = between_sides(&contour, across)
            .ok_or_else(|| find::wrong(&size.of, "without such sides here", SIDED))?;
        if best.is_none_or(|best| taken.value < best.value) {
            best = Some(taken);
        }
    }
    best.ok_or_else(|| find::wrong(&size.of, "no opening", SIDED))
}

/// Whether an opening has such a size.
pub(super) fn has(opening: &Opening, way: SizeWay) -> bool {
    across(opening, way).is_some()
}

/// The direction that a size is taken in.
fn across(opening: &Opening, way: SizeWay) -> Option<Vec2> {
    match (opening.shape, way) {
        (OpeningShape::Slot { from, to, .. }, SizeWay::Width) => {
            number::normalized(to - from).map(number::left_normal)
        }
        (_, SizeWay::Width) => opening.features.sides,
        (_, SizeWay::Height) => opening.features.sides.map(number::left_normal),
    }
}

/// The distance of the two sides that lie square to a direction, from the middle of the one: on either half
/// the longest, since the relief of a corner may have short ones.
fn between_sides(contour: &Contour, across: Vec2) -> Option<Taken> {
    let centre = contour.bounds().center();
    let height = |line: &Line| (line.start.midpoint(line.end) - centre).dot(across);
    let is_side = |segment: &Segment| match segment {
        Segment::Line(line) if line.direction().dot(across).abs() <= tolerance::SAME_WALL => {
            Some(*line)
        }
        _ => None,
    };
    let sides: Vec<Line> = contour.segments().filter_map(is_side).collect();
    let longest = |above: bool| {
        let half = sides.iter().filter(|line| (height(line) > 0.0) == above);
        half.max_by(|a, b| a.length().total_cmp(&b.length()))
    };
    let (low, high) = (longest(false)?, longest(true)?);
    let middle = low.start.midpoint(low.end);
    let between = [middle, foot(high, middle)];
    let value = apart(between[0], between[1]);
    Some(Taken::length(value, between, How::Straight))
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
