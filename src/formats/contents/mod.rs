//! What a written file holds, read back from its own bytes, and whether that is what it was to hold.
//!
//! Before a file is put in place, its bytes are read again and held against the picture they were
//! written from: a part is cut from the file, not from the numbers in memory.

mod difference;

use super::FormatError;
use crate::geometry::Contour;
use crate::geometry::Path;
use crate::geometry::Point;
use crate::sheet::Item;
use crate::sheet::Picture;
use crate::sheet::Shade;
use crate::sheet::Shape;
use difference::Difference;

/// Which kind of file was read.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FileFormat {
    /// DXF of any edition.
    Dxf,
    /// SVG.
    Svg,
}

impl FileFormat {
    /// Its name.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Dxf => "DXF",
            Self::Svg => "SVG",
        }
    }
}

/// What a file holds, by layer, in millimetres, y up.
#[derive(Clone, Debug, PartialEq)]
pub struct Contents {
    /// Which kind of file it was.
    pub format: FileFormat,
    /// Its layers that hold something, in the order of their first appearance.
    pub layers: Vec<LayerContents>,
}

/// What a file holds on one layer, in the order of the file.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LayerContents {
    /// Name of the layer.
    pub name: String,
    /// Closed lines that are no whole circles.
    pub contours: Vec<Contour>,
    /// Open lines.
    pub paths: Vec<Path>,
    /// Whole circles: centre and radius.
    pub circles: Vec<(Point, f64)>,
    /// Places to mark or drill.
    pub spots: Vec<Point>,
    /// How many lines of words there are.
    pub words: usize,
    /// How many things there are that this tool never writes.
    pub foreign: usize,
}

impl LayerContents {
    /// Adds a shape; whole circles are taken as such, however they are drawn.
    pub fn add(&mut self, shape: Shape) {
        match shape {
            Shape::Contour(contour) => match contour.as_circle() {
                Some(circle) => self.circles.push(circle),
                None => self.contours.push(contour),
            },
            Shape::Path(path) => match circle_of_path(&path) {
                Some(circle) => self.circles.push(circle),
                None => self.paths.push(path),
            },
            Shape::Circle { centre, radius } => self.circles.push((centre, radius)),
            Shape::Spot(spot) => self.spots.push(spot),
        }
    }
}

/// An open line that is one whole circle.
fn circle_of_path(path: &Path) -> Option<(Point, f64)> {
    match path.pieces() {
        [piece] => match piece.segment {
            crate::geometry::Segment::Arc(arc) if arc.is_circle() => {
                Some((arc.centre(), arc.radius()))
            }
            _ => None,
        },
        _ => None,
    }
}

impl Contents {
    /// Nothing.
    pub const fn new(format: FileFormat) -> Self {
        Self {
            format,
            layers: Vec::new(),
        }
    }

    /// What a file of this picture should hold.
    pub fn of_picture(picture: &Picture, format: FileFormat) -> Self {
        let mut contents = Self::new(format);
        for item in &picture.items {
            let layer = || item.layer().name();
            match item {
                Item::Stroke(stroke) => contents.layer(layer()).add(stroke.shape.clone()),
                Item::Fill(fill) if fill.shade == Shade::White && format == FileFormat::Dxf => {}
                Item::Fill(fill) => contents
                    .layer(layer())
                    .add(Shape::Contour(fill.contour.clone())),
                Item::Text(_) => contents.layer(layer()).words += 1,
            }
        }
        contents
    }

    /// The layer of that name, if anything lies on it.
    pub fn find(&self, name: &str) -> Option<&LayerContents> {
        self.layers.iter().find(|layer| layer.name == name)
    }

    /// The layer of that name, made if there is none.
    pub fn layer(&mut self, name: &str) -> &mut LayerContents {
        let known = self.layers.iter().position(|layer| layer.name == name);
        let place = known.unwrap_or_else(|| {
            self.layers.push(LayerContents {
                name: name.to_owned(),
                ..LayerContents::default()
            });
            self.layers.len() - 1
        });
        &mut self.layers[place]
    }
}

/// Whether what was read back is the picture: on each layer the same closed lines, open lines, circles,
/// spots and words in the same order, with the same areas, lengths and corners, every line within
/// [`READ_BACK`](crate::geometry::tolerance::READ_BACK) of its own.
///
/// # Errors
/// [`FormatError::Differs`], for the first difference found.
pub fn compare(picture: &Picture, found: &Contents) -> Result<(), FormatError> {
    let expected = Contents::of_picture(picture, found.format);
    let nothing = LayerContents::default();
    let names = expected.layers.iter().chain(&found.layers);
    for name in names.map(|layer| layer.name.as_str()) {
        let should = expected.find(name).unwrap_or(&nothing);
        let is = found.find(name).unwrap_or(&nothing);
        if let Err(difference) = difference::between_layers(should, is) {
            let Difference {
                what,
                expected,
                found: value,
            } = difference;
            return Err(FormatError::Differs {
                format: found.format.name(),
                layer: name.to_owned(),
                what,
                expected,
                found: value,
            });
        }
    }
    Ok(())
}
