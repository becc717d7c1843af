use super::*;
use crate::geometry::Contour;
use crate::geometry::Turn;

fn chords(points: &[Point]) -> Vec<Segment> {
    points
        .windows(2)
        .map(|pair| Segment::line(pair[0], pair[1]))
        .collect()
}

/// Points along an arc, its ends among them, rounded to so many decimals.
fn along(arc: &Arc, count: u32, decimals: i32) -> Vec<Point> {
    let scale = 10.0_f64.powi(decimals);
    let round = |value: f64| (value * scale).round() / scale;
    (0..=count)
        .map(|index| arc.point_at(f64::from(index) / f64::from(count)))
        .map(|point| Point::new(round(point.x), round(point.y)))
        .collect()
}

#[test]
fn a_circle_of_a_thousand_chords_is_one_circle() {
    let circle = Arc::circle(Point::new(120.0, -40.0), 45.0);
    for decimals in [12, 6, 4] {
        let chords = chords(&along(&circle, 1000, decimals));
        let made = refit(&chords, true, 0.01);
        let [Segment::Arc(arc)] = made.segments[..] else {
            panic!("{} segments at {decimals} decimals", made.segments.len())
        };
        assert!(arc.is_circle(), "{arc:?}");
        assert!((arc.radius() - 45.0).abs() < 1e-4, "{arc:?}");
        // closed form: the sagitta of a thousandth of a turn
        let sagitta = 45.0 * (1.0 - number::cos(number::HALF_TURN / 1000.0));
        assert!(
            (made.deviation - sagitta).abs() < 1e-4,
            "deviation {} for {sagitta}",
            made.deviation
        );
    }
}

#[test]
fn coarse_chords_are_left_alone() {
    // a nut has 6 sides, and a circle in 36 chords dips by 0.17 mm
    for count in [6, 36] {
        let circle = Arc::circle(Point::ORIGIN, 45.0);
        let chords = chords(&along(&circle, count, 12));
        let made = refit(&chords, true, 0.01);
        assert_eq!(made.segments, chords, "{count} chords");
        assert_eq!(made.deviation, 0.0, "{count} chords");
    }
}

#[test]
fn a_rounded_rectangle_gets_its_eight_edges_back() {
    for decimals in [12, 6, 3] {
        let mut points = Vec::new();
        for (x, y, from) in [
            (90.0, 10.0, -number::QUARTER_TURN),
            (90.0, 50.0, 0.0),
            (10.0, 50.0, number::QUARTER_TURN),
            (10.0, 10.0, number::HALF_TURN),
        ] {
            let arc = Arc::from_angles(Point::new(x, y), 10.0, from, number::QUARTER_TURN);
            points.extend(along(&arc, 40, decimals));
        }
        points.push(points[0]);
        let made = refit(&chords(&points), true, 0.02);
        assert_eq!(made.segments.len(), 8, "{decimals} decimals: {made:?}");
        let contour = Contour::from_segments(made.segments).expect("closed");
        // 100 × 60 less the corners: (4 − π) r²
        let area = 6000.0 - (4.0 - number::HALF_TURN) * 100.0;
        let off = (contour.signed_area() - area).abs();
        assert!(off < 0.2, "{decimals} decimals: area off by {off}");
    }
}

#[test]
fn a_flattened_ellipse_becomes_few_tangent_arcs() {
    let count = 720;
    let points: Vec<Point> = (0..=count)
        .map(|index| {
            let angle = f64::from(index % count) / f64::from(count) * number::FULL_TURN;
            Point::new(120.0 * number::cos(angle), 50.0 * number::sin(angle))
        })
        .collect();
    let flat = chords(&points);
    let made = refit(&flat, true, 0.02);
    assert!(
        made.segments.len() <= 40,
        "{} segments",
        made.segments.len()
    );
    assert!(made.deviation <= 0.02, "deviation {}", made.deviation);
    let after = made.segments.iter().cycle().skip(1);
    for (here, next) in made.segments.iter().zip(after) {
        let turn = number::turn(here.direction_at(1.0), next.direction_at(0.0));
        assert!(turn.abs() < 1e-3, "a corner of {turn} rad");
    }
}

#[test]
fn corners_arcs_and_lines_stay() {
    let arc = Arc::with_radius(
        Point::new(50.0, 0.0),
        Point::new(50.0, 30.0),
        20.0,
        Turn::Anticlockwise,
    )
    .expect("fits");
    let outline = [
        Segment::line(Point::ORIGIN, Point::new(50.0, 0.0)),
        arc.into(),
        Segment::line(Point::new(50.0, 30.0), Point::new(0.0, 30.0)),
        Segment::line(Point::new(0.0, 30.0), Point::ORIGIN),
    ];
    assert_eq!(refit(&outline, true, 0.1).segments, outline, "as it was");
}

#[test]
fn pieces_of_one_line_become_one() {
    let points: Vec<Point> = (0..=30).map(|x| Point::new(f64::from(x), 0.0)).collect();
    let made = refit(&chords(&points), false, 0.01);
    assert_eq!(made.segments.len(), 1, "{made:?}");
    assert!(made.deviation < 1e-9, "{made:?}");
}

/// How far the joints of a closed chain are from tangent, in radians, at most.
fn worst_joint(segments: &[Segment]) -> f64 {
    let after = segments.iter().cycle().skip(1);
    let turns = segments
        .iter()
        .zip(after)
        .map(|(here, next)| number::turn(here.direction_at(1.0), next.direction_at(0.0)).abs());
    turns.fold(0.0, f64::max)
}

#[test]
fn rounded_corners_and_ends_touch_their_lines_exactly() {
    // a slot, and a plate whose corners are rounded by 10 and by 25, in a skew position
    let arc = |x: f64, y: f64, radius: f64, from: f64, sweep: f64| {
        let quarter = number::QUARTER_TURN;
        Arc::from_angles(Point::new(x, y), radius, from * quarter, sweep * quarter)
    };
    let slot = vec![
        arc(60.0, 10.0, 10.0, -1.0, 2.0),
        arc(0.0, 10.0, 10.0, 1.0, 2.0),
    ];
    let plate = vec![
        arc(90.0, 10.0, 10.0, -1.0, 1.0),
        arc(75.0, 35.0, 25.0, 0.0, 1.0),
        arc(10.0, 50.0, 10.0, 1.0, 1.0),
        arc(25.0, 25.0, 25.0, 2.0, 1.0),
    ];
    for (name, arcs) in [("slot", slot), ("plate", plate)] {
        for decimals in [9, 4, 3] {
            let motion = crate::geometry::Motion::turn(0.37);
            let mut points = Vec::new();
            for arc in &arcs {
                points.extend(along(&motion.arc(arc), 40, decimals));
            }
            points.push(points[0]);
            let made = refit(&chords(&points), true, 0.02);
            assert_eq!(
                made.segments.len(),
                2 * arcs.len(),
                "{name} at {decimals}: {:#?}",
                made.segments
            );
            let worst = worst_joint(&made.segments);
            assert!(worst < 1e-9, "{name} at {decimals} decimals: {worst}");
            assert!(made.deviation <= 0.02, "{name}: {}", made.deviation);
            let original: Vec<Segment> = arcs
                .iter()
                .zip(arcs.iter().cycle().skip(1))
                .flat_map(|(here, next)| {
                    let line = Segment::line(here.end(), next.start());
                    [Segment::Arc(*here), line].map(|segment| motion.segment(&segment))
                })
                .collect();
            let stray = deviation::between(&made.segments, &original)
                .expect("segments")
                .0;
            assert!(stray.distance < 0.012, "{name} at {decimals}: {stray:?}");
        }
    }
}

#[test]
fn a_corner_that_is_meant_is_no_tangent() {
    // an arc that meets its line at 10°
    let arc = Arc::from_angles(
        Point::new(0.0, 30.0),
        30.0,
        -number::QUARTER_TURN + 0.175,
        1.0,
    );
    let mut points = vec![Point::new(arc.start().x - 60.0, arc.start().y)];
    points.extend(along(&arc, 60, 9));
    let made = refit(&chords(&points), false, 0.01);
    let [Segment::Line(line), Segment::Arc(found)] = made.segments[..] else {
        panic!("{:#?}", made.segments)
    };
    let turn = number::turn(line.direction(), found.direction_at(0.0));
    assert!((turn - 0.175).abs() < 1e-4, "{turn}");
}
