use super::*;
use crate::design::part::Part;
use crate::documents::cut_file::CutFile;
use crate::documents::samples;
use crate::formats::dxf;
use crate::formats::incoming;
use crate::formats::incoming::ReadOptions;
use crate::geometry::LengthUnit;
use crate::geometry::Motion;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::sheet::Item;
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
    let (blocks, _) = before_sending(&part, &limits, None, LengthUnit::Millimetre);
    let text = format!("{blocks:?}");
    assert!(text.contains("small-opening"), "{text}");
    let small = SheetSize {
        width: 100.0,
        height: 100.0,
    };
    let (_, wrong) = before_sending(
        &part,
        &Limits::default(),
        Some(small),
        LengthUnit::Millimetre,
    );
    assert!(wrong, "it does not fit on 100 × 100");
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
