//! The fits that a part has a side of, to be taken on other shapes of it: as a cut leaves it.

use super::On;
use super::SizeHere;
use super::as_designed;
use super::clearance;
use super::coating;
use super::length;
use super::measured_part;
use super::permitted;
use super::without_size;
use crate::design::Amount;
use crate::design::Design;
use crate::design::Dimensions;
use crate::design::Located;
use crate::design::Place;
use crate::design::Unresolved;
use crate::design::dimensions::Permitted;
use crate::design::file;
use crate::design::file::Measure;
use crate::design::file::fit::Side;
use crate::design::part::Part;
use crate::measures::Shape;
use crate::measures::take;

/// A fit with a side on a part. That side is measured on whatever shape the part has, the others are as
/// designed.
#[derive(Clone, Debug, PartialEq)]
pub struct FitOnPart {
    /// What goes into what.
    pub what: String,
    /// Where it stands in the design file.
    pub place: Place,
    /// What clearance is permitted, in millimetres.
    pub permitted: Permitted,
    inner: SideOf,
    outer: SideOf,
    second: Option<SideOf>,
    coating: f64,
}

/// One side.
#[derive(Clone, Debug, PartialEq)]
struct SideOf {
    size: Size,
    apart: Option<Size>,
}

/// A length of a side.
#[derive(Clone, Debug, PartialEq)]
enum Size {
    /// It is not on the part: as designed, in millimetres.
    Designed(f64),
    /// It is measured on the part.
    Measured(Box<Located<Measure>>),
}

/// The fits that have a side on a part, or on the part that it is the mirror image of, in the order of
/// the file. One that cannot be taken as designed is left out: [`fits`](super::fits()) tells of it.
pub fn on_part(design: &Design, part: &Part) -> Vec<FitOnPart> {
    let fits = design.file.fit.iter();
    fits.filter_map(|fit| one(design, part, &fit.value).ok().flatten())
        .collect()
}

fn one(design: &Design, part: &Part, fit: &file::Fit) -> Result<Option<FitOnPart>, Unresolved> {
    let sides = [Some(&fit.inner), Some(&fit.outer), fit.second.as_ref()];
    let is_named = |name: &String| {
        let mut sides = sides.iter().flatten();
        sides.any(|side| is_on(design, side, name))
    };
    // the other hand goes where its original goes, unless the fit names it
    let own = Some(&part.name).filter(|name| is_named(name));
    let Some(name) = own.or(part.mirror_of.as_ref().filter(|name| is_named(name))) else {
        return Ok(None);
    };
    let side = |side: &Side| side_of(design, name, fit, side);
    let thickness =
        |side: &Side| length(On::of(design), side.coating.as_ref()).map(Option::unwrap_or_default);
    Ok(Some(FitOnPart {
        what: fit.what.value.clone(),
        place: fit.what.place,
        permitted: permitted(On::of(design), fit)?,
        inner: side(&fit.inner)?,
        outer: side(&fit.outer)?,
        second: fit.second.as_ref().map(side).transpose()?,
        coating: coating(
            thickness(&fit.inner)?,
            thickness(&fit.outer)?,
            fit.second.as_ref().map(thickness).transpose()?,
        ),
    }))
}

/// Whether anything of a side is measured on a part.
fn is_on(design: &Design, side: &Side, part: &String) -> bool {
    let is_measured = side.measure.is_some() || side.apart.is_some();
    is_measured && measured_part(On::of(design), side).as_ref() == Some(part)
}

fn side_of(
    design: &Design,
    part: &String,
    fit: &file::Fit,
    side: &Side,
) -> Result<SideOf, Unresolved> {
    let is_here = is_on(design, side, part);
    let measured = |measure: &Located<Measure>| {
        let (_, taken) = as_designed(On::of(design), side, measure)?;
        Ok::<_, Unresolved>(if is_here {
            Size::Measured(Box::new(measure.clone()))
        } else {
            Size::Designed(taken.value)
        })
    };
    let stated = |size: &Amount| design.dimensions.length(size).map(Size::Designed);
    let size = match (&side.measure, &side.size) {
        (Some(measure), None) => measured(measure)?,
        (None, Some(size)) => stated(size)?,
        (measure, _) => return Err(without_size(fit, measure.is_some()).into()),
    };
    Ok(SideOf {
        size,
        apart: side.apart.as_ref().map(measured).transpose()?,
    })
}

impl FitOnPart {
    /// The clearance with the part in this shape and the other side as designed, after coating, in
    /// millimetres; `None` where the shape has lost what is measured.
    pub fn clearance(&self, shape: &Shape<'_>, dimensions: &Dimensions) -> Option<f64> {
        let here = |side: &SideOf| side.here(shape, dimensions);
        let second = match &self.second {
            Some(second) => Some(here(second)?),
            None => None,
        };
        let (inner, outer) = (here(&self.inner)?, here(&self.outer)?);
        Some(clearance(inner, outer, second, self.coating))
    }

    /// How its sides on the part are measured.
    pub fn measures(&self) -> impl Iterator<Item = &Located<Measure>> {
        let sides = [Some(&self.inner), Some(&self.outer), self.second.as_ref()];
        sides
            .into_iter()
            .flatten()
            .filter_map(|side| match &side.size {
                Size::Measured(measure) => Some(measure.as_ref()),
                Size::Designed(_) => None,
            })
    }
}

impl SideOf {
    fn here(&self, shape: &Shape<'_>, dimensions: &Dimensions) -> Option<SizeHere> {
        let size = |size: &Size| match size {
            Size::Designed(value) => Some(*value),
            Size::Measured(measure) => take(shape, measure, dimensions)
                .ok()
                .map(|taken| taken.value),
        };
        let apart = match &self.apart {
            Some(apart) => Some(size(apart)?),
            None => None,
        };
        let size = size(&self.size)?;
        Some(SizeHere { size, apart })
    }
}
