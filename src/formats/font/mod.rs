//! The font of every drawing: bundled (`DejaVuSansCondensed.ttf`), so that words have the same width on
//! every machine.
//!
//! Sizes are those of [`Text`](crate::sheet::Text): the em in millimetres. Widths are sums of the
//! font's advances, without kerning, which is what the PDF and PNG writers draw.

mod outline;

use std::borrow::Cow;
use std::sync::LazyLock;

use ttf_parser::Face;

pub use outline::text_outline;
pub(super) use ttf_parser::GlyphId;

/// The font file.
pub(super) const FILE: &[u8] = include_bytes!("DejaVuSansCondensed.ttf");

/// Family names for formats that name a font instead of carrying it, best first.
pub const FAMILIES: &str =
    "'DejaVu Sans Condensed', 'DejaVu Sans', 'Liberation Sans Narrow', Arial, sans-serif";

/// What stands for a character that the font does not have.
pub const SUBSTITUTE: char = '\u{FFFD}';

#[expect(
    clippy::expect_used,
    reason = "the bundled file is a constant of this program, and a test reads it"
)]
static FACE: LazyLock<Face<'static>> =
    LazyLock::new(|| Face::parse(FILE, 0).expect("the bundled font can be read"));

/// Glyphs of the characters that are used most, because the font's own table is slow to search.
static COMMON: LazyLock<Vec<Option<GlyphId>>> = LazyLock::new(|| {
    let characters = '\0'..'\u{180}';
    characters.map(|c| face().glyph_index(c)).collect()
});

pub(super) fn face() -> &'static Face<'static> {
    &FACE
}

/// The glyph of a character, if the font has one.
fn glyph(c: char) -> Option<GlyphId> {
    let common = COMMON.get(usize::try_from(u32::from(c)).unwrap_or(usize::MAX));
    common.copied().unwrap_or_else(|| face().glyph_index(c))
}

/// The words as every writer shows them: control and invisible formatting characters become a space
/// (line ends and tabs) or nothing, and characters that the font does not have become
/// [`SUBSTITUTE`].
pub fn displayable(content: &str) -> Cow<'_, str> {
    let shown_as_is = |c: char| !is_filtered(c) && glyph(c).is_some();
    if content.chars().all(shown_as_is) {
        return Cow::Borrowed(content);
    }
    let shown = |c: char| match c {
        '\t' | '\n' | '\r' | '\u{2028}' | '\u{2029}' => Some(' '),
        c if is_filtered(c) => None,
        c if glyph(c).is_some() => Some(c),
        _ => Some(SUBSTITUTE),
    };
    Cow::Owned(content.chars().filter_map(shown).collect())
}

/// Characters that must not get into a file as they are: controls, and those that change the
/// direction or width of others unseen.
fn is_filtered(c: char) -> bool {
    c.is_control()
        || matches!(
            c,
            '\u{00AD}' | '\u{061C}' | '\u{FEFF}' | '\u{2028}' | '\u{2029}'
        )
        || matches!(c, '\u{200B}'..='\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2060}'..='\u{206F}')
}

/// The glyphs of the words, in order, with the character each stands for.
pub(super) fn glyphs(content: &str) -> Vec<(GlyphId, char)> {
    let drawn = |c| (glyph(c).unwrap_or(GlyphId(0)), c);
    displayable(content).chars().map(drawn).collect()
}

/// Advance of a glyph as a fraction of the size.
pub(super) fn advance(glyph: GlyphId) -> f64 {
    let units = face().glyph_hor_advance(glyph).unwrap_or(0);
    f64::from(units) / units_per_em()
}

/// Font units in one size.
pub(super) fn units_per_em() -> f64 {
    f64::from(face().units_per_em())
}

/// Width of a line of words in millimetres, set in `size` millimetres.
///
/// # Example
/// ```
/// use kerfwise::formats::font;
/// // a figure is 0.57 of the size wide, so that columns of figures line up
/// assert!((font::text_width("1234", 10.0) - 22.9).abs() < 0.1);
/// ```
pub fn text_width(content: &str, size: f64) -> f64 {
    let glyphs = glyphs(content);
    size * glyphs.iter().map(|&(glyph, _)| advance(glyph)).sum::<f64>()
}

/// Height of the tallest letters over the base line, in millimetres: how far apart lines of words
/// must stand at the top.
pub fn ascent(size: f64) -> f64 {
    size * f64::from(face().ascender()) / units_per_em()
}

/// Depth of the deepest letters under the base line, in millimetres, positive.
pub fn descent(size: f64) -> f64 {
    size * -f64::from(face().descender()) / units_per_em()
}

/// Height of a capital letter, in millimetres.
pub fn capital_height(size: f64) -> f64 {
    // the font says so in its OS/2 table; the fraction is that of its letter H
    let units = face()
        .capital_height()
        .map_or(0.729, |units| f64::from(units) / units_per_em());
    size * units
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn widths_are_those_of_the_font() {
        // fontTools 4.68.0, table hmtx of DejaVuSansCondensed 2.37; units of 1/2048
        for (content, units) in [("A", 1260.0), ("1", 1172.0), ("W", 1822.0), (" ", 585.0)] {
            let width = text_width(content, 2048.0);
            assert_eq!(width, units, "width of {content:?}");
        }
        assert_eq!(
            text_width("A1 W", 1.0),
            (1260.0 + 1172.0 + 585.0 + 1822.0) / 2048.0,
            "a line is the sum of its letters"
        );
    }

    #[test]
    fn capitals_are_0_73_high() {
        assert!(
            (capital_height(100.0) - 72.9).abs() < 0.1,
            "capitals are {} of 100",
            capital_height(100.0)
        );
        assert!(ascent(10.0) > capital_height(10.0), "room over capitals");
        assert!(descent(10.0) > 1.0, "room under the base line");
    }

    #[test]
    fn missing_and_control_characters_are_shown_or_dropped() {
        assert_eq!(
            displayable("12.5 mm ± 0.1 ⌀ ×"),
            "12.5 mm ± 0.1 ⌀ ×",
            "all there"
        );
        assert_eq!(displayable("a\u{0}b\u{202E}c\td"), "abc d", "controls");
        assert_eq!(
            displayable("漢x"),
            "\u{FFFD}x",
            "a character the font does not have"
        );
        assert!(glyph(SUBSTITUTE).is_some(), "the substitute can be drawn");
    }
}
