//! Measures on the part as drawn, and on the same part grown and shrunk, against closed forms.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at what it cannot do"
)]

use kerfwise::design::Design;
use kerfwise::design::Source;
use kerfwise::design::Unresolved;
use kerfwise::documents::jaws;
use kerfwise::documents::reading;
use kerfwise::formats::png;
use kerfwise::geometry::Region;
use kerfwise::geometry::offset::Join;
use kerfwise::geometry::offset::offset;
use kerfwise::measures::How;
use kerfwise::measures::Shape;
use kerfwise::measures::Taken;
use kerfwise::measures::review;
use kerfwise::measures::take;

const PI: f64 = std::f64::consts::PI;

/// An L with a rounded toe and a hole: legs of 200 and 150, 60 and 50 wide; its inside corner filleted
/// by 10; a bolt pattern; a window written as an outline.
const BRACKET: &str = r#"
[plate.flat]
material = "aluminium 5083"
thickness = 6

[part.bracket]
plate = "flat"
datum = { along = "back", from = "heel" }
outline = [
  { corner = "heel", at = [0, 0], fillet = 8, edge = { name = "sole" } },
  { corner = "toe", at = [200, 0], fillet = 20, edge = { name = "front" } },
  { corner = "instep", at = [200, 60], chamfer = [5, 12], edge = { name = "upper" } },
  { corner = "knee", at = [50, 60], fillet = 10, edge = { name = "shin" } },
  { corner = "top", at = [50, 150], edge = { name = "head" } },
  { corner = "back top", at = [0, 150], edge = { name = "back" } },
]

[[part.bracket.opening]]
name = "eye"
circle = { at = [25, 120], diameter = 12 }

[[part.bracket.opening]]
name = "bolts"
circle = { diameter = 8 }
places = [[80, 20], [110, 20], [140, 20]]

[[part.bracket.opening]]
name = "window"
outline = [
  { corner = "lower left", at = [80, 35], fillet = 3, edge = { name = "sill" } },
  { corner = "lower right", at = [140, 35], fillet = 3, edge = { name = "right jamb" } },
  { corner = "upper right", at = [140, 48], edge = { name = "lintel" } },
  { corner = "upper left", at = [80, 48], edge = { name = "left jamb" } },
]
"#;

fn with_limits(limits: &[&str]) -> Design {
    let mut text = BRACKET.to_owned();
    for measure in limits {
        text.extend([
            "\n[[part.bracket.limit]]\nwhat = \"it\"\nmeasure = ",
            measure,
            "\nmin = 0\n",
        ]);
    }
    let source = Source::new("bracket.toml", text);
    Design::load(&source, &[]).unwrap_or_else(|errors| panic!("{}", errors[0].to_text(&source)))
}

/// Takes a measure on the bracket grown by so much.
fn taken(measure: &str, grown: f64) -> Result<Taken, Unresolved> {
    let design = with_limits(&[measure]);
    let part = &design.resolved.parts[0];
    let limit = &design.file.part.get("bracket").unwrap().entry.limit[0];
    let regions: Vec<Region> = if grown == 0.0 {
        vec![part.region.clone()]
    } else {
        offset(&part.region, grown, Join::Round).unwrap().regions
    };
    let shape = if grown == 0.0 {
        Shape::nominal(part)
    } else {
        Shape::changed(part, &regions)
    };
    take(&shape, &limit.value.measure, &design.dimensions)
}

/// Each measure, its value on the part as drawn, and by how much it changes for each millimetre that
/// the part grows all round.
const CLOSED_FORMS: [(&str, f64, f64); 22] = [
    ("{ width = { from = \"back top\", by = 20 } }", 50.0, 2.0),
    // the knee's rounding does not lie on the outside
    ("{ width = { above = \"heel\", by = 45 } }", 200.0, 2.0),
    (
        "{ width = { above = \"heel\", by = 0, to = \"sharp corner\" } }",
        200.0,
        2.0,
    ),
    (
        "{ width = { above = \"heel\", by = 0, to = \"over the rounds\" } }",
        200.0,
        2.0,
    ),
    // the eye at half its height: 25 − √… measured through its centre
    (
        "{ width = { from = \"eye\", by = 0, metal_only = true } }",
        50.0 - 12.0,
        4.0,
    ),
    (
        "{ distance = { from = \"heel\", to = \"back top\" } }",
        150.0,
        2.0,
    ),
    (
        "{ distance = { from = \"bolts\", to = \"sole\" } }",
        20.0,
        1.0,
    ),
    (
        "{ distance = { from = \"bolts 1\", to = \"bolts 3\" } }",
        60.0,
        0.0,
    ),
    (
        "{ distance = { from = \"left jamb\", to = \"right jamb\" } }",
        60.0,
        -2.0,
    ),
    (
        "{ along = \"back\", from = \"heel\", to = \"eye\" }",
        120.0,
        1.0,
    ),
    (
        "{ along = \"sole\", from = \"knee\", to = \"toe\" }",
        150.0,
        0.0,
    ),
    (
        "{ position = { of = \"top\", way = \"along\" } }",
        150.0,
        2.0,
    ),
    (
        "{ position = { of = \"bolts 2\", way = \"square\" } }",
        110.0,
        1.0,
    ),
    (
        "{ position = { of = \"eye\", from = \"bolts 1\", way = \"along\" } }",
        100.0,
        0.0,
    ),
    ("{ radius = \"toe\" }", 20.0, 1.0),
    ("{ radius = \"knee\" }", 10.0, -1.0),
    ("{ diameter = \"bolts\" }", 8.0, -2.0),
    ("{ strip = { between = [\"eye\", \"back\"] } }", 19.0, 2.0),
    (
        "{ strip = { between = [\"bolts 2\", \"window\"] } }",
        11.0,
        2.0,
    ),
    (
        "{ edge_distance = { of = \"bolts\", to = \"sole\" } }",
        16.0,
        2.0,
    ),
    ("{ edge_distance = { of = \"window\" } }", 12.0, 2.0),
    ("{ strip = { between = [\"back\", \"shin\"] } }", 50.0, 2.0),
];

#[test]
fn measures_on_the_part_as_drawn_and_on_its_offsets() {
    for (measure, value, slope) in CLOSED_FORMS {
        for grown in [0.0, 0.3, -0.45, 1.7] {
            let found = taken(measure, grown)
                .unwrap_or_else(|error| panic!("{measure} grown by {grown}: {error}"));
            let expected = value + slope * grown;
            let off = found.value - expected;
            // an offset may be computed at a distance larger by a few 1e-6 mm where there is a tie
            let within = if grown == 0.0 { 1e-12 } else { 2e-5 };
            assert!(
                off.abs() < within * 5.0,
                "{measure} grown by {grown}: {} for {expected}, off by {off:e}",
                found.value
            );
            // jaws on roundings touch at two stations, and metal alone is less than the whole way
            let straight = !measure.contains("metal_only") && !measure.contains("over the rounds");
            if let (Some([a, b]), true) = (found.between, straight) {
                let apart = (b - a).hypot();
                let shown = if measure.contains("position") {
                    found.value.abs()
                } else {
                    found.value
                };
                assert!(
                    (apart - shown).abs() < 1e-9,
                    "{measure}: points {a:?}, {b:?}"
                );
            }
        }
    }
}

#[test]
fn angles_inside_the_material() {
    for (measure, expected) in [
        ("{ angle = { between = [\"sole\", \"front\"] } }", 90.0),
        // at the inside corner the material takes three quarters of a turn
        ("{ angle = { between = [\"shin\", \"upper\"] } }", 270.0),
        ("{ angle = { between = [\"sole\", \"back\"] } }", 90.0),
    ] {
        for grown in [0.0, 0.5] {
            let angle = taken(measure, grown).unwrap().value.to_degrees();
            assert!((angle - expected).abs() < 1e-9, "{measure}: {angle}");
        }
    }
}

#[test]
fn area_and_weight_follow_the_shape() {
    // the L, less what the fillets and the chamfer take, plus the knee's fillet, less the openings
    let spandrel = |r: f64| (1.0 - PI / 4.0) * r * r;
    let whole = 200.0 * 60.0 + 50.0 * 90.0;
    let corners = -spandrel(8.0) - spandrel(20.0) + spandrel(10.0) - 5.0 * 12.0 / 2.0;
    let window = 60.0 * 13.0 - 2.0 * spandrel(3.0);
    let holes = PI * 36.0 + 3.0 * PI * 16.0 + window;
    let area = whole + corners - holes;
    let found = taken("\"area\"", 0.0).unwrap();
    assert!(
        (found.value - area).abs() < 1e-8,
        "{} for {area}",
        found.value
    );
    let weight = taken("\"weight\"", 0.0).unwrap();
    // 2660 kg/m³
    let expected = area * 6.0 * 2660.0 * 1e-9;
    assert!(
        (weight.value - expected).abs() < 1e-9,
        "{} for {expected}",
        weight.value
    );
    assert_eq!(taken("\"thickness\"", 0.0).unwrap().value, 6.0);
}

#[test]
fn a_corner_that_is_rounded_away_says_what_jaws_read() {
    // a foot whose leading edge leans inwards by 10 in 100: a round of 30 takes the corner away
    let text = r#"
[part.foot]
datum = { along = "back", from = "heel" }
outline = [
  { corner = "heel", at = [0, 0], edge = { name = "sole" } },
  { corner = "toe", at = [100, 0], fillet = 30, edge = { name = "lead" } },
  { corner = "head", at = [90, 100], edge = { name = "top" } },
  { corner = "back top", at = [0, 100], edge = { name = "back" } },
]
[[part.foot.limit]]
what = "width of the foot"
measure = { width = { above = "heel", by = 0, to = "sharp corner" } }
max = 101
"#;
    let design = Design::load(&Source::new("foot.toml", text), &[]).unwrap();
    let part = &design.resolved.parts[0];
    let limit = &design.file.part.get("foot").unwrap().entry.limit[0];
    let taken = take(
        &Shape::nominal(part),
        &limit.value.measure,
        &design.dimensions,
    )
    .unwrap();
    assert_eq!(taken.how, How::SharpCorner);
    assert!((taken.value - 100.0).abs() < 1e-12, "{}", taken.value);
    // the centre of the round stands 30 from both lines: on y = 30 and 30 inside the leaning edge
    let slope: f64 = 0.1;
    let centre = 100.0 - slope * 30.0 - 30.0 * (1.0 + slope * slope).sqrt();
    let jaws = taken.jaws.unwrap();
    assert!(
        (jaws.reading - (centre + 30.0)).abs() < 1e-9,
        "{}",
        jaws.reading
    );
    assert!(
        (jaws.between[1].y - 30.0).abs() < 1e-9,
        "level with the centre"
    );
}

#[test]
fn what_cannot_be_measured_is_told_with_names_that_exist() {
    for (measure, name, told) in [
        ("{ radius = \"tow\" }", "unknown-feature", "`toe`"),
        ("{ radius = \"back\" }", "wrong-feature", "a straight edge"),
        ("{ diameter = \"window\" }", "wrong-feature", "not round"),
        (
            "{ position = { of = \"bolts\", way = \"along\" } }",
            "several-features",
            "bolts 1",
        ),
        (
            "{ width = { above = \"heel\", by = 151 } }",
            "station-outside",
            "150",
        ),
        (
            "{ width = { from = \"back top\", by = -0.1 } }",
            "station-outside",
            "150",
        ),
        (
            "{ strip = { between = [\"front\", \"shin\"] } }",
            "no-metal-between",
            "shin",
        ),
        (
            "{ along = \"toe\", from = \"heel\", to = \"top\" }",
            "wrong-feature",
            "a straight edge",
        ),
        (
            "{ edge_distance = { of = \"toe\" } }",
            "wrong-feature",
            "an opening",
        ),
    ] {
        let Err(Unresolved::Fault(error)) = taken(measure, 0.0) else {
            panic!("{measure} is told wrong");
        };
        assert_eq!(error.kind.name(), name, "{measure}");
        let said = error.to_string();
        assert!(said.contains(told), "{measure}: {said}");
        assert!(error.place.end > error.place.start, "{measure}: a place");
    }
    // the bolts close up when the part grows by their radius
    let Err(Unresolved::Fault(error)) = taken("{ diameter = \"bolts\" }", 4.2) else {
        panic!("there are no bolts left");
    };
    assert_eq!(error.kind.name(), "not-on-shape");
}

/// A panel with a full top, a hollow side, and openings with sides; its corners sharp.
const PANEL: &str = r#"
[part.panel]
datum = { along = "sole", from = "a" }
outline = [
  { corner = "a", at = [0, 0], edge = { name = "sole" } },
  { corner = "b", at = [200, 0], edge = { name = "right" } },
  { corner = "c", at = [200, 100], edge = { name = "top", full_by = 18 } },
  { corner = "d", at = [0, 100], edge = { name = "left", hollow_by = 9 } },
]
[[part.panel.opening]]
name = "mortise"
rectangle = { at = [60, 60], width = 40, height = 12, relief = { cutter = 5 } }
[[part.panel.opening]]
name = "vent"
rectangle = { at = [140, 60], width = 50, height = 30, radius = 5, angle = 30 }
[[part.panel.opening]]
name = "ports"
rectangle = { width = 8, height = 5 }
places = [[50, 20], [70, 20]]
[[part.panel.opening]]
name = "slit"
slot = { at = [120, 20], length = 40, width = 7, angle = 10 }
[[part.panel.limit]]
what = "it"
min = 0
measure = "#;

/// Takes a measure on a design with one part and one limit, grown by so much.
fn taken_on(text: &str, grown: f64) -> Result<Taken, Unresolved> {
    let source = Source::new("panel.toml", text);
    let design = Design::load(&source, &[]).unwrap_or_else(|e| panic!("{}", e[0].to_text(&source)));
    let part = &design.resolved.parts[0];
    let limit = &design.file.part.get(&part.name).unwrap().entry.limit[0];
    let measure = &limit.value.measure;
    if grown == 0.0 {
        return take(&Shape::nominal(part), measure, &design.dimensions);
    }
    let grown = offset(&part.region, grown, Join::Round).unwrap().regions;
    take(&Shape::changed(part, &grown), measure, &design.dimensions)
}

/// The radius of an arc by its chord and bow.
fn radius_by_bow(chord: f64, bow: f64) -> f64 {
    (chord * chord / 4.0 + bow * bow) / (2.0 * bow)
}

#[test]
fn bows_and_sizes_of_openings() {
    // an arc about the same centre over the same angle: R (1 − cos) grows by (1 − cos)
    let full = 18.0 / radius_by_bow(200.0, 18.0);
    let hollow = -9.0 / radius_by_bow(100.0, 9.0);
    for (measure, value, slope) in [
        ("{ bow = \"top\" }", 18.0, full),
        ("{ bow = \"left\" }", 9.0, hollow),
        (
            "{ size = { of = \"mortise\", way = \"width\" } }",
            40.0,
            -2.0,
        ),
        (
            "{ size = { of = \"mortise\", way = \"height\" } }",
            12.0,
            -2.0,
        ),
        ("{ size = { of = \"vent\", way = \"width\" } }", 50.0, -2.0),
        ("{ size = { of = \"vent\", way = \"height\" } }", 30.0, -2.0),
        ("{ size = { of = \"ports\", way = \"height\" } }", 5.0, -2.0),
        ("{ size = { of = \"slit\", way = \"width\" } }", 7.0, -2.0),
    ] {
        for grown in [0.0, 0.3, 1.1] {
            let found = taken_on(&format!("{PANEL}{measure}\n"), grown)
                .unwrap_or_else(|error| panic!("{measure} grown by {grown}: {error}"));
            let expected = value + slope * grown;
            let within = if grown == 0.0 { 1e-11 } else { 1e-4 };
            assert!(
                (found.value - expected).abs() < within,
                "{measure} grown by {grown}: {} for {expected}",
                found.value
            );
            let [a, b] = found.between.unwrap();
            assert!(
                ((b - a).hypot() - found.value).abs() < 1e-9,
                "{measure}: {a:?}, {b:?}"
            );
        }
    }
}

/// A rounding of 10 at both ends takes the arc of radius R away up to 90 R / (R − 10) from its middle.
#[test]
fn a_bow_is_taken_between_the_ends_that_are_there() {
    let rounded = PANEL
        .replace(
            "at = [200, 100], edge",
            "at = [200, 100], fillet = 10, edge",
        )
        .replace("at = [0, 100], edge", "at = [0, 100], fillet = 10, edge")
        .replace(", hollow_by = 9", "");
    let found = taken_on(&format!("{rounded}{{ bow = \"top\" }}\n"), 0.0).unwrap();
    let radius = radius_by_bow(200.0, 18.0);
    let half = 90.0 * radius / (radius - 10.0);
    let expected = radius - (radius * radius - half * half).sqrt();
    assert!(
        (found.value - expected).abs() < 1e-9,
        "{} for {expected}",
        found.value
    );
    assert_eq!(found.how, How::StraightEdge);
}

#[test]
fn what_has_no_bow_and_no_sides_is_told_what_to_take() {
    for (measure, told) in [
        ("{ bow = \"sole\" }", "a straight edge"),
        ("{ bow = \"vent\" }", "not round"),
        ("{ size = { of = \"top\", way = \"width\" } }", "an opening"),
        (
            "{ size = { of = \"slit\", way = \"height\" } }",
            "take its `width`",
        ),
        (
            "{ width = { above = \"mortise\", by = 0 } }",
            "`size = { of = \"mortise\", way = \"width\" }`",
        ),
    ] {
        let Err(Unresolved::Fault(error)) = taken_on(&format!("{PANEL}{measure}\n"), 0.0) else {
            panic!("{measure} is told wrong");
        };
        let said = format!("{error} {}", error.help);
        assert!(said.contains(told), "{measure}: {said}");
    }
    for (measure, told) in [
        (
            "{ width = { above = \"eye\", by = 0 } }",
            "`diameter = \"eye\"`",
        ),
        (
            "{ size = { of = \"eye\", way = \"width\" } }",
            "`diameter = \"eye\"`",
        ),
        (
            "{ width = { above = \"window\", by = 0 } }",
            "two of its edges",
        ),
        (
            "{ size = { of = \"window\", way = \"width\" } }",
            "two of its edges",
        ),
    ] {
        let Err(Unresolved::Fault(error)) = taken(measure, 0.0) else {
            panic!("{measure} is told wrong");
        };
        assert!(error.help.contains(told), "{measure}: {}", error.help);
    }
}

/// Jaws stop on the rounding of a corner where the edges beside it do not lean out.
#[test]
fn no_jaws_are_told_that_would_slide() {
    for (head, stops) in [(90, true), (100, true), (110, false)] {
        let text = format!(
            r#"
[part.foot]
datum = {{ along = "back", from = "heel" }}
outline = [
  {{ corner = "heel", at = [0, 0], edge = {{ name = "sole" }} }},
  {{ corner = "toe", at = [100, 0], chamfer = [10, 20], edge = {{ name = "lead" }} }},
  {{ corner = "head", at = [{head}, 100], edge = {{ name = "top" }} }},
  {{ corner = "back top", at = [0, 100], edge = {{ name = "back" }} }},
]
[[part.foot.limit]]
what = "it"
min = 0
measure = "#
        );
        for measure in [
            "{ width = { above = \"heel\", by = 0, to = \"sharp corner\" } }",
            "{ along = \"sole\", from = \"heel\", to = \"toe\" }",
        ] {
            let found = taken_on(&format!("{text}{measure}\n"), 0.0).unwrap();
            let differs = head != 100;
            assert_eq!(
                found.jaws.is_some(),
                stops && differs,
                "{head} {measure}: {found:?}"
            );
        }
    }
}

#[test]
fn the_check_says_in_which_direction_a_width_is_taken() {
    let measures = [
        "{ width = { above = \"heel\", by = 45 } }",
        "{ width = { above = \"heel\", by = 0, to = \"sharp corner\" } }",
    ];
    let design = with_limits(&measures);
    let said: Vec<String> = review(&design)
        .limits
        .iter()
        .map(|judged| reading::how(judged, &design))
        .collect();
    assert_eq!(
        said[0],
        "square to “back”, 45 mm along it from “heel”, straight across"
    );
    assert!(
        said[1].starts_with("square to “back” at “heel”, to the sharp corner"),
        "{said:?}"
    );
}

/// Pictures of where the jaws go, for every measure above; they stay in their square, and are left
/// under `target/tmp/jaws` for looking at.
#[test]
fn where_the_jaws_go() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("target/tmp/jaws");
    std::fs::create_dir_all(&folder).unwrap();
    let design = with_limits(&[]);
    let part = &design.resolved.parts[0];
    let angle = "{ angle = { between = [\"shin\", \"upper\"] } }";
    let measures = CLOSED_FORMS
        .iter()
        .map(|(measure, ..)| *measure)
        .chain([angle]);
    for (index, measure) in measures.enumerate() {
        let taken = taken(measure, 0.0).unwrap();
        let picture = jaws::picture(part, &taken, 50.0);
        let bounds = picture.bounds().unwrap();
        assert!(
            bounds.x0 >= 0.0 && bounds.y0 >= 0.0,
            "{measure}: {bounds:?}"
        );
        assert!(
            bounds.x1 <= 50.0 && bounds.y1 <= 50.0,
            "{measure}: {bounds:?}"
        );
        let bytes = png::write(&picture, 6.0).unwrap();
        std::fs::write(folder.join(format!("{index:02}.png")), bytes).unwrap();
    }
}
