use super::*;
use crate::design::dimensions::Permitted;
use crate::geometry::LengthUnit;
use crate::measures::TakenKind;
use crate::measures::inspection::Filing;
use crate::measures::inspection::Judging;
use crate::measures::inspection::Taking;

const FINGERPRINT: &str = "0123456789abcdef";

fn item(number: usize, name: &str, expected: f64) -> Item {
    Item {
        number,
        part: "leeboard".to_owned(),
        name: name.to_owned(),
        dimension: Some(name.to_owned()),
        note: None,
        kind: TakenKind::Length,
        unit: LengthUnit::Millimetre,
        expected: Some(expected),
        permitted: Permitted::default(),
        place_words: String::new(),
        taken: None,
        taking: Taking::Jaws,
        filing: Filing::Lowers,
        edges: Vec::new(),
        judging: Judging::Mean,
        expansion: None,
        place: Place::default(),
    }
}

fn items() -> Vec<Item> {
    let angle = Item {
        kind: TakenKind::Angle,
        ..item(4, "sweep", 0.5)
    };
    let weight = Item {
        kind: TakenKind::Weight,
        ..item(5, "weight", 8.7)
    };
    vec![
        item(1, "pivot_up", 884.0),
        item(2, "foot", 305.0),
        item(3, "bolt", 12.7),
        angle,
        weight,
    ]
}

/// The values of each item with readings.
fn values(text: &str) -> Vec<(usize, Vec<f64>)> {
    read(text, &items(), FINGERPRINT)
        .expect(text)
        .into_iter()
        .map(|found| {
            let values = found.readings.iter().map(|reading| reading.value).collect();
            (found.item + 1, values)
        })
        .collect()
}

/// Each fault with the text it points at.
fn faults(text: &str) -> Vec<(&'static str, &str)> {
    read(text, &items(), FINGERPRINT)
        .expect_err(text)
        .iter()
        .map(|error| {
            assert!(!error.help.is_empty(), "no way out of {error}");
            let place = error.place;
            (
                error.fault.name(),
                text.get(place.start..place.end).expect("a place"),
            )
        })
        .collect()
}

#[test]
fn either_decimal_mark_and_several_readings_a_row() {
    let expected = vec![(1, vec![884.5, 884.25]), (2, vec![305.2])];
    for text in [
        "row,reading,reading\n1,884.5,884.25\n2,305.2,\n",
        "row;reading;reading 2\r\n1;884,5;884,25\r\n2;305,2;\r\n",
        "row\treading\n1\t884,5\n1\t884,25\n2\t305,2\n",
        "row,reading,note\n2,\"305,2\",by the toe\n1,884.5\n1,884.25,again\n3,,\n",
        "# design 0123456789ab\nname,reading,unit\npivot_up,88.45,cm\npivot_up,0.88425,m\nfoot,305.2,\n",
        "# remarks are left alone\n\nrow,name,expected,reading\n1,pivot_up,884.00 mm,884.5\n1,pivot_up,,884.25\n2,foot,,305.2 mm\n",
    ] {
        assert_eq!(values(text), expected, "{text}");
    }
}

#[test]
fn inches_are_25_4_mm_exactly() {
    for text in [
        "row,reading\n2,12-3/16 in\n",
        "row,reading\n2,12 3/16 in\n",
        "row,reading\n2,\"12 3/16\"\"\"\n",
        "row,reading,unit\n2,12.1875,in\n",
        "row,reading,unit\n2,12 3/16,in\n",
        "row,reading\n2,1 ft 3/16 in\n",
    ] {
        assert_eq!(values(text), [(2, vec![12.1875 * 25.4])], "{text}");
    }
}

#[test]
fn angles_and_weights_have_units_of_their_own() {
    let text = "row,reading\n4,28.6\n4,28.7°\n5,8.71\n5,8710 g\n5,19.2 lb\n";
    let found = values(text);
    let degree = std::f64::consts::PI / 180.0;
    let near = |value: f64, expected: f64| (value - expected).abs() < 1e-9;
    assert!(
        near(found[0].1[0], 28.6 * degree) && near(found[0].1[1], 28.7 * degree),
        "{found:?}"
    );
    // 1 lb = 0.45359237 kg exactly (international agreement of 1959)
    assert!(
        near(found[1].1[1], 8.71) && near(found[1].1[2], 19.2 * 0.453_592_37),
        "{found:?}"
    );
}

#[test]
fn a_reading_in_the_wrong_unit_is_refused_until_confirmed() {
    for (reading, times) in [
        ("12.01", "25.4"),
        ("30.5", "10 "),
        ("3050", "10 "),
        ("7747", "25.4"),
        ("0.305", "1000"),
        ("305 cm", "10 "),
        ("1 ft", ""),
        ("150", "half"),
        ("610", "double"),
        ("195", "another row"),
    ] {
        let text = format!("row,reading\n2,{reading}\n");
        let found = read(&text, &items(), FINGERPRINT);
        if times.is_empty() {
            assert!(found.is_ok(), "{reading} is 304.8 mm");
            continue;
        }
        let errors = found.expect_err(&text);
        let said = errors[0].to_string();
        assert_eq!(errors[0].fault.name(), "suspected-reading", "{said}");
        assert!(said.contains(times), "{said}");
        let confirmed = format!("row,reading\n2,{reading}!\n");
        assert_eq!(values(&confirmed).len(), 1, "{confirmed}");
    }
    // wrong, but nobody's slip of the pen: it is the verdict that says so
    assert_eq!(values("row,reading\n2,290\n").len(), 1, "15 mm short");
}

#[test]
#[expect(clippy::too_many_lines, reason = "a table of cases")]
fn what_is_unclear_is_named_with_its_place() {
    for (text, expected) in [
        ("row,reading\n", vec![("no-readings", "")]),
        ("", vec![("no-readings", "")]),
        (
            "# design ffffffffffff\nrow,reading\n1,884\n",
            vec![("readings-of-another-design", "# design ffffffffffff")],
        ),
        ("row,reeding\n1,884\n", vec![("unknown-column", "reeding")]),
        (
            "row,row,reading\n1,1,884\n",
            vec![("doubled-column", "row")],
        ),
        ("row,with\n1,tape\n", vec![("missing-column", "row,with")]),
        ("reading\n884\n", vec![("missing-column", "reading")]),
        (
            "1,884\n",
            vec![("unknown-column", "1"), ("unknown-column", "884")],
        ),
        (
            "row,reading\n1,884,5\n",
            vec![("too-many-fields", "1,884,5")],
        ),
        ("row,reading\n,884\n", vec![("no-row", ",884")]),
        (
            "row,reading\n9,884\n0,1\n",
            vec![("unknown-row", "9"), ("unknown-row", "0")],
        ),
        (
            "name,reading\nfeet,884\n",
            vec![("unknown-row-name", "feet")],
        ),
        (
            "row,name,reading\n1,foot,305\n",
            vec![("row-and-name-disagree", "foot")],
        ),
        (
            "row,reading\n1,884\n2,305\n1,884.2\n",
            vec![("duplicate-row", "1,884.2")],
        ),
        ("row,reading\n1,abc\n", vec![("no-reading", "abc")]),
        (
            "row,reading\n1,884.\n1,8 8 4\n",
            vec![("no-reading", "8 8 4")],
        ),
        (
            "row;reading\n1;1.884,5\n",
            vec![("two-decimal-marks", "1.884,5")],
        ),
        ("row,reading\n1,884 deg\n", vec![("wrong-unit", "884 deg")]),
        ("row,reading\n5,884 mm\n", vec![("wrong-unit", "884 mm")]),
        (
            "row,reading,reading,unit\n1,884.2,884,5\n",
            vec![("unknown-unit-of-reading", "5")],
        ),
        (
            "row,reading,unit\n1,884 mm,in\n",
            vec![("two-units", "884 mm")],
        ),
        (
            "row,reading\n1,-884\n",
            vec![("reading-not-positive", "-884")],
        ),
        (
            "row,reading,temperature\n1,884,hot\n",
            vec![("bad-temperature", "hot")],
        ),
        (
            "row,reading,with\n1,884,theodolite\n",
            vec![("unknown-instrument", "theodolite")],
        ),
        (
            "row,reading,with\n1,884,tape\n1,884,steel rule\n",
            vec![("two-instruments", "1,884,steel rule")],
        ),
        (
            "row,reading,temperature\n1,884,18\n1,884,19\n",
            vec![("two-temperatures", "1,884,19")],
        ),
    ] {
        assert_eq!(faults(text), expected, "{text}");
    }
    assert_eq!(
        values("row,reading\n1,884\n2,305\n1!,884.2\n"),
        [(1, vec![884.0, 884.2]), (2, vec![305.0])],
        "confirmed"
    );
}

#[test]
fn a_line_typed_has_one_reading_or_several() {
    let items = items();
    let typed = |line: &str| -> Vec<(f64, String)> {
        let found = typed::line(line, &items[1]).expect(line).readings;
        found
            .into_iter()
            .map(|reading| (reading.value, reading.written))
            .collect()
    };
    assert_eq!(typed(""), [], "not measured");
    assert_eq!(typed("305.2").len(), 1, "one");
    assert_eq!(
        typed("305,2 305.4 ; 305"),
        [
            (305.2, "305,2".to_owned()),
            (305.4, "305.4".to_owned()),
            (305.0, "305".to_owned()),
        ],
        "three"
    );
    assert_eq!(typed("12 in").len(), 1, "a number and its unit");
    let line = typed::line("305.2 305.4 with tape from a mark", &items[1]).expect("a line");
    assert_eq!(line.readings.len(), 2, "before the instrument");
    assert_eq!(
        line.means.map(|means| means.words()).as_deref(),
        Some("tape, class II from a mark"),
        "after it"
    );
    assert_eq!(typed("30.5!").len(), 1, "confirmed");
    let refused = typed::line("305 30.5", &items[1]).expect_err("suspected");
    assert_eq!(refused.place, Place::new(4, 8), "{refused}");
}
