//! One tag is two lines: a group code and a value.

use std::fmt::Write as _;

/// Text of a DXF file under construction.
#[derive(Debug)]
pub(super) struct Tags {
    text: String,
    letters: Letters,
}

/// How letters beyond ASCII are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Letters {
    /// As `\U+` and four hexadecimal digits: before R2007.
    Escaped,
    /// As UTF-8: from R2007 on.
    Plain,
}

impl Tags {
    pub(super) const fn new(letters: Letters) -> Self {
        Self {
            text: String::new(),
            letters,
        }
    }

    pub(super) fn into_bytes(self) -> Vec<u8> {
        self.text.into_bytes()
    }

    fn code(&mut self, code: u16) {
        // right-aligned in three places, as is usual
        let _infallible = write!(self.text, "{code:>3}\r\n");
    }

    fn end(&mut self) {
        self.text.push_str("\r\n");
    }

    /// A value of our own choosing, in ASCII.
    pub(super) fn word(&mut self, code: u16, word: &str) {
        self.code(code);
        self.text.push_str(word);
        self.end();
    }

    pub(super) fn whole(&mut self, code: u16, value: usize) {
        self.code(code);
        let _infallible = write!(self.text, "{value}");
        self.end();
    }

    pub(super) fn handle(&mut self, code: u16, handle: Handle) {
        self.code(code);
        let _infallible = write!(self.text, "{:X}", handle.0);
        self.end();
    }

    /// A length or an angle, with 12 decimals at most.
    pub(super) fn real(&mut self, code: u16, value: f64) {
        self.code(code);
        decimal(&mut self.text, value, 12);
        self.end();
    }

    /// A bulge, with 16 decimals at most.
    pub(super) fn bulge(&mut self, value: f64) {
        self.code(42);
        decimal(&mut self.text, value, 16);
        self.end();
    }

    /// Somebody's words, on one line: control characters become spaces, and what readers would take
    /// for a code is written so that it comes back as it was.
    pub(super) fn words(&mut self, code: u16, words: &str) {
        self.code(code);
        for (place, letter) in words.char_indices() {
            let rest = words.get(place + 1..).unwrap_or_default();
            match letter {
                // "^" starts the code of a control character, "%%" and "\U+" other codes
                '^' => self.text.push_str("^ "),
                '\\' if rest.starts_with("U+") || rest.starts_with("M+") => {
                    self.text.push_str("\\U+005C");
                }
                '%' if rest.starts_with('%') || words.get(..place).is_some_and(ends_in_percent) => {
                    self.text.push_str("%%%");
                }
                letter => self.letter(letter),
            }
        }
        self.end();
    }

    /// A remark that no reader acts on.
    pub(super) fn comment(&mut self, line: &str) {
        self.code(999);
        for letter in line.chars() {
            self.letter(letter);
        }
        self.end();
    }

    fn letter(&mut self, letter: char) {
        if letter.is_control() {
            self.text.push(' ');
        } else if letter.is_ascii() || self.letters == Letters::Plain {
            self.text.push(letter);
        } else {
            let mut units = [0_u16; 2];
            for unit in letter.encode_utf16(&mut units) {
                let _infallible = write!(self.text, "\\U+{unit:04X}");
            }
        }
    }

    pub(super) fn point(&mut self, codes: (u16, u16, u16), x: f64, y: f64) {
        self.real(codes.0, x);
        self.real(codes.1, y);
        self.real(codes.2, 0.0);
    }
}

fn ends_in_percent(words: &str) -> bool {
    words.ends_with('%')
}

/// The number of an object, unique in its file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Handle(pub(super) usize);

/// The number with at most so many decimals and at least one, never "-0.0".
fn decimal(text: &mut String, value: f64, decimals: usize) {
    let start = text.len();
    let _infallible = write!(text, "{value:.decimals$}");
    let digits = text.trim_end_matches('0').len();
    text.truncate(digits);
    if text.ends_with('.') {
        text.push('0');
    }
    if text.get(start..) == Some("-0.0") {
        text.truncate(start);
        text.push_str("0.0");
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn decimals(value: f64) -> String {
        let mut text = String::new();
        decimal(&mut text, value, 12);
        text
    }

    #[test]
    fn numbers_have_a_point_and_no_negative_zero() {
        for (value, expected) in [
            (0.0, "0.0"),
            (-0.0, "0.0"),
            (-4e-13, "0.0"),
            (100.0, "100.0"),
            (-12.5, "-12.5"),
            (0.1 + 0.2, "0.3"),
            (1e-12, "0.000000000001"),
            (1e6, "1000000.0"),
        ] {
            assert_eq!(decimals(value), expected, "value {value:e}");
        }
    }

    fn words(letters: Letters, words: &str) -> String {
        let mut tags = Tags::new(letters);
        tags.words(1, words);
        String::from_utf8(tags.into_bytes()).expect("UTF-8")
    }

    #[test]
    fn words_stay_on_one_line() {
        assert_eq!(
            words(Letters::Escaped, "a\r\n  0\nß∅😀"),
            "  1\r\na    0 \\U+00DF\\U+2205\\U+D83D\\U+DE00\r\n",
            "escaped"
        );
        assert_eq!(words(Letters::Plain, "ß"), "  1\r\nß\r\n", "plain");
    }

    #[test]
    fn codes_in_words_are_disarmed() {
        assert_eq!(
            words(Letters::Plain, r"a^J 5% 5%%d \U+0041"),
            "  1\r\na^ J 5% 5%%%%%%d \\U+005CU+0041\r\n",
            "codes"
        );
    }
}
