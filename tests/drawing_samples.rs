//! Writes sample drawings into a temporary folder, for the readers in `tests/oracles/` that are not
//! ours: run `cargo test --test drawing_samples`, then `python3 tests/oracles/svg.py` and `pdf.py`.

#![expect(clippy::unwrap_used, reason = "a test may fail loudly")]
#![expect(
    clippy::print_stdout,
    reason = "how long writing took, for whoever asks"
)]

use std::fs;
use std::path::PathBuf;

use kerfwise::formats::pdf;
use kerfwise::formats::pdf::Paper;
use kerfwise::formats::pdf::PdfFile;
use kerfwise::formats::pdf::PdfPage;
use kerfwise::formats::pdf::Placement;
use kerfwise::formats::pdf::Stretch;
use kerfwise::formats::svg;
use kerfwise::formats::svg::SvgOptions;
use kerfwise::geometry::Arc;
use kerfwise::geometry::Contour;
use kerfwise::geometry::LengthUnit;
use kerfwise::geometry::Motion;
use kerfwise::geometry::Path;
use kerfwise::geometry::Piece;
use kerfwise::geometry::Point;
use kerfwise::geometry::Rect;
use kerfwise::geometry::Segment;
use kerfwise::geometry::SourceId;
use kerfwise::geometry::Vec2;
use kerfwise::sheet::Anchor;
use kerfwise::sheet::Block;
use kerfwise::sheet::Cell;
use kerfwise::sheet::Column;
use kerfwise::sheet::Document;
use kerfwise::sheet::Figure;
use kerfwise::sheet::Layer;
use kerfwise::sheet::LineType;
use kerfwise::sheet::Pen;
use kerfwise::sheet::Picture;
use kerfwise::sheet::Quantity;
use kerfwise::sheet::Shade;
use kerfwise::sheet::Shape;
use kerfwise::sheet::Table;
use kerfwise::sheet::Text;

const PEN: Pen = Pen::solid(0.2);

fn save(name: &str, bytes: &[u8]) {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("drawing-samples");
    fs::create_dir_all(&folder).unwrap();
    assert!(!bytes.is_empty(), "{name} is empty");
    fs::write(folder.join(name), bytes).unwrap();
}

fn save_svg(name: &str, picture: &Picture) {
    let file = svg::write(picture, &SvgOptions::default()).unwrap();
    save(name, file.as_bytes());
}

fn point(x: f64, y: f64) -> Point {
    Point::new(x, y)
}

fn bulged(corners: &[(f64, f64, f64)]) -> Contour {
    let following = corners.iter().cycle().skip(1);
    let segments = corners
        .iter()
        .zip(following)
        .map(|(&(x, y, bulge), &(x1, y1, _))| {
            let (start, end) = (point(x, y), point(x1, y1));
            if bulge == 0.0 {
                Segment::line(start, end)
            } else {
                Arc::from_bulge(start, end, bulge).unwrap().into()
            }
        });
    Contour::from_segments(segments).unwrap()
}

/// 100 × 40 mm with half-round ends of 20 mm: area 4000 + 400π, length 200 + 40π.
fn slot() -> Contour {
    bulged(&[
        (0.0, 0.0, 0.0),
        (100.0, 0.0, 1.0),
        (100.0, 40.0, 0.0),
        (0.0, 40.0, 1.0),
    ])
}

fn outline(contour: &Contour) -> Picture {
    let mut picture = Picture::new();
    picture.stroke(Layer::Outside, Shape::Contour(contour.clone()), PEN);
    picture
}

#[test]
fn svg_samples() {
    save_svg("slot.svg", &outline(&slot()));
    let mirrored = Motion::mirror_left_right().contour(&slot());
    save_svg("slot-mirrored.svg", &outline(&mirrored));
    let turned = Motion::turn(0.7).then(&Motion::shift(Vec2::new(1234.5, -678.9)));
    save_svg("slot-turned.svg", &outline(&turned.contour(&slot())));
    let circle = Contour::circle(point(40.0, 30.0), 12.5, SourceId::UNTRACED).unwrap();
    let mut picture = Picture::new();
    picture.contour(Layer::Inside, circle, PEN);
    save_svg("circle.svg", &picture);
    // a disc of 10 mm with a bite out of it by a circle of 5 mm about its edge: arcs of both senses,
    // one of them over half a turn
    let half = (1.0_f64 - 0.0625).sqrt() * 5.0;
    let (a, b) = (point(10.0 - 1.25, -half), point(10.0 - 1.25, half));
    let bitten = |turn_back| {
        let disc = Arc::from_centre(b, a, Point::ORIGIN, kerfwise::geometry::Turn::Anticlockwise);
        let bite = Arc::from_centre(a, b, point(10.0, 0.0), turn_back);
        Contour::from_segments([Segment::Arc(disc), Segment::Arc(bite)]).unwrap()
    };
    save_svg(
        "bitten.svg",
        &outline(&bitten(kerfwise::geometry::Turn::Clockwise)),
    );
    // arcs of every sweep, each as a path of its own
    let mut picture = Picture::new();
    for step in 1..=72 {
        for sign in [1.0, -1.0] {
            let sweep = sign * f64::from(step) * 4.999_f64.to_radians();
            let column = f64::from(step) * 300.0;
            let arc = Arc::from_angles(point(column, sign * 200.0), 123.456, 0.1, sweep);
            let piece = Piece::new(arc.into(), SourceId::UNTRACED);
            picture.path(Layer::Mark, Path::new(vec![piece]).unwrap(), PEN);
        }
    }
    save_svg("sweeps.svg", &picture);
}

/// Everything a picture can hold, around a square of 100 mm.
fn all_kinds() -> Picture {
    let mut picture = Picture::new();
    let corners =
        [(0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0)].map(|(x, y)| point(x, y));
    let square = Contour::polygon(&corners).unwrap();
    let patch = Motion::shift(Vec2::new(0.0, -10.0)).contour(&slot());
    picture.fill(Layer::Mark, patch, Shade::Light);
    picture.contour(Layer::Outside, square, PEN);
    let circle = Contour::circle(point(50.0, 50.0), 30.0, SourceId::UNTRACED).unwrap();
    picture.contour(Layer::Inside, circle, PEN);
    picture.stroke(Layer::Drill, Shape::Spot(point(50.0, 50.0)), PEN);
    let dashed = Pen::solid(0.35).line_type(LineType::LongDashedDotted);
    picture.line(
        Layer::CentreLines,
        point(-20.0, 50.0),
        point(120.0, 50.0),
        dashed,
    );
    for (anchor, y) in [
        (Anchor::Start, 70.0),
        (Anchor::Middle, 62.0),
        (Anchor::End, 54.0),
    ] {
        picture.text(Text {
            layer: Layer::Words,
            at: point(50.0, y),
            size: 5.0,
            anchor,
            angle: 0.0,
            content: format!("{anchor:?} ⌀ 12.5 ± 0.1 µm 漢"),
        });
    }
    picture.text(Text {
        layer: Layer::Words,
        at: point(-5.0, 0.0),
        size: 5.0,
        anchor: Anchor::Start,
        angle: std::f64::consts::FRAC_PI_2,
        content: "Upright words".to_owned(),
    });
    picture
}

fn page(placements: Vec<Placement>, label: &str) -> PdfPage {
    PdfPage {
        width: 210.0,
        height: 297.0,
        placements,
        label: label.to_owned(),
    }
}

fn save_pdf(name: &str, pictures: Vec<Picture>, pages: Vec<PdfPage>) {
    let file = PdfFile {
        title: "Sample".to_owned(),
        subject: "Fingerprint 0123 · Kerfwise".to_owned(),
        pictures,
        pages,
    };
    save(name, &pdf::write(&file).unwrap());
}

/// Pages of 190 × 270 mm windows on a picture, row by row.
fn tiles(across: u32, up: u32, from: Vec2) -> Vec<PdfPage> {
    let window = Rect::new(10.0, 13.5, 200.0, 283.5);
    let mut pages = Vec::new();
    for row in 0..up {
        for column in 0..across {
            let corner = Vec2::new(f64::from(column) * 190.0, f64::from(row) * 270.0);
            let shift = Motion::shift(Vec2::new(10.0, 13.5) - from - corner);
            let mut placement = Placement::new(0, shift);
            placement.clip = Some(window);
            pages.push(page(vec![placement], &format!("{row}-{column}")));
        }
    }
    pages
}

#[test]
fn pdf_samples() {
    let at = |x, y| Placement::new(0, Motion::shift(Vec2::new(x, y)));
    save_pdf(
        "all.pdf",
        vec![all_kinds()],
        vec![page(vec![at(55.0, 100.0)], "A1")],
    );
    // the square drawn for a printer that makes x 1.4 % short and y 1 % long
    let mut stretched = at(55.0, 100.0);
    stretched.stretch = Stretch::scale(1.0 / 0.986, 1.0 / 1.01, point(55.0, 100.0));
    save_pdf(
        "stretched.pdf",
        vec![all_kinds()],
        vec![page(vec![stretched], "")],
    );
    let turned = Motion::turn(0.5).then(&Motion::shift(Vec2::new(105.0, 100.0)));
    let turned = Placement::new(0, turned);
    save_pdf(
        "turned.pdf",
        vec![outline(&slot())],
        vec![page(vec![turned], "")],
    );
    // seen from behind: the slot with its corner at (105, 100), running to the left
    let mirrored = Motion::mirror_left_right().then(&Motion::shift(Vec2::new(105.0, 100.0)));
    let mirrored = Placement::new(0, mirrored);
    save_pdf(
        "mirrored.pdf",
        vec![outline(&slot())],
        vec![page(vec![mirrored], "")],
    );
    // a board of 2400 × 1200 mm with marks at odd places, far from its own origin
    let mut board = Picture::new();
    let from = Vec2::new(5000.0, -3000.0);
    for index in 0..240_u32 {
        let x = f64::from(index) * 10.012_345;
        let y = f64::from(index) * 5.006_789;
        let start = Point::ORIGIN + from + Vec2::new(x, y);
        board.line(Layer::Mark, start, start + Vec2::new(7.123_4, 3.217_8), PEN);
    }
    save_pdf("board.pdf", vec![board], tiles(13, 5, from));
}

#[test]
fn a_hundred_thousand_edges_on_forty_pages_stay_small() {
    // a comb of 50 000 teeth with round tips along a wavy line, 1500 × 1000 mm
    let mut corners = Vec::new();
    for index in 0..50_000_u32 {
        let along = f64::from(index % 250) * 6.0;
        let row = f64::from(index / 250) * 5.0;
        let (x, y) = if (index / 250) % 2 == 0 {
            (along, row)
        } else {
            (1497.0 - along, row)
        };
        let lift = f64::from(index * 7_919 % 1_000) * 1e-3;
        corners.push((x, y + lift, 0.0));
        corners.push((
            x + 2.713,
            y + 1.0 + lift,
            if index % 2 == 0 { 0.4 } else { 0.0 },
        ));
    }
    let following = corners.iter().skip(1);
    let pieces = corners
        .iter()
        .zip(following)
        .map(|(&(x, y, bulge), &(x1, y1, _))| {
            let (start, end) = (point(x, y), point(x1, y1));
            let segment = match bulge {
                0.0 => Segment::line(start, end),
                bulge => Arc::from_bulge(start, end, bulge).unwrap().into(),
            };
            Piece::new(segment, SourceId::UNTRACED)
        });
    let mut comb = Picture::new();
    comb.path(Layer::Mark, Path::new(pieces.collect()).unwrap(), PEN);
    let file = PdfFile {
        pictures: vec![comb.clone()],
        pages: tiles(8, 5, Vec2::ZERO),
        ..PdfFile::default()
    };
    let started = std::time::Instant::now();
    let bytes = pdf::write(&file).unwrap();
    println!("{} bytes of PDF in {:?}", bytes.len(), started.elapsed());
    assert!(bytes.len() < 20_000_000, "{} bytes", bytes.len());
    let started = std::time::Instant::now();
    let text = svg::write(&comb, &SvgOptions::default()).unwrap();
    println!("{} bytes of SVG in {:?}", text.len(), started.elapsed());
}

fn table(title: &str, rows: u32) -> Table {
    let columns = vec![
        Column::numbers("No.", "number"),
        Column::words("What is measured", "what"),
        Column::numbers("Nominal", "nominal"),
        Column::numbers("Least allowed", "least"),
        Column::words("Reading", "reading"),
        Column::words("How it is taken", "how"),
    ];
    let mut table = Table::new(title, columns);
    for row in 0..rows {
        let length = |mm| Cell::from(Quantity::length(mm, LengthUnit::Millimetre));
        let nominal = 100.0 + f64::from(row) * 17.3;
        let how = if row % 4 == 0 {
            "Callipers, over the rounds, square to the trailing edge; three readings, of which the \
             middle one counts"
        } else {
            "Tape, to the sharp corner"
        };
        table.row(vec![
            Cell::Count(i64::from(row) + 1),
            Cell::from(format!("width {} above the foot", 50 * (row + 1))),
            length(nominal),
            length(nominal - 2.5),
            Cell::Blank,
            Cell::from(how),
        ]);
    }
    table
        .notes
        .push("Readings are taken at 20 °C, after filing.".to_owned());
    table
}

fn wide_table() -> Table {
    let months = 1..=12;
    let columns = months.map(|index| Column::numbers(format!("Station {index}"), "station"));
    let mut table = Table::new("Half breadths at twelve stations", columns.collect());
    for row in 0..6 {
        let cell = |column| {
            let breadth = f64::from(row * 30 + column * 11) + 0.25;
            Cell::from(Quantity::length(breadth, LengthUnit::Millimetre))
        };
        table.row((1..=12).map(cell).collect());
    }
    table
}

fn words(times: usize) -> String {
    let sentence = "Clamp the plate flat, scribe from the datum edge and never from a line that was \
                    itself scribed; keep the dividers at one setting for both ends of the part. ";
    sentence.repeat(times).trim_end().to_owned()
}

#[test]
fn document_samples() {
    let figure = |picture, caption: &str| {
        let caption = caption.to_owned();
        Block::Figure(Figure { picture, caption })
    };
    let board = Motion::shift(Vec2::ZERO).contour(&bulged(&[
        (0.0, 0.0, 0.0),
        (300.0, 0.0, 0.414),
        (340.0, 40.0, 0.0),
        (340.0, 160.0, 1.0),
        (0.0, 160.0, 0.0),
    ]));
    let blocks = vec![
        Block::Paragraph(words(2)),
        Block::Heading("What to have at hand".to_owned()),
        Block::List(vec![
            "a steel rule of 300 mm and a square".to_owned(),
            words(1),
            "a beam compass that reaches 900 mm".to_owned(),
        ]),
        Block::Caution(words(1)),
        Block::Heading("The part".to_owned()),
        figure(
            all_kinds(),
            "The square, the circle and the slot, in true size.",
        ),
        figure(outline(&board), "A bracket that is wider than the paper."),
        Block::Heading("Inspection".to_owned()),
        Block::Table(table("Widths against their limits", 14)),
        Block::Table(table("A list without entries", 0)),
        Block::Table(wide_table()),
        Block::PageBreak,
        Block::Heading("Everything else".to_owned()),
        Block::Paragraph(words(30)),
        Block::Caution(words(14)),
        Block::Paragraph(format!(
            "A long word: {}.",
            "leeboard_nominal_mm/".repeat(30)
        )),
        Block::Table(table("A long list", 100)),
        Block::PageBreak,
    ];
    let document = Document {
        title: "Marking-out sheet: leeboard for a small canoe yawl".to_owned(),
        footer: "Design fingerprint 9c1185a5c5e9fc54 · Kerfwise 0.1.0 · sizes in mm".to_owned(),
        blocks,
    };
    save(
        "document-a4.pdf",
        &pdf::document(&document, Paper::A4).unwrap(),
    );
    let small = Paper {
        width: 148.0,
        height: 210.0,
    };
    save("document-a5.pdf", &pdf::document(&document, small).unwrap());
    let letter = Paper {
        width: 279.4,
        height: 215.9,
    };
    save(
        "document-letter.pdf",
        &pdf::document(&document, letter).unwrap(),
    );
}
