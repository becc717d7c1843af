use super::*;
use crate::design::Design;
use crate::design::Source;
use crate::measures::inspection;
use crate::measures::readings;
use crate::measures::readings::ReadingFault;
use crate::measures::review;

/// A bracket of 80 by 50 and its mirror image, which stands first.
const HANDS: &str = "[dims]\n\
    long = { value = 80, tol = 0.5, measure = { distance = { from = 'left', to = 'right' } } }\n\
    [plate.p]\nmaterial = 'aluminium 5083'\nthickness = 5\n\
    [part.other]\nmirror_of = 'one'\n\
    [part.one]\nplate = 'p'\noutline = [\n\
    { corner = 'a', at = [0, 0], edge = { name = 'bottom' } },\n\
    { corner = 'b', at = ['long', 0], edge = { name = 'right' } },\n\
    { corner = 'c', at = ['long', 50], edge = { name = 'top' } },\n\
    { corner = 'd', at = [0, 50], edge = { name = 'left' } }]\n\
    [[part.one.limit]]\nwhat = 'height'\nmax = 50.2\n\
    measure = { distance = { from = 'bottom', to = 'top' } }\n";

fn design(text: &str) -> Design {
    Design::load(&Source::new("hands.toml", text), &[]).expect(text)
}

fn named(limits: &[Limit]) -> Vec<(&str, &str)> {
    limits
        .iter()
        .map(|limit| (limit.name.as_str(), limit.part.as_deref().unwrap_or("")))
        .collect()
}

#[test]
fn the_other_hand_has_the_limits_of_its_original() {
    let design = design(HANDS);
    let found = limits(&design);
    assert!(found.findings.is_empty(), "{:?}", found.findings);
    assert_eq!(
        named(&found.limits),
        [
            ("long", "one"),
            ("long (other)", "other"),
            ("height", "one"),
            ("height (other)", "other"),
        ],
        "each behind its original"
    );
    for (limit, value) in found.limits.iter().zip([80.0, 80.0, 50.0, 50.0]) {
        let (judged, wrong) = judge(&design, limit);
        assert!(wrong.is_empty(), "{wrong:?}");
        assert_eq!(judged.verdict, LimitCheck::Keeps, "{}", limit.name);
        let found = judged.value.expect("a value");
        assert!((found - value).abs() < 1e-9, "{}: {found}", limit.name);
    }
    let items = inspection::items(&design).expect("rows");
    let rows: Vec<_> = items
        .iter()
        .map(|item| (item.number, item.part.as_str()))
        .collect();
    assert_eq!(
        rows,
        [(1, "other"), (2, "other"), (3, "one"), (4, "one")],
        "rows of its own"
    );
}

#[test]
fn a_limit_of_its_own_goes_before_the_one_inherited() {
    let own = format!(
        "{HANDS}[[part.other.limit]]\nwhat = 'height'\nmax = 51\n\
         measure = {{ distance = {{ from = 'bottom', to = 'top' }} }}\n"
    );
    let found = limits(&design(&own)).limits;
    let heights: Vec<_> = found
        .iter()
        .filter(|limit| limit.part.as_deref() == Some("other") && limit.name.starts_with("height"))
        .map(|limit| (limit.name.as_str(), limit.permitted.max))
        .collect();
    assert_eq!(heights, [("height", Some(51.0))], "only its own");
}

#[test]
fn what_both_hands_break_is_told_once() {
    let broken = HANDS.replace("max = 50.2", "max = 49.8");
    let findings = review(&design(&broken)).findings;
    let names: Vec<_> = findings.iter().map(|finding| finding.kind.name()).collect();
    assert_eq!(names, ["limit-broken"], "{findings:?}");
}

#[test]
fn a_dimension_read_on_both_hands_is_refused_and_on_one_it_is_taken() {
    let design = design(HANDS);
    let items = inspection::items(&design).expect("rows");
    let read = |text: &str| {
        let taken = readings::read(text, &items, &design.fingerprint).expect(text);
        readings::as_made(&items, &taken, &design.dimensions)
    };
    let one = read("name,reading,with\nlong (other),80.2,calliper\n").expect("one hand");
    assert_eq!(one.len(), 1, "one dimension");
    // the plain name is the original's
    read("name,reading,with\nlong,80.2,calliper\n").expect("by its plain name");
    let both = read("name,reading,with\nlong,80.2,calliper\nlong (other),80.3,calliper\n");
    let errors = both.expect_err("two values");
    assert!(
        matches!(
            *errors[0].fault,
            ReadingFault::DimensionTwice {
                first: 1,
                second: 3,
                ..
            }
        ),
        "{errors:?}"
    );
}
