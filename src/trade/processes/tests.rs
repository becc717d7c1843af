use super::*;
use crate::trade::Mark;
use crate::trade::materials;

fn close(found: f64, expected: f64, what: &str) {
    assert!(
        (found - expected).abs() < 1e-9,
        "{what}: {found}, not {expected}"
    );
}

#[test]
fn the_kerf_of_a_laser_runs_through_the_two_values_of_the_textbook() {
    // Process Fundamentals of Industrial Laser Welding and Cutting, 4.2.1: 0.15 in 3 mm, 0.38 in 19 mm
    let known = Processes::default();
    let laser = known.find("laser").expect("a laser");
    close(laser.kerf.at(3.0), 0.15, "3 mm");
    close(laser.kerf.at(19.0), 0.38, "19 mm");
    close(laser.kerf.at(8.0), 0.221_875, "8 mm, between");
    assert!(laser.kerf.origin.is_authority(), "it was read");
}

#[test]
fn processes_are_found_by_what_people_call_them() {
    let known = Processes::default();
    for (asked, key) in [
        ("waterjet", "waterjet"),
        ("Water Jet", "waterjet"),
        ("oxy-fuel", "flame"),
        ("bandsaw", "band-saw"),
        ("CO2 laser", "laser-non-metal"),
    ] {
        assert_eq!(
            known.find(asked).expect(asked).key,
            key,
            "asked for {asked}"
        );
    }
    let error = known.find("watrjet").expect_err("no such process");
    assert!(
        error.to_string().contains("nearest: waterjet"),
        "the nearest name: {error}"
    );
    let error = known.find("teeth").expect_err("no such process");
    assert!(
        error.to_string().contains("plasma"),
        "what there is: {error}"
    );
}

#[test]
fn no_process_is_recommended_for_what_hurts() {
    let known = Processes::default();
    let suits = |process: &str, material: &str| {
        let process = known.find(process).expect("a process").clone();
        let material = materials::find(material).expect("a material");
        match process.suits(material) {
            Suits::Yes => "yes".to_owned(),
            Suits::DoesNotCut => "does not cut".to_owned(),
            Suits::Never(refusal) => refusal.why.clone(),
        }
    };
    assert!(suits("laser-non-metal", "PVC").contains("chlorine"), "PVC");
    assert!(suits("laser-non-metal", "G10").contains("smoke"), "G10");
    assert!(
        suits("flame", "aluminium 5083").contains("oxide"),
        "aluminium by flame"
    );
    assert_eq!(
        suits("plasma", "okoume plywood"),
        "does not cut",
        "no current in wood"
    );
    assert_eq!(
        suits("plasma", "galvanised steel"),
        "yes",
        "plasma and steel"
    );
    let plasma = known.find("plasma").expect("plasma");
    let aluminium = materials::find("aluminium 5083").ok();
    assert!(
        plasma
            .cautions(aluminium)
            .iter()
            .any(|caution| caution.words.contains("hydrogen")),
        "aluminium over water"
    );
    let wetting = |process: &str, material: &str| {
        let process = known.find(process).expect("a process");
        let cautions = process.cautions(materials::find(material).ok());
        cautions
            .iter()
            .any(|caution| caution.words.contains("Water soaks into wood"))
    };
    for plywood in ["okoume plywood", "birch plywood"] {
        assert!(wetting("waterjet", plywood), "{plywood}");
        assert!(!wetting("router", plywood), "{plywood} stays dry");
    }
    assert!(
        !wetting("waterjet", "aluminium 5083"),
        "metal does not swell"
    );
}

#[test]
fn figures_are_sizes_and_what_was_read_names_its_source() {
    for process in defaults() {
        let key = &process.key;
        let figures = [
            Some(&process.kerf),
            process.taper.as_ref(),
            process.tolerance.as_ref(),
            process.smallest_hole.as_ref(),
            process.inside_radius.as_ref(),
            process.web.as_ref(),
            process.pierce.as_ref(),
            process.lead_in.as_ref(),
        ];
        for figure in figures.into_iter().flatten() {
            for thickness in [0.5, 3.0, 6.0, 15.0] {
                assert!(
                    figure.at(thickness) > 0.0,
                    "{key} at {thickness} mm: {figure:?}"
                );
                assert!(
                    figure.above >= -1e-12 && figure.below >= -1e-12,
                    "{key}: {figure:?}"
                );
            }
            if let Origin::Trade { mark, source } = &figure.origin {
                assert_eq!(mark.is_authority(), !source.is_empty(), "{key}: {figure:?}");
            }
        }
        for thickness in [0.5, 3.0, 15.0] {
            assert!(
                process.kerf.low(thickness) > 0.0,
                "{key}: a cut has a width"
            );
        }
        assert!(!process.cuts.is_empty(), "{key} cuts something");
    }
}

#[test]
fn feeds_between_two_known_ones_lie_on_a_power_of_the_thickness() {
    let known = Processes::default();
    let plasma = known.find("plasma").expect("plasma");
    let alloy = materials::find("aluminium 5083").expect("aluminium");
    // Mathers, Table 4.1: 3000 mm/min in 3 mm, 1000 in 6.5 mm
    close(
        plasma.feed(alloy, 3.0).expect("known").value,
        3000.0,
        "3 mm",
    );
    let middle = libm::sqrt(3.0 * 6.5);
    close(
        plasma.feed(alloy, middle).expect("between").value,
        libm::sqrt(3000.0 * 1000.0),
        "the geometric means go together",
    );
    assert_eq!(plasma.feed(alloy, 12.0), None, "nothing is known there");
    let wood = materials::find("birch plywood").expect("plywood");
    assert_eq!(plasma.feed(wood, 6.0), None, "no plasma in wood");
}

#[test]
fn shop_figures_may_fail_a_part_and_remembered_ones_may_not() {
    let stated = Origin::Stated {
        by: "the yard".to_owned(),
        on: "2026-11-20".to_owned(),
    };
    assert!(stated.is_authority(), "somebody stands up for it");
    assert_eq!(
        stated.words(),
        "stated by the yard, 2026-11-20",
        "who and when"
    );
    let remembered = Origin::Trade {
        mark: Mark::Remembered,
        source: "",
    };
    assert!(!remembered.is_authority(), "memory fails nothing");
}
