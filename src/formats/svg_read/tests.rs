use super::*;
use crate::formats::contents::compare;
use crate::formats::svg::SvgOptions;
use crate::formats::svg::write;
use crate::geometry::Arc;
use crate::geometry::Path;
use crate::geometry::Piece;
use crate::geometry::Segment;
use crate::geometry::number;
use crate::sheet::Anchor;
use crate::sheet::Layer;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Shade;
use crate::sheet::Text;
use proptest::prelude::any;
use proptest::prelude::prop;
use proptest::proptest;

fn drawn() -> Picture {
    let pen = Pen::solid(0.25);
    let mut picture = Picture::new();
    let arc = Arc::from_angles(Point::new(-700.5, 310.25), 20.0, -0.9, 5.1);
    let (start, end) = (arc.start(), arc.end());
    let below = Point::new(start.x, start.y - 70.0);
    let outline = Contour::from_segments([
        arc.into(),
        Segment::line(end, below),
        Segment::line(below, start),
    ]);
    picture.contour(Layer::Outside, outline.unwrap(), pen);
    for sweep in [3.0, number::HALF_TURN, -3.3, 6.25, 0.01, -1.5] {
        let arc = Arc::from_angles(Point::new(3.0, 4.0), 1_234.5, 0.4, sweep);
        let piece = Piece::new(arc.into(), SourceId::UNTRACED);
        picture.path(Layer::Mark, Path::new(vec![piece]).unwrap(), pen);
    }
    let hole = Contour::circle(Point::new(-700.0, 311.0), 4.0, SourceId::UNTRACED).unwrap();
    picture.contour(Layer::Inside, hole.clone(), pen);
    picture.fill(Layer::Guides, hole, Shade::White);
    picture.stroke(Layer::Drill, Shape::Spot(Point::new(5.25, -3.0)), pen);
    picture.text(Text {
        layer: Layer::Words,
        at: Point::new(0.0, 0.0),
        size: 4.0,
        anchor: Anchor::Start,
        angle: 0.0,
        content: "a < b & \"c\" –".to_owned(),
    });
    picture
}

fn file() -> String {
    write(&drawn(), &SvgOptions::default()).unwrap()
}

fn compared(text: &str) -> Result<(), FormatError> {
    compare(&drawn(), &read_contours(text.as_bytes())?)
}

#[test]
fn what_was_written_is_read_back() {
    assert_eq!(compared(&file()), Ok(()), "{}", file());
}

#[test]
fn a_fault_is_noticed() {
    let file = file();
    for (fault, from, to) in [
        ("the other way round an arc", "20 20 0 1 0", "20 20 0 1 1"),
        ("the short way of an arc", "20 20 0 1 0", "20 20 0 0 0"),
        ("another radius", "A20 20", "A20.001 20.001"),
        ("an open outline", "Z\"", "\""),
        ("a shifted hole", "cx=\"-700\"", "cx=\"-700.001\""),
        ("another layer", "class=\"drill\"", "class=\"mark\""),
        ("inches", "viewBox=\"", "viewBox=\"1 1 1 1\" x=\""),
        ("an image", "</g>", "<image/></g>"),
    ] {
        let faulty = file.replacen(from, to, 1);
        assert_ne!(faulty, file, "{fault} can be put in");
        assert!(compared(&faulty).is_err(), "{fault} went unnoticed");
    }
}

#[test]
fn the_arcs_of_the_specification_come_out_as_it_says() {
    // SVG 1.1, example arcs01, by two other libraries: centre (300, 200), −270°, length 706.858347;
    // the last radius is too small and becomes 27.950849719 about (675, 312.5)
    for (data, centre, length) in [
        (
            "M150 200A150 150 0 1 0 300 50",
            (300.0, -200.0),
            706.858_347,
        ),
        (
            "M275 25A150 150 0 0 0 125 175",
            (275.0, -175.0),
            235.619_449,
        ),
        (
            "M650 325A25 25 -30 0 1 700 300",
            (675.0, -312.5),
            87.810_184,
        ),
    ] {
        let shapes = path::shapes(data, 1.0).unwrap();
        let [Shape::Path(path)] = shapes.as_slice() else {
            panic!("one path from {data}");
        };
        let Segment::Arc(arc) = path.pieces()[0].segment else {
            panic!("an arc from {data}");
        };
        // near half a turn a centre is known to 1e-5 only
        let off = number::length(arc.centre() - Point::from(centre));
        assert!(off < 1e-5, "{data}: centre {:?}", arc.centre());
        assert!(
            (path.length() - length).abs() < 1e-5,
            "{data}: {}",
            path.length()
        );
    }
}

proptest! {
    #[test]
    fn no_spoiled_file_makes_the_reader_panic(
        places in prop::collection::vec((any::<usize>(), any::<u8>()), 1..6),
        end in any::<usize>(),
    ) {
        let mut bytes = file().into_bytes();
        let length = bytes.len();
        for (place, byte) in places {
            bytes[place % length] = byte;
        }
        let _ = read_contours(&bytes);
        bytes.truncate(end % length);
        let _ = read_contours(&bytes);
    }

    #[test]
    fn no_text_makes_the_reader_panic(text in "[-<>/!?a-z =\"'&;0-9.MLAZ]{0,80}") {
        let _ = read_contours(text.as_bytes());
        let _ = path::shapes(&text, 1.0);
    }
}
