//! Words on paper: the room they take, and how they are broken and fitted.

use crate::formats::font;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::sheet::Anchor;
use crate::sheet::Text;

/// The room that words take, in millimetres of paper: as high as their capitals and tails. Words at
/// an angle other than whole quarter turns take the upright rectangle around them.
pub(crate) fn room(text: &Text) -> Rect {
    let width = font::text_width(&text.content, text.size);
    let from = match text.anchor {
        Anchor::Start => 0.0,
        Anchor::Middle => -width / 2.0,
        Anchor::End => -width,
    };
    let along = number::unit(text.angle);
    let up = number::left_normal(along);
    let corner = |x: f64, y: f64| text.at + along * x + up * y;
    let (top, bottom) = (font::capital_height(text.size), -0.22 * text.size);
    let first = Rect::from_points(corner(from, bottom), corner(from + width, top));
    first
        .union_pt(corner(from, top))
        .union_pt(corner(from + width, bottom))
}

/// Distance from one line of words to the next.
pub(crate) fn line_pitch(size: f64) -> f64 {
    1.4 * size
}

/// The words broken into lines no wider than `width`, between words only.
pub(crate) fn wrapped(content: &str, size: f64, width: f64) -> Vec<String> {
    let mut lines: Vec<String> = Vec::new();
    let mut line = String::new();
    for word in content.split_whitespace() {
        let longer = if line.is_empty() {
            word.to_owned()
        } else {
            format!("{line} {word}")
        };
        if !line.is_empty() && font::text_width(&longer, size) > width {
            lines.push(std::mem::replace(&mut line, word.to_owned()));
        } else {
            line = longer;
        }
    }
    if !line.is_empty() {
        lines.push(line);
    }
    lines
}

/// The words in the largest size up to `size` in which they are no wider than `width`; not smaller
/// than `least`, where they lose their end instead.
pub(crate) fn fitted(content: &str, size: f64, least: f64, width: f64) -> (String, f64) {
    let natural = font::text_width(content, size);
    if natural <= width {
        return (content.to_owned(), size);
    }
    let smaller = size * width / natural;
    if smaller >= least {
        return (content.to_owned(), smaller);
    }
    let mut shortened: Vec<char> = content.chars().collect();
    while shortened.pop().is_some() {
        let words: String = shortened.iter().chain(&['…']).collect();
        if font::text_width(&words, least) <= width {
            return (words, least);
        }
    }
    (String::new(), least)
}

/// Whether two rooms have a part in common.
pub(crate) fn overlap(a: Rect, b: Rect) -> bool {
    a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1
}

/// Whether a straight line runs through a room.
///
/// # Source
/// Clipping of a line by the four edges of a window, Liang and Barsky, ACM Transactions on Graphics
/// 3 (1984) 1-22.
pub(crate) fn line_meets(from: Point, to: Point, room: Rect) -> bool {
    let along: Vec2 = to - from;
    let (mut enters, mut leaves) = (0.0_f64, 1.0_f64);
    for (step, before) in [
        (-along.x, from.x - room.x0),
        (along.x, room.x1 - from.x),
        (-along.y, from.y - room.y0),
        (along.y, room.y1 - from.y),
    ] {
        if step == 0.0 {
            if before < 0.0 {
                return false;
            }
        } else if step < 0.0 {
            enters = enters.max(before / step);
        } else {
            leaves = leaves.min(before / step);
        }
    }
    enters <= leaves
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lines_meet_a_room_they_run_through() {
        let room = Rect::new(1.0, 1.0, 3.0, 2.0);
        for (from, to, meets) in [
            ((0.0, 0.0), (4.0, 3.0), true),
            ((0.0, 1.5), (0.9, 1.5), false),
            ((0.0, 3.0), (4.0, 3.0), false),
            ((2.0, 1.2), (2.0, 1.4), true),
            ((0.0, 2.0), (2.0, 5.0), false),
        ] {
            assert_eq!(
                line_meets(from.into(), to.into(), room),
                meets,
                "{from:?} to {to:?}"
            );
        }
    }

    #[test]
    fn words_are_broken_and_fitted_to_a_width() {
        let words = "leave the strip on until the blade is fitted to its slot";
        let lines = wrapped(words, 3.0, 30.0);
        assert!(lines.len() > 2, "several lines: {lines:?}");
        for line in &lines {
            assert!(font::text_width(line, 3.0) <= 30.0, "line {line:?}");
        }
        assert_eq!(lines.join(" "), words, "nothing is lost");
        let (kept, size) = fitted("thirteen letters", 3.0, 1.8, 18.0);
        assert!(size < 3.0 && kept == "thirteen letters", "{kept} {size}");
        let (cut, size) = fitted(words, 3.0, 1.8, 18.0);
        assert!(cut.ends_with('…') && size == 1.8, "{cut} {size}");
    }
}
