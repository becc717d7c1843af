//! The nearest of the maker's tools, and what becomes of the limits with it.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on fails")]

use kerfwise::design::Design;
use kerfwise::design::Source;
use kerfwise::measures::tools;
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

#[test]
fn limits_are_looked_at_again_where_the_size_is_free() {
    let choices = chosen("washer = [19.4]\ndrill = [12]\n");
    let kept = Then::Kept {
        dimension: "corner_r".to_owned(),
    };
    assert_eq!(of(&choices, "a").then, kept, "9.7 is over 9");
    assert_eq!(
        of(&choices, "c").then,
        Then::Compared,
        "14 is written as a number"
    );
    // gap is to the rim: with 12 mm the hole grows both ways, and its centre moves up with it
    let kept = Then::Kept {
        dimension: "hole".to_owned(),
    };
    assert_eq!(
        of(&choices, "hole").then,
        kept,
        "its rim stays where it was"
    );

    let choices = chosen("washer = [17]\n");
    let broken = Then::Broken {
        dimension: "corner_r".to_owned(),
        limits: vec!["corner_r".to_owned()],
    };
    assert_eq!(of(&choices, "a").then, broken, "8.5 is under 9");
    assert_eq!(of(&choices, "hole").tool, None, "nothing to make it with");
    assert_eq!(of(&choices, "hole").then, Then::Nothing, "nothing to say");

    let choices = chosen("washer = [190]\n");
    assert!(
        matches!(&of(&choices, "a").then, Then::NotBuilt { why, .. } if !why.is_empty()),
        "a rounding of 95 mm has no room"
    );
    assert!(chosen("").is_empty(), "no tools, no table");
}

#[test]
fn tools_are_no_part_of_the_design() {
    let load = |text: String| Design::load(&Source::new("plate.toml", text), &[]).unwrap();
    let plain = load(PLATE.to_owned());
    let with = load(format!("{PLATE}\n[tools]\ndrill = [8]\n"));
    assert_eq!(plain.fingerprint, with.fingerprint, "papers stay valid");
    assert_eq!(with.tools.len(), 1, "but they are read");
}
