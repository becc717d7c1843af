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

use super::limits::Limit;
use super::limits::LimitCheck;
use super::limits::Subject;
use super::limits::broken_by;
use super::limits::limits;
use super::shape::Shape;
use super::stack::Bench;
use super::stack::Bent;
use super::stack::Watch;
use super::stack::ways_out;
use super::take::take;
use super::taken::TakenKind;
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
    let on = On {
        dimensions: &design.dimensions,
        parts: &design.resolved.parts,
        spreads: Some(&bench),
    };
    for fit in &design.file.fit {
        match on.fitted(&fit.value) {
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

/// What the clearance of a fit is taken on.
struct On<'d, 'a> {
    dimensions: &'d Dimensions,
    parts: &'d [Part],
    /// Where the spreads of what is measured come from; as designed only without it.
    spreads: Option<&'d Bench<'a>>,
}

/// The clearance of a fit at other values of the dimensions, and what is permitted; `None` where it cannot
/// be taken.
pub(super) fn clearance_at(
    fit: &file::Fit,
    dimensions: &Dimensions,
    parts: &[Part],
) -> Option<(f64, Permitted)> {
    let on = On {
        dimensions,
        parts,
        spreads: None,
    };
    let fitted = on.fitted(fit).ok()?;
    Some((fitted.clearance, fitted.permitted))
}

impl On<'_, '_> {
    fn fitted(&self, fit: &file::Fit) -> Result<Fitted, Unresolved> {
        let side = |side: &Side| self.side_size(fit, side);
        let (inner, outer) = (side(&fit.inner)?, side(&fit.outer)?);
        let second = fit.second.as_ref().map(side).transpose()?;
        let dimensions = self.dimensions;
        let length = |amount: &Option<crate::design::Amount>| {
            amount
                .as_ref()
                .map(|amount| dimensions.length(amount))
                .transpose()
        };
        let permitted = Permitted {
            min: Some(length(&fit.min)?.unwrap_or(0.0)),
            max: length(&fit.max)?,
        };
        // what is added and taken away, each with its sign
        let mut terms: Vec<(f64, Ranged)> = vec![(1.0, outer.size), (-1.0, inner.size)];
        let mut coating = 2.0 * (inner.coating + outer.coating);
        let pair = if let Some(second) = &second {
            terms.extend([(1.0, second.size), (-1.0, inner.size)]);
            coating += 2.0 * (inner.coating + second.coating);
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
        let value_away = away.map_or(0.0, |away| away.value);
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
        let clearance = sum(&|size, _| size.value) - coating - value_away;
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

    fn side_size(&self, fit: &file::Fit, side: &Side) -> Result<SideSize, Unresolved> {
        let length = |amount: &Option<crate::design::Amount>| {
            amount
                .as_ref()
                .map(|amount| self.dimensions.length(amount))
                .transpose()
        };
        let spread = length(&side.spread)?.map(f64::abs);
        let size = match (&side.measure, &side.size) {
            (Some(measure), None) => {
                let on_part = self.ranged(side, measure)?;
                spread.map_or(on_part, |spread| Ranged::about(on_part.value, spread))
            }
            (None, Some(size)) => {
                let workmanship = self.dimensions.workmanship().spread();
                let value = self.dimensions.length(size)?;
                Ranged::about(value, spread.unwrap_or(workmanship))
            }
            (measure, _) => {
                let fault = MeasureFault::SideWithoutSize {
                    name: fit.what.value.clone(),
                    found: if measure.is_some() { "both" } else { "none" },
                };
                let help = "give `part` and `measure`, or `size` for what is no part of this file";
                return Err(DesignError::new(fault, fit.what.place)
                    .with_help(help)
                    .into());
            }
        };
        let apart = side
            .apart
            .as_ref()
            .map(|apart| self.ranged(side, apart))
            .transpose()?;
        let apart_spread = length(&side.apart_spread)?.map(f64::abs);
        let apart = match (apart, apart_spread) {
            (Some(apart), Some(spread)) => Some(Ranged::about(apart.value, spread)),
            (apart, _) => apart,
        };
        Ok(SideSize {
            part: self.part_name(side),
            size,
            apart,
            coating: length(&side.coating)?.unwrap_or(0.0),
        })
    }

    /// The part of a side that is measured: the one it names, or the only one.
    fn part_name(&self, side: &Side) -> Option<String> {
        side.measure.as_ref()?;
        self.part(side)
    }

    fn part(&self, side: &Side) -> Option<String> {
        let named = side.part.as_ref().map(|part| part.value.clone());
        named.or_else(|| self.parts.first().map(|part| part.name.clone()))
    }

    fn ranged(&self, side: &Side, measure: &Located<Measure>) -> Result<Ranged, Unresolved> {
        let name = self.part(side);
        let Some(part) = self
            .parts
            .iter()
            .find(|part| Some(&part.name) == name.as_ref())
        else {
            // the part waits for a reading, which is told elsewhere
            return Err(Unresolved::Open(self.open()));
        };
        let taken = take(&Shape::nominal(part), measure, self.dimensions)?;
        if taken.kind != TakenKind::Length {
            let fault = ExpressionFault::WrongKind {
                expected: Kind::LENGTH,
                found: taken.kind.written(),
            };
            return Err(DesignError::new(fault, measure.place)
                .with_help("measure a width, a distance, a diameter or the thickness")
                .into());
        }
        let limit = Limit {
            name: String::new(),
            subject: Subject::Words,
            part: name,
            measure: Some(measure.clone()),
            kind: taken.kind,
            unit: self.dimensions.unit(),
            permitted: Permitted::default(),
            origin: None,
            note: None,
            place: measure.place,
        };
        let stack = self.spreads.and_then(|bench| bench.limit(&limit));
        Ok(stack.map_or_else(
            || Ranged::about(taken.value, 0.0),
            |stack| Ranged {
                value: stack.value,
                worst: stack.worst,
                likely: stack.likely,
            },
        ))
    }

    /// Names of the dimensions that are still to be measured.
    fn open(&self) -> Vec<String> {
        let open = self.dimensions.open();
        open.map(|dimension| dimension.name.clone()).collect()
    }
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

/// The finding that it does not go in, or is too loose: an error as designed, a notice in the worst case.
fn broken(bench: &Bench<'_>, fitted: &Fitted, fit: &file::Fit) -> Option<DesignError> {
    let unit = bench.design().unit();
    let shown = |value: f64| TakenKind::Length.shown(value, unit);
    let fault = |clearance: f64, when: &'static str| {
        let (side, by, limit) = broken_by(clearance, fitted.permitted)?;
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
