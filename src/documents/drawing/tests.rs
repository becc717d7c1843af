use super::*;
use crate::documents::lettering;
use crate::documents::samples;
use crate::geometry::LengthUnit;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::number;
use crate::sheet::Item;
use crate::sheet::Layer;
use crate::sheet::LineType;
use crate::sheet::Shape;
use crate::sheet::Text;

fn drawn(part: &Part, stamp: &Stamp, sheet: SheetSize) -> Drawing {
    draw(part, stamp, sheet).unwrap_or_else(|error| panic!("{}: {error}", part.name))
}

fn texts(picture: &Picture) -> Vec<&Text> {
    picture
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Text(text) => Some(text),
            _ => None,
        })
        .collect()
}

#[test]
fn no_words_lie_on_other_words_or_off_the_sheet() {
    for (part, unit) in samples::all() {
        for sheet in [SheetSize::A4, SheetSize::A3.turned(), SheetSize::LETTER] {
            let held = Stamp {
                general: Some(crate::trade::ToleranceClass::Coarse),
                ..samples::stamp(unit)
            };
            for stamp in [samples::stamp(unit), samples::draft_stamp(), held] {
                let drawing = drawn(&part, &stamp, sheet);
                let texts = texts(&drawing.picture);
                let says_class = texts.iter().any(|text| text.content == "ISO 2768-c");
                assert_eq!(says_class, stamp.general.is_some(), "in the title block");
                let rooms: Vec<Rect> = texts.iter().map(|text| lettering::room(text)).collect();
                let page = Rect::new(
                    8.0,
                    8.0,
                    drawing.sheet.width - 8.0,
                    drawing.sheet.height - 8.0,
                );
                for (index, room) in rooms.iter().enumerate() {
                    assert_eq!(
                        room.intersect(page),
                        *room,
                        "{}: {:?} is off the sheet",
                        part.name,
                        texts[index].content
                    );
                    for (other, second) in rooms.iter().enumerate().skip(index + 1) {
                        assert!(
                            !lettering::overlap(*room, *second),
                            "{} {}: {:?} lies on {:?}",
                            part.name,
                            drawing.scale,
                            texts[index].content,
                            texts[other].content
                        );
                    }
                }
            }
        }
    }
}

/// Straight lines drawn in the layers of dimensions and centre lines.
fn ruled(picture: &Picture) -> Vec<(Point, Point)> {
    let mut lines = Vec::new();
    for item in &picture.items {
        let Item::Stroke(stroke) = item else { continue };
        if stroke.layer == Layer::Guides {
            continue;
        }
        if let Shape::Path(path) = &stroke.shape {
            lines.extend(path.segments().map(|one| (one.start(), one.end())));
        }
    }
    lines
}

#[test]
fn no_line_runs_through_words() {
    for (part, unit) in samples::all() {
        let drawing = drawn(&part, &samples::stamp(unit), SheetSize::A4);
        for text in texts(&drawing.picture) {
            let room = lettering::room(text).inflate(-0.1, -0.1);
            for (from, to) in ruled(&drawing.picture) {
                assert!(
                    !lettering::line_meets(from, to, room),
                    "{} {}: the line {from:?} {to:?} runs through {:?}",
                    part.name,
                    drawing.scale,
                    text.content
                );
            }
        }
    }
}

#[test]
fn the_blade_is_drawn_to_one_in_five() {
    let part = samples::leeboard();
    let stamp = samples::stamp(LengthUnit::Millimetre);
    let drawing = drawn(&part, &stamp, SheetSize::A4.turned());
    assert_eq!(drawing.scale, "1:5", "974 mm on 297 mm of paper");
    assert_eq!(
        drawing.sheet,
        SheetSize::A4,
        "a tall part on an upright sheet"
    );
    let outline = drawing.picture.items.iter().find_map(|item| match item {
        Item::Stroke(stroke) if stroke.layer == Layer::Outside => Some(stroke),
        _ => None,
    });
    let outline = outline.expect("the outline is drawn");
    assert_eq!(outline.pen.width, 0.5, "visible edges are wide");
    let Shape::Contour(contour) = &outline.shape else {
        panic!("an outline of arcs and lines: {outline:?}")
    };
    let expected = part.region.outer().signed_area() / 25.0;
    assert!(
        (contour.signed_area() - expected).abs() < 1e-6,
        "area on paper {} for {expected}",
        contour.signed_area()
    );
    let words: Vec<&str> = texts(&drawing.picture)
        .iter()
        .map(|text| text.content.as_str())
        .collect();
    for expected in [
        "heel R 18",
        "toe R 60",
        "head R 90",
        "pivot Ø 13, drilled",
        "lightening 3 × Ø 90",
        "leading taper, scribe 42 from leading",
        "trailing, plate edge",
        "974",
        "884",
        "152.5",
        "0",
        "A",
        "1:5",
        "8 mm",
        "millimetres",
    ] {
        assert!(
            words.contains(&expected),
            "{expected:?} is missing: {words:?}"
        );
    }
}

#[test]
fn a_turned_part_has_the_same_numbers() {
    let seventeen = number::HALF_TURN * 17.0 / 180.0;
    let stamp = samples::stamp(LengthUnit::Millimetre);
    let words = |part: &Part| {
        let drawing = drawn(part, &stamp, SheetSize::A4);
        let texts = texts(&drawing.picture);
        let mut words: Vec<String> = texts.iter().map(|text| text.content.clone()).collect();
        words.sort();
        words
    };
    let part = samples::leeboard();
    assert_eq!(
        words(&part),
        words(&samples::turned(&part, seventeen)),
        "a drawing does not depend on how the part lies in its file"
    );
}

#[test]
fn drafts_say_so_and_what_is_missing() {
    let drawing = drawn(&samples::leeboard(), &samples::draft_stamp(), SheetSize::A4);
    let note = texts(&drawing.picture)
        .iter()
        .any(|text| text.content.contains("guard, slot_width"));
    assert!(note, "the open dimensions are named");
    let grey = drawing.picture.items.iter().filter(
        |item| matches!(item, Item::Stroke(stroke) if stroke.pen.shade == crate::sheet::Shade::Light),
    );
    assert!(grey.count() >= 8, "the strokes of five letters");
}

#[test]
fn line_types_follow_the_standard() {
    let drawing = drawn(
        &samples::leeboard(),
        &samples::stamp(LengthUnit::Millimetre),
        SheetSize::A4,
    );
    let types = |layer| {
        let mut types = Vec::new();
        for item in &drawing.picture.items {
            if let Item::Stroke(stroke) = item
                && stroke.layer == layer
            {
                types.push(stroke.pen.line_type);
            }
        }
        types
    };
    assert_eq!(types(Layer::Mark), [LineType::Dashed], "the scribe line");
    assert!(
        types(Layer::CentreLines).contains(&LineType::LongDashedDotted),
        "centre lines of the lightening holes"
    );
    assert_eq!(
        types(Layer::Guides),
        [LineType::LongDashedDotted],
        "beside the plate's own edge"
    );
}

#[test]
fn drawing_twice_gives_the_same() {
    for (part, unit) in samples::all().into_iter().take(4) {
        let stamp = samples::stamp(unit);
        assert_eq!(
            drawn(&part, &stamp, SheetSize::A4),
            drawn(&part, &stamp, SheetSize::A4),
            "{}",
            part.name
        );
    }
}

#[test]
fn what_has_no_room_is_refused_with_a_way_out() {
    let stamp = samples::stamp(LengthUnit::Millimetre);
    let small = SheetSize {
        width: 100.0,
        height: 140.0,
    };
    let refused = draw(&samples::leeboard(), &stamp, small);
    assert!(
        matches!(refused, Err(DocumentError::BadSheet { .. })),
        "a postcard: {refused:?}"
    );
    let small = SheetSize {
        width: 148.0,
        height: 150.0,
    };
    let message = draw(&samples::crowded(), &stamp, small)
        .expect_err("48 labels on a small sheet")
        .to_string();
    assert!(message.contains("choose a larger sheet"), "{message}");
    for sheet in [f64::NAN, f64::INFINITY, -210.0] {
        let sheet = SheetSize {
            width: sheet,
            height: 297.0,
        };
        assert!(
            draw(&samples::leeboard(), &stamp, sheet).is_err(),
            "{sheet:?}"
        );
    }
}
