//! The demo designs: they resolve, and their key figures stand against closed forms.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test stops at what it cannot do"
)]

use kerfwise::design::Design;
use kerfwise::design::Override;
use kerfwise::design::Source;
use kerfwise::design::part::Part;
use std::path::Path;

const PI: f64 = std::f64::consts::PI;

fn design(name: &str, set: &[Override]) -> Design {
    let path = Path::new(env!("CARGO_MANIFEST_DIR"))
        .join("fixtures/parts")
        .join(name);
    let source = Source::new(name, std::fs::read_to_string(path).unwrap());
    Design::load(&source, set).unwrap_or_else(|errors| {
        let said: Vec<String> = errors.iter().map(|error| error.to_text(&source)).collect();
        panic!("{name} does not load:\n{}", said.join("\n"))
    })
}

fn part<'a>(design: &'a Design, name: &str) -> &'a Part {
    design
        .resolved
        .parts
        .iter()
        .find(|part| part.name == name)
        .unwrap()
}

fn close(what: &str, got: f64, expected: f64, tolerance: f64) {
    let difference = (got - expected).abs();
    assert!(
        difference <= tolerance,
        "{what}: {got} for {expected}, off by {difference:e}"
    );
}

#[test]
fn every_demo_design_resolves_without_findings_of_error_grade() {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/parts");
    let mut count = 0;
    for entry in std::fs::read_dir(folder).unwrap() {
        let name = entry.unwrap().file_name().into_string().unwrap();
        let design = design(&name, &[]);
        assert!(!design.has_errors(), "{name}: {:?}", design.findings());
        assert!(!design.resolved.parts.is_empty(), "{name} has parts");
        count += 1;
    }
    assert!(
        count >= 7,
        "five designs, one of them turned and one in inches: {count}"
    );
}

#[test]
fn turned_and_in_inches_the_leeboard_is_the_same_part() {
    let plain = design("leeboard.toml", &[]);
    let plain = part(&plain, "leeboard");
    for name in ["leeboard-turned.toml", "leeboard-inch.toml"] {
        let other = design(name, &[]);
        let other = part(&other, "leeboard");
        close(
            &format!("{name}: area"),
            other.region.area(),
            plain.region.area(),
            2e-6,
        );
        close(
            &format!("{name}: perimeter"),
            other.region.perimeter(),
            plain.region.perimeter(),
            1e-8,
        );
        assert_eq!(
            other.region.holes().len(),
            plain.region.holes().len(),
            "{name}: openings"
        );
        let scribed = |part: &Part| {
            part.scribes[0]
                .paths
                .iter()
                .map(kerfwise::geometry::Path::length)
                .sum::<f64>()
        };
        close(
            &format!("{name}: scribed length"),
            scribed(other),
            scribed(plain),
            1e-7,
        );
        // running dimensions from the datum do not know how the part lies
        let running =
            |part: &Part, corner: &str| part.datum.running(part.corner(corner).unwrap().sharp);
        let (a, b) = (running(other, "toe"), running(plain, "toe"));
        close(&format!("{name}: toe along"), a.x, b.x, 1e-9);
        close(&format!("{name}: toe across"), a.y, b.y, 1e-9);
    }
}

#[test]
fn the_belt_guard_is_a_belt_with_a_hollow_side_and_holes() {
    let design = design("belt-guard.toml", &[]);
    let guard = part(&design, "guard");
    assert_eq!(
        guard.openings.len(),
        1 + 6 + 4 + 1,
        "shaft, bolts, slots, sight"
    );
    // bolts stand 60 from the centre, the first at 30 degrees
    let bounds = guard.region.holes()[1].bounds();
    close(
        "x of the first bolt",
        bounds.center().x,
        30.0 * 3.0_f64.sqrt(),
        1e-12,
    );
    close("y of the first bolt", bounds.center().y, 30.0, 1e-12);
    // a slot of 27 over its ends and 9 wide: 18 · 9 + π · 4.5²
    let slot = -guard.region.holes()[7].signed_area();
    close("area of a slot", slot, 18.0 * 9.0 + PI * 4.5 * 4.5, 1e-9);
}

#[test]
fn partner_and_doubler_share_their_holes() {
    let design = design("mast-partner.toml", &[]);
    let (partner, doubler) = (part(&design, "partner"), part(&design, "doubler"));
    for (one, other) in partner.region.holes().iter().zip(doubler.region.holes()) {
        assert_eq!(
            one.as_circle(),
            other.as_circle(),
            "the same circle in both parts"
        );
    }
    assert_eq!(doubler.openings.len(), 5, "mast and four bolts");
    // what moves one moves the other
    let wider = self::design("mast-partner.toml", &[Override::text("mast", "80")]);
    let hole = |part: &Part| part.region.holes()[0].as_circle().unwrap().1;
    close("partner", hole(part(&wider, "partner")), 45.0, 1e-12);
    close("doubler", hole(part(&wider, "doubler")), 45.0, 1e-12);
}

#[test]
fn the_arch_of_the_bulkhead_is_as_high_as_it_says() {
    let design = design("bulkhead.toml", &[]);
    let bulkhead = part(&design, "bulkhead");
    let opening = bulkhead.region.holes()[0].bounds();
    close("top of the arch", opening.y1, 90.0 + 160.0 + 100.0, 1e-9);
    close("sill", opening.y0, 90.0, 1e-12);
}

#[test]
fn the_bracket_is_in_inches_to_the_last_digit() {
    let design = design("bracket-inch.toml", &[]);
    let bracket = part(&design, "bracket");
    let bounds = bracket.region.bounds();
    close("length", bounds.x1, 6.5 * 25.4, 1e-11);
    close("height", bounds.y1, 4.25 * 25.4, 1e-11);
}
