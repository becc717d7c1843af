//! Whether a part keeps its limits.

use super::collect::Limit;
use super::on_curve;
use crate::design::Design;
use crate::design::DesignError;
use crate::design::Dimension;
use crate::design::Dimensions;
use crate::design::Unresolved;
use crate::design::dimensions::Permitted;
use crate::design::error::MeasureFault;
use crate::design::part::Part;
use crate::geometry::tolerance;
use crate::measures::Shape;
use crate::measures::Taken;
use crate::measures::take;

/// A limit, and what the part has.
#[derive(Clone, Debug, PartialEq)]
pub struct Judged {
    /// The limit.
    pub limit: Limit,
    /// How it was taken on the part; `None` when it has no measure or waits for a reading.
    pub taken: Option<Taken>,
    /// What the part has, in the unit of its kind.
    pub value: Option<f64>,
    /// What follows.
    pub verdict: LimitCheck,
}

/// Whether a value keeps its limits.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LimitCheck {
    /// It does.
    Keeps,
    /// It is less than the least permitted, by so much.
    TooSmall(f64),
    /// It is more than the most permitted, by so much.
    TooLarge(f64),
    /// It has no limits, only a measure.
    Free,
    /// It has no value yet.
    Open,
}

impl LimitCheck {
    /// The verdict on a value.
    pub fn on(value: Option<f64>, permitted: Permitted) -> Self {
        Self::within(value, permitted, 0.0)
    }

    /// The verdict on a value that may be off by so much, as on arcs along a fair curve.
    fn within(value: Option<f64>, permitted: Permitted, allowance: f64) -> Self {
        let Some(value) = value else {
            return Self::Open;
        };
        let same = tolerance::SAME_DIMENSION + allowance;
        match (permitted.min, permitted.max) {
            (None, None) => Self::Free,
            (Some(min), _) if value < min - same => Self::TooSmall(min - value),
            (_, Some(max)) if value > max + same => Self::TooLarge(value - max),
            _ => Self::Keeps,
        }
    }

    /// Whether a limit is broken.
    pub const fn is_broken(self) -> bool {
        matches!(self, Self::TooSmall(_) | Self::TooLarge(_))
    }
}

impl Judged {
    /// How far it may still go down and up, as far as that is limited.
    pub fn room(&self) -> (Option<f64>, Option<f64>) {
        let Permitted { min, max } = self.limit.permitted;
        let down = self.value.zip(min).map(|(value, min)| value - min);
        let up = self.value.zip(max).map(|(value, max)| max - value);
        (down, up)
    }
}

/// Judges a limit on the parts as drawn; what is wrong is told.
///
/// # Errors
/// A measure that cannot be taken, with its place.
pub fn judge(design: &Design, limit: &Limit) -> (Judged, Vec<DesignError>) {
    let mut findings = Vec::new();
    let part = part_of(limit, &design.resolved.parts);
    let (mut taken, mut allowance) = (None, 0.0);
    if let (Some(part), Some(measure)) = (part, &limit.measure) {
        match take(&Shape::nominal(part), measure, &design.dimensions) {
            Ok(found) => {
                let parts = &design.resolved.parts;
                taken = Some(on_true_curve(
                    found,
                    limit,
                    (part, parts),
                    &design.dimensions,
                ));
                allowance = on_curve::allowance(&found, part, parts);
            }
            Err(Unresolved::Fault(error)) => findings.push(error),
            Err(Unresolved::Open(_)) => {}
        }
    }
    let own = dimension_of(limit, &design.dimensions).and_then(Dimension::value);
    // what is still to be measured has no value, also where a stand-in lets the part be drawn
    let is_open = limit.dimension.is_some() && own.is_none();
    let value = if is_open {
        None
    } else {
        taken.map(|taken| taken.value).or(own)
    };
    let verdict = LimitCheck::within(value, limit.permitted, allowance);
    let judged = Judged {
        limit: limit.clone(),
        taken,
        value,
        verdict,
    };
    findings.extend(disagrees(&judged, own));
    // a dimension outside its own limits is told where the dimensions are evaluated
    let is_told = LimitCheck::on(own, limit.permitted).is_broken();
    if !is_told && !judged.disagrees_with(own) {
        findings.extend(broken(&judged));
    }
    (judged, findings)
}

/// The dimension that carries a limit.
fn dimension_of<'a>(limit: &Limit, dimensions: &'a Dimensions) -> Option<&'a Dimension> {
    dimensions.get(limit.dimension.as_ref()?)
}

pub(super) fn part_of<'a>(limit: &Limit, parts: &'a [Part]) -> Option<&'a Part> {
    let name = limit.part.as_ref()?;
    parts.iter().find(|part| part.name == *name)
}

/// What a limit is on, on other parts made with other values of the dimensions; `None` when it cannot be taken there.
pub fn value_at(limit: &Limit, dimensions: &Dimensions, parts: &[Part]) -> Option<f64> {
    match &limit.measure {
        Some(measure) => {
            let part = part_of(limit, parts)?;
            let taken = take(&Shape::nominal(part), measure, dimensions).ok()?;
            Some(taken.value)
        }
        None => dimension_of(limit, dimensions)?.value(),
    }
}

/// As [`value_at`] for parts that are drawn and not only tried: a dimension that is measured on a fair curve
/// is itself, and not what the arcs along the curve make of it.
pub fn value_as_drawn(limit: &Limit, dimensions: &Dimensions, parts: &[Part]) -> Option<f64> {
    let Some(measure) = &limit.measure else {
        return value_at(limit, dimensions, parts);
    };
    let part = part_of(limit, parts)?;
    let taken = take(&Shape::nominal(part), measure, dimensions).ok()?;
    Some(on_true_curve(taken, limit, (part, parts), dimensions).value)
}

/// What a limit is on, taken as on the true curves: where a dimension agrees with what is taken as well as
/// the arcs follow them, it is the dimension itself.
///
/// For parts as drawn: it is no smooth function of the dimensions.
pub(in crate::measures) fn on_true_curve(
    taken: Taken,
    limit: &Limit,
    (part, parts): (&Part, &[Part]),
    dimensions: &Dimensions,
) -> Taken {
    let own = dimension_of(limit, dimensions).and_then(Dimension::value);
    match own {
        Some(own) if (own - taken.value).abs() <= on_curve::allowance(&taken, part, parts) => {
            Taken {
                value: own,
                ..taken
            }
        }
        _ => taken,
    }
}

/// In words how a value breaks a limit: `over` or `under`, by how much, and the limit.
pub(in crate::measures) fn broken_by(
    value: f64,
    permitted: Permitted,
) -> Option<(&'static str, f64, f64)> {
    past(LimitCheck::on(Some(value), permitted), permitted)
}

/// A verdict in words, if a limit is broken.
fn past(verdict: LimitCheck, permitted: Permitted) -> Option<(&'static str, f64, f64)> {
    match (verdict, permitted) {
        (LimitCheck::TooSmall(by), Permitted { min: Some(min), .. }) => Some(("under", by, min)),
        (LimitCheck::TooLarge(by), Permitted { max: Some(max), .. }) => Some(("over", by, max)),
        _ => None,
    }
}

impl Judged {
    fn disagrees_with(&self, own: Option<f64>) -> bool {
        let found = self.taken.map(|taken| taken.value);
        own.zip(found)
            .is_some_and(|(own, found)| (own - found).abs() > tolerance::SAME_DIMENSION)
    }
}

/// The finding that the part as drawn breaks the limit.
fn broken(judged: &Judged) -> Option<DesignError> {
    let (side, by, limit) = past(judged.verdict, judged.limit.permitted)?;
    let value = judged.value?;
    let (kind, unit) = (judged.limit.kind, judged.limit.unit);
    let more = kind
        .decimals_to_tell(value, limit, unit)
        .max(kind.decimals_to_tell(by, 0.0, unit));
    let shown = |value: f64| kind.shown_finer(value, unit, more);
    let fault = MeasureFault::LimitBroken {
        name: judged.limit.name.clone(),
        part: judged.limit.part.clone().unwrap_or_default(),
        value: shown(value),
        by: shown(by),
        side,
        limit: shown(limit),
    };
    let help = "change a dimension that it is made of";
    Some(DesignError::new(fault, judged.limit.place).with_help(help))
}

/// The finding that a measure does not measure its dimension.
fn disagrees(judged: &Judged, own: Option<f64>) -> Option<DesignError> {
    if !judged.disagrees_with(own) {
        return None;
    }
    let measure = judged.limit.measure.as_ref()?;
    let (own, found) = (own?, judged.taken?.value);
    let (kind, unit) = (judged.limit.kind, judged.limit.unit);
    let more = kind.decimals_to_tell(own, found, unit);
    let fault = MeasureFault::MeasureDisagrees {
        name: judged.limit.name.clone(),
        value: kind.shown_finer(own, unit, more),
        part: judged.limit.part.clone().unwrap_or_default(),
        found: kind.shown_finer(found, unit, more),
    };
    Some(
        DesignError::new(fault, measure.place)
            .with_also(judged.limit.place, "the dimension is here")
            .with_help("take the measure between the features that the dimension sets, or put the limits into a `limit` of the part"),
    )
}
