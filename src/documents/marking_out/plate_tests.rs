//! Tests of what the sheet says of the plate around the part, of its corners and of its overall sizes.

use super::tests::table;
use super::tests::words;
use super::*;
use crate::documents::samples;
use crate::geometry::Point;
use crate::sheet::Item;

const MM: LengthUnit = LengthUnit::Millimetre;

/// The only part of a design, by its text.
fn of_text(text: &str) -> Part {
    let source = crate::design::Source::new("plate.toml", text);
    match crate::design::Design::load(&source, &[]) {
        Ok(design) => design.resolved.parts[0].clone(),
        Err(errors) => panic!("{}", errors[0].to_text(&source)),
    }
}

/// A knee that leans back over its origin by 60 mm, and hangs 30 mm below its datum edge at the far end.
const KNEE: &str = r#"
[part.knee]
datum = { along = "foot", from = "heel" }
outline = [
  { corner = "heel", at = [0, 0], edge = { name = "foot" } },
  { corner = "toe", at = [160, 0] },
  { corner = "hook", at = [200, -30] },
  { corner = "hook top", at = [200, 50] },
  { corner = "throat", at = [20, 50] },
  { corner = "head inner", at = [-20, 170] },
  { corner = "head outer", at = [-60, 150] },
]
"#;

#[test]
fn what_reaches_beyond_the_datum_lines_is_said_before_the_first_line() {
    let part = of_text(KNEE);
    for angle in [0.0, 0.4, 2.0] {
        let part = samples::turned(&part, angle);
        let sheet = sheet(&part, &samples::stamp(MM)).expect("a sheet");
        let first = sheet.blocks.iter().find_map(|block| match block {
            Block::Caution(words) => Some(words.as_str()),
            Block::Figure(_) | Block::Steps(_) | Block::Table(_) => Some(""),
            _ => None,
        });
        let first = first.unwrap_or_default();
        for words in [
            "reaches 60 mm back beyond the origin",
            "30 mm beyond the datum edge",
            "200 mm forward and 60 mm back",
            "170 mm in and 30 mm the other way",
        ] {
            assert!(first.contains(words), "“{words}” in “{first}”");
        }
        let Some(Block::Figure(figure)) = sheet
            .blocks
            .iter()
            .find(|block| matches!(block, Block::Figure(_)))
        else {
            panic!("no figure");
        };
        let words: Vec<&str> = figure.picture.items.iter().filter_map(text_of).collect();
        for size in ["60 mm", "30 mm"] {
            assert!(words.contains(&size), "{size} in {words:?}");
        }
        let steps = sheet.blocks.iter().find_map(|block| match block {
            Block::Steps(steps) => Some(steps.clone()),
            _ => None,
        });
        let steps = steps.expect("an order of work");
        assert!(
            steps[0].contains("draw the datum line 30 mm or more in"),
            "{steps:?}"
        );
        assert!(
            steps.iter().any(|step| step.contains("from -60 to 200 mm")),
            "{steps:?}"
        );
    }
}

fn text_of(item: &Item) -> Option<&str> {
    match item {
        Item::Text(text) => Some(&text.content),
        _ => None,
    }
}

/// A strip that is left on takes plate too.
#[test]
fn a_strip_left_on_reaches_beyond_the_origin() {
    let part = of_text(
        r#"
[part.plate]
datum = { along = "foot", from = "a" }
outline = [
  { corner = "a", at = [0, 0], edge = { name = "foot" } },
  { corner = "b", at = [100, 0] },
  { corner = "c", at = [100, 80] },
  { corner = "d", at = [0, 80], edge = { name = "left", as = "leave on", strip = 12 } },
]
"#,
    );
    let reach = Reach::of(&part);
    assert!(
        (reach.back().expect("the strip") - 12.0).abs() < 1e-9,
        "{reach:?}"
    );
    assert_eq!(reach.beyond(), None, "nothing below");
    assert_eq!(
        Reach::of(&samples::belt_guard()).words(MM),
        None,
        "it lies within its datum lines"
    );
}

/// The arc at a corner and its sharp corner have one number, however the opening lies.
#[test]
fn corners_of_an_opening_have_one_number() {
    for angle in [0, 30, 200] {
        let part = of_text(&format!(
            r#"
[part.plate]
outline = [
  {{ corner = "a", at = [0, 0] }},
  {{ corner = "b", at = [300, 0] }},
  {{ corner = "c", at = [300, 200] }},
  {{ corner = "d", at = [0, 200] }},
]
[[part.plate.opening]]
name = "hatch"
rectangle = {{ at = [150, 100], width = 100, height = 60, radius = 10, angle = "{angle} deg" }}
"#
        ));
        let points = Points::of(&part, MM);
        let at = |what: &str| {
            let found = points
                .list
                .iter()
                .find(|point| point.what.iter().any(|name| name == what));
            found.unwrap_or_else(|| panic!("no {what}: {points:?}")).at
        };
        for corner in 1..=4 {
            let sharp = at(&format!("hatch, sharp corner {corner}"));
            let centre = at(&format!("hatch, corner {corner}, centre of R 10"));
            // 10 along each side
            let off = number::length(centre - sharp);
            assert!((off - 200.0_f64.sqrt()).abs() < 1e-9, "{corner}: {off}");
        }
        let first = at("hatch, sharp corner 1") - Point::new(150.0, 100.0);
        let lower_left = number::rotated(
            crate::geometry::Vec2::new(-50.0, -30.0),
            f64::from(angle).to_radians(),
        );
        assert!(number::length(first - lower_left) < 1e-9, "{first:?}");
    }
}

#[test]
fn diagonals_say_where_they_end() {
    let part = of_text(KNEE);
    let sheet = sheet(&part, &samples::stamp(MM)).expect("a sheet");
    let checks = table(&sheet, "Check before cutting");
    let between: Vec<&str> = checks.rows.iter().map(|row| words(&row[1])).collect();
    let points = table(&sheet, "Points, by running");
    let hook = points
        .rows
        .iter()
        .position(|row| words(&row[1]).contains("hook;"));
    let hook = hook.expect("the hook is a corner of the rectangle") + 1;
    assert_eq!(between[0], "-60 and 200", "along");
    assert_eq!(between[1], "-30 and 170", "square to it");
    assert_eq!(between[2], "(-60, -30) and (200, 170)", "rising");
    assert_eq!(
        between[3],
        format!("(-60, 170) and point {hook}"),
        "falling"
    );
}
