//! Any DXF, as a drawing from elsewhere.
//!
//! Tags become [`record`]s, records become shapes ([`shape`]), and references to blocks are followed at the
//! end ([`draw`]). A file that does not say its unit is read once for its sizes and once in the unit
//! found.

mod draw;
mod record;
mod shape;
mod text;

use std::collections::BTreeMap;

use record::Record;
use shape::Raw;
use shape::RawShape;

use super::read::malformed;
use super::read::tags::Tag;
use super::read::tags::Tags;
use crate::formats::FileFormat;
use crate::formats::FormatError;
use crate::formats::incoming::Collector;
use crate::formats::incoming::FilePlace;
use crate::formats::incoming::FileUnit;
use crate::formats::incoming::Incoming;
use crate::formats::incoming::Known;
use crate::formats::incoming::MOST_DRAWN;
use crate::formats::incoming::ReadOptions;
use crate::formats::incoming::too_much;
use crate::formats::incoming::unit;
use crate::formats::incoming::unit::UnitOfLength;
use crate::geometry::Point;

/// Kinds without an outline that are told apart.
const MOST_KINDS: usize = 256;

/// Remarks that are kept.
const MOST_COMMENTS: usize = 64;

/// Reads the file.
pub(in crate::formats) fn read(
    bytes: &[u8],
    options: &ReadOptions,
) -> Result<Incoming, FormatError> {
    let file = File::read(bytes)?;
    let (unit, sized) = file.unit(options)?;
    let mut collector = match sized {
        // sizes were worked out in units of the file: they hold if that is the millimetre
        Some(collector) if unit.unit.millimetres == 1.0 => collector,
        _ => draw::draw(&file, unit.unit.millimetres, options.within)?,
    };
    for (place, kind, problem) in &file.faults {
        collector.fault(*place, kind, problem.clone());
    }
    collector.faults.sort_by_key(|fault| fault.place);
    Ok(Incoming {
        format: FileFormat::Dxf,
        edition: file.edition,
        unit,
        kinds: collector.kinds(),
        layers: collector.layers,
        drawn: collector.drawn,
        faults: collector.faults,
        comments: file.comments,
    })
}

/// The entities of a file, as they stand in it.
#[derive(Debug, Default)]
struct File {
    edition: String,
    /// Value of `$INSUNITS`, if it is there.
    units: Option<i64>,
    /// Value of `$MEASUREMENT`, if it is there.
    measurement: Option<i64>,
    comments: Vec<String>,
    layers: Vec<String>,
    entities: Vec<Raw>,
    blocks: BTreeMap<String, Block>,
    left_out: LeftOut,
    faults: Vec<(FilePlace, String, String)>,
}

/// A block: entities that references draw.
#[derive(Debug, Default)]
struct Block {
    base: Point,
    entities: Vec<Raw>,
    left_out: LeftOut,
}

/// Kinds that have no outline: how many, and the line of the first.
type LeftOut = BTreeMap<String, (usize, usize)>;

#[derive(Clone, Copy, Debug, PartialEq)]
enum Section {
    None,
    Unnamed,
    Header,
    Blocks,
    Entities,
    Other,
}

impl File {
    fn read(bytes: &[u8]) -> Result<Self, FormatError> {
        let bytes = bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes);
        if bytes.iter().take(64).any(|&byte| byte == 0) {
            let problem = "it is binary: have it saved as text DXF";
            return Err(malformed(1, problem));
        }
        let mut reading = Reading {
            file: Self::default(),
            section: Section::None,
            variable: String::new(),
            record: Record::default(),
            open: false,
            polyline: None,
            block: None,
            layer: (String::new(), 0),
            layer_numbers: BTreeMap::new(),
            taken: 0,
        };
        let mut tags = Tags::new(bytes);
        while let Some(tag) = tags.next_tag()? {
            match tag.code {
                999 => reading.comment(&tag.value),
                0 => {
                    reading.end_record()?;
                    if tag.value.trim() == "EOF" {
                        if reading.section != Section::None {
                            return Err(malformed(tag.line, "the end mark inside a section"));
                        }
                        return Ok(reading.file);
                    }
                    reading.start(&tag)?;
                }
                _ => reading.tag(&tag)?,
            }
        }
        Err(malformed(tags.line(), "the file ends before its end mark"))
    }

    /// The unit, and what was drawn on the way to it in units of the file.
    fn unit(&self, options: &ReadOptions) -> Result<(FileUnit, Option<Collector>), FormatError> {
        let known = |unit: UnitOfLength, known: Known| Ok((FileUnit { unit, known }, None));
        if let Some(told) = options.unit {
            return known(told, Known::Told);
        }
        let stated = self.units.and_then(|code| {
            unit::DXF_UNITS
                .iter()
                .find(|(known, _)| *known == code)
                .map(|(_, unit)| *unit)
        });
        if let Some(unit) = stated {
            return known(unit, Known::Stated);
        }
        let remark = self
            .comments
            .iter()
            .find_map(|comment| unit::in_remark(comment));
        if let Some(unit) = remark {
            return known(UnitOfLength::from(unit), Known::Remark);
        }
        let collector = draw::draw(self, 1.0, options.within)?;
        let metric = self.measurement.filter(|_| self.units.is_some());
        let evidence = unit::Evidence {
            metric: metric.map(|value| value == 1),
            ..unit::evidence(&collector)
        };
        let (unit, reason) = unit::likely(&evidence);
        let could_say = !(self.edition.starts_with("R12") || self.edition.is_empty());
        let known = Known::Likely { reason, could_say };
        Ok((FileUnit { unit, known }, Some(collector)))
    }
}

struct Reading {
    file: File,
    section: Section,
    variable: String,
    record: Record,
    /// Whether the record is of an entity under way.
    open: bool,
    /// The POLYLINE whose vertices come next.
    polyline: Option<Box<Record>>,
    /// The block whose entities come next: its name.
    block: Option<(String, Block)>,
    layer: (String, usize),
    layer_numbers: BTreeMap<String, usize>,
    taken: usize,
}

impl Reading {
    fn comment(&mut self, value: &str) {
        if self.file.comments.len() < MOST_COMMENTS {
            let comment: String = value.trim().chars().take(400).collect();
            self.file.comments.push(comment);
        }
    }

    fn start(&mut self, tag: &Tag<'_>) -> Result<(), FormatError> {
        let name = tag.value.trim();
        match (name, self.section) {
            ("SECTION", Section::None) => self.section = Section::Unnamed,
            ("SECTION", _) | (_, Section::None | Section::Unnamed) => {
                let found = super::read::tags::shortened(name);
                return Err(malformed(tag.line, format!("{found} out of place")));
            }
            ("ENDSEC", _) => {
                self.end_polyline()?;
                self.end_block();
                self.section = Section::None;
            }
            (_, Section::Entities | Section::Blocks) => {
                self.record.begin(name, tag.line);
                self.open = true;
            }
            (_, Section::Header | Section::Other) => {}
        }
        Ok(())
    }

    fn tag(&mut self, tag: &Tag<'_>) -> Result<(), FormatError> {
        match self.section {
            Section::None => return Err(malformed(tag.line, "a value outside all sections")),
            Section::Unnamed => {
                if tag.code == 2 {
                    self.section = match tag.value.trim() {
                        "HEADER" => Section::Header,
                        "BLOCKS" => Section::Blocks,
                        "ENTITIES" => Section::Entities,
                        _ => Section::Other,
                    };
                }
            }
            Section::Header => self.header(tag),
            Section::Entities | Section::Blocks => {
                if self.open {
                    self.record.tag(tag);
                }
            }
            Section::Other => {}
        }
        Ok(())
    }

    fn header(&mut self, tag: &Tag<'_>) {
        if tag.code == 9 {
            self.variable.clear();
            self.variable.push_str(tag.value.trim());
            return;
        }
        match (self.variable.as_str(), tag.code) {
            ("$INSUNITS", 70) => self.file.units = tag.whole().ok(),
            ("$MEASUREMENT", 70) => self.file.measurement = tag.whole().ok(),
            ("$ACADVER", 1) => self.file.edition = text::edition(tag.value.trim()),
            _ => {}
        }
    }

    fn end_record(&mut self) -> Result<(), FormatError> {
        if !self.open {
            return Ok(());
        }
        self.open = false;
        match (self.record.kind.as_str(), &mut self.polyline) {
            ("VERTEX", Some(polyline)) => {
                let limit = crate::formats::incoming::MOST_SEGMENTS;
                if polyline.vertices.len() > limit {
                    let found = polyline.vertices.len();
                    return Err(too_much(FileFormat::Dxf, "vertices", found, limit));
                }
                polyline.take_vertex(&self.record);
                return Ok(());
            }
            ("SEQEND", _) => return self.end_polyline(),
            (_, Some(_)) => self.end_polyline()?,
            _ => {}
        }
        match self.record.kind.as_str() {
            "BLOCK" => {
                self.end_block();
                let base = self.record.point(10, 20).unwrap_or_default();
                let block = Block {
                    base,
                    entities: Vec::new(),
                    left_out: LeftOut::new(),
                };
                self.block = Some((text::decoded(&self.record.name), block));
            }
            "ENDBLK" => self.end_block(),
            "POLYLINE" => self.polyline = Some(Box::new(self.record.clone())),
            _ => {
                let record = std::mem::take(&mut self.record);
                self.take(&record)?;
                self.record = record;
            }
        }
        Ok(())
    }

    fn end_polyline(&mut self) -> Result<(), FormatError> {
        match self.polyline.take() {
            Some(polyline) => self.take(&polyline),
            None => Ok(()),
        }
    }

    fn end_block(&mut self) {
        if let Some((name, block)) = self.block.take() {
            self.file.blocks.insert(name, block);
        }
    }

    /// Puts an entity where it belongs.
    fn take(&mut self, record: &Record) -> Result<(), FormatError> {
        let place = FilePlace {
            line: record.line,
            handle: record.handle,
            through: 0,
        };
        let raw = match shape::of(record) {
            Ok(shape) => shape,
            Err(problem) => {
                let kind = record.kind.clone();
                self.file
                    .faults
                    .truncate(crate::formats::incoming::MOST_FAULTS);
                self.file.faults.push((place, kind, problem));
                return Ok(());
            }
        };
        if matches!(raw, RawShape::LeftOut) || record.on_paper {
            let name = if record.on_paper && !matches!(raw, RawShape::LeftOut) {
                "on a paper layout"
            } else {
                &record.kind
            };
            let list = match &mut self.block {
                Some((_, block)) => &mut block.left_out,
                None => &mut self.file.left_out,
            };
            let full = list.len() >= MOST_KINDS && !list.contains_key(name);
            let name = if full { "others" } else { name };
            list.entry(name.to_owned()).or_insert((0, record.line)).0 += 1;
            return Ok(());
        }
        self.taken += 1;
        if self.taken > MOST_DRAWN {
            return Err(too_much(
                FileFormat::Dxf,
                "entities",
                self.taken,
                MOST_DRAWN,
            ));
        }
        let raw = Raw {
            shape: raw,
            place,
            layer: self.layer(&record.layer)?,
            kind: shape::drawn_kind(&record.kind),
        };
        match &mut self.block {
            Some((_, block)) => block.entities.push(raw),
            None => self.file.entities.push(raw),
        }
        Ok(())
    }

    fn layer(&mut self, name: &str) -> Result<usize, FormatError> {
        if self.layer.0 == name && !self.file.layers.is_empty() {
            return Ok(self.layer.1);
        }
        let number = if let Some(&number) = self.layer_numbers.get(name) {
            number
        } else {
            let number = self.file.layers.len();
            let limit = crate::formats::incoming::MOST_LAYERS;
            if number >= limit {
                return Err(too_much(FileFormat::Dxf, "layers", number + 1, limit));
            }
            self.file.layers.push(text::decoded(name));
            self.layer_numbers.insert(name.to_owned(), number);
            number
        };
        self.layer = (name.to_owned(), number);
        Ok(number)
    }
}
