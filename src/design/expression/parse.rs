//! Text to terms, with places and bounded depth.

use super::ExpressionError;
use super::term::Form;
use super::term::Function;
use super::term::Sign;
use super::term::Stroke;
use super::term::Term;
use super::token::Piece;
use super::token::Token;
use super::token::pieces;
use crate::design::error::ExpressionFault;
use crate::design::limits;
use crate::design::read::keys::suggestion;
use std::ops::Range;

/// The term that a text stands for.
///
/// Sums bind less than products, products less than signs, signs less than powers. A unit belongs to
/// the number before it.
///
/// # Errors
/// Whatever is wrong with the text, with its place in it.
pub fn parse(text: &str) -> Result<Term, ExpressionError> {
    if text.len() > limits::LONGEST_EXPRESSION {
        let fault = ExpressionFault::TooLong {
            length: text.len(),
            limit: limits::LONGEST_EXPRESSION,
        };
        return Err(ExpressionError::new(fault, 0..text.len())
            .with_help("split it into dimensions of their own"));
    }
    if text.trim().is_empty() {
        return Err(ExpressionError::new(ExpressionFault::Empty, 0..text.len())
            .with_help("write a value, or leave the key out"));
    }
    let mut parser = Parser {
        text,
        pieces: pieces(text)?,
        at: 0,
        depth: 0,
    };
    let term = parser.sum()?;
    match parser.token(0) {
        Token::End => Ok(term),
        Token::Close => Err(ExpressionError::new(
            ExpressionFault::StrayParenthesis,
            parser.range(0),
        )
        .with_help("take it out, or open it where it belongs")),
        Token::Comma => Err(parser.stray_comma()),
        _ => Err(parser.missing_operator_here(&term)),
    }
}

/// Goes through the pieces of a text.
pub(super) struct Parser<'a> {
    text: &'a str,
    pieces: Vec<Piece>,
    at: usize,
    depth: usize,
}

impl Parser<'_> {
    /// The piece so many further on; past the end, the end.
    fn piece(&self, ahead: usize) -> Option<&Piece> {
        self.pieces.get(self.at + ahead).or(self.pieces.last())
    }

    pub(super) fn token(&self, ahead: usize) -> Token {
        self.piece(ahead).map_or(Token::End, |piece| piece.token)
    }

    pub(super) fn range(&self, ahead: usize) -> Range<usize> {
        self.piece(ahead)
            .map_or(self.text.len()..self.text.len(), |piece| {
                piece.range.clone()
            })
    }

    pub(super) fn text_of(&self, ahead: usize) -> &str {
        self.text.get(self.range(ahead)).unwrap_or("")
    }

    pub(super) fn text_between(&self, start: usize, end: usize) -> String {
        let text = self.text.get(start..end).unwrap_or("").trim();
        crate::design::read::node::shortened(text)
    }

    pub(super) fn advance(&mut self, pieces: usize) {
        self.at = (self.at + pieces).min(self.pieces.len().saturating_sub(1));
    }

    /// Where the piece before stands; the start of the text if there is none.
    fn range_of_last(&self) -> Range<usize> {
        self.at
            .checked_sub(1)
            .and_then(|at| self.pieces.get(at))
            .map_or(0..0, |piece| piece.range.clone())
    }

    /// Where the piece before ends.
    pub(super) fn end_of_last(&self) -> usize {
        self.range_of_last().end
    }

    /// `2 3`: nothing between two pieces.
    pub(super) fn missing_operator(&self, before: usize, after: usize) -> ExpressionError {
        let fault = ExpressionFault::MissingOperator {
            before: self.text_of(before).to_owned(),
            after: self.text_of(after).to_owned(),
        };
        ExpressionError::new(fault, self.range(after)).with_help("put + - * or / between them")
    }

    fn missing_operator_here(&self, term: &Term) -> ExpressionError {
        let fault = ExpressionFault::MissingOperator {
            before: self.text_between(term.range.start, term.range.end),
            after: self.text_of(0).to_owned(),
        };
        ExpressionError::new(fault, self.range(0)).with_help("put + - * or / between them")
    }

    fn stray_comma(&self) -> ExpressionError {
        let fault = ExpressionFault::UnexpectedCharacter { character: ',' };
        ExpressionError::new(fault, self.range(0)).with_help(
            "numbers have a decimal point; commas stand between the arguments of a function",
        )
    }

    /// Runs a parser one level deeper.
    fn deeper(
        &mut self,
        inner: fn(&mut Self) -> Result<Term, ExpressionError>,
    ) -> Result<Term, ExpressionError> {
        if self.depth >= limits::DEEPEST_EXPRESSION {
            let fault = ExpressionFault::TooDeep {
                limit: limits::DEEPEST_EXPRESSION,
            };
            return Err(ExpressionError::new(fault, self.range(0))
                .with_help("split it into dimensions of their own"));
        }
        self.depth += 1;
        let term = inner(self);
        self.depth -= 1;
        term
    }

    fn sum(&mut self) -> Result<Term, ExpressionError> {
        let first = self.product()?;
        let start = first.range.start;
        let mut terms = vec![(Sign::Plus, first)];
        loop {
            let sign = match self.token(0) {
                Token::Plus => Sign::Plus,
                Token::Minus => Sign::Minus,
                _ => break,
            };
            self.advance(1);
            terms.push((sign, self.product()?));
        }
        Ok(self.joined(terms, start, Form::Sum))
    }

    fn product(&mut self) -> Result<Term, ExpressionError> {
        let first = self.signed()?;
        let start = first.range.start;
        let mut factors = vec![(Stroke::Above, first)];
        loop {
            let stroke = match self.token(0) {
                Token::Times => Stroke::Above,
                Token::Over => Stroke::Below,
                _ => break,
            };
            self.advance(1);
            factors.push((stroke, self.signed()?));
        }
        Ok(self.joined(factors, start, Form::Product))
    }

    /// One term as it is; several as a sum or product.
    fn joined<T>(
        &self,
        mut terms: Vec<(T, Term)>,
        start: usize,
        form: fn(Vec<(T, Term)>) -> Form,
    ) -> Term {
        if terms.len() == 1
            && let Some((_, only)) = terms.pop()
        {
            return only;
        }
        Term {
            range: start..self.end_of_last(),
            form: form(terms),
        }
    }

    fn signed(&mut self) -> Result<Term, ExpressionError> {
        let start = self.range(0).start;
        match self.token(0) {
            Token::Minus => {
                self.advance(1);
                let term = self.deeper(Self::signed)?;
                Ok(Term {
                    range: start..self.end_of_last(),
                    form: Form::Negative(Box::new(term)),
                })
            }
            Token::Plus => {
                self.advance(1);
                self.deeper(Self::signed)
            }
            _ => self.power(),
        }
    }

    fn power(&mut self) -> Result<Term, ExpressionError> {
        let base = self.primary()?;
        if self.token(0) != Token::Power {
            return Ok(base);
        }
        self.advance(1);
        let range = self.range(0);
        let written = self.text_of(0).to_owned();
        let power = (self.token(0) == Token::Number)
            .then(|| written.parse::<i8>().ok())
            .flatten()
            .filter(|power| (0..=limits::HIGHEST_POWER).contains(power));
        let bad = |help: &str| {
            let fault = ExpressionFault::BadPower {
                most: limits::HIGHEST_POWER,
                written: written.clone(),
            };
            Err(ExpressionError::new(fault, range.clone()).with_help(help.to_owned()))
        };
        let Some(power) = power else {
            return bad("write a whole number, or use sqrt for a root");
        };
        self.advance(1);
        if self.token(0) == Token::Power {
            return bad("use parentheses for a power of a power");
        }
        Ok(Term {
            range: base.range.start..self.end_of_last(),
            form: Form::Power(Box::new(base), power),
        })
    }

    fn primary(&mut self) -> Result<Term, ExpressionError> {
        match self.token(0) {
            Token::Number => self.literal(),
            Token::Name => self.name(),
            Token::Open => {
                let start = self.range(0).start;
                self.advance(1);
                let term = self.deeper(Self::sum)?;
                self.close(start)?;
                Ok(Term {
                    range: start..self.end_of_last(),
                    form: term.form,
                })
            }
            Token::Comma => Err(self.stray_comma()),
            _ => Err(self.missing("a value")),
        }
    }

    /// The error that something is missing before the piece here.
    fn missing(&self, expected: &'static str) -> ExpressionError {
        let before = match self.token(0) {
            Token::End => "at the end".to_owned(),
            _ => format!("before `{}`", self.text_of(0)),
        };
        let fault = ExpressionFault::Missing { expected, before };
        let range = match self.token(0) {
            // the sign that asks for more
            Token::End => self.range_of_last(),
            _ => self.range(0),
        };
        ExpressionError::new(fault, range).with_help("write one, or take the sign before it out")
    }

    fn close(&mut self, opened: usize) -> Result<(), ExpressionError> {
        match self.token(0) {
            Token::Close => {
                self.advance(1);
                Ok(())
            }
            Token::Number | Token::Name | Token::Open => Err(ExpressionError::new(
                ExpressionFault::MissingOperator {
                    before: self.text_between(opened, self.end_of_last()),
                    after: self.text_of(0).to_owned(),
                },
                self.range(0),
            )
            .with_help("put + - * or / between them")),
            Token::Comma => Err(self.stray_comma()),
            _ => Err(self
                .missing("a closing parenthesis")
                .with_help("every ( needs its )")),
        }
    }

    fn name(&mut self) -> Result<Term, ExpressionError> {
        let range = self.range(0);
        let name = self.text_of(0).to_owned();
        self.advance(1);
        if self.token(0) == Token::Open {
            return self.call(&name, range);
        }
        if name == "pi" {
            return Ok(Term {
                range,
                form: Form::Pi,
            });
        }
        if let Some(function) = Function::from_name(&name) {
            let fault = ExpressionFault::ArgumentCount {
                function: function.name(),
                expected: function.arguments().2,
                found: 0,
            };
            return Err(ExpressionError::new(fault, range).with_help(format!("write `{name}(…)`")));
        }
        if super::literal::is_unit_word(&name) {
            let fault = ExpressionFault::Missing {
                expected: "a number",
                before: format!("before the unit `{name}`"),
            };
            return Err(ExpressionError::new(fault, range)
                .with_help("units follow a number; a dimension has its unit already"));
        }
        Ok(Term {
            range,
            form: Form::Name(name),
        })
    }

    fn call(&mut self, name: &str, range: Range<usize>) -> Result<Term, ExpressionError> {
        let Some(function) = Function::from_name(name) else {
            let names = Function::ALL.map(Function::name);
            let fault = ExpressionFault::UnknownFunction {
                name: name.to_owned(),
            };
            return Err(ExpressionError::new(fault, range).with_help(suggestion(name, &names)));
        };
        let opened = self.range(0).start;
        self.advance(1);
        let mut arguments = Vec::new();
        if self.token(0) != Token::Close {
            loop {
                arguments.push(self.deeper(Self::sum)?);
                if self.token(0) != Token::Comma {
                    break;
                }
                self.advance(1);
            }
        }
        self.close(opened)?;
        let (least, most, expected) = function.arguments();
        let range = range.start..self.end_of_last();
        if !(least..=most).contains(&arguments.len()) {
            let fault = ExpressionFault::ArgumentCount {
                function: function.name(),
                expected,
                found: arguments.len(),
            };
            let usage = match function {
                Function::Hypot => "write `hypot(a, b)`".to_owned(),
                Function::Min | Function::Max | Function::Round => {
                    format!("write `{name}(a, b)`")
                }
                _ => format!("write `{name}(a)`"),
            };
            return Err(ExpressionError::new(fault, range).with_help(usage));
        }
        Ok(Term {
            range,
            form: Form::Call(function, arguments),
        })
    }
}
