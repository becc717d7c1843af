//! The engines of the table, each given the outline in the form it likes.

use cavalier_contours::polyline::PlineSource;
use cavalier_contours::polyline::PlineSourceMut;
use cavalier_contours::polyline::Polyline;
use cavalier_contours::shape_algorithms::Shape;
use cavalier_contours::shape_algorithms::ShapeOffsetOptions;
use clipper2_rust::EndType;
use clipper2_rust::JoinType;
use geo::Area;
use geo::Buffer;
use geo::algorithm::buffer::BufferStyle;
use geo::algorithm::buffer::LineJoin as GeoJoin;
use i_overlay::mesh::float::outline::offset::OutlineOffset;
use i_overlay::mesh::float::style::LineJoin;
use i_overlay::mesh::float::style::OutlineStyle;
use kerfwise::geometry::Arc;
use kerfwise::geometry::Contour;
use kerfwise::geometry::Region;
use kerfwise::geometry::Segment;
use kerfwise::geometry::offset::Join;
use kerfwise::geometry::offset::offset;

use super::shapes::Outline;

/// Chord error of the engines that know no arcs, in millimetres.
pub(crate) const CHORD: f64 = 1e-3;

/// A run that gives the area of the result.
pub(crate) type Run = Box<dyn Fn() -> f64>;

pub(crate) fn ours(outline: &Outline, distance: f64) -> Run {
    let mut contours: Vec<Contour> = outline.iter().map(|vertices| contour(vertices)).collect();
    let outer = contours.remove(0);
    let region = Region::new(outer, contours);
    Box::new(move || {
        let found = offset(&region, distance, Join::Round).expect("a certified offset");
        found.regions.iter().map(Region::area).sum()
    })
}

fn contour(vertices: &[(f64, f64, f64)]) -> Contour {
    let count = vertices.len();
    let segments = (0..count).map(|index| {
        let ((x0, y0, bulge), (x1, y1, _)) = (vertices[index], vertices[(index + 1) % count]);
        let (start, end) = ((x0, y0).into(), (x1, y1).into());
        if bulge == 0.0 {
            Segment::line(start, end)
        } else {
            Segment::Arc(Arc::from_bulge(start, end, bulge).expect("an arc"))
        }
    });
    Contour::from_segments(segments).expect("a contour")
}

pub(crate) fn cavalier(outline: &Outline, distance: f64) -> Run {
    let line = |vertices: &Vec<(f64, f64, f64)>, hole: bool| {
        let mut line = Polyline::new_closed();
        for &(x, y, bulge) in vertices {
            line.add(x, y, bulge);
        }
        if (line.area() < 0.0) != hole {
            line.invert_direction_mut();
        }
        line
    };
    if let [only] = outline.as_slice() {
        let line = line(only, false);
        // positive is to the left there
        return Box::new(move || {
            line.parallel_offset(-distance)
                .iter()
                .map(PlineSource::area)
                .sum()
        });
    }
    let lines: Vec<Polyline> = outline
        .iter()
        .enumerate()
        .map(|(place, vertices)| line(vertices, place > 0))
        .collect();
    Box::new(move || {
        let shape = Shape::from_plines(lines.iter().cloned());
        let found = shape.parallel_offset(-distance, &ShapeOffsetOptions::default());
        let both = found.ccw_plines.iter().chain(&found.cw_plines);
        both.map(|line| line.polyline.area()).sum()
    })
}

/// The outline as polygons, outer anticlockwise, holes clockwise.
pub(crate) fn flattened(outline: &Outline) -> Vec<Vec<[f64; 2]>> {
    let flat = |(place, vertices): (usize, &Vec<(f64, f64, f64)>)| {
        let mut points = Vec::new();
        for index in 0..vertices.len() {
            let (x0, y0, bulge) = vertices[index];
            let (x1, y1, _) = vertices[(index + 1) % vertices.len()];
            points.push([x0, y0]);
            if bulge == 0.0 {
                continue;
            }
            let sweep = 4.0 * bulge.atan();
            let half = (sweep / 2.0).tan();
            let centre = [
                f64::midpoint(x0, x1) - (y1 - y0) / (2.0 * half),
                f64::midpoint(y0, y1) + (x1 - x0) / (2.0 * half),
            ];
            let radius = (x0 - centre[0]).hypot(y0 - centre[1]);
            let start = (y0 - centre[1]).atan2(x0 - centre[0]);
            let step = 2.0 * (1.0 - CHORD / radius).acos();
            let count = (sweep.abs() / step).ceil();
            let mut index = 1.0;
            while index < count {
                let angle = start + sweep * index / count;
                points.push([
                    centre[0] + radius * angle.cos(),
                    centre[1] + radius * angle.sin(),
                ]);
                index += 1.0;
            }
        }
        if (signed_area(&points) < 0.0) != (place > 0) {
            points.reverse();
        }
        points
    };
    outline.iter().enumerate().map(flat).collect()
}

fn signed_area(points: &[[f64; 2]]) -> f64 {
    let next = points.iter().cycle().skip(1);
    points
        .iter()
        .zip(next)
        .map(|(a, b)| a[0] * b[1] - a[1] * b[0])
        .sum::<f64>()
        / 2.0
}

/// Angle of a chord of that error on a circle of this radius.
fn chord_angle(radius: f64) -> f64 {
    2.0 * (1.0 - CHORD / radius.abs()).acos()
}

pub(crate) fn clipper(outline: &Outline, distance: f64) -> Run {
    let paths: clipper2_rust::PathsD = flattened(outline)
        .into_iter()
        .map(|ring| {
            ring.into_iter()
                .map(|[x, y]| clipper2_rust::PointD::new(x, y))
                .collect()
        })
        .collect();
    Box::new(move || {
        let (round, polygon) = (JoinType::Round, EndType::Polygon);
        let found = clipper2_rust::inflate_paths_d(&paths, distance, round, polygon, 2.0, 6, CHORD);
        found
            .iter()
            .map(|ring| signed_area(&ring.iter().map(|p| [p.x, p.y]).collect::<Vec<_>>()))
            .sum()
    })
}

pub(crate) fn i_overlay(outline: &Outline, distance: f64) -> Run {
    let shape = vec![flattened(outline)];
    Box::new(move || {
        let style = OutlineStyle::new(distance).line_join(LineJoin::Round(chord_angle(distance)));
        let found = shape.outline(&style);
        found.iter().flatten().map(|ring| signed_area(ring)).sum()
    })
}

pub(crate) fn geo(outline: &Outline, distance: f64) -> Run {
    let mut rings = flattened(outline).into_iter().map(|ring| {
        geo::LineString::from(ring.into_iter().map(|[x, y]| (x, y)).collect::<Vec<_>>())
    });
    let outer = rings.next().expect("an outline");
    let polygon = geo::Polygon::new(outer, rings.collect());
    Box::new(move || {
        let join = GeoJoin::Round(chord_angle(distance));
        let style = BufferStyle::new(distance).line_join(join);
        polygon.buffer_with_style(style).unsigned_area()
    })
}
