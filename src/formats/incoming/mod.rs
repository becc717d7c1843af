//! Drawings that come from elsewhere: any DXF or SVG, as lines and arcs in millimetres, each thing with
//! its place in the file.
//!
//! Nothing is dropped in silence: what has no outline (words, hatches, dimensions, pictures) is counted by
//! kind, and what cannot be read is listed with its line and the reason. Ellipses and splines are followed
//! by tangent arcs within a stated tolerance, and say how near they are. Any bytes may be given: memory
//! and time are bounded, and there is no panic.

mod fitted;
pub(in crate::formats) mod place;
mod svg;
pub mod unit;

use super::FileFormat;
use super::FormatError;
use super::dxf;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::tolerance;
pub(in crate::formats) use fitted::Follower;
pub use unit::FileUnit;
pub use unit::Known;
use unit::UnitOfLength;

/// How a drawing is read.
#[derive(Clone, Debug, PartialEq)]
pub struct ReadOptions {
    /// Millimetres in a unit of the file, where the user says so; it then overrides the file.
    pub unit: Option<UnitOfLength>,
    /// How near arcs follow ellipses and splines, in millimetres.
    pub within: f64,
}

impl Default for ReadOptions {
    /// The file's own unit, [`tolerance::FITTED_CURVE`].
    fn default() -> Self {
        Self {
            unit: None,
            within: tolerance::FITTED_CURVE,
        }
    }
}

/// What a drawing holds.
#[derive(Clone, Debug, PartialEq)]
pub struct Incoming {
    /// Which kind of file it is.
    pub format: FileFormat,
    /// The edition, as the file says; empty where it does not.
    pub edition: String,
    /// The unit of its numbers, and how it is known.
    pub unit: FileUnit,
    /// The names of its layers in use, in the order of their first appearance.
    pub layers: Vec<String>,
    /// Everything that has an outline, in the order of the file.
    pub drawn: Vec<Drawn>,
    /// Every kind of thing in it, by name.
    pub kinds: Vec<KindCount>,
    /// What could not be read, with the reason.
    pub faults: Vec<Fault>,
    /// What the file says about itself.
    pub comments: Vec<String>,
}

/// Where something stands in a file.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct FilePlace {
    /// Its line, from 1.
    pub line: usize,
    /// Its handle, where it has one (DXF); 0 where not.
    pub handle: u64,
    /// The line of the reference that draws it (INSERT, `use`); 0 where it is drawn directly.
    pub through: usize,
}

/// Something with an outline.
#[derive(Clone, Debug, PartialEq)]
pub struct Drawn {
    /// Where it stands in the file.
    pub place: FilePlace,
    /// Its layer, by number.
    pub layer: usize,
    /// What it is in the file.
    pub kind: DrawnKind,
    /// Its geometry in millimetres, y up.
    pub shape: DrawnShape,
    /// How far its arcs lie from the curve in the file at most, in millimetres; 0 where they are it.
    pub deviation: f64,
}

/// Its geometry.
#[derive(Clone, Debug, PartialEq)]
pub enum DrawnShape {
    /// Lines and arcs end to end, as they stand in the file: pieces may have no length, ends of pieces in
    /// a row are the same but for rounding. Whether the file calls it closed.
    Run {
        /// The lines and arcs.
        segments: Vec<Segment>,
        /// Whether the file says that it closes.
        closed: bool,
    },
    /// A point.
    Spot(Point),
}

/// What something drawn is in the file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum DrawnKind {
    /// A straight line.
    Line,
    /// A circular arc.
    Arc,
    /// A circle.
    Circle,
    /// Lines and arcs in a row.
    Polyline,
    /// An ellipse or a part of one.
    Ellipse,
    /// A spline or Bézier curve.
    Spline,
    /// A point.
    Point,
}

impl DrawnKind {
    /// Its name.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Line => "line",
            Self::Arc => "arc",
            Self::Circle => "circle",
            Self::Polyline => "polyline",
            Self::Ellipse => "ellipse",
            Self::Spline => "spline",
            Self::Point => "point",
        }
    }
}

/// How often a kind of thing stands in the file.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KindCount {
    /// The name that the format has for it.
    pub name: String,
    /// How many there are, those drawn through references once.
    pub count: usize,
    /// Why it is not among what is drawn; empty where it is.
    pub left_out: String,
    /// The line of the first.
    pub first_line: usize,
}

/// Something that could not be read.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fault {
    /// Where it stands.
    pub place: FilePlace,
    /// The name that the format has for it.
    pub kind: String,
    /// What is wrong with it.
    pub problem: String,
}

/// Files longer than this are refused, in bytes.
pub(in crate::formats) const LARGEST_FILE: usize = 128 << 20;
/// Most things drawn, references followed.
pub(in crate::formats) const MOST_DRAWN: usize = 1_000_000;
/// Most lines and arcs.
pub(in crate::formats) const MOST_SEGMENTS: usize = 3_000_000;
/// Most layers.
pub(in crate::formats) const MOST_LAYERS: usize = 4096;
/// Most faults that are listed one by one.
pub(in crate::formats) const MOST_FAULTS: usize = 1000;
/// References within references are followed this deep.
pub(in crate::formats) const DEEPEST: usize = 24;

/// Reads a drawing: SVG if it starts as XML does, DXF otherwise. A file that does not say its unit is read
/// in the likely one, with the reason.
///
/// # Accuracy
/// Lines, arcs and circles as the file has them, in `f64`; ellipses and splines within
/// [`ReadOptions::within`], measured.
///
/// # Errors
/// [`FormatError::TooMuch`] for more than 128 MiB, a million things drawn, three million segments, 4096
/// layers or twenty thousand spans of curves; [`FormatError::Malformed`] for bytes that are no such file, or one that is cut off.
///
/// # Example
/// ```
/// use kerfwise::formats::incoming::{ReadOptions, read};
///
/// let text = "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n8\nplate\n10\n5\n20\n5\n40\n2\n0\nENDSEC\n0\nEOF\n";
/// let drawing = read(text.as_bytes(), &ReadOptions::default())?;
/// assert_eq!((drawing.drawn.len(), drawing.layers.as_slice()), (1, &["plate".to_owned()][..]));
/// # Ok::<(), kerfwise::formats::FormatError>(())
/// ```
pub fn read(bytes: &[u8], options: &ReadOptions) -> Result<Incoming, FormatError> {
    let format = format_of(bytes);
    if bytes.len() > LARGEST_FILE {
        return Err(too_much(format, "bytes", bytes.len(), LARGEST_FILE));
    }
    match format {
        FileFormat::Svg => svg::read(bytes, options),
        FileFormat::Dxf => dxf::read_incoming(bytes, options),
    }
}

fn format_of(bytes: &[u8]) -> FileFormat {
    let bytes = bytes.strip_prefix(b"\xEF\xBB\xBF").unwrap_or(bytes);
    let first = bytes.iter().find(|byte| !byte.is_ascii_whitespace());
    if first == Some(&b'<') {
        FileFormat::Svg
    } else {
        FileFormat::Dxf
    }
}

pub(in crate::formats) const fn too_much(
    format: FileFormat,
    what: &'static str,
    found: usize,
    limit: usize,
) -> FormatError {
    FormatError::TooMuch {
        format: format.name(),
        what,
        found,
        limit,
    }
}

/// Takes what is drawn, within limits.
#[derive(Debug)]
pub(in crate::formats) struct Collector {
    format: FileFormat,
    pub(in crate::formats) layers: Vec<String>,
    /// Numbers of layers in the order of their names.
    by_name: std::collections::BTreeMap<String, usize>,
    last_layer: usize,
    pub(in crate::formats) drawn: Vec<Drawn>,
    segments: usize,
    kinds: std::collections::BTreeMap<String, KindCount>,
    pub(in crate::formats) faults: Vec<Fault>,
}

impl Collector {
    pub(in crate::formats) const fn new(format: FileFormat) -> Self {
        Self {
            format,
            layers: Vec::new(),
            by_name: std::collections::BTreeMap::new(),
            last_layer: 0,
            drawn: Vec::new(),
            segments: 0,
            kinds: std::collections::BTreeMap::new(),
            faults: Vec::new(),
        }
    }

    pub(in crate::formats) fn layer(&mut self, name: &str) -> Result<usize, FormatError> {
        if self.layers.get(self.last_layer).is_some_and(|l| l == name) {
            return Ok(self.last_layer);
        }
        let number = if let Some(&number) = self.by_name.get(name) {
            number
        } else {
            let number = self.layers.len();
            if number >= MOST_LAYERS {
                return Err(too_much(self.format, "layers", number + 1, MOST_LAYERS));
            }
            self.layers.push(name.to_owned());
            self.by_name.insert(name.to_owned(), number);
            number
        };
        self.last_layer = number;
        Ok(number)
    }

    pub(in crate::formats) fn count(&mut self, name: &str, left_out: &str, line: usize) {
        if let Some(kind) = self.kinds.get_mut(name) {
            kind.count += 1;
            return;
        }
        // names are the file's own: a hostile one has many
        let name = if self.kinds.len() < 256 {
            name
        } else {
            "others"
        };
        let kind = self.kinds.entry(name.to_owned()).or_insert(KindCount {
            name: name.to_owned(),
            count: 0,
            left_out: left_out.to_owned(),
            first_line: line,
        });
        kind.count += 1;
    }

    pub(in crate::formats) fn fault(&mut self, place: FilePlace, kind: &str, problem: String) {
        if self.faults.len() < MOST_FAULTS {
            self.faults.push(Fault {
                place,
                kind: kind.to_owned(),
                problem,
            });
        } else if self.faults.len() == MOST_FAULTS {
            self.faults.push(Fault {
                place,
                kind: kind.to_owned(),
                problem: "and more after this one, which are not listed".to_owned(),
            });
        }
    }

    /// Adds something drawn; numbers beyond a kilometre or none are a fault instead.
    pub(in crate::formats) fn add(&mut self, drawn: Drawn) -> Result<(), FormatError> {
        let usable = |point: Point| {
            let fine = |value: f64| value.abs() <= tolerance::LARGEST_COORDINATE;
            fine(point.x) && fine(point.y)
        };
        let (fine, segments) = match &drawn.shape {
            DrawnShape::Spot(point) => (usable(*point), 0),
            DrawnShape::Run { segments, .. } => (
                segments.iter().all(|segment| {
                    let arc_fine = match segment {
                        Segment::Line(_) => true,
                        Segment::Arc(arc) => {
                            arc.radius().is_finite() && usable_centre(arc.centre())
                        }
                    };
                    arc_fine && usable(segment.start()) && usable(segment.end())
                }),
                segments.len(),
            ),
        };
        if !fine {
            let problem = "lies more than 1 km from the origin, or has a number that is none";
            self.fault(drawn.place, drawn.kind.word(), problem.to_owned());
            return Ok(());
        }
        self.segments += segments;
        if self.segments > MOST_SEGMENTS {
            return Err(too_much(
                self.format,
                "lines and arcs",
                self.segments,
                MOST_SEGMENTS,
            ));
        }
        if self.drawn.len() >= MOST_DRAWN {
            return Err(too_much(
                self.format,
                "things drawn",
                MOST_DRAWN + 1,
                MOST_DRAWN,
            ));
        }
        self.drawn.push(drawn);
        Ok(())
    }

    pub(in crate::formats) fn kinds(&self) -> Vec<KindCount> {
        self.kinds.values().cloned().collect()
    }
}

fn usable_centre(centre: Point) -> bool {
    // a nearly straight arc has a far centre
    centre.x.abs() <= 1e15 && centre.y.abs() <= 1e15
}

#[cfg(test)]
mod tests;
