//! Several parts of one plate in one cut file.

use super::CutFile;
use super::Cutting;
use super::PathDrawing;
use super::file_word;
use super::path_drawing;
use super::path_drawing::Shown;
use super::rows::Rows;
use super::rows::rows;
use super::together_order;
use crate::checks::SheetSize;
use crate::design::part::EdgeState;
use crate::design::part::Part;
use crate::documents::DocumentError;
use crate::documents::Stamp;
use crate::documents::pattern::Face;
use crate::geometry::Motion;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Region;
use crate::sheet::Document;
use crate::sheet::Picture;
use crate::shop::tool_path::Placed;
use crate::shop::tool_path::Setting;
use crate::shop::tool_path::ToolPathError;
use crate::shop::tool_path::left_by;
use crate::shop::tool_path::tool_path_together;

/// How far parts lie apart at least, in millimetres, unless the user says otherwise: common practice for plate
/// of some millimetres.
const USUAL_GAP: f64 = 10.0;

/// Why parts do not go into one file.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum TogetherError {
    /// A part is finished by the plate's own edge.
    #[error(
        "the edge `{edge}` of `{part}` is the plate's own, so `{part}` lies at the edge of the plate and not among \
         others: cut it from a file of its own with --part {part}"
    )]
    PlateEdge {
        /// The part.
        part: String,
        /// Its edge.
        edge: String,
    },
    /// They do not fit on the sheet.
    #[error(
        "in rows {gap} mm apart the parts need a sheet of {width:.1} × {height:.1} mm, and the sheet is \
         {sheet_width} × {sheet_height} mm: take a larger one, a smaller --gap, or --part for one at a time; \
         parts are not turned or nested here"
    )]
    DoesNotFit {
        /// The gap in millimetres.
        gap: f64,
        /// Width that is needed, in millimetres.
        width: f64,
        /// Height that is needed, in millimetres.
        height: f64,
        /// Width of the sheet in millimetres.
        sheet_width: f64,
        /// Height of the sheet in millimetres.
        sheet_height: f64,
    },
    /// The gap is none.
    #[error("--gap {gap} is no gap between parts: it is a length in mm of 0 or more")]
    BadGap {
        /// The gap in millimetres.
        gap: f64,
    },
    /// There is no part.
    #[error("there is no part to put on the sheet")]
    NoPart,
    /// A part has no tool path where it lies.
    #[error("{piece}: {error}")]
    ToolPath {
        /// Which part.
        index: usize,
        /// Which piece, in words.
        piece: String,
        /// Why.
        error: Box<ToolPathError>,
    },
}

named! { TogetherError:
    PlateEdge => "plate-edge",
    DoesNotFit => "does-not-fit",
    BadGap => "bad-gap",
    NoPart => "no-part",
    ToolPath => "tool-path",
}

/// How parts are put together.
#[derive(Clone, Debug)]
pub struct TogetherOptions<'a> {
    /// Which face the file shows.
    pub face: Face,
    /// Whether the facts stand in the file as words.
    pub with_words: bool,
    /// The sheet that they should fit on, either way round; its lower left corner is the origin of the
    /// file.
    pub sheet: Option<SheetSize>,
    /// How far they lie apart and from the edge of the sheet, in millimetres; as much as leads need, and
    /// 10 mm at least, if it is not said.
    pub gap: Option<f64>,
    /// By what the tool path is made, with its key and words; none for the finished size.
    pub cutting: Option<(Setting, &'a str, &'a str)>,
}

/// Several parts of one plate in one cut file, each as often as the design wants it, in rows.
#[derive(Clone, Debug)]
pub struct Together<'a> {
    /// The parts, once each.
    pub parts: Vec<&'a Part>,
    /// Every piece in its place.
    pub placed: Vec<Placed<'a>>,
    /// The design, and the unit of the file.
    pub stamp: &'a Stamp,
    /// Which face the file shows.
    pub face: Face,
    /// Whether the facts stand in the file as words.
    pub with_words: bool,
    /// The sheet as it lies.
    pub sheet: Option<SheetSize>,
    /// How far the pieces lie apart, in millimetres.
    pub gap: f64,
    /// The tool path, in its place; none for the finished size.
    pub cutting: Option<Cutting>,
}

/// Parts that may lie on one sheet, in the order of the design: those of the same material and thickness.
pub fn by_plate<'a>(parts: &[&'a Part]) -> Vec<Vec<&'a Part>> {
    let plate = |part: &Part| {
        let plate = part.plate.as_ref();
        plate.map(|plate| (plate.material.clone(), plate.thickness.map(f64::to_bits)))
    };
    let mut groups: Vec<Vec<&Part>> = Vec::new();
    for part in parts {
        let same = |group: &&mut Vec<&Part>| {
            let first = group.first();
            first.is_some_and(|first| plate(first) == plate(part))
        };
        match groups.iter_mut().find(same) {
            Some(group) => group.push(part),
            None => groups.push(vec![part]),
        }
    }
    groups
}

impl<'a> Together<'a> {
    /// Places the parts and makes their tool path if one is asked for.
    ///
    /// # Errors
    /// [`TogetherError`].
    pub fn new(
        parts: &[&'a Part],
        stamp: &'a Stamp,
        options: &TogetherOptions<'_>,
    ) -> Result<Self, TogetherError> {
        if parts.is_empty() {
            return Err(TogetherError::NoPart);
        }
        refuse_plate_edges(parts)?;
        let setting = options.cutting.as_ref().map(|(setting, ..)| setting);
        let gap = options.gap.unwrap_or_else(|| usual_gap(setting));
        if !(gap >= 0.0 && gap.is_finite()) {
            return Err(TogetherError::BadGap { gap });
        }
        let (placed, sheet) = placed(parts, options, setting, gap)?;
        let cutting = match &options.cutting {
            None => None,
            Some((setting, key, process)) => {
                let path = tool_path_together(&placed, setting, Point::ORIGIN);
                let path = path.map_err(|(index, error)| refused(&placed, index, error))?;
                let words = ((*key).to_owned(), (*process).to_owned());
                let made = Cutting::of_path(path, setting.clone(), words);
                Some(made.map_err(|error| refused(&placed, 0, error))?)
            }
        };
        Ok(Self {
            parts: parts.to_vec(),
            placed,
            stamp,
            face: options.face,
            with_words: options.with_words,
            sheet,
            gap,
            cutting,
        })
    }

    /// What the file holds, as [`CutFile::picture`] has it, piece by piece.
    pub fn picture(&self) -> Picture {
        let mut picture = self.drawn(&Motion::IDENTITY, super::WIDTH);
        if self.with_words {
            super::write_words(&mut picture, self.comments());
        }
        picture
    }

    /// The same to scale.
    pub(super) fn drawn(&self, motion: &Motion, width: f64) -> Picture {
        let mut picture = Picture::new();
        let Some(cutting) = &self.cutting else {
            for own in &self.placed {
                let at = own.motion.then(motion);
                picture
                    .items
                    .extend(super::nominal(own.part, &at, width).items);
            }
            return picture;
        };
        let marks = self.placed.iter().flat_map(|own| {
            let marks = own.part.marks.iter();
            marks.map(|mark| own.motion.point(mark.at))
        });
        let marks: Vec<Point> = marks.collect();
        super::draw_path(&mut picture, cutting, &marks, motion, width);
        picture
    }

    /// The bounds of all pieces.
    pub(super) fn bounds(&self) -> Rect {
        let all = self
            .placed
            .iter()
            .map(|own| own.motion.region(&own.part.region).bounds());
        all.reduce(|sum, own| sum.union(own)).unwrap_or(Rect::ZERO)
    }

    /// The file of one of the parts, for what is said of it alone.
    pub(super) fn file_of(&self, part: &'a Part) -> CutFile<'_> {
        CutFile {
            face: self.face,
            with_words: self.with_words,
            cutting: self.cutting.as_ref(),
            ..CutFile::nominal(part, self.stamp)
        }
    }

    /// How many pieces of a part are there.
    pub(super) fn count(&self, part: &Part) -> usize {
        let own = self.placed.iter();
        own.filter(|placed| placed.part.name == part.name).count()
    }

    /// The names of the parts, joined; their number where they are many.
    pub fn names(&self) -> String {
        const MOST_LETTERS: usize = 60;
        let names = self.parts.iter().map(|part| file_word(&part.name));
        let names: Vec<String> = names.flatten().collect();
        let joined = names.join("-");
        if joined.len() > MOST_LETTERS {
            format!("{}-parts", names.len())
        } else {
            joined
        }
    }

    /// The name of the file, without its ending: as [`CutFile::file_stem`], with the parts, and the size
    /// of all of them as they lie.
    pub fn file_stem(&self) -> String {
        let Some(first) = self.parts.first() else {
            return "parts".to_owned();
        };
        let count = u32::try_from(self.placed.len()).unwrap_or(u32::MAX);
        let names = format!("{}-together", self.names());
        self.file_of(first).stem_of(&names, self.bounds(), count)
    }

    /// What stands at the head of the file.
    pub fn comments(&self) -> Vec<String> {
        together_order::comments(self)
    }

    /// One order sheet for all of them, which goes with the file of the name `file`.
    ///
    /// # Errors
    /// [`DocumentError::Draft`] while a dimension is still to be measured.
    pub fn order_sheet(&self, file: &str) -> Result<Document, DocumentError> {
        together_order::order_sheet(self, file)
    }

    /// The tool path on one sheet of paper, as [`CutFile::path_drawing`].
    pub fn path_drawing(&self) -> Option<PathDrawing> {
        let cutting = self.cutting.as_ref()?;
        let regions: Vec<Region> = self
            .placed
            .iter()
            .map(|own| own.motion.region(&own.part.region))
            .collect();
        let sheet = self
            .sheet
            .map(|sheet| Rect::new(0.0, 0.0, sheet.width, sheet.height));
        Some(path_drawing::drawn(&Shown {
            cutting,
            bounds: self.drawn(&Motion::IDENTITY, super::WIDTH).bounds()?,
            regions,
            plate: sheet,
            lies: Motion::IDENTITY,
            facts: together_order::what_it_is(self),
            name: &self.names(),
            stamp: self.stamp,
        }))
    }
}

fn refuse_plate_edges(parts: &[&Part]) -> Result<(), TogetherError> {
    for part in parts {
        let mut edges = part.edges.iter();
        if let Some(edge) = edges.find(|edge| edge.state == EdgeState::PlateEdge) {
            return Err(TogetherError::PlateEdge {
                part: part.name.clone(),
                edge: edge.name.clone(),
            });
        }
    }
    Ok(())
}

/// Room for a lead, its pierce and the cut beside it, in whole millimetres.
fn usual_gap(setting: Option<&Setting>) -> f64 {
    let leads = setting.map_or(0.0, |setting| {
        setting.lead_length + setting.pierce / 2.0 + 2.0 * setting.reach()
    });
    leads.max(USUAL_GAP).ceil()
}

fn placed<'a>(
    parts: &[&'a Part],
    options: &TogetherOptions<'_>,
    setting: Option<&Setting>,
    gap: f64,
) -> Result<(Vec<Placed<'a>>, Option<SheetSize>), TogetherError> {
    let mut placed = Vec::new();
    let mut bounds = Vec::new();
    for (index, part) in parts.iter().enumerate() {
        let left = match setting {
            None => part.region.clone(),
            Some(setting) => left_by(part, setting).map_err(|error| TogetherError::ToolPath {
                index,
                piece: part.name.clone(),
                error: Box::new(error),
            })?,
        };
        let face = super::shown_face(part, options.face);
        for number in 1..=part.quantity {
            let label = if part.quantity == 1 {
                part.name.clone()
            } else {
                format!("{} {number}", part.name)
            };
            bounds.push(face.region(&left).bounds());
            placed.push(Placed {
                part,
                label,
                motion: face,
            });
        }
    }
    let (laid, sheet) = laid(&bounds, gap, options.sheet)?;
    for (own, shift) in placed.iter_mut().zip(laid.shifts) {
        own.motion = own.motion.then(&Motion::shift(shift));
    }
    Ok((placed, sheet))
}

/// Rows on the sheet as it is given, else on the sheet turned by a quarter.
fn laid(
    bounds: &[Rect],
    gap: f64,
    sheet: Option<SheetSize>,
) -> Result<(Rows, Option<SheetSize>), TogetherError> {
    let Some(sheet) = sheet else {
        return Ok((rows(bounds, gap, None), None));
    };
    let turned = SheetSize {
        width: sheet.height,
        height: sheet.width,
    };
    for lying in [sheet, turned] {
        let laid = rows(bounds, gap, Some(lying.width));
        if laid.needed.0 <= lying.width && laid.needed.1 <= lying.height {
            return Ok((laid, Some(lying)));
        }
    }
    let needed = rows(bounds, gap, Some(sheet.width)).needed;
    Err(TogetherError::DoesNotFit {
        gap,
        width: needed.0,
        height: needed.1,
        sheet_width: sheet.width,
        sheet_height: sheet.height,
    })
}

fn refused(placed: &[Placed<'_>], index: usize, error: ToolPathError) -> TogetherError {
    let piece = placed.get(index).map_or("", |own| own.label.as_str());
    let name = placed.get(index).map(|own| &own.part.name);
    let before = placed.iter().take(index);
    let mut names: Vec<&String> = before.map(|own| &own.part.name).collect();
    names.dedup();
    let same = usize::from(names.last() == name.as_ref());
    TogetherError::ToolPath {
        index: names.len() - same,
        piece: piece.to_owned(),
        error: Box::new(error),
    }
}

#[cfg(test)]
mod tests;
