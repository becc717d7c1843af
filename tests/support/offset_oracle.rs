//! An independent answer for round offsets: the flattened outline, joined with (or reduced by) a
//! rectangle along each line, a ring sector along each arc and a sector of a disc at each corner that
//! turns outwards, all as polygons, by the crate `i_overlay`.
//!
//! These pieces are all there is: the nearest point of the outline from a point beyond it lies inside a
//! line or arc, on whose normal the point then lies, or at a corner, between whose normals it lies.
//!
//! Nothing here uses the library's own distances, flattening or offsets: outlines are rows of
//! `x y bulge`, results are read back from centres, radii and sweeps.
//!
//! Flattened arcs lie inside their circles, so the union is too small by up to the flattening error
//! *e*, and gaps appear between pieces that overlap by less than that. An opening of area A and length
//! L has room for a circle of radius A/L; so it is no such gap if A/L > *e*, or if a point in it is
//! further from the outline than the distance, by the exact formula. What is neither is doubtful.

use std::f64::consts::PI;
use std::f64::consts::TAU;

use i_overlay::core::fill_rule::FillRule;
use i_overlay::core::overlay_rule::OverlayRule;
use i_overlay::float::single::SingleFloatOverlay;

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

/// Arcs of a smaller bulge are taken as chords: their centres lie too far away to be exact.
const FLAT: f64 = 1e-6;

/// The chords of a very flat arc, within 1e-7 mm.
fn flat_arc((a, b): (Xy, Xy), bulge: f64, into: &mut Vec<Edge>) {
    let (dx, dy) = (b[0] - a[0], b[1] - a[1]);
    // the arc is a parabola to well below the last digit that counts
    let bow = bulge * dx.hypot(dy) / 2.0;
    let count = (bow.abs() / 1e-7).sqrt().ceil().max(1.0);
    let on = |t: f64| {
        let out = 2.0 * bulge * t * (1.0 - t);
        [a[0] + dx * t + dy * out, a[1] + dy * t - dx * out]
    };
    let mut before = a;
    let mut index = 1.0;
    while index <= count {
        let after = if index == count { b } else { on(index / count) };
        into.push(Edge::Line(before, after));
        before = after;
        index += 1.0;
    }
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
        if bulge.abs() < FLAT {
            flat_arc(([x0, y0], [x1, y1]), bulge, &mut result);
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
        // no more than half a turn at a time
        let parts = (sweep.abs() / PI).ceil();
        let part = sweep / parts;
        let mut index = 0.0;
        while index < parts {
            result.push(Edge::Arc(centre, radius, angle + part * index, part));
            index += 1.0;
        }
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

fn twice_area(points: &[Xy]) -> f64 {
    let mut twice = 0.0;
    for index in 0..points.len() {
        let (a, b) = (points[index], points[(index + 1) % points.len()]);
        twice += (a[0] - points[0][0]) * (b[1] - points[0][1])
            - (a[1] - points[0][1]) * (b[0] - points[0][0]);
    }
    twice
}

fn length(points: &[Xy]) -> f64 {
    let mut sum = 0.0;
    for index in 0..points.len() {
        let (a, b) = (points[index], points[(index + 1) % points.len()]);
        sum += (a[0] - b[0]).hypot(a[1] - b[1]);
    }
    sum
}

/// Anticlockwise.
fn wound(mut points: Vec<Xy>) -> Vec<Xy> {
    if twice_area(&points) < 0.0 {
        points.reverse();
    }
    points
}

fn start_and_end_angles(edge: &Edge) -> [f64; 2] {
    match *edge {
        Edge::Line(a, b) => [(b[1] - a[1]).atan2(b[0] - a[0]); 2],
        Edge::Arc(_, _, start, sweep) => {
            let quarter = PI / 2.0 * sweep.signum();
            [start + quarter, start + sweep + quarter]
        }
    }
}

fn end_of(edge: &Edge) -> Xy {
    match *edge {
        Edge::Line(_, b) => b,
        Edge::Arc(centre, radius, start, sweep) => [
            centre[0] + radius * (start + sweep).cos(),
            centre[1] + radius * (start + sweep).sin(),
        ],
    }
}

/// What lies beside an edge, on its right (`side` = −1) or left (+1), within `reach` along its normals,
/// and a hair on the other side, so that it overlaps what lies there.
fn beside(edge: &Edge, side: f64, (reach, error): (f64, f64), parts: &mut Vec<Vec<Xy>>) {
    let hair = OVERLAP * reach;
    match *edge {
        Edge::Line(a, b) => {
            let (dx, dy) = (b[0] - a[0], b[1] - a[1]);
            let scale = side / dx.hypot(dy);
            let (nx, ny) = (-dy * scale, dx * scale);
            let moved = |p: Xy, by: f64| [p[0] + nx * by, p[1] + ny * by];
            parts.push(wound(vec![
                moved(a, -hair),
                moved(b, -hair),
                moved(b, reach),
                moved(a, reach),
            ]));
        }
        Edge::Arc(centre, radius, start, sweep) => {
            let inwards = side * sweep.signum();
            let far = (radius - inwards * reach).max(0.0);
            let near = (radius + inwards * hair).max(0.0);
            let mut sector = Vec::new();
            for (radius, from, sweep) in [(near, start, sweep), (far, start + sweep, -sweep)] {
                if radius > 0.0 {
                    arc_points((centre, radius, from, sweep), error, &mut sector);
                } else {
                    sector.push(centre);
                }
            }
            parts.push(wound(sector));
        }
    }
}

/// By what share of the distance, or how many radians, pieces overlap their neighbours.
const OVERLAP: f64 = 1e-5;

/// What lies between the normals of two edges at their common corner, and a hair beyond.
fn about_corner(
    [before, after]: [&Edge; 2],
    side: f64,
    (reach, error): (f64, f64),
    parts: &mut Vec<Vec<Xy>>,
) {
    let corner = end_of(before);
    let (from, to) = (
        start_and_end_angles(before)[1],
        start_and_end_angles(after)[0],
    );
    let turn = (to - from + PI).rem_euclid(TAU) - PI;
    let mut points = Vec::new();
    if turn.abs() > 3.1 {
        // a cusp: which way it turns hangs on the last digits, so take the whole disc
        arc_points((corner, reach, 0.0, TAU), error, &mut points);
        points.pop();
    } else if turn * side < 0.0 || turn.abs() < 1e-3 {
        points.push(corner);
        let hair = OVERLAP.copysign(turn);
        let first = from + side * PI / 2.0 - hair;
        let arc = (corner, reach, first, turn + 2.0 * hair);
        arc_points(arc, error, &mut points);
    } else {
        return;
    }
    parts.push(wound(points));
}

/// The union, as found by flattened pieces.
#[derive(Clone, Debug)]
pub(crate) struct Union {
    /// Outer rings first, then their holes.
    shapes: Vec<Vec<Vec<Xy>>>,
    error: f64,
    distance: f64,
}

/// The offset of outline and holes by `distance`, with arcs flattened to within `error`.
pub(crate) fn minkowski(contours: &[Vec<Vertex>], distance: f64, error: f64) -> Union {
    let edged: Vec<Vec<Edge>> = contours.iter().map(|contour| edges(contour)).collect();
    let mut region: Vec<Vec<Xy>> = Vec::new();
    let mut parts = Vec::new();
    for (number, contour) in edged.iter().enumerate() {
        let mut points = wound(flattened(contour, error));
        if number > 0 {
            points.reverse();
        }
        region.push(points);
        let signed: f64 = twice_area(&flattened(contour, error));
        let material_left = (signed > 0.0) == (number == 0);
        let outside = if material_left { -1.0 } else { 1.0 };
        let side = outside * distance.signum();
        for (index, edge) in contour.iter().enumerate() {
            let next = &contour[(index + 1) % contour.len()];
            beside(edge, side, (distance.abs(), error), &mut parts);
            about_corner([edge, next], side, (distance.abs(), error), &mut parts);
        }
    }
    let rule = if distance > 0.0 {
        OverlayRule::Union
    } else {
        OverlayRule::Difference
    };
    let shapes = region.overlay_as::<i64>(&parts, rule, FillRule::NonZero);
    Union {
        shapes,
        error,
        distance,
    }
}

/// A ring of less area by length is a dot or scratch left by the rounding of the union, in millimetres.
const NO_ROOM: f64 = 1e-11;

/// How many loops a union has.
#[derive(Clone, Debug)]
pub(crate) struct Count {
    /// Those that are certainly there.
    pub(crate) sure: usize,
    /// Those that may be gaps left by flattening.
    pub(crate) doubtful: usize,
    /// Points in openings (growing) or in pieces of material (shrinking), and how far beyond the
    /// distance each lies.
    pub(crate) witnesses: Vec<(Xy, f64)>,
}

impl Union {
    pub(crate) fn area(&self) -> f64 {
        self.shapes.iter().map(|shape| enclosed(shape)).sum()
    }

    /// The loops, judged by the exact distance from `edges`.
    pub(crate) fn count(&self, edges: &[Edge]) -> Count {
        let mut count = Count {
            sure: 0,
            doubtful: 0,
            witnesses: Vec::new(),
        };
        for shape in &self.shapes {
            for (place, ring) in shape.iter().enumerate() {
                // an opening of the band; the other loops enclose the source or parts of it
                let opening = (place > 0) == (self.distance > 0.0);
                if !opening {
                    count.sure += 1;
                    continue;
                }
                // an opening in what grows has nothing inside; material that is left has holes
                let rings = if place > 0 {
                    std::slice::from_ref(ring)
                } else {
                    shape
                };
                let witness = deepest(rings, edges);
                let beyond = witness.map_or(0.0, |(_, least)| least - self.distance.abs());
                let room = enclosed(rings) / rings.iter().map(|ring| length(ring)).sum::<f64>();
                if room <= NO_ROOM {
                    continue;
                }
                if room > self.error || beyond > 1e-9 {
                    count.sure += 1;
                    count.witnesses.extend(witness.map(|(at, _)| (at, beyond)));
                } else {
                    count.doubtful += 1;
                }
            }
        }
        count
    }
}

/// Area between a ring and the holes in it.
fn enclosed(rings: &[Vec<Xy>]) -> f64 {
    let areas = rings.iter().map(|ring| twice_area(ring).abs() / 2.0);
    2.0 * areas.clone().take(1).sum::<f64>() - areas.sum::<f64>()
}

/// Of some points between a ring and the holes in it, that which is furthest from the edges.
fn deepest(rings: &[Vec<Xy>], edges: &[Edge]) -> Option<(Xy, f64)> {
    let heights = rings.iter().flatten().map(|p| p[1]);
    let low = heights.clone().fold(f64::INFINITY, f64::min);
    let high = heights.fold(f64::NEG_INFINITY, f64::max);
    let mut best: Option<(Xy, f64)> = None;
    for share in [
        0.013, 0.107, 0.243, 0.371, 0.499, 0.631, 0.757, 0.893, 0.987,
    ] {
        let y = low + (high - low) * share;
        let across = crossings_at(rings, y);
        for pair in across.chunks_exact(2) {
            let point = [(pair[0] + pair[1]) / 2.0, y];
            let least = clearance(point, edges);
            if best.is_none_or(|(_, most)| least > most) {
                best = Some((point, least));
            }
        }
    }
    best
}

/// Distance of a point from the nearest edge.
pub(crate) fn clearance(point: Xy, edges: &[Edge]) -> f64 {
    edges
        .iter()
        .map(|edge| distance(point, edge))
        .fold(f64::INFINITY, f64::min)
}

/// Where rings cross a height, from left to right.
fn crossings_at(rings: &[Vec<Xy>], y: f64) -> Vec<f64> {
    let mut across = Vec::new();
    for ring in rings {
        for index in 0..ring.len() {
            let (a, b) = (ring[index], ring[(index + 1) % ring.len()]);
            if (a[1] > y) != (b[1] > y) {
                across.push(a[0] + (b[0] - a[0]) * ((y - a[1]) / (b[1] - a[1])));
            }
        }
    }
    across.sort_by(f64::total_cmp);
    across
}

/// Whether a point lies in the material of the regions, whose arcs are flattened to within `error`.
pub(crate) fn is_in(regions: &[Region], point: Xy, error: f64) -> bool {
    let mut inside = false;
    for contour in regions.iter().flat_map(Region::contours) {
        let edges: Vec<Edge> = contour.segments().map(edge_of).collect();
        let across = crossings_at(&[flattened(&edges, error)], point[1]);
        inside ^= across.iter().filter(|&&x| x > point[0]).count() % 2 == 1;
    }
    inside
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
        sum += twice_area(&flattened(&edges, error));
    }
    sum / 2.0
}
