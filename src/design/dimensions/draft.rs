//! Where the value of a dimension comes from: the file, or an override.

use crate::design::error::DesignError;
use crate::design::error::DimensionFault;
use crate::design::error::ExpressionFault;
use crate::design::expression;
use crate::design::expression::ExpressionError;
use crate::design::expression::Kind;
use crate::design::expression::Term;
use crate::design::expression::Written;
use crate::design::file::DimensionEntry;
use crate::design::file::DimensionTable;
use crate::design::file::DimensionUnit;
use crate::design::located::Amount;
use crate::design::located::Word;
use crate::design::read::keys::suggestion;
use crate::design::read::node::shortened;
use crate::design::source::Place;
use crate::geometry::LengthUnit;
use std::ops::Range;

/// A dimension set to another value than the file says.
#[derive(Clone, Debug, PartialEq)]
pub struct Override {
    /// The dimension.
    pub name: String,
    /// Its value.
    pub value: OverrideValue,
    /// What it may be off, as a plus-or-minus in the same unit as an exact value, where that is known
    /// with the value: it was read. What the file says of its spread if not.
    pub spread: Option<f64>,
}

/// What a dimension is set to.
#[derive(Clone, Debug, PartialEq)]
pub enum OverrideValue {
    /// As a person writes it: a number in the dimension's unit, a length, an expression, or `open`.
    Text(String),
    /// A number in millimetres to the power of the dimension's kind, in radians, or pure.
    Exact(f64),
}

impl Override {
    /// A dimension set to what a person writes.
    pub fn text(name: impl Into<String>, text: impl Into<String>) -> Self {
        Self {
            name: name.into(),
            value: OverrideValue::Text(text.into()),
            spread: None,
        }
    }

    /// A dimension set to a number, in millimetres to the power of its kind, in radians, or pure.
    pub fn exact(name: impl Into<String>, value: f64) -> Self {
        Self {
            name: name.into(),
            value: OverrideValue::Exact(value),
            spread: None,
        }
    }

    /// The same with what the value may be off.
    #[must_use]
    pub const fn within(mut self, spread: f64) -> Self {
        self.spread = Some(spread);
        self
    }
}

/// Where a value comes from.
pub(super) enum Origination<'a> {
    /// An expression.
    Text(Term, &'a str),
    /// A bare number.
    Number(f64),
    /// A number in the units of its kind.
    Exact(f64),
    /// The mean of the readings.
    Readings,
    /// Nothing: it is still to be measured.
    Open,
}

/// A dimension on its way.
pub(super) struct Draft<'a> {
    pub(super) name: &'a Word,
    pub(super) table: Option<&'a DimensionTable>,
    /// The value in the file.
    pub(super) amount: Option<&'a Amount>,
    /// What the file says.
    pub(super) own: Origination<'a>,
    /// What an override says.
    pub(super) set: Option<Origination<'a>>,
    /// What an override says that it may be off.
    pub(super) spread: Option<f64>,
}

impl<'a> Draft<'a> {
    /// What a dimension comes from.
    pub(super) fn new(
        name: &'a Word,
        entry: &'a DimensionEntry,
        set: Option<&'a Override>,
    ) -> Result<Self, DesignError> {
        let (table, amount) = match entry {
            DimensionEntry::Short(amount) => (None, Some(amount)),
            DimensionEntry::Table(table) => (Some(&*table.value), table.value.value.as_ref()),
        };
        let spread = set.and_then(|set| set.spread);
        let set = set.map(|set| set_to(name, &set.value)).transpose()?;
        let own = match amount {
            Some(amount) => written(amount)?,
            None if table.is_some_and(|table| !table.readings.is_empty()) => Origination::Readings,
            None if set.is_some() => Origination::Open,
            None => {
                let fault = DimensionFault::NoValue {
                    name: name.value.clone(),
                };
                return Err(DesignError::new(fault, name.place).with_help(
                    "add `value = …`, or `value = \"open\"` if it is still to be measured",
                ));
            }
        };
        Ok(Self {
            name,
            table,
            amount,
            own,
            set,
            spread,
        })
    }

    /// A dimension with a fault of its own: it stays known by name, so that no further errors follow.
    pub(super) fn faulty(name: &'a Word) -> Self {
        Self {
            name,
            table: None,
            amount: None,
            own: Origination::Open,
            set: None,
            spread: None,
        }
    }

    /// What its value comes from.
    pub(super) fn from(&self) -> &Origination<'a> {
        self.set.as_ref().unwrap_or(&self.own)
    }

    /// Where its value stands.
    pub(super) fn place(&self) -> Place {
        self.amount.map_or(self.name.place, |amount| amount.place)
    }

    /// The unit of its bare numbers, if it is a length.
    pub(super) fn unit(&self, file_unit: LengthUnit) -> LengthUnit {
        self.table
            .and_then(|table| length_unit(table.unit.as_ref()?.value))
            .unwrap_or(file_unit)
    }

    /// The kind that its unit asks for.
    pub(super) fn wanted(&self) -> Option<Kind> {
        let unit = self.table?.unit.as_ref()?;
        Some(match unit.value {
            DimensionUnit::None => Kind::NUMBER,
            DimensionUnit::Degree => Kind::Angle,
            _ => Kind::LENGTH,
        })
    }

    /// An error in its value, with its place.
    pub(super) fn error(&self, error: ExpressionError) -> DesignError {
        match (&self.set, self.amount) {
            (Some(set), _) => bad_override(self.name, set_text(set), error),
            (None, Some(amount)) => error.at(amount.place, amount.value.text_start),
            (None, None) => error.at(self.name.place, None),
        }
    }
}

fn set_text<'a>(set: &Origination<'a>) -> &'a str {
    match set {
        Origination::Text(_, text) => text,
        _ => "",
    }
}

fn length_unit(unit: DimensionUnit) -> Option<LengthUnit> {
    Some(match unit {
        DimensionUnit::None | DimensionUnit::Degree => return None,
        DimensionUnit::Millimetre => LengthUnit::Millimetre,
        DimensionUnit::Centimetre => LengthUnit::Centimetre,
        DimensionUnit::Metre => LengthUnit::Metre,
        DimensionUnit::Inch => LengthUnit::Inch,
        DimensionUnit::Foot => LengthUnit::Foot,
    })
}

/// What an amount of the file comes from.
fn written(amount: &Amount) -> Result<Origination<'_>, DesignError> {
    Ok(match &amount.value.written {
        Written::Number(number) => Origination::Number(*number),
        Written::Text(text) if text.trim() == OPEN => Origination::Open,
        Written::Text(text) => {
            let term = expression::parse(text)
                .map_err(|error| error.at(amount.place, amount.value.text_start))?;
            Origination::Text(term, text)
        }
    })
}

fn set_to<'a>(name: &Word, value: &'a OverrideValue) -> Result<Origination<'a>, DesignError> {
    match value {
        OverrideValue::Exact(value) => Ok(Origination::Exact(*value)),
        OverrideValue::Text(text) if text.trim() == OPEN => Ok(Origination::Open),
        OverrideValue::Text(text) => {
            let term = expression::parse(text).map_err(|error| bad_override(name, text, error))?;
            Ok(Origination::Text(term, text))
        }
    }
}

fn bad_override(name: &Word, text: &str, error: ExpressionError) -> DesignError {
    let fault = DimensionFault::BadOverride {
        name: name.value.clone(),
        text: shortened(text),
        fault: Box::new(error.fault),
    };
    DesignError::new(fault, name.place).with_help(error.help)
}

/// The error of a name that no dimension has.
pub(super) fn unknown_name(name: &str, range: Range<usize>, known: &[&str]) -> ExpressionError {
    let help = if name == OPEN {
        "`open` is for the value of a dimension, alone".to_owned()
    } else {
        suggestion(name, known)
    };
    let fault = ExpressionFault::UnknownName {
        name: shortened(name),
    };
    ExpressionError::new(fault, range).with_help(help)
}

/// The word for a dimension that is still to be measured.
pub(crate) const OPEN: &str = "open";
