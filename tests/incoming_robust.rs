//! Drawings that are mutated, cut off, huge in their claims or hostile: an error or a report, never a
//! panic. The same changes every time.
#![expect(clippy::unwrap_used, reason = "a test stops at what it cannot have")]

use kerfwise::documents::inspection;
use kerfwise::documents::inspection::InspectOptions;
use kerfwise::documents::inspection::MendOptions;
use kerfwise::formats::FormatError;
use kerfwise::formats::dxf;
use kerfwise::formats::incoming;
use kerfwise::formats::incoming::ReadOptions;
use kerfwise::formats::svg;
use kerfwise::geometry::Contour;
use kerfwise::geometry::Point;
use kerfwise::geometry::SourceId;
use kerfwise::sheet::Layer;
use kerfwise::sheet::Pen;
use kerfwise::sheet::Picture;

/// Every kind of entity, and references.
const EVERYTHING: &str = "0 SECTION 2 HEADER 9 $ACADVER 1 AC1015 9 $INSUNITS 70 4 0 ENDSEC \
    0 SECTION 2 BLOCKS 0 BLOCK 2 b 10 1 20 1 0 CIRCLE 8 0 10 1 20 1 40 2 0 INSERT 8 0 2 c 10 1 20 1 0 ENDBLK \
    0 BLOCK 2 c 10 0 20 0 0 ARC 8 x 10 0 20 0 40 4 50 10 51 200 0 ENDBLK 0 ENDSEC \
    0 SECTION 2 ENTITIES 0 LINE 5 1A 8 a 10 0 20 0 11 9 21 9 0 CIRCLE 8 a 10 5 20 5 40 2 \
    0 ARC 8 a 10 0 20 0 40 5 50 10 51 90 210 0 220 0 230 -1 \
    0 LWPOLYLINE 8 a 90 3 70 1 10 0 20 0 42 0.5 10 9 20 0 10 9 20 9 \
    0 POLYLINE 8 a 66 1 70 1 0 VERTEX 8 a 10 0 20 0 0 VERTEX 8 a 10 5 20 0 42 1 0 VERTEX 8 a 10 5 20 5 0 SEQEND \
    0 ELLIPSE 8 a 10 0 20 0 11 9 21 1 40 0.5 41 0 42 4 \
    0 SPLINE 8 a 70 8 71 3 72 8 73 4 40 0 40 0 40 0 40 0 40 1 40 1 40 1 40 1 10 0 20 0 10 3 20 9 10 6 20 -9 10 9 20 0 \
    0 SPLINE 8 a 70 0 71 3 74 3 11 0 21 0 11 4 21 5 11 9 21 0 \
    0 INSERT 8 a 2 b 10 3 20 4 41 2 42 -1 50 30 70 2 71 2 44 9 45 9 0 POINT 8 a 10 1 20 1 \
    0 TEXT 8 a 10 0 20 0 40 3 1 words 0 ENDSEC 0 EOF";

const EVERY_SHAPE: &str = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"90mm\" height=\"60mm\" \
    viewBox=\"0 0 90 60\"><!-- a remark --><defs><path id=\"p\" d=\"M0 0h5v5z\"/></defs>\
    <g id=\"cut\" transform=\"translate(1 2) rotate(9) scale(2)\"><use href=\"#p\" x=\"3\"/>\
    <rect width=\"9\" height=\"8\" rx=\"2\"/><circle r=\"3\"/><ellipse rx=\"5\" ry=\"2\"/></g>\
    <path d=\"M1 1C2 9 8-3 9 4s3 3 5 0Q9 9 3 3T8 8A5 3 20 1 0 20 20a2 2 0 0 1 3 3zm3 3l2 2\"/>\
    <polyline points=\"0,0 3,4 6,0\"/><polygon points=\"1 1 2 5 9 9\"/><text>words</text></svg>";

/// Numbers in a row, always the same.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, sides: usize) -> usize {
        // Knuth's 64-bit linear congruential generator
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        usize::try_from(self.0 >> 33).unwrap() % sides.max(1)
    }
}

fn own_file() -> Vec<u8> {
    let mut picture = Picture::new();
    let square = [(0.0, 0.0), (60.0, 0.0), (60.0, 40.0), (0.0, 40.0)].map(Point::from);
    picture.contour(
        Layer::Outside,
        Contour::polygon(&square).unwrap(),
        Pen::solid(0.2),
    );
    let hole = Contour::circle(Point::new(20.0, 20.0), 5.0, SourceId::UNTRACED).unwrap();
    picture.contour(Layer::Inside, hole, Pen::solid(0.2));
    dxf::write(&picture, &dxf::DxfOptions::default()).unwrap()
}

fn mutated(sample: &[u8], dice: &mut Dice) -> Vec<u8> {
    const WORDS: [&str; 18] = [
        "1e308",
        "-1e308",
        "nan",
        "inf",
        "0",
        "-1",
        "1e-320",
        "99999999999",
        "SPLINE",
        "INSERT",
        "ENDBLK",
        "SEQEND",
        "70",
        "\u{fffd}",
        "\"",
        "<",
        "&#0;",
        "scale(1e300)",
    ];
    let mut bytes = sample.to_vec();
    for _ in 0..=dice.roll(4) {
        let length = bytes.len();
        let at = dice.roll(length + 1);
        let end = (at + dice.roll(40)).min(length);
        match dice.roll(6) {
            0 => {
                if let Some(byte) = bytes.get_mut(at) {
                    *byte ^= 1 << dice.roll(8);
                }
            }
            1 => {
                bytes.drain(at..end);
            }
            2 => {
                let part = bytes[at..end].to_vec();
                bytes.splice(at..at, part);
            }
            3 => bytes.truncate(at),
            4 => {
                let word = WORDS[dice.roll(WORDS.len())].bytes();
                bytes.splice(at..end, word);
            }
            _ => {
                let from = dice.roll(length.max(1));
                let to = (from + dice.roll(120)).min(length);
                let part = bytes[from..to].to_vec();
                bytes.splice(at..at, part);
            }
        }
    }
    bytes
}

#[test]
fn mutated_drawings_never_panic() {
    let samples = [
        EVERYTHING
            .split_whitespace()
            .collect::<Vec<_>>()
            .join("\n")
            .into_bytes(),
        EVERY_SHAPE.as_bytes().to_vec(),
        own_file(),
    ];
    let mut dice = Dice(20_261_128);
    let (mut read, mut refused) = (0, 0);
    for round in 0..1500 {
        for sample in &samples {
            let bytes = mutated(sample, &mut dice);
            match incoming::read(&bytes, &ReadOptions::default()) {
                Ok(drawing) => {
                    read += 1;
                    let inspection = inspection::inspect(drawing, InspectOptions::default());
                    let report = inspection::report(&inspection, "x", "");
                    assert!(!report.blocks.is_empty(), "a report");
                    if round % 8 == 0 {
                        let mended = inspection::mend(&inspection, &MendOptions { within: 0.01 });
                        assert!(mended.pieces.1 <= 100_000, "no more than there was");
                    }
                }
                Err(_) => refused += 1,
            }
        }
    }
    assert!(
        read > 500 && refused > 500,
        "{read} read, {refused} refused"
    );
}

#[test]
fn the_samples_themselves_are_read_whole() {
    let text = EVERYTHING.split_whitespace().collect::<Vec<_>>().join("\n");
    let drawing = incoming::read(text.as_bytes(), &ReadOptions::default()).unwrap();
    assert!(drawing.faults.is_empty(), "{:?}", drawing.faults);
    // eight directly, four copies of a circle and an arc, and a point
    assert_eq!(drawing.drawn.len(), 8 + 8 + 1, "{:?}", drawing.kinds);
    let drawing = incoming::read(EVERY_SHAPE.as_bytes(), &ReadOptions::default()).unwrap();
    assert!(drawing.faults.is_empty(), "{:?}", drawing.faults);
    assert_eq!(drawing.drawn.len(), 4 + 2 + 2, "{:?}", drawing.drawn.len());
}

#[test]
fn every_cut_off_file_is_an_error() {
    let file = own_file();
    for length in (0..file.len() - 5).step_by(17) {
        let refused = incoming::read(&file[..length], &ReadOptions::default());
        assert!(refused.is_err(), "cut off at {length}");
    }
    for length in (0..EVERY_SHAPE.len() - 1).step_by(5) {
        let refused = incoming::read(&EVERY_SHAPE.as_bytes()[..length], &ReadOptions::default());
        assert!(refused.is_err(), "cut off at {length}");
    }
}

#[test]
fn hostile_drawings_are_refused_or_read_within_bounds() {
    let dxf = |entities: &str| {
        let text = format!("0 SECTION 2 ENTITIES {entities} 0 ENDSEC 0 EOF").replace(' ', "\n");
        incoming::read(text.as_bytes(), &ReadOptions::default())
    };
    let knots: Vec<String> = (0..24_004).map(|knot| format!("40 {knot} ")).collect();
    let points: Vec<String> = (0..24_000)
        .map(|place| format!("10 {place} 20 {} ", place % 7))
        .collect();
    let (knots, points) = (knots.concat(), points.concat());
    let many = format!("0 SPLINE 8 a 70 0 71 3 {knots}{points}");
    let refused = dxf(many.trim());
    assert!(
        matches!(refused, Err(FormatError::TooMuch { .. })),
        "too many spans"
    );
    let copies = "0 INSERT 8 a 2 none 10 0 20 0 70 32767 71 32767";
    let block = format!(
        "0 SECTION 2 BLOCKS 0 BLOCK 2 none 10 0 20 0 0 ENDBLK 0 ENDSEC 0 SECTION 2 ENTITIES {copies} 0 ENDSEC \
         0 EOF"
    )
    .replace(' ', "\n");
    let refused = incoming::read(block.as_bytes(), &ReadOptions::default());
    assert!(
        matches!(refused, Err(FormatError::TooMuch { .. })),
        "empty copies"
    );
    let nested = format!("{}{}", "<g>".repeat(100_000), "</g>".repeat(100_000));
    let refused = incoming::read(
        format!("<svg>{nested}</svg>").as_bytes(),
        &ReadOptions::default(),
    );
    assert!(
        matches!(refused, Err(FormatError::Malformed { .. })),
        "nested groups"
    );
    let mut uses = "<svg><path id=\"u0\" d=\"M0 0h1\"/>".to_owned();
    for depth in 1..30 {
        let inner = format!("<use href=\"#u{}\"/>", depth - 1).repeat(10);
        uses += &["<g id=\"u", &depth.to_string(), "\">", &inner, "</g>"].concat();
    }
    uses.push_str("</svg>");
    let refused = incoming::read(uses.as_bytes(), &ReadOptions::default());
    assert!(
        matches!(refused, Err(FormatError::TooMuch { .. })),
        "uses of uses"
    );
    // thousands of lines in one place: read, and the rules come to an end
    let lines = "0 LINE 8 a 10 0 20 0 11 9 21 0 ".repeat(20_000);
    let drawing = dxf(lines.trim()).unwrap();
    let inspection = inspection::inspect(drawing, InspectOptions::default());
    assert!(inspection.has_errors(), "duplicates");
}

#[test]
fn our_own_svg_is_read_as_it_was_written() {
    let mut picture = Picture::new();
    let square = [(0.0, 0.0), (60.0, 0.0), (60.0, 40.0), (0.0, 40.0)].map(Point::from);
    let contour = Contour::polygon(&square).unwrap();
    picture.contour(Layer::Outside, contour, Pen::solid(0.2));
    let text = svg::write(&picture, &svg::SvgOptions::default()).unwrap();
    let drawing = incoming::read(text.as_bytes(), &ReadOptions::default()).unwrap();
    assert_eq!(drawing.layers, ["outside"], "layers");
    assert_eq!(drawing.drawn.len(), 1, "{:?}", drawing.drawn);
    let inspection = inspection::inspect(drawing, InspectOptions::default());
    let area: f64 = inspection
        .subject
        .nested
        .regions
        .iter()
        .map(kerfwise::geometry::Region::area)
        .sum();
    assert!((area - 2400.0).abs() < 1e-9, "area {area}");
}
