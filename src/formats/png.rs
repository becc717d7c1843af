//! PNG: pictures as images, for the screen and for looking at what other formats should show.

use kurbo::PathEl;
use tiny_skia::FillRule;
use tiny_skia::LineCap;
use tiny_skia::LineJoin;
use tiny_skia::Paint;
use tiny_skia::PathBuilder;
use tiny_skia::Pixmap;
use tiny_skia::StrokeDash;
use tiny_skia::Transform;

use super::FormatError;
use super::curve;
use super::drawn;
use super::font;
use crate::geometry::Arc;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::number;
use crate::sheet::Fill;
use crate::sheet::Item;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Shade;
use crate::sheet::Shape;
use crate::sheet::Stroke;
use crate::sheet::Text;

/// Room around everything drawn, in millimetres.
const MARGIN: f64 = 1.0;

/// The most dots that are written: 400 MB while it is drawn.
const MOST_DOTS: f64 = 100e6;

/// The picture as a PNG file on white, with a margin of 1 mm; the file says how many dots make a
/// metre, so that it prints at its size.
///
/// # Errors
/// [`FormatError::NotUsable`] for a number that cannot be drawn, [`FormatError::NothingToDraw`] for
/// an empty picture, [`FormatError::ImageTooLarge`] for more than 100 million dots.
///
/// # Example
/// ```
/// use kerfwise::formats::png;
/// use kerfwise::geometry::Point;
/// use kerfwise::sheet::{Layer, Pen, Picture};
///
/// let mut picture = Picture::new();
/// picture.line(Layer::Mark, Point::ORIGIN, Point::new(20.0, 10.0), Pen::solid(0.5));
/// let image = png::write(&picture, 4.0)?;
/// assert!(image.starts_with(b"\x89PNG"));
/// # Ok::<(), kerfwise::formats::FormatError>(())
/// ```
pub fn write(picture: &Picture, dots_per_millimetre: f64) -> Result<Vec<u8>, FormatError> {
    drawn::check_numbers(picture)?;
    drawn::check_size("number of dots a millimetre", dots_per_millimetre)?;
    let extent = drawn::extent(picture).ok_or(FormatError::NothingToDraw)?;
    let window = extent.inflate(MARGIN, MARGIN);
    let width = (window.width() * dots_per_millimetre).ceil();
    let height = (window.height() * dots_per_millimetre).ceil();
    if width * height > MOST_DOTS {
        return Err(FormatError::ImageTooLarge {
            width,
            height,
            most: MOST_DOTS,
        });
    }
    let failed = |reason: &str| FormatError::Image {
        reason: reason.to_owned(),
    };
    let pixmap = Pixmap::new(whole(width), whole(height));
    let mut canvas = Canvas {
        pixmap: pixmap.ok_or_else(|| failed("it has no dots"))?,
        corner: Point::new(window.x0, window.y1),
        scale: dots_per_millimetre,
    };
    canvas.pixmap.fill(tiny_skia::Color::WHITE);
    for item in &picture.items {
        match item {
            Item::Stroke(stroke) => canvas.stroke(stroke),
            Item::Fill(fill) => canvas.fill(fill),
            Item::Text(text) => canvas.text(text),
        }
    }
    let image = canvas
        .pixmap
        .encode_png()
        .map_err(|error| failed(&error.to_string()))?;
    Ok(with_dots_per_metre(
        image,
        whole(dots_per_millimetre * 1000.0),
    ))
}

struct Canvas {
    pixmap: Pixmap,
    /// The point of the picture at the upper left of the image.
    corner: Point,
    scale: f64,
}

impl Canvas {
    fn stroke(&mut self, stroke: &Stroke) {
        let mut builder = PathBuilder::new();
        match &stroke.shape {
            Shape::Contour(contour) => {
                self.trace(&mut builder, contour.segments());
                builder.close();
            }
            Shape::Path(path) => self.trace(&mut builder, path.segments()),
            Shape::Circle { centre, radius } => {
                let circle = Segment::Arc(Arc::circle(*centre, *radius));
                self.trace(&mut builder, [circle].iter());
                builder.close();
            }
            Shape::Spot(spot) => {
                for line in drawn::spot_cross(*spot) {
                    self.trace(&mut builder, [Segment::Line(line)].iter());
                }
            }
        }
        // no path comes of lines without length: there is nothing to see then
        if let Some(path) = builder.finish() {
            let outline = self.pen(&stroke.pen);
            let paint = paint(stroke.pen.shade);
            self.pixmap
                .stroke_path(&path, &paint, &outline, Transform::identity(), None);
        }
    }

    fn pen(&self, pen: &Pen) -> tiny_skia::Stroke {
        let width = pen.width * self.scale;
        let dashes = pen.line_type.dashes().iter();
        let lengths: Vec<f32> = dashes.map(|length| single(length * width)).collect();
        tiny_skia::Stroke {
            width: single(width),
            line_cap: LineCap::Butt,
            line_join: LineJoin::Round,
            dash: StrokeDash::new(lengths, 0.0),
            ..tiny_skia::Stroke::default()
        }
    }

    fn fill(&mut self, fill: &Fill) {
        let mut builder = PathBuilder::new();
        self.trace(&mut builder, fill.contour.segments());
        builder.close();
        self.fill_path(builder, fill.shade, FillRule::EvenOdd);
    }

    fn fill_path(&mut self, builder: PathBuilder, shade: Shade, rule: FillRule) {
        if let Some(path) = builder.finish() {
            let paint = paint(shade);
            self.pixmap
                .fill_path(&path, &paint, rule, Transform::identity(), None);
        }
    }

    fn text(&mut self, text: &Text) {
        let start = drawn::text_start(text);
        let place = |at: Point| {
            let turned = number::rotated(at.to_vec2(), text.angle);
            self.place(start + turned)
        };
        let mut builder = PathBuilder::new();
        for element in font::text_outline(&text.content, text.size) {
            match element {
                PathEl::MoveTo(to) => {
                    let [x, y] = place(to);
                    builder.move_to(x, y);
                }
                PathEl::LineTo(to) => {
                    let [x, y] = place(to);
                    builder.line_to(x, y);
                }
                PathEl::QuadTo(control, to) => {
                    let ([x1, y1], [x, y]) = (place(control), place(to));
                    builder.quad_to(x1, y1, x, y);
                }
                PathEl::CurveTo(first, second, to) => {
                    let ([x1, y1], [x2, y2]) = (place(first), place(second));
                    let [x, y] = place(to);
                    builder.cubic_to(x1, y1, x2, y2, x, y);
                }
                PathEl::ClosePath => builder.close(),
            }
        }
        self.fill_path(builder, Shade::Black, FillRule::Winding);
    }

    fn trace<'a>(&self, builder: &mut PathBuilder, segments: impl Iterator<Item = &'a Segment>) {
        let mut is_first = true;
        for segment in segments {
            if is_first {
                let [x, y] = self.place(segment.start());
                builder.move_to(x, y);
                is_first = false;
            }
            match segment {
                Segment::Line(line) => {
                    let [x, y] = self.place(line.end);
                    builder.line_to(x, y);
                }
                Segment::Arc(arc) => {
                    for cubic in curve::cubics(arc) {
                        let [x1, y1] = self.place(cubic.first);
                        let [x2, y2] = self.place(cubic.second);
                        let [x3, y3] = self.place(cubic.end);
                        builder.cubic_to(x1, y1, x2, y2, x3, y3);
                    }
                }
            }
        }
    }

    /// A point in dots from the upper left.
    fn place(&self, point: Point) -> [f32; 2] {
        let x = (point.x - self.corner.x) * self.scale;
        let y = (self.corner.y - point.y) * self.scale;
        [single(x), single(y)]
    }
}

fn paint(shade: Shade) -> Paint<'static> {
    let level = whole(shade.lightness() * 255.0);
    let level = u8::try_from(level).unwrap_or(u8::MAX);
    let mut paint = Paint::default();
    paint.set_color_rgba8(level, level, level, u8::MAX);
    paint.anti_alias = true;
    paint
}

/// Adds how many dots make a metre, and what wrote the file: the chunks `pHYs` and `tEXt`, before the
/// image data (PNG, 3rd ed., 11.3.4.3 and 11.3.3.3).
fn with_dots_per_metre(mut image: Vec<u8>, dots: u32) -> Vec<u8> {
    // eight bytes of signature, then the header chunk of 13 bytes with length, name and check
    const AFTER_HEADER: usize = 8 + 4 + 4 + 13 + 4;
    let mut size = dots.to_be_bytes().to_vec();
    size.extend(dots.to_be_bytes());
    size.push(1); // the unit is the metre
    let mut chunks = chunk(*b"pHYs", &size);
    chunks.extend(chunk(*b"tEXt", b"Software\0kerfwise"));
    if image.len() >= AFTER_HEADER {
        image.splice(AFTER_HEADER..AFTER_HEADER, chunks);
    }
    image
}

/// A chunk with its length and check (PNG, 3rd ed., 5.3); `data` is short.
fn chunk(kind: [u8; 4], data: &[u8]) -> Vec<u8> {
    let mut body = kind.to_vec();
    body.extend(data);
    let length = u32::try_from(data.len()).unwrap_or(0);
    let mut chunk = length.to_be_bytes().to_vec();
    chunk.extend(&body);
    chunk.extend(check_sum(&body).to_be_bytes());
    chunk
}

/// The check of a chunk, CRC-32 (PNG, 3rd ed., annex D).
fn check_sum(bytes: &[u8]) -> u32 {
    let step = |sum: u32, byte: &u8| {
        (0..8).fold(sum ^ u32::from(*byte), |sum, _| {
            if sum & 1 == 1 {
                (sum >> 1) ^ 0xEDB8_8320
            } else {
                sum >> 1
            }
        })
    };
    !bytes.iter().fold(u32::MAX, step)
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "a dot is far larger than the error of single precision"
)]
fn single(value: f64) -> f32 {
    value as f32
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "checked to be positive and within the limit on dots"
)]
fn whole(value: f64) -> u32 {
    value.round() as u32
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::Contour;
    use crate::geometry::SourceId;
    use crate::sheet::Anchor;
    use crate::sheet::Layer;
    use crate::sheet::LineType;

    fn drawn(picture: &Picture, dots: f64) -> Pixmap {
        Pixmap::decode_png(&write(picture, dots).unwrap()).unwrap()
    }

    fn level(image: &Pixmap, x: u32, y: u32) -> u8 {
        image.pixel(x, y).unwrap().red()
    }

    fn dark_share(image: &Pixmap) -> f64 {
        let sum: f64 = image
            .pixels()
            .iter()
            .map(|dot| 1.0 - f64::from(dot.red()) / 255.0)
            .sum();
        sum / f64::from(image.width() * image.height())
    }

    #[test]
    fn a_disc_covers_its_area_and_stands_in_its_place() {
        let mut picture = Picture::new();
        let disc = Contour::circle(Point::new(30.0, 20.0), 10.0, SourceId::UNTRACED).unwrap();
        picture.fill(Layer::Mark, disc, Shade::Black);
        let image = drawn(&picture, 10.0);
        assert_eq!((image.width(), image.height()), (220, 220), "dots");
        let area = dark_share(&image) * 22.0 * 22.0;
        // πr²
        assert!((area - 314.159).abs() < 0.3, "area of the disc: {area} mm²");
        assert_eq!(level(&image, 110, 110), 0, "its middle");
        assert_eq!(level(&image, 2, 2), 255, "the corner is white");
    }

    #[test]
    fn up_is_up_and_lines_have_their_width() {
        let mut picture = Picture::new();
        picture.line(
            Layer::Mark,
            Point::new(0.0, 0.0),
            Point::new(20.0, 0.0),
            Pen::solid(1.0),
        );
        let tick = Pen::solid(2.0).shade(Shade::Grey);
        picture.line(
            Layer::Mark,
            Point::new(1.0, 0.0),
            Point::new(1.0, 9.0),
            tick,
        );
        let image = drawn(&picture, 10.0);
        assert_eq!(
            level(&image, image.width() - 20, image.height() - 20),
            0,
            "the line is low"
        );
        let tick = level(&image, 25, 40);
        assert!(
            (i32::from(tick) - 115).abs() <= 1,
            "0.45 of white is {tick}"
        );
        let column = (0..image.height())
            .filter(|&y| level(&image, 150, y) < 128)
            .count();
        assert_eq!(column, 10, "dots across a line of 1 mm");
    }

    #[test]
    fn dashes_leave_gaps_in_their_proportion() {
        let mut picture = Picture::new();
        let pen = Pen::solid(1.0).line_type(LineType::Dashed);
        picture.line(Layer::Mark, Point::ORIGIN, Point::new(150.0, 0.0), pen);
        let image = drawn(&picture, 5.0);
        let row = image.height() / 2;
        let dark = (0..image.width())
            .filter(|&x| level(&image, x, row) < 128)
            .count();
        // ISO 128-2: dash 12 d, gap 3 d, so that 120 of the 150 mm are drawn
        assert!(dark.abs_diff(600) <= 10, "{dark} dark dots of 750");
    }

    #[test]
    fn words_are_as_wide_as_the_metrics_say() {
        let mut picture = Picture::new();
        picture.text(Text {
            layer: Layer::Words,
            at: Point::new(3.0, 4.0),
            size: 10.0,
            anchor: Anchor::Middle,
            angle: number::QUARTER_TURN,
            content: "HHHHHHHH".to_owned(),
        });
        let image = drawn(&picture, 10.0);
        let is_dark = |y| (0..image.width()).any(|x| level(&image, x, y) < 128);
        let rows: Vec<u32> = (0..image.height()).filter(|&y| is_dark(y)).collect();
        let (first, last) = (f64::from(rows[0]), f64::from(rows[rows.len() - 1]));
        let width = font::text_width("HHHHHHHH", 10.0);
        // the letter H leaves 180 of 2048 free on either side (fontTools 4.68.0, hmtx)
        let expected = width - 2.0 * 10.0 * 180.0 / 2048.0;
        let found = (last - first + 1.0) / 10.0;
        assert!(
            (found - expected).abs() < 0.2,
            "{found} mm for {expected} mm"
        );
    }

    #[test]
    fn the_file_says_how_large_a_dot_is() {
        let mut picture = Picture::new();
        picture.line(
            Layer::Mark,
            Point::ORIGIN,
            Point::new(5.0, 0.0),
            Pen::solid(1.0),
        );
        let image = write(&picture, 10.0).unwrap();
        let expected = b"\0\0\0\x09pHYs\0\0\x27\x10\0\0\x27\x10\x01";
        assert_eq!(&image[33..33 + 17], expected, "10 000 dots a metre");
        // CRC-32 check value of "123456789" (the usual one for this polynomial)
        assert_eq!(check_sum(b"123456789"), 0xCBF4_3926, "check sum");
    }

    #[test]
    fn too_many_dots_and_nothing_are_refused() {
        let mut picture = Picture::new();
        picture.line(
            Layer::Mark,
            Point::ORIGIN,
            Point::new(2000.0, 2000.0),
            Pen::solid(1.0),
        );
        let found = write(&picture, 10.0);
        assert!(
            matches!(found, Err(FormatError::ImageTooLarge { .. })),
            "{found:?}"
        );
        for dots in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            let found = write(&picture, dots);
            assert!(
                matches!(found, Err(FormatError::NotUsable { .. })),
                "{dots}: {found:?}"
            );
        }
        assert_eq!(
            write(&Picture::new(), 10.0),
            Err(FormatError::NothingToDraw),
            "empty"
        );
    }
}
