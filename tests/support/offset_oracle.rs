//! An independent answer for round offsets: the flattened outline, joined with (or reduced by) a disc
//! at each vertex, a rectangle along each line and a ring sector along each arc, all as polygons.
//!
//! Nothing here uses the library's own distances, flattening or offsets: outlines are rows of
//! `x y bulge`, results are read back from centres, radii and sweeps.

use std::f64::consts::PI;
use std::f64::consts::TAU;

use geo::Area;
use geo::BooleanOps;
use geo::LineString;
use geo::MultiPolygon;
use geo::Polygon;
use geo::unary_union;

use kerfwise::geometry::Contour;
use kerfwise::geometry::Region;
use kerfwise::geometry::Segment;

use super::support::Vertex;

type Xy = [f64; 2];

/// A line or arc as the oracle sees it.
#[derive(Clone, Copy, Debug)]
pub(crate) enum Edge {
    Line(Xy, Xy),
    /// Centre, radius, angle at the start, sweep.
    Arc(Xy, f64, f64, f64),
}

/// The edges of a closed outline.
pub(crate) fn edges(vertices: &[Vertex]) -> Vec<Edge> {
    let count = vertices.len();
    let mut result = Vec::new();
    for index in 0..count {
        let (x0, y0, bulge) = vertices[index];
        let (x1, y1, _) = vertices[(index + 1) % count];
        if bulge == 0.0 {
            result.push(Edge::Line([x0, y0], [x1, y1]));
            continue;
        }
        let sweep = 4.0 * bulge.atan();
        let (dx, dy) = (x1 - x0, y1 - y0);
        let half = (sweep / 2.0).tan();
        let centre = [
            (x0 + x1) / 2.0 - dy / (2.0 * half),
            (y0 + y1) / 2.0 + dx / (2.0 * half),
        ];
        let radius = ((x0 - centre[0]).powi(2) + (y0 - centre[1]).powi(2)).sqrt();
        let angle = (y0 - centre[1]).atan2(x0 - centre[0]);
        result.push(Edge::Arc(centre, radius, angle, sweep));
    }
    result
}

/// Distance of a point from an edge.
pub(crate) fn distance(point: Xy, edge: &Edge) -> f64 {
    let apart = |a: Xy, b: Xy| ((a[0] - b[0]).powi(2) + (a[1] - b[1]).powi(2)).sqrt();
    match *edge {
        Edge::Line(a, b) => {
            let (dx, dy) = (b[0] - a[0], b[1] - a[1]);
            let square = dx * dx + dy * dy;
            let t = ((point[0] - a[0]) * dx + (point[1] - a[1]) * dy) / square;
            let t = t.clamp(0.0, 1.0);
            apart(point, [a[0] + t * dx, a[1] + t * dy])
        }
        Edge::Arc(centre, radius, start, sweep) => {
            let angle = (point[1] - centre[1]).atan2(point[0] - centre[0]);
            let forward = ((angle - start) * sweep.signum()).rem_euclid(TAU);
            if forward <= sweep.abs() {
                return (apart(point, centre) - radius).abs();
            }
            let end = |angle: f64| {
                apart(
                    point,
                    [
                        centre[0] + radius * angle.cos(),
                        centre[1] + radius * angle.sin(),
                    ],
                )
            };
            end(start).min(end(start + sweep))
        }
    }
}

fn arc_points(arc: (Xy, f64, f64, f64), error: f64, into: &mut Vec<Xy>) {
    let (centre, radius, start, sweep) = arc;
    let step = if radius > error {
        2.0 * (1.0 - error / radius).acos()
    } else {
        PI
    };
    let count = (sweep.abs() / step).ceil().max(1.0);
    let mut index = 0.0;
    while index <= count {
        let angle = start + sweep * (index / count);
        into.push([
            centre[0] + radius * angle.cos(),
            centre[1] + radius * angle.sin(),
        ]);
        index += 1.0;
    }
}

fn ring(points: &[Xy]) -> LineString {
    points.iter().map(|&[x, y]| (x, y)).collect()
}

fn polygon(mut points: Vec<Xy>) -> Polygon {
    let mut twice = 0.0;
    for index in 0..points.len() {
        let (a, b) = (points[index], points[(index + 1) % points.len()]);
        twice += (a[0] - points[0][0]) * (b[1] - points[0][1])
            - (a[1] - points[0][1]) * (b[0] - points[0][0]);
    }
    if twice < 0.0 {
        points.reverse();
    }
    Polygon::new(ring(&points), Vec::new())
}

/// The outline as a polygon's points.
pub(crate) fn flattened(edges: &[Edge], error: f64) -> Vec<Xy> {
    let mut points = Vec::new();
    for edge in edges {
        match *edge {
            Edge::Line(a, _) => points.push(a),
            Edge::Arc(centre, radius, start, sweep) => {
                arc_points((centre, radius, start, sweep), error, &mut points);
                points.pop();
            }
        }
    }
    points
}

/// What lies within `reach` of the edges.
fn swept(contours: &[Vec<Edge>], reach: f64, error: f64) -> MultiPolygon {
    let mut parts = Vec::new();
    for edge in contours.iter().flatten() {
        let mut points = Vec::new();
        let corner = match *edge {
            Edge::Line(a, b) => {
                let (dx, dy) = (b[0] - a[0], b[1] - a[1]);
                let scale = reach / (dx * dx + dy * dy).sqrt();
                let (nx, ny) = (-dy * scale, dx * scale);
                points.extend([
                    [a[0] + nx, a[1] + ny],
                    [a[0] - nx, a[1] - ny],
                    [b[0] - nx, b[1] - ny],
                    [b[0] + nx, b[1] + ny],
                ]);
                a
            }
            Edge::Arc(centre, radius, start, sweep) => {
                // no more than half a turn at a time
                let parts_needed = (sweep.abs() / PI).ceil();
                let part = sweep / parts_needed;
                let mut index = 0.0;
                while index < parts_needed {
                    let from = start + part * index;
                    let mut sector = Vec::new();
                    arc_points((centre, radius + reach, from, part), error, &mut sector);
                    if radius > reach {
                        arc_points(
                            (centre, radius - reach, from + part, -part),
                            error,
                            &mut sector,
                        );
                    } else {
                        sector.push(centre);
                    }
                    parts.push(polygon(sector));
                    index += 1.0;
                }
                [
                    centre[0] + radius * start.cos(),
                    centre[1] + radius * start.sin(),
                ]
            }
        };
        if !points.is_empty() {
            parts.push(polygon(points));
        }
        let mut disc = Vec::new();
        arc_points((corner, reach, 0.0, TAU), error, &mut disc);
        disc.pop();
        parts.push(polygon(disc));
    }
    unary_union(&parts)
}

/// The offset of outline and holes by `distance`, with arcs flattened to within `error`.
pub(crate) fn minkowski(contours: &[Vec<Vertex>], distance: f64, error: f64) -> MultiPolygon {
    let edged: Vec<Vec<Edge>> = contours.iter().map(|contour| edges(contour)).collect();
    let mut rings = edged.iter().map(|contour| flattened(contour, error));
    let outer = rings.next().unwrap_or_default();
    let holes: Vec<Polygon> = rings.map(polygon).collect();
    let mut region = MultiPolygon::new(vec![polygon(outer)]);
    if !holes.is_empty() {
        region = region.difference(&MultiPolygon::new(holes));
    }
    let band = swept(&edged, distance.abs(), error);
    if distance > 0.0 {
        region.union(&band)
    } else {
        region.difference(&band)
    }
}

/// Loops of a polygon set that enclose more than `least`, and its area.
pub(crate) fn loops_and_area(set: &MultiPolygon, least: f64) -> (usize, f64) {
    let mut loops = 0;
    for polygon in &set.0 {
        let rings = std::iter::once(polygon.exterior()).chain(polygon.interiors());
        for ring in rings {
            let area = Polygon::new(ring.clone(), Vec::new()).unsigned_area();
            loops += usize::from(area > least);
        }
    }
    (loops, set.unsigned_area())
}

fn edge_of(segment: &Segment) -> Edge {
    match segment {
        Segment::Line(line) => Edge::Line([line.start.x, line.start.y], [line.end.x, line.end.y]),
        Segment::Arc(arc) => {
            let centre = [arc.centre().x, arc.centre().y];
            let angle = (arc.start().y - centre[1]).atan2(arc.start().x - centre[0]);
            Edge::Arc(centre, arc.radius(), angle, arc.sweep())
        }
    }
}

/// Points along a contour, ends of the pieces among them.
pub(crate) fn samples(contour: &Contour) -> Vec<Xy> {
    let mut points = Vec::new();
    for segment in contour.segments() {
        points.push([segment.start().x, segment.start().y]);
        for t in [0.003, 0.11, 0.37, 0.5, 0.68, 0.93, 0.998] {
            points.push(match edge_of(segment) {
                Edge::Line(a, b) => [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])],
                Edge::Arc(centre, radius, start, sweep) => {
                    let angle = start + t * sweep;
                    [
                        centre[0] + radius * angle.cos(),
                        centre[1] + radius * angle.sin(),
                    ]
                }
            });
        }
    }
    points
}

/// Area of the regions by the polygon of their flattened outlines.
pub(crate) fn flattened_area(regions: &[Region], error: f64) -> f64 {
    let mut sum = 0.0;
    for contour in regions.iter().flat_map(Region::contours) {
        let edges: Vec<Edge> = contour.segments().map(edge_of).collect();
        let points = flattened(&edges, error);
        for index in 0..points.len() {
            let (a, b) = (points[index], points[(index + 1) % points.len()]);
            let origin = points[0];
            sum +=
                (a[0] - origin[0]) * (b[1] - origin[1]) - (a[1] - origin[1]) * (b[0] - origin[0]);
        }
    }
    sum / 2.0
}
