use super::*;
use crate::geometry::Arc;
use crate::geometry::Contour;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::SourceId;

/// A slot of 60 mm between centres and 20 mm radius, from (0, 0).
fn slot() -> Contour {
    let (a, b) = (Point::new(0.0, -20.0), Point::new(60.0, -20.0));
    let (c, d) = (Point::new(60.0, 20.0), Point::new(0.0, 20.0));
    Contour::from_segments([
        Segment::line(a, b),
        Arc::from_bulge(b, c, 1.0).unwrap().into(),
        Segment::line(c, d),
        Arc::from_bulge(d, a, 1.0).unwrap().into(),
    ])
    .unwrap()
}

fn written(picture: &Picture) -> String {
    write(picture, &SvgOptions::default()).unwrap()
}

fn words(content: &str) -> Text {
    Text {
        layer: Layer::Words,
        at: Point::new(5.0, 6.0),
        size: 3.5,
        anchor: Anchor::Middle,
        angle: number::QUARTER_TURN,
        content: content.to_owned(),
    }
}

#[test]
fn the_page_is_the_picture_with_its_pens_in_millimetres() {
    let mut picture = Picture::new();
    picture.contour(Layer::Outside, slot(), Pen::solid(0.5));
    let options = SvgOptions {
        margin: 9.75,
        ..SvgOptions::default()
    };
    let file = write(&picture, &options).unwrap();
    for part in [
        r#"width="120mm""#,
        r#"height="60mm""#,
        r#"viewBox="-30 -30 120 60""#,
        // half a turn in two, so that no reader loses its centre
        r#"d="M0 20L60 20A20 20 0 0 0 80 0A20 20 0 0 0 60 -20L0 -20A"#,
        r#"id="outside""#,
    ] {
        assert!(file.contains(part), "{part} is missing in\n{file}");
    }
}

#[test]
fn layers_are_one_group_each_unless_something_is_filled() {
    let mut picture = Picture::new();
    let circle = |x| Contour::circle(Point::new(x, 0.0), 3.0, SourceId::UNTRACED).unwrap();
    picture.contour(Layer::Inside, circle(0.0), Pen::solid(0.2));
    picture.contour(Layer::Outside, circle(10.0), Pen::solid(0.2));
    picture.contour(Layer::Inside, circle(20.0), Pen::solid(0.2));
    let file = written(&picture);
    assert_eq!(file.matches("<g ").count(), 2, "groups in\n{file}");
    picture.fill(Layer::Outside, circle(10.0), Shade::White);
    picture.contour(Layer::Inside, circle(20.0), Pen::solid(0.2));
    let file = written(&picture);
    for id in ["inside", "outside", "inside-2", "outside-2", "inside-3"] {
        let wanted = format!(r#"id="{id}""#);
        assert_eq!(file.matches(&wanted).count(), 1, "group {id} in\n{file}");
    }
}

#[test]
fn dashes_are_in_line_widths_and_can_be_forbidden() {
    let mut picture = Picture::new();
    let pen = Pen::solid(0.25).line_type(LineType::LongDashedDotted);
    picture.line(Layer::CentreLines, Point::ORIGIN, Point::new(9.0, 0.0), pen);
    // ISO 128-2: 24 d, gap 3 d, dot half a d
    let file = written(&picture);
    assert!(
        file.contains(r#"stroke-dasharray="6 0.75 0.125 0.75""#),
        "dashes in\n{file}"
    );
    let options = SvgOptions {
        pens: Pens::AllContinuous(0.1),
        ..SvgOptions::default()
    };
    let file = write(&picture, &options).unwrap();
    assert!(!file.contains("dasharray"), "no dashes in\n{file}");
    assert!(file.contains(r#"stroke-width="0.1""#), "width in\n{file}");
}

#[test]
fn words_are_escaped_turned_and_filtered() {
    let mut picture = Picture::new();
    picture.text(words("a < b & \"c\"\u{7}\u{202E} 漢"));
    let file = written(&picture);
    assert!(
        file.contains("a &lt; b &amp; \"c\" \u{FFFD}"),
        "words in\n{file}"
    );
    assert!(
        file.contains(r#"transform="rotate(-90 5 -6)""#),
        "turn in\n{file}"
    );
    assert!(
        file.contains(r#"text-anchor="middle""#),
        "anchor in\n{file}"
    );
}

#[test]
fn titles_and_comments_cannot_break_out() {
    let mut picture = Picture::new();
    picture.text(words("x"));
    let options = SvgOptions {
        title: "</title><script>".to_owned(),
        comments: vec!["--> <script> -".to_owned()],
        ..SvgOptions::default()
    };
    let file = write(&picture, &options).unwrap();
    assert!(!file.contains("</title><"), "title in\n{file}");
    assert_eq!(file.matches("-->").count(), 1, "comment ends in\n{file}");
}

#[test]
fn an_empty_picture_and_numbers_that_are_none_are_refused() {
    let empty = write(&Picture::new(), &SvgOptions::default());
    assert_eq!(empty, Err(FormatError::NothingToDraw), "empty");
    let mut picture = Picture::new();
    picture.stroke(
        Layer::Drill,
        Shape::Spot(Point::new(f64::NAN, 0.0)),
        Pen::solid(0.25),
    );
    let found = write(&picture, &SvgOptions::default());
    assert!(
        matches!(found, Err(FormatError::NotUsable { .. })),
        "a spot nowhere: {found:?}"
    );
}

#[test]
fn the_same_picture_gives_the_same_file() {
    let mut picture = Picture::new();
    picture.contour(Layer::Outside, slot(), Pen::solid(0.5));
    picture.text(words("slot"));
    assert_eq!(written(&picture), written(&picture.clone()), "two writings");
}
