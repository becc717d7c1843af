//! Time to fit fair curves with arcs.

#![expect(clippy::expect_used, reason = "a bench may stop")]

use kerfwise::geometry::Point;
use kerfwise::geometry::fair_curve::BattenEnd;
use kerfwise::geometry::fair_curve::EllipticalArc;
use kerfwise::geometry::fair_curve::FairCurve;
use kerfwise::geometry::fair_curve::Spline;
use kerfwise::geometry::fair_curve::fit;

fn main() {
    divan::main();
}

/// A wave of 20 m through so many points.
fn wave(count: u32) -> FairCurve {
    let points: Vec<Point> = (0..count)
        .map(|index| f64::from(index) / f64::from(count - 1))
        .map(|t| {
            Point::new(
                t * 20_000.0,
                100.0 * kerfwise::geometry::number::sin(120.0 * t),
            )
        })
        .collect();
    Spline::through(&points, BattenEnd::Natural, BattenEnd::Natural)
        .expect("the points differ")
        .into()
}

#[divan::bench(args = [1_000, 10_000, 100_000])]
fn wave_within_a_hundredth(bencher: divan::Bencher<'_, '_>, count: u32) {
    let curve = wave(count);
    bencher.bench_local(|| fit(&curve, 0.01));
}

#[divan::bench]
fn quarter_ellipse(bencher: divan::Bencher<'_, '_>) {
    let (foot, corner) = (Point::ORIGIN, Point::new(120.0, 0.0));
    let quarter = EllipticalArc::quarter(foot, corner, Point::new(120.0, 300.0));
    let curve = FairCurve::from(quarter.expect("a real corner"));
    bencher.bench_local(|| fit(&curve, 0.01));
}
