//! Whether outlines are simple, by closed forms of its own: lines and circles, no flattening.

use std::f64::consts::TAU;

use super::oracle::Edge;
use super::oracle::distance;
use super::oracle::edges;
use super::support::Vertex;

type Xy = [f64; 2];

/// Edges nearer than this to one another touch, in millimetres.
const TOUCH: f64 = 1e-7;
/// Neighbours may come so near within this of their common corner, in millimetres.
const CORNER: f64 = 1.5e-7;

/// Whether no edge comes near another but its neighbours, and those only at the corner.
pub(crate) fn are_simple(contours: &[Vec<Vertex>]) -> bool {
    let mut all: Vec<(usize, usize, Edge, [f64; 4])> = Vec::new();
    let mut sizes = Vec::new();
    for (number, contour) in contours.iter().enumerate() {
        let edged = edges(contour);
        sizes.push(edged.len());
        for (index, edge) in edged.into_iter().enumerate() {
            all.push((number, index, edge, bounds(&edge)));
        }
    }
    all.sort_by(|a, b| a.3[0].total_cmp(&b.3[0]));
    for (place, &(number, index, a, box_a)) in all.iter().enumerate() {
        for &(other, other_index, b, box_b) in &all[place + 1..] {
            if box_b[0] > box_a[2] {
                break;
            }
            if box_b[1] > box_a[3] || box_b[3] < box_a[1] {
                continue;
            }
            let size = sizes[number];
            let corners: Vec<Xy> = if number != other {
                Vec::new()
            } else if size == 2 {
                vec![ends(&a)[0], ends(&a)[1]]
            } else if (index + 1) % size == other_index {
                vec![ends(&a)[1]]
            } else if (other_index + 1) % size == index {
                vec![ends(&a)[0]]
            } else {
                Vec::new()
            };
            if meet(&a, &b, &corners) {
                return false;
            }
        }
    }
    true
}

fn apart(a: Xy, b: Xy) -> f64 {
    (a[0] - b[0]).hypot(a[1] - b[1])
}

fn at(centre: Xy, radius: f64, angle: f64) -> Xy {
    [
        centre[0] + radius * angle.cos(),
        centre[1] + radius * angle.sin(),
    ]
}

fn ends(edge: &Edge) -> [Xy; 2] {
    match *edge {
        Edge::Line(a, b) => [a, b],
        Edge::Arc(centre, radius, start, sweep) => {
            [at(centre, radius, start), at(centre, radius, start + sweep)]
        }
    }
}

fn bounds(edge: &Edge) -> [f64; 4] {
    let [a, b] = ends(edge);
    let mut sides = [
        a[0].min(b[0]) - TOUCH,
        a[1].min(b[1]) - TOUCH,
        a[0].max(b[0]) + TOUCH,
        a[1].max(b[1]) + TOUCH,
    ];
    if let Edge::Arc(centre, radius, ..) = *edge {
        let away = [[-1.0, 0.0], [0.0, -1.0], [1.0, 0.0], [0.0, 1.0]];
        for (side, way) in away.into_iter().enumerate() {
            let far = [centre[0] + radius * way[0], centre[1] + radius * way[1]];
            if distance(far, edge) <= TOUCH {
                let value = far[side % 2];
                sides[side] = if side < 2 {
                    sides[side].min(value - TOUCH)
                } else {
                    sides[side].max(value + TOUCH)
                };
            }
        }
    }
    sides
}

/// Whether the edges cross or touch away from the corners.
fn meet(a: &Edge, b: &Edge, corners: &[Xy]) -> bool {
    let mut places = common(a, b);
    places.extend(ends(a));
    places.extend(ends(b));
    places.into_iter().any(|place| {
        let shared = corners.iter().any(|&corner| apart(place, corner) <= CORNER);
        !shared && distance(place, a) <= TOUCH && distance(place, b) <= TOUCH
    })
}

/// Where the whole lines or circles cross, and points halfway between where they come closest.
fn common(a: &Edge, b: &Edge) -> Vec<Xy> {
    match (*a, *b) {
        (Edge::Line(p, q), Edge::Line(r, s)) => {
            let (u, v) = ([q[0] - p[0], q[1] - p[1]], [s[0] - r[0], s[1] - r[1]]);
            let cross = u[0] * v[1] - u[1] * v[0];
            if cross == 0.0 {
                return Vec::new();
            }
            let t = ((r[0] - p[0]) * v[1] - (r[1] - p[1]) * v[0]) / cross;
            vec![[p[0] + t * u[0], p[1] + t * u[1]]]
        }
        (Edge::Line(p, q), Edge::Arc(centre, radius, ..))
        | (Edge::Arc(centre, radius, ..), Edge::Line(p, q)) => {
            let length = apart(p, q);
            let u = [(q[0] - p[0]) / length, (q[1] - p[1]) / length];
            let along = (centre[0] - p[0]) * u[0] + (centre[1] - p[1]) * u[1];
            let foot = [p[0] + along * u[0], p[1] + along * u[1]];
            let height = apart(foot, centre);
            if height >= radius {
                let t = (radius / height + 1.0) / 2.0;
                return vec![[
                    centre[0] + (foot[0] - centre[0]) * t,
                    centre[1] + (foot[1] - centre[1]) * t,
                ]];
            }
            let half = ((radius - height) * (radius + height)).sqrt();
            let on = |way: f64| [foot[0] + way * half * u[0], foot[1] + way * half * u[1]];
            vec![on(1.0), on(-1.0), foot]
        }
        (Edge::Arc(c, r, ..), Edge::Arc(d, s, ..)) => circles(c, r, d, s),
    }
}

fn circles(c: Xy, r: f64, d: Xy, s: f64) -> Vec<Xy> {
    // from the smaller one: from the centre of a flat arc the digits would not do
    if r > s {
        return circles(d, s, c, r);
    }
    let between = apart(c, d);
    if between == 0.0 {
        return Vec::new();
    }
    let angle = (d[1] - c[1]).atan2(d[0] - c[0]);
    let cosine = ((between - s) * (between + s) + r * r) / (2.0 * between * r);
    if cosine.abs() < 1.0 {
        let half = cosine.acos();
        // where they come close without crossing they touch along the line of centres
        let mut found = vec![at(c, r, angle + half), at(c, r, angle - half)];
        if half.min(TAU / 2.0 - half) < 1e-2 {
            found.push(at(c, r, angle));
            found.push(at(c, r, angle + TAU / 2.0));
        }
        return found;
    }
    let near = at(c, r, angle);
    let far = at(c, r, angle + TAU / 2.0);
    [near, far]
        .into_iter()
        .map(|own| {
            let t = s / apart(own, d);
            let other = [d[0] + (own[0] - d[0]) * t, d[1] + (own[1] - d[1]) * t];
            [(own[0] + other[0]) / 2.0, (own[1] + other[1]) / 2.0]
        })
        .collect()
}
