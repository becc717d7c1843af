use super::*;
use crate::geometry::Motion;
use crate::geometry::SourceId;

fn near(got: f64, expected: f64, relative: f64, what: &str) {
    let allowed = relative * expected.abs().max(1e-300);
    assert!(
        (got - expected).abs() <= allowed,
        "{what}: {got} for {expected}, off by {:e}",
        (got - expected) / expected
    );
}

fn polygon(points: &[(f64, f64)]) -> Contour {
    let points: Vec<Point> = points.iter().map(|&at| at.into()).collect();
    Contour::polygon(&points).expect("closed")
}

fn arc(centre: (f64, f64), radius: f64, start: f64, sweep: f64) -> Segment {
    let quarter = number::QUARTER_TURN;
    Segment::Arc(Arc::from_angles(
        centre.into(),
        radius,
        start * quarter,
        sweep * quarter,
    ))
}

/// A slot: straight sides of 60, ends of radius 20, about the origin.
fn slot() -> Contour {
    let at = Point::new;
    Contour::from_segments([
        Segment::line(at(-30.0, -20.0), at(30.0, -20.0)),
        arc((30.0, 0.0), 20.0, 3.0, 2.0).with_ends(at(30.0, -20.0), at(30.0, 20.0)),
        Segment::line(at(30.0, 20.0), at(-30.0, 20.0)),
        arc((-30.0, 0.0), 20.0, 1.0, 2.0).with_ends(at(-30.0, 20.0), at(-30.0, -20.0)),
    ])
    .expect("closed")
}

/// 100 × 50 with corners of radius 10.
fn rounded_rectangle() -> Contour {
    let mut segments = Vec::new();
    for (x, y, start) in [
        (90.0, 10.0, 3.0),
        (90.0, 40.0, 0.0),
        (10.0, 40.0, 1.0),
        (10.0, 10.0, 2.0),
    ] {
        segments.push(arc((x, y), 10.0, start, 1.0));
    }
    let mut pieces = Vec::new();
    for (index, segment) in segments.iter().enumerate() {
        let next = segments[(index + 1) % 4];
        pieces.push(*segment);
        pieces.push(Segment::line(segment.end(), next.start()));
    }
    Contour::from_segments(pieces).expect("closed")
}

#[test]
fn polygons() {
    // Rosetta Code, "Shoelace formula for polygonal area": area 30; the moments as exact fractions,
    // sympy 1.14
    let shape = polygon(&[(3.0, 4.0), (5.0, 11.0), (12.0, 8.0), (9.0, 5.0), (5.0, 6.0)]);
    let moments = Moments::of_contour(&shape).expect("an area");
    near(moments.area, 30.0, 1e-14, "area");
    near(moments.centroid.x, 43.0 / 6.0, 1e-14, "centroid x");
    near(moments.centroid.y, 137.0 / 18.0, 1e-14, "centroid y");
    near(moments.about_x, 2995.0 / 54.0, 1e-13, "about x");
    near(moments.about_y, 365.0 / 3.0, 1e-13, "about y");
    near(moments.product, -5.0 / 9.0, 1e-12, "product");
    let (x, y, product) = moments.about(Point::ORIGIN);
    near(x, 5380.0 / 3.0, 1e-14, "about the origin, x");
    near(y, 3325.0 / 2.0, 1e-14, "about the origin, y");
    near(product, 9815.0 / 6.0, 1e-14, "about the origin, product");
}

#[test]
fn a_turned_rectangle() {
    // Machinery's Handbook, 31st ed., pp. 242–247: bd (d² cos² α + b² sin² α) / 12 for b = 30, d = 80,
    // α = 30° is 1 005 000
    let upright = Region::new(
        polygon(&[(0.0, 0.0), (30.0, 0.0), (30.0, 80.0), (0.0, 80.0)]),
        vec![],
    );
    let turned = Motion::turn(number::HALF_TURN / 6.0).region(&upright);
    let moments = Moments::of_region(&turned).expect("an area");
    near(moments.about_x, 1_005_000.0, 1e-13, "about x");
    let PrincipalAxes::Two {
        largest,
        least,
        direction,
    } = moments.principal_axes()
    else {
        panic!("two axes");
    };
    near(largest, 30.0 * 80.0_f64.powi(3) / 12.0, 1e-13, "largest");
    near(least, 80.0 * 30.0_f64.powi(3) / 12.0, 1e-13, "least");
    near(
        number::direction(direction),
        number::HALF_TURN / 6.0,
        1e-13,
        "axis",
    );
    near(
        moments.about_axis(direction),
        largest,
        1e-13,
        "about the axis",
    );
}

#[test]
fn discs_and_parts_of_discs() {
    let disc = Contour::circle(Point::new(3.0, 4.0), 5.0, SourceId::UNTRACED).expect("a disc");
    let moments = Moments::of_contour(&disc).expect("an area");
    // Machinery's Handbook, 31st ed., p. 244: πd⁴/64, d = 10
    near(moments.about_x, 490.873_852_123_405, 1e-13, "disc about x");
    near(moments.about_y, 490.873_852_123_405, 1e-13, "disc about y");
    assert!(
        matches!(moments.principal_axes(), PrincipalAxes::Any { .. }),
        "every axis of a disc: {moments:?}"
    );
    // half a disc: 4r/3π, and (π/8 − 8/9π) r⁴ (pp. 229 and 244)
    let at = Point::new;
    let half = Contour::from_segments([
        arc((0.0, 0.0), 1.0, 0.0, 2.0).with_ends(at(1.0, 0.0), at(-1.0, 0.0)),
        Segment::line(at(-1.0, 0.0), at(1.0, 0.0)),
    ])
    .expect("closed");
    let moments = Moments::of_contour(&half).expect("an area");
    near(
        moments.centroid.y,
        0.424_413_181_578_388,
        1e-13,
        "half a disc: centroid",
    );
    near(
        moments.about_x,
        0.109_756_960_646,
        1e-11,
        "half a disc: about x",
    );
    let quarter = Contour::from_segments([
        Segment::line(at(0.0, 0.0), at(1.0, 0.0)),
        arc((0.0, 0.0), 1.0, 0.0, 1.0).with_ends(at(1.0, 0.0), at(0.0, 1.0)),
        Segment::line(at(0.0, 1.0), at(0.0, 0.0)),
    ])
    .expect("closed");
    let moments = Moments::of_contour(&quarter).expect("an area");
    let from_centre = number::length(moments.centroid.to_vec2());
    near(
        from_centre,
        0.600_210_877,
        1e-9,
        "quarter disc: centroid on the bisector",
    );
    near(
        moments.about_x,
        0.054_878_480_323,
        1e-11,
        "quarter disc: about x",
    );
    near(
        moments.product,
        -0.016_471_060_526,
        1e-10,
        "quarter disc: product",
    );
    // the waste of a fillet: 0.2146 R², 0.2234 R from both sides
    let spandrel = Contour::from_segments([
        Segment::line(at(0.0, 1.0), at(0.0, 0.0)),
        Segment::line(at(0.0, 0.0), at(1.0, 0.0)),
        arc((1.0, 1.0), 1.0, 3.0, -1.0).with_ends(at(1.0, 0.0), at(0.0, 1.0)),
    ])
    .expect("closed");
    let moments = Moments::of_contour(&spandrel).expect("an area");
    near(moments.area, 0.214_601_836_603, 1e-11, "spandrel: area");
    near(
        moments.centroid.x,
        0.223_367_939,
        1e-8,
        "spandrel: centroid",
    );
}

/// Area and distance of the centroid from the centre of circular segments of radius 1, as tabled in
/// Machinery's Handbook, 31st ed., pp. 84–85 (from memory), to nine places from its formulas on p. 83
/// and p. 229.
#[test]
fn circular_segments() {
    for (degrees, area, from_centre) in [
        (1.0_f64, 4.43e-7, 0.999_977_154),
        (5.0, 0.000_055_360, 0.999_428_948),
        (10.0, 0.000_442_374, 0.997_717_067),
        (15.0, 0.001_490_171, 0.994_868_175),
        (30.0, 0.011_799_388, 0.979_575_598),
        (45.0, 0.039_145_691, 0.954_429_288),
        (60.0, 0.090_586_074, 0.919_935_371),
        (90.0, 0.285_398_163, 0.825_871_679),
        (120.0, 0.614_184_849, 0.705_020_162),
        (135.0, 0.824_543_855, 0.637_589_299),
        (150.0, 1.058_996_939, 0.567_342_568),
        (180.0, number::QUARTER_TURN, 0.424_413_182),
    ] {
        let round = Arc::from_angles(Point::ORIGIN, 1.0, 0.0, degrees.to_radians());
        let chord = Segment::line(round.end(), round.start());
        let shape = Contour::from_segments([round.into(), chord]).expect("closed");
        let moments = Moments::of_contour(&shape).expect("an area");
        assert!(
            (moments.area - area).abs() < 1e-9,
            "{degrees}°: {moments:?}"
        );
        let distance = number::length(moments.centroid.to_vec2());
        assert!(
            (distance - from_centre).abs() < 1e-9,
            "{degrees}°: {distance}"
        );
    }
}

#[test]
fn slots_and_rounded_rectangles_anywhere() {
    // closed forms, confirmed by sectionproperties 3.10.2 to 6e-6
    let slot = Region::new(slot(), vec![]);
    let plate = Region::new(rounded_rectangle(), vec![]);
    for (region, area, about_long, about_short) in [
        (
            slot,
            3_656.637_061_435_917,
            445_663.706_143_592,
            2_616_637.061_435_917,
        ),
        (
            plate,
            4_914.159_265_358_979,
            996_873.149_673_078,
            3_970_508.806_208_341,
        ),
    ] {
        for motion in [
            Motion::IDENTITY,
            Motion::turn(0.6),
            Motion::turn(-1.0).then(&Motion::shift(Vec2::new(9000.0, -9000.0))),
            Motion::mirror_left_right().then(&Motion::shift(Vec2::new(-9000.0, 5.0))),
        ] {
            let moved = motion.region(&region);
            let moments = Moments::of_region(&moved).expect("an area");
            near(moments.area, area, 1e-12, "area");
            near(moved.area(), area, 1e-12, "area of the region");
            let PrincipalAxes::Two { largest, least, .. } = moments.principal_axes() else {
                panic!("two axes");
            };
            near(least, about_long, 2e-12, "about the long axis");
            near(largest, about_short, 2e-12, "about the short axis");
        }
    }
}

#[test]
fn a_ring_is_the_difference_of_two_discs() {
    let disc = |radius| {
        Contour::circle(Point::new(1e4, -1e4), radius, SourceId::UNTRACED).expect("a disc")
    };
    let ring = Region::new(disc(50.0), vec![disc(30.0)]);
    let moments = Moments::of_region(&ring).expect("an area");
    let expected = number::HALF_TURN / 4.0 * (50.0_f64.powi(4) - 30.0_f64.powi(4));
    near(moments.about_x, expected, 1e-12, "about x");
    near(moments.area, number::HALF_TURN * 1600.0, 1e-12, "area");
    assert!(
        number::length(moments.centroid - Point::new(1e4, -1e4)) < 1e-11,
        "{moments:?}"
    );
}

#[test]
fn flat_arcs_go_over_into_lines() {
    // a 1000 × 200 plate whose upper edge bulges by a bow that falls from 1 mm to 10 nanometres; with the bow f
    // the area grows by 2/3·c·f (1 + 4/5·(f/c)² + …)
    let mut earlier = f64::INFINITY;
    for power in 0..9_i32 {
        let bow = 10.0_f64.powi(-power);
        let at = Point::new;
        let top = Arc::from_bulge(at(1000.0, 200.0), at(0.0, 200.0), bow / 500.0).expect("an arc");
        let plate = Contour::from_segments([
            Segment::line(at(0.0, 200.0), at(0.0, 0.0)),
            Segment::line(at(0.0, 0.0), at(1000.0, 0.0)),
            Segment::line(at(1000.0, 0.0), at(1000.0, 200.0)),
            top.into(),
        ])
        .expect("closed");
        let moments = Moments::of_contour(&plate).expect("an area");
        let ratio = bow / 1000.0;
        let grown = 2.0 / 3.0 * 1000.0 * bow * (1.0 + 0.8 * ratio * ratio);
        near(moments.area, 200_000.0 + grown, 1e-14, "area");
        let excess = moments.about_x - 1000.0 * 200.0_f64.powi(3) / 12.0;
        assert!(
            excess > 0.0 && excess < earlier,
            "bow {bow}: {excess} after {earlier}"
        );
        // to first order a strip of that area, 100 mm from the axis
        if bow < 1e-2 {
            near(excess, grown * 100.0 * 100.0, 1e-3, "excess");
        }
        earlier = excess;
    }
}

#[test]
fn both_ways_to_a_circular_segment_agree() {
    for half in [0.199_999, 0.2, 0.200_001] {
        let (flat, full) = (
            CircularSegment::flat(3.0, half),
            CircularSegment::full(3.0, half),
        );
        near(flat.area, full.area, 1e-13, "area");
        near(flat.height, full.height, 1e-12, "height");
        near(
            flat.height_squared,
            full.height_squared,
            1e-10,
            "height squared",
        );
        near(
            flat.along_squared,
            full.along_squared,
            1e-12,
            "along squared",
        );
    }
}

#[test]
fn nothing_has_no_moments() {
    let line = polygon(&[(0.0, 0.0), (10.0, 0.0)]);
    assert!(
        matches!(
            Moments::of_contour(&line),
            Err(GeometryError::NoArea { .. })
        ),
        "there and back"
    );
}
