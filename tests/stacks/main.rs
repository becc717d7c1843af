//! Tolerance stacks, room and fits against published examples, closed forms and normal samples.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    clippy::cast_precision_loss,
    reason = "a test stops at what it cannot do, and counts no 2^53 samples"
)]

mod room;
mod samples;

use kerfwise::design::Design;
use kerfwise::design::Override;
use kerfwise::design::Source;
use kerfwise::geometry::Vec2;
use kerfwise::geometry::nearest;
use kerfwise::geometry::number;
use kerfwise::measures::limits::Limit;
use kerfwise::measures::limits::limits;
use kerfwise::measures::plates::Stock;
use kerfwise::measures::review;
use kerfwise::measures::stack::Bench;
use kerfwise::measures::stack::Course;
use kerfwise::measures::stack::Stack;
use std::fmt::Write as _;
use std::path::Path;

fn load(text: &str) -> Design {
    let source = Source::new("stack.toml", text);
    Design::load(&source, &[]).unwrap_or_else(|errors| panic!("{}", errors[0].to_text(&source)))
}

fn demo(name: &str) -> Design {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("fixtures/parts")
        .join(name);
    load(&std::fs::read_to_string(path).unwrap())
}

fn close(what: &str, got: f64, expected: f64, within: f64) {
    let off = (got - expected).abs();
    assert!(
        off <= within,
        "{what}: {got} for {expected}, off by {off:e}"
    );
}

fn derived(design: &Design, name: &str) -> Stack {
    let mut all = Bench::new(design).derived();
    let at = all.iter().position(|(found, _)| found == name).unwrap();
    all.swap_remove(at).1
}

fn limit_named(design: &Design, name: &str) -> Limit {
    let mut all = limits(design).limits;
    let at = all.iter().position(|limit| limit.name == name).unwrap();
    all.swap_remove(at)
}

/// Three blocks in a housing, in inches: the gap is 0.020, ±0.015 at worst, ±0.00794 by the root of the
/// sum of squares (a worked example of stacks that is found in several textbooks).
#[test]
fn three_blocks_in_a_housing() {
    let design = load(
        r#"
units = "in"
[dims]
a = { value = 2.000, spread = 0.005 }
b = { value = 1.500, spread = 0.003 }
c = { value = 0.500, spread = 0.002 }
housing = { value = 4.020, spread = 0.005 }
gap = "housing - a - b - c"
"#,
    );
    let gap = derived(&design, "gap");
    let inch = 25.4;
    close("gap", gap.value, 0.020 * inch, 1e-12);
    close("least", gap.worst[0], 0.005 * inch, 1e-12);
    close("greatest", gap.worst[1], 0.035 * inch, 1e-12);
    let likely = 0.007_937_253_933 * inch;
    close(
        "likely",
        (gap.likely[1] - gap.likely[0]) / 2.0,
        likely,
        1e-10,
    );
    assert_eq!(gap.course, Course::Straight);
    let first = &gap.contributions[0];
    close("the biggest", first.reach, 0.005 * inch, 1e-9);
    assert_eq!(gap.contributions.len(), 4);
    for contribution in &gap.contributions {
        close(
            &contribution.name,
            contribution.sensitivity.abs(),
            1.0,
            1e-9,
        );
    }
}

/// Ten parts of ±0.1 in a row: ±1.0 at worst, ±0.316 by the root of the sum of squares.
#[test]
fn ten_parts_in_a_row() {
    let mut text = "[dims]\n".to_owned();
    for part in 0..10 {
        writeln!(text, "p{part} = {{ value = 20, spread = 0.1 }}").unwrap();
    }
    text.push_str("row = \"p0 + p1 + p2 + p3 + p4 + p5 + p6 + p7 + p8 + p9\"\n");
    let row = derived(&load(&text), "row");
    close("worst", row.worst[1] - row.value, 1.0, 1e-9);
    close("likely", row.likely[1] - row.value, 0.316_227_766_02, 1e-9);
}

#[test]
fn one_sided_spreads_count_about_their_middle() {
    let design = load(
        r#"
[dims]
left  = { value = 10, spread = { plus = 0.4 } }
right = { value = 20, spread = { plus = 0.1, minus = 0.5 } }
sum = "left + right"
difference = "right - left"
"#,
    );
    let sum = derived(&design, "sum");
    close("least", sum.worst[0], 29.5, 1e-12);
    close("greatest", sum.worst[1], 30.5, 1e-12);
    // middles 10.2 and 19.8, half widths 0.2 and 0.3
    close("middle", sum.middle(), 30.0, 1e-9);
    let half = 0.13_f64.sqrt();
    close("half", (sum.likely[1] - sum.likely[0]) / 2.0, half, 1e-9);
    let difference = derived(&design, "difference");
    close("least", difference.worst[0], 9.1, 1e-12);
    close("middle", difference.middle(), 9.6, 1e-9);
}

/// A plate with a hole at (x, y) from its corner, a chamfer and a rounded toe on a leaning edge.
const PLATE: &str = r#"
workmanship = 0.3
[dims]
x = 60
y = 80
wide = 200
high = 150
lean = 20
toe_r = 30
cut = 12
[plate.flat]
material = "aluminium 5083"
thickness = { value = 6, spread = 0.1 }
[part.plate]
plate = "flat"
datum = { along = "back", from = "heel" }
outline = [
  { corner = "heel", at = [0, 0], edge = { name = "sole" } },
  { corner = "toe", at = ["wide", 0], fillet = "toe_r", edge = { name = "lead" } },
  { corner = "head", at = ["wide - lean", "high"], chamfer = ["cut", 9], edge = { name = "top" } },
  { corner = "back top", at = [0, "high"], edge = { name = "back" } },
]
[[part.plate.opening]]
name = "eye"
circle = { at = ["x", "y"], diameter = 20 }
[[part.plate.limit]]
what = "slant"
measure = { distance = { from = "heel", to = "eye" } }
max = 101
[[part.plate.limit]]
what = "area"
measure = "area"
min = 20000
[[part.plate.limit]]
what = "weight"
measure = "weight"
max = 1
[[part.plate.limit]]
what = "angle"
measure = { angle = { between = ["sole", "lead"] } }
min = 80
[[part.plate.limit]]
what = "foot"
measure = { width = { above = "heel", by = 0, to = "over the rounds" } }
max = 201
"#;

/// Sensitivities of the plate against what calculus says.
#[test]
fn sensitivities_are_the_derivatives() {
    let design = load(PLATE);
    let (x, y, wide, high, lean, toe_r): (f64, f64, f64, f64, f64, f64) =
        (60.0, 80.0, 200.0, 150.0, 20.0, 30.0);
    let slant = number::length(Vec2::new(x, y));
    let lead = number::length(Vec2::new(lean, high));
    // the corner of the toe: its angle inside is 90° less the lean
    let angle = number::arctan(high / lean);
    let d_angle_lean = -high / (lead * lead);
    let d_angle_high = lean / (lead * lead);
    // area between corner and fillet: r² (cot(θ/2) − (π − θ)/2)
    let half = angle / 2.0;
    let waste = 1.0 / number::tan(half) - (std::f64::consts::PI - angle) / 2.0;
    let d_waste = -0.5 / (number::sin(half) * number::sin(half)) + 0.5;
    // the chamfer takes 12 along one edge and 9 along the other at an angle of 90° plus the lean
    let sine = high / lead;
    let d_sine_lean = -lean * high / lead.powi(3);
    let d_sine_high = lean * lean / lead.powi(3);
    // the round of the toe reaches over to its centre and its radius
    let slope = lean / high;
    let root = (1.0 + slope * slope).sqrt();
    let d_foot_slope = -toe_r - toe_r * slope / root;
    let density = 2660.0e-9;
    let area = wide * high
        - lean * high / 2.0
        - waste * toe_r * toe_r
        - 12.0 * 9.0 * sine / 2.0
        - std::f64::consts::PI * 100.0;
    for (limit, name, expected) in [
        ("slant", "x", x / slant),
        ("slant", "y", y / slant),
        ("area", "wide", high),
        (
            "area",
            "high",
            wide - lean / 2.0 - toe_r * toe_r * d_waste * d_angle_high - 54.0 * d_sine_high,
        ),
        (
            "area",
            "lean",
            -high / 2.0 - toe_r * toe_r * d_waste * d_angle_lean - 54.0 * d_sine_lean,
        ),
        ("area", "toe_r", -2.0 * toe_r * waste),
        ("area", "cut", -9.0 * sine / 2.0),
        ("weight", "flat", area * density),
        ("weight", "wide", high * 6.0 * density),
        ("angle", "lean", d_angle_lean),
        ("angle", "high", d_angle_high),
        ("foot", "wide", 1.0),
        ("foot", "toe_r", 1.0 - slope - root),
        ("foot", "lean", d_foot_slope / high),
        ("foot", "high", -d_foot_slope * lean / (high * high)),
    ] {
        let stack = Bench::new(&design)
            .limit(&limit_named(&design, limit))
            .unwrap();
        let found = stack.contributions.iter().find(|c| c.name == name);
        let found = found.unwrap_or_else(|| panic!("{limit}: {name} moves it"));
        let off = (found.sensitivity - expected).abs() / expected.abs();
        assert!(
            off < 1e-6,
            "{limit} by {name}: {} for {expected}, off by {off:e}",
            found.sensitivity
        );
    }
    let slant = Bench::new(&design)
        .limit(&limit_named(&design, "slant"))
        .unwrap();
    // both ends are resolved, not added up
    close(
        "least",
        slant.worst[0],
        number::length(Vec2::new(59.7, 79.7)),
        1e-9,
    );
    close(
        "greatest",
        slant.worst[1],
        number::length(Vec2::new(60.3, 80.3)),
        1e-9,
    );
}

#[test]
fn pins_through_two_parts() {
    let text = |second: &str| {
        format!(
            r#"
[dims]
pitch = {{ value = 60, spread = 0.2 }}
[part.plate]
outline = [
  {{ corner = "a", at = [0, 0] }}, {{ corner = "b", at = [100, 0] }},
  {{ corner = "c", at = [100, 40] }}, {{ corner = "d", at = [0, 40] }},
]
[[part.plate.opening]]
name = "holes"
circle = {{ diameter = 8.5 }}
places = [[20, 20], ["20 + pitch", 20]]
[[fit]]
what = "pins"
inner = {{ size = 8, spread = 0.05, coating = 0.01 }}
outer = {{ measure = {{ diameter = "holes" }}, apart = {{ distance = {{ from = "holes 1", to = "holes 2" }} }}, coating = 0.02 }}
{second}
"#
        )
    };
    let other = "second = { measure = { diameter = \"holes\" }, apart = { distance = { from = \"holes 1\", to = \"holes 2\" } } }";
    let design = load(&text(other));
    let fit = &review(&design).fits[0];
    // loose in both: 8.5 + 8.5 − 2·8, less 2·(0.01 + 0.02) + 2·0.01 of coating
    close("coating", fit.coating, 0.08, 1e-12);
    close("clearance", fit.clearance, 1.0 - 0.08, 1e-12);
    // two pitches of ±0.2 and a pin of ±0.05 that goes through both
    close("least", fit.worst[0], 0.92 - 0.1 - 0.4, 1e-9);
    close("greatest", fit.worst[1], 0.92 + 0.1, 1e-9);
    let likely = (0.1_f64.powi(2) + 0.2_f64.powi(2) * 2.0).sqrt();
    assert!(fit.likely[0] < 0.92 - likely / 2.0, "{:?}", fit.likely);
    // without the second piece: the play of a pin in its hole
    let design = load(&text(""));
    let fit = &review(&design).fits[0];
    close("one piece", fit.clearance, 0.5 - 0.06, 1e-12);
    close("least", fit.worst[0], 0.44 - 0.05, 1e-12);
}

#[test]
fn stock_and_readings() {
    let text = |thickness: &str| {
        format!(
            r#"
[plate.alloy]
material = "aluminium 5083"
thickness = {thickness}
[plate.alloy.faces]
sand = 0.05
coating = 0.15
[part.plate]
plate = "alloy"
outline = [
  {{ corner = "a", at = [0, 0] }}, {{ corner = "b", at = [100, 0] }},
  {{ corner = "c", at = [100, 40] }}, {{ corner = "d", at = [0, 40] }},
]
"#
        )
    };
    // 8 ±0.35 as delivered
    for (tol, stock) in [(0.3, Stock::NotTrusted), (0.35, Stock::Trusted)] {
        let design = load(&text(&format!("{{ value = 8, tol = {tol} }}")));
        let found = review(&design);
        assert_eq!(found.plates[0].stock, Some(stock), "±{tol}");
    }
    let design = load(&text(
        "{ value = 8, tol = 0.3, readings = [8.1, 7.9, 8.05, 8.15] }",
    ));
    let found = review(&design);
    let readings = found.plates[0].readings.unwrap();
    close("mean", readings.mean, 8.05, 1e-12);
    close("variation", readings.variation(), 0.25, 1e-12);
    // 0.1 more on each face
    let faces = &found.budgets.faces[0];
    close("finished", faces.thickness.unwrap().1, 8.25, 1e-12);
    let [least, greatest] = faces.finished.unwrap();
    close("thinnest", least, 8.1, 1e-12);
    close("thickest", greatest, 8.35, 1e-12);
    assert!(faces.verdict.is_broken(), "coated it is over 8.3");
}

/// Heights of a batten: a millimetre more at every one of them lifts the whole curve by a millimetre, so the
/// sensitivities of a strip beside it add up to the share of its shortest way that runs upwards; and each is what
/// the strip changes by on parts that are built from nothing, whose arcs follow their curves to 0.01 mm.
#[test]
fn a_fair_edge_moves_smoothly() {
    let design = demo("skeg.toml");
    let name = "strip over the lashing hole";
    let stack = Bench::new(&design)
        .limit(&limit_named(&design, name))
        .unwrap();
    let heights: Vec<_> = stack
        .contributions
        .iter()
        .filter(|one| one.name.starts_with("hull") || one.name == "depth" || one.name == "fore_end")
        .collect();
    assert!(heights.len() >= 6, "{:?}", stack.contributions);
    let sum: f64 = heights.iter().map(|one| one.sensitivity).sum();
    let region = &design.resolved.parts[0].region;
    let way = nearest::beside_opening(region, 0).unwrap().nearest;
    let rise = (way.on_second - way.on_first).y.abs() / way.distance;
    close("all heights at once", sum, rise, 2e-4);
    let value = |name: &str, by: f64| {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/parts/skeg.toml");
        let source = Source::new("skeg.toml", std::fs::read_to_string(path).unwrap());
        let as_written = design.dimensions.get(name).unwrap().value().unwrap();
        let moved = Design::load(&source, &[Override::exact(name, as_written + by)]).unwrap();
        let region = &moved.resolved.parts[0].region;
        nearest::beside_opening(region, 0).unwrap().nearest.distance
    };
    for one in heights {
        let built = value(&one.name, 0.5) - value(&one.name, -0.5);
        close(&one.name, one.sensitivity, built, 0.02);
    }
}

/// A limit that nobody can measure is no limit: every demo says how each of its limits is taken, and
/// keeps them.
#[test]
fn every_limit_of_the_demos_can_be_measured() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/parts");
    let mut count = 0;
    for entry in std::fs::read_dir(folder).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        let design = demo(&name);
        let found = review(&design);
        for judged in &found.limits {
            let limit = &judged.limit;
            assert!(
                limit.measure.is_some(),
                "{name}: `{}` has no measure",
                limit.name
            );
            assert!(
                judged.taken.is_some(),
                "{name}: `{}` is not taken",
                limit.name
            );
            assert!(
                !judged.verdict.is_broken(),
                "{name}: `{}` is broken",
                limit.name
            );
            count += usize::from(limit.permitted.is_limited());
        }
        let errors = found
            .findings
            .iter()
            .filter(|finding| finding.severity == kerfwise::design::Severity::Error);
        assert_eq!(errors.count(), 0, "{name}: {:?}", found.findings);
    }
    assert!(count >= 18, "{count} limits in all");
}
