use kerfwise::geometry::fair_curve::*;
use kerfwise::geometry::*;
fn bound(c: &FairCurve, tol: f64) -> f64 {
    let n = 20000;
    let last = c.last_position();
    let mut s = 0.0;
    for i in 0..n {
        let a = last * i as f64 / n as f64;
        let b = last * (i + 1) as f64 / n as f64;
        let (ka, kb) = (c.curvature_at(a), c.curvature_at(b));
        let l = (c.point_at(b) - c.point_at(a)).hypot();
        let sl = ((kb - ka) / l).abs();
        s += l * (3f64.sqrt() * sl / tol).cbrt() / 6.0;
    }
    s
}
fn main() {
    let mut cs: Vec<(&str, FairCurve)> = vec![];
    cs.push((
        "quarter 120x300",
        EllipticalArc::quarter(
            Point::new(0., 0.),
            Point::new(120., 0.),
            Point::new(120., 300.),
        )
        .unwrap()
        .into(),
    ));
    cs.push((
        "whole 120x300",
        EllipticalArc::whole(Point::new(0., 0.), Vec2::new(120., 0.), Vec2::new(0., 300.))
            .unwrap()
            .into(),
    ));
    let f = |n: usize, g: &dyn Fn(f64) -> Point| -> Vec<Point> {
        (0..n).map(|i| g(i as f64 / (n - 1) as f64)).collect()
    };
    let sine = f(21, &|t| Point::new(t * 1000., 100. * (6.28 * t).sin()));
    cs.push((
        "sine21",
        Spline::through(&sine, BattenEnd::Natural, BattenEnd::Natural)
            .unwrap()
            .into(),
    ));
    cs.push((
        "sine21 over",
        Spline::over_stations(&sine, BattenEnd::Natural, BattenEnd::Natural)
            .unwrap()
            .into(),
    ));
    let sine = f(10000, &|t| Point::new(t * 20000., 100. * (120.0 * t).sin()));
    cs.push((
        "sine10000",
        Spline::through(&sine, BattenEnd::Natural, BattenEnd::Natural)
            .unwrap()
            .into(),
    ));
    let spiral = f(200, &|t| {
        let a = 9. * t;
        Point::new((50. + t * 300.) * a.cos(), (50. + t * 300.) * a.sin())
    });
    cs.push((
        "spiral",
        Spline::through(&spiral, BattenEnd::Natural, BattenEnd::Natural)
            .unwrap()
            .into(),
    ));
    let line = f(20, &|t| Point::new(t * 1000., t * 300.));
    cs.push((
        "line",
        Spline::through(&line, BattenEnd::Natural, BattenEnd::Natural)
            .unwrap()
            .into(),
    ));
    let circ = f(33, &|t| {
        Point::new(100. * (6.2831853 * t).cos(), 100. * (6.2831853 * t).sin())
    });
    cs.push(("circle33", Spline::closed(&circ[..32]).unwrap().into()));
    cs.push((
        "circle3/4",
        Spline::through(
            &circ[..25],
            BattenEnd::Direction(Vec2::new(0., 1.)),
            BattenEnd::Direction(Vec2::new(1., 0.)),
        )
        .unwrap()
        .into(),
    ));
    cs.push((
        "bez",
        CubicBezier::new([
            Point::new(0., 0.),
            Point::new(100., 300.),
            Point::new(300., -100.),
            Point::new(400., 200.),
        ])
        .unwrap()
        .into(),
    ));
    cs.push((
        "bez handle0",
        CubicBezier::new([
            Point::new(0., 0.),
            Point::new(0., 0.),
            Point::new(300., -100.),
            Point::new(400., 200.),
        ])
        .unwrap()
        .into(),
    ));
    let duck: [(f64, f64); 21] = [
        (0.9, 1.3),
        (1.3, 1.5),
        (1.9, 1.85),
        (2.1, 2.1),
        (2.6, 2.6),
        (3.0, 2.7),
        (3.9, 2.4),
        (4.4, 2.15),
        (4.7, 2.05),
        (5.0, 2.1),
        (6.0, 2.25),
        (7.0, 2.3),
        (8.0, 2.25),
        (9.2, 1.95),
        (10.5, 1.4),
        (11.3, 0.9),
        (11.6, 0.7),
        (12.0, 0.6),
        (12.6, 0.5),
        (13.0, 0.4),
        (13.3, 0.25),
    ];
    let duck: Vec<Point> = duck
        .iter()
        .map(|p| Point::new(p.0 * 100., p.1 * 100.))
        .collect();
    cs.push((
        "duck",
        Spline::over_stations(&duck, BattenEnd::Natural, BattenEnd::Natural)
            .unwrap()
            .into(),
    ));
    cs.push((
        "duck chord",
        Spline::through(&duck, BattenEnd::Natural, BattenEnd::Natural)
            .unwrap()
            .into(),
    ));
    for (n, c) in &cs {
        for tol in [0.1, 0.01, 0.001] {
            let t0 = std::time::Instant::now();
            let r = fit(c, tol);
            let dt = t0.elapsed();
            match r {
                Ok(r) => {
                    let kink = r
                        .segments
                        .windows(2)
                        .map(|w| {
                            let a = w[0].direction_at(1.0);
                            let b = w[1].direction_at(0.0);
                            a.cross(b).abs()
                        })
                        .fold(0., f64::max);
                    println!(
                        "{n:18} tol {tol}: {} segs, breakpoints {}, bound {:.1}, dev {:.6}, infl {:?} lumps {} kink {:.1e} {:?}",
                        r.segments.len(),
                        r.breakpoints.len(),
                        bound(c, tol),
                        r.deviation,
                        r.inflections.len(),
                        r.lumps.len(),
                        kink,
                        dt
                    );
                }
                Err(e) => println!("{n} {tol} ERR {e}"),
            }
        }
    }
}
