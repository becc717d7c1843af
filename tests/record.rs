//! The inspection record of the demo: readings in, verdicts out, and nothing said before it was read.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on fails")]

use kerfwise::design::Design;
use kerfwise::design::Source;
use kerfwise::design::dimensions::Spread;
use kerfwise::documents::Stamp;
use kerfwise::documents::record;
use kerfwise::formats::json;
use kerfwise::measures::inspection;
use kerfwise::measures::inspection::Inspection;
use kerfwise::measures::inspection::Item;
use kerfwise::measures::inspection::Rules;
use kerfwise::measures::readings;
use kerfwise::measures::readings::ItemReadings;
use kerfwise::measures::verdict::Claimant;
use kerfwise::measures::verdict::Verdict;
use kerfwise::sheet::Block;
use kerfwise::sheet::Document;
use std::fs;
use std::path::Path;

fn text(name: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("fixtures")
        .join(name);
    fs::read_to_string(path).unwrap()
}

fn load(name: &str) -> (Design, Stamp, Vec<Item>) {
    let source = Source::new(name, text(name));
    let design = Design::load(&source, &[]).unwrap();
    let stamp = Stamp::of(&design);
    let items = inspection::items(&design).unwrap();
    (design, stamp, items)
}

fn read(text: &str, items: &[Item], design: &Design) -> Vec<ItemReadings> {
    readings::read(text, items, &design.fingerprint).unwrap()
}

fn demo(claimant: Claimant) -> (Inspection, Document) {
    let (design, stamp, items) = load("parts/leeboard.toml");
    let readings = read(&text("readings/leeboard.csv"), &items, &design);
    let rules = Rules {
        claimant,
        ..Rules::default()
    };
    let inspection = inspection::inspect(&items, &readings, &rules).unwrap();
    let document = record::record(&inspection, &design, &stamp);
    (inspection, document)
}

/// The words of a document in reading order.
fn words(document: &Document) -> String {
    json::write(document, &serde_json::Map::new()).unwrap()
}

#[test]
fn the_demo_has_all_three_verdicts_each_with_its_reason() {
    let (inspection, document) = demo(Claimant::Maker);
    for verdict in [
        Verdict::Conforms,
        Verdict::DoesNotConform,
        Verdict::TooClose,
    ] {
        assert!(inspection.count(verdict) > 0, "{verdict:?}");
    }
    let words = words(&document);
    for needed in [
        "canoe yawl Wren, number 7",
        "LB-2",
        "Example rules",
        "308.6; 308.5; 308.6 mm",
        "tape, class II from a mark",
        "a steel rule would settle it",
        "file it larger by at least 1.29 mm",
        "1.00 mm outside",
        "the maker, that the part keeps the limits",
        "The standard itself was not read",
    ] {
        assert!(words.contains(needed), "{needed} in {words}");
    }
}

#[test]
fn readings_limits_and_differences_stand_before_the_verdict() {
    let (_, document) = demo(Claimant::Maker);
    let tables: Vec<Vec<&str>> = document
        .blocks
        .iter()
        .filter_map(|block| match block {
            Block::Table(table) => Some(table.columns.iter().map(|column| column.key).collect()),
            _ => None,
        })
        .collect();
    let table_of = |key: &str| {
        tables
            .iter()
            .position(|keys| keys.contains(&key))
            .unwrap_or_else(|| panic!("no column {key}"))
    };
    assert!(table_of("readings") < table_of("verdict"), "{tables:?}");
    let comparison = &tables[table_of("verdict")];
    let place = |key: &str| comparison.iter().position(|one| *one == key).unwrap();
    assert!(
        place("value") < place("limit")
            && place("limit") < place("difference")
            && place("difference") < place("verdict"),
        "{comparison:?}"
    );
    let words = words(&document);
    assert!(
        words.find("\"readings\"").unwrap() < words.find("does not conform").unwrap(),
        "no verdict before the readings"
    );
    assert!(
        tables.iter().any(|keys| keys.contains(&"signature")),
        "room to sign"
    );
}

#[test]
fn the_inspector_claims_the_opposite_of_the_maker() {
    let (maker, of_maker) = demo(Claimant::Maker);
    let (inspector, of_inspector) = demo(Claimant::Inspector);
    let verdicts = |inspection: &Inspection| -> Vec<_> {
        inspection
            .items
            .iter()
            .map(inspection::Inspected::verdict)
            .collect()
    };
    assert_eq!(
        verdicts(&maker),
        verdicts(&inspector),
        "the zones are the same"
    );
    assert!(
        words(&of_maker).contains("The maker's claim that the part keeps its limits is not shown"),
        "one limit is broken"
    );
    assert!(
        words(&of_inspector)
            .contains("The inspector's claim that the part does not keep its limits is shown"),
        "by one limit"
    );
}

#[test]
fn the_form_can_be_filled_in_and_read_back() {
    let (design, stamp, items) = load("parts/leeboard.toml");
    let empty = record::empty_csv(items.iter(), &stamp);
    let errors = readings::read(&empty, &items, &design.fingerprint).unwrap_err();
    assert_eq!(
        errors[0].fault.name(),
        "no-readings",
        "nothing is filled in"
    );
    let filled: Vec<String> = empty
        .lines()
        .map(|line| {
            let number = line.split(',').next().unwrap_or("");
            match number {
                "2" => line.replacen(",,", ",305.2,", 1),
                _ => line.to_owned(),
            }
        })
        .collect();
    let found = read(&filled.join("\n"), &items, &design);
    assert_eq!(found.len(), 1, "one row");
    assert_eq!(found[0].readings[0].value, 305.2, "{found:?}");
    // what was typed in and kept comes back the same
    let readings = read(&text("readings/leeboard.csv"), &items, &design);
    let kept = record::readings_csv(&items, &readings, &stamp);
    let again = read(&kept, &items, &design);
    let plain = |taken: &[ItemReadings]| -> Vec<_> {
        taken
            .iter()
            .map(|taken| {
                let values: Vec<f64> = taken.readings.iter().map(|one| one.value).collect();
                (taken.item, values, taken.temperature)
            })
            .collect()
    };
    assert_eq!(plain(&readings), plain(&again), "{kept}");
}

#[test]
fn every_row_says_what_filing_does_to_it() {
    use inspection::Filing::Lowers;
    use inspection::Filing::Neither;
    use inspection::Filing::Raises;

    let filing = |name: &str| -> Vec<(String, inspection::Filing)> {
        let (_, _, items) = load(name);
        items
            .iter()
            .map(|item| (item.name.clone(), item.filing))
            .collect()
    };
    let known = |list: &[(&str, inspection::Filing)]| -> Vec<(String, inspection::Filing)> {
        list.iter()
            .map(|(name, filing)| ((*name).to_owned(), *filing))
            .collect()
    };
    assert_eq!(
        filing("parts/leeboard.toml"),
        known(&[
            ("pivot_up", Lowers),
            ("foot", Lowers),
            ("toe_r", Raises),
            ("width 300 above the foot", Lowers),
            ("metal between hole and leading edge", Lowers),
            ("weight", Lowers),
            ("thickness of plate stock", Lowers),
        ]),
        "off the foot the pivot comes down; a rounding only grows"
    );
    assert_eq!(
        filing("parts/rudder.toml"),
        known(&[
            ("chord", Lowers),
            ("pin", Raises),
            ("stop", Raises),
            ("pin_apart", Neither),
            ("length", Lowers),
            ("thickness of plate alloy", Lowers),
            ("flatness of plate alloy", Neither),
        ]),
        "no file moves a hole"
    );
}

#[test]
fn a_cheek_is_drilled_to_the_pins_that_the_blade_has() {
    let (design, _, items) = load("parts/rudder.toml");
    let taken = read(&text("readings/blade.csv"), &items, &design);
    let set = readings::as_made(&items, &taken, &design.dimensions).unwrap();
    let source = Source::new("rudder.toml", text("parts/rudder.toml"));
    let made = Design::load(&source, &set).unwrap();
    let cheek = made
        .resolved
        .parts
        .iter()
        .find(|part| part.name == "cheek")
        .unwrap();
    let holes: Vec<_> = cheek
        .region
        .holes()
        .iter()
        .map(|hole| hole.as_circle().unwrap())
        .collect();
    // means of 10.22 and 10.24, of 86.4 and 86.3; the one reading 8.24
    assert!((holes[0].1 - 10.23 / 2.0).abs() < 1e-9, "{holes:?}");
    assert!((holes[1].1 - 8.24 / 2.0).abs() < 1e-9, "{holes:?}");
    assert!(
        (holes[1].0.x - holes[0].0.x - 86.35).abs() < 1e-9,
        "{holes:?}"
    );
    assert_ne!(made.fingerprint, design.fingerprint, "another design");
    assert!(!made.has_errors(), "within its tolerance");
}

/// What was read is as sure as the reading, not as the hand that made it.
#[test]
fn as_made_takes_the_uncertainty_of_the_reading_for_its_spread() {
    let (design, _, items) = load("parts/rudder.toml");
    let row = items.iter().find(|item| item.name == "pin").unwrap().number;
    let made = |with: &str| {
        let lines = format!("row,reading,with\n{row},10.23,{with}\n");
        let taken = read(&lines, &items, &design);
        let set = readings::as_made(&items, &taken, &design.dimensions).unwrap();
        let source = Source::new("rudder.toml", text("parts/rudder.toml"));
        let made = Design::load(&source, &set).unwrap();
        made.dimensions.get("pin").unwrap().spread.clone()
    };
    let Spread::Given(stated) = made("pin gauge ±0.02 mm") else {
        panic!("the reading has a spread");
    };
    // limits ±a are a/√3, and twice that; heat adds less than a micrometre over 10 mm
    let expected = 2.0 * 0.02 / 3.0_f64.sqrt();
    assert!(
        (stated.plus - expected).abs() < 1e-3,
        "{stated:?} for {expected}"
    );
    assert_eq!(stated.plus, stated.minus);
    let Spread::Given(calliper) = made("calliper") else {
        panic!("the reading has a spread");
    };
    assert!(calliper.plus < 0.1, "{calliper:?}");
}

#[test]
fn what_is_no_dimension_changes_no_mate() {
    let (design, _, items) = load("parts/leeboard.toml");
    let taken = read("row,reading\n4,278\n", &items, &design);
    let errors = readings::as_made(&items, &taken, &design.dimensions).unwrap_err();
    assert_eq!(errors[0].fault.name(), "no-dimension-read", "{errors:?}");
}
