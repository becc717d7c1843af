//! A display list: strokes of exact geometry on named layers, filled areas, and words.
//!
//! Everything in a picture is in millimetres of the medium it is for (paper, plate), y up. A drawing
//! to scale is scaled when it is built, so that pens and letters have their true size.

use crate::geometry::Contour;
use crate::geometry::Path;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Segment;
use crate::geometry::Vec2;

/// A display list, drawn in order.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Picture {
    /// What is drawn, first to last.
    pub items: Vec<Item>,
}

/// One thing in a picture.
#[derive(Clone, Debug, PartialEq)]
pub enum Item {
    /// A drawn line.
    Stroke(Stroke),
    /// A filled area.
    Fill(Fill),
    /// A line of words.
    Text(Text),
}

impl Item {
    /// The layer it lies on.
    pub const fn layer(&self) -> Layer {
        match self {
            Self::Stroke(stroke) => stroke.layer,
            Self::Fill(fill) => fill.layer,
            Self::Text(text) => text.layer,
        }
    }
}

/// A drawn line; its centre is the size.
#[derive(Clone, Debug, PartialEq)]
pub struct Stroke {
    /// The layer it lies on.
    pub layer: Layer,
    /// Its geometry.
    pub shape: Shape,
    /// How it is drawn, where the medium shows it.
    pub pen: Pen,
}

/// The geometry of a stroke.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A closed line.
    Contour(Contour),
    /// An open line.
    Path(Path),
    /// A whole circle, written as a circle where the format has one.
    Circle {
        /// Its centre.
        centre: Point,
        /// Its radius in millimetres.
        radius: f64,
    },
    /// A place to mark or drill: a point where the format has one, a small cross where not.
    Spot(Point),
}

/// A filled area.
#[derive(Clone, Debug, PartialEq)]
pub struct Fill {
    /// The layer it lies on.
    pub layer: Layer,
    /// Its edge.
    pub contour: Contour,
    /// How dark.
    pub shade: Shade,
}

/// A line of words.
#[derive(Clone, Debug, PartialEq)]
pub struct Text {
    /// The layer it lies on.
    pub layer: Layer,
    /// Where: on the base line, at the end that `anchor` names.
    pub at: Point,
    /// Font size in millimetres (a capital letter is about 0.73 of it).
    pub size: f64,
    /// Which end `at` is.
    pub anchor: Anchor,
    /// Direction of reading in radians, anticlockwise from the x axis.
    pub angle: f64,
    /// The words, one line.
    pub content: String,
}

/// Which end of a line of words stands at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// The words start there.
    Start,
    /// The words are centred there.
    Middle,
    /// The words end there.
    End,
}

/// What a line is for; the name of its layer in every format. Colour never carries meaning.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Layer {
    /// Outer contours to cut.
    Outside,
    /// Openings to cut.
    Inside,
    /// Lines and places to mark, not cut.
    Mark,
    /// Holes to drill.
    Drill,
    /// Words.
    Words,
    /// Dimensions and their lines, in drawings.
    Dimensions,
    /// Centre lines, in drawings.
    CentreLines,
    /// Lines to line sheets up by, scale bars, base lines, in patterns.
    Guides,
}

impl Layer {
    /// Every layer, in the order in which formats list them.
    pub const ALL: [Self; 8] = [
        Self::Outside,
        Self::Inside,
        Self::Mark,
        Self::Drill,
        Self::Words,
        Self::Dimensions,
        Self::CentreLines,
        Self::Guides,
    ];

    /// Its name in files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Outside => "outside",
            Self::Inside => "inside",
            Self::Mark => "mark",
            Self::Drill => "drill",
            Self::Words => "words",
            Self::Dimensions => "dimensions",
            Self::CentreLines => "centre-lines",
            Self::Guides => "guides",
        }
    }
}

/// How a line is drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pen {
    /// Width in millimetres.
    pub width: f64,
    /// Unbroken, dashed or a centre line.
    pub line_type: LineType,
    /// How dark.
    pub shade: Shade,
}

impl Pen {
    /// A continuous black line.
    pub const fn solid(width: f64) -> Self {
        Self {
            width,
            line_type: LineType::Continuous,
            shade: Shade::Black,
        }
    }

    /// The same pen with another line type.
    #[must_use]
    pub const fn line_type(self, line_type: LineType) -> Self {
        Self { line_type, ..self }
    }

    /// The same pen, lighter or darker.
    #[must_use]
    pub const fn shade(self, shade: Shade) -> Self {
        Self { shade, ..self }
    }
}

/// Line types, named as ISO 128 names them; in drawings only, never in a cut file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LineType {
    /// Continuous.
    Continuous,
    /// Dashed: hidden edges, the rough-cut line.
    Dashed,
    /// Long-dashed dotted: centre lines.
    LongDashedDotted,
    /// Dotted: reference lines of least weight.
    Dotted,
}

impl LineType {
    /// Lengths of dash, gap, dash, gap … in line widths (ISO 128-2, common practice: dash 12, long
    /// dash 24, gap 3, dot 0.5); empty for a continuous line.
    pub const fn dashes(self) -> &'static [f64] {
        match self {
            Self::Continuous => &[],
            Self::Dashed => &[12.0, 3.0],
            Self::LongDashedDotted => &[24.0, 3.0, 0.5, 3.0],
            Self::Dotted => &[0.5, 3.0],
        }
    }
}

/// How dark a line or an area is; always readable in black and white.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shade {
    /// Black.
    Black,
    /// Middle grey.
    Grey,
    /// Light grey, for areas under other things.
    Light,
    /// White, to clear a place.
    White,
}

impl Shade {
    /// Its lightness, 0 black to 1 white.
    pub const fn lightness(self) -> f64 {
        match self {
            Self::Black => 0.0,
            Self::Grey => 0.45,
            Self::Light => 0.85,
            Self::White => 1.0,
        }
    }
}

impl Picture {
    /// An empty picture.
    pub const fn new() -> Self {
        Self { items: Vec::new() }
    }

    /// Draws a closed line.
    pub fn contour(&mut self, layer: Layer, contour: Contour, pen: Pen) {
        let shape = match contour.as_circle() {
            Some((centre, radius)) => Shape::Circle { centre, radius },
            None => Shape::Contour(contour),
        };
        self.stroke(layer, shape, pen);
    }

    /// Draws an open line.
    pub fn path(&mut self, layer: Layer, path: Path, pen: Pen) {
        self.stroke(layer, Shape::Path(path), pen);
    }

    /// Draws a straight line, unless its ends are one point.
    pub fn line(&mut self, layer: Layer, from: Point, to: Point, pen: Pen) {
        let piece = crate::geometry::Piece::new(
            Segment::line(from, to),
            crate::geometry::SourceId::UNTRACED,
        );
        if let Ok(path) = Path::new(vec![piece]) {
            self.path(layer, path, pen);
        }
    }

    /// Draws a line of any shape.
    pub fn stroke(&mut self, layer: Layer, shape: Shape, pen: Pen) {
        self.items.push(Item::Stroke(Stroke { layer, shape, pen }));
    }

    /// Fills an area.
    pub fn fill(&mut self, layer: Layer, contour: Contour, shade: Shade) {
        self.items.push(Item::Fill(Fill {
            layer,
            contour,
            shade,
        }));
    }

    /// Writes a line of words.
    pub fn text(&mut self, text: Text) {
        self.items.push(Item::Text(text));
    }

    /// Draws another picture over this one.
    pub fn append(&mut self, other: Self) {
        self.items.extend(other.items);
    }

    /// The same picture shifted.
    #[must_use]
    pub fn shifted(mut self, by: Vec2) -> Self {
        let motion = crate::geometry::Motion::shift(by);
        for item in &mut self.items {
            match item {
                Item::Stroke(stroke) => match &mut stroke.shape {
                    Shape::Contour(contour) => *contour = motion.contour(contour),
                    Shape::Path(path) => *path = motion.path(path),
                    Shape::Circle { centre, .. } => *centre += by,
                    Shape::Spot(point) => *point += by,
                },
                Item::Fill(fill) => fill.contour = motion.contour(&fill.contour),
                Item::Text(text) => text.at += by,
            }
        }
        self
    }

    /// The smallest upright rectangle around the geometry drawn (words only by their place);
    /// `None` for an empty picture.
    pub fn bounds(&self) -> Option<Rect> {
        let of_item = |item: &Item| match item {
            Item::Stroke(stroke) => match &stroke.shape {
                Shape::Contour(contour) => contour.bounds(),
                Shape::Path(path) => path.bounds(),
                Shape::Circle { centre, radius } => {
                    Rect::from_center_size(*centre, (2.0 * radius, 2.0 * radius))
                }
                Shape::Spot(point) => Rect::from_points(*point, *point),
            },
            Item::Fill(fill) => fill.contour.bounds(),
            Item::Text(text) => Rect::from_points(text.at, text.at),
        };
        self.items.iter().map(of_item).reduce(|a, b| a.union(b))
    }
}
