//! Readings over the rounds, and what may be filed off an edge by all rows together.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on fails")]

use kerfwise::design::Design;
use kerfwise::design::Source;
use kerfwise::documents::Stamp;
use kerfwise::documents::record;
use kerfwise::formats::json;
use kerfwise::measures::inspection;
use kerfwise::measures::inspection::Inspection;
use kerfwise::measures::inspection::Item;
use kerfwise::measures::inspection::Rules;
use kerfwise::measures::readings;
use kerfwise::measures::readings::Reached;
use kerfwise::measures::readings::typed;
use kerfwise::measures::verdict::Verdict;

/// A triangle with 60° at `b` and a rounding of 10 mm there: its centre lies 10/tan 30° = 17.3205 mm before
/// `b`, so jaws over the round read 100 − 17.3205 + 10 = 92.6795 mm, 7.3205 mm less than to the corner.
const TRIANGLE: &str = r#"
[dims]
foot = { value = 100, min = 99, max = 103, measure = { position = { of = "b", way = "along" } } }
high = { value = "foot*tan(60 deg)", measure = { position = { of = "c", way = "square" } } }
[part.triangle]
datum = { along = "bottom", from = "a" }
outline = [
  { corner = "a", at = [0, 0], edge = { name = "bottom" } },
  { corner = "b", at = ["foot", 0], fillet = 10, edge = { name = "slope" } },
  { corner = "c", at = [0, "foot*tan(60 deg)"], edge = { name = "back" } },
]
"#;

/// What the round of the triangle takes away, by the arithmetic above.
fn taken_away() -> f64 {
    // tan 30° = 1/√3
    10.0 * 3.0_f64.sqrt() - 10.0
}

fn load(text: &str) -> (Design, Vec<Item>) {
    let design = Design::load(&Source::new("part.toml", text), &[]).unwrap();
    let items = inspection::items(&design).unwrap();
    (design, items)
}

fn inspect(items: &[Item], lines: &str) -> Inspection {
    let taken = readings::read(lines, items, "").unwrap();
    inspection::inspect(items, &taken, &Rules::default()).unwrap()
}

/// The whole record as text.
fn words(inspection: &Inspection, design: &Design) -> String {
    let document = record::record(inspection, design, &Stamp::of(design));
    json::write(&document, &serde_json::Map::new()).unwrap()
}

#[test]
fn a_reading_over_the_rounds_is_brought_to_the_sharp_corner() {
    let (design, items) = load(TRIANGLE);
    let inspection = inspect(
        &items,
        "row,reading,taken,with\n1,92.68,over the rounds,gauge ±0.2 mm\n",
    );
    let found = inspection.items[0].found.as_ref().unwrap();
    assert!(
        (found.budget.value - (92.68 + taken_away())).abs() < 1e-9,
        "{}",
        found.budget.value
    );
    assert_eq!(inspection.items[0].verdict(), Some(Verdict::Conforms));
    let words = words(&inspection, &design);
    assert!(
        words.contains("7.32 mm is added to bring it to the sharp corner"),
        "{words}"
    );
    assert!(words.contains("which takes the rounds as drawn"), "{words}");
}

#[test]
fn what_does_not_say_which_it_is_is_not_decided_where_that_matters() {
    let (design, items) = load(TRIANGLE);
    // 92.68 is scrap to the corner and 100.0005 over the round; 100 conforms to the corner and is
    // 107.32 over the round; 110 is too large either way
    for (reading, expected) in [
        ("92.68", Verdict::NotDecided),
        ("100", Verdict::NotDecided),
        ("110", Verdict::DoesNotConform),
    ] {
        let lines = format!("row,reading,with\n1,{reading},gauge ±0.2 mm\n");
        let inspection = inspect(&items, &lines);
        assert_eq!(inspection.items[0].verdict(), Some(expected), "{reading}");
        let words = words(&inspection, &design);
        assert!(words.contains("nothing says which was read"), "{words}");
    }
    let said = words(
        &inspect(&items, "row,reading,with\n1,92.68,gauge ±0.2 mm\n"),
        &design,
    );
    for needed in [
        "1 foot, not decided",
        "6.32 mm outside; 1.00 mm inside if over the rounds",
        "1 is not decided, for nothing says what was read",
    ] {
        assert!(said.contains(needed), "{needed} in {said}");
    }
    let corner = inspect(
        &items,
        "row,reading,taken,with\n1,92.68,sharp corner,gauge ±0.2 mm\n",
    );
    assert_eq!(
        corner.items[0].verdict(),
        Some(Verdict::DoesNotConform),
        "said to be to the corner"
    );
}

#[test]
fn a_line_typed_says_over_the_rounds_too() {
    let (_, items) = load(TRIANGLE);
    let typed_line = typed::line("92.7; 92.6 over the rounds with steel rule", &items[0]).unwrap();
    assert_eq!(typed_line.reached, Some(Reached::OverTheRounds));
    let values: Vec<f64> = typed_line.readings.iter().map(|one| one.value).collect();
    assert_eq!(values, [92.7, 92.6]);
    assert!(typed_line.means.is_some(), "and the instrument");
    let corner = typed::line("100.1 to the sharp corner", &items[0]).unwrap();
    assert_eq!(corner.reached, Some(Reached::AsTheRowSays));
    let refused = typed::line("173 over the rounds", &items[1]).unwrap_err();
    assert_eq!(refused.fault.name(), "not-taken-so", "{refused}");
    assert_eq!(refused.place, kerfwise::design::Place::new(4, 19));
}

#[test]
fn the_form_asks_which_it_is_and_reads_it_back() {
    let (design, items) = load(TRIANGLE);
    let stamp = Stamp::of(&design);
    let form = record::empty_csv(items.iter(), &stamp);
    assert!(
        form.contains("write what you read, and which: `over the rounds` or `to the sharp corner`"),
        "{form}"
    );
    let taken = readings::read(
        "row,reading,taken,with\n1,92.68,over the rounds,steel rule\n",
        &items,
        "",
    )
    .unwrap();
    let kept = record::readings_csv(&items, &taken, &stamp);
    let again = readings::read(&kept, &items, &design.fingerprint).unwrap();
    assert_eq!(again[0].reached, Some(Reached::OverTheRounds), "{kept}");
    let mixed = readings::read(
        "row,reading,taken\n1,92.68,over the rounds\n1,100,\n",
        &items,
        "",
    )
    .unwrap_err();
    assert_eq!(mixed[0].fault.name(), "two-ways-of-reading");
}

#[test]
fn a_mate_is_made_by_the_sharp_corner_and_by_nothing_unsaid() {
    let (design, items) = load(TRIANGLE);
    let set = |lines: &str| {
        let taken = readings::read(lines, &items, "").unwrap();
        readings::as_made(&items, &taken, &design.dimensions)
    };
    let errors = set("row,reading\n1,92.68\n").unwrap_err();
    assert_eq!(errors[0].fault.name(), "not-said-which", "{errors:?}");
    let set = set("row,reading,taken\n1,92.68,rounds\n").unwrap();
    let made = Design::load(&Source::new("part.toml", TRIANGLE), &set).unwrap();
    let foot = made.dimensions.get("foot").unwrap().value().unwrap();
    assert!((foot - (92.68 + taken_away())).abs() < 1e-9, "{foot}");
}

/// A plate of 100 × 40 with a hole of 10 mm, its centre `up` above the lower edge.
fn plate(up: f64, least: f64) -> String {
    format!(
        r#"
[dims]
breadth = {{ value = 40, min = 36, measure = {{ distance = {{ from = "bottom", to = "top" }} }} }}
[part.plate]
datum = {{ along = "bottom", from = "a" }}
outline = [
  {{ corner = "a", at = [0, 0], edge = {{ name = "bottom" }} }},
  {{ corner = "b", at = [100, 0], edge = {{ name = "right" }} }},
  {{ corner = "c", at = [100, "breadth"], edge = {{ name = "top" }} }},
  {{ corner = "d", at = [0, "breadth"], edge = {{ name = "left" }} }},
]
[[part.plate.opening]]
name = "bolt"
circle = {{ at = [50, {up}], diameter = 10 }}
[[part.plate.limit]]
what = "hole to edge"
measure = {{ edge_distance = {{ of = "bolt" }} }}
min = {least}
"#
    )
}

/// Edge, depth and row that stops it, of the breadth.
fn stops(inspection: &Inspection) -> Vec<(String, f64, usize)> {
    inspection::stops(inspection, &inspection.items[0])
        .into_iter()
        .map(|stop| (stop.edge, stop.depth, stop.number))
        .collect()
}

#[test]
fn an_edge_is_filed_no_further_than_any_of_its_rows_permits() {
    // in the middle 20 − 5 = 15 mm of metal on either side, 2 more than the limit
    let (design, items) = load(&plate(20.0, 13.0));
    let guard = 2.0 * 0.2 / 3.0_f64.sqrt();
    let near = |found: &[(String, f64, usize)], expected: &[(&str, f64, usize)]| {
        assert_eq!(found.len(), expected.len(), "{found:?}");
        for (found, expected) in found.iter().zip(expected) {
            assert!(
                found.0 == expected.0
                    && (found.1 - expected.1).abs() < 1e-6
                    && found.2 == expected.2,
                "{found:?} for {expected:?}"
            );
        }
    };
    // not measured: as drawn
    let drawn = inspect(&items, "row,reading,with\n1,40,gauge ±0.2 mm\n");
    near(&stops(&drawn), &[("bottom", 2.0, 2), ("top", 2.0, 2)]);
    let said = words(&drawn, &design);
    assert!(
        said.contains(
            "you may still file off 3.77 mm by this row, but no more than 2.00 mm off “bottom” (row 2, \
             hole to edge, stops it)"
        ),
        "{said}"
    );
    // measured: 14.5 mm less its uncertainty
    let measured = inspect(
        &items,
        "row,reading,with\n1,40,gauge ±0.2 mm\n2,14.5,gauge ±0.2 mm\n",
    );
    let left = 14.5 - 13.0 - guard;
    near(&stops(&measured), &[("bottom", left, 2), ("top", left, 2)]);
    // 2 mm lower: 13 mm below the hole and 17 above, of at least 12; above it is the breadth that stops
    let (_, items) = load(&plate(18.0, 12.0));
    let drawn = inspect(&items, "row,reading,with\n1,40,gauge ±0.2 mm\n");
    let own = 40.0 - 36.0 - guard;
    near(&stops(&drawn), &[("bottom", 1.0, 2), ("top", own, 1)]);
    // what is at its limit leaves nothing
    let (design, items) = load(&plate(20.0, 15.0));
    let drawn = inspect(&items, "row,reading,with\n1,40,gauge ±0.2 mm\n");
    let said = words(&drawn, &design);
    assert!(said.contains("nothing off “top” (row 2"), "{said}");
}

#[test]
fn a_slanted_edge_moves_a_corner_by_more_than_what_comes_off() {
    // the left edge leans 15° outwards: off it 1 mm, and its corner runs 1/sin 105° along the bottom; off the
    // bottom 1 mm, and the corner runs cot 75° outwards
    let text = r#"
[dims]
long = { value = 100, min = 98, measure = { position = { of = "b", way = "along" } } }
[part.plate]
datum = { along = "bottom", from = "a" }
outline = [
  { corner = "a", at = [0, 0], edge = { name = "bottom" } },
  { corner = "b", at = ["long", 0], edge = { name = "right" } },
  { corner = "c", at = ["long", 50], edge = { name = "top" } },
  { corner = "d", at = ["-50 mm*tan(15 deg)", 50], edge = { name = "left" } },
]
"#;
    let (_, items) = load(text);
    // sin 105° = (√6 + √2)/4, cot 75° = 2 − √3
    let sine = (6.0_f64.sqrt() + 2.0_f64.sqrt()) / 4.0;
    let rate = |name: &str| {
        let edge = items[0].edges.iter().find(|edge| edge.edge == name);
        edge.map_or(0.0, |edge| edge.rate)
    };
    for (name, expected) in [
        ("right", -1.0),
        ("left", -1.0 / sine),
        ("bottom", 2.0 - 3.0_f64.sqrt()),
        ("top", 0.0),
    ] {
        assert!(
            (rate(name) - expected).abs() < 1e-9,
            "{name}: {}",
            rate(name)
        );
    }
}
