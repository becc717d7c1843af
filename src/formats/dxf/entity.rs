//! Strokes and words as entities.

use super::tag::Handle;
use super::tag::Tags;
use super::write::DxfOptions;
use super::write::DxfVersion;
use crate::geometry::Arc;
use crate::geometry::Contour;
use crate::geometry::Path;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::sheet::Anchor;
use crate::sheet::Item;
use crate::sheet::Layer;
use crate::sheet::Shade;
use crate::sheet::Shape;
use crate::sheet::Stroke;
use crate::sheet::Text;

/// Lone arcs of a larger radius, in millimetres, are written as polylines: an angle with 12 decimals
/// of a degree holds the ends of smaller ones within 1e-10 mm.
const LARGEST_ARC_RADIUS: f64 = 1e4;

/// Height of a capital letter over the font size, as [`Text::size`] has it.
const CAPITAL_HEIGHT: f64 = 0.73;

/// Writes entities, one after another.
pub(super) struct Entities<'a> {
    pub(super) tags: Tags,
    pub(super) next: usize,
    pub(super) written: usize,
    options: &'a DxfOptions,
    owner: Handle,
    vertices: Vec<Vertex>,
}

/// A vertex of a polyline; the bulge is that of the segment that leaves it.
struct Vertex {
    at: Point,
    bulge: f64,
}

impl<'a> Entities<'a> {
    pub(super) const fn new(
        tags: Tags,
        options: &'a DxfOptions,
        owner: Handle,
        next: usize,
    ) -> Self {
        Self {
            tags,
            next,
            written: 0,
            options,
            owner,
            vertices: Vec::new(),
        }
    }

    pub(super) fn item(&mut self, item: &Item) {
        match item {
            Item::Stroke(stroke) => self.stroke(stroke),
            Item::Fill(fill) if is_written(item) => self.contour(fill.layer, &fill.contour),
            Item::Fill(_) => {}
            Item::Text(text) => self.text(text),
        }
    }

    fn stroke(&mut self, stroke: &Stroke) {
        match &stroke.shape {
            Shape::Contour(contour) => self.contour(stroke.layer, contour),
            Shape::Path(path) => self.path(stroke.layer, path),
            Shape::Circle { centre, radius } => self.circle(stroke.layer, *centre, *radius),
            Shape::Spot(point) => {
                self.head("POINT", "AcDbPoint", stroke.layer);
                self.point((10, 20, 30), *point);
            }
        }
    }

    fn contour(&mut self, layer: Layer, contour: &Contour) {
        if let Some((centre, radius)) = contour.as_circle() {
            self.circle(layer, centre, radius);
            return;
        }
        self.vertices.clear();
        for segment in contour.segments() {
            self.vertices_of(segment);
        }
        self.polyline(layer, Ends::Closed);
    }

    fn path(&mut self, layer: Layer, path: &Path) {
        if let [piece] = path.pieces() {
            match &piece.segment {
                Segment::Line(line) => {
                    self.head("LINE", "AcDbLine", layer);
                    self.point((10, 20, 30), line.start);
                    self.point((11, 21, 31), line.end);
                    return;
                }
                Segment::Arc(arc) if arc.is_circle() => {
                    self.circle(layer, arc.centre(), arc.radius());
                    return;
                }
                Segment::Arc(arc) if arc.radius() <= LARGEST_ARC_RADIUS => {
                    self.arc(layer, arc);
                    return;
                }
                Segment::Arc(_) => {}
            }
        }
        self.vertices.clear();
        for segment in path.segments() {
            self.vertices_of(segment);
        }
        self.vertices.push(Vertex {
            at: path.end(),
            bulge: 0.0,
        });
        self.polyline(layer, Ends::Open);
    }

    fn vertices_of(&mut self, segment: &Segment) {
        let Segment::Arc(arc) = segment else {
            self.vertices.push(Vertex {
                at: segment.start(),
                bulge: 0.0,
            });
            return;
        };
        if arc.sweep().abs() <= number::HALF_TURN + tolerance::SAME_DIRECTION {
            self.vertices.push(Vertex {
                at: arc.start(),
                bulge: arc.bulge(),
            });
            return;
        }
        let bulge = number::tan(arc.sweep() / 8.0);
        for at in [arc.start(), arc.point_at(0.5)] {
            self.vertices.push(Vertex { at, bulge });
        }
    }

    fn circle(&mut self, layer: Layer, centre: Point, radius: f64) {
        self.head("CIRCLE", "AcDbCircle", layer);
        self.point((10, 20, 30), centre);
        self.length(40, radius);
    }

    fn arc(&mut self, layer: Layer, arc: &Arc) {
        self.head("ARC", "AcDbCircle", layer);
        self.point((10, 20, 30), arc.centre());
        self.length(40, arc.radius());
        if self.options.version != DxfVersion::R12 {
            self.tags.word(100, "AcDbArc");
        }
        // an ARC always runs anticlockwise
        let (from, to) = if arc.sweep() > 0.0 {
            (arc.start(), arc.end())
        } else {
            (arc.end(), arc.start())
        };
        for (code, end) in [(50, from), (51, to)] {
            let angle = number::positive_angle(number::direction(end - arc.centre()));
            self.tags.real(code, angle.to_degrees());
        }
    }

    fn polyline(&mut self, layer: Layer, ends: Ends) {
        let vertices = std::mem::take(&mut self.vertices);
        match self.options.version {
            DxfVersion::R12 => self.old_polyline(layer, ends, &vertices),
            _ => self.light_polyline(layer, ends, &vertices),
        }
        self.vertices = vertices;
    }

    fn light_polyline(&mut self, layer: Layer, ends: Ends, vertices: &[Vertex]) {
        self.head("LWPOLYLINE", "AcDbPolyline", layer);
        self.tags.whole(90, vertices.len());
        self.tags.whole(70, ends.flag());
        for vertex in vertices {
            let (x, y) = self.place(vertex.at);
            self.tags.real(10, x);
            self.tags.real(20, y);
            if vertex.bulge != 0.0 {
                self.tags.bulge(vertex.bulge);
            }
        }
    }

    fn old_polyline(&mut self, layer: Layer, ends: Ends, vertices: &[Vertex]) {
        self.head("POLYLINE", "", layer);
        self.tags.whole(66, 1);
        self.tags.point((10, 20, 30), 0.0, 0.0);
        self.tags.whole(70, ends.flag());
        for vertex in vertices {
            let (x, y) = self.place(vertex.at);
            self.tags.word(0, "VERTEX");
            self.tags.word(8, layer.name());
            self.tags.point((10, 20, 30), x, y);
            if vertex.bulge != 0.0 {
                self.tags.bulge(vertex.bulge);
            }
        }
        self.tags.word(0, "SEQEND");
        self.tags.word(8, layer.name());
    }

    fn text(&mut self, text: &Text) {
        self.head("TEXT", "AcDbText", text.layer);
        self.point((10, 20, 30), text.at);
        self.length(40, text.size * CAPITAL_HEIGHT);
        self.tags.words(1, &text.content);
        self.tags
            .real(50, number::positive_angle(text.angle).to_degrees());
        let alignment = match text.anchor {
            Anchor::Start => None,
            Anchor::Middle => Some(1),
            Anchor::End => Some(2),
        };
        if let Some(alignment) = alignment {
            self.tags.whole(72, alignment);
            self.point((11, 21, 31), text.at);
        }
        if self.options.version != DxfVersion::R12 {
            self.tags.word(100, "AcDbText");
        }
    }

    /// What every entity starts with.
    fn head(&mut self, kind: &str, class: &str, layer: Layer) {
        self.written += 1;
        self.tags.word(0, kind);
        if self.options.version == DxfVersion::R12 {
            self.tags.word(8, layer.name());
            return;
        }
        self.tags.handle(5, Handle(self.next));
        self.next += 1;
        self.tags.handle(330, self.owner);
        self.tags.word(100, "AcDbEntity");
        self.tags.word(8, layer.name());
        self.tags.word(100, class);
    }

    fn point(&mut self, codes: (u16, u16, u16), point: Point) {
        let (x, y) = self.place(point);
        self.tags.point(codes, x, y);
    }

    fn place(&self, point: Point) -> (f64, f64) {
        let unit = self.options.unit.millimetres();
        (point.x / unit, point.y / unit)
    }

    fn length(&mut self, code: u16, length: f64) {
        self.tags
            .real(code, length / self.options.unit.millimetres());
    }
}

/// White areas clear a place on paper, and there is nothing to clear in a file of lines.
pub(super) fn is_written(item: &Item) -> bool {
    !matches!(item, Item::Fill(fill) if fill.shade == Shade::White)
}

/// Whether a polyline returns to its start.
#[derive(Clone, Copy)]
enum Ends {
    Open,
    Closed,
}

impl Ends {
    const fn flag(self) -> usize {
        match self {
            Self::Open => 0,
            Self::Closed => 1,
        }
    }
}
