use proptest::prelude::*;

use super::*;
use crate::geometry::Motion;

fn line(x0: f64, y0: f64, x1: f64, y1: f64) -> Segment {
    Segment::line(Point::new(x0, y0), Point::new(x1, y1))
}

/// Everything that makes an arc a fillet: joined, tangent, on both edges, turning the right way.
fn assert_is_fillet(before: &Segment, after: &Segment, made: &Fillet, radius: f64) {
    let arc = made.arc;
    let say = || format!("{made:?} between {before:?} and {after:?}");
    assert!((arc.radius() - radius).abs() < 1e-9, "radius: {}", say());
    let turn = number::turn(before.direction_at(1.0), after.direction_at(0.0));
    assert!(arc.sweep() * turn > 0.0, "side: {}", say());
    // ten metres away a point is known to 2e-12 mm, and on a circle to some last digits of its radius,
    // which on a small radius or edge is an angle
    let known = 4e-12 + radius * 4.0 * f64::EPSILON;
    let smooth = |a: Vec2, b: Vec2, size: f64| {
        a.cross(b).abs() < 1e-8 + known / size.min(radius) && a.dot(b) > 0.0
    };
    for (end, segment, kept, t) in [
        (arc.start(), before, made.before, 1.0),
        (arc.end(), after, made.after, 0.0),
    ] {
        let off = number::length(segment.nearest_point(end) - end);
        assert!(off < 1e-8, "{off:e} off the edge: {}", say());
        let from_centre = number::length(end - arc.centre()) - radius;
        assert!(
            from_centre.abs() < 1e-8,
            "{from_centre:e} off the radius: {}",
            say()
        );
        if let Some(kept) = kept {
            let joint = if t == 0.0 { kept.start() } else { kept.end() };
            assert_eq!(joint, end, "joined: {}", say());
            let (there, here) = (kept.direction_at(t), arc.direction_at(1.0 - t));
            let size = kept.length();
            assert!(
                smooth(there, here, size),
                "{there:?} against {here:?}: {}",
                say()
            );
        }
    }
    let lengths = [before, after].map(Segment::length);
    let kept = [made.before, made.after].map(|part| part.map_or(0.0, |part| part.length()));
    assert!(
        kept[0] <= lengths[0] + 1e-8 && kept[1] <= lengths[1] + 1e-8,
        "trimmed: {}",
        say()
    );
}

/// Tangent length, height of the arc under the corner, length, area between corner and arc and bulge of
/// a fillet of 10: formulas of Engineering Surveying, 6th ed., §10.1, evaluated to nine digits.
#[test]
fn the_surveyors_curve() {
    for (degrees, tangent, height, length, waste, bulge) in [
        (
            30.0_f64,
            37.320_508,
            28.637_033,
            26.179_939,
            242.305_387,
            0.767_326_988,
        ),
        (
            60.0,
            17.320_508,
            10.0,
            20.943_951,
            68.485_326,
            0.577_350_269,
        ),
        (90.0, 10.0, 4.142_136, 15.707_963, 21.460_184, 0.414_213_562),
        (
            120.0,
            5.773_503,
            1.547_005,
            10.471_976,
            5.375_149,
            0.267_949_192,
        ),
        (
            135.0,
            4.142_136,
            0.823_922,
            7.853_982,
            2.151_448,
            0.198_912_367,
        ),
        (
            150.0,
            2.679_492,
            0.352_762,
            5.235_988,
            0.614_980,
            0.131_652_498,
        ),
    ] {
        let corner = Point::new(7000.0, -7000.0);
        let before = Segment::line(corner - Vec2::new(50.0, 0.0), corner);
        let away = number::unit(number::HALF_TURN - degrees.to_radians());
        let after = Segment::line(corner, corner + away * 50.0);
        let made = fillet(&before, &after, 10.0).expect("it fits");
        assert_is_fillet(&before, &after, &made, 10.0);
        let (from, to) = (made.arc.start(), made.arc.end());
        let corner_area = (corner - from).cross(to - from).abs() / 2.0;
        let segment = 50.0 * number::angle_minus_sine(made.arc.sweep());
        let nearest = number::length(made.arc.nearest_point(corner) - corner);
        for (what, got, expected) in [
            ("tangent", number::length(from - corner), tangent),
            ("height", nearest, height),
            ("length", made.arc.length(), length),
            ("waste", corner_area - segment, waste),
            ("bulge", made.arc.bulge(), bulge),
        ] {
            assert!(
                (got - expected).abs() < 1e-6,
                "{degrees}° {what}: {got} for {expected}"
            );
        }
    }
}

/// A published simple curve: R = 1800, Δ = 43°25'46".
#[test]
fn a_published_road_curve() {
    let angle = (43.0_f64 + 25.0 / 60.0 + 46.0 / 3600.0).to_radians();
    let before = line(-2000.0, 0.0, 0.0, 0.0);
    let after = Segment::line(Point::ORIGIN, Point::ORIGIN + number::unit(angle) * 2000.0);
    let made = fillet(&before, &after, 1800.0).expect("it fits");
    let chord = number::length(made.arc.end() - made.arc.start());
    for (got, expected) in [
        (-made.arc.start().x, 716.842_810),
        (made.arc.length(), 1_364.376_236),
        (chord, 1_331.947_753),
    ] {
        assert!((got - expected).abs() < 1e-6, "{got} for {expected}");
    }
}

/// The corners that lines and arcs make, with a radius that fits and the largest that does, where that
/// is known.
fn corners() -> Vec<(Segment, Segment, f64, Option<f64>)> {
    let quarter = number::QUARTER_TURN;
    let arc = |x: f64, y: f64, radius: f64, start: f64, sweep: f64| {
        Segment::Arc(Arc::from_angles(
            Point::new(x, y),
            radius,
            start * quarter,
            sweep * quarter,
        ))
    };
    vec![
        // an edge of 50 and one of 30, square: the shorter is used up
        (
            line(-50.0, 0.0, 0.0, 0.0),
            line(0.0, 0.0, 0.0, 30.0),
            12.0,
            Some(30.0),
        ),
        (
            line(-50.0, 0.0, 0.0, 0.0),
            line(0.0, 0.0, 0.0, -30.0),
            12.0,
            Some(30.0),
        ),
        // half a disc of 50: in the corner of diameter and arc; the largest touches both at the middle
        (
            line(-50.0, 0.0, 50.0, 0.0),
            arc(0.0, 0.0, 50.0, 0.0, 2.0),
            5.0,
            Some(25.0),
        ),
        (
            arc(0.0, 0.0, 50.0, 0.0, 2.0),
            line(-50.0, 0.0, 50.0, 0.0),
            5.0,
            Some(25.0),
        ),
        // a line onto the outside of an arc
        (
            line(-50.0, 0.0, -20.0, 0.0),
            arc(0.0, 0.0, 20.0, 2.0, -1.0),
            5.0,
            None,
        ),
        // a lens of two arcs, and the hollow corner of two arcs
        (
            arc(0.0, 0.0, 50.0, -0.5, 1.0),
            arc(50.0 * 2.0_f64.sqrt(), 0.0, 50.0, 1.5, 1.0),
            3.0,
            None,
        ),
        (
            arc(0.0, 0.0, 50.0, 0.0, 1.0),
            arc(0.0, 100.0, 50.0, 3.0, -1.0),
            4.0,
            None,
        ),
        (
            arc(30.0, 0.0, 30.0, 1.0, 1.0),
            arc(0.0, -40.0, 40.0, 1.0, 1.0),
            4.0,
            None,
        ),
    ]
}

#[test]
fn every_pair_of_shapes_moved_mirrored_and_run_backwards() {
    let far = Vec2::new(7000.0, -7000.0);
    for (index, (before, after, radius, largest)) in corners().into_iter().enumerate() {
        if Corner::between(&before, &after).is_err() {
            assert_eq!(index, 6, "only the circles that touch make no corner");
            continue;
        }
        let expected = largest_fillet(&before, &after).expect("a corner");
        if let Some(largest) = largest {
            assert!(
                (expected - largest).abs() < 1e-9,
                "{index}: {expected} for {largest}"
            );
        }
        for motion in [
            Motion::IDENTITY,
            Motion::turn(1.1).then(&Motion::shift(far)),
            Motion::mirror_left_right().then(&Motion::shift(far)),
        ] {
            let (a, b) = (motion.segment(&before), motion.segment(&after));
            for (a, b) in [(a, b), (b.reversed(), a.reversed())] {
                let made = fillet(&a, &b, radius).expect("it fits");
                assert_is_fillet(&a, &b, &made, radius);
                let found = largest_fillet(&a, &b).expect("a corner");
                assert!(
                    (found - expected).abs() < 1e-8,
                    "{index}: {found} for {expected}"
                );
                let just = fillet(&a, &b, expected * (1.0 - 1e-9)).expect("just fits");
                assert_is_fillet(&a, &b, &just, expected * (1.0 - 1e-9));
                let above = expected * (1.0 + 1e-9) + 1e-4;
                assert!(fillet(&a, &b, above).is_err(), "{index}: above {expected}");
            }
        }
    }
}

#[test]
fn a_fillet_that_uses_up_an_edge() {
    let made = fillet(
        &line(-50.0, 0.0, 0.0, 0.0),
        &line(0.0, 0.0, 0.0, 30.0),
        30.0,
    );
    let made = made.expect("it just fits");
    assert_eq!(made.after, None, "nothing left of the shorter edge");
    assert_eq!(made.arc.end(), Point::new(0.0, 30.0), "to its very end");
}

#[test]
fn no_radius_and_no_corner() {
    let (before, after) = (line(-50.0, 0.0, 0.0, 0.0), line(0.0, 0.0, 0.0, 30.0));
    for radius in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(
            matches!(
                fillet(&before, &after, radius),
                Err(ConstructError::Geometry(GeometryError::NotUsable { .. }))
            ),
            "radius {radius}"
        );
    }
    let tangent = Segment::Arc(Arc::from_angles(
        Point::new(0.0, 9.0),
        9.0,
        -number::QUARTER_TURN,
        1.0,
    ));
    let joint = tangent.with_ends(Point::ORIGIN, tangent.end());
    assert!(
        matches!(
            fillet(&before, &joint, 3.0),
            Err(ConstructError::NoCorner { .. })
        ),
        "a tangent joint"
    );
}

/// An edge that leaves the origin in a direction, of a length, straight or bent.
fn edge() -> impl Strategy<Value = (f64, Segment)> {
    let bend = prop_oneof![Just(0.0), -0.5..0.5_f64, -1e-9..1e-9_f64, -1e-4..1e-4_f64];
    (0.0..number::FULL_TURN, 0.01..200.0_f64, bend).prop_map(|(angle, length, curvature)| {
        let direction = number::unit(angle);
        let segment = if curvature.abs() < 1e-6 {
            Segment::line(Point::ORIGIN, Point::ORIGIN + direction * length)
        } else {
            let radius = 1.0 / curvature;
            let centre = Point::ORIGIN + number::left_normal(direction) * radius;
            let sweep = (length * curvature).clamp(-6.0, 6.0);
            let start = number::direction(Point::ORIGIN - centre);
            let arc = Arc::from_angles(centre, radius.abs(), start, sweep);
            Segment::Arc(arc.with_ends(Point::ORIGIN, arc.end()))
        };
        (angle, segment)
    })
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(4000) })]

    #[test]
    fn any_corner_takes_every_radius_up_to_its_largest(
        (_, one) in edge(),
        (_, other) in edge(),
        share in prop_oneof![0.01..1.0_f64, Just(1.0 - 1e-9), Just(1e-4)],
        far in any::<bool>(),
    ) {
        let shift = if far { Vec2::new(7e3, -7e3) } else { Vec2::ZERO };
        let motion = Motion::shift(shift);
        let (before, after) = (motion.segment(&one.reversed()), motion.segment(&other));
        if let Ok(largest) = largest_fillet(&before, &after) {
            prop_assume!(largest > 1e-3);
            let radius = (largest * share).min(tolerance::LARGEST_COORDINATE);
            match fillet(&before, &after, radius) {
                Ok(made) => assert_is_fillet(&before, &after, &made, radius),
                // a corner so nearly smooth that the arc has no length
                Err(ConstructError::NoCorner { .. }) => {}
                // an arc as good as straight: the ninth digit of its radius moves nothing
                Err(ConstructError::FilletTooLarge { .. }) if share > 0.999 && largest > 1e4 => {}
                Err(error) => prop_assert!(false, "{} of {}: {}", radius, largest, error),
            }
        }
    }

    /// Nearly smooth corners: the tangent length is r·tan(Δ/2) to the last digits.
    #[test]
    fn nearly_smooth_corners_keep_their_digits(power in 2..8_i32, radius in 1.0..1000.0_f64) {
        let turn = f64::powi(10.0, -power);
        let corner = Point::new(7000.0, -7000.0);
        let before = Segment::line(corner - Vec2::new(400.0, 0.0), corner);
        let after = Segment::line(corner, corner + number::unit(turn) * 400.0);
        let made = fillet(&before, &after, radius);
        let Ok(made) = made else {
            prop_assert!(radius * turn < 1.1e-6, "{:?}", made);
            return Ok(());
        };
        let tangent = corner.x - made.arc.start().x;
        let expected = radius * number::tan(turn / 2.0);
        // the corner's own place is known to 1e-12, and so is its turn over 400 mm
        prop_assert!((tangent - expected).abs() < 1e-11 + 1e-14 * radius, "{} for {}", tangent, expected);
    }
}
