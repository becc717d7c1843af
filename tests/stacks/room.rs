//! How far each dimension may still move, and the changes that keep a broken limit.

use super::PLATE;
use super::close;
use super::demo;
use super::load;
use kerfwise::design::Design;
use kerfwise::design::Override;
use kerfwise::design::Source;
use kerfwise::measures::limits::limits;
use kerfwise::measures::review;
use kerfwise::measures::stack::Bench;
use kerfwise::measures::stack::Move;
use kerfwise::measures::stack::Room;
use kerfwise::measures::stack::Stop;

#[test]
fn room_ends_where_something_breaks_and_says_what() {
    let design = load(PLATE);
    let bench = Bench::new(&design);
    let all = limits(&design).limits;
    let room = bench.room(&all);
    let of = |name: &str| room.iter().find(|room| room.name == name).unwrap();
    // the slant is 101 where x = √(101² − 80²)
    let Move::Until(up, stop) = &of("x").up else {
        panic!("the slant stops it");
    };
    close(
        "x up",
        *up,
        (101.0_f64 * 101.0 - 6400.0).sqrt() - 60.0,
        1e-3,
    );
    assert_eq!(*stop, Stop::Limit("slant".to_owned()));
    // to the left the eye runs into the back edge: radius 10
    let Move::Until(down, stop) = &of("x").down else {
        panic!("the edge stops it");
    };
    close("x down", *down, 50.0, 1.1e-3);
    assert!(
        matches!(stop, Stop::Shape(why) if why.contains("eye")),
        "{stop:?}"
    );
}

fn room_of(design: &Design, name: &str) -> Room {
    let all = limits(design).limits;
    let mut room = Bench::new(design).room(&all);
    let at = room.iter().position(|room| room.name == name).unwrap();
    room.swap_remove(at)
}

#[test]
fn a_fit_stops_a_dimension_and_so_does_a_far_rounding() {
    let design = demo("leeboard.toml");
    let play = room_of(&design, "play");
    // the fit permits 0.1 to 0.6 mm, and the play is 0.3 mm
    let fit = Stop::Fit("pivot bolt in its hole".to_owned());
    let (Move::Until(down, low), Move::Until(up, high)) = (&play.down, &play.up) else {
        panic!("the fit stops it: {play:?}");
    };
    close("play down", *down, 0.2, 1e-3);
    close("play up", *up, 0.3, 1e-3);
    assert_eq!([low, high], [&fit, &fit]);
    let toe = room_of(&design, "toe_r");
    let Move::Until(up, Stop::Shape(_)) = &toe.up else {
        panic!("the foot stops it: {toe:?}");
    };
    let set = |by: f64| {
        let value = Override::exact("toe_r", 60.0 + up + by);
        design.with_values(&[value]).is_ok()
    };
    assert!(set(-0.002) && !set(0.002), "{up}");
}

/// Two holes of 6 mm and a free length, with one limit that is broken.
const MOVING: &str = r#"
[dims]
x = 20
y = { value = 30, origin = "measured" }
idle = 40
wide = { value = 200, origin = "rule", min = 190, max = 205, measure = { along = "sole", from = "a", to = "b" } }
lean = 10
[part.plate]
datum = { along = "sole", from = "a" }
outline = [
  { corner = "a", at = [0, 0], edge = { name = "sole" } },
  { corner = "b", at = ["wide", 0], edge = { name = "right" } },
  { corner = "c", at = ["wide + 2*lean", "2*y"], edge = { name = "top" } },
  { corner = "d", at = [0, "2*y"], edge = { name = "left" } },
]
[[part.plate.opening]]
name = "moving"
circle = { at = ["x", "y"], diameter = 6 }
[[part.plate.opening]]
name = "fixed"
circle = { at = [120, "y"], diameter = 6 }
[[part.plate.limit]]
what = "length of the top"
measure = { distance = { from = "c", to = "d" } }
min = 224
"#;

#[test]
fn what_breaks_and_heals_is_not_jumped_over() {
    let room = room_of(&load(MOVING), "x");
    // the holes touch where the centres are 6 mm apart
    let Move::Until(up, Stop::Shape(why)) = &room.up else {
        panic!("the other hole stops it: {room:?}");
    };
    close("x up", *up, 94.0, 1.1e-3);
    assert!(why.contains("fixed"), "{why}");
}

#[test]
fn where_nothing_breaks_the_end_of_the_search_is_told() {
    let room = room_of(&load(MOVING), "idle");
    let Move::Beyond(by) = room.up else {
        panic!("nothing stops it: {room:?}");
    };
    assert!(by > 200.0, "{by}");
}

#[test]
fn what_is_broken_as_designed_does_not_stop_what_it_has_nothing_to_do_with() {
    let design = load(MOVING);
    assert!(
        review(&design)
            .findings
            .iter()
            .any(|f| f.kind.name() == "limit-broken")
    );
    let Move::Until(down, Stop::Shape(_)) = room_of(&design, "x").down else {
        panic!("the left edge stops it");
    };
    close("x down", down, 17.0, 1.1e-3);
    let wide = room_of(&design, "wide");
    assert_eq!(wide.up, Move::Until(5.0, Stop::Limit("wide".to_owned())));
}

/// The top is wide + 2 lean = 220 for 224.
#[test]
fn a_broken_limit_names_the_changes_that_keep_it() {
    let design = load(MOVING);
    let help = |design: &Design| {
        let findings = review(design).findings;
        let broken = findings
            .into_iter()
            .find(|f| f.kind.name() == "limit-broken");
        broken.map(|finding| finding.help)
    };
    let said = "`lean` +2 mm, or `wide` +4 mm would keep it";
    assert_eq!(help(&design).unwrap(), said);
    for (name, value) in [("lean", 12.0), ("wide", 204.0)] {
        let source = Source::new("stack.toml", MOVING);
        let mended = Design::load(&source, &[Override::exact(name, value)]).unwrap();
        assert_eq!(help(&mended), None);
    }
    // the limit of `wide` leaves 5 mm of the 7 that it would take
    let farther = load(&MOVING.replace("min = 224", "min = 227"));
    assert_eq!(help(&farther).unwrap(), "`lean` +3.5 mm would keep it");
    let tied = load(&MOVING.replace("lean = 10", "lean = { value = 10, origin = \"measured\" }"));
    assert_eq!(help(&tied).unwrap(), "`wide` +4 mm would keep it");
}
