//! What is permitted of a dimension and what is expected of it; whether its value keeps to it.

use super::Band;
use super::Dimension;
use super::Dimensions;
use super::Permitted;
use super::Spread;
use super::Unresolved;
use super::Workmanship;
use super::draft::Draft;
use super::draft::Origination;
use super::general;
use crate::design::error::DesignError;
use crate::design::error::DimensionFault;
use crate::design::error::Severity;
use crate::design::error::Sink;
use crate::design::expression;
use crate::design::expression::Kind;
use crate::design::expression::Quantity;
use crate::design::expression::Written;
use crate::design::expression::adapted;
use crate::design::file::DesignFile;
use crate::design::file::DimensionTable;
use crate::design::file::Origin;
use crate::design::file::Reference;
use crate::design::file::SpreadEntry;
use crate::design::file::Tolerance;
use crate::design::located::Amount;
use crate::geometry::tolerance;

/// Adds limits, spreads and findings to evaluated dimensions.
pub(super) fn complete(
    dimensions: &mut Dimensions,
    file: &DesignFile,
    drafts: &[Draft<'_>],
) -> Result<(), Vec<DesignError>> {
    let mut sink = Sink::new();
    if let Some(amount) = &file.workmanship {
        match dimensions.length(amount) {
            Ok(spread) if spread < 0.0 => {
                let fault = DimensionFault::Negative {
                    what: "`workmanship`".to_owned(),
                    value: format!("{spread} mm"),
                };
                sink.push(DesignError::new(fault, amount.place).with_help("take its sign away"));
            }
            Ok(spread) => dimensions.workmanship = Workmanship::Stated(spread),
            Err(Unresolved::Fault(error)) => sink.push(error),
            Err(Unresolved::Open(_)) => {}
        }
    }
    let mut findings = Vec::new();
    let mut completed = Vec::with_capacity(dimensions.entries.len());
    for (dimension, draft) in dimensions.entries.iter().zip(drafts) {
        let mut dimension = dimension.clone();
        findings.extend(complete_one(&mut dimension, draft, dimensions, &mut sink));
        findings.extend(hold(&mut dimension, draft, file));
        completed.push(dimension);
    }
    if sink.has_errors() {
        return Err(sink.into_errors());
    }
    dimensions.entries = completed;
    dimensions.findings = findings;
    Ok(())
}

/// Holds a dimension without limits to the general tolerance, and gives what is found of it then.
fn hold(dimension: &mut Dimension, draft: &Draft<'_>, file: &DesignFile) -> Option<DesignError> {
    let held = general::of(dimension, draft, file)?;
    dimension.general = Some(held);
    dimension.permitted = general::permitted(dimension, held)?;
    let class = file.general_tolerance.as_ref()?;
    let label = format!(
        "the general tolerance permits ±{}",
        dimension.shown(held.deviation)
    );
    let found = outside(dimension, draft.table?)?;
    Some(found.with_also(class.place, label))
}

/// Adds limits and spread to one dimension, and gives what is found of it. Faults go to the sink.
pub(super) fn complete_one(
    dimension: &mut Dimension,
    draft: &Draft<'_>,
    dimensions: &Dimensions,
    sink: &mut Sink,
) -> Vec<DesignError> {
    dimension.nominal = nominal(dimension, draft, dimensions);
    let mut reading = Reading {
        dimension,
        dimensions,
        sink,
    };
    let spread = match draft.spread {
        Some(spread) => Spread::Given(Band::both(spread)),
        None => reading.spread(draft.table),
    };
    let Some(table) = draft.table else {
        dimension.spread = spread;
        return Vec::new();
    };
    let permitted = reading.permitted(table);
    let reference = table
        .reference
        .as_ref()
        .and_then(|reference| reading.reference(reference, permitted));
    dimension.spread = spread;
    dimension.permitted = permitted;
    let outside = outside(dimension, table);
    outside
        .into_iter()
        .chain(reference)
        .chain(not_inspected(dimension))
        .collect()
}

/// What the file itself says the value is.
fn nominal(dimension: &Dimension, draft: &Draft<'_>, dimensions: &Dimensions) -> Option<f64> {
    if draft.set.is_none() {
        return dimension.value();
    }
    match &draft.own {
        Origination::Number(value) => {
            let (value, kind) = (*value, Kind::Bare);
            Some(adapted(Quantity { value, kind }, dimension.kind, dimension.unit).value)
        }
        Origination::Text(term, text) => {
            let missing = dimensions.missing(term).ok()?;
            let value = expression::evaluate(term, text, dimensions).ok()?;
            let value = adapted(value, dimension.kind, dimension.unit);
            (missing.is_empty() && value.kind == dimension.kind).then_some(value.value)
        }
        Origination::Readings => dimension.mean_reading(),
        Origination::Exact(_) | Origination::Open => dimension.value(),
    }
}

/// Reads the amounts that go with a dimension.
struct Reading<'a> {
    dimension: &'a Dimension,
    dimensions: &'a Dimensions,
    sink: &'a mut Sink,
}

impl Reading<'_> {
    /// An amount of the dimension's kind; `None` if it is not there, undecided, or wrong.
    fn amount(&mut self, amount: Option<&Amount>) -> Option<f64> {
        let (kind, unit) = (self.dimension.kind, self.dimension.unit);
        match self.dimensions.amount_with_unit(amount?, kind, unit) {
            Ok(value) => Some(value),
            Err(Unresolved::Open(_)) => None,
            Err(Unresolved::Fault(error)) => {
                self.sink.push(error);
                None
            }
        }
    }

    /// An amount that cannot be negative.
    fn deviation(&mut self, amount: Option<&Amount>, what: &'static str) -> Option<f64> {
        let value = self.amount(amount)?;
        if value >= 0.0 {
            return Some(value);
        }
        let fault = DimensionFault::Negative {
            what: format!("`{what}` of `{}`", self.dimension.name),
            value: self.dimension.shown(value),
        };
        let place = amount.map_or(self.dimension.place, |amount| amount.place);
        self.sink
            .push(DesignError::new(fault, place).with_help("write it as a positive number"));
        None
    }

    fn permitted(&mut self, table: &DimensionTable) -> Permitted {
        let (plus, minus) = match table.tolerance() {
            Tolerance::Unsaid => (None, None),
            Tolerance::Both(amount) => {
                let both = self.deviation(Some(amount), "tol");
                (both, both)
            }
            Tolerance::Each(plus, minus) => {
                let upwards = self.deviation(plus, "plus");
                let downwards = self.deviation(minus, "minus");
                // what is left out is zero
                (
                    upwards.or(plus.is_none().then_some(0.0)),
                    downwards.or(minus.is_none().then_some(0.0)),
                )
            }
        };
        let (least, most) = (
            self.amount(table.min.as_ref()),
            self.amount(table.max.as_ref()),
        );
        let nominal = self.dimension.nominal;
        let tightest = |limit: Option<f64>, band: Option<f64>, choose: fn(f64, f64) -> f64| match (
            limit, band,
        ) {
            (Some(limit), Some(band)) => Some(choose(limit, band)),
            (limit, band) => limit.or(band),
        };
        let below = nominal.zip(minus).map(|(nominal, minus)| nominal - minus);
        let above = nominal.zip(plus).map(|(nominal, plus)| nominal + plus);
        let permitted = Permitted {
            min: tightest(least, below, f64::max),
            max: tightest(most, above, f64::min),
        };
        if let (Some(min), Some(max)) = (permitted.min, permitted.max)
            && min > max
        {
            self.sink.push(self.nothing_permitted(table, (min, max)));
        }
        permitted
    }

    fn nothing_permitted(&self, table: &DimensionTable, (min, max): (f64, f64)) -> DesignError {
        let fault = DimensionFault::NothingPermitted {
            name: self.dimension.name.clone(),
            min: self.dimension.shown(min),
            max: self.dimension.shown(max),
        };
        let amounts = [
            &table.min,
            &table.max,
            &table.tol,
            &table.plus,
            &table.minus,
        ];
        let mut places = amounts.into_iter().flatten().map(|amount| amount.place);
        let place = places.next().unwrap_or(self.dimension.place);
        let mut error =
            DesignError::new(fault, place).with_help("look up both limits in the rules");
        for place in places {
            error = error.with_also(place, "the other limit is here");
        }
        error
    }

    /// What is to be expected of the dimension.
    fn spread(&mut self, table: Option<&DimensionTable>) -> Spread {
        let given = table.and_then(|table| table.spread.as_ref());
        if let Some(band) = given.and_then(|given| self.band(given)) {
            return Spread::Given(band);
        }
        match (self.dimension.origin, &self.dimension.instrument) {
            (Origin::Derived, _) => Spread::Follows,
            _ if self.dimension.kind != Kind::LENGTH => Spread::Follows,
            (Origin::Measured, Some(instrument)) => Spread::Instrument(instrument.clone()),
            _ => Spread::Workmanship(self.dimensions.workmanship.spread()),
        }
    }

    /// A spread as written; what is left out of a one-sided one is nothing.
    fn band(&mut self, written: &SpreadEntry) -> Option<Band> {
        match written {
            SpreadEntry::Both(both) => self.deviation(Some(both), "spread").map(Band::both),
            SpreadEntry::Each(band) => {
                let plus = self.deviation(band.plus.as_ref(), "plus");
                let minus = self.deviation(band.minus.as_ref(), "minus");
                Some(Band {
                    plus: plus.unwrap_or(0.0),
                    minus: minus.unwrap_or(0.0),
                })
            }
        }
    }

    /// The finding that the dimension disagrees with what it repeats.
    fn reference(&mut self, reference: &Reference, permitted: Permitted) -> Option<DesignError> {
        let other = self.amount(Some(&reference.of))?;
        let value = self.dimension.value()?;
        let nominal = self.dimension.nominal.unwrap_or(value);
        let above = permitted.max.map_or(0.0, |max| max - nominal).max(0.0);
        let below = permitted.min.map_or(0.0, |min| nominal - min).max(0.0);
        let difference = other - value;
        let allowed = if difference > 0.0 { above } else { below };
        if difference.abs() <= allowed + tolerance::SAME_DIMENSION {
            return None;
        }
        let of = match &reference.of.value.written {
            Written::Number(number) => number.to_string(),
            Written::Text(text) => text.clone(),
        };
        let [value, other] = self.dimension.shown_apart([value, other]);
        let [by, tolerance] = self.dimension.shown_apart([difference.abs(), allowed]);
        let fault = DimensionFault::ReferenceDisagrees {
            name: self.dimension.name.clone(),
            value,
            of,
            other,
            by,
            tolerance,
        };
        Some(
            DesignError::new(fault, self.dimension.value_place)
                .with_also(reference.of.place, "it repeats this")
                .with_help("one of the two is misread: check both against the sketch"),
        )
    }
}

/// The finding that a value is outside its own limits.
fn outside(dimension: &Dimension, table: &DimensionTable) -> Option<DesignError> {
    let value = dimension.value()?;
    let Permitted { min, max } = dimension.permitted;
    let (side, limit, written) = match (min, max) {
        (Some(min), _) if value < min - tolerance::SAME_DIMENSION => ("under", min, &table.min),
        (_, Some(max)) if value > max + tolerance::SAME_DIMENSION => ("over", max, &table.max),
        _ => return None,
    };
    let by = dimension.shown((value - limit).abs());
    let [value, limit] = dimension.shown_apart([value, limit]);
    let help = format!(
        "make it {limit} or {}",
        match side {
            "under" => "more",
            _ => "less",
        }
    );
    let fault = DimensionFault::OutsideLimits {
        name: dimension.name.clone(),
        value,
        by,
        side,
        limit,
    };
    let error = DesignError::new(fault, dimension.value_place).with_help(help);
    Some(match written.as_ref().or(table.tol.as_ref()) {
        Some(amount) => error.with_also(amount.place, "the limit is here"),
        None => error,
    })
}

/// The notice that nobody can take the dimension on the finished part.
fn not_inspected(dimension: &Dimension) -> Option<DesignError> {
    let inspected = dimension.measure.is_some() || !dimension.permitted.is_limited();
    (!inspected).then(|| DesignError {
        severity: Severity::Notice,
        ..DesignError::new(
            DimensionFault::NoMeasure {
                name: dimension.name.clone(),
            },
            dimension.place,
        )
        .with_help(
            "say how it is taken, such as `measure = { distance = { from = \"…\", to = \"…\" } }`",
        )
    })
}
