use super::*;
use crate::design::part::Part;
use crate::documents::cut_file::CutFile;
use crate::documents::samples;
use crate::formats::dxf;
use crate::formats::incoming;
use crate::formats::incoming::ReadOptions;
use crate::geometry::LengthUnit;
use crate::geometry::Motion;
use crate::geometry::Region;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::sheet::Cell;
use crate::sheet::Item;
use crate::sheet::Layer;
use crate::sheet::Picture;
use crate::sheet::Shape;

fn dxf_of(entities: &str) -> Inspection {
    let lines = entities.replace(' ', "\n");
    let text = format!(
        "0\nSECTION\n2\nHEADER\n9\n$INSUNITS\n70\n4\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n{lines}\n0\n\
         ENDSEC\n0\nEOF\n"
    );
    let drawing = incoming::read(text.as_bytes(), &ReadOptions::default()).expect("a DXF");
    inspect(drawing, InspectOptions::default())
}

fn line(from: (f64, f64), to: (f64, f64)) -> String {
    format!(
        "0 LINE 8 a 10 {} 20 {} 11 {} 21 {} ",
        from.0, from.1, to.0, to.1
    )
}

/// The picture of the nominal cut file of a part.
fn nominal(part: &Part) -> Picture {
    CutFile::nominal(part, &samples::stamp(LengthUnit::Millimetre)).picture()
}

#[test]
fn our_own_cut_files_have_no_findings_of_error_grade() {
    for part in [
        samples::leeboard(),
        samples::belt_guard(),
        samples::bracket(),
    ] {
        for version in dxf::DxfVersion::ALL {
            let picture = nominal(&part);
            let options = dxf::DxfOptions {
                version,
                ..dxf::DxfOptions::default()
            };
            let bytes = dxf::write(&picture, &options).expect("a file");
            let drawing = incoming::read(&bytes, &ReadOptions::default()).expect("a drawing");
            let inspection = inspect(drawing, InspectOptions::default());
            let errors: Vec<_> = inspection
                .findings
                .iter()
                .filter(|finding| finding.grade == Grade::Error)
                .collect();
            assert!(errors.is_empty(), "{} {version:?}: {errors:?}", part.name);
            assert!(!inspection.has_errors(), "{:?}", inspection.drawing.faults);
            let found = against(&inspection, &part).expect("outlines");
            assert!(
                found.greatest() < 1e-9,
                "{} {version:?}: {found:?}",
                part.name
            );
        }
    }
}

#[test]
fn a_file_is_known_again_turned_moved_and_mirrored() {
    let part = samples::leeboard();
    let motion = Motion::mirror_left_right()
        .then(&Motion::turn(number::QUARTER_TURN))
        .then(&Motion::shift(Vec2::new(700.0, -30.0)));
    let mut picture = Picture::new();
    for contour in part.region.contours() {
        picture.contour(
            Layer::Outside,
            motion.contour(contour),
            crate::sheet::Pen::solid(0.1),
        );
    }
    let bytes = dxf::write(&picture, &dxf::DxfOptions::default()).expect("a file");
    let drawing = incoming::read(&bytes, &ReadOptions::default()).expect("a drawing");
    let inspection = inspect(drawing, InspectOptions::default());
    let found = against(&inspection, &part).expect("outlines");
    assert!(found.greatest() < 1e-7, "{found:?}");
    assert!(found.lying.mirrored, "the other hand: {found:?}");
}

/// The part's outlines moved, read back from a file.
fn inspected_part(region: &Region, motion: &Motion) -> Inspection {
    let mut picture = Picture::new();
    for contour in region.contours() {
        let moved = motion.contour(contour);
        picture.contour(Layer::Outside, moved, crate::sheet::Pen::solid(0.1));
    }
    let bytes = dxf::write(&picture, &dxf::DxfOptions::default()).expect("a file");
    let drawing = incoming::read(&bytes, &ReadOptions::default()).expect("a drawing");
    inspect(drawing, InspectOptions::default())
}

#[test]
fn a_file_is_known_again_at_any_angle() {
    for part in [
        samples::leeboard(),
        samples::belt_guard(),
        samples::bracket(),
    ] {
        for degrees in [3.0_f64, 37.5, 90.0, 141.0, 200.25, 331.0] {
            for mirrored in [false, true] {
                let turn = Motion::turn(-degrees.to_radians());
                let shift = Motion::shift(Vec2::new(-340.0, 1210.0));
                let motion = if mirrored {
                    turn.then(&Motion::mirror_left_right()).then(&shift)
                } else {
                    turn.then(&shift)
                };
                let inspection = inspected_part(&part.region, &motion);
                let found = against(&inspection, &part).expect("outlines");
                assert!(
                    found.greatest() < 1e-6,
                    "{} turned by {degrees}, {mirrored}: {found:?}",
                    part.name
                );
            }
        }
    }
}

#[test]
fn one_hole_that_is_off_is_told_at_any_angle() {
    let part = samples::leeboard();
    let holes = part.region.holes().iter().enumerate().map(|(index, hole)| {
        let by = if index == 1 {
            Vec2::new(0.6, 0.8)
        } else {
            Vec2::ZERO
        };
        Motion::shift(by).contour(hole)
    });
    let wrong = Region::new(part.region.outer().clone(), holes.collect());
    let motion = Motion::turn(1.1).then(&Motion::shift(Vec2::new(50.0, 20.0)));
    let found = against(&inspected_part(&wrong, &motion), &part).expect("outlines");
    assert!((found.greatest() - 1.0).abs() < 1e-5, "{found:?}");
    let turned = number::positive_angle(found.lying.turn + 1.1);
    assert!(turned.min(number::FULL_TURN - turned) < 1e-7, "{found:?}");
}

/// The pivot is drilled, so the file has a point for it: 3-4-5 away from its place, and then none.
#[test]
fn a_hole_to_drill_that_is_off_or_missing_is_named() {
    let part = samples::leeboard();
    for (by, expected) in [
        (Some(Vec2::new(3.0, 4.0)), Marking::Off(5.0)),
        (None, Marking::Not { drawn: false }),
        (Some(Vec2::ZERO), Marking::Marked),
    ] {
        let mut picture = nominal(&part);
        picture.items.retain_mut(|item| {
            let Item::Stroke(stroke) = item else {
                return true;
            };
            match (&mut stroke.shape, by) {
                (Shape::Spot(at), Some(by)) => *at += by,
                (Shape::Spot(_), None) => return false,
                _ => {}
            }
            true
        });
        let bytes = dxf::write(&picture, &dxf::DxfOptions::default()).expect("a file");
        let drawing = incoming::read(&bytes, &ReadOptions::default()).expect("a drawing");
        let inspection = inspect(drawing, InspectOptions::default());
        let found = against(&inspection, &part).expect("outlines");
        let [(name, marking)] = found.markings.as_slice() else {
            panic!("one drilled hole: {:?}", found.markings);
        };
        assert_eq!(name, "pivot", "its name");
        match (marking, &expected) {
            (Marking::Off(off), Marking::Off(far)) => {
                assert!((off - far).abs() < 1e-6, "{off} for {far}");
                assert!((found.greatest() - far).abs() < 1e-6, "{found:?}");
            }
            (marking, expected) => assert_eq!(marking, expected, "how it is marked"),
        }
        let table = found.table(&part, 0.1, LengthUnit::Millimetre);
        let named = table
            .rows
            .iter()
            .any(|row| row[0] == Cell::Text("hole “pivot”".to_owned()));
        assert_eq!(named, expected != Marking::Marked, "told in the table");
    }
}

/// Two holes 8 apart and one point, which lies 3 from the one and 5 from the other: it marks the nearer, and the
/// other has none.
#[test]
fn a_point_marks_one_hole_only() {
    let text = r#"
[part.strip]
outline = [
  { corner = "a", at = [0, 0] },
  { corner = "b", at = [60, 0] },
  { corner = "c", at = [60, 30] },
  { corner = "d", at = [0, 30] },
]
[[part.strip.opening]]
name = "left"
circle = { at = [20, 15], diameter = 4 }
make = "drill"
[[part.strip.opening]]
name = "right"
circle = { at = [28, 15], diameter = 4 }
make = "drill"
"#;
    let source = crate::design::Source::new("strip.toml", text);
    let design = crate::design::Design::load(&source, &[]).expect("a strip");
    let part = &design.resolved.parts[0];
    let mut picture = nominal(part);
    let mut first = true;
    picture.items.retain_mut(|item| match item {
        Item::Stroke(stroke) => match &mut stroke.shape {
            Shape::Spot(at) => {
                at.x = 25.0;
                std::mem::take(&mut first)
            }
            _ => true,
        },
        _ => true,
    });
    let bytes = dxf::write(&picture, &dxf::DxfOptions::default()).expect("a file");
    let drawing = incoming::read(&bytes, &ReadOptions::default()).expect("a drawing");
    let inspection = inspect(drawing, InspectOptions::default());
    let found = against(&inspection, part).expect("outlines");
    let by_name = |name: &str| {
        let marking = found.markings.iter().find(|(own, _)| own == name);
        marking.map(|(_, marking)| marking.clone())
    };
    assert_eq!(
        by_name("left"),
        Some(Marking::Not { drawn: false }),
        "{found:?}"
    );
    assert!(
        matches!(by_name("right"), Some(Marking::Off(off)) if (off - 3.0).abs() < 1e-6),
        "{found:?}"
    );
}

#[test]
fn inches_taken_for_millimetres_are_recognised() {
    let part = samples::leeboard();
    let options = dxf::DxfOptions {
        unit: LengthUnit::Inch,
        ..dxf::DxfOptions::default()
    };
    let bytes = dxf::write(&nominal(&part), &options).expect("a file");
    let told = ReadOptions {
        unit: Some(LengthUnit::Millimetre.into()),
        ..ReadOptions::default()
    };
    let drawing = incoming::read(&bytes, &told).expect("a drawing");
    let inspection = inspect(drawing, InspectOptions::default());
    let found = against(&inspection, &part).expect("outlines");
    let words = found.unit_mistaken().unwrap_or_default();
    assert!(words.contains("25.4 times too small"), "{words}: {found:?}");
}

#[test]
fn mending_joins_thins_and_refits_and_says_how_far() {
    let count = 1000;
    let mut entities = String::new();
    let corner = |index: u32| {
        let angle = f64::from(index % count) / f64::from(count) * std::f64::consts::TAU;
        let way = number::unit(angle);
        (50.0 + 20.0 * way.x, 40.0 + 20.0 * way.y)
    };
    for index in 0..count {
        entities.push_str(&line(corner(index), corner(index + 1)));
    }
    // a frame with a gap of 0.04, one side twice, and a nothing
    entities.push_str(&line((0.0, 0.0), (100.0, 0.0)));
    entities.push_str(&line((100.0, 0.04), (100.0, 80.0)));
    entities.push_str(&line((100.0, 80.0), (0.0, 80.0)));
    entities.push_str(&line((0.0, 80.0), (100.0, 80.0)));
    entities.push_str(&line((0.0, 80.0), (0.0, 0.0)));
    entities.push_str(&line((7.0, 7.0), (7.0, 7.0)));
    let inspection = dxf_of(entities.trim());
    let names: Vec<&str> = inspection.findings.iter().map(|f| f.rule.name()).collect();
    for name in ["gap", "duplicate", "zero-length", "short-chords"] {
        assert!(names.contains(&name), "{name} in {names:?}");
    }
    let mended = mend(&inspection, &MendOptions { within: 0.01 });
    assert_eq!(
        (mended.gaps, mended.duplicates, mended.nothings),
        (1, 1, 1),
        "{:?}",
        mended.picture.items.len()
    );
    assert_eq!(mended.pieces, (1006, 5), "pieces");
    let circles: Vec<_> = mended
        .picture
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Stroke(stroke) => match stroke.shape {
                Shape::Circle { radius, .. } => Some((stroke.layer, radius)),
                _ => None,
            },
            _ => None,
        })
        .collect();
    assert_eq!(circles.len(), 1, "one circle");
    assert_eq!(circles[0].0, Layer::Inside, "it is an opening");
    assert!((circles[0].1 - 20.0).abs() < 1e-6, "{circles:?}");
    let greatest = mended.greatest.expect("lines").distance;
    assert!((greatest - 0.02).abs() < 1e-9, "half the gap: {greatest}");
}

#[test]
fn an_edge_that_neighbours_share_is_not_taken_from_one_of_them() {
    let square = |x: f64| {
        format!(
            "0 LWPOLYLINE 8 a 90 4 70 1 10 {x} 20 0 10 {} 20 0 10 {} 20 10 10 {x} 20 10 ",
            x + 10.0,
            x + 10.0
        )
    };
    let entities = square(0.0) + &square(10.0);
    let inspection = dxf_of(entities.trim());
    let mended = mend(&inspection, &MendOptions { within: 0.01 });
    assert_eq!(mended.duplicates, 0, "it stays");
    assert_eq!(mended.picture.items.len(), 2, "two squares");
}

#[test]
fn outlines_and_lines_that_are_there_twice_go() {
    let circle = "0 CIRCLE 8 a 10 5 20 5 40 3 ";
    let lines = line((20.0, 0.0), (30.0, 0.0)).repeat(3);
    let entities = circle.repeat(2) + &lines;
    let inspection = dxf_of(entities.trim());
    assert_eq!(inspection.subject.assembly.outlines.len(), 1, "one circle");
    assert_eq!(inspection.subject.assembly.open.len(), 1, "one line");
    let mended = mend(&inspection, &MendOptions { within: 0.01 });
    assert_eq!(mended.duplicates, 3, "a circle and two lines");
}

#[test]
fn a_part_is_checked_before_sending() {
    let part = samples::belt_guard();
    let known = crate::trade::processes::Processes::default();
    let plasma = known.find("plasma").expect("plasma");
    let limits = of_process(plasma, 12.0);
    let looked = before_sending(&part, None, &limits, None, LengthUnit::Millimetre);
    let text = format!("{:?}", looked.blocks());
    assert!(text.contains("small-opening"), "{text}");
    let lines = looked.lines();
    let small: Vec<&String> = lines
        .iter()
        .filter(|l| l.contains("small-opening"))
        .collect();
    let [holes] = small[..] else {
        panic!("one rule is told once: {lines:#?}")
    };
    // 12 holes of 6.5 mm, 2 slots of 9 mm, and a window of 40 mm is none of them
    assert!(holes.contains("and 13 more places"), "{holes}");
    assert!(holes.contains("a hole of 6.5 mm"), "the worst: {holes}");
    let small = SheetSize {
        width: 100.0,
        height: 100.0,
    };
    let looked = before_sending(
        &part,
        None,
        &Limits::default(),
        Some(small),
        LengthUnit::Millimetre,
    );
    assert!(looked.has_errors(), "it does not fit on 100 × 100");
}

#[test]
fn layers_that_are_not_cut_are_left_alone() {
    let mut options = InspectOptions::default();
    options.not_cut.push("frame".to_owned());
    let text = "0 SECTION 2 ENTITIES 0 LINE 8 Frame 10 0 20 0 11 5 21 0 0 LINE 8 MARK 10 0 20 0 11 5 21 0 \
                0 CIRCLE 8 plate 10 0 20 0 40 30 0 ENDSEC 0 EOF"
        .replace(' ', "\n");
    let drawing = incoming::read(text.as_bytes(), &ReadOptions::default()).expect("a DXF");
    let inspection = inspect(drawing, options);
    assert_eq!(inspection.subject.runs.len(), 1, "the circle only");
    let report = report(&inspection, "x.dxf", "");
    let text = crate::formats::text::write(&report, 100);
    assert!(text.contains("Frame"), "{text}");
}

/// A plate with two holes, with limits of a dimension and of the part.
const LIMITED: &str = r#"
[dims]
wide = { value = 200, tol = 0.5, measure = { distance = { from = "left", to = "right" } } }

[part.plate]
outline = [
  { corner = "a", at = [0, 0], edge = { name = "foot" } },
  { corner = "b", at = ["wide", 0], edge = { name = "right" } },
  { corner = "c", at = ["wide", 120], edge = { name = "top" } },
  { corner = "d", at = [0, 120], edge = { name = "left" } },
]

[[part.plate.opening]]
name = "bolt"
circle = { at = [40, 30], diameter = 12 }

[[part.plate.opening]]
name = "eye"
circle = { at = [150, 80], diameter = 30 }

[[part.plate.limit]]
what = "bolt to eye"
measure = { distance = { from = "bolt", to = "eye" } }
tol = 0.3

[[part.plate.limit]]
what = "eye"
measure = { diameter = "eye" }
min = 29.9
"#;

#[test]
fn limits_of_dimensions_and_of_parts_are_measured_on_the_drawing() {
    use crate::design::Design;
    use crate::design::Source;
    let design = Design::load(&Source::new("plate.toml", LIMITED), &[]).expect("a design");
    let part = &design.resolved.parts[0];
    let told = |holes: &[(f64, f64, f64)]| {
        let circle = |&(x, y, diameter): &(f64, f64, f64)| {
            let centre = crate::geometry::Point::new(x, y);
            crate::geometry::Contour::circle(centre, diameter / 2.0, SourceId::UNTRACED)
                .expect("a circle")
        };
        let drawn = Region::new(
            part.region.outer().clone(),
            holes.iter().map(circle).collect(),
        );
        let motion = Motion::turn(0.5).then(&Motion::shift(Vec2::new(-70.0, 900.0)));
        let inspection = inspected_part(&drawn, &motion);
        let found = against(&inspection, part).expect("outlines");
        let (table, kept) = against_limits(&inspection, &found, part, &design).expect("limits");
        let rows: Vec<String> = table.rows.iter().map(|row| format!("{row:?}")).collect();
        assert_eq!(rows.len(), 3, "one dimension and two limits: {rows:#?}");
        (rows, kept)
    };
    let (rows, kept) = told(&[(40.0, 30.0, 12.0), (150.0, 80.0, 30.0)]);
    assert!(kept, "{rows:#?}");
    // 3-4-5: the eye 0.4 mm further from the bolt, which stands (110, 50) away
    let away = number::length(Vec2::new(110.0, 50.0));
    let by = Vec2::new(110.0, 50.0) * (0.4 / away);
    let (rows, kept) = told(&[(40.0, 30.0, 12.0), (150.0 + by.x, 80.0 + by.y, 29.8)]);
    assert!(!kept, "{rows:#?}");
    assert!(rows[0].contains("keeps it"), "{}", rows[0]);
    assert!(rows[1].contains("too large by 0.10 mm"), "{}", rows[1]);
    assert!(rows[2].contains("too small by 0.10 mm"), "{}", rows[2]);
    let (rows, _) = told(&[(40.0, 30.0, 12.0)]);
    for row in &rows[1..] {
        assert!(row.contains("cannot be measured"), "{row}");
    }
}
