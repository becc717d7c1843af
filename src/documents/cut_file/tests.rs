//! Tests of both kinds of cut file.

use super::*;
use crate::documents::samples;
use crate::sheet::Item;
use crate::sheet::LineType;

fn layers(picture: &Picture) -> Vec<Layer> {
    picture
        .items
        .iter()
        .map(|item| match item {
            Item::Stroke(stroke) => stroke.layer,
            Item::Fill(fill) => fill.layer,
            Item::Text(text) => text.layer,
        })
        .collect()
}

#[test]
fn the_outline_is_whole_and_drilled_holes_are_only_spots() {
    let part = samples::leeboard();
    let stamp = samples::stamp(LengthUnit::Millimetre);
    let picture = CutFile::nominal(&part, &stamp).picture();
    let names: Vec<&str> = layers(&picture).iter().map(|layer| layer.name()).collect();
    assert_eq!(
        names,
        ["outside", "drill", "inside", "inside", "inside", "mark"],
        "layers of the blade"
    );
    let mut circles = 0;
    for item in &picture.items {
        let Item::Stroke(stroke) = item else {
            panic!("a cut file has strokes only: {item:?}")
        };
        assert_eq!(
            stroke.pen.line_type,
            LineType::Continuous,
            "a dash may get cut as a dash"
        );
        match &stroke.shape {
            Shape::Contour(contour) => {
                assert_eq!(contour, part.region.outer(), "the outline is unchanged");
            }
            Shape::Circle { radius, .. } => {
                assert_eq!(*radius, 45.0, "a lightening hole");
                circles += 1;
            }
            Shape::Spot(at) => assert_eq!((at.x, at.y), (90.0, 884.0), "the pivot"),
            Shape::Path(path) => assert_eq!(path, &part.scribes[0].paths[0], "the taper"),
        }
    }
    assert_eq!(circles, 3, "lightening holes stay circles");
}

#[test]
fn file_names_are_plain() {
    for (name, stem) in [
        ("leeboard", "leeboard-nominal-mm-"),
        ("belt guard", "belt-guard-nominal-mm-"),
        ("../x / y", "x-y-nominal-mm-"),
        ("..", "part-nominal-mm-"),
        ("Gurtführung_2", "Gurtführung_2-nominal-mm-"),
    ] {
        let part = Part {
            name: name.to_owned(),
            ..samples::leeboard()
        };
        let stamp = samples::stamp(LengthUnit::Millimetre);
        let whole = CutFile::nominal(&part, &stamp).file_stem();
        let facts = "301x974x8-aluminium-5083-h116-1-off";
        assert_eq!(whole, format!("{stem}{facts}"), "{name}");
    }
}

#[test]
fn comments_carry_what_a_shop_must_know() {
    let stamp = samples::stamp(LengthUnit::Inch);
    let text = CutFile::nominal(&samples::bracket(), &stamp)
        .comments()
        .join("\n");
    for part in [
        "nominal finished size",
        "no kerf allowance",
        "the shop compensates",
        "1 unit = 1 in",
        "4.000 × 5.000 in",
        "mirror image of “bracket port”",
        "Ø 0.25",
        "3f9a1c77e0b2d4586a90c1de",
        env!("CARGO_PKG_VERSION"),
    ] {
        assert!(text.contains(part), "{part:?} is missing in:\n{text}");
    }
}

/// Two files of one design may lie side by side, one of them with another value: both say which is which.
#[test]
fn papers_say_what_is_not_as_written() {
    let text = include_str!("../../../fixtures/parts/leeboard.toml");
    let source = crate::design::Source::new("leeboard.toml", text);
    let set = [crate::design::Override::exact("foot", 306.0)];
    for (set, expected) in [(&set[..], true), (&[], false)] {
        let design = crate::design::Design::load(&source, set).expect("the demo");
        let (stamp, part) = (Stamp::of(&design), &design.resolved.parts[0]);
        let file = CutFile::nominal(part, &stamp);
        let sheet = file.order_sheet("blade.dxf").expect("a sheet");
        let says = sheet.blocks.iter().any(|block| match block {
            crate::sheet::Block::Caution(words) => {
                words.contains("foot = 306 mm (the file says 305 mm)")
            }
            _ => false,
        });
        assert_eq!(says, expected, "the order sheet");
        let comments = file.comments();
        let says = comments
            .iter()
            .any(|line| line.contains("with foot = 306 mm"));
        assert_eq!(says, expected, "the file: {comments:?}");
        let drawn = crate::documents::marking_out::sheet(part, &stamp).expect("a sheet");
        assert_eq!(
            drawn.footer.contains("foot = 306"),
            expected,
            "{}",
            drawn.footer
        );
    }
}
