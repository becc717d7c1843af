use proptest::prelude::*;

use super::*;
use crate::geometry::Arc;
use crate::geometry::Line;
use crate::geometry::Motion;
use crate::geometry::Turn;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;

fn line(x0: f64, y0: f64, x1: f64, y1: f64) -> Segment {
    Segment::line(Point::new(x0, y0), Point::new(x1, y1))
}

/// An arc about a centre from one angle through another, in degrees.
fn arc(centre: (f64, f64), radius: f64, start: f64, sweep: f64) -> Segment {
    let (start, sweep) = (start.to_radians(), sweep.to_radians());
    Segment::Arc(Arc::from_angles(centre.into(), radius, start, sweep))
}

/// A name for the case with its count of points and stretches.
fn shape(meeting: &Meeting) -> &'static str {
    match meeting {
        Meeting::None => "none",
        Meeting::One(_) => "one",
        Meeting::Touch(_) => "touch",
        Meeting::Two(..) => "two",
        Meeting::Overlap(Overlap::One(_)) => "stretch",
        Meeting::Overlap(Overlap::Two(..)) => "two stretches",
        Meeting::Overlap(Overlap::OneAndPoint(..)) => "stretch and point",
    }
}

/// Asserts that every point of a meeting lies where it says on both segments.
fn assert_on_both(a: &Segment, b: &Segment, meeting: &Meeting) {
    for node in meeting.nodes() {
        for (segment, t) in [(a, node.on_first), (b, node.on_second)] {
            assert!((0.0..=1.0).contains(&t), "fraction {t} of {segment:?}");
            let off = number::length(segment.point_at(t) - node.point);
            assert!(
                off <= 3.0 * tolerance::SAME_POINT,
                "{off:e} mm from {segment:?} at {t} in {meeting:?}"
            );
        }
    }
}

/// Asserts the case for both orders, both directions, turned, mirrored and moved 10 m away.
fn assert_case(a: &Segment, b: &Segment, expected: &str) {
    let far = Vec2::new(7000.0, -7000.0);
    let motions = [
        Motion::IDENTITY,
        Motion::shift(far),
        Motion::turn(0.7),
        Motion::turn(2.0).then(&Motion::shift(far)),
        Motion::mirror_left_right(),
    ];
    for motion in motions {
        let (a, b) = (motion.segment(a), motion.segment(b));
        for (a, b) in [
            (a, b),
            (b, a),
            (a.reversed(), b),
            (a, b.reversed()),
            (b.reversed(), a.reversed()),
        ] {
            let meeting = meet(&a, &b);
            assert_eq!(shape(&meeting), expected, "{a:?} with {b:?}: {meeting:?}");
            assert_on_both(&a, &b, &meeting);
        }
    }
}

#[test]
fn lines() {
    let base = line(0.0, 0.0, 10.0, 0.0);
    assert_case(&base, &line(3.0, -1.0, 3.0, 4.0), "one");
    assert_case(&base, &line(3.0, 0.0, 3.0, 4.0), "one");
    assert_case(&base, &line(10.0, 0.0, 13.0, 4.0), "one");
    assert_case(&base, &line(10.0, 0.0, 13.0, 0.0), "one");
    assert_case(&base, &line(10.001, 0.0, 13.0, 0.0), "none");
    assert_case(&base, &line(0.0, 0.001, 10.0, 0.001), "none");
    assert_case(&base, &line(5.0, 1.0, 5.0, 4.0), "none");
    assert_case(&base, &line(5.0, 0.0, 15.0, 0.0), "stretch");
    assert_case(&base, &line(2.0, 0.0, 5.0, 0.0), "stretch");
    assert_case(&base, &base, "stretch");
    assert_case(&base, &line(0.0, 0.0, 5.0, 0.0), "stretch");
    // a thousandth of an ångström off square
    assert_case(&base, &line(0.0, 1e-10, 10.0, -1e-10), "stretch");
}

#[test]
fn a_stretch_tells_its_fractions() {
    let (a, b) = (line(0.0, 0.0, 10.0, 0.0), line(12.0, 0.0, 4.0, 0.0));
    let Meeting::Overlap(Overlap::One(stretch)) = meet(&a, &b) else {
        panic!("they overlap from 4 to 10");
    };
    assert_eq!(stretch.from.point, Point::new(4.0, 0.0), "from");
    assert_eq!(
        (stretch.from.on_first, stretch.from.on_second),
        (0.4, 1.0),
        "fractions at the start"
    );
    assert_eq!(
        (stretch.to.on_first, stretch.to.on_second),
        (1.0, 0.25),
        "fractions at the end"
    );
}

#[test]
fn lines_and_arcs() {
    let half = arc((0.0, 0.0), 50.0, 0.0, 180.0);
    assert_case(&half, &line(-60.0, 30.0, 60.0, 30.0), "two");
    assert_case(&half, &line(0.0, 30.0, 60.0, 30.0), "one");
    assert_case(&half, &line(-60.0, -30.0, 60.0, -30.0), "none");
    assert_case(&half, &line(-60.0, 50.0, 60.0, 50.0), "touch");
    assert_case(&half, &line(0.0, 50.0, 60.0, 50.0), "touch");
    assert_case(&half, &line(1.0, 50.0, 60.0, 50.0), "none");
    assert_case(&half, &line(-60.0, 50.001, 60.0, 50.001), "none");
    // a tangent joint, and the joint of a square corner
    assert_case(&half, &line(50.0, -40.0, 50.0, 0.0), "touch");
    assert_case(&half, &line(50.0, 0.0, 90.0, 0.0), "one");
    // the diameter joins both ends
    assert_case(&half, &line(-50.0, 0.0, 50.0, 0.0), "two");
    let circle = Segment::Arc(Arc::circle(Point::ORIGIN, 50.0));
    assert_case(&circle, &line(0.0, 0.0, 60.0, 0.0), "one");
    assert_case(&circle, &line(-60.0, 0.0, 60.0, 0.0), "two");
    assert_case(&circle, &line(50.0, -10.0, 50.0, 10.0), "touch");
}

#[test]
fn arcs() {
    let half = arc((0.0, 0.0), 50.0, 0.0, 180.0);
    assert_case(&half, &arc((60.0, 0.0), 50.0, 0.0, 360.0), "one");
    assert_case(&half, &arc((0.0, 60.0), 50.0, 0.0, 360.0), "two");
    assert_case(&half, &arc((0.0, 80.0), 30.0, 0.0, 360.0), "touch");
    assert_case(&half, &arc((0.0, 20.0), 30.0, 0.0, 360.0), "touch");
    assert_case(&half, &arc((0.0, 20.0), 29.0, 0.0, 360.0), "none");
    assert_case(&half, &arc((0.0, 0.0), 29.0, 0.0, 360.0), "none");
    assert_case(&half, &arc((70.0, 0.0), 20.0, 180.0, 90.0), "touch");
    assert_case(&half, &arc((0.0, -80.0), 30.0, 0.0, 360.0), "none");
}

#[test]
fn arcs_of_one_circle() {
    let half = arc((0.0, 0.0), 50.0, 0.0, 180.0);
    assert_case(&half, &half, "stretch");
    assert_case(&half, &arc((0.0, 0.0), 50.0, 90.0, 180.0), "stretch");
    assert_case(&half, &arc((0.0, 0.0), 50.0, 45.0, 20.0), "stretch");
    assert_case(&half, &arc((0.0, 0.0), 50.0, 180.0, 90.0), "one");
    assert_case(&half, &arc((0.0, 0.0), 50.0, 180.0, 180.0), "two");
    assert_case(&half, &arc((0.0, 0.0), 50.0, 190.0, 90.0), "none");
    assert_case(&half, &arc((0.0, 0.0), 50.0, 150.0, 250.0), "two stretches");
    assert_case(
        &half,
        &arc((0.0, 0.0), 50.0, 180.0, 250.0),
        "stretch and point",
    );
    let circle = arc((0.0, 0.0), 50.0, 0.0, 360.0);
    assert_case(&circle, &circle, "stretch");
    assert_case(&circle, &half, "stretch");
    assert_case(
        &circle,
        &arc((0.0, 0.0), 50.0, 90.0, 360.0),
        "two stretches",
    );
    assert_case(
        &circle,
        &arc((0.0, 0.0), 50.0, 300.0, 120.0),
        "two stretches",
    );
}

#[test]
fn a_circle_on_itself_runs_once_round() {
    let circle = arc((0.0, 0.0), 50.0, 0.0, 360.0);
    for (other, expected) in [(circle, (0.0, 1.0)), (circle.reversed(), (1.0, 0.0))] {
        let Meeting::Overlap(Overlap::One(stretch)) = meet(&circle, &other) else {
            panic!("one circle");
        };
        assert_eq!(
            (stretch.from.on_first, stretch.to.on_first),
            (0.0, 1.0),
            "the first goes forward"
        );
        assert_eq!(
            (stretch.from.on_second, stretch.to.on_second),
            expected,
            "the second goes its own way"
        );
    }
}

#[test]
fn a_touch_made_by_construction_stays_one_ten_metres_away() {
    for degrees in 0..90 {
        let direction = number::unit(f64::from(degrees).to_radians() * 4.0);
        let centre = Point::new(9_876.543_21, -8_765.432_1);
        let touch = centre + direction * 123.456;
        let along = number::left_normal(direction);
        let tangent = Segment::line(touch - along * 300.0, touch + along * 700.0);
        let circle = Segment::Arc(Arc::circle(centre, 123.456));
        assert_eq!(shape(&meet(&tangent, &circle)), "touch", "at {degrees}°");
        let outer = Segment::Arc(Arc::circle(centre + direction * (123.456 + 0.7), 0.7));
        assert_eq!(shape(&meet(&outer, &circle)), "touch", "at {degrees}°");
    }
}

/// Lengths that are nearly, but often not quite, the ones that make the special cases.
fn nearly(value: f64) -> impl Strategy<Value = f64> {
    (0..8_i32, -4..5_i32).prop_map(move |(power, steps)| {
        let step =
            [0.0, 1e-14, 1e-12, 1e-10, 1e-9, 1e-8, 1e-7, 1e-3][power.unsigned_abs() as usize];
        value + f64::from(steps) * step
    })
}

fn segment() -> impl Strategy<Value = Segment> {
    let place = || (nearly(0.0), 0..3_i32).prop_map(|(x, n)| x + 10.0 * f64::from(n));
    let straight =
        (place(), place(), place(), place()).prop_filter_map("length", |(a, b, c, d)| {
            let made = Line::new(Point::new(a, b), Point::new(c, d));
            (made.length() > 1e-6).then_some(Segment::Line(made))
        });
    let round = (
        place(),
        place(),
        nearly(10.0),
        0..8_i32,
        1..9_i32,
        any::<bool>(),
    )
        .prop_map(|(x, y, radius, start, sweep, back)| {
            let eighth = number::QUARTER_TURN / 2.0;
            let sweep = f64::from(sweep) * eighth * if back { -1.0 } else { 1.0 };
            let start = f64::from(start) * eighth;
            Segment::Arc(Arc::from_angles(Point::new(x, y), radius, start, sweep))
        });
    let flat =
        (place(), place(), place(), nearly(0.0)).prop_filter_map("an arc", |(a, b, c, bow)| {
            let (start, end) = (Point::new(a, b), Point::new(c, b + 3.0));
            let middle = start.midpoint(end) + Vec2::new(bow, 0.0);
            Arc::through(start, middle, end)
                .ok()
                .filter(|arc| arc.radius() < tolerance::LARGEST_COORDINATE)
                .map(Segment::Arc)
        });
    prop_oneof![straight, round, flat]
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(4000) })]

    #[test]
    fn both_orders_agree_and_points_lie_on_both(a in segment(), b in segment()) {
        let (there, back) = (meet(&a, &b), meet(&b, &a));
        assert_on_both(&a, &b, &there);
        assert_on_both(&b, &a, &back);
        let stretches = |meeting: &Meeting| meeting.stretches().count();
        prop_assert_eq!(
            stretches(&there) > 0, stretches(&back) > 0,
            "{:?} and {:?}: {:?}, {:?}", a, b, there, back
        );
        prop_assert_eq!(
            matches!(there, Meeting::None), matches!(back, Meeting::None),
            "{:?} and {:?}: {:?}, {:?}", a, b, there, back
        );
    }

    /// Sampling finds no crossing that was not reported: the side of the second segment's carrier on
    /// which the first lies changes only at reported points.
    #[test]
    fn sides_change_only_where_they_meet(a in segment(), b in segment()) {
        let side = |point: Point| match b {
            Segment::Line(line) => line.direction().cross(point - line.start),
            Segment::Arc(arc) => number::length(point - arc.centre()) - arc.radius(),
        };
        let meeting = meet(&a, &b);
        let steps = 64_i32;
        for step in 0..steps {
            let (from, to) = (f64::from(step) / 64.0, f64::from(step + 1) / 64.0);
            let (p, q) = (a.point_at(from), a.point_at(to));
            let (before, after) = (side(p), side(q));
            if before * after >= 0.0 || before.abs().min(after.abs()) < 1e-6 {
                continue;
            }
            // the crossing of the carrier, by halving
            let (mut low, mut high) = (from, to);
            for _ in 0..60 {
                let middle = f64::midpoint(low, high);
                if side(a.point_at(middle)) * before > 0.0 { low = middle } else { high = middle }
            }
            let crossing = a.point_at(low);
            if number::length(b.nearest_point(crossing) - crossing) < 1e-9 {
                let nearest = meeting
                    .nodes()
                    .map(|node| number::length(node.point - crossing))
                    .fold(f64::INFINITY, f64::min);
                prop_assert!(nearest < 1e-4, "{:?} missed by {} in {:?}", crossing, nearest, meeting);
            }
        }
    }
}

#[test]
fn a_line_through_a_flat_arc() {
    let start = Point::new(0.0, 0.0);
    let end = Point::new(1000.0, 0.0);
    let flat = Arc::with_radius(start, end, 5e5, Turn::Clockwise).expect("a bow of 0.25 mm");
    let across = line(500.0, -1.0, 500.0, 1.0);
    let Meeting::One(crossing) = meet(&Segment::Arc(flat), &across) else {
        panic!("it crosses once");
    };
    let expected = 0.250_000_062_500_031; // 5e5 − √(25e10 − 25e4)
    assert!(
        (crossing.point.y - expected).abs() < 1e-9,
        "{} for {expected}",
        crossing.point.y
    );
}
