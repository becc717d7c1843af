//! An expression cut into numbers, names and signs.

use super::ExpressionError;
use crate::design::error::ExpressionFault;
use std::ops::Range;

/// A piece of an expression.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Token {
    /// Digits, with a point or an exponent perhaps.
    Number,
    /// Letters, digits, underscores.
    Name,
    /// +
    Plus,
    /// − or -
    Minus,
    /// × or *
    Times,
    /// ÷ or /
    Over,
    /// ^
    Power,
    /// (
    Open,
    /// )
    Close,
    /// ,
    Comma,
    /// ' or ′: feet
    FootMark,
    /// " or ″: inches
    InchMark,
    /// °
    Degree,
    /// The end of the text.
    End,
}

/// A piece with its place in the text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(super) struct Piece {
    pub(super) token: Token,
    pub(super) range: Range<usize>,
}

/// The pieces of a text, an end at the end.
pub(super) fn pieces(text: &str) -> Result<Vec<Piece>, ExpressionError> {
    let mut pieces = Vec::new();
    let mut rest = text;
    while let Some(first) = rest.chars().next() {
        let start = text.len() - rest.len();
        let length = if first.is_whitespace() {
            let length = rest.len() - rest.trim_start().len();
            rest = rest.get(length..).unwrap_or("");
            continue;
        } else if first.is_ascii_digit() || first == '.' {
            number_length(rest)
        } else if first.is_alphabetic() || first == '_' {
            rest.find(|character: char| !is_name_character(character))
                .unwrap_or(rest.len())
        } else {
            first.len_utf8()
        };
        let token = token(first).ok_or_else(|| {
            ExpressionError::new(
                ExpressionFault::UnexpectedCharacter { character: first },
                start..start + length,
            )
            .with_help(help_for(first))
        })?;
        let range = start..start + length;
        pieces.push(Piece { token, range });
        rest = rest.get(length..).unwrap_or("");
    }
    pieces.push(Piece {
        token: Token::End,
        range: text.len()..text.len(),
    });
    Ok(pieces)
}

/// Whether a name goes on with this character.
pub(crate) fn is_name_character(character: char) -> bool {
    character.is_alphabetic() || character.is_ascii_digit() || character == '_'
}

fn token(first: char) -> Option<Token> {
    Some(match first {
        '0'..='9' | '.' => Token::Number,
        '+' => Token::Plus,
        '-' | '−' => Token::Minus,
        '*' | '×' | '·' => Token::Times,
        '/' | '÷' => Token::Over,
        '^' => Token::Power,
        '(' => Token::Open,
        ')' => Token::Close,
        ',' => Token::Comma,
        '\'' | '′' => Token::FootMark,
        '"' | '″' => Token::InchMark,
        '°' => Token::Degree,
        _ if first.is_alphabetic() || first == '_' => Token::Name,
        _ => return None,
    })
}

fn help_for(character: char) -> &'static str {
    match character {
        '²' | '³' => "write `^2` or `^3` after a name or a parenthesis",
        '½' | '¼' | '¾' | '⅛' | '⅜' | '⅝' | '⅞' => {
            "write fractions with a stroke, such as `1/2 in`"
        }
        '=' | '<' | '>' => "an expression is a value; limits go into `min` and `max`",
        '%' => "write per cent as a fraction, such as `5 / 100`",
        '[' | ']' | '{' | '}' => "use round parentheses ( )",
        '–' | '—' => "use a plain hyphen for minus",
        _ => "use numbers with units, names of dimensions, + - * / ^ ( ) and functions",
    }
}

/// How far a number goes: digits, points, an exponent. What is no number is found when it is read.
fn number_length(text: &str) -> usize {
    let digits = |from: usize| {
        text.get(from..).map_or(0, |rest| {
            rest.bytes()
                .take_while(|byte| byte.is_ascii_digit() || *byte == b'.')
                .count()
        })
    };
    let length = digits(0);
    let mut rest = text.get(length..).unwrap_or("").bytes();
    if !matches!(rest.next(), Some(b'e' | b'E')) {
        return length;
    }
    let sign = usize::from(matches!(rest.next(), Some(b'+' | b'-')));
    match digits(length + 1 + sign) {
        0 => length,
        exponent => length + 1 + sign + exponent,
    }
}
