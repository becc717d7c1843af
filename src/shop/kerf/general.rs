//! What the design does not limit: openings and tongues by the general tolerance.
//!
//! # Source
//! ISO 2768-1, the class that the design names; class m (medium) where it names none.

use super::judged::Judged;
use super::judged::Kind;
use super::judged::Mend;
use super::judged::Taking;
use super::judged::of_measure;
use super::pins::Tongue;
use super::pins::tongues;
use crate::design::Dimensions;
use crate::design::Located;
use crate::design::file::Measure;
use crate::design::part::Made;
use crate::design::part::Opening;
use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::geometry::Contour;
use crate::geometry::Region;
use crate::geometry::Vec2;
use crate::geometry::nearest::to_contour;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::measures::How;
use crate::measures::Shape;
use crate::measures::Taken;
use crate::measures::TakenKind;
use crate::measures::take;
use crate::trade::ToleranceClass;

/// The diameter, or one side, of openings of one size, by their numbers.
#[derive(Clone, Debug)]
pub(super) struct Sizes {
    group: Vec<usize>,
    side: Side,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Side {
    Diameter,
    Width,
    Length,
}

/// The rows of the general tolerance: of cut openings, then of tongues, save what one of these measures,
/// which the design limits, is taken of. Of a class that the design names they are limits of its own.
pub(super) fn rows(
    part: &Part,
    dimensions: &Dimensions,
    limited: &[Located<Measure>],
    class: Option<ToleranceClass>,
) -> Vec<Judged> {
    let taken: Vec<Taken> = limited
        .iter()
        .filter_map(|measure| take(&Shape::nominal(part), measure, dimensions).ok())
        .collect();
    let mut rows = Vec::new();
    for group in groups(part) {
        rows.extend(sizes(part, &group, &taken));
    }
    for tongue in tongues(part) {
        let row = pin(part, dimensions, &tongue);
        let is_limited = |row: &Judged| {
            let is_across = |taken: &Taken| is_as_long(taken, row.drawn) && across(taken, &tongue);
            taken.iter().any(is_across)
        };
        rows.extend(row.filter(|row| !is_limited(row)));
    }
    let held = |row: Judged| {
        let either_way = class.unwrap_or(ToleranceClass::Medium).linear(row.drawn)?;
        Some(Judged {
            kind: class.map_or(Kind::General, Kind::Class),
            min: Some(row.drawn - either_way),
            max: Some(row.drawn + either_way),
            ..row
        })
    };
    rows.into_iter().filter_map(held).collect()
}

fn is_as_long(taken: &Taken, drawn: f64) -> bool {
    taken.kind == TakenKind::Length && (taken.value - drawn).abs() <= tolerance::SAME_DIMENSION
}

/// Whether a measure is taken between the two sides of a tongue.
fn across(taken: &Taken, tongue: &Tongue) -> bool {
    let [one, other] = &tongue.sides;
    let is_on = |point, side: &crate::geometry::Segment| {
        number::length(side.nearest_point(point) - point) <= tolerance::SAME_DIMENSION
    };
    taken
        .between
        .is_some_and(|[a, b]| is_on(a, one) && is_on(b, other) || is_on(a, other) && is_on(b, one))
}

/// Whether a measure is taken of this size of an opening: it is as long, and between points of its
/// contour; or it is the radius of a round one.
fn is_size_of(taken: &Taken, drawn: f64, side: Side, contour: &Contour) -> bool {
    let Some([from, to]) = taken.between else {
        return false;
    };
    let is_on = |point| to_contour(point, contour).nearest.distance <= tolerance::SAME_DIMENSION;
    let is_radius = side == Side::Diameter && taken.how == How::Gauge;
    if is_radius {
        (2.0 * taken.value - drawn).abs() <= tolerance::SAME_DIMENSION && is_on(to)
    } else {
        is_as_long(taken, drawn) && is_on(from) && is_on(to)
    }
}

/// Openings of one pattern together, by their numbers: they have one name but for a number, and one
/// size.
fn groups(part: &Part) -> Vec<Vec<usize>> {
    let size = |opening: &Opening| match opening.shape {
        OpeningShape::Circle { diameter, .. } => [diameter, 0.0],
        OpeningShape::Slot { from, to, width } => [width, number::length(to - from)],
        OpeningShape::Rectangle { width, height, .. } => [width, height],
        OpeningShape::Outline => [0.0, 0.0],
    };
    let alike = |a: &Opening, b: &Opening| {
        let ([a_first, a_second], [b_first, b_second]) = (size(a), size(b));
        stem(&a.name) == stem(&b.name)
            && a.made == b.made
            && (a_first - b_first).abs() < tolerance::SAME_DIMENSION
            && (a_second - b_second).abs() < tolerance::SAME_DIMENSION
    };
    let mut groups: Vec<Vec<usize>> = Vec::new();
    for (index, opening) in part.openings.iter().enumerate() {
        let home = groups.iter_mut().find(|group| {
            let first = group.first().and_then(|&first| part.openings.get(first));
            first.is_some_and(|first| alike(first, opening))
        });
        match home {
            Some(home) => home.push(index),
            None => groups.push(vec![index]),
        }
    }
    groups
}

/// A name without the number that a pattern gave it.
fn stem(name: &str) -> &str {
    name.trim_end_matches(|letter: char| letter.is_ascii_digit())
        .trim_end()
}

fn sizes(part: &Part, group: &[usize], limited: &[Taken]) -> Vec<Judged> {
    let first = group.first().and_then(|&first| part.openings.get(first));
    let Some(opening) = first.filter(|opening| opening.made == Made::Cut) else {
        return Vec::new();
    };
    let called = match group.len() {
        1 => opening.name.clone(),
        several => format!("{} ({several})", stem(&opening.name)),
    };
    let sides: &[(Side, &str)] = match opening.shape {
        OpeningShape::Circle { .. } => &[(Side::Diameter, "diameter")],
        OpeningShape::Slot { .. } => &[(Side::Width, "width"), (Side::Length, "length")],
        OpeningShape::Rectangle { .. } => &[(Side::Width, "width"), (Side::Length, "height")],
        OpeningShape::Outline => &[],
    };
    let contours = || {
        let openings = group.iter().filter_map(|&index| part.openings.get(index));
        openings.filter_map(|opening| part.region.holes().get(opening.hole))
    };
    let one = |&(side, word): &(Side, &str)| {
        let drawn = opening_size(std::slice::from_ref(&part.region), opening, side)?;
        let is_size = |taken: &Taken| contours().any(|hole| is_size_of(taken, drawn, side, hole));
        if limited.iter().any(is_size) {
            return None;
        }
        Some(Judged {
            name: format!("{called} {word}"),
            place: opening.place,
            kind: Kind::General,
            min: None,
            max: None,
            drawn,
            counts: TakenKind::Length,
            mend: Mend::FilesUp,
            taken: Taking::Openings(Sizes {
                group: group.to_vec(),
                side,
            }),
        })
    };
    sides.iter().filter_map(one).collect()
}

/// The width of a tongue.
fn pin(part: &Part, dimensions: &Dimensions, tongue: &Tongue) -> Option<Judged> {
    let name = format!("{} width", tongue.end);
    of_measure(
        part,
        dimensions,
        (&name, tongue.place),
        &tongue.width,
        (None, None),
    )
}

impl Sizes {
    /// The size on a shape of the part of the opening that is farthest off from what was drawn.
    pub(super) fn farthest_off(&self, part: &Part, regions: &[Region], drawn: f64) -> Option<f64> {
        let sizes = self.group.iter().map(|&index| {
            let opening = part.openings.get(index)?;
            opening_size(regions, opening, self.side)
        });
        let sizes: Option<Vec<f64>> = sizes.collect();
        let off = |size: &f64| (size - drawn).abs();
        sizes?.into_iter().max_by(|a, b| off(a).total_cmp(&off(b)))
    }
}

/// A size of an opening on a shape of the part: exact for what is left of it. Sides are taken square to
/// the opening's own axis, over the outermost of its contour.
fn opening_size(regions: &[Region], opening: &Opening, side: Side) -> Option<f64> {
    let contour = contour_of(regions, opening)?;
    let axis = match opening.shape {
        OpeningShape::Circle { .. } => {
            return contour.as_circle().map(|(_, radius)| 2.0 * radius);
        }
        OpeningShape::Slot { from, to, .. } => number::normalized(to - from)?,
        OpeningShape::Rectangle { angle, .. } => number::unit(angle),
        OpeningShape::Outline => return None,
    };
    let is_slot = matches!(opening.shape, OpeningShape::Slot { .. });
    // a slot is long along its axis; the width of a rectangle runs along its axis
    let direction = match (side, is_slot) {
        (Side::Width, true) | (Side::Length, false) => number::left_normal(axis),
        _ => axis,
    };
    let reach = |direction: Vec2| {
        contour
            .segments()
            .map(|segment| segment.farthest(direction).to_vec2().dot(direction))
            .fold(f64::NEG_INFINITY, f64::max)
    };
    Some(reach(direction) + reach(-direction))
}

/// The contour that is left of an opening.
pub(super) fn contour_of<'r>(regions: &'r [Region], opening: &Opening) -> Option<&'r Contour> {
    regions
        .iter()
        .flat_map(Region::holes)
        .find(|hole| bears(hole, opening))
}

fn bears(contour: &Contour, opening: &Opening) -> bool {
    contour
        .pieces()
        .iter()
        .any(|piece| opening.sources.contains(&piece.source.0))
}

/// The narrowest way across an opening in millimetres, where its shape says so.
pub fn narrowest(opening: &Opening) -> Option<f64> {
    match opening.shape {
        OpeningShape::Circle { diameter, .. } => Some(diameter),
        OpeningShape::Slot { width, .. } => Some(width),
        OpeningShape::Rectangle { width, height, .. } => Some(width.min(height)),
        OpeningShape::Outline => None,
    }
}
