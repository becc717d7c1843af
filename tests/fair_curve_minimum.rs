//! The number of arcs of a fit against the least number possible, found by dynamic programming on
//! small cases: breakpoints from 41 samples with the curve's own directions, one arc or one biarc
//! between two of them. Written apart from the library: its own biarc (angles, centres), its own
//! measure of distance.

#![expect(clippy::unwrap_used, reason = "helpers of a test")]

use kerfwise::geometry::Point;
use kerfwise::geometry::Vec2;
use kerfwise::geometry::fair_curve::BattenEnd;
use kerfwise::geometry::fair_curve::CubicBezier;
use kerfwise::geometry::fair_curve::EllipticalArc;
use kerfwise::geometry::fair_curve::FairCurve;
use kerfwise::geometry::fair_curve::Spline;
use kerfwise::geometry::fair_curve::fit;
use kerfwise::geometry::number;

const SAMPLES: usize = 40;

/// Greatest distance of the points from the arc (or line) through `start` along `direction` to `end`.
fn off(points: &[Point], start: Point, direction: Vec2, end: Point) -> f64 {
    let chord = end - start;
    let normal = Vec2::new(-direction.y, direction.x);
    let height = chord.dot(normal);
    if height.abs() < 1e-12 * chord.dot(chord).sqrt() {
        return points
            .iter()
            .map(|point| (*point - start).dot(normal).abs())
            .fold(0.0, f64::max);
    }
    let radius = chord.dot(chord) / (2.0 * height);
    let centre = start + normal * radius;
    points
        .iter()
        .map(|point| ((*point - centre).dot(*point - centre).sqrt() - radius.abs()).abs())
        .fold(0.0, f64::max)
}

/// Mirror of a direction in a chord: the direction at the other end of an arc.
fn arrive(direction: Vec2, chord: Vec2) -> Vec2 {
    chord * (2.0 * direction.dot(chord) / chord.dot(chord)) - direction
}

/// Arcs needed between two places: 1, 2, or none that keep the tolerance. The joint of the biarc is
/// tried at eleven ratios of the tangent lengths.
fn arcs_between(curve: &FairCurve, from: f64, to: f64, tolerance: f64) -> Option<usize> {
    let (p, q) = (curve.point_at(from), curve.point_at(to));
    let (s, t) = (curve.direction_at(from), curve.direction_at(to));
    let inner: Vec<Point> = (1..40)
        .map(|i| curve.point_at(from + (to - from) * f64::from(i) / 40.0))
        .collect();
    if (arrive(s, q - p) - t).dot(arrive(s, q - p) - t).sqrt() < 1e-9
        && off(&inner, p, s, q) <= tolerance
    {
        return Some(1);
    }
    let v = q - p;
    for step in -5..=5_i32 {
        // tangent lengths d and ratio·d: |v − d(s + ratio t)| = d(1 + ratio)
        let ratio = 1.25_f64.powi(step);
        let a = 2.0 * ratio * (s.dot(t) - 1.0);
        let b = -2.0 * v.dot(s + t * ratio);
        let c = v.dot(v);
        let length = if a.abs() < 1e-14 {
            -c / b
        } else {
            (-b - (b * b - 4.0 * a * c).sqrt()) / (2.0 * a)
        };
        if !(length > 0.0 && length.is_finite()) {
            continue;
        }
        let (first, second) = (p + s * length, q - t * (ratio * length));
        let joint = first + (second - first) / (1.0 + ratio);
        let along = second - first;
        let (before, after): (Vec<Point>, Vec<Point>) = inner
            .iter()
            .partition(|point| (**point - joint).dot(along) < 0.0);
        let middle = along / along.dot(along).sqrt();
        if off(&before, p, s, joint) <= tolerance && off(&after, joint, middle, q) <= tolerance {
            return Some(2);
        }
    }
    None
}

fn least_arcs(curve: &FairCurve, tolerance: f64) -> usize {
    let last = curve.last_position();
    let step = last / f64::from(u8::try_from(SAMPLES).unwrap());
    let at = |index: usize| step * f64::from(u8::try_from(index).unwrap());
    let mut least = vec![usize::MAX; SAMPLES + 1];
    least[0] = 0;
    for to in 1..=SAMPLES {
        for from in 0..to {
            if least[from] == usize::MAX {
                continue;
            }
            if let Some(arcs) = arcs_between(curve, at(from), at(to), tolerance) {
                least[to] = least[to].min(least[from] + arcs);
            }
        }
    }
    least[SAMPLES]
}

fn cases() -> Vec<(&'static str, FairCurve)> {
    let quarter = |a: f64, b: f64| {
        EllipticalArc::quarter(Point::new(0.0, 0.0), Point::new(a, 0.0), Point::new(a, b))
            .unwrap()
            .into()
    };
    let table = |f: &dyn Fn(f64) -> f64| {
        let points: Vec<Point> = (0..=8)
            .map(|i| f64::from(i) * 100.0)
            .map(|x| Point::new(x, f(x)))
            .collect();
        points
    };
    let free = BattenEnd::Natural;
    let wave = table(&|x| 60.0 * number::sin(x / 150.0));
    let bow = table(&|x| 1e-4 * x * x * (1.0 + x / 2000.0));
    let bezier =
        |points: [(f64, f64); 4]| CubicBezier::new(points.map(Point::from)).unwrap().into();
    vec![
        ("quarter ellipse 120 x 300", quarter(120.0, 300.0)),
        ("quarter ellipse 40 x 50", quarter(40.0, 50.0)),
        ("quarter ellipse 900 x 150", quarter(900.0, 150.0)),
        (
            "half ellipse",
            EllipticalArc::new(
                Point::ORIGIN,
                Vec2::new(200.0, 0.0),
                Vec2::new(0.0, 90.0),
                0.0,
                std::f64::consts::PI,
            )
            .unwrap()
            .into(),
        ),
        ("wave", Spline::through(&wave, free, free).unwrap().into()),
        (
            "bow",
            Spline::over_stations(&bow, free, free).unwrap().into(),
        ),
        (
            "arch",
            bezier([(0.0, 0.0), (0.0, 100.0), (150.0, 180.0), (300.0, 180.0)]),
        ),
        (
            "ess",
            bezier([(0.0, 0.0), (120.0, 0.0), (180.0, 90.0), (300.0, 90.0)]),
        ),
    ]
}

#[test]
fn arcs_are_within_a_tenth_of_the_least_number() {
    for (name, curve) in cases() {
        for tolerance in [0.5, 0.1, 0.05, 0.02] {
            let least = least_arcs(&curve, tolerance);
            let fitted = fit(&curve, tolerance).unwrap();
            let arcs = fitted.segments.len();
            assert!(
                arcs * 10 <= least * 11,
                "{name} within {tolerance} mm: {arcs} arcs, {least} are enough"
            );
            assert!(
                fitted.deviation <= tolerance,
                "{name} within {tolerance} mm: off by {}",
                fitted.deviation
            );
        }
    }
}
