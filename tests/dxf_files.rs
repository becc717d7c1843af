//! DXF files of several pictures, read with the `dxf` library; written into a folder for the outside
//! check `tests/oracles/dxf.py` when `KERFWISE_DXF_FOLDER` names one.
#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a failing test is meant to stop"
)]

use kerfwise::formats::FormatError;
use kerfwise::formats::contents;
use kerfwise::formats::dxf;
use kerfwise::formats::dxf::DxfOptions;
use kerfwise::formats::dxf::DxfVersion;
use kerfwise::geometry::Arc;
use kerfwise::geometry::Contour;
use kerfwise::geometry::LengthUnit;
use kerfwise::geometry::Motion;
use kerfwise::geometry::Path;
use kerfwise::geometry::Piece;
use kerfwise::geometry::Point;
use kerfwise::geometry::Segment;
use kerfwise::geometry::SourceId;
use kerfwise::geometry::Turn;
use kerfwise::geometry::Vec2;
use kerfwise::geometry::number;
use kerfwise::sheet::Anchor;
use kerfwise::sheet::Item;
use kerfwise::sheet::Layer;
use kerfwise::sheet::Pen;
use kerfwise::sheet::Picture;
use kerfwise::sheet::Shape;
use kerfwise::sheet::Text;
use proptest::prelude::Strategy;
use proptest::prelude::any;
use proptest::prelude::prop;
use proptest::prop_oneof;
use proptest::proptest;
use serde_json::Value;
use serde_json::json;

const PEN: Pen = Pen::solid(0.25);

/// The closed line through these vertices, each with the bulge of what leaves it.
fn bulged(vertices: &[(f64, f64, f64)]) -> Contour {
    let following = vertices.iter().cycle().skip(1);
    let segments = vertices.iter().zip(following).map(|(from, to)| {
        let (start, end) = (Point::new(from.0, from.1), Point::new(to.0, to.1));
        if from.2 == 0.0 {
            Segment::line(start, end)
        } else {
            Arc::from_bulge(start, end, from.2).unwrap().into()
        }
    });
    Contour::from_segments(segments).unwrap()
}

fn path(segments: &[Segment]) -> Path {
    let pieces = segments
        .iter()
        .map(|&segment| Piece::new(segment, SourceId::UNTRACED));
    Path::new(pieces.collect()).unwrap()
}

/// A slot: 4000 + 400π mm².
fn slot() -> Picture {
    let mut picture = Picture::new();
    let outline = bulged(&[
        (0.0, 0.0, 0.0),
        (100.0, 0.0, 1.0),
        (100.0, 40.0, 0.0),
        (0.0, 40.0, 1.0),
    ]);
    picture.contour(Layer::Outside, outline, PEN);
    picture
}

/// A plate with everything that can be drawn.
fn plate() -> Picture {
    let corner = 2.0_f64.sqrt() - 1.0;
    let mut picture = Picture::new();
    let outline = bulged(&[
        (10.0, 0.0, 0.0),
        (90.0, 0.0, corner),
        (100.0, 10.0, 0.0),
        (100.0, 40.0, corner),
        (90.0, 50.0, 0.0),
        (10.0, 50.0, corner),
        (0.0, 40.0, 0.0),
        (0.0, 10.0, corner),
    ]);
    picture.contour(Layer::Outside, outline, PEN);
    let hole = Contour::circle(Point::new(30.0, 25.0), 7.5, SourceId::UNTRACED).unwrap();
    picture.contour(Layer::Inside, hole.reversed(), PEN);
    picture.stroke(Layer::Drill, Shape::Spot(Point::new(70.0, 25.0)), PEN);
    picture.line(
        Layer::Mark,
        Point::new(5.0, 5.0),
        Point::new(95.0, 5.0),
        PEN,
    );
    let clockwise = Arc::with_radius(
        Point::new(20.0, 40.0),
        Point::new(80.0, 40.0),
        200.0,
        Turn::Clockwise,
    );
    picture.path(Layer::Mark, path(&[clockwise.unwrap().into()]), PEN);
    let bent = [
        Segment::line(Point::new(50.0, 10.0), Point::new(60.0, 10.0)),
        Arc::from_bulge(Point::new(60.0, 10.0), Point::new(60.0, 20.0), -0.3)
            .unwrap()
            .into(),
    ];
    picture.path(Layer::Mark, path(&bent), PEN);
    picture.text(Text {
        layer: Layer::Words,
        at: Point::new(50.0, 30.0),
        size: 5.0,
        anchor: Anchor::Middle,
        angle: 0.3,
        content: "ø 15 ± 0,1 – 98.6 % ∅".to_owned(),
    });
    picture
}

/// An arc of 300° on a neck, turned by 17° and far from the origin.
fn keyhole() -> Picture {
    let arc = Arc::from_angles(
        Point::new(0.0, 0.0),
        20.0,
        (-60_f64).to_radians(),
        300_f64.to_radians(),
    );
    let (start, end) = (arc.start(), arc.end());
    let (low, high) = (Point::new(end.x, -60.0), Point::new(start.x, -60.0));
    let outline = Contour::from_segments([
        arc.into(),
        Segment::line(end, low),
        Segment::line(low, high),
        Segment::line(high, start),
    ]);
    let motion =
        Motion::turn(17_f64.to_radians()).then(&Motion::shift(Vec2::new(-10_000.123, 4_321.987)));
    let mut picture = Picture::new();
    picture.contour(Layer::Outside, motion.contour(&outline.unwrap()), PEN);
    picture
}

/// A wheel of 600 teeth with round tips and roots; no coordinate is a round number.
fn wheel() -> Picture {
    let vertices: Vec<(f64, f64, f64)> = (0..1200)
        .map(|place| {
            let angle = f64::from(place) * std::f64::consts::TAU / 1200.0;
            let radius = if place % 2 == 0 { 300.0 } else { 290.1 };
            let bulge = match place % 4 {
                0 => 0.25,
                1 => 0.0,
                2 => 1e-7,
                _ => -0.5,
            };
            (
                radius * number::cos(angle),
                radius * number::sin(angle),
                bulge,
            )
        })
        .collect();
    let mut picture = Picture::new();
    picture.contour(Layer::Outside, bulged(&vertices), PEN);
    picture
}

fn pictures() -> [(&'static str, Picture); 4] {
    [
        ("slot", slot()),
        ("plate", plate()),
        ("keyhole", keyhole()),
        ("wheel", wheel()),
    ]
}

/// What each file should hold, in millimetres.
fn truth(picture: &Picture) -> Value {
    let items = picture.items.iter().map(|item| match item {
        Item::Stroke(stroke) => match &stroke.shape {
            Shape::Contour(contour) => json!({
                "layer": stroke.layer.name(), "closed": true,
                "area": contour.signed_area(), "segments": segments(contour.segments()),
            }),
            Shape::Path(path) => json!({
                "layer": stroke.layer.name(), "closed": false, "segments": segments(path.segments()),
            }),
            Shape::Circle { centre, radius } => json!({
                "layer": stroke.layer.name(), "circle": [centre.x, centre.y, radius],
            }),
            Shape::Spot(at) => json!({ "layer": stroke.layer.name(), "spot": [at.x, at.y] }),
        },
        Item::Text(text) => json!({ "layer": text.layer.name(), "words": text.content }),
        Item::Fill(_) => panic!("no fills in these pictures"),
    });
    items.collect()
}

fn segments<'a>(segments: impl Iterator<Item = &'a Segment>) -> Vec<Value> {
    segments
        .map(|segment| {
            let bulge = match segment {
                Segment::Line(_) => 0.0,
                Segment::Arc(arc) => arc.bulge(),
            };
            let (start, end) = (segment.start(), segment.end());
            json!([start.x, start.y, end.x, end.y, bulge])
        })
        .collect()
}

fn options(version: DxfVersion, unit: LengthUnit) -> DxfOptions {
    DxfOptions {
        version,
        unit,
        comments: vec![
            "Nominal finished size: no kerf in it.\nDesign ä1b2".to_owned(),
            "word ".repeat(120),
        ],
    }
}

fn each_file(mut check: impl FnMut(&str, &Picture, &DxfOptions, Vec<u8>)) {
    for (name, picture) in pictures() {
        for version in DxfVersion::ALL {
            for unit in [LengthUnit::Millimetre, LengthUnit::Inch] {
                let options = options(version, unit);
                let bytes = dxf::write(&picture, &options).expect(name);
                let file = format!("{name}-{}-{}.dxf", version.name(), unit.symbol());
                check(&file, &picture, &options, bytes);
            }
        }
    }
}

#[test]
fn files_for_the_outside_check() {
    let Some(folder) = std::env::var_os("KERFWISE_DXF_FOLDER") else {
        return;
    };
    let folder = std::path::PathBuf::from(folder);
    let mut index = Vec::new();
    each_file(|file, picture, options, bytes| {
        std::fs::write(folder.join(file), bytes).unwrap();
        index.push(json!({
            "file": file, "version": options.version.name(), "unit": options.unit.symbol(),
            "items": truth(picture),
        }));
    });
    std::fs::write(
        folder.join("truth.json"),
        serde_json::to_vec_pretty(&index).unwrap(),
    )
    .unwrap();
}

fn read_and_compared(
    bytes: &[u8],
    picture: &Picture,
    options: &DxfOptions,
) -> Result<(), FormatError> {
    contents::compare(picture, &dxf::read_contours(bytes, options.unit)?)
}

#[test]
fn every_file_holds_its_picture() {
    each_file(|file, picture, options, bytes| {
        let found = read_and_compared(&bytes, picture, options);
        assert_eq!(found, Ok(()), "{file}");
    });
}

#[test]
fn the_same_picture_gives_the_same_bytes() {
    each_file(|file, picture, options, bytes| {
        let again = dxf::write(picture, options).expect(file);
        assert!(bytes == again, "{file} written twice differs");
        assert!(
            !bytes.windows(6).any(|window| window == b"-0.0\r\n"),
            "{file} has a negative zero"
        );
    });
}

/// The file with the first value of this group code changed, from the entities on.
fn changed(bytes: &[u8], code: &str, change: impl Fn(&str) -> String) -> Option<Vec<u8>> {
    let text = std::str::from_utf8(bytes).unwrap();
    let (head, body) = text.split_at(text.find("ENTITIES")?);
    let (before, after) = body.split_once(&format!("\r\n{code:>3}\r\n"))?;
    let (value, rest) = after.split_once("\r\n")?;
    let value = change(value);
    Some(format!("{head}{before}\r\n{code:>3}\r\n{value}\r\n{rest}").into_bytes())
}

fn moved(by: f64) -> impl Fn(&str) -> String {
    move |value| (value.parse::<f64>().unwrap() + by).to_string()
}

#[test]
fn a_fault_in_a_file_is_noticed() {
    each_file(|file, picture, options, bytes| {
        let flipped = changed(&bytes, "42", |value| match value.strip_prefix('-') {
            Some(positive) => positive.to_owned(),
            None => format!("-{value}"),
        });
        // R12 has the first coordinates at the head of a polyline, where they mean nothing
        let corner = if options.version == DxfVersion::R12 {
            "42"
        } else {
            "10"
        };
        for (fault, faulty) in [
            ("a flipped bulge", flipped),
            ("a corner off by 1 µm", changed(&bytes, corner, moved(1e-3))),
            (
                "a layer with another name",
                changed(&bytes, "8", |name| format!("{name}s")),
            ),
            ("an open outline", changed(&bytes, "70", |_| "0".to_owned())),
        ] {
            let faulty = faulty.unwrap_or_else(|| panic!("{file} cannot have {fault}"));
            assert!(faulty != bytes, "{file} has {fault}");
            let found = read_and_compared(&faulty, picture, options);
            assert!(found.is_err(), "{file}: {fault} went unnoticed");
        }
    });
}

#[test]
fn a_missing_loop_and_a_wrong_unit_are_noticed() {
    let picture = plate();
    for leave_out in 0..picture.items.len() {
        let mut less = picture.clone();
        less.items.remove(leave_out);
        let bytes = dxf::write(&less, &DxfOptions::default()).unwrap();
        let found = read_and_compared(&bytes, &picture, &DxfOptions::default());
        assert!(
            matches!(found, Err(FormatError::Differs { .. })),
            "item {leave_out} left out: {found:?}"
        );
        let whole = dxf::write(&picture, &DxfOptions::default()).unwrap();
        let found = read_and_compared(&whole, &less, &DxfOptions::default());
        assert!(found.is_err(), "item {leave_out} too much went unnoticed");
    }
    let bytes = dxf::write(&picture, &DxfOptions::default()).unwrap();
    let text = String::from_utf8(bytes).unwrap();
    let inches = text.replace("$INSUNITS\r\n 70\r\n4\r\n", "$INSUNITS\r\n 70\r\n1\r\n");
    assert_ne!(text, inches, "the unit is in the header");
    let found = read_and_compared(inches.as_bytes(), &picture, &DxfOptions::default());
    assert!(found.is_err(), "25.4 times too large went unnoticed");
}

#[test]
fn another_reader_finds_the_same_corners() {
    each_file(|file, picture, options, bytes| {
        let drawing = ::dxf::Drawing::load(&mut bytes.as_slice()).expect(file);
        let entities: Vec<_> = drawing.entities().collect();
        assert_eq!(entities.len(), picture.items.len(), "entities of {file}");
        for (entity, item) in entities.iter().zip(&picture.items) {
            assert_eq!(entity.common.layer, item.layer().name(), "layer in {file}");
            let Item::Stroke(stroke) = item else { continue };
            let Shape::Contour(contour) = &stroke.shape else {
                continue;
            };
            let corners: Vec<(f64, f64)> = match &entity.specific {
                ::dxf::entities::EntityType::LwPolyline(line) => line
                    .vertices
                    .iter()
                    .map(|vertex| (vertex.x, vertex.y))
                    .collect(),
                ::dxf::entities::EntityType::Polyline(line) => line
                    .vertices()
                    .map(|vertex| (vertex.location.x, vertex.location.y))
                    .collect(),
                other => panic!("{other:?} in {file}"),
            };
            for segment in contour.segments() {
                let start = segment.start();
                let nearest = corners
                    .iter()
                    .map(|&(x, y)| {
                        let unit = options.unit.millimetres();
                        (start.x - x * unit).abs().max((start.y - y * unit).abs())
                    })
                    .fold(f64::INFINITY, f64::min);
                assert!(
                    nearest < 1e-9,
                    "{file}: corner {start:?} is {nearest:e} mm off"
                );
            }
        }
    });
}

/// One way to spoil a file.
#[derive(Clone, Debug)]
enum Spoil {
    Byte(usize, u8),
    Cut(usize, usize),
    Twice(usize, usize),
    Insert(usize, &'static str),
    End(usize),
}

fn spoil() -> impl Strategy<Value = Spoil> {
    let place = || any::<usize>();
    prop_oneof![
        (place(), any::<u8>()).prop_map(|(at, byte)| Spoil::Byte(at, byte)),
        (place(), 1..60_usize).prop_map(|(at, length)| Spoil::Cut(at, length)),
        (place(), 1..60_usize).prop_map(|(at, length)| Spoil::Twice(at, length)),
        (
            place(),
            prop::sample::select(vec![
                "1e300",
                "-1e308",
                "nan",
                "inf",
                "99999999999999999999",
                "\r\n",
                "0\r\nENDSEC\r\n",
                " 90\r\n4294967295\r\n",
                "0\r\nEOF\r\n",
                "\u{0}",
                "ß",
                "1e-320",
                "9\r\n$TDCREATE\r\n40\r\n1e300\r\n",
            ])
        )
            .prop_map(|(at, text)| Spoil::Insert(at, text)),
        place().prop_map(Spoil::End),
    ]
}

fn spoiled(mut bytes: Vec<u8>, spoils: &[Spoil]) -> Vec<u8> {
    for spoil in spoils {
        let length = bytes.len();
        if length == 0 {
            return bytes;
        }
        let range = |at: usize, size: usize| (at % length)..length.min(at % length + size);
        match *spoil {
            Spoil::Byte(at, byte) => bytes[at % length] = byte,
            Spoil::Cut(at, size) => drop(bytes.drain(range(at, size))),
            Spoil::Twice(at, size) => {
                let part = bytes[range(at, size)].to_vec();
                bytes.splice(at % length..at % length, part);
            }
            Spoil::Insert(at, text) => {
                bytes.splice(at % length..at % length, text.bytes());
            }
            Spoil::End(at) => bytes.truncate(at % length),
        }
    }
    bytes
}

proptest! {
    #[test]
    fn no_spoiled_file_makes_the_reader_panic(
        version in prop::sample::select(DxfVersion::ALL.to_vec()),
        spoils in prop::collection::vec(spoil(), 1..8),
    ) {
        let picture = plate();
        let options = options(version, LengthUnit::Millimetre);
        let bytes = spoiled(dxf::write(&picture, &options).unwrap(), &spoils);
        // whether it is noticed depends on the place: a remark may be spoiled
        let _ = read_and_compared(&bytes, &picture, &options);
    }

    #[test]
    fn no_heap_of_bytes_makes_the_reader_panic(bytes in prop::collection::vec(any::<u8>(), 0..400)) {
        let _ = dxf::read_contours(&bytes, LengthUnit::Inch);
    }
}
