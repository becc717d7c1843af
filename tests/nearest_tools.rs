//! The nearest of the maker's tools, and what becomes of the limits with it.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on fails")]

use kerfwise::design::Design;
use kerfwise::design::Source;
use kerfwise::measures::tools;
use kerfwise::measures::tools::Changed;
use kerfwise::measures::tools::Choice;
use kerfwise::measures::tools::Rounding;
use kerfwise::measures::tools::Then;

/// A plate with a corner of each kind, two holes and a slot; the tools follow.
const PLATE: &str = r#"
units = "mm"

[dims]
wide     = { value = 100, min = 96, measure = { distance = { from = "a", to = "b" } } }
corner_r = { value = 10, min = 9, measure = { radius = "a" } }
free_r   = 14
hole     = 8.5
gap      = { value = 20, min = 19, measure = { edge_distance = { of = "hole", to = "low" } } }

[part.plate]
outline = [
  { corner = "a", at = [0, 0], fillet = "corner_r", edge = { name = "low" } },
  { corner = "b", at = ["wide", 0], fillet = "free_r" },
  { corner = "c", at = ["wide", 60], fillet = 14 },
  { corner = "d", at = [50, 60] },
  { corner = "e", at = [50, 40], fillet = 5 },
  { corner = "f", at = [0, 40] },
]

[[part.plate.opening]]
name   = "hole"
circle = { at = [30, "gap + hole/2"], diameter = "hole" }

[[part.plate.opening]]
name = "slot"
slot = { at = [75, 25], length = 30, width = "1/4 in" }
"#;

fn chosen(tools: &str) -> Vec<Choice> {
    let text = format!("{PLATE}\n[tools]\n{tools}\n");
    let design = Design::load(&Source::new("plate.toml", text), &[]).unwrap();
    let parts: Vec<_> = design.resolved.parts.iter().collect();
    tools::nearest(&design, &parts)
}

fn of<'a>(choices: &'a [Choice], feature: &str) -> &'a Choice {
    choices
        .iter()
        .find(|choice| choice.features.iter().any(|name| name == feature))
        .unwrap()
}

#[test]
fn every_radius_gets_the_nearest_tool_of_the_right_kind() {
    let choices = chosen(
        r#"
drill        = [8, 9, { size = "1/4 in", measured = 6.3 }]
bit          = [12]
washer       = [{ size = 20, measured = 19.4 }, 30]
radius_gauge = [14]
"#,
    );
    for (feature, rounding, name, error) in [
        // 19.4 across is a radius of 9.7
        (
            "a",
            Rounding::Outside,
            "washer 20 mm (measures 19.4 mm)",
            -0.3,
        ),
        ("b", Rounding::Outside, "radius gauge 14 mm", 0.0),
        ("c", Rounding::Outside, "radius gauge 14 mm", 0.0),
        // a gauge does not cut an inside corner: 12 across is a radius of 6, 9 of 4.5
        ("e", Rounding::Inside, "drill 9 mm", -0.5),
        // the first of equals: 8 and 9 are as far from 8.5
        ("hole", Rounding::Hole, "drill 8 mm", -0.25),
        (
            "slot",
            Rounding::Hole,
            "drill 1/4 in (measures 6.3 mm)",
            -0.025,
        ),
    ] {
        let choice = of(&choices, feature);
        assert_eq!(choice.rounding, rounding, "{feature}");
        assert_eq!(choice.tool.as_ref().unwrap().name, name, "{feature}");
        let found = choice.error().unwrap();
        assert!(
            (found - error).abs() < 1e-9,
            "{feature}: {found} for {error}"
        );
    }
}

/// What a choice says, with the value of the dimension rounded to a micrometre.
fn then(choice: &Choice) -> (&'static str, Option<(String, i64)>, Vec<String>) {
    let changed = |changed: &Changed| match changed {
        #[expect(clippy::cast_possible_truncation, reason = "metres at most")]
        Changed::Dimension(name, value) => Some((name.clone(), (value * 1e3).round() as i64)),
        Changed::Features => None,
    };
    match &choice.then {
        Then::Nothing => ("nothing", None, Vec::new()),
        Then::Kept(how) => ("kept", changed(how), Vec::new()),
        Then::Broken(how, limits) => ("broken", changed(how), limits.clone()),
        Then::NotBuilt(how, why) => ("not built", changed(how), vec![why.clone()]),
    }
}

fn at(name: &str, micrometres: i64) -> (String, i64) {
    (name.to_owned(), micrometres)
}

#[test]
fn limits_are_looked_at_again_where_the_size_is_free() {
    let choices = chosen("washer = [19.4]\ndrill = [12]\n");
    let said = then(of(&choices, "a"));
    assert_eq!(
        said,
        ("kept", Some(at("corner_r", 9700)), vec![]),
        "9.7 is over 9"
    );
    let said = then(of(&choices, "c"));
    assert_eq!(said, ("kept", None, vec![]), "14 is written as a number");
    // gap is to the rim: with 12 mm the hole grows both ways, and its centre moves up with it
    let said = then(of(&choices, "hole"));
    assert_eq!(
        said,
        ("kept", Some(at("hole", 12_000)), vec![]),
        "its rim stays where it was"
    );

    let choices = chosen("washer = [17]\n");
    let said = then(of(&choices, "a"));
    let limits = vec!["corner_r".to_owned()];
    assert_eq!(
        said,
        ("broken", Some(at("corner_r", 8500)), limits),
        "8.5 is under 9"
    );
    assert_eq!(of(&choices, "hole").tool, None, "nothing to make it with");
    assert_eq!(of(&choices, "hole").then, Then::Nothing, "nothing to say");

    let choices = chosen("washer = [190]\n");
    let (said, how, why) = then(of(&choices, "a"));
    assert_eq!(
        (said, how),
        ("not built", Some(at("corner_r", 95_000))),
        "no room"
    );
    assert!(!why[0].is_empty(), "says why");
    assert!(chosen("").is_empty(), "no tools, no table");
}

/// A strip whose holes get their sizes by expressions, from numbers, from a screw, and from what is no
/// choice; a peg goes into one of them.
const STRIP: &str = r#"
units = "mm"

[dims]
across   = 20
half     = "across / 2"
rim      = { value = 10, min = 9.6, measure = { edge_distance = { of = "one", to = "low" } } }
squared  = 4
bolt     = { value = 8, origin = "measured", with = "calliper" }
peg      = 6
play     = 0.2
slot_rim = { value = 15, min = 14.9, measure = { edge_distance = { of = "slot", to = "low" } } }

[part.strip]
outline = [
  { corner = "a", at = [0, 0], edge = { name = "low" } },
  { corner = "b", at = [300, 0], fillet = "sqrt(squared * 4 mm)" },
  { corner = "c", at = [300, 40] },
  { corner = "d", at = [0, 40] },
]

[[part.strip.opening]]
name   = "one"
circle = { at = [30, 20], radius = "half" }

[[part.strip.opening]]
name   = "bolts"
circle = { diameter = "bolt + 1" }
places = [[80, 20], [110, 20]]

[[part.strip.opening]]
name   = "peg hole"
circle = { at = [150, 20], diameter = "peg + play" }

[[part.strip.opening]]
name = "screw"
hole = { at = [190, 20], for = "M5", purpose = "clearance" }

[[part.strip.opening]]
name = "slot"
slot = { at = [240, 20], length = 30, width = 10 }

[[fit]]
what  = "peg in its hole"
inner = { size = "peg", spread = 0 }
outer = { part = "strip", measure = { diameter = "peg hole" } }
max   = 0.4
"#;

#[test]
fn a_size_is_traced_through_its_expression() {
    let of_strip = |tools: &str| {
        let text = format!("{STRIP}\n[tools]\n{tools}\n");
        let design = Design::load(&Source::new("strip.toml", text), &[]).unwrap();
        let parts: Vec<_> = design.resolved.parts.iter().collect();
        tools::nearest(&design, &parts)
    };
    // the hole of 20 mm at half the height of 40: its rim is 10 from the edge, with 21 mm it is 9.5
    let choices = of_strip("drill = [21, 9.5, 6.5, 5, 10.4]\nwasher = [12]\n");
    for (feature, expected) in [
        // radius = half = across / 2: across has to be 21
        (
            "one",
            ("broken", Some(at("across", 21_000)), vec!["rim".to_owned()]),
        ),
        // √(4·squared) = 6: squared is 9, found although the radius bends with it
        ("b", ("kept", Some(at("squared", 9000)), vec![])),
        // what was measured is not free: the holes alone are made with the drill
        ("bolts 1", ("kept", None, vec![])),
        // from two dimensions: the hole alone; 6.5 is 0.5 wider than the peg
        (
            "peg hole",
            ("broken", None, vec!["peg in its hole".to_owned()]),
        ),
        // the slot of 10 at half the height, 10.4 wide: 20 − 5.2 = 14.8 from the edge
        ("slot", ("broken", None, vec!["slot_rim".to_owned()])),
        ("screw", ("kept", None, vec![])),
    ] {
        assert_eq!(then(of(&choices, feature)), expected, "{feature}");
    }
    let bolts = of(&choices, "bolts 2");
    assert_eq!(bolts.features, ["bolts 1", "bolts 2"], "one drill for both");
    let choices = of_strip("drill = [20.5, 6.3]\n");
    let said = then(of(&choices, "one"));
    assert_eq!(
        said,
        ("kept", Some(at("across", 20_500)), vec![]),
        "9.75 left"
    );
    let said = then(of(&choices, "peg hole"));
    assert_eq!(said, ("kept", None, vec![]), "0.3 of play");
}

#[test]
fn tools_are_no_part_of_the_design() {
    let load = |text: String| Design::load(&Source::new("plate.toml", text), &[]).unwrap();
    let plain = load(PLATE.to_owned());
    let with = load(format!("{PLATE}\n[tools]\ndrill = [8]\n"));
    assert_eq!(plain.fingerprint, with.fingerprint, "papers stay valid");
    assert_eq!(with.tools.len(), 1, "but they are read");
}
