//! Fair curves against textbook tables, closed forms and scipy's values.

use kerfwise::geometry::Contour;
use kerfwise::geometry::Point;
use kerfwise::geometry::Segment;
use kerfwise::geometry::Vec2;
use kerfwise::geometry::fair_curve::BattenEnd;
use kerfwise::geometry::fair_curve::CubicBezier;
use kerfwise::geometry::fair_curve::EllipticalArc;
use kerfwise::geometry::fair_curve::FairCurve;
use kerfwise::geometry::fair_curve::FairCurveError;
use kerfwise::geometry::fair_curve::Spline;
use kerfwise::geometry::fair_curve::fit;
use kerfwise::geometry::fair_curve::fit_with_breakpoints;
use kerfwise::geometry::fair_curve::fit_with_halved_breakpoints;
use kerfwise::geometry::fair_curve::lumps;
use kerfwise::geometry::number;

const FREE: BattenEnd = BattenEnd::Natural;

fn points(xy: &[(f64, f64)]) -> Vec<Point> {
    xy.iter().map(|&pair| Point::from(pair)).collect()
}

fn slope(value: f64) -> BattenEnd {
    BattenEnd::Direction(Vec2::new(1.0, value))
}

fn coefficients(spline: &Spline) -> Vec<[f64; 3]> {
    let pieces = spline.pieces().iter();
    pieces
        .map(|piece| [piece.b.y, piece.c.y, piece.d.y])
        .collect()
}

fn assert_rows(name: &str, spline: &Spline, rows: &[(usize, [f64; 3])], within: f64) {
    let own = coefficients(spline);
    for (index, expected) in rows {
        for (got, want) in own[*index].iter().zip(expected) {
            assert!(
                (got - want).abs() <= within,
                "{name}, piece {index}: {:?} for {expected:?}",
                own[*index]
            );
        }
    }
}

// Burden & Faires, Numerical Analysis, section 3.5 (data from memory); coefficients by scipy 1.17.1,
// CubicSpline.
#[test]
fn textbook_splines_over_stations() {
    let three = points(&[(1.0, 2.0), (2.0, 3.0), (3.0, 5.0)]);
    let natural = Spline::over_stations(&three, FREE, FREE).unwrap();
    let rows = [(0, [0.75, 0.0, 0.25]), (1, [1.5, 0.75, -0.25])];
    assert_rows("natural", &natural, &rows, 1e-14);
    let held = Spline::over_stations(&three, slope(2.0), slope(1.0)).unwrap();
    let rows = [(0, [2.0, -2.5, 1.5]), (1, [1.5, 2.0, -1.5])];
    assert_rows("held", &held, &rows, 1e-14);

    let growth: Vec<Point> = (0..4)
        .map(|x| Point::new(f64::from(x), std::f64::consts::E.powi(x)))
        .collect();
    let natural = Spline::over_stations(&growth, FREE, FREE).unwrap();
    let rows = [
        (0, [1.465_998, 0.0, 0.252_284]),
        (1, [2.222_850, 0.756_853, 1.691_071]),
        (2, [8.809_770, 5.830_067, -1.943_356]),
    ];
    assert_rows("natural on e^x", &natural, &rows, 6e-7);
    let held =
        Spline::over_stations(&growth, slope(1.0), slope(std::f64::consts::E.powi(3))).unwrap();
    let rows = [
        (0, [1.0, 0.444_682, 0.273_599]),
        (1, [2.710_163, 1.265_480, 0.695_131]),
        (2, [7.326_516, 3.350_873, 2.019_092]),
    ];
    assert_rows("held on e^x", &held, &rows, 6e-7);
}

const TABLE_OF_21: [(f64, f64); 21] = [
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

// Burden & Faires, section 3.5, the example of 21 stations (from memory); coefficients by scipy 1.17.1.
#[test]
fn textbook_table_of_21_stations() {
    let spline = Spline::over_stations(&points(&TABLE_OF_21), FREE, FREE).unwrap();
    let rows = [
        (0, [0.539_624, 0.0, -0.247_649]),
        (1, [0.420_752, -0.297_179, 0.946_912]),
        (2, [1.086_803, 1.407_263, -2.956_382]),
        (3, [1.294_942, -0.366_567, -0.446_635]),
        (4, [0.593_399, -1.036_519, 0.445_051]),
        (5, [-0.022_191, -0.502_457, 0.174_160]),
        (8, [-0.071_316, 1.267_642, -1.581_219]),
        (15, [-0.731_178, -0.148_983, 1.213_405]),
        (19, [-0.392_775, -0.536_126, 0.595_695]),
    ];
    assert_rows("21 stations", &spline, &rows, 6e-7);
}

// scipy 1.17.1, CubicSpline(bc_type="periodic") through n points of the unit circle by its angle: the
// chords of a regular polygon are alike, so the parameter agrees up to scale.
#[test]
fn closed_spline_through_a_circle() {
    for (count, expected) in [(4, 2.773e-2), (8, 1.152e-3), (16, 6.435e-5), (32, 3.908e-6)] {
        let ring: Vec<Point> = (0..count)
            .map(|index| std::f64::consts::TAU * f64::from(index) / f64::from(count))
            .map(|angle| Point::new(number::cos(angle), number::sin(angle)))
            .collect();
        let curve = FairCurve::from(Spline::closed(&ring).unwrap());
        let worst = (0..count * 100)
            .map(|step| curve.point_at(f64::from(step) / 100.0).to_vec2())
            .map(|at| (at.dot(at).sqrt() - 1.0).abs())
            .fold(0.0, f64::max);
        assert!(
            (worst / expected - 1.0).abs() < 1e-3,
            "{count} points: off by {worst}, scipy {expected}"
        );
    }
}

// S. Mortensen, "Approximate a circle with cubic Bézier curves": 0.027253 % outside.
#[test]
fn bezier_quarter_leaves_the_circle_as_published() {
    let k = 0.552_284_749_831;
    let control = points(&[(1.0, 0.0), (1.0, k), (k, 1.0), (0.0, 1.0)]);
    let control = <[Point; 4]>::try_from(control).unwrap();
    let curve = FairCurve::from(CubicBezier::new(control).unwrap());
    let worst = (0..=2000)
        .map(|step| curve.point_at(f64::from(step) / 2000.0).to_vec2())
        .map(|at| at.dot(at).sqrt() - 1.0)
        .fold(0.0, f64::max);
    assert!((worst - 2.7253e-4).abs() < 1e-8, "outside by {worst}");
}

#[test]
fn circle_and_line_come_back_as_one_segment() {
    let on_circle = |count: u8, sweep: f64| -> Vec<Point> {
        (0..count)
            .map(|index| sweep * f64::from(index) / f64::from(count - 1))
            .map(|angle| {
                Point::new(
                    20.0 + 150.0 * number::cos(angle),
                    150.0 * number::sin(angle),
                )
            })
            .collect()
    };
    let arc = fit(
        &FairCurve::through(&on_circle(9, 2.0), FREE, FREE).unwrap(),
        0.01,
    )
    .unwrap();
    let [Segment::Arc(found)] = arc.segments.as_slice() else {
        panic!("not one arc: {:?}", arc.segments);
    };
    assert!(
        (found.radius() - 150.0).abs() < 1e-9,
        "radius {}",
        found.radius()
    );
    let ring = &on_circle(9, std::f64::consts::TAU)[..8];
    let circle = fit(&FairCurve::closed(ring).unwrap(), 0.01).unwrap();
    assert!(
        matches!(circle.segments.as_slice(), [Segment::Arc(one)] if one.is_circle()),
        "not one circle: {:?}",
        circle.segments
    );
    let straight = points(&[(0.0, 0.0), (100.0, 30.0), (150.0, 45.0), (400.0, 120.0)]);
    let line = fit(
        &Spline::through(&straight, FREE, FREE).unwrap().into(),
        0.01,
    )
    .unwrap();
    assert!(
        matches!(line.segments.as_slice(), [Segment::Line(_)]),
        "not one line: {:?}",
        line.segments
    );
}

#[test]
fn fit_joins_smoothly_and_keeps_the_ends() {
    let table: Vec<Point> = TABLE_OF_21
        .map(|(x, y)| Point::new(x * 100.0, y * 100.0))
        .to_vec();
    let curves: [FairCurve; 3] = [
        Spline::over_stations(&table, FREE, FREE).unwrap().into(),
        Spline::through(&table, slope(0.3), FREE).unwrap().into(),
        EllipticalArc::quarter(table[0], Point::new(400.0, 130.0), Point::new(400.0, 500.0))
            .unwrap()
            .into(),
    ];
    for curve in curves {
        let fitted = fit(&curve, 0.01).unwrap();
        let (first, last) = (
            fitted.segments[0],
            fitted.segments[fitted.segments.len() - 1],
        );
        let end = curve.last_position();
        assert!(fitted.deviation <= 0.01, "off by {}", fitted.deviation);
        let apart = number::length(first.start() - curve.point_at(0.0))
            + number::length(last.end() - curve.point_at(end));
        assert!(apart < 1e-12, "ends off by {apart}");
        for (own, true_one) in [
            (first.direction_at(0.0), curve.direction_at(0.0)),
            (last.direction_at(1.0), curve.direction_at(end)),
        ] {
            assert!(own.cross(true_one).abs() < 1e-9, "{own:?} for {true_one:?}");
        }
        for pair in fitted.segments.windows(2) {
            let kink = pair[0].direction_at(1.0).cross(pair[1].direction_at(0.0));
            assert!(
                kink.abs() < 1e-9,
                "a kink of {kink} at {:?}",
                pair[1].start()
            );
            assert!(
                pair[0].end() == pair[1].start(),
                "a gap at {:?}",
                pair[1].start()
            );
        }
    }
}

/// The table of 21 stations, the middle one moved by `change`.
fn moved_in_the_middle(change: f64) -> Vec<Point> {
    let mut table = TABLE_OF_21
        .map(|(x, y)| Point::new(x * 100.0, y * 100.0))
        .to_vec();
    table[10].y += change;
    table
}

#[test]
fn refit_of_the_same_curve_is_the_fit_and_moves_smoothly() {
    let batten = |table: Vec<Point>| FairCurve::from(Spline::through(&table, FREE, FREE).unwrap());
    let with = |change| batten(moved_in_the_middle(change));
    let base = fit(&with(0.0), 0.01).unwrap();
    let length = |change: f64| -> f64 {
        let again = fit_with_breakpoints(&with(change), &base.breakpoints).unwrap();
        again.segments.iter().map(Segment::length).sum()
    };
    let own: f64 = base.segments.iter().map(Segment::length).sum();
    assert!(
        (length(0.0) - own).abs() < 1e-9,
        "{} for {own}",
        length(0.0)
    );
    let (coarse, fine) = (length(0.1) - length(-0.1), length(0.01) - length(-0.01));
    assert!(
        (coarse - 10.0 * fine).abs() < 1e-3 * coarse.abs(),
        "slopes {} and {}",
        coarse / 0.2,
        fine / 0.02
    );
}

#[test]
fn breakpoints_are_halved_as_long_as_the_curve_has_left_them() {
    let batten = |table: Vec<Point>| FairCurve::from(Spline::through(&table, FREE, FREE).unwrap());
    let with = |change| batten(moved_in_the_middle(change));
    let base = fit(&with(0.0), 0.01).unwrap();
    let near = fit_with_halved_breakpoints(&with(0.01), &base.breakpoints, 0.02).unwrap();
    assert!(
        near.breakpoints == base.breakpoints,
        "a hundredth needs no more arcs"
    );
    for change in [1.0, 10.0, 300.0, -1000.0] {
        let curve = with(change);
        let kept = fit_with_breakpoints(&curve, &base.breakpoints).unwrap();
        assert!(kept.deviation > 0.02, "{change} mm strays too little");
        let halved = fit_with_halved_breakpoints(&curve, &base.breakpoints, 0.02).unwrap();
        // measured here against a dense polyline through the curve's own points
        let dense: Vec<Point> = (0..=20_000)
            .map(|at| curve.point_at(curve.last_position() * f64::from(at) / 20_000.0))
            .collect();
        let nearest = |from: Point| {
            let far = dense.windows(2).map(|pair| {
                let (along, off) = (pair[1] - pair[0], from - pair[0]);
                let share = (off.dot(along) / along.dot(along)).clamp(0.0, 1.0);
                number::length(off - along * share)
            });
            far.fold(f64::INFINITY, f64::min)
        };
        let middles = halved.segments.iter().map(|segment| segment.point_at(0.5));
        let worst = middles.map(nearest).fold(0.0, f64::max);
        assert!(worst <= 0.021, "{change} mm: {worst} mm off");
    }
}

#[test]
fn lump_names_its_station() {
    let fair = |x: f64| 80.0 * number::cos(x / 700.0);
    let mut table: Vec<Point> = (0..=14)
        .map(|i| Point::new(f64::from(i) * 60.0, fair(f64::from(i) * 60.0)))
        .collect();
    let none = lumps(&Spline::through(&table, FREE, FREE).unwrap(), 0.01);
    assert!(none.is_empty(), "a fair table has lumps: {none:?}");
    table[7].y += 1.0;
    let found = lumps(&Spline::through(&table, FREE, FREE).unwrap(), 0.01);
    let stations: Vec<usize> = found.iter().map(|lump| lump.station).collect();
    assert!(stations == [7], "{found:?}");
    assert!(
        (found[0].spring + 1.0).abs() < 0.02,
        "springs by {}",
        found[0].spring
    );
}

/// One station after the other of a fair table is put wrong, those beside the ends too, where their
/// neighbours spring further than they do.
#[test]
fn the_wrong_station_is_blamed_and_no_other() {
    let tables: [Vec<Point>; 3] = [
        (0..=7)
            .map(|i| Point::new(f64::from(i) * 150.0, 148.0 - f64::from(i * i) * 1.5 - 9.0))
            .collect(),
        (0..=12)
            .map(|i| f64::from(i) / 12.0)
            .map(|t| Point::new(900.0 * t, 80.0 * number::cos(1.4 * t) + 30.0 * t * t * t))
            .collect(),
        (0..=9)
            .map(|i| f64::from(i) / 9.0)
            .map(|t| Point::new(700.0 * t * (0.7 + 0.3 * t), 60.0 * number::sin(3.0 * t)))
            .collect(),
    ];
    for table in tables {
        for wrong in 1..table.len() - 1 {
            for by in [-5.0, 3.0] {
                let mut points = table.clone();
                points[wrong].y += by;
                let found = lumps(&Spline::through(&points, FREE, FREE).unwrap(), 0.2);
                let first = found.first().map(|lump| lump.station);
                assert_eq!(first, Some(wrong), "{by} mm at {wrong}: {found:?}");
                let told = found[0].fair.y - table[wrong].y;
                assert!(told.abs() < 0.8, "{by} mm at {wrong} is told as {told} off");
                assert!(found.len() == 1, "others are blamed, too: {found:?}");
            }
        }
    }
}

#[test]
fn two_wrong_stations_are_both_blamed() {
    let fair = |x: f64| 80.0 * number::cos(x / 700.0);
    let mut table: Vec<Point> = (0..=14)
        .map(|i| Point::new(f64::from(i) * 60.0, fair(f64::from(i) * 60.0)))
        .collect();
    table[2].y += 2.0;
    table[9].y -= 1.0;
    let found = lumps(&Spline::through(&table, FREE, FREE).unwrap(), 0.2);
    let stations: Vec<usize> = found.iter().map(|lump| lump.station).collect();
    assert_eq!(stations, [2, 9], "{found:?}");
}

#[test]
fn refuses_what_is_no_curve() {
    let good = points(&[(0.0, 0.0), (10.0, 5.0), (20.0, 0.0)]);
    let curve = FairCurve::from(Spline::through(&good, FREE, FREE).unwrap());
    for tolerance in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        let refused = matches!(
            fit(&curve, tolerance),
            Err(FairCurveError::Tolerance { .. })
        );
        assert!(refused, "a tolerance of {tolerance} was taken");
    }
    let twice = points(&[(0.0, 0.0), (10.0, 5.0), (10.0, 5.0)]);
    let huge = points(&[(0.0, 0.0), (1e9, 5.0)]);
    let none = points(&[(0.0, 0.0), (f64::NAN, 5.0)]);
    for wrong in [twice, huge, none, good[..1].to_vec(), Vec::new()] {
        let through = Spline::through(&wrong, FREE, FREE);
        let over = Spline::over_stations(&wrong, FREE, FREE);
        let closed = Spline::closed(&wrong);
        assert!(
            through.is_err() && over.is_err() && closed.is_err(),
            "taken: {wrong:?}"
        );
    }
    let there_and_back = points(&[(0.0, 0.0), (10.0, 0.0), (0.0, 0.0)]);
    let turning = Spline::through(&there_and_back, FREE, FREE).unwrap();
    let cusp = fit(&turning.into(), 0.01);
    assert!(
        cusp.is_err(),
        "a curve that turns on the spot was fitted: {cusp:?}"
    );
}

// NACA Report 460, p. 4 (from memory) for the formula; the coordinates from PyPI aerosandbox 4.2.10.
#[test]
fn section_of_the_0012_follows_its_formula() {
    let thickness = |x: f64| {
        let even = -0.126 + (-0.3516 + (0.2843 - 0.1015 * x) * x) * x;
        0.6 * (0.2969 * x.sqrt() + even * x)
    };
    let table: Vec<Point> = include_str!("../fixtures/fair_curve/naca0012.dat")
        .lines()
        .filter(|line| !line.starts_with('#'))
        .map(|line| {
            let mut numbers = line.split_whitespace().map(|word| word.parse().unwrap());
            Point::new(numbers.next().unwrap(), numbers.next().unwrap())
        })
        .collect();
    assert!(table.len() == 69, "{} points", table.len());
    for point in &table {
        let off = point.y.abs() - thickness(point.x);
        assert!(off.abs() < 1e-7, "{point:?} is off its formula by {off}");
    }
    // a section of 300 mm chord, all round the nose
    let full_size: Vec<Point> = table
        .iter()
        .map(|at| Point::new(at.x * 300.0, at.y * 300.0))
        .collect();
    let curve = FairCurve::from(Spline::through(&full_size, FREE, FREE).unwrap());
    let fitted = fit(&curve, 0.01).unwrap();
    assert!(fitted.deviation <= 0.01, "off by {}", fitted.deviation);
    for point in full_size {
        let near = fitted
            .segments
            .iter()
            .map(|one| number::length(one.nearest_point(point) - point));
        let off = near.fold(f64::INFINITY, f64::min);
        assert!(off <= 0.01, "station {point:?} is off the arcs by {off} mm");
    }
}

// Perimeter 4b E(1 − a²/b²) by scipy 1.17.1, ellipe; area πab.
#[test]
fn whole_ellipse_keeps_perimeter_and_area() {
    let axes = [Vec2::new(120.0, 0.0), Vec2::new(0.0, 300.0)];
    let ellipse = EllipticalArc::whole(Point::new(50.0, -20.0), axes[0], axes[1]).unwrap();
    let fitted = fit(&ellipse.into(), 0.001).unwrap();
    let contour = Contour::from_segments(fitted.segments).unwrap();
    let perimeter = contour.perimeter();
    assert!(
        (perimeter - 1_380.786_755_740).abs() < 1e-3,
        "perimeter {perimeter}"
    );
    let (area, exact) = (contour.signed_area(), std::f64::consts::PI * 120.0 * 300.0);
    // no more than the tolerance all along the perimeter
    assert!(
        (area - exact).abs() < 0.001 * 1_380.786_755_740,
        "area {area} for {exact}"
    );
}
