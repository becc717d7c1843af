//! The cut file, and the order sheet that goes with it. There are two kinds, and each says which it is, in
//! its name, in its head and on its order sheet:
//!
//! - A *nominal* file holds the finished size: the whole closed outline, whatever the state of its edges,
//!   and the openings, with no allowance for the kerf. The shop compensates.
//! - A *tool path* holds the way of the middle of the cut, compensated already, for one's own machine or by
//!   written agreement with the shop. Each cut is one open line from its pierce to its end, lead in, edge,
//!   overlap and lead out together, on the layer `outside` or `inside`; the lines stand in the order in
//!   which they are cut, and every opening before the outside.
//!
//! Holes to drill are only marked at their centres, so that no machine cuts them.

mod cutting;
mod facts;
mod order;
mod path_drawing;
mod rows;
#[cfg(test)]
mod tests;
mod together;
mod together_order;

use super::DocumentError;
use super::Stamp;
use super::features;
use super::pattern::Face;
use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::geometry::LengthUnit;
use crate::geometry::Motion;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::sheet::Anchor;
use crate::sheet::Document;
use crate::sheet::Layer;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Shape;
use crate::sheet::Text;
use crate::shop::tool_path::Side;

pub use cutting::Cutting;
pub use facts::tool_path_said;
pub use path_drawing::PathDrawing;
pub use together::Together;
pub use together::TogetherError;
pub use together::TogetherOptions;
pub use together::by_plate;

/// Width of every line of a cut file, in millimetres; machines follow the middle of it.
const WIDTH: f64 = 0.25;

/// Size of the letters of the words in a file, in millimetres.
const LETTERS: f64 = 5.0;

/// A cut file in the making.
#[derive(Clone, Copy, Debug)]
pub struct CutFile<'a> {
    /// The part.
    pub part: &'a Part,
    /// The design, and the unit of the file.
    pub stamp: &'a Stamp,
    /// Which face the file shows.
    pub face: Face,
    /// Whether the facts stand in the file as words, on a layer of their own. They may get cut.
    pub with_words: bool,
    /// The tool path; none for the finished size.
    pub cutting: Option<&'a Cutting>,
}

impl<'a> CutFile<'a> {
    /// The finished size as drawn, without words.
    pub const fn nominal(part: &'a Part, stamp: &'a Stamp) -> Self {
        Self {
            part,
            stamp,
            face: Face::AsDrawn,
            with_words: false,
            cutting: None,
        }
    }

    /// What the file holds. Nominal: the whole outline on [`Layer::Outside`], openings on
    /// [`Layer::Inside`]. Tool path: the cuts in their order on these layers. Both: centres of holes to
    /// drill as spots on [`Layer::Drill`], scribe lines and marks on [`Layer::Mark`]. All lines are
    /// continuous.
    ///
    /// # Units
    /// Millimetres of the plate, y up; mirrored left to right about its own middle for the other face.
    ///
    /// # Accuracy
    /// The geometry of the part itself, unchanged; a tool path as
    /// [`shop::tool_path`](crate::shop::tool_path).
    pub fn picture(&self) -> Picture {
        let mut picture = self.placed(&Motion::IDENTITY, WIDTH);
        if self.with_words {
            write_words(&mut picture, self.comments());
        }
        picture
    }

    /// The picture moved, turned or drawn to scale.
    fn placed(&self, motion: &Motion, width: f64) -> Picture {
        let motion = self.shown_face().then(motion);
        match self.cutting {
            None => nominal(self.part, &motion, width),
            Some(cutting) => tool_path(self.part, cutting, &motion, width),
        }
    }

    /// The part as it lies in the file.
    fn shown_face(&self) -> Motion {
        shown_face(self.part, self.face)
    }

    /// The name of the file, without its ending: part, kind, unit, size and thickness, material, how many,
    /// good face, whether mirrored, as far as they are known; so that a file taken for another can be told
    /// by its name.
    ///
    /// # Example
    /// `leeboard-nominal-mm-301x974x5.09-steel-galvanised-1-off-good-face-up`
    pub fn file_stem(&self) -> String {
        let name = file_word(&self.part.name).unwrap_or_else(|| "part".to_owned());
        self.stem_of(&name, self.part.region.bounds(), self.part.quantity)
    }

    /// The same for these names, of this size, and so many pieces.
    fn stem_of(&self, names: &str, bounds: Rect, pieces: u32) -> String {
        let unit = self.stamp.unit;
        let decimals = usize::from(unit != LengthUnit::Millimetre) * 2;
        let side = |value: f64| crate::sheet::number::trimmed(value / unit.millimetres(), decimals);
        let plate = self.part.plate.as_ref();
        let thickness = plate
            .and_then(|plate| plate.thickness)
            .map(|thickness| format!("x{}", features::length(thickness, unit)));
        let mut words = vec![names.to_owned()];
        words.push(match self.cutting {
            None => "nominal".to_owned(),
            Some(cutting) => format!("tool-path-{}", cutting.key),
        });
        words.push(unit.symbol().to_owned());
        words.push(format!(
            "{}x{}{}",
            side(bounds.width()),
            side(bounds.height()),
            thickness.unwrap_or_default()
        ));
        words.extend(plate.and_then(|plate| file_word(&plate.material.to_lowercase())));
        words.push(format!("{pieces}-off"));
        let face = plate.and_then(|plate| plate.good_face.as_deref());
        let up =
            match (face, self.face) {
                (Some("up, as drawn"), Face::AsDrawn)
                | (Some("down, as drawn"), Face::Mirrored) => Some("good-face-up"),
                (Some("down, as drawn"), Face::AsDrawn)
                | (Some("up, as drawn"), Face::Mirrored) => Some("good-face-down"),
                _ => None,
            };
        words.extend(up.map(str::to_owned));
        if self.face == Face::Mirrored {
            words.push("mirrored".to_owned());
        }
        words.join("-")
    }

    /// One page for the shop, which goes with the file of the name `file`: facts, a small picture, which edges are the plate's own, holes to drill, who
    /// compensates the kerf, what to check on arrival.
    ///
    /// # Errors
    /// [`DocumentError::Draft`] while a dimension is still to be measured.
    pub fn order_sheet(&self, file: &str) -> Result<Document, DocumentError> {
        order::order_sheet(self, file)
    }

    /// What stands at the head of the file, one line each: what the file is, who compensates the kerf,
    /// unit, overall size, material, thickness, quantity, face, drilled holes and the design it was made
    /// from.
    pub fn comments(&self) -> Vec<String> {
        let stamp = self.stamp;
        let mut lines = vec![format!("{}: {}", stamp.design, self.part.name)];
        lines.extend(
            facts::facts(self)
                .into_iter()
                .filter(|fact| !fact.value.is_empty())
                .map(|fact| fact.said()),
        );
        lines.push(format!("fingerprint: {}", stamp.fingerprint));
        lines.push(stamp.line());
        lines
    }
}

/// A part as its face lies in the file.
fn shown_face(part: &Part, face: Face) -> Motion {
    match face {
        Face::AsDrawn => Motion::IDENTITY,
        Face::Mirrored => {
            let middle = part.region.bounds().center();
            Motion::mirror_in(middle, Vec2::new(0.0, 1.0))
        }
    }
}

/// Lines of words below everything else.
fn write_words(picture: &mut Picture, lines: Vec<String>) {
    let Some(bounds) = picture.bounds() else {
        return;
    };
    let mut at = Point::new(bounds.x0, bounds.y0 - 2.0 * LETTERS);
    for line in lines {
        picture.text(Text {
            layer: Layer::Words,
            at,
            size: LETTERS,
            anchor: Anchor::Start,
            angle: 0.0,
            content: line,
        });
        at.y -= super::lettering::line_pitch(LETTERS);
    }
}

/// The finished size.
fn nominal(part: &Part, motion: &Motion, width: f64) -> Picture {
    let pen = Pen::solid(width);
    let mut picture = Picture::new();
    picture.contour(Layer::Outside, motion.contour(part.region.outer()), pen);
    for (index, hole) in part.region.holes().iter().enumerate() {
        let opening = part.openings.iter().find(|opening| opening.hole == index);
        match opening.map(|opening| (opening.shape, features::is_drilled(opening))) {
            Some((OpeningShape::Circle { centre, .. }, true)) => {
                picture.stroke(Layer::Drill, Shape::Spot(motion.point(centre)), pen);
            }
            _ => picture.contour(Layer::Inside, motion.contour(hole), pen),
        }
    }
    for path in part.scribes.iter().flat_map(|scribe| &scribe.paths) {
        picture.path(Layer::Mark, motion.path(path), pen);
    }
    for mark in &part.marks {
        picture.stroke(Layer::Mark, Shape::Spot(motion.point(mark.at)), pen);
    }
    picture
}

/// Marks, centres to drill, and cuts, in the order of the work.
fn tool_path(part: &Part, cutting: &Cutting, motion: &Motion, width: f64) -> Picture {
    let mut picture = Picture::new();
    let marks: Vec<Point> = part.marks.iter().map(|mark| mark.at).collect();
    draw_path(&mut picture, cutting, &marks, motion, width);
    picture
}

/// The same with these places to mark.
fn draw_path(
    picture: &mut Picture,
    cutting: &Cutting,
    marks: &[Point],
    motion: &Motion,
    width: f64,
) {
    let pen = Pen::solid(width);
    for path in &cutting.path.marks {
        picture.path(Layer::Mark, motion.path(path), pen);
    }
    for mark in marks {
        picture.stroke(Layer::Mark, Shape::Spot(motion.point(*mark)), pen);
    }
    for hole in &cutting.path.drilled {
        picture.stroke(Layer::Drill, Shape::Spot(motion.point(hole.centre)), pen);
    }
    for (cut, line) in cutting.path.cuts.iter().zip(&cutting.lines) {
        let layer = match cut.side {
            Side::Outside => Layer::Outside,
            Side::Opening(_) => Layer::Inside,
        };
        picture.path(layer, motion.path(line), pen);
    }
}

/// Words as part of a file name: letters and digits, joined by hyphens; `None` if there are none.
fn file_word(words: &str) -> Option<String> {
    let plain = |c: char| {
        if c.is_alphanumeric() || c == '_' {
            c
        } else {
            '-'
        }
    };
    let name: String = words.chars().map(plain).collect();
    let words: Vec<&str> = name.split('-').filter(|word| !word.is_empty()).collect();
    (!words.is_empty()).then(|| words.join("-"))
}
