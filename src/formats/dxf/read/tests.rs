use super::*;
use crate::formats::contents::LayerContents;

/// A file with these entities and nothing else.
fn file(entities: &str) -> String {
    let body = entities.replace(' ', "\n");
    format!("0\nSECTION\n2\nENTITIES\n{body}\n0\nENDSEC\n0\nEOF\n")
}

fn read(entities: &str) -> Result<Contents, FormatError> {
    read_contours(file(entities).as_bytes(), LengthUnit::Millimetre)
}

fn layer(entities: &str) -> LayerContents {
    let contents = read(entities).expect(entities);
    contents.find("cut").expect(entities).clone()
}

#[test]
fn a_slot_has_the_area_of_the_formula() {
    // DXF Reference, VERTEX: a bulge of 1 is a semicircle; 4000 + 400π mm²
    for entities in [
        "0 LWPOLYLINE 8 cut 90 4 70 1 10 0 20 0 10 100 20 0 42 1 10 100 20 40 10 0 20 40 42 1",
        "0 POLYLINE 8 cut 66 1 70 1 10 0 20 0 0 VERTEX 8 cut 10 0 20 0 0 VERTEX 8 cut 10 100 20 0 42 1 \
         0 VERTEX 8 cut 10 100 20 40 0 VERTEX 8 cut 10 0 20 40 42 1 0 SEQEND",
    ] {
        let found = layer(entities);
        let area = found.contours.first().expect("a contour").signed_area();
        assert!(
            (area - 5_256.637_061_436).abs() < 1e-8,
            "{area} mm² from {entities}"
        );
    }
}

#[test]
fn an_arc_runs_anticlockwise_from_its_first_angle() {
    let found = layer("0 ARC 8 cut 10 5 20 0 40 10 50 300 51 60");
    let path = found.paths.first().expect("a path");
    let (start, end) = (path.start(), path.end());
    assert!(
        (start.x - 10.0).abs() < 1e-12 && start.y < 0.0,
        "start {start:?}"
    );
    assert!((end.x - 10.0).abs() < 1e-12 && end.y > 0.0, "end {end:?}");
    let third = 10.0 * crate::geometry::number::FULL_TURN / 3.0;
    assert!(
        (path.length() - third).abs() < 1e-12,
        "length {}",
        path.length()
    );
}

#[test]
fn everything_is_counted() {
    let found = layer(
        "0 CIRCLE 8 cut 10 1 20 2 40 3 0 POINT 8 cut 10 4 20 5 0 LINE 8 cut 10 0 20 0 11 1 21 1 \
         0 TEXT 8 cut 10 0 20 0 40 5 1 a 0 SPLINE 8 cut",
    );
    assert_eq!(found.circles.len(), 1, "circles");
    assert_eq!(found.spots.len(), 1, "points");
    assert_eq!(found.paths.len(), 1, "lines");
    assert_eq!(
        (found.words, found.foreign),
        (1, 1),
        "words, and what is never written"
    );
}

#[test]
fn what_is_no_file_of_ours_is_refused_with_its_line() {
    for (text, problem) in [
        (String::new(), "the file ends before its end mark"),
        (
            "0\nSECTION\n2\nENTITIES\n".to_owned(),
            "the file ends before its end mark",
        ),
        (
            "0\nSECTION\n2\nENTITIES\n0\nEOF\n".to_owned(),
            "the end mark inside a section",
        ),
        ("zero\nSECTION\n".to_owned(), "no group code"),
        ("0\n".to_owned(), "a group code without a value"),
        (
            file("0 LINE 8 cut 10 0 20 0 11 1"),
            "a LINE without its group 21",
        ),
        (file("0 CIRCLE 8 cut 10 0 20 0 40 1e999"), "is no number"),
        (
            file("0 CIRCLE 8 cut 10 0 20 0 40 -1"),
            "a CIRCLE that is none",
        ),
        (
            file("0 LWPOLYLINE 8 cut 90 3 70 1 10 0 20 0 10 1 20 1"),
            "promises another number",
        ),
        (
            file("0 LWPOLYLINE 8 cut 90 1 70 0 10 0 20 0"),
            "a LWPOLYLINE that is none",
        ),
        (
            file("0 LWPOLYLINE 8 cut 90 2 70 0 10 0 20 0 10 nan 20 1"),
            "is no number",
        ),
        (
            file("0 POLYLINE 8 cut 70 1 10 0 20 0"),
            "a POLYLINE without its SEQEND",
        ),
        (
            file("0 ARC 8 cut 10 0 20 0 40 1 50 7 51 7"),
            "an ARC without a length",
        ),
    ] {
        let found = read_contours(text.as_bytes(), LengthUnit::Millimetre);
        match found {
            Err(FormatError::Malformed { problem: found, .. }) => {
                assert!(found.contains(problem), "\"{found}\" for \"{problem}\"");
            }
            other => panic!("{other:?} for \"{problem}\""),
        }
    }
}

#[test]
fn many_layers_do_not_make_it_slow() {
    let entities: Vec<String> = (0..100_000)
        .map(|place| format!("0 POINT 8 l{place} 10 0 20 0"))
        .collect();
    let found = read(&entities.join(" "));
    assert!(matches!(found, Err(FormatError::TooMuch { .. })), "refused");
}
