use super::case::Kerf;
use super::*;
use crate::design::Design;
use crate::design::Source;
use crate::design::part::Part;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::nearest::InsideCorner;
use crate::geometry::nearest::between_contours;
use crate::geometry::nearest::to_contour;
use crate::trade::Material;
use crate::trade::Processes;
use crate::trade::materials;
use std::f64::consts::PI;

fn design(text: &str) -> Design {
    Design::load(&Source::new("part.toml", text), &[]).expect(text)
}

fn part(design: &Design) -> &Part {
    design.resolved.parts.first().expect("a part")
}

fn area(regions: &[Region]) -> f64 {
    regions.iter().map(Region::area).sum()
}

fn compared(
    design: &Design,
    all: &[Judged],
    wanted: &[Wanted<'_>],
    material: Option<&Material>,
) -> Result<Vec<Comparison>, KerfError> {
    let asked = Asked {
        part: part(design),
        judged: all,
        dimensions: &design.dimensions,
        material,
        thickness: 5.0,
    };
    compare(&asked, wanted)
}

fn close(found: f64, expected: f64, what: &str) {
    // offsets are good to 2e-8 mm of the edge
    assert!(
        (found - expected).abs() < 2e-5,
        "{what}: {found}, not {expected}"
    );
}

/// The L of the closed forms: area 6, perimeter 14, five outside corners and one inside corner.
const L_SHAPE: &str = "[part.l]\noutline = [\n{ corner = 'a', at = [0, 0] }, { corner = 'b', at = [4, 0] },\n\
    { corner = 'c', at = [4, 1] }, { corner = 'd', at = [1, 1] },\n\
    { corner = 'e', at = [1, 3] }, { corner = 'f', at = [0, 3] }]\n";

fn rectangle(bottom: &str, more: &str) -> String {
    format!(
        "[dims]\nlong = {{ value = 80, tol = 0.5, measure = {{ distance = {{ from = 'left', to = 'right' }} }} }}\n\
         high = {{ value = 50, tol = 0.5, measure = {{ distance = {{ from = 'bottom', to = 'top' }} }} }}\n\
         [plate.p]\nmaterial = 'aluminium 5083'\nthickness = 5\n\
         [part.plate]\nplate = 'p'\noutline = [\n\
         {{ corner = 'a', at = [0, 0], edge = {{ name = 'bottom'{bottom} }} }},\n\
         {{ corner = 'b', at = ['long', 0], edge = {{ name = 'right' }} }},\n\
         {{ corner = 'c', at = ['long', 'high'], edge = {{ name = 'top' }} }},\n\
         {{ corner = 'd', at = [0, 'high'], edge = {{ name = 'left' }} }}]\n{more}"
    )
}

#[test]
fn an_l_as_cut_has_its_closed_forms() {
    // Steiner, concave: outward A + Lr + (5π/4 − 1)r², inward A − Lr + (5 − π/4)r²
    let design = design(L_SHAPE);
    let cut = AsCut::new(part(&design), 1.0).expect("ready");
    for (kerf, not_compensated) in [(0.5, 2.763_412_614_788), (0.8, 1.074_336_293_856)] {
        let r = 0.5 * kerf;
        let kerf = Kerf {
            value: kerf,
            low: kerf,
            high: kerf,
        };
        let shape = |case: Case| {
            let (line, kerf) = case.line_and_kerf(kerf);
            cut.shape(line, 0.5 * kerf).expect("certified")
        };
        // the tool fills the inside corner with its own radius
        let filled = (1.0 - PI / 4.0) * r * r;
        close(area(&shape(Case::Right)), 6.0 + filled, "compensated");
        close(
            area(&shape(Case::NotCompensated)),
            not_compensated,
            "not compensated",
        );
        let outward = 6.0 + 14.0 * r + (5.0 * PI / 4.0 - 1.0) * r * r;
        close(area(&shape(Case::Twice)), outward + filled, "twice");
    }
}

#[test]
fn value_less_kerf_is_wrong_beside_a_sharp_inside_corner() {
    // from the outside corner (0, 0) to the inside corner (1, 1): as drawn √2. Not compensated the outside
    // corner goes to (r, r), and round the inside corner stands an arc of radius r
    let design = design(L_SHAPE);
    let cut = AsCut::new(part(&design), 1.0).expect("ready");
    let r = 0.2;
    let shape = cut.shape(0.0, r).expect("certified");
    let outer = shape.first().expect("one piece").outer();
    let corner = Point::new(r, r);
    let arcs: Vec<_> = outer
        .segments()
        .filter(|segment| matches!(segment, crate::geometry::Segment::Arc(_)))
        .collect();
    let [arc] = arcs[..] else {
        panic!("one arc, round the inside corner: {arcs:?}");
    };
    let measured = (arc.nearest_point(corner) - corner).hypot();
    let exact = 2_f64.sqrt() * (1.0 - r) - r;
    close(measured, exact, "on the offset shape");
    let by_subtraction = 2_f64.sqrt() - 2.0 * r;
    assert!(
        by_subtraction - measured > 0.08,
        "{by_subtraction} {measured}"
    );
}

#[test]
fn a_rectangle_has_its_closed_forms_in_every_case() {
    let design = design(&rectangle("", ""));
    let part = part(&design);
    let all = judged(&design, part);
    assert_eq!(all.len(), 2, "two limits");
    assert!(
        all.iter().all(|one| one.mend == Mend::FilesDown),
        "outside sizes"
    );
    let known = Processes::default();
    let process = known.find("waterjet").expect("the jet");
    let wanted = [Wanted {
        process,
        kerf: Some(1.2),
    }];
    let alloy = materials::find("aluminium 5083").ok();
    let found = compared(&design, &all, &wanted, alloy).expect("compared");
    let jet = found.first().expect("one");
    // kerf 1.2, usually 0.2 narrower and 0.3 wider; faces 0.15 out of square
    for (case, edge) in [
        (Case::Right, 0.0),
        (Case::Narrow, 0.1),
        (Case::Wide, -0.15),
        (Case::NotCompensated, -0.6),
        (Case::Twice, 0.6),
    ] {
        let result = jet.case(case).expect("a case");
        close(result.edge, edge, case.words());
        for (reading, drawn) in result.readings.iter().zip([80.0, 50.0]) {
            let middle = drawn + 2.0 * edge;
            close(reading.middle.expect("there"), middle, case.words());
            close(reading.least.expect("there"), middle - 0.15, "top");
            close(reading.most.expect("there"), middle + 0.15, "bottom");
            close(
                reading.room.expect("limited"),
                0.5 - 2.0 * edge.abs() - 0.15,
                "room",
            );
        }
    }
    let work = jet.work.as_ref().expect("work");
    close(work.length, 2.0 * 130.0 + PI * 1.2, "the line of the tool");
    close(
        work.lost,
        2.0 * 130.0 * 1.2 + PI * 1.2 * 1.2,
        "material lost",
    );
    assert_eq!(work.starts, 1, "one closed run");
    close(work.stock, 0.15 + 0.075 + 0.2, "stock for filing");
    let broken = jet.broken(Case::NotCompensated, &all);
    assert_eq!(broken.len(), 2, "both limits");
    assert!(
        !broken[0]
            .0
            .can_be_filed(broken[0].1.worst.expect("a value")),
        "too small is scrap"
    );
    let twice = jet.broken(Case::Twice, &all);
    assert!(
        twice[0].0.can_be_filed(twice[0].1.worst.expect("a value")),
        "too large can be filed"
    );
}

#[test]
fn openings_grow_when_nobody_compensates() {
    let openings = "[[part.plate.opening]]\nname = 'pin'\ncircle = { at = [20, 25], diameter = 10 }\n\
         [[part.plate.opening]]\nname = 'slot'\nslot = { at = [50, 25], length = 30, width = 8, angle = 30 }\n\
         [[part.plate.opening]]\nname = 'window'\nrectangle = { at = [72, 10], width = 6, height = 9, radius = 2 }\n\
         [[part.plate.opening]]\nname = 'bolt'\ncircle = { at = [8, 8], diameter = 5 }\nmake = 'drill'\n";
    let design = design(&rectangle("", openings));
    let part = part(&design);
    let all = judged(&design, part);
    let cut = AsCut::new(part, 1.0).expect("ready");
    let shape = cut.shape(0.0, 0.5).expect("certified");
    let value = |name: &str| {
        let one = all.iter().find(|one| one.name == name).expect(name);
        assert_eq!(
            (one.kind, one.mend),
            (Kind::General, Mend::FilesUp),
            "{name}"
        );
        one.value(part, &shape, &design.dimensions).expect(name)
    };
    for (name, expected) in [
        ("pin diameter", 11.0),
        ("slot width", 9.0),
        ("slot length", 31.0),
        ("window width", 7.0),
        ("window height", 10.0),
    ] {
        close(value(name), expected, name);
    }
    assert!(
        !all.iter().any(|one| one.name.starts_with("bolt")),
        "a drilled hole is no cut"
    );
    let drilled = shape[0]
        .holes()
        .iter()
        .filter_map(crate::geometry::Contour::as_circle);
    assert!(
        drilled.into_iter().any(|(_, radius)| radius == 2.5),
        "it stays as drawn"
    );
}

#[test]
fn a_tongue_has_the_general_tolerance() {
    // its own limit would go before it
    let free = trial_cut::DESIGN.replace("value = 10, tol = 1,", "value = 10,");
    let design = design(&free);
    let part = part(&design);
    let all = judged(&design, part);
    let tongue = all
        .iter()
        .find(|one| one.name == "tip width")
        .expect("the tongue");
    assert_eq!(
        (tongue.kind, tongue.drawn),
        (Kind::General, 10.0),
        "between its sides"
    );
    assert_eq!(tongue.mend, Mend::FilesDown, "too wide can be filed");
    let widths = all
        .iter()
        .filter(|one| one.kind == Kind::General && one.mend == Mend::FilesDown);
    assert_eq!(widths.count(), 1, "shoulders and steps are none");
}

#[test]
fn the_plates_own_edge_does_not_move() {
    let design = design(&rectangle(", as = 'plate edge'", ""));
    let part = part(&design);
    let cut = AsCut::new(part, 1.0).expect("ready");
    for half in [0.4, -0.4] {
        let shape = cut.shape(0.0, half).expect("certified");
        // grown, two corners are round
        let rounded = if half < 0.0 {
            2.0 * (1.0 - PI / 4.0) * half * half
        } else {
            0.0
        };
        let sharp = (80.0 - 2.0 * half) * (50.0 - half);
        close(area(&shape), sharp - rounded, "three edges move");
        let corner = to_contour(Point::new(40.0, 0.0), shape[0].outer());
        close(corner.nearest.distance, 0.0, "the plate's edge stays");
    }
    // compensated, the tool runs along three sides and off past the ends of the fourth
    let (length, closed) = cut.way(0.5).expect("a way");
    close(
        length,
        80.0 + 2.0 * 50.0 + PI * 0.5,
        "three sides and two corners",
    );
    assert_eq!(closed, 0, "it comes from the edge");
}

#[test]
fn the_room_of_a_rectangle_is_half_its_tolerance() {
    let design = design(&rectangle("", ""));
    let part = part(&design);
    let all = judged(&design, part);
    let found = room(part, &all, &design.dimensions).expect("found");
    for side in [&found.small, &found.large] {
        // ±0.5 on a size is 0.25 on each of its edges
        assert!((side.error() - 0.25).abs() < 2e-4, "{side:?}");
    }
    let pin = "[[part.plate.opening]]\nname = 'pin'\ncircle = { at = [20, 25], diameter = 10 }\n";
    let limit =
        "[[part.plate.limit]]\nwhat = 'pin hole'\ntol = 0.2\nmeasure = { diameter = 'pin' }\n";
    // the general tolerance of ±0.2 decides nothing, a limit of ±0.2 breaks at an error of 0.1
    for (more, expected) in [(pin.to_owned(), 0.25), (format!("{pin}{limit}"), 0.1)] {
        let narrow = self::design(&rectangle("", &more));
        let part = narrow.resolved.parts.first().expect("a part");
        let all = judged(&narrow, part);
        let found = room(part, &all, &narrow.dimensions).expect("found");
        let Broken::At { error, judged } = found.small else {
            panic!("something breaks: {found:?}");
        };
        assert!((error - expected).abs() < 2e-4, "{error}");
        assert_eq!(all[judged].name == "pin hole", expected < 0.2, "which");
    }

    // of a class that the design names it is a limit: ISO 2768-1, 6 to 30 mm, class c ±0.5, class f ±0.1
    for (class, most) in [("c", 10.5), ("f", 10.1)] {
        let text = format!(
            "general_tolerance = 'ISO 2768-{class}'\n{}",
            rectangle("", pin)
        );
        let held = self::design(&text);
        let part = held.resolved.parts.first().expect("a part");
        let all = judged(&held, part);
        let pin = all.iter().find(|one| one.name == "pin diameter");
        let pin = pin.expect("its diameter");
        assert!((pin.max.expect("limited") - most).abs() < 1e-9, "{pin:?}");
        assert!(matches!(pin.kind, Kind::Class(_)), "{pin:?}");
        let found = room(part, &all, &held.dimensions).expect("found");
        let least = 0.25_f64.min(0.5 * (most - 10.0));
        assert!((found.small.error() - least).abs() < 2e-4, "{found:?}");
    }
}

#[test]
fn a_cut_without_room_in_an_opening_loses_it() {
    let openings = "[[part.plate.opening]]\nname = 'slit'\nslot = { at = [40, 25], length = 30, width = 1.5 }\n\
         [[part.plate.opening]]\nname = 'near'\ncircle = { at = [40, 48], diameter = 3 }\n";
    let design = design(&rectangle("", openings));
    let part = part(&design);
    let all = judged(&design, part);
    let known = Processes::default();
    let wanted = [Wanted {
        process: known.find("plasma").expect("plasma"),
        kerf: None,
    }];
    let found = compared(&design, &all, &wanted, None).expect("compared");
    let plasma = &found[0];
    assert_eq!(plasma.standing, Standing::DoesNotFit, "it cannot");
    let lost = |case| {
        let result = plasma.case(case).expect("a case");
        result
            .lost
            .iter()
            .map(|lost| lost.what.clone())
            .collect::<Vec<_>>()
    };
    assert!(
        lost(Case::Right).contains(&WhatIsLost::Opening("slit".to_owned())),
        "1.5 mm is less than 1.8: {:?}",
        lost(Case::Right)
    );
    assert!(
        lost(Case::NotCompensated).contains(&WhatIsLost::Merged("near".to_owned())),
        "0.5 mm of metal between it and the edge: {:?}",
        lost(Case::NotCompensated)
    );
}

#[test]
fn what_fits_comes_first_and_nothing_forbidden_is_compared() {
    let design = design(&rectangle("", ""));
    let part = part(&design);
    let all = judged(&design, part);
    let known = Processes::default();
    let wanted: Vec<Wanted<'_>> = known
        .all
        .iter()
        .map(|process| Wanted {
            process,
            kerf: None,
        })
        .collect();
    let alloy = materials::find("aluminium 5083").ok();
    let found = compared(&design, &all, &wanted, alloy).expect("compared");
    assert!(found.is_sorted_by_key(|one| one.standing), "the best first");
    let first = &found[0];
    assert!(
        first.holds(Case::Wide, &all),
        "the first breaks nothing: {}",
        first.process.key
    );
    let flame = found
        .iter()
        .find(|one| one.process.key == "flame")
        .expect("flame");
    assert_eq!(
        flame.standing,
        Standing::NotForThis,
        "no flame on aluminium"
    );
    assert!(
        flame.cases.is_empty() && flame.refused.is_some(),
        "not compared"
    );
    let fine = Wanted {
        process: known.find("laser").expect("laser"),
        kerf: Some(0.0),
    };
    let refused = compared(&design, &all, std::slice::from_ref(&fine), None);
    assert_eq!(
        refused.expect_err("no cut").name(),
        "not-a-cut",
        "a kerf of 0"
    );
    let wide = Wanted {
        kerf: Some(60.0),
        ..fine
    };
    let refused = compared(&design, &all, &[wide], None);
    assert_eq!(
        refused.expect_err("too wide").name(),
        "wider-than-part",
        "wider than the part"
    );
}

#[test]
fn a_tool_leaves_its_own_radius_in_a_sharp_inside_corner() {
    let design = design(L_SHAPE);
    let part = part(&design);
    let known = Processes::default();
    let wanted = [Wanted {
        process: known.find("waterjet").expect("the jet"),
        kerf: Some(0.6),
    }];
    let found = compared(&design, &[], &wanted, None).expect("compared");
    let InsideCorner::Round { radius, .. } = found[0].corner else {
        panic!("rounded by the tool: {:?}", found[0].corner);
    };
    close(radius, 0.3, "half the kerf");
    let right = &found[0].case(Case::Right).expect("right").shape[0];
    let gap = between_contours(right.outer(), part.region.outer())
        .nearest
        .distance;
    close(gap, 0.0, "elsewhere it is the outline");
}
