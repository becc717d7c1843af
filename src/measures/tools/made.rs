//! The design resolved again with the size of a tool.

use super::Changed;
use super::Then;
use super::sizes;
use super::sizes::Size;
use super::written;
use crate::design::Design;
use crate::design::DesignError;
use crate::design::DesignFile;
use crate::design::Dimensions;
use crate::design::Override;
use crate::design::expression;
use crate::design::expression::Written;
use crate::design::file::Origin;
use crate::design::part::Part;
use crate::design::resolve::Resolved;
use crate::design::resolve::resolve;
use crate::geometry::tolerance;
use crate::measures::fits;
use crate::measures::limits;

/// By how much a dimension is moved to see whether a size comes from it, in millimetres.
const TRIED: f64 = 0.01;

/// Steps towards the value of a dimension with which a size is that of the tool. One is enough where the
/// size goes with it in a straight line.
const STEPS: usize = 12;

/// The one free dimension that a size comes from.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Bringer {
    name: String,
    /// Its value in millimetres.
    value: f64,
    /// By how much the radius grows for one millimetre of it.
    slope: f64,
}

/// A design made again.
type Remade = Result<(Dimensions, Resolved), Vec<DesignError>>;

/// The one dimension that a size comes from, if there is one and the maker is free to choose it.
pub(super) fn bringer(design: &Design, part: &Part, size: &Size) -> Option<Bringer> {
    let mut movers = named_in(design, part, size)
        .into_iter()
        .filter_map(|name| slope(design, part, size, &name));
    let (only, None) = (movers.next()?, movers.next()) else {
        return None;
    };
    let origin = design.dimensions.get(&only.name)?.origin;
    matches!(origin, Origin::Chosen | Origin::Rule).then_some(only)
}

/// The dimensions that no other makes and that the amount of a size names, through whatever others.
fn named_in(design: &Design, part: &Part, size: &Size) -> Vec<String> {
    let mut file = design.file.clone();
    let Some((amount, _)) = written::amount_mut(&mut file, part, &size.feature) else {
        return Vec::new();
    };
    let Written::Text(text) = &amount.value.written else {
        return Vec::new();
    };
    let Ok(term) = expression::parse(text) else {
        return Vec::new();
    };
    let mut names = Vec::new();
    term.collect_names(&mut names);
    let mut waiting: Vec<String> = names.iter().map(|(name, _)| (*name).to_owned()).collect();
    let (mut seen, mut free) = (Vec::new(), Vec::new());
    while let Some(name) = waiting.pop() {
        if seen.contains(&name) {
            continue;
        }
        if let Some(dimension) = design.dimensions.get(&name) {
            if dimension.made_of.is_empty() {
                free.push(name.clone());
            } else {
                waiting.extend(dimension.made_of.iter().cloned());
            }
        }
        seen.push(name);
    }
    free
}

/// How a size goes with a dimension, seen on the part with that moved a little; `None` if it does not.
fn slope(design: &Design, part: &Part, size: &Size, name: &str) -> Option<Bringer> {
    let value = design.dimensions.get(name)?.value()?;
    let slope = [TRIED, -TRIED].into_iter().find_map(|step| {
        let moved = design.with_values(&[Override::exact(name, value + step)]);
        let radius = radius_of(&moved, part, size)?;
        Some((radius - size.radius) / step)
    })?;
    (slope.abs() > tolerance::SAME_DIMENSION / TRIED).then(|| Bringer {
        name: name.to_owned(),
        value,
        slope,
    })
}

/// The radius of the same feature on the part made again.
fn radius_of(remade: &Remade, part: &Part, size: &Size) -> Option<f64> {
    let (_, resolved) = remade.as_ref().ok()?;
    let mut parts = resolved.parts.iter();
    let made = parts.find(|made| made.name == part.name)?;
    let mut sizes = sizes::of(made).into_iter();
    Some(sizes.find(|made| made.feature == size.feature)?.radius)
}

/// The design with the dimension at the value that makes the size that of the tool.
pub(super) fn with_dimension(
    design: &Design,
    part: &Part,
    size: &Size,
    bringer: &Bringer,
    wanted: f64,
) -> Then {
    let (mut value, mut slope, mut last) =
        (bringer.value, bringer.slope, (bringer.value, size.radius));
    for _ in 0..STEPS {
        value += (wanted - last.1) / slope;
        let set = Override::exact(bringer.name.clone(), value);
        let changed = Changed::Dimension(bringer.name.clone(), value);
        let remade = design.with_values(std::slice::from_ref(&set));
        let Some(radius) = radius_of(&remade, part, size) else {
            return judged(design, remade, design.file.clone(), Some(set), changed);
        };
        if (radius - wanted).abs() <= tolerance::SAME_DIMENSION {
            return judged(design, remade, design.file.clone(), Some(set), changed);
        }
        slope = (radius - last.1) / (value - last.0);
        last = (value, radius);
    }
    with_features(design, part, std::slice::from_ref(size), wanted)
}

/// The design with these features of a part at the radius of the tool, and everything else where it was.
pub(super) fn with_features(design: &Design, part: &Part, group: &[Size], wanted: f64) -> Then {
    let mut file = design.file.clone();
    for size in group {
        if let Some((amount, radii)) = written::amount_mut(&mut file, part, &size.feature) {
            *amount = written::length(wanted * radii, amount.place);
        }
    }
    let remade = Dimensions::evaluate(&file, &design.set).and_then(|dimensions| {
        let resolved = resolve(&file, &dimensions)?;
        Ok((dimensions, resolved))
    });
    judged(design, remade, file, None, Changed::Features)
}

/// What becomes of limits and fits: those that were kept and are so no more.
fn judged(
    design: &Design,
    remade: Remade,
    file: DesignFile,
    set: Option<Override>,
    changed: Changed,
) -> Then {
    let (dimensions, resolved) = match remade {
        Ok(remade) => remade,
        Err(errors) => {
            let why = errors.first().map(|error| error.kind.to_string());
            return Then::NotBuilt(changed, why.unwrap_or_default());
        }
    };
    let mut broken: Vec<String> = limits::limits(design)
        .limits
        .into_iter()
        .filter(|limit| {
            let is_broken = |value: Option<f64>| {
                value.is_some_and(|value| limits::broken_by(value, limit.permitted).is_some())
            };
            let now = limits::value_at(limit, &design.dimensions, &design.resolved.parts);
            let then = limits::value_at(limit, &dimensions, &resolved.parts);
            is_broken(then) && !is_broken(now)
        })
        .map(|limit| limit.name)
        .collect();
    if !design.file.fit.is_empty() {
        let made = Design {
            file,
            dimensions,
            resolved,
            set: design.set.iter().cloned().chain(set).collect(),
            ..design.clone()
        };
        broken.extend(fits_broken(design, &made));
    }
    if broken.is_empty() {
        Then::Kept(changed)
    } else {
        Then::Broken(changed, broken)
    }
}

/// The fits that are kept by the one design as it is drawn, and not by the other.
fn fits_broken(design: &Design, made: &Design) -> Vec<String> {
    let (before, _) = fits::fits(design);
    let (after, _) = fits::fits(made);
    let was_kept = |what: &str| {
        let mut before = before.iter();
        before.any(|fitted| fitted.what == what && !fitted.verdict.is_broken())
    };
    after
        .into_iter()
        .filter(|fitted| fitted.verdict.is_broken() && was_kept(&fitted.what))
        .map(|fitted| fitted.what)
        .collect()
}
