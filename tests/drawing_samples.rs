//! Writes sample drawings into a temporary folder, for the readers in `tests/oracles/` that are not
//! ours: run `cargo test --test drawing_samples`, then `python3 tests/oracles/svg.py` and `pdf.py`.

#![expect(clippy::unwrap_used, reason = "a test may fail loudly")]

use std::fs;
use std::path::PathBuf;

use kerfwise::formats::pdf;
use kerfwise::formats::pdf::PdfFile;
use kerfwise::formats::pdf::PdfPage;
use kerfwise::formats::pdf::Placement;
use kerfwise::formats::pdf::Stretch;
use kerfwise::formats::svg;
use kerfwise::formats::svg::SvgOptions;
use kerfwise::geometry::Arc;
use kerfwise::geometry::Contour;
use kerfwise::geometry::Motion;
use kerfwise::geometry::Path;
use kerfwise::geometry::Piece;
use kerfwise::geometry::Point;
use kerfwise::geometry::Rect;
use kerfwise::geometry::Segment;
use kerfwise::geometry::SourceId;
use kerfwise::geometry::Vec2;
use kerfwise::sheet::Anchor;
use kerfwise::sheet::Layer;
use kerfwise::sheet::LineType;
use kerfwise::sheet::Pen;
use kerfwise::sheet::Picture;
use kerfwise::sheet::Shade;
use kerfwise::sheet::Shape;
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
