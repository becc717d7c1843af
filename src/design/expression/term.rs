//! The parsed form of an expression.

use super::kind::Quantity;
use std::ops::Range;

/// A term and its place in the text.
#[derive(Clone, Debug, PartialEq)]
pub struct Term {
    /// Byte offsets in the text.
    pub range: Range<usize>,
    /// What it is.
    pub form: Form,
}

/// What a term is.
#[derive(Clone, Debug, PartialEq)]
pub enum Form {
    /// A number, with its unit if it has one.
    Literal(Quantity),
    /// π
    Pi,
    /// A dimension.
    Name(String),
    /// The opposite.
    Negative(Box<Term>),
    /// A sum of two terms or more.
    Sum(Vec<(Sign, Term)>),
    /// A product of two factors or more.
    Product(Vec<(Stroke, Term)>),
    /// A power.
    Power(Box<Term>, i8),
    /// A function of arguments.
    Call(Function, Vec<Term>),
}

/// Whether a term of a sum is added.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Sign {
    /// It is added.
    Plus,
    /// It is taken away.
    Minus,
}

/// Whether a factor of a product multiplies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stroke {
    /// It multiplies.
    Above,
    /// It divides.
    Below,
}

/// A function.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Function {
    /// Square root; of an area, a length.
    Sqrt,
    /// The value without its sign.
    Abs,
    /// The least.
    Min,
    /// The most.
    Max,
    /// The nearest multiple of a step, halves away from zero; without a step, of 1.
    Round,
    /// Sine of an angle.
    Sin,
    /// Cosine of an angle.
    Cos,
    /// Tangent of an angle.
    Tan,
    /// The angle of a sine.
    Asin,
    /// The angle of a cosine.
    Acos,
    /// The angle of a tangent.
    Atan,
    /// The long side of a right triangle.
    Hypot,
}

impl Function {
    /// All of them, in the order of the manual.
    pub const ALL: [Self; 12] = [
        Self::Sqrt,
        Self::Abs,
        Self::Min,
        Self::Max,
        Self::Round,
        Self::Sin,
        Self::Cos,
        Self::Tan,
        Self::Asin,
        Self::Acos,
        Self::Atan,
        Self::Hypot,
    ];

    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Sqrt => "sqrt",
            Self::Abs => "abs",
            Self::Min => "min",
            Self::Max => "max",
            Self::Round => "round",
            Self::Sin => "sin",
            Self::Cos => "cos",
            Self::Tan => "tan",
            Self::Asin => "asin",
            Self::Acos => "acos",
            Self::Atan => "atan",
            Self::Hypot => "hypot",
        }
    }

    /// How many arguments it takes: the least, the most, and in words.
    pub const fn arguments(self) -> (usize, usize, &'static str) {
        match self {
            Self::Min | Self::Max => (1, usize::MAX, "one argument or more"),
            Self::Hypot => (2, 2, "two arguments"),
            Self::Round => (1, 2, "one argument or two"),
            _ => (1, 1, "one argument"),
        }
    }

    /// The function of this name.
    pub fn from_name(name: &str) -> Option<Self> {
        Self::ALL
            .into_iter()
            .find(|function| function.name() == name)
    }
}

impl Term {
    /// Adds the names of the dimensions that it is made of, with their places in the text.
    pub fn collect_names<'a>(&'a self, names: &mut Vec<(&'a str, Range<usize>)>) {
        match &self.form {
            Form::Literal(_) | Form::Pi => {}
            Form::Name(name) => names.push((name, self.range.clone())),
            Form::Negative(term) | Form::Power(term, _) => term.collect_names(names),
            Form::Sum(terms) => terms.iter().for_each(|(_, term)| term.collect_names(names)),
            Form::Product(terms) => terms.iter().for_each(|(_, term)| term.collect_names(names)),
            Form::Call(_, terms) => terms.iter().for_each(|term| term.collect_names(names)),
        }
    }
}
