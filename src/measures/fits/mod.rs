//! Fits: a part in its slot, a tenon in its mortise, pins through two parts.
//!
//! The clearance is what is left between the two sides, both faces together, after paint or coating. Each
//! side is made for itself, so its spreads count for themselves, also where both sides are made from
//! one dimension.
//!
//! # Source
//! Clearance by difference of sizes: closed form. Two pins in two holes: the difference of their
//! distances has to be taken up by the play in the holes, that of one piece if the pins are fixed in
//! the other, of both if they are loose in both ("fixed" and "floating" fasteners, common practice).

mod on_part;

pub use on_part::FitOnPart;
pub use on_part::on_part;

use super::limits::Limit;
use super::limits::LimitCheck;
use super::limits::broken_by;
use super::limits::limits;
use super::shape::Shape;
use super::stack::Bench;
use super::stack::Bent;
use super::stack::Watch;
use super::stack::ways_out;
use super::take::take;
use super::taken::Taken;
use super::taken::TakenKind;
use crate::design::Amount;
use crate::design::Design;
use crate::design::DesignError;
use crate::design::Dimensions;
use crate::design::Located;
use crate::design::Unresolved;
use crate::design::dimensions::Permitted;
use crate::design::error::ExpressionFault;
use crate::design::error::MeasureFault;
use crate::design::expression::Kind;
use crate::design::file;
use crate::design::file::Measure;
use crate::design::file::fit::Side;
use crate::design::part::Part;

/// A fit with its clearance, in millimetres.
#[derive(Clone, Debug, PartialEq)]
pub struct Fitted {
    /// What goes into what.
    pub what: String,
    /// What goes in.
    pub inner: SideSize,
    /// What it goes into.
    pub outer: SideSize,
    /// The second piece that the same pins go through.
    pub second: Option<SideSize>,
    /// The clearance as designed, after coating.
    pub clearance: f64,
    /// The least and the greatest that it can come to.
    pub worst: [f64; 2],
    /// Where it comes to most likely.
    pub likely: [f64; 2],
    /// What paint and coating take of it.
    pub coating: f64,
    /// What is permitted.
    pub permitted: Permitted,
    /// The verdict on the clearance as designed.
    pub verdict: LimitCheck,
    /// The verdict on the worst case.
    pub worst_verdict: LimitCheck,
    /// Remark.
    pub note: Option<String>,
}

/// The size of one side.
#[derive(Clone, Debug, PartialEq)]
pub struct SideSize {
    /// The part, or nothing for a size that is no part of the file.
    pub part: Option<String>,
    /// Its size before coating.
    pub size: Ranged,
    /// How far its pins or holes stand apart, if that counts.
    pub apart: Option<Ranged>,
    /// Thickness of the coating on each face.
    pub coating: f64,
}

/// A value with what it can come to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Ranged {
    /// As designed.
    pub value: f64,
    /// The least and the greatest.
    pub worst: [f64; 2],
    /// Where it comes to most likely.
    pub likely: [f64; 2],
}

impl Ranged {
    const fn about(value: f64, spread: f64) -> Self {
        let around = [value - spread, value + spread];
        Self {
            value,
            worst: around,
            likely: around,
        }
    }

    const fn middle(&self) -> f64 {
        f64::midpoint(self.likely[0], self.likely[1])
    }

    const fn half(&self) -> f64 {
        (self.likely[1] - self.likely[0]) / 2.0
    }
}

/// The fits of a design, and what is wrong with them.
pub fn fits(design: &Design) -> (Vec<Fitted>, Vec<DesignError>) {
    let mut all = Vec::new();
    let mut findings = Vec::new();
    if design.file.fit.is_empty() {
        return (all, findings);
    }
    let bench = Bench::new(design);
    for fit in &design.file.fit {
        match fitted(&bench, &fit.value) {
            Ok(fitted) => {
                findings.extend(broken(&bench, &fitted, &fit.value));
                all.push(fitted);
            }
            Err(Unresolved::Fault(error)) => findings.push(error),
            // it waits for a reading, which is told elsewhere
            Err(Unresolved::Open(_)) => {}
        }
    }
    (all, findings)
}

fn fitted(bench: &Bench<'_>, fit: &file::Fit) -> Result<Fitted, Unresolved> {
    let side = |side: &Side| side_size(bench, fit, side);
    let (inner, outer) = (side(&fit.inner)?, side(&fit.outer)?);
    let second = fit.second.as_ref().map(side).transpose()?;
    let permitted = permitted(On::of(bench.design()), fit)?;
    // what is added and taken away, each with its sign
    let mut terms: Vec<(f64, Ranged)> = vec![(1.0, outer.size), (-1.0, inner.size)];
    let coating = coating(
        inner.coating,
        outer.coating,
        second.as_ref().map(|side| side.coating),
    );
    let pair = if let Some(second) = &second {
        terms.extend([(1.0, second.size), (-1.0, inner.size)]);
        outer.apart.zip(second.apart)
    } else {
        outer.apart.zip(inner.apart)
    };
    let sum = |of: &dyn Fn(&Ranged, f64) -> f64| -> f64 {
        terms
            .iter()
            .map(|(sign, size)| sign * of(size, *sign))
            .sum()
    };
    let away = pair.map(|(one, other)| apart(&one, &other));
    let worst_away = away.map_or([0.0; 2], |away| away.worst);
    let end = |size: &Ranged, sign: f64, low: bool| {
        if (sign > 0.0) == low {
            size.worst[0]
        } else {
            size.worst[1]
        }
    };
    let least = sum(&|size, sign| end(size, sign, true)) - coating - worst_away[1];
    let most = sum(&|size, sign| end(size, sign, false)) - coating - worst_away[0];
    // the pin is one pin, however many holes it goes through
    let pin = if second.is_some() { 2.0 } else { 1.0 };
    let mut square = (pin * inner.size.half()).powi(2) + outer.size.half().powi(2);
    square += second
        .as_ref()
        .map_or(0.0, |second| second.size.half().powi(2));
    let middle = sum(&|size, _| size.middle()) - coating;
    let likely = match away {
        Some(away) => {
            let deviation = (square + away.half().powi(2)).sqrt();
            let middle = middle - away.middle();
            [middle - deviation, middle + deviation]
        }
        None => [middle - square.sqrt(), middle + square.sqrt()],
    };
    let here = |side: &SideSize| SizeHere {
        size: side.size.value,
        apart: side.apart.map(|apart| apart.value),
    };
    let clearance = clearance(
        here(&inner),
        here(&outer),
        second.as_ref().map(here),
        coating,
    );
    let worst_verdict = [least, most]
        .map(|end| LimitCheck::on(Some(end), permitted))
        .into_iter()
        .find(|verdict| verdict.is_broken())
        .unwrap_or(LimitCheck::Keeps);
    Ok(Fitted {
        what: fit.what.value.clone(),
        inner,
        outer,
        second,
        clearance,
        worst: [least, most],
        likely,
        coating,
        permitted,
        verdict: LimitCheck::on(Some(clearance), permitted),
        worst_verdict,
        note: fit.note.as_ref().map(|note| note.value.clone()),
    })
}

/// What the sides of a fit are taken on: the design, or the same with other values.
#[derive(Clone, Copy, Debug)]
struct On<'a> {
    dimensions: &'a Dimensions,
    parts: &'a [Part],
}

impl<'a> On<'a> {
    fn of(design: &'a Design) -> Self {
        Self {
            dimensions: &design.dimensions,
            parts: &design.resolved.parts,
        }
    }
}

/// The clearance of a fit at other values of the dimensions, and what is permitted; `None` where it cannot
/// be taken.
pub(super) fn clearance_at(
    fit: &file::Fit,
    dimensions: &Dimensions,
    parts: &[Part],
) -> Option<(f64, Permitted)> {
    let on = On { dimensions, parts };
    let value = |side: &Side, measure: &Located<Measure>| {
        let (_, taken) = as_designed(on, side, measure).ok()?;
        Some(taken.value)
    };
    let here = |side: &Side| {
        let size = match (&side.measure, &side.size) {
            (Some(measure), None) => value(side, measure)?,
            (None, Some(size)) => dimensions.length(size).ok()?,
            _ => return None,
        };
        let apart = match &side.apart {
            Some(apart) => Some(value(side, apart)?),
            None => None,
        };
        let thickness = length(on, side.coating.as_ref()).ok()?.unwrap_or(0.0);
        Some((SizeHere { size, apart }, thickness))
    };
    let ((inner, laid_in), (outer, laid_out)) = (here(&fit.inner)?, here(&fit.outer)?);
    let second = match &fit.second {
        Some(second) => Some(here(second)?),
        None => None,
    };
    let coating = coating(laid_in, laid_out, second.map(|(_, laid)| laid));
    let second = second.map(|(second, _)| second);
    let clearance = clearance(inner, outer, second, coating);
    Some((clearance, permitted(on, fit).ok()?))
}

/// What a fit permits: as the file says, and never less than nothing.
fn permitted(on: On<'_>, fit: &file::Fit) -> Result<Permitted, Unresolved> {
    Ok(Permitted {
        min: Some(length(on, fit.min.as_ref())?.unwrap_or(0.0)),
        max: length(on, fit.max.as_ref())?,
    })
}

fn length(on: On<'_>, amount: Option<&Amount>) -> Result<Option<f64>, Unresolved> {
    amount
        .map(|amount| on.dimensions.length(amount))
        .transpose()
}

/// What counts of one side of a fit: its size, and how far its pins or holes stand apart.
#[derive(Clone, Copy, Debug, PartialEq)]
struct SizeHere {
    size: f64,
    apart: Option<f64>,
}

/// What paint and coating take of a clearance, from the thickness of the coating on each side.
fn coating(inner: f64, outer: f64, second: Option<f64>) -> f64 {
    2.0 * (inner + outer) + second.map_or(0.0, |second| 2.0 * (inner + second))
}

/// The clearance that is left between sizes: that of both holes, where a pin goes through two pieces,
/// less what their distances differ by.
fn clearance(inner: SizeHere, outer: SizeHere, second: Option<SizeHere>, coating: f64) -> f64 {
    let (play, pair) = match second {
        Some(second) => (
            outer.size - inner.size + second.size - inner.size,
            outer.apart.zip(second.apart),
        ),
        None => (outer.size - inner.size, outer.apart.zip(inner.apart)),
    };
    play - coating - pair.map_or(0.0, |(one, other)| (one - other).abs())
}

/// By how much two distances differ: never negative.
fn apart(one: &Ranged, other: &Ranged) -> Ranged {
    let value = (one.value - other.value).abs();
    let difference = [one.worst[0] - other.worst[1], one.worst[1] - other.worst[0]];
    let most = difference[0].abs().max(difference[1].abs());
    let crosses = difference[0] <= 0.0 && difference[1] >= 0.0;
    let least = if crosses {
        0.0
    } else {
        difference[0].abs().min(difference[1].abs())
    };
    let middle = (one.middle() - other.middle()).abs();
    let half = (one.half().powi(2) + other.half().powi(2)).sqrt();
    Ranged {
        value,
        worst: [least, most],
        likely: [(middle - half).max(0.0), middle + half],
    }
}

fn side_size(bench: &Bench<'_>, fit: &file::Fit, side: &Side) -> Result<SideSize, Unresolved> {
    let design = bench.design();
    let length = |amount: &Option<Amount>| length(On::of(design), amount.as_ref());
    let spread = length(&side.spread)?.map(f64::abs);
    let size = match (&side.measure, &side.size) {
        (Some(measure), None) => {
            let on_part = ranged(bench, side, measure)?;
            spread.map_or(on_part, |spread| Ranged::about(on_part.value, spread))
        }
        (None, Some(size)) => {
            let workmanship = design.dimensions.workmanship().spread();
            let value = design.dimensions.length(size)?;
            Ranged::about(value, spread.unwrap_or(workmanship))
        }
        (measure, _) => return Err(without_size(fit, measure.is_some()).into()),
    };
    let apart = side
        .apart
        .as_ref()
        .map(|apart| ranged(bench, side, apart))
        .transpose()?;
    let apart_spread = length(&side.apart_spread)?.map(f64::abs);
    let apart = match (apart, apart_spread) {
        (Some(apart), Some(spread)) => Some(Ranged::about(apart.value, spread)),
        (apart, _) => apart,
    };
    Ok(SideSize {
        part: part_name(On::of(design), side),
        size,
        apart,
        coating: length(&side.coating)?.unwrap_or(0.0),
    })
}

/// The fault of a side that has no size, or two.
fn without_size(fit: &file::Fit, has_both: bool) -> DesignError {
    let fault = MeasureFault::SideWithoutSize {
        name: fit.what.value.clone(),
        found: if has_both { "both" } else { "none" },
    };
    let help = "give `part` and `measure`, or `size` for what is no part of this file";
    DesignError::new(fault, fit.what.place).with_help(help)
}

/// The part of a side that is measured: the one it names, or the only one.
fn part_name(on: On<'_>, side: &Side) -> Option<String> {
    side.measure.as_ref()?;
    measured_part(on, side)
}

fn measured_part(on: On<'_>, side: &Side) -> Option<String> {
    let named = side.part.as_ref().map(|part| part.value.clone());
    named.or_else(|| on.parts.first().map(|part| part.name.clone()))
}

/// A measure of a side on its part as designed, which must be a length.
fn as_designed<'a>(
    on: On<'a>,
    side: &Side,
    measure: &Located<Measure>,
) -> Result<(&'a Part, Taken), Unresolved> {
    let name = measured_part(on, side);
    let Some(part) = on
        .parts
        .iter()
        .find(|part| Some(&part.name) == name.as_ref())
    else {
        // the part waits for a reading, which is told elsewhere
        let open = on.dimensions.open();
        let open = open.map(|dimension| dimension.name.clone());
        return Err(Unresolved::Open(open.collect()));
    };
    let taken = take(&Shape::nominal(part), measure, on.dimensions)?;
    if taken.kind != TakenKind::Length {
        let fault = ExpressionFault::WrongKind {
            expected: Kind::LENGTH,
            found: taken.kind.written(),
        };
        return Err(DesignError::new(fault, measure.place)
            .with_help("measure a width, a distance, a diameter or the thickness")
            .into());
    }
    Ok((part, taken))
}

fn ranged(
    bench: &Bench<'_>,
    side: &Side,
    measure: &Located<Measure>,
) -> Result<Ranged, Unresolved> {
    let design = bench.design();
    let (part, taken) = as_designed(On::of(design), side, measure)?;
    let limit = Limit {
        name: String::new(),
        dimension: None,
        part: Some(part.name.clone()),
        measure: Some(measure.clone()),
        kind: taken.kind,
        unit: design.unit(),
        permitted: Permitted::default(),
        origin: None,
        note: None,
        place: measure.place,
    };
    let stack = bench.limit(&limit);
    Ok(stack.map_or_else(
        || Ranged::about(taken.value, 0.0),
        |stack| Ranged {
            value: stack.value,
            worst: stack.worst,
            likely: stack.likely,
        },
    ))
}

/// The finding that it does not go in, or is too loose: an error as designed, a notice in the worst case.
fn broken(bench: &Bench<'_>, fitted: &Fitted, fit: &file::Fit) -> Option<DesignError> {
    let unit = bench.design().unit();
    let fault = |clearance: f64, when: &'static str| {
        let (side, by, limit) = broken_by(clearance, fitted.permitted)?;
        let kind = TakenKind::Length;
        let more = kind.decimals_to_tell(clearance, limit, unit);
        let shown = |value: f64| kind.shown_finer(value, unit, more);
        let fault = MeasureFault::FitBroken {
            name: fitted.what.clone(),
            when,
            clearance: shown(clearance),
            by: shown(by),
            side,
            limit: shown(limit),
        };
        let help = match side {
            "under" => "make the opening larger or what goes in smaller, and think of the coating",
            _ => "make the opening smaller or what goes in larger",
        };
        Some((fault, help))
    };
    if let Some((fault, help)) = fault(fitted.clearance, "as designed") {
        let limits = limits(bench.design()).limits;
        let clearance = |bent: &Bent| Some(clearance_at(fit, &bent.dimensions, &bent.parts)?.0);
        let watch = Watch::new(bench, &limits);
        let ways = ways_out(bench, &watch, fitted.permitted, &clearance);
        let help = ways.map_or_else(|| help.to_owned(), |ways| format!("{help}: {ways}"));
        return Some(DesignError::new(fault, fit.what.place).with_help(help));
    }
    let mut ends = fitted.worst.into_iter();
    let (fault, help) = ends.find_map(|end| fault(end, "in the worst case"))?;
    Some(DesignError::notice(fault, fit.what.place).with_help(help))
}
