//! Offsets with known answers: closed forms, and outlines that another engine gets wrong.
#![expect(clippy::expect_used, reason = "tests")]

#[path = "support/offset.rs"]
mod support;

use std::f64::consts::PI;

use kerfwise::geometry::Contour;
use kerfwise::geometry::Point;
use kerfwise::geometry::Region;
use kerfwise::geometry::Segment;
use kerfwise::geometry::SourceId;
use kerfwise::geometry::number;
use kerfwise::geometry::offset::Join;
use kerfwise::geometry::offset::Offset;
use kerfwise::geometry::offset::OffsetError;
use kerfwise::geometry::offset::Tie;
use kerfwise::geometry::offset::offset;
use support::Vertex;

fn rounded(region: &Region, distance: f64) -> Offset {
    offset(region, distance, Join::Round).expect("a certified offset")
}

fn assert_area(found: &Offset, expected: f64, tolerance: f64) {
    let area = support::area(&found.regions);
    assert!(
        (area - expected).abs() <= tolerance,
        "area {area} mm², expected {expected} mm² within {tolerance}"
    );
}

const L_SHAPE: [Vertex; 6] = [
    (0.0, 0.0, 0.0),
    (4.0, 0.0, 0.0),
    (4.0, 1.0, 0.0),
    (1.0, 1.0, 0.0),
    (1.0, 3.0, 0.0),
    (0.0, 3.0, 0.0),
];

const STADIUM: [Vertex; 4] = [
    (-30.0, -20.0, 0.0),
    (30.0, -20.0, 1.0),
    (30.0, 20.0, 0.0),
    (-30.0, 20.0, 1.0),
];

#[test]
fn convex_shapes_follow_steiner() {
    // Steiner: A + L r + π r², L + 2π r
    let triangle = support::region(&[(0.0, 0.0, 0.0), (4.0, 0.0, 0.0), (0.0, 3.0, 0.0)]);
    for (r, expected) in [
        (0.5, 12.785_398_163_397),
        (1.0, 21.141_592_653_590),
        (2.0, 42.566_370_614_359),
    ] {
        let grown = rounded(&triangle, r);
        assert_area(&grown, expected, 1e-11);
        let length = support::perimeter(&grown.regions);
        let steiner = 12.0 + 2.0 * PI * r;
        assert!(
            (length - steiner).abs() < 1e-12,
            "length {length} mm for {steiner} mm"
        );
        assert_eq!(grown.tie, Tie::Free, "nothing is in doubt at {r}");
    }
    // Reuleaux triangle of width 1: three arcs of a sixth of a circle
    let bulge = number::tan(PI / 12.0);
    let height = 3.0_f64.sqrt() / 2.0;
    let reuleaux = support::region(&[(0.0, 0.0, bulge), (1.0, 0.0, bulge), (0.5, height, bulge)]);
    let grown = rounded(&reuleaux, 0.1);
    assert_area(&grown, 1.050_346_114_905, 1e-11);
    let length = support::perimeter(&grown.regions);
    assert!(
        (length - 3.769_911_184_308).abs() < 1e-11,
        "length {length} mm"
    );
}

#[test]
fn stadium_grows_in_closed_form() {
    // 2ra + πr² with r grown by d
    for (d, expected) in [
        (0.1, 3_681.234_848),
        (0.5, 3_780.254_313),
        (2.0, 4_160.530_844),
    ] {
        let grown = rounded(&support::region(&STADIUM), d);
        assert_area(&grown, expected, 1e-6);
        for segment in grown.regions[0].outer().segments() {
            if let Segment::Arc(arc) = segment {
                assert_eq!(arc.radius(), 20.0 + d, "the radius is the sum, exactly");
            }
        }
        assert_eq!(
            grown.regions[0].outer().pieces().len(),
            4,
            "lines and arcs stay"
        );
    }
}

#[test]
fn an_inside_corner_is_not_an_outside_corner() {
    // five outside corners and one inside: A + Lr + (5π/4 − 1)r² and A − Lr + (5 − π/4)r²
    let shape = support::region(&L_SHAPE);
    for (d, expected) in [
        (0.25, 9.682_936_926_062),
        (0.4, 12.068_318_530_718),
        (-0.25, 2.763_412_614_788),
        (-0.4, 1.074_336_293_856),
    ] {
        assert_area(&rounded(&shape, d), expected, 1e-11);
    }
}

#[test]
fn mitred_corners_stay_sharp_up_to_the_limit() {
    let square = support::region(&[
        (0.0, 0.0, 0.0),
        (10.0, 0.0, 0.0),
        (10.0, 10.0, 0.0),
        (0.0, 10.0, 0.0),
    ]);
    let mitred = |limit| offset(&square, 1.0, Join::Mitre { limit }).expect("a certified offset");
    // a square of side 12; the tip lies √2 times the distance away
    assert_area(&mitred(2.0), 144.0, 1e-12);
    assert_area(&mitred(1.42), 144.0, 1e-12);
    assert_eq!(
        mitred(2.0).regions[0].outer().pieces().len(),
        4,
        "four lines"
    );
    assert_area(&mitred(1.41), 100.0 + 40.0 + PI, 1e-12);
    // shrinking an L mitres its inside corner: A − Lr + 4r² with the corner filled square
    let shape = support::region(&L_SHAPE);
    let shrunk = offset(&shape, -0.25, Join::Mitre { limit: 2.0 }).expect("a certified offset");
    // (4 − ½)(1 − ½) + (½)(2): the two arms
    assert_area(&shrunk, 3.5 * 0.5 + 0.5 * 2.0, 1e-12);
}

#[test]
fn mitred_fronts_that_lie_on_each_other_become_one() {
    // a plate with two notches, 5 deep, and a web of 1 between them: their floors are in line, and
    // once the web is gone the tips of the two run past one another
    let plate = support::region(&[
        (0.0, 0.0, 0.0),
        (20.0, 0.0, 0.0),
        (20.0, 10.0, 0.0),
        (13.0, 10.0, 0.0),
        (13.0, 5.0, 0.0),
        (9.0, 5.0, 0.0),
        (9.0, 10.0, 0.0),
        (8.0, 10.0, 0.0),
        (8.0, 5.0, 0.0),
        (4.0, 5.0, 0.0),
        (4.0, 10.0, 0.0),
        (0.0, 10.0, 0.0),
    ]);
    let shrunk = offset(&plate, -1.0, Join::Mitre { limit: 1.5 }).expect("a certified offset");
    // 18 by 8 less one notch of 11 by 5
    assert_area(&shrunk, 144.0 - 55.0, 1e-9);
    assert_eq!(support::loops(&shrunk.regions), 1, "one outline");
}

#[test]
fn small_parts_far_apart_keep_their_own() {
    use kerfwise::geometry::offset::offset_all;
    let square = |x: f64, y: f64| {
        let corners = [(x, y), (x + 1.0, y), (x + 1.0, y + 1.0), (x, y + 1.0)];
        support::region(&corners.map(|(x, y)| (x, y, 0.0)))
    };
    // most of a square of 800 m is empty between them
    let parts = [
        square(-4e5, -4e5),
        square(4e5, 4e5),
        square(4e5, -4e5),
        square(4e5 + 2.5, -4e5),
    ];
    let grown = offset_all(&parts, 1.0, Join::Round).expect("a certified offset");
    // A + Lr + πr² each; two of them 1.5 apart share two caps of height 1/4 of the sides' strip
    assert_eq!(grown.regions.len(), 3, "two meet");
    let alone = 1.0 + 4.0 + PI;
    // the overlap: where the side strips, 1 wide, cross the gap of 1.5, 0.5 by 1, and twice the part of
    // two quarter discs of radius 1 whose centres are 1.5 apart
    let half_lens = number::arccos(0.75) - 0.75 * (1.0_f64 - 0.75 * 0.75).sqrt();
    assert_area(&grown, 4.0 * alone - 0.5 - 2.0 * half_lens, 1e-4);
}

#[test]
fn circles_stay_whole() {
    let at = Point::new(3.0, -7.0);
    let circle = |r| Contour::circle(at, r, SourceId(5)).expect("a circle");
    let ring = Region::new(circle(10.0), vec![circle(4.0)]);
    for d in [1.25, -1.25] {
        let found = rounded(&ring, d);
        assert_eq!(
            found.regions[0].outer().as_circle(),
            Some((at, 10.0 + d)),
            "outside at {d}"
        );
        let hole = &found.regions[0].holes()[0];
        assert_eq!(hole.as_circle(), Some((at, 4.0 - d)), "hole at {d}");
        assert_eq!(hole.pieces().len(), 1, "one piece");
        assert_eq!(
            hole.pieces()[0].source,
            SourceId(5),
            "its source is carried"
        );
    }
    assert!(
        rounded(&ring, -3.5).regions.is_empty(),
        "a ring of 6 mm shrunk by 3.5 is gone"
    );
    assert_eq!(
        support::loops(&rounded(&ring, 4.5).regions),
        1,
        "the hole is closed"
    );
}

#[test]
fn ties_follow_the_rules() {
    let at = Point::ZERO;
    let circle = |r| Contour::circle(at, r, SourceId(5)).expect("a circle");
    // a web of exactly twice the distance vanishes, a hole of exactly the distance closes
    let ring = Region::new(circle(10.0), vec![circle(4.0)]);
    assert!(
        rounded(&ring, -3.0).regions.is_empty(),
        "a web of twice the distance"
    );
    assert_eq!(
        support::loops(&rounded(&ring, 4.0).regions),
        1,
        "a hole of the distance"
    );
    // a slot of exactly twice the distance closes
    let slotted = support::region(&[
        (0.0, 0.0, 0.0),
        (20.0, 0.0, 0.0),
        (20.0, 15.0, 0.0),
        (11.0, 15.0, 0.0),
        (11.0, 11.0, 0.0),
        (10.0, 11.0, 0.0),
        (10.0, 15.0, 0.0),
        (0.0, 15.0, 0.0),
    ]);
    let grown = rounded(&slotted, 0.5);
    assert_eq!(support::loops(&grown.regions), 1, "the slot is closed");
    assert!(
        matches!(grown.tie, Tie::Decided { .. }),
        "and it says so: {:?}",
        grown.tie
    );
    // a hole in which the rounded corners have exactly the distance: sharp corners
    let b = number::tan(PI / 8.0);
    let hole = support::contour(&[
        (-4.0, -5.0, 0.0),
        (4.0, -5.0, b),
        (5.0, -4.0, 0.0),
        (5.0, 4.0, b),
        (4.0, 5.0, 0.0),
        (-4.0, 5.0, b),
        (-5.0, 4.0, 0.0),
        (-5.0, -4.0, b),
    ]);
    let plate = Region::new(circle(20.0), vec![hole]);
    let grown = rounded(&plate, 1.0);
    let inner = &grown.regions[0].holes()[0];
    assert_eq!(
        inner.pieces().len(),
        4,
        "arcs of the distance become corners"
    );
    assert!(
        (inner.signed_area() + 64.0).abs() < 1e-4,
        "8 by 8 mm is left"
    );
}

#[test]
fn regions_split_and_merge() {
    // a dumb-bell: two squares of 10 joined by a neck 2 wide
    let dumb_bell = support::region(&[
        (0.0, 0.0, 0.0),
        (10.0, 0.0, 0.0),
        (10.0, 4.0, 0.0),
        (20.0, 4.0, 0.0),
        (20.0, 0.0, 0.0),
        (30.0, 0.0, 0.0),
        (30.0, 10.0, 0.0),
        (20.0, 10.0, 0.0),
        (20.0, 6.0, 0.0),
        (10.0, 6.0, 0.0),
        (10.0, 10.0, 0.0),
        (0.0, 10.0, 0.0),
    ]);
    let split = rounded(&dumb_bell, -1.5);
    assert_eq!(split.regions.len(), 2, "the neck is gone");
    let grown = rounded(&dumb_bell, 5.0);
    assert_eq!(support::loops(&grown.regions), 1, "the bays fill");
}

#[test]
fn corner_arcs_take_the_piece_before() {
    use kerfwise::geometry::Piece;
    let corners = [(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0)].map(Point::from);
    let pieces = (0..4_u32)
        .map(|i| {
            let (a, b) = (corners[i as usize], corners[(i as usize + 1) % 4]);
            Piece::new(Segment::line(a, b), SourceId(i))
        })
        .collect();
    let square = Region::new(Contour::new(pieces).expect("a square"), Vec::new());
    let grown = rounded(&square, 1.0);
    let outer = grown.regions[0].outer();
    for (place, piece) in outer.pieces().iter().enumerate() {
        if matches!(piece.segment, Segment::Arc(_)) {
            let before = outer.pieces()[(place + 7) % 8].source;
            assert_eq!(piece.source, before, "the arc after edge {before:?}");
        }
    }
}

#[test]
fn what_is_no_region_is_refused() {
    let bow_tie = support::contour(&[
        (0.0, 0.0, 0.0),
        (10.0, 10.0, 0.0),
        (10.0, 0.0, 0.0),
        (0.0, 11.0, 0.0),
    ]);
    let crossed = Region::new(bow_tie, Vec::new());
    let refusal = offset(&crossed, 1.0, Join::Round);
    assert!(
        matches!(refusal, Err(OffsetError::CrossesItself { .. })),
        "{refusal:?}"
    );
    let circle = |x, r| Contour::circle(Point::new(x, 0.0), r, SourceId(0)).expect("a circle");
    let stray = Region::new(circle(0.0, 5.0), vec![circle(20.0, 1.0)]);
    for d in [0.1, -0.1] {
        let refusal = offset(&stray, d, Join::Round);
        assert!(
            matches!(refusal, Err(OffsetError::Misplaced { .. })),
            "{refusal:?}"
        );
    }
    let fine = Region::new(circle(0.0, 5.0), Vec::new());
    for d in [f64::NAN, f64::INFINITY, 1e-9, 1e9] {
        let refusal = offset(&fine, d, Join::Round);
        assert!(
            matches!(refusal, Err(OffsetError::NotUsable { .. })),
            "{refusal:?}"
        );
    }
}

#[test]
fn outlines_that_another_engine_gets_wrong() {
    for name in [
        "lost-outline",
        "jittered-stadium",
        "half-lost",
        "slots-two-micrometres-narrow",
        "slot-of-twice-the-distance",
    ] {
        let path = format!("{}/fixtures/offset/{name}.txt", env!("CARGO_MANIFEST_DIR"));
        let text = std::fs::read_to_string(path).expect("the fixture");
        let mut vertices = Vec::new();
        let (mut distance, mut area, mut count) = (0.0, 0.0, 0);
        for line in text.lines().filter(|line| !line.starts_with('#')) {
            let words: Vec<&str> = line.split_whitespace().collect();
            match words.as_slice() {
                ["distance", value] => distance = value.parse().expect("a number"),
                ["area", value] => area = value.parse().expect("a number"),
                ["loops", value] => count = value.parse().expect("a number"),
                [x, y, bulge] => vertices.push((
                    x.parse().expect("a number"),
                    y.parse().expect("a number"),
                    bulge.parse().expect("a number"),
                )),
                _ => panic!("{name}: {line}"),
            }
        }
        let found = rounded(&support::region(&vertices), distance);
        let got = support::area(&found.regions);
        // areas by Minkowski union with shapely 2.2, given to three to five decimals
        assert!(
            (got - area).abs() < 1.5e-3,
            "{name}: area {got} mm² for {area} mm²"
        );
        assert_eq!(support::loops(&found.regions), count, "{name}: loops");
    }
}
