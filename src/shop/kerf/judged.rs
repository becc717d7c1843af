//! What a shape as cut is judged by: the limits of the rules, and the fits of its openings.

use super::pins::Tongue;
use super::pins::tongues;
use crate::design::Design;
use crate::design::Dimensions;
use crate::design::Located;
use crate::design::Place;
use crate::design::file::Measure;
use crate::design::part::Made;
use crate::design::part::Opening;
use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::geometry::Contour;
use crate::geometry::Region;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::measures::Shape;
use crate::measures::TakenKind;
use crate::measures::limits::limits;
use crate::measures::take;
use crate::trade::ToleranceClass;

/// How far a shape is moved to see which way a measure goes, in millimetres.
const TRIED: f64 = 0.05;

/// Something that a part is judged by.
#[derive(Clone, Debug)]
pub struct Judged {
    /// What it is, for the reader.
    pub name: String,
    /// Where it stands in the design file.
    pub place: Place,
    /// Whether the rules set it, or it is a fit.
    pub kind: Kind,
    /// Not less than this; millimetres, mm², kilograms or radians.
    pub min: Option<f64>,
    /// Not more than this.
    pub max: Option<f64>,
    /// Its value on the part as drawn.
    pub drawn: f64,
    /// What it counts.
    pub counts: TakenKind,
    /// What happens to it when metal is taken away.
    pub mend: Mend,
    taken: Taking,
}

/// Who sets the limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// The design file.
    Limit,
    /// Nobody in so many words: what goes into the opening, by the general tolerance of ISO 2768-1, the
    /// [`class`] of the design.
    Fit,
}

/// What taking metal away does to a measure.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mend {
    /// It grows less: too large can be filed, too small is scrap.
    FilesDown,
    /// It grows: too small can be filed, too large is scrap.
    FilesUp,
    /// Nothing: kerf does not touch it.
    Nothing,
}

#[derive(Clone, Debug)]
enum Taking {
    Measure(Box<Located<Measure>>),
    /// The diameter, or one side, of openings of one size, by their numbers.
    Openings(Vec<usize>, Side),
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Side {
    Diameter,
    Width,
    Length,
}

/// The class of general tolerances that openings without limits are judged by: that of the design, or m.
pub fn class(design: &Design) -> ToleranceClass {
    let named = design.file.tolerance_class();
    named.unwrap_or(ToleranceClass::Medium)
}

/// Everything that a part is judged by and kerf may touch: limits in the order of the file, then fits.
/// What cannot be measured on the part as drawn is left out; `check` tells of it.
pub fn judged(design: &Design, part: &Part) -> Vec<Judged> {
    let dimensions = &design.dimensions;
    let class = class(design);
    let mut all = Vec::new();
    for limit in limits(design).limits {
        let here = limit.part.as_deref() == Some(part.name.as_str());
        let (Some(measure), true, true) = (&limit.measure, here, limit.permitted.is_limited())
        else {
            continue;
        };
        let name = (limit.name.as_str(), limit.place);
        let ends = (limit.permitted.min, limit.permitted.max);
        all.extend(of_measure(part, dimensions, name, measure, ends));
    }
    for group in groups(part) {
        all.extend(fits(part, &group, class));
    }
    all.extend(
        tongues(part)
            .iter()
            .filter_map(|tongue| pin(part, dimensions, tongue, class)),
    );
    for one in &mut all {
        one.mend = mend(one, part, dimensions);
    }
    all
}

fn of_measure(
    part: &Part,
    dimensions: &Dimensions,
    (name, place): (&str, Place),
    measure: &Located<Measure>,
    (min, max): (Option<f64>, Option<f64>),
) -> Option<Judged> {
    let drawn = take(&Shape::nominal(part), measure, dimensions).ok()?;
    Some(Judged {
        name: name.to_owned(),
        place,
        kind: Kind::Limit,
        min,
        max,
        drawn: drawn.value,
        counts: drawn.kind,
        mend: Mend::Nothing,
        taken: Taking::Measure(Box::new(measure.clone())),
    })
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

fn fits(part: &Part, group: &[usize], class: ToleranceClass) -> Vec<Judged> {
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
    let one = |&(side, word): &(Side, &str)| {
        let drawn = opening_size(std::slice::from_ref(&part.region), opening, side)?;
        let either_way = class.linear(drawn)?;
        Some(Judged {
            name: format!("{called} {word}"),
            place: opening.place,
            kind: Kind::Fit,
            min: Some(drawn - either_way),
            max: Some(drawn + either_way),
            drawn,
            counts: TakenKind::Length,
            mend: Mend::FilesUp,
            taken: Taking::Openings(group.to_vec(), side),
        })
    };
    sides.iter().filter_map(one).collect()
}

/// The width of a tongue as a fit.
fn pin(
    part: &Part,
    dimensions: &Dimensions,
    tongue: &Tongue,
    class: ToleranceClass,
) -> Option<Judged> {
    let name = format!("{} width", tongue.end);
    let mut judged = of_measure(
        part,
        dimensions,
        (&name, tongue.place),
        &tongue.width,
        (None, None),
    )?;
    let either_way = class.linear(judged.drawn)?;
    judged.kind = Kind::Fit;
    judged.min = Some(judged.drawn - either_way);
    judged.max = Some(judged.drawn + either_way);
    Some(judged)
}

/// Which way a measure goes when metal is taken away, tried on the part itself.
fn mend(one: &Judged, part: &Part, dimensions: &Dimensions) -> Mend {
    let Ok(cut) = super::AsCut::new(part, TRIED) else {
        return one.mend;
    };
    let value = |half_cut: f64| {
        let regions = cut.shape(0.0, half_cut).ok()?;
        one.value(part, &regions, dimensions)
    };
    match (value(-TRIED), value(TRIED)) {
        (Some(grown), Some(shrunk)) if grown - shrunk > tolerance::SAME_DIMENSION => {
            Mend::FilesDown
        }
        (Some(grown), Some(shrunk)) if shrunk - grown > tolerance::SAME_DIMENSION => Mend::FilesUp,
        (Some(_), Some(_)) => Mend::Nothing,
        _ => one.mend,
    }
}

impl Judged {
    /// Its value on a shape of the part; none where the shape has lost what it is measured on.
    pub fn value(&self, part: &Part, regions: &[Region], dimensions: &Dimensions) -> Option<f64> {
        match &self.taken {
            Taking::Measure(measure) => {
                let taken = take(&Shape::changed(part, regions), measure, dimensions);
                taken.ok().map(|taken| taken.value)
            }
            Taking::Openings(group, side) => {
                let sizes = group.iter().map(|&index| {
                    let opening = part.openings.get(index)?;
                    opening_size(regions, opening, *side)
                });
                let sizes: Option<Vec<f64>> = sizes.collect();
                // the one that is farthest off
                let off = |size: &f64| (size - self.drawn).abs();
                sizes?.into_iter().max_by(|a, b| off(a).total_cmp(&off(b)))
            }
        }
    }

    /// How far a value is inside the limits; negative outside them. None without limits.
    pub fn room(&self, value: f64) -> Option<f64> {
        let below = self.min.map(|min| value - min);
        let above = self.max.map(|max| max - value);
        match (below, above) {
            (Some(below), Some(above)) => Some(below.min(above)),
            (one, other) => one.or(other),
        }
    }

    /// Whether a value outside the limits can be brought inside by taking metal away.
    pub fn can_be_filed(&self, value: f64) -> bool {
        let over = self.max.is_some_and(|max| value > max);
        matches!(
            (self.mend, over),
            (Mend::FilesDown, true) | (Mend::FilesUp, false)
        )
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
