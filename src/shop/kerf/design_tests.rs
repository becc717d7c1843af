//! What the design says goes before the general tolerance, and what it does not say is not claimed.

use super::*;
use crate::design::Design;
use crate::design::Source;
use crate::design::part::Part;
use crate::trade::Processes;

const KNEES: &str = include_str!("../../../fixtures/fits/knees.toml");

fn design(text: &str) -> Design {
    Design::load(&Source::new("knees.toml", text), &[]).expect(text)
}

fn part<'a>(design: &'a Design, name: &str) -> &'a Part {
    let mut parts = design.resolved.parts.iter();
    parts.find(|part| part.name == name).expect(name)
}

fn jet(design: &Design, part: &Part, all: &[Judged], kerf: f64) -> Comparison {
    let known = Processes::default();
    let process = known.find("waterjet").expect("the jet");
    let kerf = Some(kerf);
    let asked = Asked {
        part,
        judged: all,
        dimensions: &design.dimensions,
        material: None,
        thickness: 9.0,
    };
    let mut found = compare(&asked, &[Wanted { process, kerf }]).expect("compared");
    found.remove(0)
}

fn close(found: f64, expected: f64, what: &str) {
    // offsets are good to 2e-8 mm of the edge
    assert!(
        (found - expected).abs() < 2e-5,
        "{what}: {found}, not {expected}"
    );
}

fn names(all: &[Judged], kind: Kind) -> Vec<&str> {
    let of_kind = all.iter().filter(|one| one.kind == kind);
    of_kind.map(|one| one.name.as_str()).collect()
}

#[test]
fn a_fit_is_judged_on_both_its_parts_and_on_the_other_hand() {
    let design = design(KNEES);
    for name in ["knee_port", "knee_starboard", "cleat"] {
        let part = part(&design, name);
        let all = judged(&design, part);
        assert_eq!(names(&all, Kind::Fit), ["tenon in its mortise"], "{name}");
        let index = all
            .iter()
            .position(|one| one.kind == Kind::Fit)
            .expect(name);
        assert_eq!(
            all[index].mend,
            Mend::FilesUp,
            "{name}: filing makes it looser"
        );
        close(all[index].drawn, 0.4, "as drawn");
        // by hand: a tenon loses half a kerf on both its faces and a mortise gains that much, the other
        // side is as designed
        let kerf = 1.0;
        let jet = jet(&design, part, &all, kerf);
        for (case, clearance) in [
            (Case::Right, 0.4),
            (Case::NotCompensated, 0.4 + kerf),
            (Case::Twice, 0.4 - kerf),
        ] {
            let reading = jet.case(case).expect("a case").readings[index];
            close(reading.middle.expect("there"), clearance, case.words());
        }
        let broken = jet.broken(Case::NotCompensated, &all);
        let fit = broken.iter().find(|(judged, _)| judged.kind == Kind::Fit);
        let (fit, reading) = fit.expect("1.4 is over 0.8");
        assert!(
            !fit.can_be_filed(reading.worst.expect("a value")),
            "too loose is scrap"
        );
        assert!(limits_anything(&all), "{name}");
    }
}

#[test]
fn a_size_that_is_no_part_of_the_file_stays_as_it_is() {
    let bought = KNEES.replace(
        "outer = { part = \"cleat\", measure = { distance = { from = \"m fore\", to = \"m aft\" } } }",
        "outer = { size = \"tenon_w + slack\", coating = 0.05 }",
    );
    let design = design(&bought);
    let knee = part(&design, "knee_port");
    let all = judged(&design, knee);
    let fit = all.iter().find(|one| one.kind == Kind::Fit).expect("a fit");
    // two faces coated 0.05 thick
    close(fit.drawn, 0.3, "less its coating");
    let cut = AsCut::new(knee, 1.0).expect("ready");
    let shape = cut.shape(0.0, 0.5).expect("certified");
    let value = fit.value(knee, &shape, &design.dimensions);
    close(value.expect("there"), 1.3, "not compensated");
    let cleat = judged(&design, part(&design, "cleat"));
    assert!(
        cleat.is_empty() && !limits_anything(&cleat),
        "nothing is on the cleat"
    );
}

#[test]
fn holes_keep_their_distance_when_they_grow() {
    let text = "[part.p]\noutline = [{ corner = 'a', at = [0, 0] }, { corner = 'b', at = [100, 0] },\n\
        { corner = 'c', at = [100, 40] }, { corner = 'd', at = [0, 40] }]\n\
        [[part.p.opening]]\nname = 'fore'\ncircle = { at = [20, 20], diameter = 8.5 }\n\
        [[part.p.opening]]\nname = 'aft'\ncircle = { at = [80, 20], diameter = 8.5 }\n\
        [[fit]]\nwhat = 'two pins'\ninner = { size = 8 }\n\
        outer = { part = 'p', measure = { diameter = 'fore' }, apart = { distance = { from = 'fore', to = 'aft' } } }\n\
        second = { size = 8.5, part = 'p', apart = { distance = { from = 'fore', to = 'aft' } } }\n";
    let design = design(text);
    let part = part(&design, "p");
    let all = judged(&design, part);
    let fit = all.iter().find(|one| one.kind == Kind::Fit).expect("a fit");
    // play of both pieces, and the distances are the same
    close(fit.drawn, 1.0, "as drawn");
    let cut = AsCut::new(part, 1.0).expect("ready");
    let shape = cut.shape(0.0, 0.5).expect("certified");
    let value = fit.value(part, &shape, &design.dimensions);
    close(value.expect("there"), 2.0, "one hole a kerf larger");
}

#[test]
fn a_limit_of_the_design_replaces_the_general_row_on_the_same_edges() {
    let limited = design(KNEES);
    for name in ["knee_port", "knee_starboard"] {
        let all = judged(&limited, part(&limited, name));
        assert_eq!(
            names(&all, Kind::Limit),
            ["reach", "tenon_w", "screw to edge"],
            "{name}"
        );
        assert!(names(&all, Kind::General).is_empty(), "{name}");
    }
    // without the limit and the fit the tongue is looked at, on either hand
    let free = KNEES.split("[[fit]]").next().expect("the parts");
    let free = free.replace("value = 44, tol = 0.4, part", "value = 44, part");
    let free = design(&free);
    for name in ["knee_port", "knee_starboard"] {
        let all = judged(&free, part(&free, name));
        assert_eq!(names(&all, Kind::General), ["tenon end width"], "{name}");
    }
    let vent = "[[part.spacer.limit]]\nwhat = 'vent'\ntol = 0.1\nmeasure = { radius = 'eye' }\n";
    let eye = "[[part.spacer.opening]]\nname = 'eye'\ncircle = { at = [50, 8], diameter = 6 }\n";
    for (more, rows) in [
        (String::new(), vec!["vent width", "vent height"]),
        (
            eye.to_owned(),
            vec!["vent width", "vent height", "eye diameter"],
        ),
        (format!("{eye}{vent}"), vec!["vent width", "vent height"]),
    ] {
        let design = design(&format!("{KNEES}{more}"));
        let all = judged(&design, part(&design, "spacer"));
        assert_eq!(names(&all, Kind::General), rows, "{more}");
    }
}

#[test]
fn the_general_tolerance_fails_no_part() {
    let design = design(KNEES);
    let spacer = part(&design, "spacer");
    let all = judged(&design, spacer);
    assert!(!limits_anything(&all), "only the general tolerance");
    let jet = jet(&design, spacer, &all, 1.0);
    assert!(
        jet.broken(Case::NotCompensated, &all).is_empty(),
        "no limit breaks"
    );
    // ISO 2768-1, class m, 6 to 30 mm: ±0.2, and the vent is a kerf larger
    let beyond = jet.beyond_general(Case::NotCompensated, &all);
    assert_eq!(beyond.len(), 2, "width and height");
    close(
        beyond[0].1.middle.expect("there") - beyond[0].0.drawn,
        1.0,
        "by the kerf",
    );
    assert_eq!(jet.room, None, "nothing to spare of what nobody asked for");
    assert!(jet.standing <= Standing::FitsWithCare, "{:?}", jet.standing);
}

#[test]
fn the_plates_own_edge_does_not_move_on_the_other_hand() {
    let own = KNEES.replace(
        "edge = { name = \"back\" }",
        "edge = { name = \"back\", as = \"plate edge\" }",
    );
    let design = design(&own);
    let area = |name: &str| {
        let cut = AsCut::new(part(&design, name), 1.0).expect("ready");
        assert!(
            cut.taken_as_cut().is_empty(),
            "{name}: {:?}",
            cut.taken_as_cut()
        );
        let shape = cut.shape(0.0, 0.5).expect("certified");
        shape.iter().map(crate::geometry::Region::area).sum::<f64>()
    };
    close(area("knee_starboard"), area("knee_port"), "mirror images");
}
