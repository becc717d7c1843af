//! Records into shapes, in units of the file.

use super::record::Record;
use super::record::Vertex;
use crate::formats::incoming::DrawnKind;
use crate::formats::incoming::FilePlace;
use crate::geometry::Point;
use crate::geometry::Vec2;

/// An entity with an outline, or a reference to a block.
#[derive(Debug)]
pub(super) struct Raw {
    pub(super) shape: RawShape,
    pub(super) place: FilePlace,
    pub(super) layer: usize,
    pub(super) kind: DrawnKind,
}

/// Its geometry, in units of the file. Where the entity has a coordinate system of its own that looks at
/// the plane from behind, `flipped` says that its x runs the other way.
#[derive(Debug)]
pub(super) enum RawShape {
    Line {
        from: Point,
        to: Point,
    },
    Arc {
        centre: Point,
        radius: f64,
        /// In degrees, as in the file.
        start: f64,
        end: f64,
        flipped: bool,
    },
    Circle {
        centre: Point,
        radius: f64,
        flipped: bool,
    },
    Polyline {
        vertices: Vec<Vertex>,
        closed: bool,
        flipped: bool,
    },
    Ellipse(Box<RawEllipse>),
    Spline(Box<RawSpline>),
    Insert(Box<RawInsert>),
    Point(Point),
    /// Nothing with an outline.
    LeftOut,
}

#[derive(Debug)]
pub(super) struct RawEllipse {
    pub(super) centre: Point,
    pub(super) first: Vec2,
    pub(super) second: Vec2,
    pub(super) start: f64,
    pub(super) end: f64,
}

#[derive(Debug)]
pub(super) struct RawSpline {
    pub(super) degree: usize,
    pub(super) points: Vec<Point>,
    pub(super) weights: Vec<f64>,
    pub(super) knots: Vec<f64>,
    /// Points that it runs through, where there are no others.
    pub(super) through: Vec<Point>,
    pub(super) closed: bool,
}

#[derive(Debug)]
pub(super) struct RawInsert {
    pub(super) block: String,
    pub(super) at: Point,
    pub(super) scale: Vec2,
    /// In degrees.
    pub(super) turn: f64,
    pub(super) columns: i64,
    pub(super) rows: i64,
    pub(super) step: Vec2,
    pub(super) flipped: bool,
}

/// The shape of a record, or what is wrong with it.
pub(super) fn of(record: &Record) -> Result<RawShape, String> {
    if !is_drawn(&record.kind) {
        return Ok(RawShape::LeftOut);
    }
    if let Some(problem) = &record.problem {
        return Err(problem.clone());
    }
    match record.kind.as_str() {
        "LINE" => Ok(RawShape::Line {
            from: record.point(10, 20)?,
            to: record.point(11, 21)?,
        }),
        "POINT" => Ok(RawShape::Point(record.point(10, 20)?)),
        "CIRCLE" => Ok(RawShape::Circle {
            centre: record.point(10, 20)?,
            radius: radius(record)?,
            flipped: flipped(record)?,
        }),
        "ARC" => Ok(RawShape::Arc {
            centre: record.point(10, 20)?,
            radius: radius(record)?,
            start: record.number(50)?,
            end: record.number(51)?,
            flipped: flipped(record)?,
        }),
        "LWPOLYLINE" | "POLYLINE" => polyline(record),
        "ELLIPSE" => ellipse(record),
        "SPLINE" => spline(record),
        _ => insert(record),
    }
}

fn is_drawn(kind: &str) -> bool {
    matches!(
        kind,
        "LINE"
            | "POINT"
            | "CIRCLE"
            | "ARC"
            | "LWPOLYLINE"
            | "POLYLINE"
            | "ELLIPSE"
            | "SPLINE"
            | "INSERT"
    )
}

/// What it counts as when it is drawn.
pub(super) fn drawn_kind(kind: &str) -> DrawnKind {
    match kind {
        "LINE" => DrawnKind::Line,
        "CIRCLE" => DrawnKind::Circle,
        "ARC" => DrawnKind::Arc,
        "ELLIPSE" => DrawnKind::Ellipse,
        "SPLINE" => DrawnKind::Spline,
        "POINT" => DrawnKind::Point,
        _ => DrawnKind::Polyline,
    }
}

/// Why a kind has no outline here.
pub(super) fn why_left_out(kind: &str) -> &'static str {
    match kind {
        "TEXT" | "MTEXT" | "ATTRIB" | "ATTDEF" | "ARCALIGNEDTEXT" | "RTEXT" => {
            "words: they have no outline until they are turned into lines"
        }
        "HATCH" | "SOLID" | "TRACE" | "MPOLYGON" | "WIPEOUT" => {
            "a filled area: its edge is not a line to cut"
        }
        "DIMENSION" | "ARC_DIMENSION" | "LEADER" | "MLEADER" | "MULTILEADER" | "TOLERANCE" => {
            "a dimension"
        }
        "IMAGE" | "OLEFRAME" | "OLE2FRAME" | "UNDERLAY" | "PDFUNDERLAY" => "a picture",
        "VIEWPORT" => "a window of a paper layout",
        "XLINE" | "RAY" => "a line without an end",
        "on a paper layout" => "drawn on a paper layout, not in the model",
        "3DFACE" | "3DSOLID" | "BODY" | "MESH" | "REGION" | "SURFACE" | "LIGHT" | "HELIX" => {
            "not a line in the plane"
        }
        _ => "a kind that is not known here",
    }
}

fn radius(record: &Record) -> Result<f64, String> {
    let radius = record.number(40)?;
    if radius > 0.0 {
        Ok(radius)
    } else {
        Err(format!("has the radius {radius}"))
    }
}

/// Whether the entity's own coordinates look at the plane from behind (DXF Reference, "Object Coordinate
/// Systems": the arbitrary axis of (0, 0, −1) makes x run to the left).
fn flipped(record: &Record) -> Result<bool, String> {
    let [x, y, z] = record.extrusion;
    let size = (x * x + y * y + z * z).sqrt();
    let slant = (x * x + y * y).sqrt();
    if size > 0.0 && size.is_finite() && slant <= 1e-9 * size {
        Ok(z < 0.0)
    } else {
        Err(format!(
            "does not lie in the plane of the drawing (its extrusion direction is {x}, {y}, {z})"
        ))
    }
}

/// Flags of a POLYLINE that is a mesh (16) or made of faces (64).
const MESHES: i64 = 16 | 64;

fn polyline(record: &Record) -> Result<RawShape, String> {
    let flags = record.whole(70);
    if record.kind == "POLYLINE" && flags & MESHES != 0 {
        return Err("is a mesh, not a line in the plane".to_owned());
    }
    if record.vertices.iter().any(|vertex| vertex.at.y.is_nan()) {
        return Err("has a vertex without its group 20".to_owned());
    }
    let closed = flags & 1 == 1;
    if record.vertices.len() < 2 {
        return Err(format!("has {} vertices", record.vertices.len()));
    }
    Ok(RawShape::Polyline {
        vertices: record.vertices.clone(),
        closed,
        flipped: flipped(record)?,
    })
}

fn ellipse(record: &Record) -> Result<RawShape, String> {
    let first = record.point(11, 21)?.to_vec2();
    let ratio = record.number(40)?;
    let way = if flipped(record)? { -1.0 } else { 1.0 };
    if ratio == 0.0 {
        return Err("has no width".to_owned());
    }
    Ok(RawShape::Ellipse(Box::new(RawEllipse {
        centre: record.point(10, 20)?,
        first,
        second: Vec2::new(-first.y, first.x) * (ratio * way),
        start: record.get_or(41, 0.0),
        end: record.get_or(42, crate::geometry::number::FULL_TURN),
    })))
}

fn spline(record: &Record) -> Result<RawShape, String> {
    let whole = |points: &[Point]| points.iter().all(|point| !point.y.is_nan());
    if !whole(&record.points) || !whole(&record.fit_points) {
        return Err("has a point without its y".to_owned());
    }
    let degree = usize::try_from(record.whole(71)).unwrap_or(0);
    Ok(RawShape::Spline(Box::new(RawSpline {
        degree,
        points: record.points.clone(),
        weights: record.weights.clone(),
        knots: record.knots.clone(),
        through: record.fit_points.clone(),
        closed: record.whole(70) & 1 == 1,
    })))
}

fn insert(record: &Record) -> Result<RawShape, String> {
    Ok(RawShape::Insert(Box::new(RawInsert {
        block: super::text::decoded(&record.name),
        at: record.point(10, 20)?,
        scale: Vec2::new(record.get_or(41, 1.0), record.get_or(42, 1.0)),
        turn: record.get_or(50, 0.0),
        columns: record.whole(70).max(1),
        rows: record.whole(71).max(1),
        step: Vec2::new(record.get_or(44, 0.0), record.get_or(45, 0.0)),
        flipped: flipped(record)?,
    })))
}
