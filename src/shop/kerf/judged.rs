//! What a shape as cut is judged by: the limits and fits of the design, and, where it says nothing, the
//! general tolerance.

use super::general;
use super::general::Sizes;
use crate::design::Design;
use crate::design::Dimensions;
use crate::design::Located;
use crate::design::Place;
use crate::design::file::Measure;
use crate::design::part::Part;
use crate::geometry::Region;
use crate::geometry::tolerance;
use crate::measures::Shape;
use crate::measures::TakenKind;
use crate::measures::fits;
use crate::measures::fits::FitOnPart;
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
    /// Who sets its limits.
    pub kind: Kind,
    /// Not less than this; millimetres, mm², kilograms or radians.
    pub min: Option<f64>,
    /// Not more than this.
    pub max: Option<f64>,
    /// Its value on the part as drawn.
    pub drawn: f64,
    /// What it counts.
    pub counts: TakenKind,
    /// What happens to it when material is taken away.
    pub mend: Mend,
    pub(super) taken: Taking,
}

/// Who sets the limits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Kind {
    /// The design file, for a dimension or a measure of the part.
    Limit,
    /// The design file, for what is left between the part and another: the clearance, with the other as
    /// designed.
    Fit,
    /// The design file, by the class of general tolerances that it names: an opening or a tongue of which it
    /// says nothing else.
    Class(ToleranceClass),
    /// Nobody: an opening or a tongue that the design does not limit, by the general tolerance of ISO
    /// 2768-1 class m. What is outside of it is worth a remark, and fails no part.
    General,
}

/// What taking material away does to a measure.
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
pub(super) enum Taking {
    Measure(Box<Located<Measure>>),
    /// The diameter, or one side, of openings of one size.
    Openings(Sizes),
    Fit(Box<FitOnPart>),
}

/// Everything that a part is judged by and kerf may touch: limits in the order of the file, then fits,
/// then the general tolerance of what neither of them measures. What cannot be measured on the part as
/// drawn is left out; `check` tells of it.
pub fn judged(design: &Design, part: &Part) -> Vec<Judged> {
    let dimensions = &design.dimensions;
    let mut all = Vec::new();
    let mut measures: Vec<Located<Measure>> = Vec::new();
    for limit in limits(design).limits {
        let here = limit.part.as_deref() == Some(part.name.as_str());
        let (Some(measure), true, true) = (&limit.measure, here, limit.permitted.is_limited())
        else {
            continue;
        };
        let name = (limit.name_on_its_part(), limit.place);
        let ends = (limit.permitted.min, limit.permitted.max);
        all.extend(of_measure(part, dimensions, name, measure, ends));
        measures.push(measure.clone());
    }
    for fit in fits::on_part(design, part) {
        measures.extend(fit.measures().cloned());
        all.extend(of_fit(part, dimensions, fit));
    }
    let class = design.file.tolerance_class();
    all.extend(general::rows(part, dimensions, &measures, class));
    for one in &mut all {
        one.mend = mend(one, part, dimensions);
    }
    all
}

/// Whether the design limits anything that kerf changes.
pub fn limits_anything(all: &[Judged]) -> bool {
    all.iter()
        .any(|one| one.kind != Kind::General && one.mend != Mend::Nothing)
}

pub(super) fn of_measure(
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

fn of_fit(part: &Part, dimensions: &Dimensions, fit: FitOnPart) -> Option<Judged> {
    Some(Judged {
        name: fit.what.clone(),
        place: fit.place,
        kind: Kind::Fit,
        min: fit.permitted.min,
        max: fit.permitted.max,
        drawn: fit.clearance(&Shape::nominal(part), dimensions)?,
        counts: TakenKind::Length,
        mend: Mend::Nothing,
        taken: Taking::Fit(Box::new(fit)),
    })
}

/// Which way a measure goes when material is taken away, tried on the part itself.
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
        let shape = Shape::changed(part, regions);
        match &self.taken {
            Taking::Measure(measure) => {
                let taken = take(&shape, measure, dimensions);
                taken.ok().map(|taken| taken.value)
            }
            Taking::Openings(sizes) => sizes.farthest_off(part, regions, self.drawn),
            Taking::Fit(fit) => fit.clearance(&shape, dimensions),
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

    /// Whether a value outside the limits can be brought inside by taking material away.
    pub fn can_be_filed(&self, value: f64) -> bool {
        let over = self.max.is_some_and(|max| value > max);
        matches!(
            (self.mend, over),
            (Mend::FilesDown, true) | (Mend::FilesUp, false)
        )
    }
}
