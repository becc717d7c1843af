//! An expression with its working: as written, with the numbers put in, and its value.

use super::evaluate::Scope;
use super::exact::length_in_unit;
use super::kind::Kind;
use super::kind::Quantity;
use super::term::Form;
use super::term::Sign;
use super::term::Stroke;
use super::term::Term;
use crate::geometry::LengthUnit;
use crate::geometry::number;

/// Decimals of a number in a message or a working, trailing zeros dropped.
const DECIMALS: usize = 6;

/// A number as people write it: at most six decimals, no trailing zeros.
pub fn plain_number(value: f64) -> String {
    plain_number_to(value, DECIMALS)
}

fn plain_number_to(value: f64, decimals: usize) -> String {
    let magnitude = value.abs();
    if magnitude != 0.0 && !(1e-6..1e15).contains(&magnitude) {
        return format!("{value:e}");
    }
    let text = format!("{value:.decimals$}");
    let text = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        text.as_str()
    };
    if text == "-0" {
        "0".to_owned()
    } else {
        text.to_owned()
    }
}

/// A quantity with its unit, lengths in `unit`.
pub fn with_unit(quantity: Quantity, unit: LengthUnit) -> String {
    with_unit_to(quantity, unit, DECIMALS)
}

/// Two quantities of one kind with their unit, with as many decimals as tell them apart.
pub fn told_apart(values: [f64; 2], kind: Kind, unit: LengthUnit) -> [String; 2] {
    const MOST: usize = 15;
    let shown =
        |decimals| values.map(|value| with_unit_to(Quantity { value, kind }, unit, decimals));
    (DECIMALS..=MOST)
        .map(shown)
        .find(|[one, other]| one != other)
        .unwrap_or_else(|| shown(DECIMALS))
}

fn with_unit_to(quantity: Quantity, unit: LengthUnit, decimals: usize) -> String {
    let symbol = unit.symbol();
    let plain_number = |value| plain_number_to(value, decimals);
    match quantity.kind {
        Kind::Bare | Kind::Power(0) => plain_number(quantity.value),
        Kind::Angle => format!("{}°", plain_number(degrees(quantity.value))),
        Kind::Power(1) => format!(
            "{} {symbol}",
            plain_number(length_in_unit(quantity.value, unit))
        ),
        Kind::Power(power) => {
            let value = in_unit(quantity.value, power, unit);
            let power = match power {
                2 => "²".to_owned(),
                3 => "³".to_owned(),
                other => format!("^{other}"),
            };
            format!("{} {symbol}{power}", plain_number(value))
        }
    }
}

/// An angle in degrees.
pub fn degrees(radians: f64) -> f64 {
    radians * (180.0 / number::HALF_TURN)
}

fn in_unit(value: f64, power: i8, unit: LengthUnit) -> f64 {
    let factor = (0..power.unsigned_abs()).fold(1.0, |factor, _| factor * unit.millimetres());
    if power < 0 {
        value * factor
    } else {
        value / factor
    }
}

/// The working of a term: `guard − head_gap = 96 − 6 = 90 mm`. `None` for a term without names or
/// operations, which needs none.
pub fn working(term: &Term, text: &str, value: Quantity, scope: &dyn Scope) -> Option<String> {
    if matches!(term.form, Form::Literal(_)) {
        return None;
    }
    let symbols = Rendering { text, scope: None }.render(term, Binding::Sum);
    let numbers = Rendering {
        text,
        scope: Some(scope),
    }
    .render(term, Binding::Sum);
    let value = with_unit(value, scope.unit()).replacen('-', "−", 1);
    Some(if numbers == symbols || numbers == value {
        format!("{symbols} = {value}")
    } else {
        match term.form {
            Form::Name(_) => format!("{symbols} = {value}"),
            _ => format!("{symbols} = {numbers} = {value}"),
        }
    })
}

/// How strongly the operation around a term binds.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
enum Binding {
    Sum,
    Product,
    Power,
}

/// Writes terms, with names or with the numbers they stand for.
struct Rendering<'a> {
    text: &'a str,
    scope: Option<&'a dyn Scope>,
}

impl Rendering<'_> {
    fn render(&self, term: &Term, around: Binding) -> String {
        let (text, own) = match &term.form {
            Form::Literal(_) => {
                let text = self.text.get(term.range.clone()).unwrap_or("");
                (
                    text.trim_matches(['(', ')', ' ']).to_owned(),
                    Binding::Power,
                )
            }
            Form::Pi => ("π".to_owned(), Binding::Power),
            Form::Name(name) => return self.name(name),
            Form::Negative(inner) => {
                let inner = self.render(inner, Binding::Product);
                (format!("−{inner}"), Binding::Sum)
            }
            Form::Sum(terms) => (self.sum(terms), Binding::Sum),
            Form::Product(factors) => (self.product(factors), Binding::Product),
            Form::Power(base, power) => {
                let base = self.render(base, Binding::Power);
                (format!("{base}^{power}"), Binding::Power)
            }
            Form::Call(function, arguments) => {
                let arguments: Vec<String> = arguments
                    .iter()
                    .map(|argument| self.render(argument, Binding::Sum))
                    .collect();
                let call = format!("{}({})", function.name(), arguments.join(", "));
                (call, Binding::Power)
            }
        };
        if own < around {
            format!("({text})")
        } else {
            text
        }
    }

    fn name(&self, name: &str) -> String {
        let Some((scope, quantity)) = self
            .scope
            .and_then(|scope| Some((scope, scope.value(name)?)))
        else {
            return name.to_owned();
        };
        // lengths go without their unit, which stands at the end
        let text = match quantity.kind {
            Kind::Power(1) => plain_number(length_in_unit(quantity.value, scope.unit())),
            _ => with_unit(quantity, scope.unit()),
        };
        match text.strip_prefix('-') {
            Some(size) => format!("(−{size})"),
            None => text,
        }
    }

    fn sum(&self, terms: &[(Sign, Term)]) -> String {
        let mut text = String::new();
        for (index, (sign, term)) in terms.iter().enumerate() {
            let around = if index == 0 {
                Binding::Sum
            } else {
                // what is added or taken away keeps its own parentheses
                text.push_str(match sign {
                    Sign::Plus => " + ",
                    Sign::Minus => " − ",
                });
                Binding::Product
            };
            text.push_str(&self.render(term, around));
        }
        text
    }

    fn product(&self, factors: &[(Stroke, Term)]) -> String {
        let mut text = String::new();
        for (index, (stroke, factor)) in factors.iter().enumerate() {
            let around = if index == 0 {
                Binding::Product
            } else {
                text.push_str(match stroke {
                    Stroke::Above => " × ",
                    Stroke::Below => " ÷ ",
                });
                Binding::Power
            };
            text.push_str(&self.render(factor, around));
        }
        text
    }
}
