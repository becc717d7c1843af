//! What a shape as cut is judged by: the limits of the rules, and the fits of its openings.

use crate::design::Design;
use crate::design::Dimensions;
use crate::design::Located;
use crate::design::Place;
use crate::design::file::Limit;
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
    /// Nobody in so many words: what goes into the opening, by the general tolerance of ISO 2768-1 class
    /// m.
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
    /// The diameter, or one side, of an opening, by its number.
    Opening(usize, Side),
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Side {
    Diameter,
    Width,
    Length,
}

/// Everything that a part is judged by and kerf may touch: limits in the order of the file, then fits.
/// What cannot be measured on the part as drawn is left out; `check` tells of it.
pub fn judged(design: &Design, part: &Part) -> Vec<Judged> {
    let dimensions = &design.dimensions;
    let only = design.resolved.parts.len() == 1;
    let mut all = Vec::new();
    for dimension in dimensions.iter() {
        let here = dimension
            .part
            .as_ref()
            .map_or(only, |name| *name == part.name);
        let (Some(measure), true) = (&dimension.measure, here) else {
            continue;
        };
        let permitted = dimension.permitted;
        if permitted.is_limited() {
            all.extend(of_measure(
                part,
                dimensions,
                (&dimension.name, dimension.place),
                measure,
                (permitted.min, permitted.max),
            ));
        }
    }
    if let Some(written) = design.file.part.get(&part.name) {
        for limit in written.entry.limit.iter() {
            let name = (limit.value.what.as_str(), limit.value.what.place);
            let ends = ends(&limit.value, dimensions);
            all.extend(of_measure(
                part,
                dimensions,
                name,
                &limit.value.measure,
                ends,
            ));
        }
    }
    for (index, opening) in part.openings.iter().enumerate() {
        all.extend(fits(part, index, opening));
    }
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

/// The ends of a limit; those that a value and a tolerance make are of the value that the part has.
fn ends(limit: &Limit, dimensions: &Dimensions) -> (Option<f64>, Option<f64>) {
    let length = |amount: &Option<crate::design::Amount>| {
        amount
            .as_ref()
            .and_then(|amount| dimensions.length(amount).ok())
    };
    let value = length(&limit.value);
    let (plus, minus) = match length(&limit.tol) {
        Some(tol) => (Some(tol), Some(tol)),
        None => (length(&limit.plus), length(&limit.minus)),
    };
    let by_tolerance = |part: Option<f64>, sign: f64| Some(value? + sign * part.unwrap_or(0.0));
    let toleranced = plus.is_some() || minus.is_some();
    let min = length(&limit.min).or_else(|| by_tolerance(minus, -1.0).filter(|_| toleranced));
    let max = length(&limit.max).or_else(|| by_tolerance(plus, 1.0).filter(|_| toleranced));
    (min, max)
}

fn fits(part: &Part, index: usize, opening: &Opening) -> Vec<Judged> {
    if opening.made == Made::Drilled {
        return Vec::new();
    }
    let sides: &[(Side, &str)] = match opening.shape {
        OpeningShape::Circle { .. } => &[(Side::Diameter, "diameter")],
        OpeningShape::Slot { .. } => &[(Side::Width, "width"), (Side::Length, "length")],
        OpeningShape::Rectangle { .. } => &[(Side::Width, "width"), (Side::Length, "height")],
        OpeningShape::Outline => &[],
    };
    let one = |&(side, word): &(Side, &str)| {
        let drawn = opening_size(std::slice::from_ref(&part.region), opening, side)?;
        let either_way = ToleranceClass::Medium.linear(drawn)?;
        Some(Judged {
            name: format!("{} {word}", opening.name),
            place: opening.place,
            kind: Kind::Fit,
            min: Some(drawn - either_way),
            max: Some(drawn + either_way),
            drawn,
            counts: TakenKind::Length,
            mend: Mend::FilesUp,
            taken: Taking::Opening(index, side),
        })
    };
    sides.iter().filter_map(one).collect()
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
            Taking::Opening(index, side) => {
                let opening = part.openings.get(*index)?;
                opening_size(regions, opening, *side)
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

/// The narrowest way across an opening, where its shape says so.
pub(super) fn narrowest(opening: &Opening) -> Option<f64> {
    match opening.shape {
        OpeningShape::Circle { diameter, .. } => Some(diameter),
        OpeningShape::Slot { width, .. } => Some(width),
        OpeningShape::Rectangle { width, height, .. } => Some(width.min(height)),
        OpeningShape::Outline => None,
    }
}
