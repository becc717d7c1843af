use super::*;
use crate::design::Design;
use crate::design::Source;
use crate::documents::samples;
use crate::geometry::LengthUnit;
use crate::geometry::nearest;
use crate::shop::tool_path::Side;

/// Two parts of one plate, one of them wanted twice, and one of another.
const DESIGN: &str = r#"
[plate.sheet]
material = "aluminium 5083"
thickness = 4

[plate.board]
material = "okoume plywood"
thickness = 9

[part.cheek]
plate = "sheet"
quantity = 2
outline = [
  { corner = "a", at = [0, 0], fillet = 8 },
  { corner = "b", at = [120, 0], fillet = 8 },
  { corner = "c", at = [90, 70] },
  { corner = "d", at = [0, 70] },
]
[[part.cheek.opening]]
name = "bolt"
circle = { at = [30, 35], diameter = 20 }
[[part.cheek.opening]]
name = "pin"
circle = { at = [80, 20], diameter = 3 }

[part.strap]
plate = "sheet"
outline = [
  { corner = "a", at = [500, 500] },
  { corner = "b", at = [740, 500] },
  { corner = "c", at = [740, 540] },
  { corner = "d", at = [500, 540] },
]
[[part.strap.opening]]
name = "hole"
circle = { diameter = 12 }
places = [[520, 520], [720, 520]]

[part.pad]
plate = "board"
outline = [
  { corner = "a", at = [0, 0] },
  { corner = "b", at = [50, 0] },
  { corner = "c", at = [50, 50] },
]
"#;

fn design() -> Design {
    Design::load(&Source::new("parts.toml", DESIGN), &[]).expect("a design")
}

fn options() -> TogetherOptions<'static> {
    TogetherOptions {
        face: Face::AsDrawn,
        with_words: false,
        sheet: None,
        gap: None,
        cutting: None,
    }
}

#[test]
fn parts_of_one_plate_lie_together_as_often_as_they_are_wanted() {
    let design = design();
    let parts: Vec<&Part> = design.resolved.parts.iter().collect();
    let groups = by_plate(&parts);
    let names: Vec<Vec<&str>> = groups
        .iter()
        .map(|group| group.iter().map(|part| part.name.as_str()).collect())
        .collect();
    assert_eq!(names, [vec!["cheek", "strap"], vec!["pad"]], "by plate");
    let stamp = samples::stamp(LengthUnit::Millimetre);
    let together = Together::new(&groups[0], &stamp, &options()).expect("placed");
    let labels: Vec<&str> = together
        .placed
        .iter()
        .map(|own| own.label.as_str())
        .collect();
    assert_eq!(labels, ["cheek 1", "cheek 2", "strap"], "pieces");
    assert!(
        together
            .file_stem()
            .starts_with("cheek-strap-together-nominal-mm-"),
        "{}",
        together.file_stem()
    );
    assert!(
        together.file_stem().contains("3-off"),
        "{}",
        together.file_stem()
    );
    let regions: Vec<Region> = together
        .placed
        .iter()
        .map(|own| own.motion.region(&own.part.region))
        .collect();
    for (index, one) in regions.iter().enumerate() {
        for other in &regions[index + 1..] {
            let apart = nearest::between_regions(one, other).distance;
            assert!(apart >= 10.0 - 1e-9, "{apart}");
        }
    }
    let sheet = together.order_sheet("sheet.svg").expect("an order sheet");
    let text = crate::formats::text::write(&sheet, 100);
    for words in [
        "2 × cheek, strap",
        "no nesting program",
        "Count: 3 pieces",
        "goes with the file sheet.svg and",
    ] {
        let said = text.split_whitespace().collect::<Vec<_>>().join(" ");
        assert!(said.contains(words), "“{words}” in {text}");
    }
}

#[test]
fn a_tool_path_of_several_parts_keeps_clear_and_cuts_openings_first() {
    let design = design();
    let parts: Vec<&Part> = design.resolved.parts.iter().take(2).collect();
    let stamp = samples::stamp(LengthUnit::Millimetre);
    for (face, gap) in [
        (Face::AsDrawn, None),
        (Face::AsDrawn, Some(3.0)),
        (Face::Mirrored, Some(6.0)),
    ] {
        let setting = Setting {
            smallest_hole: 5.0,
            ..Setting::plain(1.2)
        };
        let wanted = TogetherOptions {
            face,
            gap,
            cutting: Some((setting.clone(), "own-kerf", "a saw")),
            ..options()
        };
        let together = Together::new(&parts, &stamp, &wanted).expect("a path");
        let cutting = together.cutting.as_ref().expect("a tool path");
        assert_eq!(
            cutting.path.cuts.len(),
            7,
            "two cheeks of 2 cuts, a strap of 3"
        );
        assert_eq!(cutting.path.drilled.len(), 2, "the pins are drilled");
        for cut in &cutting.path.cuts {
            for own in &together.placed {
                let region = own.motion.region(&own.part.region);
                let edges = region
                    .contours()
                    .flat_map(crate::geometry::Contour::segments);
                for edge in edges {
                    for segment in cut.segments() {
                        let away = nearest::between(segment, edge).distance;
                        // the pins that are drilled are no edges of the cut
                        let drilled = edge.length() < 10.0;
                        assert!(drilled || away >= 0.6 - 3e-5, "{}: {away}", cut.what);
                    }
                }
            }
        }
        for own in &together.placed {
            let mine = |what: &str| what.ends_with(&format!(" of {}", own.label));
            let of_own: Vec<bool> = cutting
                .path
                .cuts
                .iter()
                .filter(|cut| mine(&cut.what))
                .map(|cut| cut.side == Side::Outside)
                .collect();
            assert!(of_own.is_sorted(), "openings first: {of_own:?}");
            assert!(of_own.contains(&true), "{} has an outside", own.label);
        }
        // the part stays on the left of travel, whichever face is shown
        let outside = cutting
            .path
            .cuts
            .iter()
            .find(|cut| cut.side == Side::Outside);
        let along = outside.map(|cut| cut.along.clone()).unwrap_or_default();
        let area: f64 = along
            .iter()
            .map(|piece| {
                let (a, b) = (piece.segment.start(), piece.segment.end());
                a.to_vec2().cross(b.to_vec2()) / 2.0
            })
            .sum();
        assert!(area > 0.0, "anticlockwise: {area}");
    }
}

#[test]
fn what_does_not_go_is_refused_with_a_way_out() {
    let design = design();
    let parts: Vec<&Part> = design.resolved.parts.iter().take(2).collect();
    let stamp = samples::stamp(LengthUnit::Millimetre);
    let small = TogetherOptions {
        sheet: Some(SheetSize {
            width: 300.0,
            height: 120.0,
        }),
        ..options()
    };
    let refused = Together::new(&parts, &stamp, &small).expect_err("too small");
    assert_eq!(refused.name(), "does-not-fit", "{refused}");
    let board = samples::leeboard();
    let refused = Together::new(&[&board], &stamp, &options()).expect_err("a plate edge");
    assert_eq!(refused.name(), "plate-edge", "{refused}");
    let tight = TogetherOptions {
        gap: Some(0.5),
        cutting: Some((Setting::plain(1.2), "own-kerf", "a saw")),
        ..options()
    };
    let refused = Together::new(&parts, &stamp, &tight).expect_err("less than the cut");
    assert_eq!(refused.name(), "tool-path", "{refused}");
    let negative = TogetherOptions {
        gap: Some(-1.0),
        ..options()
    };
    let refused = Together::new(&parts, &stamp, &negative).expect_err("no gap");
    assert_eq!(refused.name(), "bad-gap", "{refused}");
}
