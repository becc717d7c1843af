//! The value of any amount of the file, over the named dimensions.

use super::Dimension;
use super::Dimensions;
use super::State;
use super::draft::Draft;
use super::draft::OPEN;
use super::draft::unknown_name;
use super::evaluate;
use super::limits;
use crate::design::error::DesignError;
use crate::design::error::ExpressionFault;
use crate::design::error::FileFault;
use crate::design::error::Severity;
use crate::design::error::Sink;
use crate::design::expression;
use crate::design::expression::ExpressionError;
use crate::design::expression::Kind;
use crate::design::expression::Quantity;
use crate::design::expression::Scope;
use crate::design::expression::Term;
use crate::design::expression::Written;
use crate::design::expression::adapted;
use crate::design::expression::working;
use crate::design::file::DimensionEntry;
use crate::design::located::Amount;
use crate::design::located::Pair;
use crate::design::located::Word;
use crate::geometry::LengthUnit;
use crate::geometry::Point;

/// Why an amount has no value.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum Unresolved {
    /// It depends on these dimensions, which are still to be measured.
    #[error("{} still to be measured", .0.join(", "))]
    Open(Vec<String>),
    /// It is wrong.
    #[error(transparent)]
    Fault(#[from] DesignError),
}

/// Names with a unit of their own for bare numbers.
pub(super) struct PlainScope<'a> {
    pub(super) unit: LengthUnit,
    pub(super) value: &'a dyn Fn(&str) -> Option<Quantity>,
}

impl Scope for PlainScope<'_> {
    fn unit(&self) -> LengthUnit {
        self.unit
    }

    fn value(&self, name: &str) -> Option<Quantity> {
        (self.value)(name)
    }

    fn names(&self) -> Vec<&str> {
        Vec::new()
    }
}

/// An amount as a number of the kind that is wanted, where every name has a value.
pub(super) fn amount_in(
    amount: &Amount,
    wanted: Kind,
    scope: &dyn Scope,
) -> Result<f64, DesignError> {
    let (quantity, length) = match &amount.value.written {
        Written::Number(value) => {
            let (value, kind) = (*value, Kind::Bare);
            (Quantity { value, kind }, 0)
        }
        Written::Text(text) => {
            let quantity = expression::parse(text)
                .and_then(|term| expression::evaluate(&term, text, scope))
                .map_err(|error| error.at(amount.place, amount.value.text_start))?;
            (quantity, text.len())
        }
    };
    if let Written::Text(text) = &amount.value.written {
        expression::refuse_bare(text, quantity, wanted, scope.unit())
            .map_err(|error| error.at(amount.place, amount.value.text_start))?;
    }
    let quantity = adapted(quantity, wanted, scope.unit());
    if quantity.kind != wanted {
        let fault = ExpressionFault::WrongKind {
            expected: wanted,
            found: quantity.kind,
        };
        let error = ExpressionError::new(fault, 0..length).with_help(help_for(quantity.kind));
        return Err(error.at(amount.place, amount.value.text_start));
    }
    if quantity.value.is_finite() {
        return Ok(quantity.value);
    }
    let expression = match &amount.value.written {
        Written::Number(value) => value.to_string(),
        Written::Text(text) => text.clone(),
    };
    let error = ExpressionError::new(ExpressionFault::Overflow { expression }, 0..length);
    Err(error.at(amount.place, amount.value.text_start))
}

/// An amount that no dimension enters into, as a number of the kind that is wanted.
pub(in crate::design) fn plain_amount(
    amount: &Amount,
    wanted: Kind,
    unit: LengthUnit,
) -> Result<f64, DesignError> {
    let value = &|_: &str| None;
    amount_in(amount, wanted, &PlainScope { unit, value })
}

fn help_for(found: Kind) -> &'static str {
    match found {
        Kind::Power(2) => "divide the area by a length, or take its sqrt",
        Kind::Power(0) => "multiply the number by a length such as `1 mm`",
        Kind::Power(power) if power < 0 => {
            "a fraction with its unit is written without spaces: `1/2 in`"
        }
        Kind::Angle => "leave the degrees out, or take sin, cos or tan of the angle",
        _ => "look at the units of what it is made of",
    }
}

impl Dimension {
    /// Its value with its kind, if it has one.
    pub fn quantity(&self) -> Option<Quantity> {
        let (value, kind) = (self.value()?, self.kind);
        Some(Quantity { value, kind })
    }
}

impl Dimensions {
    /// The dimensions that a term is made of and that have no value yet, sorted.
    ///
    /// # Errors
    /// A name that no dimension has.
    pub(super) fn missing(&self, term: &Term) -> Result<Vec<String>, ExpressionError> {
        let mut names = Vec::new();
        term.collect_names(&mut names);
        let mut missing = Vec::new();
        for (name, range) in names {
            match self.get(name).map(|dimension| &dimension.state) {
                Some(State::Known(_)) => {}
                Some(State::Open) => missing.push(name.to_owned()),
                Some(State::Undecided(names)) => missing.extend(names.iter().cloned()),
                None => return Err(unknown_name(name, range, &self.names())),
            }
        }
        missing.sort();
        missing.dedup();
        Ok(missing)
    }

    /// An amount as a number of the kind that is wanted.
    ///
    /// # Errors
    /// `Open` if it depends on dimensions that are still to be measured; a fault with its place if it
    /// has no value of that kind.
    pub fn amount(&self, amount: &Amount, wanted: Kind) -> Result<f64, Unresolved> {
        self.amount_with_unit(amount, wanted, self.unit)
    }

    /// The same with another unit for bare numbers.
    pub(super) fn amount_with_unit(
        &self,
        amount: &Amount,
        wanted: Kind,
        unit: LengthUnit,
    ) -> Result<f64, Unresolved> {
        let scope = PlainScope {
            unit,
            value: &|name| self.value(name),
        };
        if let Written::Text(text) = &amount.value.written {
            let located = |error: ExpressionError| error.at(amount.place, amount.value.text_start);
            let term = expression::parse(text).map_err(located)?;
            let missing = self.missing(&term).map_err(|error| {
                if text.trim() == OPEN {
                    located(error).with_help(
                        "give it the name of a dimension in `dims`, and let that be `\"open\"`",
                    )
                } else {
                    located(error)
                }
            })?;
            if !missing.is_empty() {
                return Err(Unresolved::Open(missing));
            }
        }
        amount_in(amount, wanted, &scope).map_err(Unresolved::Fault)
    }

    /// A length in millimetres.
    ///
    /// # Errors
    /// As [`amount`](Self::amount).
    pub fn length(&self, amount: &Amount) -> Result<f64, Unresolved> {
        self.amount(amount, Kind::LENGTH)
    }

    /// An area in mm².
    ///
    /// # Errors
    /// As [`amount`](Self::amount).
    pub fn area(&self, amount: &Amount) -> Result<f64, Unresolved> {
        self.amount(amount, Kind::AREA)
    }

    /// An angle in radians; a bare number is degrees.
    ///
    /// # Errors
    /// As [`amount`](Self::amount).
    pub fn angle(&self, amount: &Amount) -> Result<f64, Unresolved> {
        self.amount(amount, Kind::Angle)
    }

    /// A pure number.
    ///
    /// # Errors
    /// As [`amount`](Self::amount).
    pub fn number(&self, amount: &Amount) -> Result<f64, Unresolved> {
        self.amount(amount, Kind::NUMBER)
    }

    /// A whole number from `least` to `most`; `what` is what it counts, for the message.
    ///
    /// # Errors
    /// As [`amount`](Self::amount), and `not-a-count` for anything else than such a whole number.
    pub fn count(
        &self,
        amount: &Amount,
        what: &str,
        range: std::ops::RangeInclusive<u32>,
    ) -> Result<u32, Unresolved> {
        let value = self.number(amount)?;
        let (least, most) = (*range.start(), *range.end());
        if value.fract() == 0.0 && (f64::from(least)..=f64::from(most)).contains(&value) {
            #[expect(
                clippy::cast_possible_truncation,
                clippy::cast_sign_loss,
                reason = "whole, and between two numbers of the type"
            )]
            return Ok(value as u32);
        }
        let fault = FileFault::NotACount {
            what: what.to_owned(),
            least,
            most,
            found: working::plain_number(value),
        };
        Err(DesignError::new(fault, amount.place)
            .with_help("write a whole number without a unit")
            .into())
    }

    /// A point in millimetres.
    ///
    /// # Errors
    /// As [`amount`](Self::amount), for x first.
    pub fn point(&self, pair: &Pair) -> Result<Point, Unresolved> {
        let [x, y] = &pair.value;
        Ok(Point::new(self.length(x)?, self.length(y)?))
    }

    /// A dimension written elsewhere than under `dims`, such as the thickness of a plate, with its
    /// limits; and what is found of it, as in [`findings`](Self::findings).
    ///
    /// # Errors
    /// All that is wrong with it.
    pub fn entry(
        &self,
        name: &Word,
        entry: &DimensionEntry,
    ) -> Result<(Dimension, Vec<DesignError>), Vec<DesignError>> {
        let draft = Draft::new(name, entry, None).map_err(|error| vec![error])?;
        let mut dimension = evaluate::alone(&draft, self).map_err(|error| vec![error])?;
        let mut sink = Sink::new();
        let mut findings = limits::complete_one(&mut dimension, &draft, self, &mut sink);
        // where it stands says how it is measured
        findings.retain(|finding| finding.severity == Severity::Error);
        if sink.has_errors() {
            return Err(sink.into_errors());
        }
        Ok((dimension, findings))
    }
}
