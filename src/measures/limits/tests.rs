use super::*;
use crate::design::Design;
use crate::design::Override;
use crate::design::Source;
use crate::trade::ToleranceClass;

fn load(text: &str, set: &[Override]) -> Design {
    Design::load(&Source::new("general.toml", text), set).expect(text)
}

/// A plate as wide as is said, with one corner rounded, held to a class.
fn plate(class: &str, wide: f64, radius: f64) -> Design {
    let high = 2.0 * radius + 1.0;
    let text = format!(
        r#"
general_tolerance = "ISO 2768-{class}"
[dims]
wide = {{ value = {wide}, measure = {{ distance = {{ from = "c", to = "d" }} }} }}
round_r = {{ value = {radius}, measure = {{ radius = "a" }} }}
[part.plate]
outline = [
  {{ corner = "a", at = [0, 0], fillet = "round_r" }},
  {{ corner = "b", at = ["wide", 0] }},
  {{ corner = "c", at = ["wide", {high}] }},
  {{ corner = "d", at = [0, {high}] }},
]
"#
    );
    load(&text, &[])
}

fn permitted(design: &Design, name: &str) -> Option<[f64; 2]> {
    let limits = limits(design);
    assert!(limits.findings.is_empty(), "{:?}", limits.findings);
    let limit = limits.limits.into_iter().find(|limit| limit.name == name)?;
    Some([limit.permitted.min?, limit.permitted.max?])
}

#[test]
fn lengths_without_limits_are_held_to_the_class() {
    // ISO 2768-1:1989, Table 1, the last size of a range and one in the next
    for (class, wide, expected) in [
        ("f", 6.0, 0.05),
        ("f", 30.0, 0.1),
        ("m", 6.0, 0.1),
        ("m", 30.0, 0.2),
        ("m", 30.5, 0.3),
        ("m", 120.0, 0.3),
        ("m", 305.0, 0.5),
        ("m", 760.0, 0.8),
        ("m", 1500.0, 1.2),
        ("c", 5.0, 0.3),
        ("c", 305.0, 1.2),
        ("v", 305.0, 2.5),
        ("v", 2500.0, 8.0),
    ] {
        let design = plate(class, wide, 1.0);
        let found = permitted(&design, "wide").expect(class);
        assert!(
            (found[0] - (wide - expected)).abs() < 1e-9
                && (found[1] - (wide + expected)).abs() < 1e-9,
            "{wide} mm of class {class}: {found:?} for ±{expected}"
        );
    }
    for (class, wide) in [("f", 2500.0), ("m", 4500.0), ("v", 2.5)] {
        let design = plate(class, wide, 1.0);
        assert_eq!(permitted(&design, "wide"), None, "{wide} of class {class}");
    }
}

#[test]
fn roundings_have_their_own_table() {
    // ISO 2768-1:1989, Table 2
    for (class, radius, expected) in [
        ("m", 3.0, 0.2),
        ("m", 6.0, 0.5),
        ("m", 60.0, 1.0),
        ("c", 60.0, 2.0),
    ] {
        let design = plate(class, 305.0, radius);
        let found = permitted(&design, "round_r").expect(class);
        assert!(
            (found[1] - radius - expected).abs() < 1e-9,
            "R{radius} of class {class}: {found:?} for ±{expected}"
        );
    }
}

const MIXED: &str = r#"
general_tolerance = "ISO 2768-m"
[dims]
wide  = { value = 305, note = "over all", measure = { distance = { from = "a", to = "b" } } }
high  = { value = 100, tol = 2, measure = { distance = { from = "b", to = "c" } } }
far   = { value = 305, reference = { of = "wide" }, measure = { distance = { from = "c", to = "d" } } }
boat  = { value = 90, origin = "measured", measure = { distance = { from = "a", to = "d" } } }
lean  = { value = 90, unit = "deg", measure = { angle = { between = ["low", "side"] } } }
plain = 40
holes = { value = 4, unit = "none" }
[plate.ply]
material = "okoume plywood"
thickness = 12
[part.plate]
plate = "ply"
outline = [
  { corner = "a", at = [0, 0], edge = { name = "low" } },
  { corner = "b", at = ["wide", 0], edge = { name = "side" } },
  { corner = "c", at = ["wide", "high"] },
  { corner = "d", at = [0, "boat"] },
]
"#;

#[test]
fn what_says_something_of_its_own_is_left_alone() {
    let design = load(
        &MIXED
            .replace("\"boat\"]", "\"high\"]")
            .replace("value = 90, origin", "value = 100, origin"),
        &[],
    );
    let general = |name: &str| design.dimensions.get(name).expect(name).general;
    for name in ["high", "far", "boat", "lean", "holes"] {
        assert_eq!(general(name), None, "{name}");
    }
    let wide = general("wide").expect("held");
    assert_eq!(
        (wide.class, wide.deviation),
        (ToleranceClass::Medium, 0.5),
        "305 ±0.5"
    );
    let plain = design.dimensions.get("plain").expect("there");
    assert!(
        plain.general.is_some() && !plain.permitted.is_limited(),
        "told, but nobody takes it on the part"
    );
    assert_eq!(permitted(&design, "high"), Some([98.0, 102.0]), "its own");
    let limit = limits(&design).limits.swap_remove(0);
    assert_eq!(
        limit.note.as_deref(),
        Some("over all; ISO 2768-m"),
        "the source stands beside the limit"
    );
    let gauged = design.resolved.plates[0].gauged.as_deref().expect("ply");
    assert_eq!(gauged.general, None, "a plate is as the mill delivers it");
    assert!(!design.has_errors(), "{:?}", design.findings());
}

#[test]
fn a_slip_past_the_general_tolerance_is_told() {
    let slipped = |to: f64| {
        let text = MIXED
            .replace("\"boat\"]", "\"high\"]")
            .replace("value = 90, origin", "value = 100, origin");
        let set = [Override::exact("wide", to)];
        let design = load(&text, &set);
        let findings = design.findings();
        findings
            .iter()
            .map(|found| found.kind.name())
            .collect::<Vec<_>>()
    };
    assert_eq!(slipped(305.4), ["reference-disagrees"], "within ±0.5");
    assert_eq!(
        slipped(305.6),
        ["outside-limits", "reference-disagrees"],
        "305.6 for 305 ±0.5"
    );
}
