use super::*;
use crate::trade::Mark;

#[test]
fn people_find_materials_by_what_they_call_them() {
    for (asked, name) in [
        ("aluminium 5083", "aluminium 5083-H116"),
        ("Aluminum 6061-T6", "aluminium 6061-T6"),
        ("6061-T651", "aluminium 6061-T6"),
        ("steel, galvanised", "steel, galvanised"),
        ("Galvanized Steel", "steel, galvanised"),
        ("okoumé ply", "okoume plywood"),
        ("okoume plywood", "okoume plywood"),
        ("G10", "G10"),
        ("g10/fr4", "G10"),
        ("1.4401", "stainless steel 316"),
        ("mild steel", "steel S235JR"),
    ] {
        let found = find(asked).map(|material| material.name);
        assert_eq!(found, Ok(name), "asked for {asked}");
    }
}

#[test]
fn near_misses_are_answered_with_the_nearest_name() {
    for (asked, expected) in [
        ("okume plywood", "okoume plywood"),
        ("alumnium 5083", "aluminium 5083-H116"),
        ("aluminium 5083 H111", "aluminium 5083-H116"),
        ("acryllic", "acrylic"),
        ("stainles steel 316", "stainless steel 316"),
    ] {
        match find(asked) {
            Err(TradeError::UnknownMaterial { nearest, .. }) => {
                assert!(
                    nearest.contains(&expected),
                    "asked for {asked}, offered {nearest:?}"
                );
            }
            other => panic!("asked for {asked}, got {other:?}"),
        }
    }
    let nothing = find("unobtainium").map_err(|error| error.to_string());
    assert_eq!(
        nothing.map(|material| material.name),
        Err("no material is called \"unobtainium\"; give its density".to_owned()),
        "nothing near"
    );
    assert!(find("").is_err(), "an empty name is no material");
    assert!(find(" ,- ").is_err(), "nor is punctuation");
}

#[test]
fn every_name_and_alias_leads_to_its_own_material() {
    for material in ALL {
        for spelling in material.aliases.iter().chain([&material.name]) {
            let found = find(spelling).map(|found| found.name);
            assert_eq!(found, Ok(material.name), "spelling {spelling}");
        }
    }
}

#[test]
fn figures_lie_within_their_spread_and_name_their_source() {
    for material in ALL {
        let strengths = [material.yield_strength, material.ultimate_strength]
            .into_iter()
            .flatten()
            .map(|strength| strength.figure);
        let figures = [
            Some(material.density),
            material.elasticity,
            material.expansion,
        ]
        .into_iter()
        .flatten()
        .chain(strengths);
        for figure in figures {
            let name = material.name;
            assert!(
                figure.low <= figure.value && figure.value <= figure.high && figure.low > 0.0,
                "{name}: {figure:?}"
            );
            assert!(
                figure.mark == Mark::Remembered || !figure.source.is_empty(),
                "{name}: no source for {figure:?}"
            );
        }
        if let (Some(lower), Some(upper)) = (material.yield_strength, material.ultimate_strength) {
            assert!(
                lower.figure.value < upper.figure.value,
                "{}: yield below ultimate",
                material.name
            );
        }
    }
}

#[test]
fn a_square_metre_weighs_what_the_lists_say() {
    // kg per m²: a maker's printed list of okoume plywood to 0.1 kg; the metals as density ×
    // thickness in stockholders' lists
    for (name, thickness, expected) in [
        ("okoume plywood", 4.0, 1.8),
        ("okoume plywood", 6.0, 2.7),
        ("okoume plywood", 10.0, 4.5),
        ("okoume plywood", 12.0, 5.4),
        ("aluminium 6061-T6", 8.0, 21.6),
        ("aluminium 5083", 8.0, 21.3),
        ("stainless steel 304", 6.0, 48.0),
        ("steel", 10.0, 78.5),
    ] {
        let mass = find(name).expect(name).mass(1e6, thickness);
        assert!(
            (mass - expected).abs() <= 0.05 + 1e-9,
            "{name}, {thickness} mm: {mass} kg/m² for {expected}"
        );
    }
}

#[test]
fn the_strength_of_aluminium_is_not_taken_for_granted() {
    let bare = find("aluminium").expect("aluminium");
    assert_eq!(bare.yield_strength, None, "no strength without an alloy");
    let alloy = find("6061")
        .expect("6061")
        .yield_strength
        .expect("a strength");
    assert_eq!(alloy.kind, StrengthKind::Minimum, "a minimum");
    assert!(!alloy.figure.mark.is_authority(), "and not looked up");
}
