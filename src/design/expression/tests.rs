//! Literals against the definitions of the units; expressions against plain arithmetic.

use super::*;
use crate::geometry::LengthUnit;

/// Two dimensions in a file in `unit`: `foot` of 305 mm, `lean` of 30°, and a count of 3.
struct Sample(LengthUnit);

impl Scope for Sample {
    fn unit(&self) -> LengthUnit {
        self.0
    }

    fn value(&self, name: &str) -> Option<Quantity> {
        let (value, kind) = match name {
            "foot" => (305.0, Kind::LENGTH),
            "gap" => (0.0, Kind::LENGTH),
            "lean" => (std::f64::consts::FRAC_PI_6, Kind::Angle),
            "holes" => (3.0, Kind::NUMBER),
            _ => return None,
        };
        Some(Quantity { value, kind })
    }

    fn names(&self) -> Vec<&str> {
        vec!["foot", "gap", "lean", "holes"]
    }
}

fn value_in(text: &str, unit: LengthUnit) -> Result<Quantity, String> {
    let scope = Sample(unit);
    parse(text)
        .and_then(|term| evaluate(&term, text, &scope))
        .map_err(|error| format!("{}: {}", error.fault.name(), error.fault))
}

fn value(text: &str) -> Quantity {
    value_in(text, LengthUnit::Millimetre).unwrap_or_else(|error| panic!("`{text}`: {error}"))
}

fn fault(text: &str) -> String {
    match value_in(text, LengthUnit::Millimetre) {
        Ok(quantity) => panic!("`{text}` is {quantity:?}"),
        Err(error) => error,
    }
}

#[test]
fn literals_are_exact() {
    // pint 0.25.3, default_en.txt lines 555-558: yard = 0.9144 m (July 1959), foot = yard/3,
    // inch = yard/36, so 25.4 mm; the right sides are the decimal products.
    for (text, expected) in [
        ("318 mm", 318.0),
        ("31.8 cm", 318.0),
        ("0.318 m", 318.0),
        ("1 in", 25.4),
        ("1.5 in", 38.1),
        ("3/8 in", 9.525),
        ("1/2 in", 12.7),
        ("1/64 in", 0.396_875),
        ("4-1/2 in", 114.3),
        ("4 1/2 in", 114.3),
        ("4-1/2in", 114.3),
        ("2 ft", 609.6),
        ("2 ft 4-1/2 in", 723.9),
        ("2ft 4 1/2in", 723.9),
        ("2 ft 4 in", 711.2),
        ("2' 4-1/2\"", 723.9),
        ("5′ 3″", 1600.2),
        ("6''", 152.4),
        ("1e3 mm", 1000.0),
        (".5 in", 12.7),
        ("0.1 in", 2.54),
        ("1/3 ft", 101.6),
    ] {
        let got = value(text);
        assert_eq!(got.kind, Kind::LENGTH, "`{text}` is a length");
        assert_eq!(got.value, expected, "`{text}` is {:?} mm", got.value);
    }
}

#[test]
fn a_mixed_number_is_no_subtraction() {
    assert_eq!(value("4-1/2 in").value, 114.3, "joined: 4.5 in");
    // 4 mm less half an inch: the bare number takes the other side's kind
    assert_eq!(value("4 - 1/2 in").value, 4.0 - 12.7, "spaced, file in mm");
    let inches = value_in("4 - 1/2 in", LengthUnit::Inch).expect("a length");
    assert_eq!(inches.value, 101.6 - 12.7, "spaced, file in inches");
    assert!(fault("4-1/2").starts_with("ambiguous"), "no unit");
    assert!(fault("4-3/2 in").starts_with("ambiguous"), "improper");
    assert!(fault("4 1/2").starts_with("missing-operator"), "no unit");
}

#[test]
fn half_of_an_inch_and_half_of_a_foot() {
    assert_eq!(value("foot/2").value, 152.5, "a dimension halved");
    assert_eq!(value("1/2 * foot").value, 152.5, "half a dimension");
    assert_eq!(value("(1/2)").value, 0.5, "a bare half");
    // 1/2 in is half an inch; with spaces it is one over two inches, which no length is
    assert_eq!(value("1 / 2 in").kind, Kind::Power(-1), "spaced");
}

#[test]
fn angles_are_in_degrees() {
    for text in [
        "30 deg",
        "30°",
        "30deg",
        "asin(0.5)",
        "lean",
        "10 deg * holes",
    ] {
        let got = value(text);
        assert_eq!(got.kind, Kind::Angle, "`{text}` is an angle");
        let off = (got.value - std::f64::consts::FRAC_PI_6).abs();
        assert!(off < 1e-15, "`{text}` is {} rad", got.value);
    }
    for text in ["sin(30 deg)", "sin(30)", "sin(lean)", "cos(60°)"] {
        let got = value(text);
        assert_eq!(got.kind, Kind::NUMBER, "`{text}` is a pure number");
        assert!((got.value - 0.5).abs() < 1e-15, "`{text}` is {}", got.value);
    }
}

#[test]
fn operators_bind_as_usual() {
    // plain arithmetic, worked by hand
    for (text, expected) in [
        ("1 + 2 * 3", 7.0),
        ("(1 + 2) * 3", 9.0),
        ("10 - 4 - 3", 3.0),
        ("16 / 4 / 2", 2.0),
        ("1/2", 0.5),
        ("-2^2", -4.0),
        ("(-2)^2", 4.0),
        ("2 - -3", 5.0),
        ("2 × 3 ÷ 4 − 1 · 1", 0.5),
        ("sqrt(16) + abs(-3)", 7.0),
        ("min(3, 1, 2) + max(3, 1, 2)", 4.0),
        ("hypot(3, 4)", 5.0),
        ("round(2.5)", 3.0),
        ("round(7.3, 0.5)", 7.5),
        ("2^0", 1.0),
    ] {
        let got = value(text);
        assert_eq!(got.kind, Kind::Bare, "`{text}` stays bare");
        assert_eq!(got.value, expected, "`{text}`");
    }
}

#[test]
fn bare_numbers_take_the_kind_of_the_other_side() {
    let inches = |text| value_in(text, LengthUnit::Inch).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!(value("foot + 1").value, 306.0, "mm");
    assert_eq!(inches("foot + 1").value, 330.4, "1 is an inch");
    assert_eq!(inches("1 + foot").value, 330.4, "on either side");
    assert_eq!(
        inches("2 * foot").value,
        610.0,
        "a pure number in a product"
    );
    assert_eq!(inches("max(foot, 1)").value, 305.0, "in a comparison");
    assert_eq!(inches("foot * foot + 1").value, 93025.0 + 645.16, "1 in²");
    assert_eq!(value("holes + 1").kind, Kind::NUMBER, "a count plus one");
    assert_eq!(
        value("lean + 15").value,
        std::f64::consts::FRAC_PI_4,
        "degrees"
    );
}

#[test]
fn kinds_are_checked() {
    assert_eq!(value("foot * foot").kind, Kind::AREA, "an area");
    assert_eq!(
        value("sqrt(foot * foot)"),
        value("foot"),
        "its root is a length"
    );
    assert_eq!(value("foot / foot").kind, Kind::NUMBER, "a ratio");
    assert_eq!(value("foot^3 / foot").kind, Kind::AREA, "powers");
    assert_eq!(value("lean / lean").kind, Kind::NUMBER, "ratio of angles");
    for text in [
        "foot + foot * foot",
        "foot + foot / foot",
        "foot + lean",
        "foot * lean",
        "lean * lean",
        "max(foot, lean)",
        "holes + foot",
    ] {
        assert!(
            fault(text).starts_with("kind-mismatch"),
            "`{text}`: {}",
            fault(text)
        );
    }
}

#[test]
fn nothing_gives_a_wrong_number() {
    for (text, name) in [
        ("foot / gap", "division-by-zero"),
        ("foot / (3 - 3)", "division-by-zero"),
        ("1/0 in", "division-by-zero"),
        ("sqrt(-1)", "wrong-argument"),
        ("acos(-1.5)", "wrong-argument"),
        ("tan(90)", "wrong-argument"),
        ("round(foot, 0)", "wrong-argument"),
        ("(1e30^9)^2", "overflow"),
        ("1e300 * 1e300", "bad-number"),
        ("1e999", "bad-number"),
        ("heel", "unknown-name"),
        ("3 in^2", "bad-power"),
        ("2^-1", "bad-power"),
        ("foot(3)", "unknown-function"),
        ("25,4", "decimal-comma-in-expression"),
        ("max(25,4)", "decimal-comma-in-expression"),
        ("3 , 4", "unexpected-character"),
        ("()", "missing-operand"),
        ("foot foot", "missing-operator"),
        ("3 foot", "unknown-unit"),
        ("3 heel", "missing-operator"),
        ("pi(2)", "unknown-function"),
        ("in", "missing-operand"),
        ("2 ft 3 mm", "missing-operator"),
        ("2 ft 3 ft", "missing-operator"),
    ] {
        let told = fault(text);
        assert!(
            told.starts_with(name),
            "`{text}` should be {name}, is {told}"
        );
    }
}

#[test]
fn the_working_shows_names_then_numbers() {
    for (text, expected) in [
        ("foot - 6", "foot − 6 = 305 − 6 = 299 mm"),
        ("foot/2", "foot ÷ 2 = 305 ÷ 2 = 152.5 mm"),
        (
            "2*(foot + 1/2 in)",
            "2 × (foot + 1/2 in) = 2 × (305 + 1/2 in) = 635.4 mm",
        ),
        (
            "foot - (gap - 5)",
            "foot − (gap − 5) = 305 − (0 − 5) = 310 mm",
        ),
        (
            "foot / (2 * holes)",
            "foot ÷ (2 × holes) = 305 ÷ (2 × 3) = 50.833333 mm",
        ),
        (
            "foot * sin(lean)",
            "foot × sin(lean) = 305 × sin(30°) = 152.5 mm",
        ),
        ("foot", "foot = 305 mm"),
        ("-foot", "−foot = −305 = −305 mm"),
        ("3 * 4 mm", "3 × 4 mm = 12 mm"),
    ] {
        let scope = Sample(LengthUnit::Millimetre);
        let term = parse(text).expect("an expression");
        let shown = working::working(&term, text, value(text), &scope);
        assert_eq!(shown.as_deref(), Some(expected), "working of `{text}`");
    }
    let term = parse("1/2 in").expect("a literal");
    let scope = Sample(LengthUnit::Millimetre);
    let shown = working::working(&term, "1/2 in", value("1/2 in"), &scope);
    assert_eq!(shown, None, "a literal needs no working");
}

#[test]
fn numbers_are_shown_as_people_write_them() {
    for (number, expected) in [
        (0.0, "0"),
        (-0.0, "0"),
        (305.0, "305"),
        (12.7, "12.7"),
        (0.1 + 0.2, "0.3"),
        (100.0, "100"),
        (-1e-9, "-1e-9"),
        (1.0 / 3.0, "0.333333"),
    ] {
        assert_eq!(working::plain_number(number), expected, "{number:?}");
    }
}

#[test]
fn depth_and_length_are_bounded() {
    let deep = |count: usize| format!("{}1{}", "(".repeat(count), ")".repeat(count));
    assert_eq!(value(&deep(60)).value, 1.0, "60 deep is allowed");
    assert!(
        fault(&deep(65)).starts_with("expression-too-deep"),
        "65 is not"
    );
    let minus = format!("{}1", "-".repeat(900));
    assert!(
        fault(&minus).starts_with("expression-too-deep"),
        "signs count"
    );
    let sum = format!("1{}", " + 1".repeat(499));
    assert_eq!(value(&sum).value, 500.0, "a long sum is not deep");
    assert!(
        fault(&"1 + ".repeat(600)).starts_with("expression-too-long"),
        "bytes"
    );
}

#[test]
fn places_do_not_cut_characters() {
    for text in ["0×", "foot −", "(foot ÷", "½", "30° °", "max(1, ×"] {
        let error = parse(text).expect_err("not an expression");
        assert!(
            text.get(error.range.clone()).is_some(),
            "`{text}` is cut at {:?}",
            error.range
        );
    }
}
