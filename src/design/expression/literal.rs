//! Numbers with their units: decimals, fractions, mixed numbers, feet and inches.

use super::ExpressionError;
use super::exact::Fraction;
use super::exact::in_millimetres;
use super::kind::Kind;
use super::kind::Quantity;
use super::parse::Parser;
use super::term::Form;
use super::term::Term;
use super::token::Token;
use crate::design::error::ExpressionFault;
use crate::geometry::LengthUnit;
use crate::geometry::number;

/// A unit after a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Unit {
    Length(LengthUnit),
    Degree,
}

/// Words that people write for a unit, and the right one.
const OTHER_UNIT_WORDS: &[(&str, &str)] = &[
    ("inch", "in"),
    ("inches", "in"),
    ("foot", "ft"),
    ("feet", "ft"),
    ("millimetre", "mm"),
    ("millimetres", "mm"),
    ("millimeter", "mm"),
    ("millimeters", "mm"),
    ("MM", "mm"),
    ("centimetre", "cm"),
    ("centimeter", "cm"),
    ("metre", "m"),
    ("metres", "m"),
    ("meter", "m"),
    ("meters", "m"),
    ("degree", "deg"),
    ("degrees", "deg"),
    ("rad", "deg"),
];

/// What a unit word means; `deg` is one too.
pub(crate) fn is_unit_word(word: &str) -> bool {
    word == "deg" || LengthUnit::from_symbol(word).is_some()
}

impl Parser<'_> {
    /// A number and what belongs to it: a fraction, a unit, inches after feet.
    pub(super) fn literal(&mut self) -> Result<Term, ExpressionError> {
        let start = self.range(0).start;
        let first = self.measured_number()?;
        let (mut number, unit) = first;
        if unit == Some(Unit::Length(LengthUnit::Foot)) && self.token(0) == Token::Number {
            let inches_start = self.range(0).start;
            let (inches, inch_unit) = self.measured_number()?;
            if inch_unit != Some(Unit::Length(LengthUnit::Inch)) {
                let fault = ExpressionFault::MissingOperator {
                    before: self.text_between(start, inches_start),
                    after: self.text_between(inches_start, self.end_of_last()),
                };
                return Err(
                    ExpressionError::new(fault, inches_start..self.end_of_last())
                        .with_help("after feet come inches, such as `2 ft 4-1/2 in`"),
                );
            }
            number = self.kept(
                number
                    .times(Fraction::whole(12))
                    .and_then(|feet| feet.plus(inches)),
                start,
            )?;
            return self.finish(number, Some(Unit::Length(LengthUnit::Inch)), start);
        }
        self.finish(number, unit, start)
    }

    /// The literal of a number and its unit.
    fn finish(
        &self,
        number: Fraction,
        unit: Option<Unit>,
        start: usize,
    ) -> Result<Term, ExpressionError> {
        let quantity = match unit {
            None => Quantity {
                value: number.to_float(),
                kind: Kind::Bare,
            },
            Some(Unit::Degree) => Quantity {
                value: number.to_float() * (number::HALF_TURN / 180.0),
                kind: Kind::Angle,
            },
            Some(Unit::Length(unit)) => {
                let length = self.kept(in_millimetres(number, unit), start)?;
                Quantity {
                    value: length.to_float(),
                    kind: Kind::LENGTH,
                }
            }
        };
        if unit.is_some() && self.token(0) == Token::Power {
            let fault = ExpressionFault::BadPower {
                most: crate::design::limits::HIGHEST_POWER,
                written: self.text_between(start, self.range(1).end),
            };
            return Err(ExpressionError::new(fault, self.range(0))
                .with_help("put the length into parentheses: `(3 in)^2` is 9 square inches"));
        }
        Ok(Term {
            range: start..self.end_of_last(),
            form: Form::Literal(quantity),
        })
    }

    /// A number that may be a fraction or mixed, with its unit. Without a unit only a plain number is
    /// taken, since `1/2` is a division then.
    fn measured_number(&mut self) -> Result<(Fraction, Option<Unit>), ExpressionError> {
        let start = self.range(0).start;
        self.refuse_decimal_comma()?;
        if let Some(pieces) = self.mixed_number_pieces() {
            return self.mixed_number(pieces);
        }
        if self.is_fraction(0)
            && let Some((unit, used)) = self.unit_at(3)
        {
            let fraction = self.fraction(0)?;
            self.advance(3 + used);
            return Ok((fraction, Some(unit)));
        }
        let number = self.number(0)?;
        self.advance(1);
        if let Some((unit, used)) = self.unit_at(0) {
            self.advance(used);
            return Ok((number, Some(unit)));
        }
        self.refuse_wrong_unit(start)?;
        Ok((number, None))
    }

    /// How many pieces a mixed number takes without its unit: 5 for `4-1/2`, 4 for `4 1/2`.
    fn mixed_number_pieces(&self) -> Option<usize> {
        let whole = self.is_whole(0);
        let joined = (0..4).all(|at| self.range(at).end == self.range(at + 1).start);
        if whole && joined && self.token(1) == Token::Minus && self.is_fraction(2) {
            return Some(5);
        }
        (whole && self.is_fraction(1)).then_some(4)
    }

    fn mixed_number(&mut self, pieces: usize) -> Result<(Fraction, Option<Unit>), ExpressionError> {
        let start = self.range(0).start;
        let end = self.range(pieces - 1).end;
        let written = self.text_between(start, end);
        let Some((unit, used)) = self.unit_at(pieces) else {
            if pieces == 4 {
                let joined = self.text_between(self.range(1).start, end);
                let help = format!(
                    "write `{}-{joined} in` for a mixed number, or put + - * or / between them",
                    self.text_of(0)
                );
                return Err(self.missing_operator(0, 1).with_help(help));
            }
            let spaced = written.replace('-', " - ");
            let help = format!("write `{written} in` for a mixed number, `{spaced}` to subtract");
            return Err(ExpressionError::new(
                ExpressionFault::AmbiguousMixedNumber { written },
                start..end,
            )
            .with_help(help));
        };
        let fraction = self.fraction(pieces - 3)?;
        let proper = fraction.to_float() < 1.0;
        if !proper {
            let help = "the fraction of a mixed number is less than 1";
            return Err(ExpressionError::new(
                ExpressionFault::AmbiguousMixedNumber { written },
                start..end,
            )
            .with_help(help));
        }
        let whole = self.number(0)?;
        let sum = self.kept(whole.plus(fraction), start)?;
        self.advance(pieces + used);
        Ok((sum, Some(unit)))
    }

    /// Whether `1/2` stands at the piece, joined.
    fn is_fraction(&self, at: usize) -> bool {
        self.is_whole(at)
            && self.token(at + 1) == Token::Over
            && self.is_whole(at + 2)
            && self.range(at).end == self.range(at + 1).start
            && self.range(at + 1).end == self.range(at + 2).start
    }

    fn is_whole(&self, at: usize) -> bool {
        self.token(at) == Token::Number
            && self.text_of(at).bytes().all(|byte| byte.is_ascii_digit())
    }

    fn fraction(&self, at: usize) -> Result<Fraction, ExpressionError> {
        let numerator = self.number(at)?;
        let denominator = self.number(at + 2)?;
        let divisor = self.text_of(at + 2);
        let inverse = divisor
            .parse()
            .ok()
            .and_then(|whole| Fraction::new(1, whole));
        match inverse {
            Some(inverse) => self.kept(numerator.times(inverse), self.range(at).start),
            None if denominator == Fraction::whole(0) => Err(ExpressionError::new(
                ExpressionFault::DivisionByZero {
                    divisor: divisor.to_owned(),
                },
                self.range(at + 2),
            )
            .with_help("divide by something that is not 0")),
            None => self.kept(None, self.range(at).start),
        }
    }

    /// The number at a piece.
    fn number(&self, at: usize) -> Result<Fraction, ExpressionError> {
        let written = self.text_of(at);
        let float: Option<f64> = written.parse().ok();
        let shape = written.bytes().any(|byte| byte.is_ascii_digit());
        match (Fraction::decimal(written), float) {
            (Some(fraction), Some(_)) if shape => Ok(fraction),
            _ => {
                let fault = ExpressionFault::BadNumber {
                    written: written.to_owned(),
                };
                let help = "write a number with one decimal point and at most 30 digits";
                Err(ExpressionError::new(fault, self.range(at)).with_help(help))
            }
        }
    }

    /// The unit at a piece, and how many pieces it takes.
    fn unit_at(&self, at: usize) -> Option<(Unit, usize)> {
        let unit = match self.token(at) {
            Token::Name if self.text_of(at) == "deg" => Unit::Degree,
            Token::Name => Unit::Length(LengthUnit::from_symbol(self.text_of(at))?),
            Token::Degree => Unit::Degree,
            Token::FootMark if self.token(at + 1) == Token::FootMark => {
                return Some((Unit::Length(LengthUnit::Inch), 2));
            }
            Token::FootMark => Unit::Length(LengthUnit::Foot),
            Token::InchMark => Unit::Length(LengthUnit::Inch),
            _ => return None,
        };
        Some((unit, 1))
    }

    /// An error if a word that is no unit follows a number.
    fn refuse_wrong_unit(&self, start: usize) -> Result<(), ExpressionError> {
        if self.token(0) != Token::Name {
            return Ok(());
        }
        let word = self.text_of(0);
        let right = OTHER_UNIT_WORDS
            .iter()
            .find(|(other, _)| *other == word)
            .map(|(_, right)| *right);
        if let Some(right) = right {
            let fault = ExpressionFault::UnknownUnit {
                word: word.to_owned(),
            };
            let help = if word == "rad" {
                "angles are in degrees: write `deg`".to_owned()
            } else {
                format!("write `{right}`")
            };
            return Err(ExpressionError::new(fault, self.range(0)).with_help(help));
        }
        let fault = ExpressionFault::MissingOperator {
            before: self.text_between(start, self.end_of_last()),
            after: word.to_owned(),
        };
        let help = "units are mm, cm, m, in, ft and deg; to multiply, write `*`";
        Err(ExpressionError::new(fault, self.range(0)).with_help(help))
    }

    fn refuse_decimal_comma(&self) -> Result<(), ExpressionError> {
        let comma = self.token(1) == Token::Comma
            && self.token(2) == Token::Number
            && self.range(0).end == self.range(1).start
            && self.range(1).end == self.range(2).start;
        if !comma {
            return Ok(());
        }
        let range = self.range(0).start..self.range(2).end;
        let written = self.text_between(range.start, range.end);
        let help = format!(
            "write `{}`; between the arguments of a function put a space after the comma",
            written.replace(',', ".")
        );
        Err(ExpressionError::new(ExpressionFault::DecimalComma { written }, range).with_help(help))
    }

    /// The number, or the error that it has too many digits.
    fn kept(&self, number: Option<Fraction>, start: usize) -> Result<Fraction, ExpressionError> {
        number.ok_or_else(|| {
            let fault = ExpressionFault::BadNumber {
                written: self.text_between(start, self.end_of_last().max(start)),
            };
            ExpressionError::new(fault, start..self.end_of_last().max(start))
                .with_help("write a number with at most 30 digits")
        })
    }
}
