//! Breaking words into lines.

use crate::formats::font;

/// The lines of running words set in `size`, none wider than `width`.
///
/// Lines break at spaces and at line ends that are in the words; not at spaces that say so (U+00A0).
/// A word wider than the line is broken, after a hyphen, slash or the like if there is one.
pub(super) fn lines(content: &str, size: f64, width: f64) -> Vec<String> {
    let space = font::text_width(" ", size);
    let mut lines = Vec::new();
    for paragraph in content.lines() {
        let mut line = String::new();
        let mut used = 0.0;
        for word in pieces(paragraph) {
            let mut rest = word;
            let mut wide = font::text_width(word, size);
            if !line.is_empty() {
                if used + space + wide <= width {
                    line.push(' ');
                    line.push_str(word);
                    used += space + wide;
                    continue;
                }
                lines.push(std::mem::take(&mut line));
            }
            while wide > width {
                let place = break_place(rest, size, width);
                if place == rest.len() {
                    break;
                }
                let (piece, remaining) = rest.split_at(place);
                lines.push(piece.to_owned());
                rest = remaining;
                wide = font::text_width(rest, size);
            }
            rest.clone_into(&mut line);
            used = wide;
        }
        lines.push(line);
    }
    lines
}

/// The pieces between the places where a line may break.
fn pieces(content: &str) -> impl Iterator<Item = &str> {
    content
        .split([' ', '\t', '\n', '\r'])
        .filter(|word| !word.is_empty())
}

/// Bytes of the piece of a word that goes on a line of its own: at least one letter.
fn break_place(word: &str, size: f64, width: f64) -> usize {
    let mut used = 0.0;
    let mut fitting = 0;
    let mut after_sign = None;
    for (start, letter) in word.char_indices() {
        let end = start + letter.len_utf8();
        used += font::text_width(word.get(start..end).unwrap_or_default(), size);
        if used > width && fitting > 0 {
            break;
        }
        fitting = end;
        if matches!(letter, '-' | '/' | '_' | '.' | ',' | ';' | ':' | '=' | '+') && end < word.len()
        {
            after_sign = Some(end);
        }
    }
    after_sign
        .filter(|&end| end * 2 > fitting)
        .unwrap_or(fitting)
}

/// Width of the widest word: no column needs to be narrower.
pub(super) fn widest_word(content: &str, size: f64) -> f64 {
    let words = pieces(content);
    words
        .map(|word| font::text_width(word, size))
        .fold(0.0, f64::max)
}

/// Width of the widest of the lines that the words themselves make.
pub(super) fn widest_line(content: &str, size: f64) -> f64 {
    content
        .lines()
        .map(|line| font::text_width(line, size))
        .fold(0.0, f64::max)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_line_is_too_wide_and_no_letter_is_lost() {
        let content = "Saw outside the line, then file down to it with the plate clamped low \
                       over its whole length; donaudampfschifffahrtsgesellschaftskapitänspatent \
                       and /a/long/path/of-many/pieces_and.others end here";
        for width in [3.0, 12.0, 30.0, 77.0, 500.0] {
            let lines = lines(content, 3.5, width);
            for line in &lines {
                let wide = font::text_width(line, 3.5);
                assert!(
                    wide <= width + 1e-9 || line.chars().count() == 1,
                    "{line:?} is {wide} mm for {width} mm"
                );
            }
            let letters = |text: &str| text.chars().filter(|c| *c != ' ').collect::<String>();
            assert_eq!(
                letters(&lines.concat()),
                letters(content),
                "letters at {width} mm"
            );
        }
    }

    #[test]
    fn lines_break_at_spaces_and_line_ends_only() {
        assert_eq!(
            lines("one two\nthree", 3.0, 100.0),
            ["one two", "three"],
            "line ends"
        );
        let narrow = font::text_width("one two", 3.0) - 0.01;
        assert_eq!(
            lines("one two", 3.0, narrow),
            ["one", "two"],
            "too narrow for both"
        );
        assert_eq!(
            lines("12\u{A0}mm wide", 3.0, font::text_width("12 mm", 3.0) + 0.1),
            ["12\u{A0}mm", "wide"],
            "a number keeps its unit"
        );
        assert_eq!(lines("", 3.0, 100.0), Vec::<String>::new(), "nothing");
    }

    #[test]
    fn long_words_break_after_their_signs() {
        let width = font::text_width("leeboard-nominal-", 3.0) + 1.0;
        assert_eq!(
            lines("leeboard-nominal-millimetres.dxf", 3.0, width),
            ["leeboard-nominal-", "millimetres.dxf"],
            "after the hyphen"
        );
    }
}
