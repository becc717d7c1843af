//! Outlines of letters, for images.

use kurbo::BezPath;
use kurbo::Point;
use ttf_parser::OutlineBuilder;

use super::advance;
use super::face;
use super::glyphs;
use super::units_per_em;

/// The outline of a line of words set in `size` millimetres, starting at the origin, y up; filled
/// by the non-zero rule.
pub fn text_outline(content: &str, size: f64) -> BezPath {
    let mut outline = Outline {
        path: BezPath::new(),
        scale: size / units_per_em(),
        pen: 0.0,
    };
    for (glyph, _) in glyphs(content) {
        // a space has no outline: only the advance counts
        let _ = face().outline_glyph(glyph, &mut outline);
        outline.pen += advance(glyph) * size;
    }
    outline.path
}

struct Outline {
    path: BezPath,
    /// Millimetres a font unit.
    scale: f64,
    /// Where the letter starts.
    pen: f64,
}

impl Outline {
    fn point(&self, x: f32, y: f32) -> Point {
        Point::new(
            self.pen + f64::from(x) * self.scale,
            f64::from(y) * self.scale,
        )
    }
}

impl OutlineBuilder for Outline {
    fn move_to(&mut self, x: f32, y: f32) {
        self.path.move_to(self.point(x, y));
    }

    fn line_to(&mut self, x: f32, y: f32) {
        self.path.line_to(self.point(x, y));
    }

    fn quad_to(&mut self, x1: f32, y1: f32, x: f32, y: f32) {
        self.path.quad_to(self.point(x1, y1), self.point(x, y));
    }

    fn curve_to(&mut self, x1: f32, y1: f32, x2: f32, y2: f32, x: f32, y: f32) {
        let (first, second) = (self.point(x1, y1), self.point(x2, y2));
        self.path.curve_to(first, second, self.point(x, y));
    }

    fn close(&mut self) {
        self.path.close_path();
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use kurbo::Shape;

    #[test]
    fn the_outline_of_a_capital_is_as_high_as_the_font_says() {
        let bounds = text_outline("H", 100.0).bounding_box();
        assert!((bounds.y1 - 72.9).abs() < 0.1, "H is {} high", bounds.y1);
        assert!(
            bounds.y0.abs() < 1e-9,
            "H stands on the line: {}",
            bounds.y0
        );
    }

    #[test]
    fn letters_follow_one_another_by_their_advances() {
        let one = text_outline("HH", 10.0).bounding_box();
        let first = text_outline("H", 10.0).bounding_box();
        let step = super::super::text_width("H", 10.0);
        assert!(
            (one.x1 - first.x1 - step).abs() < 1e-9,
            "second letter at {} for {step}",
            one.x1 - first.x1
        );
    }
}
