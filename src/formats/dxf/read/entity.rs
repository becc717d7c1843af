//! Entities into geometry.

use super::malformed;
use super::tags::Tag;
use crate::formats::Contents;
use crate::formats::FormatError;
use crate::geometry::Arc;
use crate::geometry::Contour;
use crate::geometry::GeometryError;
use crate::geometry::LengthUnit;
use crate::geometry::Path;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::number;
use crate::sheet::Shape;

/// A vertex of a polyline; the bulge is that of the segment that leaves it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Vertex {
    pub(super) x: f64,
    pub(super) y: f64,
    pub(super) bulge: f64,
}

/// One entity, its numbers as they stand in the file.
#[derive(Clone, Debug)]
pub(super) struct Entity {
    pub(super) kind: String,
    pub(super) line: usize,
    layer: String,
    numbers: Vec<(i32, f64)>,
    closed: bool,
    /// How many vertices the entity says it has.
    promised: Option<i64>,
    pub(super) vertices: Vec<Vertex>,
}

impl Entity {
    /// An entity of which only the start has been read.
    pub(super) fn new(start: &Tag<'_>) -> Self {
        Self {
            kind: super::tags::shortened(start.value.trim()),
            line: start.line,
            layer: String::new(),
            numbers: Vec::new(),
            closed: false,
            promised: None,
            vertices: Vec::new(),
        }
    }

    /// Takes one of its tags; of a number that comes twice, the first.
    pub(super) fn tag(&mut self, tag: &Tag<'_>) -> Result<(), FormatError> {
        match tag.code {
            8 => tag.value.trim().clone_into(&mut self.layer),
            10 | 20 | 42 if self.kind == "LWPOLYLINE" => self.vertex_tag(tag)?,
            70 => self.closed = tag.whole()? & 1 == 1,
            90 => self.promised = Some(tag.whole()?),
            10..=59 if self.numbers.iter().all(|&(code, _)| code != tag.code) => {
                self.numbers.push((tag.code, tag.real()?));
            }
            _ => {}
        }
        Ok(())
    }

    /// Refuses a polyline with more or fewer vertices than it says.
    fn keeps_its_promise(&self) -> Result<(), FormatError> {
        let found = i64::try_from(self.vertices.len()).unwrap_or(i64::MAX);
        if self.kind == "LWPOLYLINE" && self.promised != Some(found) {
            return Err(malformed(
                self.line,
                format!("a polyline of {found} vertices that promises another number"),
            ));
        }
        Ok(())
    }

    fn vertex_tag(&mut self, tag: &Tag<'_>) -> Result<(), FormatError> {
        let value = tag.real()?;
        if tag.code == 10 {
            self.vertices.push(Vertex {
                x: value,
                y: f64::NAN,
                bulge: 0.0,
            });
            return Ok(());
        }
        let Some(vertex) = self.vertices.last_mut() else {
            return Err(malformed(
                tag.line,
                "a vertex that does not start with its x",
            ));
        };
        if tag.code == 20 {
            vertex.y = value;
        } else {
            vertex.bulge = value;
        }
        Ok(())
    }

    pub(super) fn number(&self, code: i32) -> Result<f64, FormatError> {
        self.numbers
            .iter()
            .find(|(found, _)| *found == code)
            .map(|&(_, value)| value)
            .ok_or_else(|| {
                malformed(
                    self.line,
                    format!("a {} without its group {code}", self.kind),
                )
            })
    }

    pub(super) fn number_or(&self, code: i32, otherwise: f64) -> f64 {
        self.number(code).unwrap_or(otherwise)
    }

    fn point(&self, x: i32, y: i32, unit: f64) -> Result<Point, FormatError> {
        Ok(Point::new(self.number(x)? * unit, self.number(y)? * unit))
    }

    /// Adds it to what the file holds, in millimetres.
    pub(super) fn add_to(
        &self,
        contents: &mut Contents,
        unit: LengthUnit,
    ) -> Result<(), FormatError> {
        let unit = unit.millimetres();
        let layer = contents.layer(&self.layer);
        let shape = match self.kind.as_str() {
            "TEXT" => {
                layer.words += 1;
                return Ok(());
            }
            "POINT" => Shape::Spot(self.point(10, 20, unit)?),
            "CIRCLE" => {
                let (centre, radius) = (self.point(10, 20, unit)?, self.number(40)? * unit);
                // a contour knows what makes a circle impossible
                let circle = Contour::circle(centre, radius, SourceId::UNTRACED);
                Shape::Contour(circle.map_err(|error| self.no_geometry(&error))?)
            }
            "LINE" => {
                let (from, to) = (self.point(10, 20, unit)?, self.point(11, 21, unit)?);
                self.path(vec![Segment::line(from, to)])?
            }
            "ARC" => {
                let arc = self.arc(unit)?;
                self.path(vec![arc.into()])?
            }
            "POLYLINE" | "LWPOLYLINE" => {
                self.keeps_its_promise()?;
                self.polyline(unit)?
            }
            _ => {
                layer.foreign += 1;
                return Ok(());
            }
        };
        layer.add(shape);
        Ok(())
    }

    fn arc(&self, unit: f64) -> Result<Arc, FormatError> {
        let (centre, radius) = (self.point(10, 20, unit)?, self.number(40)? * unit);
        let start = self.number(50)?.to_radians();
        let sweep = number::positive_angle(self.number(51)?.to_radians() - start);
        if radius <= 0.0 || sweep == 0.0 {
            return Err(malformed(self.line, "an ARC without a length"));
        }
        Ok(Arc::from_angles(centre, radius, start, sweep))
    }

    fn polyline(&self, unit: f64) -> Result<Shape, FormatError> {
        let place = |vertex: &Vertex| Point::new(vertex.x * unit, vertex.y * unit);
        let mut segments = Vec::with_capacity(self.vertices.len());
        let following = self.vertices.iter().cycle().skip(1);
        for (from, to) in self.vertices.iter().zip(following) {
            let (start, end) = (place(from), place(to));
            segments.push(if from.bulge == 0.0 {
                Segment::line(start, end)
            } else {
                Arc::from_bulge(start, end, from.bulge)
                    .map_err(|error| self.no_geometry(&error))?
                    .into()
            });
            if !self.closed && segments.len() + 1 == self.vertices.len() {
                break;
            }
        }
        if self.closed {
            let contour = Contour::from_segments(segments);
            return Ok(Shape::Contour(
                contour.map_err(|error| self.no_geometry(&error))?,
            ));
        }
        self.path(segments)
    }

    fn path(&self, segments: Vec<Segment>) -> Result<Shape, FormatError> {
        let untraced = |segment| Piece::new(segment, SourceId::UNTRACED);
        let path = Path::new(segments.into_iter().map(untraced).collect());
        Ok(Shape::Path(path.map_err(|error| self.no_geometry(&error))?))
    }

    fn no_geometry(&self, error: &GeometryError) -> FormatError {
        malformed(self.line, format!("a {} that is none: {error}", self.kind))
    }
}
