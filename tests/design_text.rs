//! Design files as text: what they give, in TOML and in JSON.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot go on fails"
)]

use kerfwise::design::DesignError;
use kerfwise::design::DesignFile;
use kerfwise::design::Dimension;
use kerfwise::design::Dimensions;
use kerfwise::design::Override;
use kerfwise::design::Severity;
use kerfwise::design::Source;
use kerfwise::design::Unresolved;
use kerfwise::design::dimensions::Spread;
use kerfwise::design::dimensions::State;
use kerfwise::design::expression::Kind;
use kerfwise::design::file::CircleSize;
use kerfwise::design::file::EdgeShape;
use kerfwise::design::file::EdgeState;
use kerfwise::design::file::Entry;
use kerfwise::design::file::Measure;
use kerfwise::design::file::OpeningShape;
use kerfwise::design::file::Origin;
use kerfwise::design::file::Placement;
use kerfwise::design::fingerprint::fingerprint;
use std::fs;
use std::path::PathBuf;

fn fixture(name: &str) -> Source {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("fixtures")
        .join(name);
    Source::new(name, fs::read_to_string(&path).unwrap())
}

fn told(source: &Source, errors: &[DesignError]) -> String {
    errors.iter().map(|error| error.to_text(source)).collect()
}

fn read(source: &Source) -> DesignFile {
    DesignFile::read(source).unwrap_or_else(|errors| panic!("{}", told(source, &errors)))
}

fn text(text: &str) -> DesignFile {
    read(&Source::new("test.toml", text))
}

fn evaluate(file: &DesignFile, overrides: &[Override]) -> Dimensions {
    Dimensions::evaluate(file, overrides).unwrap_or_else(|errors| panic!("{errors:#?}"))
}

fn dimension<'a>(dimensions: &'a Dimensions, name: &str) -> &'a Dimension {
    dimensions
        .get(name)
        .unwrap_or_else(|| panic!("no dimension {name}"))
}

#[test]
fn the_leeboard_has_its_dimensions() {
    let file = read(&fixture("designs/leeboard.toml"));
    let dimensions = evaluate(&file, &[]);
    // worked by hand from the file
    for (name, value) in [
        ("pivot_up", 884.0),
        ("foot", 305.0),
        ("head_r", 90.0),
        ("bolt", 12.7),
        ("holes", 3.0),
    ] {
        assert_eq!(
            dimension(&dimensions, name).value(),
            Some(value),
            "value of {name}"
        );
    }
    let foot = dimension(&dimensions, "foot");
    assert_eq!(
        (foot.permitted.min, foot.permitted.max),
        (Some(303.0), Some(309.0)),
        "305 +4 -2"
    );
    let head = dimension(&dimensions, "head_r");
    assert_eq!(head.origin, Origin::Derived, "made of others");
    assert_eq!(
        head.working.as_deref(),
        Some("guard − head_gap = 96 − 6 = 90 mm"),
        "its working"
    );
    assert_eq!(head.spread, Spread::Follows, "no spread of its own");
    let guard = dimension(&dimensions, "guard");
    assert_eq!(
        guard.spread,
        Spread::Instrument("steel rule".to_owned()),
        "a measured dimension has that of its instrument"
    );
    assert_eq!(
        foot.spread,
        Spread::Workmanship(0.5),
        "else that of the maker"
    );
    assert!(
        dimensions.findings().is_empty(),
        "nothing is wrong: {:?}",
        dimensions.findings()
    );
    assert_eq!(dimensions.open().count(), 0, "nothing is open");
}

#[test]
fn the_leeboard_has_its_part() {
    let source = fixture("designs/leeboard.toml");
    let file = read(&source);
    let dimensions = evaluate(&file, &[]);
    let part = &file.part.get("leeboard").unwrap().entry;
    let outline = &part.outline.as_ref().unwrap().value;
    let names: Vec<&str> = outline.iter().map(|entry| entry.name().as_str()).collect();
    assert_eq!(names, ["heel", "toe", "head"], "the entries in order");
    let Entry::Round(round) = &outline[2] else {
        panic!("the head is a round");
    };
    let edge = &round.value.edge.as_ref().unwrap().value;
    assert_eq!(edge.state, EdgeState::PlateEdge, "its edge is the plate's");
    let about = dimensions.point(&round.value.about).unwrap();
    assert_eq!((about.x, about.y), (90.0, 884.0), "centre of the head");
    let EdgeShape::FullBy(bow) = &outline[1].edge().unwrap().value.shape else {
        panic!("the leading edge is full by a bow");
    };
    assert_eq!(dimensions.length(bow), Ok(17.0), "17 mm");
    assert_eq!(
        source.text_at(bow.place),
        "\"17 mm\"",
        "its place in the file"
    );
    let OpeningShape::Circle(circle) = &part.opening[0].value.shape else {
        panic!("the pivot is a circle");
    };
    let CircleSize::Diameter(diameter) = &circle.size else {
        panic!("it has a diameter");
    };
    assert_eq!(dimensions.length(diameter), Ok(13.0), "1/2 in + 0.3 mm");
    let Placement::Places(places) = &part.opening[1].value.placement else {
        panic!("the lightening holes have places");
    };
    assert_eq!(places.len(), 3, "three of them");
    let Measure::Width(width) = &part.limit[0].value.measure.value else {
        panic!("the first limit is on a width");
    };
    assert_eq!(width.from.as_str(), "heel", "above the heel");
    assert_eq!(part.limit[1].value.measure.value, Measure::Weight, "a word");
    let quantity = part.quantity.as_ref().unwrap();
    assert_eq!(
        dimensions.count(quantity, "`quantity`", 1..=1000),
        Ok(2),
        "two of them"
    );
}

#[test]
fn a_plate_has_readings() {
    let source = fixture("designs/leeboard.toml");
    let file = read(&source);
    let dimensions = evaluate(&file, &[]);
    let plate = file.plate.get("stock").unwrap();
    let thickness = plate.entry.thickness.as_ref().unwrap();
    let (thickness, findings) = dimensions.entry(&plate.name, thickness).unwrap();
    assert_eq!(thickness.value(), Some(5.0), "nominal");
    let mean = thickness.mean_reading().unwrap();
    assert!(
        (mean - 5.09).abs() < 1e-12,
        "(5.08 + 5.11 + 5.05 + 5.12) / 4 = 5.09, not {mean}"
    );
    assert!(findings.is_empty(), "within its limits: {findings:?}");
}

#[test]
fn json_says_the_same_as_toml() {
    let (toml, json) = (
        read(&fixture("designs/leeboard.toml")),
        read(&fixture("designs/leeboard.json")),
    );
    let (from_toml, from_json) = (evaluate(&toml, &[]), evaluate(&json, &[]));
    for (one, other) in from_toml.iter().zip(&from_json) {
        assert_eq!(one.name, other.name, "same order");
        assert_eq!(one.state, other.state, "same value of {}", one.name);
        assert_eq!(one.permitted, other.permitted, "same limits");
        assert_eq!(one.working, other.working, "same working");
    }
    assert_eq!(
        fingerprint(&toml, &[]),
        fingerprint(&json, &[]),
        "same fingerprint"
    );
}

#[test]
fn the_fingerprint_is_of_the_design_and_not_of_its_layout() {
    let plain =
        text("[dims]\nfoot = 305\nhalf = \"foot / 2\"\n[part.a]\noutline = []\nnote = \"x\"\n");
    let other = text(
        "# a remark\n[part]\na = { note = 'x', outline = [ ] }\n\n[dims]\n  half = \"foot/2\"\nfoot = 305.0\n",
    );
    let print = |file: &DesignFile, set: &[Override]| fingerprint(file, set).unwrap();
    let first = print(&plain, &[]);
    assert_eq!(first.len(), 64, "64 digits: {first}");
    assert_eq!(first, print(&other, &[]), "layout does not count");
    let set = |value: &str| print(&plain, &[Override::text("foot", value)]);
    assert_eq!(first, set("305 mm"), "set to what it is");
    assert_ne!(first, set("306"), "set to another value");
    assert_ne!(
        first,
        print(
            &text(
                "[dims]\nfoot = 305\nhalf = \"foot / 2\"\n[part.a]\noutline = []\nnote = \"y\"\n"
            ),
            &[]
        ),
        "a note counts"
    );
    assert_ne!(
        first,
        print(
            &text(
                "[dims]\nfoot = { value = 305, tol = 1 }\nhalf = \"foot / 2\"\n[part.a]\noutline = []\nnote = \"x\"\n"
            ),
            &[]
        ),
        "a limit counts"
    );
}

#[test]
fn what_depends_on_an_open_dimension_is_undecided() {
    let file = text(
        "[dims]\nguard = { value = \"open\", with = \"steel rule\" }\nhead = \"guard - 6\"\ntop = \"head * 2\"\nfoot = 305\n",
    );
    let dimensions = evaluate(&file, &[]);
    let open: Vec<&str> = dimensions
        .open()
        .map(|dimension| dimension.name.as_str())
        .collect();
    assert_eq!(open, ["guard"], "one is to be measured");
    let undecided = State::Undecided(vec!["guard".to_owned()]);
    assert_eq!(
        dimension(&dimensions, "top").state,
        undecided,
        "through head"
    );
    assert_eq!(dimension(&dimensions, "foot").value(), Some(305.0), "apart");
    let set = evaluate(&file, &[Override::text("guard", "9.6 cm")]);
    assert_eq!(dimension(&set, "top").value(), Some(180.0), "(96 - 6) * 2");
}

#[test]
fn an_amount_with_an_open_dimension_says_which() {
    let file =
        text("[dims]\nguard = \"open\"\n[part.a]\nquantity = \"guard / guard\"\noutline = []\n");
    let dimensions = evaluate(&file, &[]);
    let quantity = file.part.get("a").unwrap().entry.quantity.clone().unwrap();
    assert_eq!(
        dimensions.number(&quantity),
        Err(Unresolved::Open(vec!["guard".to_owned()])),
        "guard is open"
    );
}

#[test]
fn a_count_is_whole() {
    for (written, right) in [
        ("3", true),
        ("2.5", false),
        ("-1", false),
        ("5000000000", false),
    ] {
        let file = text(&format!("[part.a]\nquantity = {written}\noutline = []\n"));
        let dimensions = evaluate(&file, &[]);
        let quantity = file.part.get("a").unwrap().entry.quantity.clone().unwrap();
        let count = dimensions.count(&quantity, "`quantity`", 1..=1000);
        match count {
            Ok(_) => assert!(right, "{written} is no count"),
            Err(Unresolved::Fault(error)) => {
                assert!(!right, "{written} is a count: {error}");
                assert_eq!(error.kind.name(), "not-a-count", "{error}");
            }
            Err(open) => panic!("{open}"),
        }
    }
}

#[test]
fn tolerances_are_counted_from_what_the_file_says() {
    let file = text("[dims]\nfoot = { value = 305, plus = 4, minus = 2 }\nhalf = \"foot / 2\"\n");
    for set in [
        Override::text("foot", "310"),
        Override::exact("foot", 310.0),
    ] {
        let dimensions = evaluate(&file, &[set]);
        let foot = dimension(&dimensions, "foot");
        assert_eq!(foot.value(), Some(310.0), "as set");
        assert_eq!(foot.permitted.max, Some(309.0), "305 + 4, not 310 + 4");
        assert_eq!(dimension(&dimensions, "half").value(), Some(155.0), "half");
        let finding = &dimensions.findings()[0];
        assert_eq!(finding.severity, Severity::Error, "error grade");
        assert_eq!(finding.kind.name(), "outside-limits", "{finding}");
        let message = finding.to_string();
        assert!(message.contains("1 mm over"), "by how much: {message}");
    }
    let one_sided = text("[dims]\nfoot = { value = 305, plus = 4 }\n");
    let permitted = dimension(&evaluate(&one_sided, &[]), "foot").permitted;
    assert_eq!(permitted.min, Some(305.0), "minus left out is zero");
}

#[test]
fn units_of_dimensions() {
    let file = text(
        "units = \"in\"\n[dims]\na = 1.5\nb = { value = 38.1, unit = \"mm\" }\nc = \"1.5\"\nd = { value = 30, unit = \"deg\" }\ne = { value = 3, unit = \"none\" }\nf = { readings = [1.5, \"38.1 mm\"], origin = \"measured\" }\ng = \"a * b\"\nh = { value = 1, tol = \"1/16 in\", unit = \"mm\" }\n",
    );
    let dimensions = evaluate(&file, &[]);
    for name in ["a", "b", "c", "f"] {
        let dimension = dimension(&dimensions, name);
        assert_eq!(dimension.value(), Some(38.1), "{name} is 1.5 in");
        assert_eq!(dimension.kind, Kind::LENGTH, "{name} is a length");
    }
    let angle = dimension(&dimensions, "d");
    assert_eq!(angle.kind, Kind::Angle, "an angle");
    assert_eq!(angle.shown(angle.value().unwrap()), "30°", "in degrees");
    assert_eq!(dimension(&dimensions, "e").kind, Kind::NUMBER, "a count");
    assert_eq!(dimension(&dimensions, "g").kind, Kind::AREA, "an area");
    let h = dimension(&dimensions, "h");
    assert_eq!(h.permitted.max, Some(1.0 + 1.5875), "1 mm + 1/16 in");
}

#[test]
fn overrides_that_cannot_be_are_refused() {
    let file = text("[dims]\nfoot = 305\ncount = { value = 3, unit = \"none\" }\n");
    for (name, value, told) in [
        ("fot", "3", "unknown-override"),
        ("foot", "3 +", "bad-override"),
        ("foot", "heel", "bad-override"),
        ("foot", "foot + 1", "cycle"),
        ("count", "3 mm", "bad-override"),
    ] {
        let errors = Dimensions::evaluate(&file, &[Override::text(name, value)]).unwrap_err();
        assert_eq!(errors.len(), 1, "one error for {name}={value}: {errors:?}");
        assert_eq!(errors[0].kind.name(), told, "{name}={value}: {}", errors[0]);
        assert!(!errors[0].help.is_empty(), "a way out of {name}={value}");
    }
    let errors = Dimensions::evaluate(&file, &[Override::exact("foot", f64::NAN)]).unwrap_err();
    assert_eq!(errors[0].kind.name(), "bad-override", "not a number");
    let twice = [Override::text("foot", "1"), Override::text("foot", "2")];
    let last = evaluate(&file, &twice);
    assert_eq!(
        dimension(&last, "foot").value(),
        Some(2.0),
        "the last holds"
    );
}

#[test]
fn evaluating_twice_gives_the_same() {
    let file = read(&fixture("designs/leeboard.toml"));
    let (one, other) = (evaluate(&file, &[]), evaluate(&file, &[]));
    assert!(one.iter().eq(other.iter()), "a pure function");
}

#[test]
fn a_part_may_be_written_with_every_shape() {
    let file = text(include_str!("../fixtures/designs/every_shape.toml"));
    let shapes = &file.part.get("all").unwrap().entry;
    let outline = &shapes.outline.as_ref().unwrap().value;
    assert_eq!(outline.len(), 14, "all entries are read");
    assert_eq!(shapes.opening.len(), 6, "all openings are read");
    assert_eq!(shapes.limit.len(), 11, "all measures are read");
}

#[test]
fn the_committed_schema_is_fresh() {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("fixtures/design.schema.json");
    let schema = kerfwise::design::schema::json_schema();
    if std::env::var_os("OVERWRITE").is_some() {
        fs::write(&path, &schema).unwrap();
    }
    let committed = fs::read_to_string(&path).unwrap_or_default();
    assert!(
        schema == committed,
        "run OVERWRITE=1 cargo test --test design_text and read the difference"
    );
}
