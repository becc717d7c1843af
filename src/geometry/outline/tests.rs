//! The builder against closed forms and published figures.

use super::BothFixedBy;
use super::EdgeShape;
use super::Entry;
use super::OutlineFault;
use super::Place;
use super::Side;
use super::Treatment;
use super::build;
use crate::geometry::Motion;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::number;

const PI: f64 = std::f64::consts::PI;

fn close(what: &str, got: f64, expected: f64, tolerance: f64) {
    let difference = (got - expected).abs();
    assert!(
        difference <= tolerance,
        "{what}: {got} for {expected}, off by {difference:e}"
    );
}

fn leeboard() -> Vec<Entry> {
    vec![
        Entry::corner("heel", Point::new(0.0, 0.0)).fillet(18.0),
        Entry::corner("toe", Point::new(305.0, 0.0))
            .fillet(60.0)
            .edge("leading", EdgeShape::Bow(Side::Full, 17.0)),
        Entry::round("head", Point::new(90.0, 884.0), 90.0, Side::Full),
    ]
}

/// The same entries moved; a mirrored outline runs the other way round.
fn moved(entries: &[Entry], motion: &Motion) -> Vec<Entry> {
    let place = |place: Place| match place {
        Place::Corner { at, treatment } => Place::Corner {
            at: motion.point(at),
            treatment,
        },
        Place::Round {
            about,
            radius,
            side,
        } => Place::Round {
            about: motion.point(about),
            radius,
            side,
        },
    };
    let shape = |shape: &EdgeShape| match shape {
        EdgeShape::Through(point) => EdgeShape::Through(motion.point(*point)),
        EdgeShape::TangentToBoth(BothFixedBy::Through(point)) => {
            EdgeShape::TangentToBoth(BothFixedBy::Through(motion.point(*point)))
        }
        other => other.clone(),
    };
    let entry = |entry: &Entry| {
        let mut entry = entry.clone();
        entry.place = place(entry.place);
        entry.edge.shape = shape(&entry.edge.shape);
        entry
    };
    entries.iter().map(entry).collect()
}

#[test]
fn an_arc_of_known_bow_runs_tangent_onto_a_round() {
    // worked once by an independent root finder: from (305, 0), bow 17 on the arc's own chord, onto
    // the circle of 90 about (90, 884): R = 6124.71, tangent point (177.941, 903.139)
    let mut entries = leeboard();
    entries[1] = Entry::corner("toe", Point::new(305.0, 0.0))
        .edge("leading", EdgeShape::Bow(Side::Full, 17.0));
    let built = build(&entries).unwrap();
    let [Segment::Arc(arc)] = built.edges[1].finished.as_slice() else {
        panic!("an arc")
    };
    close("radius", arc.radius(), 6124.71, 0.005);
    close("x of the tangent point", arc.end().x, 177.941, 5e-4);
    close("y of the tangent point", arc.end().y, 903.139, 5e-4);
    close("bow over its chord", arc.bow(), 17.0, 1e-10);
    // tangent: the centres and the tangent point lie on one line
    let round = built.rounds[0].centre;
    close(
        "distance of centres",
        number::length(arc.centre() - round),
        arc.radius() - 90.0,
        1e-9,
    );
    let head = built.rounds[0].arc.unwrap();
    let turn = arc.direction_at(1.0).cross(head.direction_at(0.0));
    close("turn at the joint", turn, 0.0, 1e-12);
}

#[test]
fn two_rounds_make_an_open_belt() {
    // open belt round wheels of 8 and 3 at 13, Encyclopaedia Britannica, 11th ed., "Mechanics" § 59
    let built = build(&[
        Entry::round("large", Point::new(0.0, 0.0), 8.0, Side::Full),
        Entry::round("small", Point::new(-13.0, 0.0), 3.0, Side::Full),
    ])
    .unwrap();
    close(
        "length of the belt",
        built.contour.perimeter(),
        62.505_430_386_485,
        1e-11,
    );
    close(
        "straight part",
        built.edges[0].finished[0].length(),
        12.0,
        1e-12,
    );
}

#[test]
fn a_hollow_round_is_met_by_inner_tangents() {
    // wheels of 3 (inside) and 2 (hollow) at 13: inner tangent of 12, from 5-12-13
    let built = build(&[
        Entry::corner("a", Point::new(-3.0, -20.0)),
        Entry::corner("b", Point::new(30.0, -20.0)),
        Entry::corner("c", Point::new(30.0, 2.0)),
        Entry::round("hollow", Point::new(13.0, 0.0), 2.0, Side::Hollow),
        Entry::round("full", Point::new(0.0, 0.0), 3.0, Side::Full),
    ])
    .unwrap();
    close(
        "inner tangent",
        built.edges[3].finished[0].length(),
        12.0,
        1e-12,
    );
}

#[test]
fn an_arch_is_tangent_to_both_jambs_at_its_crown() {
    // splayed jambs 3 : 4 and back: sides meet the chord of 60 at the angle whose tangent is 4/3
    let entries = [
        Entry::corner("sill left", Point::new(-30.0, 0.0)),
        Entry::corner("sill right", Point::new(30.0, 0.0)),
        Entry::corner("head right", Point::new(0.0, 40.0))
            .edge("arch", EdgeShape::TangentToBoth(BothFixedBy::Radius(5.0))),
        Entry::corner("head left", Point::new(0.0, 40.0)),
    ];
    // both corners in one point: the arc is the fillet of the apex
    let apex = build(&entries).unwrap();
    let fillet = build(&[
        Entry::corner("sill left", Point::new(-30.0, 0.0)),
        Entry::corner("sill right", Point::new(30.0, 0.0)),
        Entry::corner("head", Point::new(0.0, 40.0)).fillet(5.0),
    ])
    .unwrap();
    close(
        "area",
        apex.contour.signed_area(),
        fillet.contour.signed_area(),
        1e-9,
    );

    let parallel = build(&[
        Entry::corner("sill left", Point::new(-20.0, 0.0)),
        Entry::corner("sill right", Point::new(20.0, 0.0)),
        Entry::corner("head right", Point::new(20.0, 50.0))
            .edge("arch", EdgeShape::TangentToBoth(BothFixedBy::Crown(8.0))),
        Entry::corner("head left", Point::new(-20.0, 50.0)),
    ])
    .unwrap();
    let bounds = parallel.contour.bounds();
    close("crown", bounds.y1, 58.0, 1e-12);
    // a door of 40 with a half round head: its straight sides end 20 below the crown
    close(
        "area",
        parallel.contour.signed_area(),
        40.0 * 38.0 + PI * 200.0,
        1e-9,
    );
}

#[test]
fn a_point_fixes_an_arch_as_its_crown_does() {
    let with = |fixed_by| {
        build(&[
            Entry::corner("sill left", Point::new(-40.0, 0.0)),
            Entry::corner("sill right", Point::new(40.0, 0.0)),
            Entry::corner("head right", Point::new(30.0, 50.0))
                .edge("arch", EdgeShape::TangentToBoth(fixed_by)),
            Entry::corner("head left", Point::new(-30.0, 50.0)),
        ])
        .unwrap()
    };
    let crown = with(BothFixedBy::Crown(3.0));
    let point = with(BothFixedBy::Through(Point::new(0.0, 53.0)));
    let (a, b) = (crown.contour.signed_area(), point.contour.signed_area());
    close("area by point and by crown", b, a, 1e-8);
}

#[test]
fn a_full_round_end_touches_three_lines() {
    // a strap 80 long and 30 wide with both ends full round: straight part 50, a stadium
    let built = build(&[
        Entry::corner("a", Point::new(0.0, 0.0)),
        Entry::corner("b", Point::new(80.0, 0.0)).edge("end", EdgeShape::FullRound),
        Entry::corner("c", Point::new(80.0, 30.0)),
        Entry::corner("d", Point::new(0.0, 30.0)).edge("other end", EdgeShape::FullRound),
    ])
    .unwrap();
    close(
        "area",
        built.contour.signed_area(),
        50.0 * 30.0 + PI * 225.0,
        1e-9,
    );
    close(
        "perimeter",
        built.contour.perimeter(),
        100.0 + 2.0 * PI * 15.0,
        1e-9,
    );
    assert_eq!(built.contour.pieces().len(), 4, "two lines and two arcs");
}

#[test]
fn an_edge_may_carry_on_where_the_one_before_points() {
    // a straight run along x, then an arc tangent to it up to (50 + 30, 30): a quarter circle of 30
    let built = build(&[
        Entry::corner("a", Point::new(0.0, 0.0)),
        Entry::corner("b", Point::new(50.0, 0.0)).edge("bend", EdgeShape::TangentToPrevious),
        Entry::corner("c", Point::new(80.0, 30.0)),
        Entry::corner("d", Point::new(0.0, 30.0)),
    ])
    .unwrap();
    let [Segment::Arc(arc)] = built.edges[1].finished.as_slice() else {
        panic!("an arc")
    };
    close("radius", arc.radius(), 30.0, 1e-12);
    close("sweep", arc.sweep(), PI / 2.0, 1e-12);
}

#[test]
fn fillets_and_chamfers_take_off_what_the_handbook_says() {
    // Engineering Surveying, 6th ed., § 10.1: corner waste r² (cot θ/2 − (π − θ)/2), here at 60°
    let apex = Point::new(50.0, 50.0 * 3.0_f64.sqrt());
    let triangle = |treatment| {
        build(&[
            Entry::corner("a", Point::new(0.0, 0.0)).treated(treatment),
            Entry::corner("b", Point::new(100.0, 0.0)).treated(treatment),
            Entry::corner("c", apex).treated(treatment),
        ])
        .unwrap()
        .contour
        .signed_area()
    };
    let sharp = triangle(Treatment::Sharp);
    close(
        "three fillets of 10",
        sharp - triangle(Treatment::Fillet(10.0)),
        3.0 * 68.485_326,
        1e-5,
    );
    // a chamfer of 10 cuts an equilateral triangle of side 10 off
    let cut = 3.0 * 3.0_f64.sqrt() / 4.0 * 100.0;
    close(
        "three chamfers of 10",
        sharp - triangle(Treatment::Chamfer(10.0, 10.0)),
        cut,
        1e-9,
    );
}

#[test]
fn turned_moved_mirrored_and_started_anywhere_it_is_the_same_part() {
    let entries = leeboard();
    let reference = build(&entries).unwrap();
    let (area, perimeter) = (
        reference.contour.signed_area(),
        reference.contour.perimeter(),
    );
    let motions = [
        Motion::turn(17.0_f64.to_radians()),
        Motion::turn(90.0_f64.to_radians()),
        Motion::shift(kurbo::Vec2::new(10_000.0, -7_000.0)),
        Motion::mirror_left_right(),
        Motion::mirror_left_right().then(&Motion::turn(2.0)),
    ];
    for motion in motions {
        let mut moved = moved(&entries, &motion);
        for _ in 0..moved.len() {
            moved.rotate_left(1);
            let built = build(&moved).unwrap();
            assert_eq!(
                built.turned,
                motion.mirrors(),
                "turned when mirrored: {motion:?}"
            );
            close("area", built.contour.signed_area(), area, 2e-6);
            close("perimeter", built.contour.perimeter(), perimeter, 1e-8);
            let pieces = reference.contour.pieces().len();
            assert_eq!(
                built.contour.pieces().len(),
                pieces,
                "as many pieces: {motion:?}"
            );
        }
    }
}

#[test]
fn what_cannot_be_built_is_refused_with_its_numbers() {
    let corner = |name: &str, x: f64, y: f64| Entry::corner(name, Point::new(x, y));
    let refused = |entries: &[Entry]| build(entries).unwrap_err().fault;

    let large = refused(&[
        corner("a", 0.0, 0.0).fillet(60.0),
        corner("b", 100.0, 0.0),
        corner("c", 100.0, 50.0),
        corner("d", 0.0, 50.0),
    ]);
    let OutlineFault::TreatmentTooLarge { largest, .. } = large else {
        panic!("{large}")
    };
    close("largest fillet", largest, 50.0, 1e-6);

    let overlap = refused(&[
        corner("a", 0.0, 0.0).fillet(30.0),
        corner("b", 100.0, 0.0),
        corner("c", 100.0, 50.0),
        corner("d", 0.0, 50.0).fillet(30.0),
    ]);
    assert!(
        matches!(overlap, OutlineFault::TreatmentsOverlap { .. }),
        "{overlap}"
    );

    let crossing = refused(&[
        corner("a", 0.0, 0.0),
        corner("b", 100.0, 0.0),
        corner("c", 20.0, 50.0),
        corner("d", 80.0, 50.0),
    ]);
    let OutlineFault::CrossesItself { at, .. } = crossing else {
        panic!("{crossing}")
    };
    close("x of the crossing", at.x, 50.0, 1e-9);

    let inside = refused(&[
        Entry::round("large", Point::new(0.0, 0.0), 50.0, Side::Full),
        corner("inside", 10.0, 0.0),
    ]);
    assert!(
        matches!(inside, OutlineFault::NoStraightTangent { .. }),
        "{inside}"
    );

    let twice = refused(&[
        corner("a", 0.0, 0.0),
        corner("b", 0.0, 0.0),
        corner("c", 1.0, 1.0),
    ]);
    assert!(
        matches!(twice, OutlineFault::ZeroLengthEdge { .. }),
        "{twice}"
    );

    let number = refused(&[corner("a", f64::NAN, 0.0), corner("b", 1.0, 0.0)]);
    assert!(matches!(number, OutlineFault::Geometry(_)), "{number}");
}
