use kerfwise::geometry::fair_curve::*;
use kerfwise::geometry::*;
fn main() {
    let pts: Vec<Point> = (0..=8)
        .map(|i| {
            let x = i as f64 * 100.;
            Point::new(x, 1e-4 * x * x * (1.0 + x / 2000.0))
        })
        .collect();
    let c: FairCurve = Spline::over_stations(&pts, BattenEnd::Natural, BattenEnd::Natural)
        .unwrap()
        .into();
    let b = |p, r| Breakpoint {
        position: p,
        lean: 0.,
        ratio: r,
    };
    let mut best = vec![(9.0, 0.0); 3];
    for k in -30..=30 {
        for j in -30..=30 {
            for l in -30..=30 {
                let r = [1.08f64.powi(k), 1.08f64.powi(j), 1.08f64.powi(l)];
                if (k != 0) as i32 + (j != 0) as i32 + (l != 0) as i32 > 1 {
                    continue;
                }
                let f =
                    fit_with_breakpoints(&c, &[b(0., 1.), b(1.0, r[0]), b(6.2, r[1]), b(8., r[2])])
                        .unwrap();
                if f.deviation < best[0].0 {
                    best[0] = (f.deviation, r[1]);
                    println!("{r:?} {} {}", f.deviation, f.segments.len());
                }
            }
        }
    }
}
