//! Path strings into lines and arcs.

use svgtypes::PathParser;
use svgtypes::PathSegment;

use super::malformed;
use crate::formats::FormatError;
use crate::formats::drawn::middle_of_cross;
use crate::geometry::Arc;
use crate::geometry::Contour;
use crate::geometry::GeometryError;
use crate::geometry::Path;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::Turn;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::sheet::Shape;

/// One run of the pen.
struct Run {
    start: Point,
    at: Point,
    segments: Vec<Segment>,
    closed: bool,
}

impl Run {
    const fn new(start: Point) -> Self {
        Self {
            start,
            at: start,
            segments: Vec::new(),
            closed: false,
        }
    }
}

/// The shapes that the path string draws; the cross of a spot is a spot.
pub(super) fn shapes(data: &str, unit: f64) -> Result<Vec<Shape>, FormatError> {
    let place = |x: f64, y: f64| Point::new(x * unit, -y * unit);
    let mut runs: Vec<Run> = Vec::new();
    for segment in PathParser::from(data) {
        let segment = segment.map_err(|error| malformed(format!("a path: {error}")))?;
        if let PathSegment::MoveTo { abs: true, x, y } = segment {
            runs.push(Run::new(place(x, y)));
            continue;
        }
        let run = runs
            .last_mut()
            .filter(|run| !run.closed)
            .ok_or_else(|| malformed("a path that does not start with its place"))?;
        match segment {
            PathSegment::LineTo { abs: true, x, y } => {
                let end = place(x, y);
                run.segments.push(Segment::line(run.at, end));
                run.at = end;
            }
            PathSegment::EllipticalArc {
                abs: true,
                rx,
                ry,
                large_arc,
                sweep,
                x,
                y,
                ..
            } if rx == ry => {
                let end = place(x, y);
                // y up, growing angles of the format turn to the right
                let turn = if sweep {
                    Turn::Clockwise
                } else {
                    Turn::Anticlockwise
                };
                let reach = if large_arc { Reach::Long } else { Reach::Short };
                let arc = arc(run.at, end, rx * unit, turn, reach).map_err(no_geometry)?;
                run.segments.push(arc.into());
                run.at = end;
            }
            PathSegment::ClosePath { .. } => {
                if number::length(run.at - run.start) > tolerance::SAME_POINT {
                    run.segments.push(Segment::line(run.at, run.start));
                }
                run.closed = true;
            }
            _ => return Err(malformed("a path with something that is not written here")),
        }
    }
    if let Some(spot) = spot(&runs) {
        return Ok(vec![Shape::Spot(spot)]);
    }
    runs.into_iter().map(shape).collect()
}

/// Which of the two arcs between two points.
#[derive(Clone, Copy, PartialEq)]
enum Reach {
    Short,
    Long,
}

/// The arc of the format: a radius that is too small is enlarged to half the distance (SVG 1.1,
/// appendix F.6.6).
fn arc(
    start: Point,
    end: Point,
    radius: f64,
    turn: Turn,
    reach: Reach,
) -> Result<Arc, GeometryError> {
    let half = number::length(end - start) / 2.0;
    let radius = radius.abs().max(half);
    match reach {
        Reach::Short => Arc::with_radius(start, end, radius, turn),
        Reach::Long => {
            // about the centre of the short arc that turns the other way
            let other = Arc::with_radius(start, end, radius, turn.reversed())?;
            Ok(Arc::from_centre(start, end, other.centre(), turn))
        }
    }
}

fn shape(run: Run) -> Result<Shape, FormatError> {
    if run.closed {
        let contour = Contour::from_segments(run.segments).map_err(no_geometry)?;
        return Ok(Shape::Contour(contour));
    }
    let untraced = |segment| Piece::new(segment, SourceId::UNTRACED);
    let path = Path::new(run.segments.into_iter().map(untraced).collect()).map_err(no_geometry)?;
    Ok(Shape::Path(path))
}

#[expect(clippy::needless_pass_by_value, reason = "for map_err")]
fn no_geometry(error: GeometryError) -> FormatError {
    malformed(format!("a path that is none: {error}"))
}

/// The middle of two lines of one length, one lying and one standing.
fn spot(runs: &[Run]) -> Option<Point> {
    let [lying, standing] = runs else {
        return None;
    };
    let line = |run: &Run| match run.segments.as_slice() {
        [Segment::Line(line)] if !run.closed => Some(*line),
        _ => None,
    };
    middle_of_cross(&line(lying)?, &line(standing)?)
}
