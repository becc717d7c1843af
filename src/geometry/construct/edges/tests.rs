use super::*;
use crate::geometry::Vec2;

/// A segment as an edge of several pieces.
fn in_pieces(whole: &Segment, count: u8) -> Vec<Segment> {
    let share = |step: u8| f64::from(step) / f64::from(count);
    (0..count)
        .map(|step| whole.part(share(step), share(step + 1)))
        .collect()
}

fn bow() -> Segment {
    let (from, to) = (Point::new(300.0, 0.0), Point::new(80.0, 260.0));
    Arc::through(from, Point::new(230.0, 160.0), to)
        .expect("an arc")
        .into()
}

fn end_of(rest: Rest) -> Segment {
    rest.left.expect("something is left of the piece")
}

/// However finely the edges are divided, the corner comes out as that of the whole edges, which is held
/// against closed forms in its own tests.
#[test]
fn pieces_make_no_difference() {
    let base = Segment::line(Point::ORIGIN, Point::new(300.0, 0.0));
    let bow = bow();
    for radius in [2.0, 20.0, 60.0, 95.0] {
        let whole = fillet(&base, &bow, radius).expect("it fits the whole edges");
        for (first, second) in [(1, 1), (1, 24), (40, 1), (40, 24), (7, 200)] {
            let (before, after) = (in_pieces(&base, first), in_pieces(&bow, second));
            let found = fillet_between_edges(&before, &after, radius).expect("it fits the pieces");
            let Segment::Arc(arc) = found.worked else {
                panic!("a fillet is an arc");
            };
            for (what, point, expected) in [
                ("centre", arc.centre(), whole.arc.centre()),
                ("start", arc.start(), whole.arc.start()),
                ("end", arc.end(), whole.arc.end()),
            ] {
                let off = number::length(point - expected);
                assert!(
                    off < 1e-8,
                    "{what} of {radius} on {first} and {second} pieces: {off}"
                );
            }
            assert_eq!(end_of(found.before).end(), arc.start(), "joined before");
            assert_eq!(end_of(found.after).start(), arc.end(), "joined after");
        }
    }
}

#[test]
fn the_largest_is_that_of_the_whole_edges() {
    let base = Segment::line(Point::ORIGIN, Point::new(300.0, 0.0));
    let whole = largest_fillet(&base, &bow()).expect("a corner");
    let refused = fillet_between_edges(&in_pieces(&base, 9), &in_pieces(&bow(), 13), 2.0 * whole);
    let Err(ConstructError::FilletTooLarge { largest, .. }) = refused else {
        panic!("twice the largest fits: {refused:?}");
    };
    assert!((largest / whole - 1.0).abs() < 1e-5, "{largest} of {whole}");
}

#[test]
fn a_corner_that_turns_right_and_one_run_backwards() {
    let base = Segment::line(Point::ORIGIN, Point::new(300.0, 0.0));
    let mirrored = |segment: &Segment| match segment {
        Segment::Line(line) => Segment::line(
            Point::new(line.start.x, -line.start.y),
            Point::new(line.end.x, -line.end.y),
        ),
        Segment::Arc(arc) => Arc::from_centre(
            Point::new(arc.start().x, -arc.start().y),
            Point::new(arc.end().x, -arc.end().y),
            Point::new(arc.centre().x, -arc.centre().y),
            arc.turn().reversed(),
        )
        .into(),
    };
    let straight =
        fillet_between_edges(&in_pieces(&base, 5), &in_pieces(&bow(), 11), 60.0).expect("left");
    let right: Vec<Segment> = in_pieces(&bow(), 11).iter().map(mirrored).collect();
    let turned = fillet_between_edges(&in_pieces(&base, 5), &right, 60.0).expect("right");
    let off = number::length(straight.worked.start() - turned.worked.start());
    assert!(
        off < 1e-9 && turned.worked.curvature() < 0.0,
        "mirrored: {off}"
    );
    assert!(
        (straight.worked.end().y + turned.worked.end().y).abs() < 1e-9,
        "mirrored at its end"
    );
    let back = |edge: &[Segment]| edge.iter().rev().map(Segment::reversed).collect::<Vec<_>>();
    let other = fillet_between_edges(
        &back(&in_pieces(&bow(), 11)),
        &back(&in_pieces(&base, 5)),
        60.0,
    );
    let other = other.expect("the other way");
    let off = number::length(straight.worked.start() - other.worked.end());
    assert!(off < 1e-9, "run backwards: {off}");
    assert_eq!(
        other.after.piece,
        4 - straight.before.piece,
        "the same piece"
    );
}

/// A setback of 5 on the legs of a path that turns by the angle of a 3-4-5 triangle.
#[test]
fn a_setback_reaches_past_a_joint() {
    let before = [Segment::line(Point::ORIGIN, Point::new(10.0, 0.0))];
    // 4 up, then to the left: at (7, 4) it is 5 from the corner
    let after = [
        Segment::line(Point::new(10.0, 0.0), Point::new(10.0, 4.0)),
        Segment::line(Point::new(10.0, 4.0), Point::new(0.0, 4.0)),
    ];
    let found = chamfer_between_edges(&before, &after, Setbacks::equal(5.0)).expect("it fits");
    let end = found.worked.end();
    assert!(
        number::length(end - Point::new(7.0, 4.0)) < 1e-12,
        "{end:?}"
    );
    assert_eq!(found.after.piece, 1, "on the second piece");
    assert_eq!(
        found.worked.start(),
        Point::new(5.0, 0.0),
        "on the first edge"
    );
    let refused = chamfer_between_edges(
        &before,
        &after,
        Setbacks {
            before: 5.0,
            after: 11.0,
        },
    );
    let Err(ConstructError::SetbackTooLarge { largest, .. }) = refused else {
        panic!("11 mm fit: {refused:?}");
    };
    let far = number::length(Vec2::new(10.0, 4.0));
    assert!((largest - far).abs() < 1e-12, "{largest} of {far}");
}
