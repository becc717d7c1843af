use super::*;
use crate::geometry::number;

fn svg(inside: &str) -> Incoming {
    let text = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"100mm\" height=\"50mm\" \
         viewBox=\"0 0 100 50\">{inside}</svg>"
    );
    read(text.as_bytes(), &ReadOptions::default()).expect("an SVG")
}

fn dxf(entities: &str) -> Incoming {
    dxf_with("9 $INSUNITS 70 4", "", entities)
}

fn dxf_with(header: &str, blocks: &str, entities: &str) -> Incoming {
    let lines = |text: &str| text.replace(' ', "\n");
    let text = format!(
        "0\nSECTION\n2\nHEADER\n{}\n0\nENDSEC\n0\nSECTION\n2\nBLOCKS\n{}\n0\nENDSEC\n0\nSECTION\n2\n\
         ENTITIES\n{}\n0\nENDSEC\n0\nEOF\n",
        lines(format!("9 $ACADVER 1 AC1015 {header}").trim()),
        lines(blocks),
        lines(entities)
    )
    .replace("\n\n", "\n");
    read(text.as_bytes(), &ReadOptions::default()).expect("a DXF")
}

fn segments(drawing: &Incoming) -> Vec<Segment> {
    let of = |drawn: &Drawn| match &drawn.shape {
        DrawnShape::Run { segments, .. } => segments.clone(),
        DrawnShape::Spot(_) => Vec::new(),
    };
    drawing.drawn.iter().flat_map(of).collect()
}

fn length(drawing: &Incoming) -> f64 {
    segments(drawing).iter().map(Segment::length).sum()
}

fn assert_near(found: f64, expected: f64, what: &str) {
    assert!(
        (found - expected).abs() < 1e-9,
        "{what}: {found} for {expected}"
    );
}

#[test]
fn units_of_the_header_are_exact() {
    for (code, millimetres) in [(1, 25.4), (4, 1.0), (5, 10.0), (9, 0.0254), (2, 304.8)] {
        let drawing = dxf_with(
            &format!("9 $INSUNITS 70 {code}"),
            "",
            "0 LINE 8 a 10 0 20 0 11 3 21 4",
        );
        assert_near(length(&drawing), 5.0 * millimetres, "a 3-4-5 line");
        assert_eq!(drawing.unit.known, Known::Stated, "code {code}");
    }
}

#[test]
fn mirrored_arcs_lie_where_the_extrusion_puts_them() {
    // an arc about (−10, 0) seen from behind: its centre is at (10, 0), from 180° to 90°
    let drawing = dxf("0 ARC 8 a 10 -10 20 0 40 5 50 0 51 90 210 0 220 0 230 -1");
    let [Segment::Arc(arc)] = segments(&drawing)[..] else {
        panic!("an arc: {drawing:?}")
    };
    assert_near(arc.centre().x, 10.0, "centre");
    assert_near(arc.start().x, 5.0, "start");
    assert_near(arc.end().y, 5.0, "end");
    assert!(arc.sweep() < 0.0, "it turns the other way: {arc:?}");
}

#[test]
fn blocks_are_scaled_turned_mirrored_nested_and_repeated() {
    let blocks = "0 BLOCK 2 hole 10 1 20 0 0 CIRCLE 8 0 10 1 20 0 40 2 0 ENDBLK \
                  0 BLOCK 2 pair 10 0 20 0 0 INSERT 8 0 2 hole 10 5 20 0 \
                  0 INSERT 8 0 2 hole 10 -5 20 0 0 ENDBLK";
    let drawing = dxf_with(
        "9 $INSUNITS 70 4",
        blocks,
        "0 INSERT 8 plate 2 pair 10 100 20 50 41 -2 42 2 50 90 70 3 71 2 44 40 45 30",
    );
    assert_eq!(drawing.drawn.len(), 12, "two holes, three by two");
    assert_eq!(drawing.layers, ["plate"], "layer 0 takes the reference's");
    for drawn in &drawing.drawn {
        let DrawnShape::Run { segments, .. } = &drawn.shape else {
            panic!("a run: {drawn:?}")
        };
        let [Segment::Arc(arc)] = segments[..] else {
            panic!("a circle: {drawn:?}")
        };
        assert_near(arc.radius(), 4.0, "twice as large");
        assert!(drawn.place.through > 0, "through its reference");
    }
    let Some(DrawnShape::Run { segments, .. }) = drawing.drawn.first().map(|d| &d.shape) else {
        panic!("a run")
    };
    let Some(Segment::Arc(arc)) = segments.first() else {
        panic!("a circle")
    };
    // (5, 0) mirrored and doubled is (−10, 0), turned by 90° (0, −10)
    assert_near(arc.centre().x, 100.0, "x of the first");
    assert_near(arc.centre().y, 40.0, "y of the first");
}

#[test]
fn a_stretched_circle_is_an_ellipse_within_the_tolerance() {
    let blocks = "0 BLOCK 2 hole 10 0 20 0 0 CIRCLE 8 0 10 0 20 0 40 10 0 ENDBLK";
    let drawing = dxf_with(
        "9 $INSUNITS 70 4",
        blocks,
        "0 INSERT 8 a 2 hole 10 0 20 0 41 3 42 1",
    );
    // perimeter of the ellipse 30 × 10 by scipy 1.17.1: 4·30·E(1 − 1/9)
    let perimeter = 133.648_932_205_552_57;
    let off = (length(&drawing) - perimeter).abs();
    assert!(off < 0.05, "off by {off}");
    let deviation = drawing.drawn[0].deviation;
    assert!(
        deviation > 0.0 && deviation <= 0.01,
        "deviation {deviation}"
    );
}

#[test]
fn what_has_no_outline_is_counted_and_what_is_wrong_is_listed() {
    let drawing = dxf(
        "0 TEXT 8 a 10 0 20 0 40 5 1 x 0 HATCH 8 a 0 WIDGET 8 a 0 WIDGET 8 a \
         0 LINE 5 2F 8 a 10 0 20 0 11 zero 21 1 0 CIRCLE 8 a 10 0 20 0 40 -1 \
         0 ARC 8 a 10 0 20 0 40 5 50 0 51 90 210 1 220 0 230 0 0 INSERT 8 a 2 none 10 0 20 0",
    );
    let of = |name: &str| {
        let found = drawing.kinds.iter().find(|kind| kind.name == name);
        found.map(|kind| (kind.count, kind.left_out.clone()))
    };
    assert_eq!(
        of("WIDGET").map(|kind| kind.0),
        Some(2),
        "{:?}",
        drawing.kinds
    );
    assert!(
        of("TEXT").is_some_and(|kind| kind.1.contains("words")),
        "text"
    );
    assert!(
        of("HATCH").is_some_and(|kind| kind.1.contains("filled")),
        "hatch"
    );
    let problems: Vec<&str> = drawing.faults.iter().map(|f| f.problem.as_str()).collect();
    assert_eq!(problems.len(), 4, "{problems:?}");
    assert!(problems[0].contains("\"zero\" in line"), "{problems:?}");
    assert_eq!(drawing.faults[0].place.handle, 0x2F, "its handle");
    assert!(drawing.drawn.is_empty(), "nothing else");
}

#[test]
fn words_in_blocks_count_where_the_block_is_drawn() {
    let blocks = "0 BLOCK 2 a 10 0 20 0 0 TEXT 8 0 10 0 20 0 1 x 0 ENDBLK \
                  0 BLOCK 2 b 10 0 20 0 0 TEXT 8 0 10 0 20 0 1 x 0 ENDBLK";
    let inserts = "0 INSERT 8 a 2 a 10 0 20 0 0 INSERT 8 a 2 a 10 9 20 0";
    let drawing = dxf_with("9 $INSUNITS 70 4", blocks, inserts);
    let words = drawing.kinds.iter().find(|kind| kind.name == "TEXT");
    assert_eq!(words.map(|kind| kind.count), Some(1), "once, and none of b");
}

#[test]
fn a_block_that_holds_itself_ends() {
    let blocks = "0 BLOCK 2 a 10 0 20 0 0 INSERT 8 0 2 a 10 1 20 0 0 LINE 8 0 10 0 20 0 11 1 21 0 \
                  0 ENDBLK";
    let drawing = dxf_with("9 $INSUNITS 70 4", blocks, "0 INSERT 8 a 2 a 10 0 20 0");
    assert!(
        drawing.drawn.len() <= DEEPEST + 1,
        "{}",
        drawing.drawn.len()
    );
    assert_eq!(drawing.faults.len(), 1, "{:?}", drawing.faults);
}

#[test]
fn blocks_that_multiply_are_refused() {
    let mut blocks = "0 BLOCK 2 b0 10 0 20 0 0 LINE 8 0 10 0 20 0 11 1 21 0 0 ENDBLK".to_owned();
    for depth in 1..20 {
        let insert = format!("0 INSERT 8 0 2 b{} 10 0 20 0 ", depth - 1).repeat(10);
        blocks += &[
            " 0 BLOCK 2 b",
            &depth.to_string(),
            " 10 0 20 0 ",
            &insert,
            "0 ENDBLK",
        ]
        .concat();
    }
    let text = format!(
        "0 SECTION 2 BLOCKS {blocks} 0 ENDSEC 0 SECTION 2 ENTITIES 0 INSERT 8 a 2 b19 10 0 20 0 \
         0 ENDSEC 0 EOF"
    )
    .replace(' ', "\n");
    let refused = read(text.as_bytes(), &ReadOptions::default());
    assert!(
        matches!(refused, Err(FormatError::TooMuch { .. })),
        "{refused:?}"
    );
}

#[test]
fn old_polylines_have_their_vertices_and_splines_their_knots() {
    let slot = "0 POLYLINE 8 a 66 1 70 1 0 VERTEX 8 a 10 0 20 0 0 VERTEX 8 a 10 100 20 0 42 1 \
                0 VERTEX 8 a 10 100 20 40 0 VERTEX 8 a 10 0 20 40 42 1 0 SEQEND 8 a";
    let drawing = dxf(slot);
    // 200 + 40π
    assert_near(length(&drawing), 325.663_706_143_591_7, "round the slot");
    let spline = "0 SPLINE 8 a 70 8 71 2 72 6 73 3 40 0 40 0 40 0 40 1 40 1 40 1 41 1 \
                  41 0.70710678118654752 41 1 10 50 20 0 10 50 20 50 10 0 20 50";
    let drawing = dxf_with("9 $INSUNITS 70 4", "", spline);
    let off = (length(&drawing) - 25.0 * number::HALF_TURN).abs();
    assert!(off < 1e-6, "a quarter circle: off by {off}");
}

#[test]
fn every_path_command_of_svg() {
    let shapes = [
        ("<path d=\"M10 10H30V20h-20z\"/>", 60.0),
        ("<path d=\"m10,10 l3,4 m1,1 l-3-4\"/>", 10.0),
        ("<path d=\"M0 0A5 5 0 0 1 10 0\"/>", 5.0 * number::HALF_TURN),
        ("<path d=\"M0 0a5 5 0 1 0 5 -5\"/>", 7.5 * number::HALF_TURN),
        ("<line x1=\"1\" y1=\"1\" x2=\"4\" y2=\"5\"/>", 5.0),
        ("<polyline points=\"0,0 3,4 6,0\"/>", 10.0),
        ("<polygon points=\"0 0 3 4 6 0\"/>", 16.0),
        ("<rect x=\"1\" y=\"2\" width=\"20\" height=\"10\"/>", 60.0),
        (
            "<rect width=\"20\" height=\"10\" rx=\"2\"/>",
            60.0 - 16.0 + 4.0 * number::HALF_TURN,
        ),
        (
            "<circle cx=\"5\" cy=\"5\" r=\"2\"/>",
            4.0 * number::HALF_TURN,
        ),
        (
            "<g transform=\"rotate(30) scale(2)\"><circle r=\"2\"/></g>",
            8.0 * number::HALF_TURN,
        ),
        (
            "<defs><circle id=\"c\" r=\"1\"/></defs><use href=\"#c\" x=\"3\"/><use href=\"#c\"/>",
            4.0 * number::HALF_TURN,
        ),
        ("<path d=\"M0 0C0 0 9 0 9 0S18 0 18 0\"/>", 18.0),
    ];
    for (text, expected) in shapes {
        let drawing = svg(text);
        assert!(drawing.faults.is_empty(), "{text}: {:?}", drawing.faults);
        let off = (length(&drawing) - expected).abs();
        assert!(off < 1e-9, "{text}: {} for {expected}", length(&drawing));
    }
}

#[test]
fn svg_places_layers_and_words() {
    let drawing = svg(
        "\n<g id=\"cut\">\n<rect width=\"3\" height=\"-1\"/><path d=\"M0 0L5 5\"/>\n</g>\
                       <text>a</text><circle r=\"2\" style=\"display:none\"/>",
    );
    assert_eq!(drawing.layers, ["cut"], "layers");
    assert_eq!(drawing.drawn[0].place.line, 3, "{:?}", drawing.drawn);
    assert_eq!(drawing.faults[0].kind, "rect", "{:?}", drawing.faults);
    let left: Vec<&str> = drawing
        .kinds
        .iter()
        .filter(|kind| !kind.left_out.is_empty())
        .map(|kind| kind.name.as_str())
        .collect();
    assert_eq!(left, ["hidden circle", "text"], "{:?}", drawing.kinds);
    assert_eq!(drawing.unit.known, Known::Stated, "{:?}", drawing.unit);
}

#[test]
fn files_that_are_none_are_refused_with_their_line() {
    for (text, line) in [
        ("", 0),
        ("0\nSECTION\n2\nENTITIES\n", 4),
        ("zero\nSECTION\n", 1),
        ("<svg>", 1),
        ("<svg>\n</g></svg>", 2),
        ("<!DOCTYPE svg [<!ENTITY a \"b\">]><svg/>", 1),
        ("<html></html>", 1),
        ("0\nLINE\n", 1),
    ] {
        match read(text.as_bytes(), &ReadOptions::default()) {
            Err(FormatError::Malformed { line: found, .. }) => {
                assert_eq!(found, line, "{text:?}");
            }
            other => panic!("{other:?} for {text:?}"),
        }
    }
}
