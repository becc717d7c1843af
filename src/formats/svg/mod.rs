//! SVG: pictures at true size, in millimetres, arcs as arcs (in two or three where a reader could not
//! find the centre again: near half a turn and near a whole one).
//!
//! The coordinates are those of the picture with y turned down, so that the picture's origin keeps
//! its meaning. Layers are groups named as [`Layer::name`] says, in the order in which they first
//! appear. When something is filled, what comes later must stay on top: a layer that comes up again
//! then gets a further group, `words-2` and so on; all have the layer's name as their class.

mod path_data;

use svg::node::Comment;
use svg::node::Text as Words;
use svg::node::element::Circle;
use svg::node::element::Element;
use svg::node::element::Group;
use svg::node::element::Path as PathElement;
use svg::node::element::Title;

use super::FormatError;
use super::drawn;
use super::font;
use crate::geometry::Rect;
use crate::geometry::number;
use crate::sheet::Anchor;
use crate::sheet::Fill;
use crate::sheet::Item;
use crate::sheet::Layer;
use crate::sheet::LineType;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Shade;
use crate::sheet::Shape;
use crate::sheet::Stroke;
use crate::sheet::Text;
use path_data::millimetres;

/// What goes into the file beside the picture.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct SvgOptions {
    /// Title of the file.
    pub title: String,
    /// Comments at its head, one line each.
    pub comments: Vec<String>,
    /// Room around everything drawn, in millimetres.
    pub margin: f64,
    /// How lines are drawn.
    pub pens: Pens,
}

/// How lines are drawn.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub enum Pens {
    /// As the picture says.
    #[default]
    AsDrawn,
    /// All black, continuous and of one width in millimetres: a machine may take a dash for a cut.
    AllContinuous(f64),
}

/// The picture as an SVG file of its own size.
///
/// # Accuracy
/// Coordinates and radii within 5e-11 mm; circles and arcs stay circles and arcs.
///
/// # Errors
/// [`FormatError::NotUsable`] for a number that cannot be drawn, [`FormatError::NothingToDraw`] for
/// an empty picture.
///
/// # Example
/// ```
/// use kerfwise::formats::svg;
/// use kerfwise::geometry::{Contour, Point, SourceId};
/// use kerfwise::sheet::{Layer, Pen, Picture};
///
/// let mut picture = Picture::new();
/// let hole = Contour::circle(Point::new(5.0, 5.0), 4.0, SourceId::UNTRACED)?;
/// picture.contour(Layer::Inside, hole, Pen::solid(0.0625));
/// let file = svg::write(&picture, &svg::SvgOptions::default())?;
/// assert!(file.contains(r#"<circle cx="5" cy="-5" r="4""#));
/// assert!(file.contains(r#"width="8.0625mm""#));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn write(picture: &Picture, options: &SvgOptions) -> Result<String, FormatError> {
    drawn::check_numbers(picture)?;
    if options.margin != 0.0 {
        drawn::check_size("margin", options.margin)?;
    }
    if let Pens::AllContinuous(width) = options.pens {
        drawn::check_size("width of a line", width)?;
    }
    let extent = drawn::extent(picture).ok_or(FormatError::NothingToDraw)?;
    let window = extent.inflate(options.margin, options.margin);
    let mut file = document(window);
    if !options.title.is_empty() {
        file = file.add(Title::new(font::displayable(&options.title)));
    }
    for comment in &options.comments {
        file = file.add(Comment::new(harmless_comment(comment)));
    }
    for (id, layer, items) in groups(picture) {
        let mut group = Group::new().set("id", id).set("class", layer.name());
        for item in items {
            group = drawn_item(group, item, options.pens);
        }
        file = file.add(group);
    }
    Ok(format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n{file}\n"
    ))
}

fn document(window: Rect) -> svg::Document {
    let (width, height) = (millimetres(window.width()), millimetres(window.height()));
    let view = [
        millimetres(window.x0),
        millimetres(-window.y1),
        width.clone(),
        height.clone(),
    ];
    svg::Document::new()
        .set("width", format!("{width}mm"))
        .set("height", format!("{height}mm"))
        .set("viewBox", view.join(" "))
        .set("version", "1.1")
        .set("fill", "none")
        .set("stroke-linejoin", "round")
        .set("font-family", font::FAMILIES)
}

/// A comment must not hold two hyphens in a row, nor end in one.
fn harmless_comment(comment: &str) -> String {
    font::displayable(comment).replace('-', "\u{2010}")
}

/// The items in groups of one layer, each with the name of its group.
fn groups(picture: &Picture) -> Vec<(String, Layer, Vec<&Item>)> {
    let covers = picture
        .items
        .iter()
        .any(|item| matches!(item, Item::Fill(_)));
    let mut groups: Vec<(String, Layer, Vec<&Item>)> = Vec::new();
    let mut counts = [0_usize; Layer::ALL.len()];
    for item in &picture.items {
        let layer = layer_of(item);
        let last = groups.len().saturating_sub(1);
        let fits = |&(index, ref group): &(usize, &mut (String, Layer, Vec<&Item>))| {
            group.1 == layer && (!covers || index == last)
        };
        if let Some((_, group)) = groups.iter_mut().enumerate().find(fits) {
            group.2.push(item);
            continue;
        }
        let place = Layer::ALL.iter().position(|&other| other == layer);
        let count = place
            .and_then(|place| counts.get_mut(place))
            .map_or(1, |count| {
                *count += 1;
                *count
            });
        let id = match count {
            1 => layer.name().to_owned(),
            count => format!("{}-{count}", layer.name()),
        };
        groups.push((id, layer, vec![item]));
    }
    groups
}

fn layer_of(item: &Item) -> Layer {
    match item {
        Item::Stroke(stroke) => stroke.layer,
        Item::Fill(fill) => fill.layer,
        Item::Text(text) => text.layer,
    }
}

fn drawn_item(group: Group, item: &Item, pens: Pens) -> Group {
    match item {
        Item::Stroke(stroke) => drawn_stroke(group, stroke, pens),
        Item::Fill(fill) => group.add(drawn_fill(fill)),
        Item::Text(text) => group.add(drawn_text(text)),
    }
}

fn drawn_stroke(group: Group, stroke: &Stroke, pens: Pens) -> Group {
    let pen = match pens {
        Pens::AsDrawn => stroke.pen,
        Pens::AllContinuous(width) => Pen::solid(width),
    };
    match &stroke.shape {
        Shape::Contour(contour) => group.add(pen_path(&path_data::of_contour(contour), &pen)),
        Shape::Path(path) => group.add(pen_path(&path_data::of_path(path), &pen)),
        Shape::Circle { centre, radius } => {
            let circle = Circle::new()
                .set("cx", millimetres(centre.x))
                .set("cy", millimetres(-centre.y))
                .set("r", millimetres(*radius));
            group.add(with_pen(circle, &pen))
        }
        Shape::Spot(spot) => {
            let data: Vec<String> = drawn::spot_cross(*spot)
                .iter()
                .map(|line| {
                    let (from, to) = (line.start, line.end);
                    let [x0, y0] = [millimetres(from.x), millimetres(-from.y)];
                    let [x1, y1] = [millimetres(to.x), millimetres(-to.y)];
                    format!("M{x0} {y0}L{x1} {y1}")
                })
                .collect();
            group.add(pen_path(&data.concat(), &pen))
        }
    }
}

fn pen_path(data: &str, pen: &Pen) -> PathElement {
    with_pen(PathElement::new().set("d", data), pen)
}

fn with_pen<T: svg::Node>(mut element: T, pen: &Pen) -> T {
    element.assign("stroke", colour(pen.shade));
    element.assign("stroke-width", millimetres(pen.width));
    if pen.line_type != LineType::Continuous {
        let lengths = pen.line_type.dashes().iter();
        let lengths: Vec<String> = lengths
            .map(|length| millimetres(length * pen.width))
            .collect();
        element.assign("stroke-dasharray", lengths.join(" "));
    }
    element
}

fn drawn_fill(fill: &Fill) -> PathElement {
    PathElement::new()
        .set("d", path_data::of_contour(&fill.contour))
        .set("fill", colour(fill.shade))
        .set("fill-rule", "evenodd")
}

fn drawn_text(text: &Text) -> Element {
    let content = font::displayable(&text.content);
    let (x, y) = (millimetres(text.at.x), millimetres(-text.at.y));
    let mut element = Element::new("text");
    let mut set = |name: &str, value: String| svg::Node::assign(&mut element, name, value);
    if text.angle != 0.0 {
        // degrees, clockwise on the screen
        let degrees = millimetres(-text.angle * 180.0 / number::HALF_TURN);
        set("transform", format!("rotate({degrees} {x} {y})"));
    }
    let anchor = match text.anchor {
        Anchor::Start => "start",
        Anchor::Middle => "middle",
        Anchor::End => "end",
    };
    set("x", x);
    set("y", y);
    set("fill", colour(Shade::Black));
    set("font-size", millimetres(text.size));
    set("text-anchor", anchor.to_owned());
    // another font must not make the words run into their neighbours
    set(
        "textLength",
        millimetres(font::text_width(&content, text.size)),
    );
    set("lengthAdjust", "spacingAndGlyphs".to_owned());
    set("xml:space", "preserve".to_owned());
    svg::Node::append(&mut element, Words::new(content));
    element
}

fn colour(shade: Shade) -> String {
    match shade {
        Shade::Black => "black".to_owned(),
        Shade::White => "white".to_owned(),
        Shade::Grey | Shade::Light => {
            let level = crate::sheet::number::fixed(shade.lightness() * 255.0, 0);
            format!("rgb({level},{level},{level})")
        }
    }
}

#[cfg(test)]
mod tests;
