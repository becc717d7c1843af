//! The outlines of the table.

use std::f64::consts::PI;

/// Vertices with the bulge of the edge that leaves them, one list a contour.
pub(crate) type Outline = Vec<Vec<(f64, f64, f64)>>;

/// A line of the table.
pub(crate) struct Shape {
    pub(crate) name: String,
    pub(crate) outline: Outline,
    pub(crate) distance: f64,
}

pub(crate) fn vertices(outline: &Outline) -> usize {
    outline.iter().map(Vec::len).sum()
}

/// Every line of the table.
pub(crate) fn all() -> Vec<Shape> {
    let mut shapes = Vec::new();
    let mut add = |name: &str, outline: Outline, distance: f64| {
        shapes.push(Shape {
            name: format!("{name}, {distance:+}"),
            outline,
            distance,
        });
    };
    add("board", board(), 3.0);
    add("board", board(), -3.0);
    for count in [1_000, 10_000, 100_000] {
        let name = format!("star {}k", count / 1000);
        add(&name, star(count), 0.5);
    }
    for count in [1_000, 10_000, 100_000] {
        let name = format!("comb {}k", count / 1000);
        add(&name, comb(count), -0.5);
    }
    add("space-filling", space_filling(8), 0.2);
    add("1000 holes", plate_with_holes(), 0.5);
    add("1000 holes", plate_with_holes(), -0.5);
    shapes
}

fn float(index: usize) -> f64 {
    f64::from(u32::try_from(index).expect("a small number"))
}

/// A board of 1.2 m: sides of several arcs, round ends, a slot and bolt holes.
fn board() -> Outline {
    let mut outer = vec![
        (0.0, -60.0, 0.0),
        (300.0, -110.0, 0.02),
        (600.0, -135.0, 0.03),
        (900.0, -130.0, 0.05),
        (1140.0, -95.0, (PI / 8.0).tan()),
        (1200.0, -30.0, 0.1),
        (1200.0, 60.0, (PI / 8.0).tan()),
        (1130.0, 110.0, 0.03),
        (700.0, 125.0, 0.02),
        (300.0, 90.0, 0.01),
        (0.0, 60.0, 0.8),
    ];
    outer.rotate_left(1);
    let slot = vec![
        (500.0, -8.0, 0.0),
        (500.0, 8.0, 1.0),
        (520.0, 8.0, 0.0),
        (520.0, -8.0, 1.0),
    ];
    let slot = slot
        .into_iter()
        .rev()
        .map(|(x, y, _)| (x, y, 0.0))
        .collect();
    let mut outline = vec![outer, slot];
    for (x, y) in [(60.0, 0.0), (60.0, 30.0), (60.0, -30.0), (240.0, 0.0)] {
        outline.push(circle(x, y, 6.0));
    }
    outline
}

fn circle(x: f64, y: f64, radius: f64) -> Vec<(f64, f64, f64)> {
    vec![(x + radius, y, 1.0), (x - radius, y, 1.0)]
}

/// Points in and out in turn round a circle, about 2 mm apart.
fn star(count: usize) -> Outline {
    let radius = float(count) / PI;
    let point = |index: usize| {
        let r = if index.is_multiple_of(2) {
            radius
        } else {
            radius - 3.0
        };
        let angle = 2.0 * PI * float(index) / float(count);
        (r * angle.cos(), r * angle.sin(), 0.0)
    };
    vec![(0..count).map(point).collect()]
}

/// Teeth 2 mm wide and 2 mm apart, 8 mm high, on a strip.
fn comb(count: usize) -> Outline {
    let teeth = count / 4;
    let mut contour = vec![(0.0, -5.0, 0.0), (float(teeth) * 4.0 - 2.0, -5.0, 0.0)];
    for index in (0..teeth).rev() {
        let x = float(index) * 4.0;
        contour.extend([
            (x + 2.0, 0.0, 0.0),
            (x + 2.0, 8.0, 0.0),
            (x, 8.0, 0.0),
            (x, 0.0, 0.0),
        ]);
    }
    vec![contour]
}

/// A strip along Hilbert's curve (D. Hilbert 1891) of this order, half as wide as its pitch.
fn space_filling(order: u32) -> Outline {
    let side = 1_usize << order;
    let points: Vec<(f64, f64)> = (0..side * side).map(|index| hilbert(side, index)).collect();
    let mut left = Vec::new();
    let mut right = Vec::new();
    let count = points.len();
    for index in 0..count {
        let here = points[index];
        let before = points[index.saturating_sub(1)];
        let after = points[(index + 1).min(count - 1)];
        let step = |a: (f64, f64), b: (f64, f64)| (b.0 - a.0, b.1 - a.1);
        let (mut into, mut out) = (step(before, here), step(here, after));
        if index == 0 {
            into = out;
        }
        if index == count - 1 {
            out = into;
        }
        let end = index == 0 || index == count - 1;
        if into == out && !end {
            continue;
        }
        let across = if end {
            (-into.1, into.0)
        } else {
            (-into.1 - out.1, into.0 + out.0)
        };
        left.push((here.0 + across.0 * 0.25, here.1 + across.1 * 0.25, 0.0));
        right.push((here.0 - across.0 * 0.25, here.1 - across.1 * 0.25, 0.0));
    }
    left.reverse();
    right.extend(left);
    vec![right]
}

/// Place of a point along Hilbert's curve.
fn hilbert(side: usize, index: usize) -> (f64, f64) {
    let (mut x, mut y, mut rest) = (0, 0, index);
    let mut size = 1;
    while size < side {
        let right = 1 & (rest / 2);
        let up = 1 & (rest ^ right);
        if up == 0 {
            if right == 1 {
                x = size - 1 - x;
                y = size - 1 - y;
            }
            std::mem::swap(&mut x, &mut y);
        }
        x += size * right;
        y += size * up;
        rest /= 4;
        size *= 2;
    }
    (float(x), float(y))
}

/// 40 by 25 holes of 3 mm radius, 10 mm apart.
fn plate_with_holes() -> Outline {
    let mut outline = vec![vec![
        (0.0, 0.0, 0.0),
        (400.0, 0.0, 0.0),
        (400.0, 250.0, 0.0),
        (0.0, 250.0, 0.0),
    ]];
    for column in 0..40 {
        for row in 0..25 {
            outline.push(circle(
                float(column) * 10.0 + 5.0,
                float(row) * 10.0 + 5.0,
                3.0,
            ));
        }
    }
    outline
}
