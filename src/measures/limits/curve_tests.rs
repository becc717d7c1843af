use super::*;
use crate::design::Design;
use crate::design::Source;
use crate::geometry::tolerance;
use crate::measures::Shape;
use crate::measures::inspection;
use crate::measures::review;
use crate::measures::take;

/// A bulkhead under a straight deck, its bottom one fair curve through stations that dimensions set, and its
/// other hand. The depths are measured where they are set.
fn bulkhead(quarter: &str, limit: &str) -> Design {
    let text = format!(
        r#"
[dims]
half = 412
depth = {{ value = 362, min = 350, max = 362, measure = {{ width = {{ above = "port", by = "half" }} }} }}
quarter = {{ {quarter}, measure = {{ width = {{ above = "port", by = 120 }} }} }}
shallow = {{ value = 128, measure = {{ width = {{ above = "port", by = 50 }} }} }}
[part.bulkhead]
datum = {{ along = "deck", from = "port" }}
outline = [
  {{ corner = "port", at = [0, 0], edge = {{ name = "bottom", fair = {{ stations = [
     [50, "-shallow"], [120, -232], [240, -324], ["half", "-depth"],
     ["2*half - 240", -324], ["2*half - 120", -232], ["2*half - 50", "-shallow"] ] }} }} }},
  {{ corner = "starboard", at = ["2*half", 0], edge = {{ name = "deck" }} }},
]
{limit}
[part.other]
mirror_of = "bulkhead"
"#
    );
    Design::load(&Source::new("bulkhead.toml", text.clone()), &[]).expect(&text)
}

fn told(design: &Design) -> Vec<String> {
    let findings = review(design).findings;
    findings.iter().map(|one| one.kind.to_string()).collect()
}

#[test]
fn a_station_of_a_fair_curve_can_be_measured() {
    // the spline goes through its stations, so that each width is the number written there
    let design = bulkhead("value = 232, tol = 3", "");
    assert_eq!(told(&design), [""; 0], "on both hands");
    let mut off: f64 = 0.0;
    for limit in limits(&design).limits {
        let own = design
            .dimensions
            .get(limit.dimension.as_deref().expect("of a dimension"));
        let own = own.and_then(crate::design::Dimension::value);
        let (judged, _) = judge(&design, &limit);
        assert!(!judged.verdict.is_broken(), "{}", limit.name);
        assert_eq!(judged.value, own, "{}: as the curve has it", limit.name);
        let parts = &design.resolved.parts;
        let as_drawn = value_as_drawn(&limit, &design.dimensions, parts);
        assert_eq!(as_drawn, own, "{}", limit.name);
        let on_arcs = value_at(&limit, &design.dimensions, parts);
        off = on_arcs
            .zip(own)
            .map_or(off, |(a, b)| off.max((a - b).abs()));
    }
    assert!(
        off > tolerance::SAME_DIMENSION && off < 2.0 * tolerance::FITTED_CURVE,
        "the arcs are off, or this shows nothing: {off}"
    );
    let items = inspection::items(&design).expect("rows");
    let expected: Vec<_> = items.iter().map(|item| item.expected).collect();
    let one_hand = [Some(362.0), Some(232.0), Some(128.0)];
    assert_eq!(expected, [one_hand, one_hand].concat(), "in the form, too");
}

#[test]
fn what_is_off_by_more_than_the_arcs_is_told_with_two_numbers() {
    let design = bulkhead("value = 232.06", "");
    let told = told(&design);
    let [only] = told.as_slice() else {
        panic!("{told:?}");
    };
    let (own, found) = only
        .split_once(", but as it is measured")
        .expect("two numbers");
    assert_eq!(own, "`quarter` is 232.06 mm", "{only}");
    assert!(
        found.contains(" 232") || found.contains(" 231.99"),
        "{only}"
    );
}

#[test]
fn a_limit_is_broken_by_more_than_the_arcs_are_off() {
    let limit = |max: f64| {
        format!(
            "[[part.bulkhead.limit]]\nwhat = 'depth at 120'\nmax = {max}\n\
             measure = {{ width = {{ above = 'port', by = 120 }} }}\n"
        )
    };
    let quarter = "value = 232, tol = 3";
    let design = bulkhead(quarter, "");
    let parts = &design.resolved.parts;
    let limits = limits(&design).limits;
    let at_120 = limits
        .iter()
        .find(|limit| limit.name == "quarter")
        .expect("it");
    let measure = at_120.measure.as_ref().expect("measured");
    let drawn = take(&Shape::nominal(&parts[0]), measure, &design.dimensions);
    let drawn = drawn.expect("a width").value;
    // a limit just under what the arcs have is kept: the curve itself may have less
    let kept = bulkhead(quarter, &limit(drawn - 0.0001));
    assert_eq!(told(&kept), [""; 0], "within what the arcs are off");
    let broken = bulkhead(quarter, &limit(drawn - 0.05));
    assert_eq!(told(&broken).len(), 1, "{:?}", told(&broken));
}
