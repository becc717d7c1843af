//! Breaking words into lines.

/// A space that no line is broken at.
pub(super) const NON_BREAKING: char = '\u{a0}';

/// The words without control characters: what a design file brings in must not steer a terminal.
pub(super) fn clean(words: &str) -> String {
    words
        .chars()
        .map(|letter| if letter.is_control() { ' ' } else { letter })
        .collect()
}

fn breaks(letter: char) -> bool {
    letter.is_control() || (letter.is_whitespace() && letter != NON_BREAKING)
}

/// The words in order, each with its length in characters.
pub(super) fn words(text: &str) -> impl Iterator<Item = (&str, usize)> {
    text.split(breaks)
        .filter(|word| !word.is_empty())
        .map(|word| (word, word.chars().count()))
}

/// The text in lines of at most `width` characters, filled from the first on; a longer word has a
/// line of its own. Empty text is one empty line.
pub(super) fn wrapped(text: &str, width: usize) -> Vec<String> {
    let mut lines = Vec::new();
    let mut line = String::new();
    let mut used = 0;
    for (word, length) in words(text) {
        if used > 0 && used + 1 + length > width {
            lines.push(std::mem::take(&mut line));
            used = 0;
        }
        if used > 0 {
            line.push(' ');
            used += 1;
        }
        line.push_str(word);
        used += length;
    }
    lines.push(line);
    lines
}
