//! Nasty outlines on purpose: joints a hair off tangent, tiny edges, slots and webs of about twice the
//! distance, arcs of about the distance, holes close to one another.

use std::f64::consts::PI;

use super::simple::are_simple;
use super::support::Vertex;

/// A repeatable stream of numbers (SplitMix64, public domain).
#[derive(Clone, Copy, Debug)]
pub(crate) struct Stream(pub(crate) u64);

impl Stream {
    fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// Between 0 and 1.
    #[expect(clippy::cast_precision_loss, reason = "53 bits")]
    fn unit(&mut self) -> f64 {
        (self.next() >> 11) as f64 / (1_u64 << 53) as f64
    }

    fn within(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    #[expect(clippy::cast_possible_truncation, reason = "small")]
    fn below(&mut self, count: usize) -> usize {
        (self.next() % count as u64) as usize
    }

    fn chance(&mut self, share: f64) -> bool {
        self.unit() < share
    }

    /// Zero, or of either sign and any size from 1e-9 to 1e-3.
    fn hair(&mut self) -> f64 {
        if self.chance(0.25) {
            return 0.0;
        }
        let exponent = self.within(-9.0, -3.0);
        let size = 10_f64.powf(exponent);
        if self.chance(0.5) { size } else { -size }
    }
}

/// An outline with holes, the distance, and the family it comes from.
#[derive(Clone, Debug)]
pub(crate) struct Case {
    pub(crate) family: &'static str,
    pub(crate) contours: Vec<Vec<Vertex>>,
    pub(crate) distance: f64,
    /// Whether outlines of two half circles are handed over as one whole circle.
    pub(crate) whole_circles: bool,
}

/// Names of the families.
pub(crate) const FAMILIES: [&str; 10] = [
    "rounded plate",
    "slots",
    "jagged",
    "fillets",
    "holes",
    "comb",
    "chain",
    "crescent",
    "collinear",
    "zigzag",
];

/// The case of this number.
pub(crate) fn case(number: u64) -> Case {
    let mut stream = Stream(number.wrapping_mul(0x2545_F491_4F6C_DD1D) ^ 0xA5A5_5A5A);
    for _ in 0..4 {
        stream.next();
    }
    for _ in 0..200 {
        let family = stream.below(FAMILIES.len());
        let size = [0.05, 0.5, 1.0, 3.0, 5.0][stream.below(5)];
        let reach = if stream.chance(0.5) {
            size
        } else {
            size * stream.within(0.3, 1.7)
        };
        let sign = if stream.chance(0.5) { 1.0 } else { -1.0 };
        let mut contours = match family {
            0 => vec![rounded_plate(&mut stream, reach)],
            1 => vec![slots(&mut stream, reach)],
            2 => vec![jagged(&mut stream, reach)],
            3 => vec![fillets(&mut stream, reach)],
            4 => holes(&mut stream, reach),
            5 => vec![comb(&mut stream, reach)],
            6 => vec![chain(&mut stream, reach)],
            7 => vec![crescent(&mut stream, reach)],
            8 => vec![collinear(&mut stream, reach)],
            _ => vec![zigzag(&mut stream, reach)],
        };
        if stream.chance(0.3) {
            jitter(&mut stream, &mut contours);
        }
        if stream.chance(0.5) {
            turn(&mut contours, stream.within(0.0, 7.0));
        }
        let contours: Vec<Vec<Vertex>> = contours.into_iter().map(without_dots).collect();
        if contours.iter().all(|contour| contour.len() >= 2) && are_simple(&contours) {
            return Case {
                family: FAMILIES[family],
                contours,
                distance: sign * reach,
                whole_circles: stream.chance(0.5),
            };
        }
    }
    Case {
        family: "square",
        contours: vec![rectangle(0.0, 0.0, 10.0, 10.0)],
        distance: 1.0,
        whole_circles: false,
    }
}

fn rectangle(x0: f64, y0: f64, x1: f64, y1: f64) -> Vec<Vertex> {
    vec![(x0, y0, 0.0), (x1, y0, 0.0), (x1, y1, 0.0), (x0, y1, 0.0)]
}

fn circle(x: f64, y: f64, radius: f64) -> Vec<Vertex> {
    vec![(x + radius, y, 1.0), (x - radius, y, 1.0)]
}

fn jitter(stream: &mut Stream, contours: &mut [Vec<Vertex>]) {
    let share = stream.within(0.1, 1.0);
    for vertex in contours.iter_mut().flatten() {
        if stream.chance(share) {
            vertex.0 += stream.hair() * 0.2;
            vertex.1 += stream.hair() * 0.2;
        }
    }
}

fn turn(contours: &mut [Vec<Vertex>], angle: f64) {
    let (sine, cosine) = angle.sin_cos();
    for vertex in contours.iter_mut().flatten() {
        let (x, y, bulge) = *vertex;
        *vertex = (x * cosine - y * sine, x * sine + y * cosine, bulge);
    }
}

/// Vertices that fall together are one.
fn without_dots(contour: Vec<Vertex>) -> Vec<Vertex> {
    let mut kept: Vec<Vertex> = Vec::new();
    let near = |a: &Vertex, b: &Vertex| (a.0 - b.0).hypot(a.1 - b.1) < 1.2e-6;
    for vertex in contour {
        if kept.last().is_none_or(|last| !near(last, &vertex)) {
            kept.push(vertex);
        }
    }
    while kept.len() > 2 && near(&kept[0], &kept[kept.len() - 1]) {
        kept.pop();
    }
    kept
}

/// Rounded rectangle; corner radii often about the reach.
fn rounded_plate(stream: &mut Stream, reach: f64) -> Vec<Vertex> {
    let radius = if stream.chance(0.5) {
        reach + stream.hair()
    } else {
        stream.within(0.05, 3.0 * reach)
    };
    let straight = |stream: &mut Stream| match stream.below(4) {
        0 => 2.0 * (reach - radius).abs() + stream.hair().abs(),
        1 => stream.hair().abs() * 10.0,
        _ => stream.within(0.0, 20.0),
    };
    let (w, h) = (straight(stream), straight(stream));
    let bulge = (PI / 8.0).tan() * if stream.chance(0.2) { -1.0 } else { 1.0 };
    let r = radius;
    vec![
        (r, 0.0, 0.0),
        (r + w, 0.0, bulge),
        (2.0 * r + w, r, 0.0),
        (2.0 * r + w, r + h, bulge),
        (r + w, 2.0 * r + h, 0.0),
        (r, 2.0 * r + h, bulge),
        (0.0, r + h, 0.0),
        (0.0, r, bulge),
    ]
}

/// A plate with slots of about twice the reach from above.
fn slots(stream: &mut Stream, reach: f64) -> Vec<Vertex> {
    let count = 1 + stream.below(4);
    let mut top = Vec::new();
    let mut x = 0.0;
    let depth = stream.within(0.5, 8.0) * reach.max(0.5);
    let height = depth + stream.within(0.1, 4.0) * reach.max(0.5);
    for _ in 0..count {
        x += if stream.chance(0.4) {
            2.0 * reach + stream.hair()
        } else {
            stream.within(0.2, 6.0) * reach.max(0.5)
        };
        let width = if stream.chance(0.6) {
            2.0 * reach + stream.hair()
        } else {
            stream.within(0.1, 4.0) * reach
        };
        let round = stream.chance(0.4);
        top.push((x, height, 0.0));
        // the bottom: flat, of several pieces, or half a circle
        let base = height - depth;
        if round {
            top.push((x, base + width / 2.0 * 0.9, 1.0));
            top.push((x + width, base + width / 2.0 * 0.9, 0.0));
        } else {
            top.push((x, base, 0.0));
            for part in 1..=stream.below(4) {
                #[expect(clippy::cast_precision_loss, reason = "small")]
                let t = part as f64 / 5.0;
                top.push((x + width * t, base, 0.0));
            }
            top.push((x + width, base, 0.0));
        }
        x += width;
        top.push((x, height, 0.0));
    }
    x += stream.within(0.2, 4.0) * reach.max(0.5);
    let mut vertices = vec![(x, height, 0.0)];
    vertices.extend(top.into_iter().rev().map(|v| (v.0, v.1, 0.0)));
    // run the top from right to left: bulges belong to the edge that leaves the vertex
    let count = vertices.len();
    for index in 0..count - 1 {
        let (a, b) = (vertices[index], vertices[index + 1]);
        let flat_bottom = a.1 == b.1 && a.1 < height;
        if flat_bottom && (a.0 - b.0).abs() > 1e-3 && a.1 > height - depth + 1e-9 {
            vertices[index].2 = -1.0;
        }
    }
    vertices.extend([(0.0, height, 0.0), (0.0, 0.0, 0.0), (x, 0.0, 0.0)]);
    vertices
}

/// A star-shaped outline of random radii and bulges.
fn jagged(stream: &mut Stream, reach: f64) -> Vec<Vertex> {
    let count = 3 + stream.below(12);
    let size = reach.max(0.3) * stream.within(1.0, 8.0);
    #[expect(clippy::cast_precision_loss, reason = "small")]
    let step = 2.0 * PI / count as f64;
    let mut angle = 0.0_f64;
    let mut vertices = Vec::new();
    for _ in 0..count {
        let radius = size * stream.within(0.3, 1.0);
        let bulge = match stream.below(4) {
            0 => stream.within(-0.6, 0.6),
            1 => stream.hair(),
            _ => 0.0,
        };
        vertices.push((radius * angle.cos(), radius * angle.sin(), bulge));
        angle += step * stream.within(0.6, 1.0);
    }
    vertices
}

/// An L or step with fillets of about the reach in its inside corners.
fn fillets(stream: &mut Stream, reach: f64) -> Vec<Vertex> {
    let r = reach + stream.hair();
    let (w, h) = (
        r + stream.within(0.1, 6.0) * reach,
        r + stream.within(0.1, 6.0) * reach,
    );
    let t = stream.within(0.3, 4.0) * reach;
    let bulge = -(PI / 8.0).tan();
    vec![
        (0.0, 0.0, 0.0),
        (t + w, 0.0, 0.0),
        (t + w, t, 0.0),
        (t + r, t, bulge),
        (t, t + r, 0.0),
        (t, t + h, 0.0),
        (0.0, t + h, 0.0),
    ]
}

/// A plate with round and square holes in rows, gaps about twice the reach.
fn holes(stream: &mut Stream, reach: f64) -> Vec<Vec<Vertex>> {
    let (columns, rows) = (1 + stream.below(4), 1 + stream.below(3));
    let radius = match stream.below(3) {
        0 => reach + stream.hair(),
        _ => stream.within(0.2, 2.5) * reach,
    };
    let gap = match stream.below(2) {
        0 => 2.0 * reach + stream.hair(),
        _ => stream.within(0.05, 4.0) * reach,
    };
    let pitch = 2.0 * radius + gap;
    #[expect(clippy::cast_precision_loss, reason = "small")]
    let (w, h) = (columns as f64 * pitch + gap, rows as f64 * pitch + gap);
    let mut contours = vec![rectangle(0.0, 0.0, w, h)];
    for column in 0..columns {
        for row in 0..rows {
            #[expect(clippy::cast_precision_loss, reason = "small")]
            let (x, y) = (
                gap + radius + column as f64 * pitch,
                gap + radius + row as f64 * pitch,
            );
            let nudge = stream.hair() * 0.1;
            contours.push(if stream.chance(0.6) {
                circle(x + nudge, y, radius)
            } else {
                rectangle(x - radius, y - radius + nudge, x + radius, y + radius)
            });
        }
    }
    contours
}

/// Teeth of about twice the reach, with gaps of about twice the reach.
fn comb(stream: &mut Stream, reach: f64) -> Vec<Vertex> {
    let count = 2 + stream.below(6);
    let tooth = reach * [2.0, 1.0, 2.5, 4.0][stream.below(4)] + stream.hair();
    let gap = reach * [2.0, 1.0, 2.5, 4.0][stream.below(4)] + stream.hair();
    let height = reach * stream.within(0.5, 8.0);
    let base = reach * stream.within(0.5, 4.0);
    let slope = if stream.chance(0.3) {
        stream.hair()
    } else {
        0.0
    };
    #[expect(clippy::cast_precision_loss, reason = "small")]
    let left = |index: usize| index as f64 * (tooth + gap);
    let mut vertices = vec![(0.0, -base, 0.0), (left(count - 1) + tooth, -base, 0.0)];
    for index in (0..count).rev() {
        let x = left(index);
        let round = stream.chance(0.2);
        vertices.push((x + tooth, 0.0, 0.0));
        vertices.push((
            x + tooth + slope.min(gap * 0.4),
            height,
            if round { 1.0 } else { 0.0 },
        ));
        vertices.push((x, height, 0.0));
        if index > 0 {
            vertices.push((x, 0.0, if stream.chance(0.2) { -0.3 } else { 0.0 }));
        }
    }
    vertices.push((0.0, 0.0, 0.0));
    vertices
}

/// Rooms joined by necks of about twice the reach.
fn chain(stream: &mut Stream, reach: f64) -> Vec<Vertex> {
    let count = 2 + stream.below(4);
    let mut lower = Vec::new();
    let mut x = 0.0;
    for index in 0..count {
        let half = reach * stream.within(0.8, 4.0);
        let width = reach * stream.within(1.0, 6.0);
        lower.push((x, half));
        x += width;
        lower.push((x, half));
        if index + 1 < count {
            let neck = if stream.chance(0.6) {
                reach + stream.hair()
            } else {
                reach * stream.within(0.1, 2.0)
            };
            lower.push((x, neck));
            x += if stream.chance(0.3) {
                stream.hair().abs() + 2e-6
            } else {
                reach * stream.within(0.1, 3.0)
            };
            lower.push((x, neck));
        }
    }
    let shift = if stream.chance(0.5) {
        0.0
    } else {
        stream.hair()
    };
    let mut vertices: Vec<Vertex> = lower.iter().map(|&(x, y)| (x, -y, 0.0)).collect();
    vertices.extend(lower.iter().rev().map(|&(x, y)| (x + shift.abs(), y, 0.0)));
    vertices
}

/// Two or three arcs: lenses, crescents, cusps.
fn crescent(stream: &mut Stream, reach: f64) -> Vec<Vertex> {
    let size = reach.max(0.2) * stream.within(0.5, 8.0);
    let a = stream.within(0.05, 2.5);
    let b = match stream.below(4) {
        0 => a,
        1 => -a + stream.within(0.001, 0.3),
        2 => 1.0 / a,
        _ => stream.within(-0.9, 2.0) * a,
    };
    if stream.chance(0.5) {
        return vec![(0.0, 0.0, a), (size, stream.hair(), b)];
    }
    vec![
        (0.0, 0.0, a),
        (size, 0.0, b.clamp(-0.5, 0.5)),
        (
            size * stream.unit(),
            size * stream.within(0.2, 1.5),
            stream.within(-0.3, 0.9),
        ),
    ]
}

/// A rectangle whose sides are many pieces, some tiny, some a hair off the line.
fn collinear(stream: &mut Stream, reach: f64) -> Vec<Vertex> {
    let (w, h) = (
        reach * stream.within(1.0, 8.0),
        if stream.chance(0.3) {
            2.0 * reach + stream.hair()
        } else {
            reach * stream.within(1.0, 8.0)
        },
    );
    let off = if stream.chance(0.5) { 1.0 } else { 0.0 };
    let mut vertices = Vec::new();
    let corners = [(0.0, 0.0), (w, 0.0), (w, h), (0.0, h)];
    for side in 0..4 {
        let (a, b) = (corners[side], corners[(side + 1) % 4]);
        vertices.push((a.0, a.1, 0.0));
        let mut t = 0.0;
        for _ in 0..stream.below(6) {
            t += match stream.below(3) {
                0 => 3e-6 / w.min(h),
                1 => stream.hair().abs() / w.max(h) + 2e-6 / w.min(h),
                _ => stream.within(0.01, 0.2),
            };
            if t > 0.95 {
                break;
            }
            let across = off * stream.hair();
            let (dx, dy) = (b.0 - a.0, b.1 - a.1);
            let length = dx.hypot(dy);
            let bulge = if stream.chance(0.15) {
                stream.hair()
            } else {
                0.0
            };
            vertices.push((
                a.0 + dx * t - dy / length * across,
                a.1 + dy * t + dx / length * across,
                bulge,
            ));
        }
    }
    vertices
}

/// A thick zigzag band with corners of all angles.
fn zigzag(stream: &mut Stream, reach: f64) -> Vec<Vertex> {
    let count = 2 + stream.below(6);
    let width = if stream.chance(0.4) {
        2.0 * reach + stream.hair()
    } else {
        reach * stream.within(0.3, 4.0)
    };
    let mut x = 0.0;
    let mut lower = Vec::new();
    for index in 0..=count {
        let y = if index % 2 == 0 {
            0.0
        } else {
            reach * stream.within(0.0, 8.0)
        };
        lower.push((x, y));
        x += reach * stream.within(0.2, 4.0);
    }
    let bulge = |stream: &mut Stream| {
        if stream.chance(0.25) {
            stream.within(-0.4, 0.4)
        } else {
            0.0
        }
    };
    let mut vertices: Vec<Vertex> = Vec::new();
    for &(x, y) in &lower {
        let b = bulge(stream);
        vertices.push((x, y, b));
    }
    for &(x, y) in lower.iter().rev() {
        let b = bulge(stream);
        vertices.push((x, y + width, b));
    }
    vertices
}
