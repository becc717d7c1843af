use super::*;
use crate::design::Place;
use crate::design::dimensions::Permitted;
use crate::geometry::LengthUnit;
use crate::measures::TakenKind;
use crate::measures::readings;
use crate::measures::readings::ReadingFault;
use crate::measures::uncertainty::Means;
use crate::measures::verdict::Claimant;
use crate::measures::verdict::Remedy;
use crate::measures::verdict::Verdict;

/// An item of a steel part, with limits.
pub(crate) fn item(number: usize, name: &str, expected: f64, limits: [Option<f64>; 2]) -> Item {
    let [min, max] = limits;
    Item {
        number,
        part: "leeboard".to_owned(),
        name: name.to_owned(),
        dimension: Some(name.to_owned()),
        note: None,
        kind: TakenKind::Length,
        unit: LengthUnit::Millimetre,
        expected: Some(expected),
        permitted: Permitted { min, max },
        place_words: String::new(),
        taken: None,
        taking: Taking::Jaws,
        filing: Filing::Lowers,
        edges: Vec::new(),
        judging: Judging::Mean,
        expansion: Some(11.7),
        place: Place::default(),
    }
}

fn items() -> Vec<Item> {
    let thickness = Item {
        judging: Judging::Each,
        dimension: None,
        ..item(3, "thickness of plate stock", 5.09, [Some(4.5), Some(5.6)])
    };
    let weight = Item {
        kind: TakenKind::Weight,
        dimension: None,
        ..item(4, "weight", 8.691, [None, Some(8.75)])
    };
    vec![
        item(1, "pivot_up", 884.0, [Some(881.0), Some(890.0)]),
        item(2, "foot", 305.0, [Some(303.0), Some(309.0)]),
        thickness,
        weight,
    ]
}

fn with(name: &str) -> Rules {
    Rules {
        means: Some(Means::parse(name, |_| None).expect(name)),
        ..Rules::default()
    }
}

fn inspected(text: &str, rules: &Rules) -> Inspection {
    let items = items();
    let readings = readings::read(text, &items, "").expect("readings");
    inspect(&items, &readings, rules).expect("inspection")
}

#[test]
fn one_set_of_readings_has_three_verdicts() {
    // class II tape from its hook, 1 m begun: ±(0.3 + 0.2 + 0.2) = 0.7 mm, read to ±0.25 mm:
    // u = √(0.7² + 0.25²)/√3 = 0.429 mm, limits drawn in by 0.858 mm
    let text = "row,reading\n1,889.5\n2,305.2\n3,5.72\n";
    let found = inspected(text, &with("tape"));
    let verdicts: Vec<_> = found.items.iter().map(Inspected::verdict).collect();
    assert_eq!(
        verdicts,
        [
            Some(Verdict::TooClose),
            Some(Verdict::Conforms),
            Some(Verdict::TooClose),
            None
        ],
        "a tape proves nothing of a thickness"
    );
    let first = found.items[0].found.as_ref().expect("measured");
    let judgement = first.judgement.expect("limited");
    assert!((judgement.guard - 0.858).abs() < 1e-3, "{judgement:?}");
    assert!((judgement.inside - 0.5).abs() < 1e-9, "{judgement:?}");
    assert!(
        matches!(judgement.remedy, Remedy::TakeOff { least, .. } if (least - 0.358).abs() < 1e-3),
        "{judgement:?}"
    );
    let settling = first.settling.as_ref().expect("too close");
    // class I from its hook: √(0.3² + 0.25²)/√3·2 = 0.451 mm, less than 0.5
    let instrument = settling.instrument.as_ref().expect("there is one");
    assert_eq!(
        instrument.words(),
        "tape, class I",
        "the roughest that will do"
    );

    let text = "row,reading,with\n1,889.5,\"tape, class I\"\n2,305.2,tape\n3,5.72,micrometer\n";
    let found = inspected(text, &Rules::default());
    let verdicts: Vec<_> = found.items.iter().map(Inspected::verdict).collect();
    assert_eq!(
        verdicts,
        [
            Some(Verdict::Conforms),
            Some(Verdict::Conforms),
            Some(Verdict::DoesNotConform),
            None
        ],
        "the right instruments settle it"
    );
    let missing: Vec<_> = found.missing().map(|item| item.number).collect();
    assert_eq!(missing, [4], "what was not measured is named");
    assert_eq!(
        found.rules.claimant,
        Claimant::Maker,
        "unless said otherwise"
    );
}

#[test]
fn every_reading_of_a_thickness_must_keep_the_limit() {
    let text = "row,reading,reading,reading,with\n3,5.08,5.11,5.63,micrometer\n";
    let found = inspected(text, &Rules::default());
    let thickness = found.items[2].found.as_ref().expect("measured");
    assert_eq!(
        found.items[2].verdict(),
        Some(Verdict::DoesNotConform),
        "5.63"
    );
    assert!(
        (thickness.sample.mean - 5.2733).abs() < 1e-3,
        "though the mean does"
    );
    assert!(
        (thickness.budget.value - 5.63).abs() < 1e-9,
        "{:?}",
        thickness.budget
    );
}

#[test]
fn what_nothing_is_known_of_is_refused() {
    let items = items();
    for (text, rules, expected) in [
        ("row,reading\n2,305\n", Rules::default(), "no-instrument"),
        ("row,reading\n4,8.7\n", with("tape"), "no-instrument"),
        (
            "row,reading,with\n4,8.7,calliper\n",
            Rules::default(),
            "instrument-of-lengths",
        ),
        (
            "row,reading,with\n2,305,calliper\n",
            Rules::default(),
            "instrument-too-short",
        ),
    ] {
        let readings = readings::read(text, &items, "").expect("readings");
        let errors = inspect(&items, &readings, &rules).expect_err(text);
        let names: Vec<_> = errors.iter().map(|error| error.fault.name()).collect();
        assert_eq!(names, [expected], "{text}");
    }
    let scales = "row,reading,with\n4,8.70,scales ±0.02 kg\n";
    let found = inspected(scales, &Rules::default());
    assert_eq!(
        found.items[3].verdict(),
        Some(Verdict::Conforms),
        "0.05 kg inside"
    );
    assert!(!ReadingFault::NAMES.is_empty(), "faults have names");
}

#[test]
fn a_reading_on_the_limit_is_settled_by_nothing() {
    let found = inspected("row,reading\n2,309\n", &with("tape"));
    let settling = found.items[1]
        .found
        .as_ref()
        .and_then(|found| found.settling.clone());
    let settling = settling.expect("too close");
    assert_eq!(settling.instrument, None, "no instrument is without error");
    assert!(settling.needed < 1e-9, "{settling:?}");
}

#[test]
fn few_readings_draw_the_limits_in_by_more() {
    // s = 0.5, /√3 = 0.2887; the tape ±0.7, /√3 = 0.4041; together 0.4967; ν = 0.4967⁴/(0.2887⁴/2) =
    // 17.5, cut to 17: JCGM 100:2008, Table G.2, 95.45 %: 2.16
    let found = inspected(
        "row,reading,reading,reading\n1,888.0,888.5,889.0\n",
        &with("tape"),
    );
    let first = found.items[0].found.as_ref().expect("measured");
    assert!((first.factor - 2.16).abs() < 0.005, "{}", first.factor);
    let guard = first.judgement.expect("limited").guard;
    assert!((guard - 2.16 * 0.4967).abs() < 0.003, "{guard}");

    // with another g the probability of that g is kept: 99.73 % and 17 degrees of freedom: 3.51
    let rules = Rules {
        guard: 3.0,
        ..with("tape")
    };
    let found = inspected("row,reading,reading,reading\n1,888.0,888.5,889.0\n", &rules);
    let first = found.items[0].found.as_ref().expect("measured");
    assert!((first.factor - 3.51).abs() < 0.005, "{}", first.factor);

    // one reading says nothing of scatter, so that what is known of the instrument is all
    let found = inspected("row,reading\n1,888.5\n", &with("tape"));
    let first = found.items[0].found.as_ref().expect("measured");
    assert!((first.factor - 2.0).abs() < 1e-12, "{}", first.factor);
}

#[test]
fn no_instrument_settles_what_the_readings_scatter() {
    // two readings 1 mm apart: u = 0.5 mm, 13.97 times that is far more than the 0.5 mm to the limit
    let found = inspected(
        "row,reading,reading\n1,889,890\n",
        &with("tape from a mark"),
    );
    let settling = found.items[0]
        .found
        .as_ref()
        .and_then(|found| found.settling.clone())
        .expect("too close");
    assert_eq!(settling.obstacle, Some(Obstacle::Scatter), "{settling:?}");
    assert_eq!(settling.instrument, None, "no instrument");
    // and what is needed is less than the distance over g where some of it goes to the scatter
    let text = "row,reading,reading,reading,reading\n1,889.45,889.5,889.5,889.55\n";
    let found = inspected(text, &with("tape from a mark"));
    let first = found.items[0].found.as_ref().expect("measured");
    let settling = first.settling.clone().expect("too close");
    assert_eq!(settling.obstacle, None, "{settling:?}");
    assert!(
        settling.needed > 0.3 && settling.needed < 0.5 / 2.0 * 3f64.sqrt(),
        "{settling:?}"
    );
}
