//! Reading back a DXF file that was written here.
//!
//! This reads what [`write`](super::write()) writes and says of everything else that it does not
//! belong there. It takes any bytes without a panic, in time and memory that grow with their number.

mod entity;
pub(super) mod tags;

use entity::Entity;
use entity::Vertex;
use tags::Tag;
use tags::Tags;

use crate::formats::Contents;
use crate::formats::FileFormat;
use crate::formats::FormatError;
use crate::geometry::LengthUnit;

/// Files longer than this are refused, in bytes: a million edges are half of it.
const LARGEST_FILE: usize = 128 << 20;

/// Files with more layers are refused: eight are ever written.
const MOST_LAYERS: usize = 256;

/// What the file holds, by layer, in millimetres. Where the file does not say its unit (R12), `unit`
/// is taken.
///
/// # Errors
/// [`FormatError::TooMuch`] for more than 128 MiB or 256 layers; [`FormatError::Malformed`], with the line, for
/// anything that does not follow the format, an unfinished file, or geometry that is none.
pub fn read_contours(bytes: &[u8], unit: LengthUnit) -> Result<Contents, FormatError> {
    if bytes.len() > LARGEST_FILE {
        return Err(FormatError::TooMuch {
            format: "DXF",
            what: "bytes",
            found: bytes.len(),
            limit: LARGEST_FILE,
        });
    }
    let mut reading = Reading {
        contents: Contents::new(FileFormat::Dxf),
        unit,
        section: Section::None,
        variable: String::new(),
        entity: None,
        polyline: None,
    };
    let mut tags = Tags::new(bytes);
    while let Some(tag) = tags.next_tag()? {
        match tag.code {
            // a remark
            999 => {}
            0 => {
                reading.end_entity()?;
                if tag.value == "EOF" {
                    reading.finish(&tag)?;
                    return Ok(reading.contents);
                }
                reading.start(&tag)?;
            }
            _ => reading.tag(&tag)?,
        }
    }
    Err(malformed(tags.line(), "the file ends before its end mark"))
}

pub(super) fn malformed(line: usize, problem: impl Into<String>) -> FormatError {
    FormatError::Malformed {
        format: "DXF",
        line,
        problem: problem.into(),
    }
}

/// Where in the file the reader is.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Section {
    None,
    /// At its very start: its name comes next.
    Unnamed,
    Header,
    Entities,
    Other,
}

struct Reading {
    contents: Contents,
    unit: LengthUnit,
    section: Section,
    /// The header variable whose value comes next.
    variable: String,
    /// The entity whose tags come next.
    entity: Option<Entity>,
    /// The POLYLINE whose vertices come next.
    polyline: Option<Entity>,
}

impl Reading {
    /// Takes a group code 0: the start of something.
    fn start(&mut self, tag: &Tag<'_>) -> Result<(), FormatError> {
        match (&*tag.value, self.section) {
            ("SECTION", Section::None) => self.section = Section::Unnamed,
            ("SECTION", _) | (_, Section::None | Section::Unnamed) => {
                return Err(malformed(
                    tag.line,
                    format!("{} out of place", tags::shortened(&tag.value)),
                ));
            }
            ("ENDSEC", _) => {
                if let Some(polyline) = &self.polyline {
                    return Err(malformed(polyline.line, "a POLYLINE without its SEQEND"));
                }
                self.section = Section::None;
            }
            (_, Section::Entities) => self.entity = Some(Entity::new(tag)),
            (_, Section::Header | Section::Other) => {}
        }
        Ok(())
    }

    fn tag(&mut self, tag: &Tag<'_>) -> Result<(), FormatError> {
        match self.section {
            Section::None => Err(malformed(tag.line, "a value outside all sections")),
            Section::Unnamed => {
                self.section = match (tag.code, &*tag.value) {
                    (2, "HEADER") => Section::Header,
                    (2, "ENTITIES") => Section::Entities,
                    (2, _) => Section::Other,
                    _ => return Err(malformed(tag.line, "a section without a name")),
                };
                Ok(())
            }
            Section::Header => self.header(tag),
            Section::Entities => match &mut self.entity {
                Some(entity) => entity.tag(tag),
                None => Err(malformed(tag.line, "a value before the first entity")),
            },
            Section::Other => Ok(()),
        }
    }

    /// Takes the unit out of the header.
    fn header(&mut self, tag: &Tag<'_>) -> Result<(), FormatError> {
        if tag.code == 9 {
            self.variable.clear();
            self.variable.push_str(&tag.value);
        } else if tag.code == 70 && self.variable == "$INSUNITS" {
            self.unit = match tag.whole()? {
                1 => LengthUnit::Inch,
                2 => LengthUnit::Foot,
                4 => LengthUnit::Millimetre,
                5 => LengthUnit::Centimetre,
                6 => LengthUnit::Metre,
                other => {
                    return Err(malformed(
                        tag.line,
                        format!("{other} is no unit of length here"),
                    ));
                }
            };
        }
        Ok(())
    }

    fn end_entity(&mut self) -> Result<(), FormatError> {
        let Some(entity) = self.entity.take() else {
            return Ok(());
        };
        let layers = self.contents.layers.len();
        if layers > MOST_LAYERS {
            return Err(FormatError::TooMuch {
                format: "DXF",
                what: "layers",
                found: layers,
                limit: MOST_LAYERS,
            });
        }
        match (entity.kind.as_str(), &mut self.polyline) {
            ("VERTEX", Some(polyline)) => {
                polyline.vertices.push(Vertex {
                    x: entity.number(10)?,
                    y: entity.number(20)?,
                    bulge: entity.number_or(42, 0.0),
                });
                Ok(())
            }
            ("SEQEND", Some(_)) => match self.polyline.take() {
                Some(polyline) => polyline.add_to(&mut self.contents, self.unit),
                None => Ok(()),
            },
            (kind, Some(_)) => Err(malformed(
                entity.line,
                format!("{} among the vertices of a POLYLINE", tags::shortened(kind)),
            )),
            ("POLYLINE", None) => {
                self.polyline = Some(entity);
                Ok(())
            }
            (_, None) => entity.add_to(&mut self.contents, self.unit),
        }
    }

    fn finish(&self, end: &Tag<'_>) -> Result<(), FormatError> {
        if self.section == Section::None {
            Ok(())
        } else {
            Err(malformed(end.line, "the end mark inside a section"))
        }
    }
}

#[cfg(test)]
mod tests;
