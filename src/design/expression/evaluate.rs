//! The value of a term, with its kind checked at every step.

use super::ExpressionError;
use super::exact::length_in_millimetres;
use super::kind::Kind;
use super::kind::Quantity;
use super::term::Form;
use super::term::Function;
use super::term::Sign;
use super::term::Stroke;
use super::term::Term;
use crate::design::error::ExpressionFault;
use crate::design::limits;
use crate::design::read::keys::suggestion;
use crate::geometry::LengthUnit;
use crate::geometry::number;

/// What names mean, and what a bare number is where a length is wanted.
pub trait Scope {
    /// The unit of a bare number where a length is wanted.
    fn unit(&self) -> LengthUnit;

    /// The value of a dimension; `None` if there is none of that name.
    fn value(&self, name: &str) -> Option<Quantity>;

    /// The names there are, for suggestions.
    fn names(&self) -> Vec<&str>;
}

/// A bare number as the kind that is wanted: a length in `unit`, an angle in degrees. Other quantities
/// stay what they are.
///
/// # Accuracy
/// A length is the floating-point number nearest to the decimal times the unit.
pub fn adapted(quantity: Quantity, wanted: Kind, unit: LengthUnit) -> Quantity {
    match (quantity.kind, wanted) {
        (Kind::Bare, Kind::Power(power)) => {
            let value = (0..power.max(0)).fold(quantity.value, |value, _| {
                length_in_millimetres(value, unit)
            });
            Quantity {
                value,
                kind: wanted,
            }
        }
        (Kind::Bare, Kind::Angle) => Quantity {
            value: quantity.value * (number::HALF_TURN / 180.0),
            kind: Kind::Angle,
        },
        _ => quantity,
    }
}

/// The value of a term.
///
/// # Units
/// Millimetres to the power of the kind, radians; a bare number stays as it is.
///
/// # Errors
/// Unknown names, kinds that do not go together, division by zero, a root of a negative number, a
/// value beyond what a floating-point number holds; each with its place in the text.
pub fn evaluate(term: &Term, text: &str, scope: &dyn Scope) -> Result<Quantity, ExpressionError> {
    Evaluation { text, scope }.term(term)
}

/// A run over one text.
struct Evaluation<'a> {
    text: &'a str,
    scope: &'a dyn Scope,
}

impl Evaluation<'_> {
    fn written(&self, term: &Term) -> String {
        let text = self.text.get(term.range.clone()).unwrap_or("");
        crate::design::read::node::shortened(text)
    }

    fn fault(term: &Term, fault: ExpressionFault) -> ExpressionError {
        ExpressionError::new(fault, term.range.clone())
    }

    /// The quantity, if it is finite.
    fn finite(&self, term: &Term, quantity: Quantity) -> Result<Quantity, ExpressionError> {
        if quantity.value.is_finite() {
            return Ok(quantity);
        }
        let expression = self.written(term);
        Err(Self::fault(term, ExpressionFault::Overflow { expression })
            .with_help("look for a power or a factor too many"))
    }

    fn term(&self, term: &Term) -> Result<Quantity, ExpressionError> {
        let quantity = match &term.form {
            Form::Literal(quantity) => *quantity,
            Form::Pi => Quantity {
                value: number::HALF_TURN,
                kind: Kind::NUMBER,
            },
            Form::Name(name) => self.scope.value(name).ok_or_else(|| {
                let help = suggestion(name, &self.scope.names());
                let name = name.clone();
                Self::fault(term, ExpressionFault::UnknownName { name }).with_help(help)
            })?,
            Form::Negative(inner) => {
                let quantity = self.term(inner)?;
                Quantity {
                    value: -quantity.value,
                    ..quantity
                }
            }
            Form::Sum(terms) => self.sum(term, terms)?,
            Form::Product(factors) => self.product(term, factors)?,
            Form::Power(base, power) => self.power(term, base, *power)?,
            Form::Call(function, arguments) => self.call(term, *function, arguments)?,
        };
        self.finite(term, quantity)
    }

    /// Both as the same kind, a bare number taking the other's.
    fn matched(
        &self,
        term: &Term,
        sides: (Quantity, Quantity),
        operation: &'static str,
    ) -> Result<(Quantity, Quantity), ExpressionError> {
        let (left, right) = sides;
        let unit = self.scope.unit();
        let (left, right) = (
            adapted(left, right.kind, unit),
            adapted(right, left.kind, unit),
        );
        if left.kind == right.kind {
            return Ok((left, right));
        }
        let fault = ExpressionFault::KindMismatch {
            left: left.kind,
            right: right.kind,
            operation,
        };
        let help = if left.kind == Kind::AREA || right.kind == Kind::AREA {
            "divide the area by a length, or take its sqrt"
        } else if left.kind == Kind::NUMBER || right.kind == Kind::NUMBER {
            "multiply the pure number by a length such as `1 mm`"
        } else {
            "make both of one kind"
        };
        Err(Self::fault(term, fault).with_help(help))
    }

    fn sum(&self, whole: &Term, terms: &[(Sign, Term)]) -> Result<Quantity, ExpressionError> {
        let mut sum: Option<Quantity> = None;
        for (sign, term) in terms {
            let next = self.term(term)?;
            sum = Some(match (sum, sign) {
                (None, _) => next,
                (Some(sum), Sign::Plus) => {
                    let (left, right) = self.matched(term, (sum, next), "added")?;
                    Quantity {
                        value: left.value + right.value,
                        ..left
                    }
                }
                (Some(sum), Sign::Minus) => {
                    let (left, right) = self.matched(term, (sum, next), "subtracted")?;
                    Quantity {
                        value: left.value - right.value,
                        ..left
                    }
                }
            });
        }
        sum.ok_or_else(|| Self::fault(whole, ExpressionFault::Empty))
    }

    fn product(
        &self,
        whole: &Term,
        factors: &[(Stroke, Term)],
    ) -> Result<Quantity, ExpressionError> {
        let mut product: Option<Quantity> = None;
        for (stroke, factor) in factors {
            let next = self.term(factor)?;
            let Some(left) = product else {
                product = Some(next);
                continue;
            };
            if *stroke == Stroke::Below && next.value == 0.0 {
                let divisor = self.written(factor);
                let fault = ExpressionFault::DivisionByZero { divisor };
                return Err(
                    Self::fault(factor, fault).with_help("divide by something that is not 0")
                );
            }
            let kind = Self::product_kind(factor, left.kind, (*stroke, next.kind))?;
            let value = match stroke {
                Stroke::Above => left.value * next.value,
                Stroke::Below => left.value / next.value,
            };
            product = Some(self.finite(whole, Quantity { value, kind })?);
        }
        product.ok_or_else(|| Self::fault(whole, ExpressionFault::Empty))
    }

    /// The kind of a product or quotient. A bare number is a pure one here; two bare ones stay bare.
    fn product_kind(
        term: &Term,
        left: Kind,
        right: (Stroke, Kind),
    ) -> Result<Kind, ExpressionError> {
        let power = |kind: Kind| match kind {
            Kind::Bare => Some(0),
            Kind::Power(power) => Some(power),
            Kind::Angle => None,
        };
        let (stroke, right) = right;
        let kind = match (left, stroke, right) {
            (Kind::Bare, _, Kind::Bare) => Some(Kind::Bare),
            (Kind::Angle, Stroke::Below, Kind::Angle) => Some(Kind::NUMBER),
            (Kind::Angle, _, Kind::Bare | Kind::NUMBER)
            | (Kind::Bare | Kind::NUMBER, Stroke::Above, Kind::Angle) => Some(Kind::Angle),
            _ => power(left).zip(power(right)).and_then(|(left, right)| {
                let power = match stroke {
                    Stroke::Above => left + right,
                    Stroke::Below => left - right,
                };
                (power.abs() <= limits::HIGHEST_POWER).then_some(Kind::Power(power))
            }),
        };
        let operation = match stroke {
            Stroke::Above => "multiplied",
            Stroke::Below => "divided",
        };
        kind.ok_or_else(|| {
            let fault = ExpressionFault::KindMismatch {
                left,
                right,
                operation,
            };
            Self::fault(term, fault).with_help("sin, cos and tan of an angle are pure numbers")
        })
    }

    fn power(&self, whole: &Term, base: &Term, power: i8) -> Result<Quantity, ExpressionError> {
        let quantity = self.term(base)?;
        let kind = match quantity.kind {
            Kind::Power(base_power) => base_power
                .checked_mul(power)
                .filter(|power| power.abs() <= limits::HIGHEST_POWER)
                .map(Kind::Power),
            Kind::Bare => Some(Kind::Bare),
            Kind::Angle => None,
        };
        let Some(kind) = kind else {
            let fault = ExpressionFault::KindMismatch {
                left: quantity.kind,
                right: Kind::NUMBER,
                operation: "raised to a power of that size",
            };
            return Err(Self::fault(whole, fault));
        };
        let value = (0..power).fold(1.0, |value, _| value * quantity.value);
        Ok(Quantity { value, kind })
    }

    fn call(
        &self,
        whole: &Term,
        function: Function,
        arguments: &[Term],
    ) -> Result<Quantity, ExpressionError> {
        let mut values = Vec::with_capacity(arguments.len());
        for argument in arguments {
            values.push((argument, self.term(argument)?));
        }
        let Some(&(first, value)) = values.first() else {
            return Err(Self::fault(whole, ExpressionFault::Empty));
        };
        match function {
            Function::Sqrt => self.square_root(first, value),
            Function::Abs => Ok(Quantity {
                value: value.value.abs(),
                ..value
            }),
            Function::Min | Function::Max | Function::Hypot => {
                let mut best = value;
                for (term, next) in values.iter().skip(1) {
                    let (left, right) = self.matched(term, (best, *next), "compared")?;
                    let value = match function {
                        Function::Min => left.value.min(right.value),
                        Function::Max => left.value.max(right.value),
                        _ => long_side(left.value, right.value),
                    };
                    best = Quantity { value, ..left };
                }
                Ok(best)
            }
            Function::Round => self.round(first, value, values.get(1).copied()),
            Function::Sin | Function::Cos | Function::Tan => self.of_angle(first, value, function),
            Function::Asin | Function::Acos | Function::Atan => {
                self.to_angle(first, value, function)
            }
        }
    }

    fn square_root(&self, term: &Term, value: Quantity) -> Result<Quantity, ExpressionError> {
        let kind = match value.kind {
            Kind::Bare => Some(Kind::Bare),
            Kind::Power(power) if power % 2 == 0 => Some(Kind::Power(power / 2)),
            _ => None,
        };
        match kind {
            Some(kind) if value.value >= 0.0 => Ok(Quantity {
                value: value.value.sqrt(),
                kind,
            }),
            Some(_) => {
                let found = format!("{}", value.value);
                Err(self.wrong_argument(term, Function::Sqrt, ("a value of 0 or more", found)))
            }
            None => {
                let found = value.kind.to_string();
                Err(self.wrong_argument(term, Function::Sqrt, ("an area or a number", found)))
            }
        }
    }

    fn wrong_argument(
        &self,
        term: &Term,
        function: Function,
        (expected, found): (&'static str, String),
    ) -> ExpressionError {
        let fault = ExpressionFault::WrongArgument {
            function: function.name(),
            expected,
            found,
        };
        Self::fault(term, fault).with_help(format!("look at `{}`", self.written(term)))
    }

    /// The nearest multiple of a step.
    fn round(
        &self,
        term: &Term,
        value: Quantity,
        step: Option<(&Term, Quantity)>,
    ) -> Result<Quantity, ExpressionError> {
        let Some((step_term, step)) = step else {
            return match value.kind {
                Kind::Bare | Kind::NUMBER => Ok(Quantity {
                    value: value.value.round(),
                    ..value
                }),
                kind => {
                    let found = kind.to_string();
                    let expected = "a number, or a value and the step it is rounded to";
                    Err(self.wrong_argument(term, Function::Round, (expected, found)))
                }
            };
        };
        let (value, step) = self.matched(step_term, (value, step), "compared")?;
        if step.value <= 0.0 {
            let found = format!("{}", step.value);
            let expected = "a step of more than 0";
            return Err(self.wrong_argument(step_term, Function::Round, (expected, found)));
        }
        Ok(Quantity {
            value: (value.value / step.value).round() * step.value,
            ..value
        })
    }

    fn of_angle(
        &self,
        term: &Term,
        value: Quantity,
        function: Function,
    ) -> Result<Quantity, ExpressionError> {
        let angle = adapted(value, Kind::Angle, self.scope.unit());
        if angle.kind != Kind::Angle {
            let found = angle.kind.to_string();
            return Err(self.wrong_argument(term, function, ("an angle", found)));
        }
        let value = match function {
            Function::Sin => number::sin(angle.value),
            Function::Cos => number::cos(angle.value),
            _ => number::tan(angle.value),
        };
        // a tangent this steep is that of a quarter turn, which has none
        if value.abs() > 1e15 {
            let found = "a quarter turn".to_owned();
            return Err(self.wrong_argument(
                term,
                function,
                ("an angle that has a tangent", found),
            ));
        }
        Ok(Quantity {
            value,
            kind: Kind::NUMBER,
        })
    }

    fn to_angle(
        &self,
        term: &Term,
        value: Quantity,
        function: Function,
    ) -> Result<Quantity, ExpressionError> {
        if !matches!(value.kind, Kind::Bare | Kind::NUMBER) {
            let found = value.kind.to_string();
            return Err(self.wrong_argument(term, function, ("a pure number", found)));
        }
        if function != Function::Atan && value.value.abs() > 1.0 {
            let found = format!("{}", value.value);
            return Err(self.wrong_argument(term, function, ("a value from -1 to 1", found)));
        }
        let value = match function {
            Function::Asin => number::arcsin(value.value),
            Function::Acos => number::arccos(value.value),
            _ => number::arctan(value.value),
        };
        Ok(Quantity {
            value,
            kind: Kind::Angle,
        })
    }
}

/// The long side of a right triangle.
fn long_side(one: f64, other: f64) -> f64 {
    number::length(crate::geometry::Vec2::new(one, other))
}
