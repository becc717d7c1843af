//! Contours, paths and regions as paths of lines and cubic curves.

use kurbo::BezPath;
use kurbo::PathEl;

use super::check_tolerance;
use crate::geometry::Arc;
use crate::geometry::Contour;
use crate::geometry::GeometryError;
use crate::geometry::Path;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::Vec2;
use crate::geometry::number;

/// The contour as a closed path. Lines stay lines; an arc becomes as few equal cubic curves as stay
/// within `tolerance` millimetres of it, which lie outside the circle and touch it at their ends.
///
/// # Accuracy
/// A cubic with handles 4/3·tan(θ/4)·r over an arc of angle θ leaves the circle by less than
/// (2/27)·r·sin⁶(θ/4)/cos²(θ/4): three of them a quadrant keep 0.2 µm at a radius of 500 mm.
///
/// # Errors
/// [`GeometryError::NotUsable`] for a tolerance below a nanometre or that is no number.
///
/// # Source
/// Goldapp, "Approximation of circular arcs by cubic polynomials", Computer Aided Geometric Design 8
/// (1991), from memory; checked against the table of drifts in the tests.
pub fn contour_to_bezier(contour: &Contour, tolerance: f64) -> Result<BezPath, GeometryError> {
    check_tolerance(tolerance)?;
    let mut path = BezPath::new();
    add_closed(&mut path, contour, tolerance);
    Ok(path)
}

/// The open path as a path.
///
/// # Accuracy
/// As [`contour_to_bezier`].
///
/// # Errors
/// As [`contour_to_bezier`].
pub fn path_to_bezier(path: &Path, tolerance: f64) -> Result<BezPath, GeometryError> {
    check_tolerance(tolerance)?;
    let mut bezier = BezPath::new();
    bezier.move_to(path.start());
    for segment in path.segments() {
        add_segment(&mut bezier, segment, tolerance);
    }
    Ok(bezier)
}

/// The region as one path of closed parts: the outer contour anticlockwise, then the holes clockwise, so
/// that both filling rules give the material.
///
/// # Accuracy
/// As [`contour_to_bezier`].
///
/// # Errors
/// As [`contour_to_bezier`].
pub fn region_to_bezier(region: &Region, tolerance: f64) -> Result<BezPath, GeometryError> {
    check_tolerance(tolerance)?;
    let mut path = BezPath::new();
    for contour in region.contours() {
        add_closed(&mut path, contour, tolerance);
    }
    Ok(path)
}

fn add_closed(path: &mut BezPath, contour: &Contour, tolerance: f64) {
    let segments = contour.segments();
    let last = segments.len() - 1;
    for (index, segment) in segments.enumerate() {
        if index == 0 {
            path.move_to(segment.start());
        }
        // closing draws the last line
        if index < last || matches!(segment, Segment::Arc(_)) {
            add_segment(path, segment, tolerance);
        }
    }
    path.close_path();
}

fn add_segment(path: &mut BezPath, segment: &Segment, tolerance: f64) {
    match segment {
        Segment::Line(line) => path.line_to(line.end),
        Segment::Arc(arc) => {
            let count = cubic_count(arc, tolerance);
            let sweep = arc.sweep() / f64::from(count);
            let handle = 4.0 / 3.0 * number::tan(sweep / 4.0);
            let mut from = arc.start();
            for index in 1..=count {
                let to = arc.point_at(f64::from(index) / f64::from(count));
                let forward =
                    |at: Point| -> Vec2 { number::left_normal(at - arc.centre()) * handle };
                path.curve_to(from + forward(from), to - forward(to), to);
                from = to;
            }
        }
    }
}

/// How many equal cubics, of no more than a quarter turn each, keep the tolerance.
fn cubic_count(arc: &Arc, tolerance: f64) -> u32 {
    let quadrants = arc.sweep().abs() / number::QUARTER_TURN;
    let mut count = 1;
    while f64::from(count) < quadrants - 1e-9
        || drift(arc.radius(), arc.sweep() / f64::from(count)) > tolerance
    {
        count += 1;
    }
    count
}

/// Bound of the distance between an arc and its cubic.
fn drift(radius: f64, sweep: f64) -> f64 {
    let (sine, cosine) = (number::sin(sweep / 4.0), number::cos(sweep / 4.0));
    let cube = sine * sine * sine;
    radius * 2.0 / 27.0 * cube * cube / (cosine * cosine)
}

/// A part of a path.
#[derive(Clone, Debug, PartialEq)]
pub enum Outline {
    /// Closed.
    Closed(Contour),
    /// Open.
    Open(Path),
}

/// A path that is no outline.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum BezierError {
    /// An element is a curve, which has no exact arc or line.
    #[error(
        "element {element} of the path is a curve, not a line; convert curves to lines and arcs first"
    )]
    Curve {
        /// Its number, from 0.
        element: usize,
    },
    /// A part of the path is no contour or path.
    #[error("the part of the path that starts at element {element}: {error}")]
    Part {
        /// Number of its first element, from 0.
        element: usize,
        /// What is wrong with it.
        error: GeometryError,
    },
}

/// Reads a path of straight lines: each part closed, or ending where it starts, becomes a contour, each
/// other an open path. Parts of a single point are left out, and so are lines without any length.
///
/// # Errors
/// [`BezierError::Curve`] for curves, [`BezierError::Part`] for parts that the kernel refuses.
pub fn from_bezier(path: &BezPath) -> Result<Vec<Outline>, BezierError> {
    let mut outlines = Vec::new();
    let mut part = Part::default();
    for (element, entry) in path.elements().iter().enumerate() {
        match entry {
            PathEl::MoveTo(point) => {
                outlines.extend(part.finish()?);
                part = Part {
                    element,
                    points: vec![*point],
                };
            }
            PathEl::LineTo(point) => part.line_to(*point),
            PathEl::ClosePath => {
                let start = part.points.first().copied();
                if let Some(start) = start {
                    part.line_to(start);
                    outlines.extend(part.finish()?);
                    // what follows starts where this part did
                    part = Part {
                        element,
                        points: vec![start],
                    };
                }
            }
            PathEl::QuadTo(..) | PathEl::CurveTo(..) => {
                return Err(BezierError::Curve { element });
            }
        }
    }
    outlines.extend(part.finish()?);
    Ok(outlines)
}

/// The part being read.
#[derive(Default)]
struct Part {
    element: usize,
    points: Vec<Point>,
}

impl Part {
    fn line_to(&mut self, point: Point) {
        if self.points.last() != Some(&point) {
            self.points.push(point);
        }
    }

    fn finish(&self) -> Result<Option<Outline>, BezierError> {
        let (Some(first), Some(last)) = (self.points.first(), self.points.last()) else {
            return Ok(None);
        };
        if self.points.len() < 2 {
            return Ok(None);
        }
        let line = |pair: &[Point]| match pair {
            [from, to] => Some(Segment::line(*from, *to)),
            _ => None,
        };
        let pieces = self
            .points
            .windows(2)
            .filter_map(line)
            .map(|segment| Piece::new(segment, SourceId::UNTRACED))
            .collect();
        let made = if first == last {
            Contour::new(pieces).map(Outline::Closed)
        } else {
            Path::new(pieces).map(Outline::Open)
        };
        made.map(Some).map_err(|error| BezierError::Part {
            element: self.element,
            error,
        })
    }
}

#[cfg(test)]
mod tests {
    use kurbo::ParamCurve;
    use kurbo::PathSeg;
    use kurbo::Shape;

    use super::*;

    fn circle(radius: f64) -> Contour {
        Contour::circle(Point::new(5.0, -3.0), radius, SourceId::UNTRACED).expect("a circle")
    }

    /// Greatest distance of the path from the circle about (5, −3).
    fn greatest_drift(path: &BezPath, radius: f64) -> f64 {
        path.segments()
            .flat_map(|segment: PathSeg| {
                (0..=400_i32).map(move |step| segment.eval(f64::from(step) / 400.0))
            })
            .map(|at| (number::length(at - Point::new(5.0, -3.0)) - radius).abs())
            .fold(0.0, f64::max)
    }

    /// Drifts of the cubic with handles 4/3·tan(θ/4), for radius 1: 90° from Mortensen, "Approximate a
    /// circle with cubic Bézier curves"; the others computed to eight digits.
    #[test]
    fn the_bound_holds_and_is_near() {
        for (degrees, measured) in [
            (90.0_f64, 2.7253e-4),
            (60.0, 2.3864e-5),
            (45.0, 4.2455e-6),
            (30.0, 3.7266e-7),
            (22.5, 6.632e-8),
            (15.0, 5.82e-9),
        ] {
            let bound = drift(1.0, degrees.to_radians());
            let ratio = bound / measured;
            assert!(
                (0.9995..1.01).contains(&ratio),
                "{degrees}°: {bound:e} for {measured:e}"
            );
        }
    }

    #[test]
    fn curves_stay_within_the_tolerance() {
        for (radius, tolerance, count) in [(500.0, 2e-4, 12), (500.0, 1e-3, 10), (1.0, 1.0, 4)] {
            let path = contour_to_bezier(&circle(radius), tolerance).expect("a tolerance");
            let curves = path.segments().count();
            assert_eq!(curves, count, "radius {radius} within {tolerance}");
            let drift = greatest_drift(&path, radius);
            assert!(drift <= tolerance, "{drift:e} over {tolerance:e}");
        }
        for tolerance in [0.0, -1.0, f64::NAN, f64::INFINITY] {
            assert!(
                contour_to_bezier(&circle(1.0), tolerance).is_err(),
                "{tolerance}"
            );
        }
    }

    #[test]
    fn a_ring_has_its_area_and_both_directions() {
        let ring = Region::new(circle(50.0), vec![circle(30.0)]);
        let path = region_to_bezier(&ring, 1e-3).expect("a tolerance");
        let off = path.area().abs() / ring.area() - 1.0;
        assert!(off.abs() < 1e-4, "area off by {off:e}");
        assert_eq!(path.winding(Point::new(5.0, -3.0)), 0, "the hole");
    }

    #[test]
    fn lines_come_back_as_they_were() {
        let points = [(0.0, 0.0), (10.0, 0.0), (10.0, 7.0)].map(Point::from);
        let triangle = Contour::polygon(&points).expect("closed");
        let open = Path::new(triangle.pieces()[..2].to_vec()).expect("joined");
        let mut path = contour_to_bezier(&triangle, 1e-3).expect("a tolerance");
        path.extend(path_to_bezier(&open, 1e-3).expect("a tolerance"));
        let back = from_bezier(&path).expect("lines only");
        assert_eq!(
            back,
            vec![Outline::Closed(triangle), Outline::Open(open)],
            "there and back"
        );
    }

    #[test]
    fn curves_and_faults_are_named() {
        let path = contour_to_bezier(&circle(5.0), 1e-3).expect("a tolerance");
        assert_eq!(
            from_bezier(&path),
            Err(BezierError::Curve { element: 1 }),
            "a curve"
        );
        let mut path = BezPath::new();
        path.move_to((0.0, 0.0));
        path.line_to((f64::NAN, 0.0));
        path.line_to((1.0, 1.0));
        assert!(
            matches!(
                from_bezier(&path),
                Err(BezierError::Part { element: 0, .. })
            ),
            "no number"
        );
        assert_eq!(from_bezier(&BezPath::new()), Ok(vec![]), "an empty path");
    }
}
