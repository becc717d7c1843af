//! Tool paths of the demo designs and of plates made for one question each.

use super::*;
use crate::design::Design;
use crate::design::Source;
use crate::design::part::EdgeState;
use crate::geometry::Contour;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::number;
use crate::geometry::validate::Place;
use crate::geometry::validate::region_contains;

const DEMOS: [(&str, &str); 5] = [
    (
        "leeboard",
        include_str!("../../../fixtures/parts/leeboard.toml"),
    ),
    (
        "bulkhead",
        include_str!("../../../fixtures/parts/bulkhead.toml"),
    ),
    (
        "mast-partner",
        include_str!("../../../fixtures/parts/mast-partner.toml"),
    ),
    (
        "belt-guard",
        include_str!("../../../fixtures/parts/belt-guard.toml"),
    ),
    (
        "winch-pad",
        include_str!("../../../fixtures/parts/winch-pad.toml"),
    ),
];

fn parts(name: &str, text: &str) -> Vec<Part> {
    let source = Source::new(name, text);
    match Design::load(&source, &[]) {
        Ok(design) => design.resolved.parts,
        Err(errors) => panic!("{name}: {errors:?}"),
    }
}

fn plate(openings: &str) -> Part {
    let text = format!(
        "[part.plate]\noutline = [\n{{ corner = \"a\", at = [0, 0], edge = {{ name = \"foot\" }} }},\n\
         {{ corner = \"b\", at = [200, 0] }},\n{{ corner = \"c\", at = [200, 120] }},\n\
         {{ corner = \"d\", at = [0, 120] }},\n]\n{openings}"
    );
    parts("plate", &text).remove(0)
}

fn to_edges(part: &Part, at: Point) -> f64 {
    part.region
        .contours()
        .flat_map(Contour::segments)
        .map(|segment| number::length(segment.nearest_point(at) - at))
        .fold(f64::INFINITY, f64::min)
}

fn samples(segment: &Segment) -> impl Iterator<Item = Point> {
    (0..=20).map(move |step| segment.point_at(f64::from(step) / 20.0))
}

fn keeps_off(part: &Part, path: &ToolPath, reach: f64, name: &str) {
    for cut in &path.cuts {
        for at in cut.segments().flat_map(samples) {
            assert_ne!(
                region_contains(&part.region, at),
                Place::Inside,
                "{name}, {}: the cut runs into the part at {at:?}",
                cut.what
            );
            let distance = to_edges(part, at);
            assert!(
                distance >= reach - 3e-5,
                "{name}, {}: {distance} at {at:?}, less than {reach}",
                cut.what
            );
        }
    }
}

#[test]
fn demo_paths_keep_their_distance_and_their_order() {
    for (name, text) in DEMOS {
        for part in parts(name, text) {
            for kerf in [0.2, 1.0, 2.5] {
                let setting = Setting {
                    pierce: 1.8 * kerf,
                    smallest_hole: 3.0 * kerf,
                    lead_length: 4.0,
                    ..Setting::plain(kerf)
                };
                let path = tool_path(&part, &setting).expect("a demo can be cut");
                keeps_off(&part, &path, setting.reach(), name);
                let has_strip = part
                    .edges
                    .iter()
                    .any(|edge| matches!(edge.state, EdgeState::LeaveOn(_)));
                for cut in path
                    .cuts
                    .iter()
                    .filter(|cut| !has_strip || cut.side != Side::Outside)
                {
                    for piece in &cut.along {
                        let at = piece.segment.point_at(0.5);
                        let off = (to_edges(&part, at) - kerf / 2.0).abs();
                        assert!(off < 2e-5, "{name}, {}: off by {off:e} at {at:?}", cut.what);
                    }
                }
                let first_outside = path.cuts.iter().position(|cut| cut.side == Side::Outside);
                let last_inside = path.cuts.iter().rposition(|cut| cut.side != Side::Outside);
                assert!(last_inside < first_outside, "{name}: openings come first");
                assert!(
                    path.travel.length <= path.travel.as_written + 1e-9,
                    "{name}"
                );
                for cut in path.cuts.iter().filter(|cut| cut.entry == Entry::Pierce) {
                    let room = to_edges(&part, cut.start());
                    assert!(
                        room >= 0.9 * kerf - 3e-5,
                        "{name}, {}: pierce at {room}",
                        cut.what
                    );
                }
            }
        }
    }
}

#[test]
fn a_plasma_jet_has_the_part_on_its_right() {
    let part = plate(
        "[[part.plate.opening]]\nname = \"eye\"\ncircle = { at = [60, 60], diameter = 40 }\n",
    );
    for (good_side, sense) in [(GoodSide::Right, 1.0), (GoodSide::Left, -1.0)] {
        let setting = Setting {
            good_side,
            ..Setting::plain(2.0)
        };
        let path = tool_path(&part, &setting).expect("a path");
        let area = |cut: &Cut| {
            Contour::new(cut.along.clone())
                .expect("closed")
                .signed_area()
        };
        let eye = area(&path.cuts[0]);
        let outside = area(&path.cuts[1]);
        // a circle of 40 less the kerf, and a rectangle grown by half of it with round corners
        let pi = std::f64::consts::PI;
        assert!(
            (eye - sense * pi * 19.0 * 19.0).abs() < 1e-6,
            "opening: {eye}"
        );
        let grown = 202.0 * 122.0 - (4.0 - pi);
        assert!((outside + sense * grown).abs() < 1e-6, "outside: {outside}");
    }
}

#[test]
fn the_plates_own_edge_is_left_out_and_run_over() {
    let (name, text) = DEMOS[0];
    let part = parts(name, text).remove(0);
    let path = tool_path(&part, &Setting::plain(1.0)).expect("a path");
    let outside: Vec<&Cut> = path
        .cuts
        .iter()
        .filter(|cut| cut.side == Side::Outside)
        .collect();
    let [cut] = outside.as_slice() else {
        panic!("one cut round the outside: {outside:?}")
    };
    assert_eq!(
        cut.entry,
        Entry::FromEdge,
        "it comes from outside the plate"
    );
    for at in cut.segments().flat_map(samples) {
        let beside_trailing = at.y > 30.0 && at.y < 880.0 && at.x < 1.0;
        assert!(
            !beside_trailing,
            "the trailing edge is not cut, but at {at:?}"
        );
    }
    for end in [cut.start(), cut.end()] {
        assert!(
            end.x < -0.5,
            "the cut runs off past the plate's edge: {end:?}"
        );
    }
}

#[test]
fn bridges_stay_as_wide_as_asked() {
    let part = plate("");
    let setting = Setting {
        bridges: Some(Bridges {
            count: 4,
            width: 1.5,
        }),
        ..Setting::plain(1.0)
    };
    let path = tool_path(&part, &setting).expect("a path");
    assert_eq!(path.cuts.len(), 4, "four bridges, four cuts");
    keeps_off(&part, &path, 0.5, "bridges");
    let ends = |cut: &Cut| {
        let last = cut.along.last().map(|piece| piece.segment.end());
        (cut.along[0].segment.start(), last.expect("an end"))
    };
    for cut in &path.cuts {
        let (_, end) = ends(cut);
        let next = path
            .cuts
            .iter()
            .map(|other| number::length(ends(other).0 - end))
            .fold(f64::INFINITY, f64::min);
        // between the middles of the cuts lies the bridge and half a kerf on either side
        assert!((next - 2.5).abs() < 1e-9, "a gap of {next}");
    }
    let too_many = Setting {
        bridges: Some(Bridges {
            count: 200,
            width: 5.0,
        }),
        ..setting
    };
    let refused = tool_path(&part, &too_many).expect_err("no room");
    assert_eq!(refused.name(), "no-room-for-bridges", "{refused}");
}

#[test]
fn what_cannot_be_cut_is_refused_with_its_place() {
    let slot = "[[part.plate.opening]]\nname = \"slit\"\nslot = { at = [60, 60], length = 40, width = 1.5 }\n";
    let part = plate(slot);
    let refused = tool_path(&part, &Setting::plain(2.0)).expect_err("a cut of 2 in a slit of 1.5");
    assert_eq!(refused.name(), "opening-narrower-than-kerf", "{refused}");
    assert!(
        refused.place(&part).is_some(),
        "the place in the file: {refused}"
    );
    let wide_pierce = Setting {
        pierce: 12.0,
        ..Setting::plain(0.5)
    };
    let refused = tool_path(&part, &wide_pierce).expect_err("a pierce of 12 in a slit of 1.5");
    assert_eq!(refused.name(), "no-room-for-lead", "{refused}");
    let elsewhere = Setting {
        starts: vec![Start::Edge("keel".to_owned())],
        ..Setting::plain(0.5)
    };
    let refused = tool_path(&part, &elsewhere).expect_err("no such edge");
    assert!(
        refused.to_string().contains("`foot`"),
        "what there is: {refused}"
    );
    let notched = "[part.plate]\noutline = [\n{ corner = \"a\", at = [0, 0] },\n{ corner = \"b\", at = [99, 0] },\n\
                   { corner = \"c\", at = [99, 60] },\n{ corner = \"d\", at = [99, 60.5] },\n\
                   { corner = \"e\", at = [99, 90] },\n{ corner = \"f\", at = [51, 90] },\n\
                   { corner = \"g\", at = [51, 40] },\n{ corner = \"h\", at = [49, 40] },\n\
                   { corner = \"i\", at = [49, 90] },\n{ corner = \"j\", at = [0, 90] },\n]\n";
    let part = parts("notched", notched).remove(0);
    tool_path(&part, &Setting::plain(1.0)).expect("a notch of 2 for a cut of 1");
    let refused = tool_path(&part, &Setting::plain(3.0)).expect_err("a notch of 2, a cut of 3");
    assert_eq!(refused.name(), "edge-not-reached", "{refused}");
}

#[test]
fn starts_are_where_the_user_says() {
    let part = plate("");
    for start in [
        Start::Edge("foot".to_owned()),
        Start::Near(Point::new(100.0, -3.0)),
    ] {
        let setting = Setting {
            starts: vec![start],
            ..Setting::plain(1.0)
        };
        let path = tool_path(&part, &setting).expect("a path");
        let at = path.cuts[0].along[0].segment.start();
        assert_eq!((at.x, at.y), (100.0, -0.5), "the middle of the foot");
    }
}

#[test]
fn small_holes_are_drilled_and_listed() {
    let part = plate(
        "[[part.plate.opening]]\nname = \"pin\"\ncircle = { at = [60, 60], diameter = 3 }\n\
         [[part.plate.opening]]\nname = \"eye\"\ncircle = { at = [120, 60], diameter = 30 }\n",
    );
    let setting = Setting {
        smallest_hole: 6.0,
        ..Setting::plain(1.0)
    };
    let path = tool_path(&part, &setting).expect("a path");
    assert_eq!(path.cuts.len(), 2, "the eye and the outside");
    let pin = &path.drilled[0];
    assert_eq!(
        (pin.name.as_str(), pin.why),
        ("pin", WhyDrilled::TooSmall),
        "the pin"
    );
}

#[test]
fn sharp_inside_corners_are_told() {
    let window = "[[part.plate.opening]]\nname = \"window\"\nrectangle = { at = [60, 60], width = 40, height = 30 }\n";
    let path = tool_path(&plate(window), &Setting::plain(6.0)).expect("a path");
    let told: Vec<f64> = path
        .notes
        .iter()
        .filter_map(|note| match note {
            Note::CornerLeft { left, .. } => Some(*left),
            _ => None,
        })
        .collect();
    assert_eq!(told.len(), 4, "four corners: {:?}", path.notes);
    // a round of 3 leaves 3 (√2 − 1) in a square corner
    let expected = 3.0 * (std::f64::consts::SQRT_2 - 1.0);
    assert!(
        told.iter().all(|left| (left - expected).abs() < 1e-9),
        "{told:?}"
    );
    let relieved = "[[part.plate.opening]]\nname = \"mortise\"\nrectangle = { at = [60, 60], width = 40, height = 30, relief = { cutter = 7 } }\n";
    let path = tool_path(&plate(relieved), &Setting::plain(6.0)).expect("a path");
    assert_eq!(
        path.notes,
        Vec::new(),
        "a relief for a cutter of 7 takes one of 6"
    );
}

#[test]
fn neighbours_are_kept_off() {
    let part = plate("");
    let beside = |gap: f64| {
        let corners = [
            (0.0, -gap - 50.0),
            (200.0, -gap - 50.0),
            (200.0, -gap),
            (0.0, -gap),
        ];
        let outer = Contour::polygon(&corners.map(Point::from)).expect("closed");
        Setting {
            neighbours: vec![Region::new(outer, Vec::new())],
            starts: vec![Start::Edge("foot".to_owned())],
            lead_length: 5.0,
            ..Setting::plain(1.0)
        }
    };
    let path = tool_path(&part, &beside(3.0)).expect("3 mm between the parts");
    let lowest = path.cuts[0].segments().flat_map(samples).map(|at| at.y);
    let lowest = lowest.fold(f64::INFINITY, f64::min);
    assert!(
        lowest >= -2.5 - 3e-5,
        "the lead stays half a kerf off the neighbour: {lowest}"
    );
    assert!(
        path.notes
            .iter()
            .any(|note| matches!(note, Note::ShortLead { .. })),
        "the short lead is told: {:?}",
        path.notes
    );
    let refused = tool_path(&part, &beside(0.9)).expect_err("0.9 mm for a cut of 1");
    assert_eq!(refused.name(), "neighbour-too-near", "{refused}");
}

#[test]
fn stops_on_a_line_and_on_a_circle_come_in_their_order() {
    let line: Vec<Point> = (0..50)
        .map(|i| Point::new(f64::from(i * 37 % 50), 0.0))
        .collect();
    let order = short_order(&line, Point::new(-1.0, 0.0), Some(Point::new(60.0, 0.0)));
    let xs: Vec<f64> = order.iter().map(|&stop| line[stop].x).collect();
    assert!(xs.is_sorted(), "{xs:?}");
    // on a circle the shortest way goes round it
    let places: Vec<Point> = (0..90)
        .map(|i| {
            let angle = f64::from(i * 41 % 90) * number::FULL_TURN / 90.0;
            (number::unit(angle) * 100.0).to_point()
        })
        .collect();
    let order = short_order(&places, Point::new(100.0, 0.0), None);
    let way: f64 = order
        .windows(2)
        .map(|pair| number::length(places[pair[0]] - places[pair[1]]))
        .sum();
    let chord = 200.0 * number::sin(number::HALF_TURN / 90.0);
    assert!((way - 89.0 * chord).abs() < 1e-6, "{way}");
    assert_eq!(
        short_order(&[], Point::ORIGIN, None),
        Vec::<usize>::new(),
        "nothing"
    );
}
