//! A picture as drawing operators, about its own centre.

use pdf_writer::Content;
use pdf_writer::Name;
use pdf_writer::Str;
use pdf_writer::types::LineJoinStyle;

use super::POINTS;
use super::letters::Letters;
use crate::formats::FormatError;
use crate::formats::curve;
use crate::formats::drawn;
use crate::geometry::Arc;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Segment;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::sheet::Fill;
use crate::sheet::Item;
use crate::sheet::Layer;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Shade;
use crate::sheet::Shape;
use crate::sheet::Stroke;
use crate::sheet::Text;

/// The name by which a picture's operators ask for the font.
pub(super) const FONT: Name<'static> = Name(b"F");

/// A picture as operators.
pub(super) struct Drawing {
    pub(super) operators: Vec<u8>,
    /// What it covers, in millimetres of the picture.
    pub(super) extent: Rect,
    /// The point of the picture that the operators count from.
    pub(super) centre: Point,
    /// The layers it uses, in order.
    pub(super) layers: Vec<Layer>,
    /// Whether it holds words.
    pub(super) has_words: bool,
}

/// The format's numbers have single precision.
#[expect(
    clippy::cast_possible_truncation,
    reason = "the one place where single precision is made; its callers see to it that it suffices"
)]
pub(super) fn single(value: f64) -> f32 {
    value as f32
}

/// The operators that draw the picture; `None` when it is empty.
pub(super) fn draw(
    picture: &Picture,
    letters: &mut Letters,
) -> Result<Option<Drawing>, FormatError> {
    drawn::check_numbers(picture)?;
    let Some(extent) = drawn::extent(picture) else {
        return Ok(None);
    };
    if extent.width().max(extent.height()) > tolerance::LARGEST_PDF_DRAWING {
        return Err(FormatError::DrawingTooLarge {
            width: extent.width(),
            height: extent.height(),
            largest: tolerance::LARGEST_PDF_DRAWING,
        });
    }
    let mut pencil = Pencil {
        content: Content::new(),
        centre: extent.center(),
        letters,
        layer: None,
        pen: None,
        fill: None,
        layers: Vec::new(),
        has_words: false,
    };
    pencil.content.set_line_join(LineJoinStyle::RoundJoin);
    for item in &picture.items {
        pencil.item(item);
    }
    if pencil.layer.is_some() {
        pencil.content.end_marked_content();
    }
    let mut layers = pencil.layers;
    layers.sort_unstable();
    Ok(Some(Drawing {
        operators: pencil.content.finish().into_vec(),
        extent,
        centre: extent.center(),
        layers,
        has_words: pencil.has_words,
    }))
}

/// Draws items, and remembers what is set already.
struct Pencil<'a> {
    content: Content,
    centre: Point,
    letters: &'a mut Letters,
    layer: Option<Layer>,
    pen: Option<Pen>,
    fill: Option<Shade>,
    layers: Vec<Layer>,
    has_words: bool,
}

impl Pencil<'_> {
    fn item(&mut self, item: &Item) {
        match item {
            Item::Stroke(stroke) => self.stroke(stroke),
            Item::Fill(fill) => self.fill(fill),
            Item::Text(text) => self.text(text),
        }
    }

    fn enter(&mut self, layer: Layer) {
        if self.layer == Some(layer) {
            return;
        }
        if self.layer.is_some() {
            self.content.end_marked_content();
        }
        self.content
            .begin_marked_content_with_properties(Name(b"OC"))
            .properties_named(Name(layer.name().as_bytes()));
        self.layer = Some(layer);
        if !self.layers.contains(&layer) {
            self.layers.push(layer);
        }
    }

    fn set_pen(&mut self, pen: Pen) {
        let old = self.pen.replace(pen);
        let unchanged = |same: fn(&Pen, &Pen) -> bool| old.is_some_and(|old| same(&old, &pen));
        let width = pen.width * POINTS;
        if !unchanged(|a, b| a.width == b.width) {
            self.content.set_line_width(single(width));
        }
        if !unchanged(|a, b| a.shade == b.shade) {
            self.content.set_stroke_gray(single(pen.shade.lightness()));
        }
        if !unchanged(|a, b| a.line_type == b.line_type && a.width == b.width) {
            let dashes = pen.line_type.dashes().iter();
            let lengths: Vec<f32> = dashes.map(|length| single(length * width)).collect();
            self.content.set_dash_pattern(lengths, 0.0);
        }
    }

    fn set_fill(&mut self, shade: Shade) {
        if self.fill.replace(shade) != Some(shade) {
            self.content.set_fill_gray(single(shade.lightness()));
        }
    }

    fn stroke(&mut self, stroke: &Stroke) {
        self.enter(stroke.layer);
        self.set_pen(stroke.pen);
        match &stroke.shape {
            Shape::Contour(contour) => {
                self.trace(contour.segments());
                self.content.close_path();
            }
            Shape::Path(path) => self.trace(path.segments()),
            Shape::Circle { centre, radius } => {
                self.trace([Segment::Arc(Arc::circle(*centre, *radius))].iter());
                self.content.close_path();
            }
            Shape::Spot(spot) => {
                for line in drawn::spot_cross(*spot) {
                    self.trace([Segment::Line(line)].iter());
                }
            }
        }
        self.content.stroke();
    }

    fn fill(&mut self, fill: &Fill) {
        self.enter(fill.layer);
        self.set_fill(fill.shade);
        self.trace(fill.contour.segments());
        self.content.close_path();
        self.content.fill_even_odd();
    }

    fn trace<'a>(&mut self, segments: impl Iterator<Item = &'a Segment>) {
        let mut is_first = true;
        for segment in segments {
            if is_first {
                let [x, y] = self.place(segment.start());
                self.content.move_to(x, y);
                is_first = false;
            }
            match segment {
                Segment::Line(line) => {
                    let [x, y] = self.place(line.end);
                    self.content.line_to(x, y);
                }
                Segment::Arc(arc) => {
                    for cubic in curve::cubics(arc) {
                        let [x1, y1] = self.place(cubic.first);
                        let [x2, y2] = self.place(cubic.second);
                        let [x3, y3] = self.place(cubic.end);
                        self.content.cubic_to(x1, y1, x2, y2, x3, y3);
                    }
                }
            }
        }
    }

    fn text(&mut self, text: &Text) {
        let bytes = self.letters.encode(&text.content);
        if bytes.is_empty() {
            return;
        }
        self.enter(text.layer);
        self.set_fill(Shade::Black);
        self.has_words = true;
        let along = number::unit(text.angle);
        let [x, y] = self.place(drawn::text_start(text));
        let [cosine, sine] = [single(along.x), single(along.y)];
        self.content
            .begin_text()
            .set_font(FONT, single(text.size * POINTS))
            .set_text_matrix([cosine, sine, -sine, cosine, x, y])
            .show(Str(&bytes))
            .end_text();
    }

    /// A point in points from the drawing's centre.
    fn place(&self, point: Point) -> [f32; 2] {
        let from_centre = (point - self.centre) * POINTS;
        [single(from_centre.x), single(from_centre.y)]
    }
}
