use super::*;
use crate::design::Design;
use crate::design::Source;
use crate::shop::kerf::AsCut;
use crate::shop::kerf::judged;
use std::fmt::Write;

fn text(rows: &[(u32, &str)]) -> String {
    let mut text = "# filled in\nrow,what,drawn,top,bottom\n".to_owned();
    for (row, values) in rows {
        let _ = writeln!(text, "{row},x,0,{values}");
    }
    text
}

#[test]
fn every_row_of_the_form_gains_or_loses_the_kerf_on_the_piece_as_cut() {
    let design = Design::load(&Source::new("trial.toml", DESIGN), &[]).expect("the piece");
    let part = design.resolved.parts.first().expect("a part");
    let all = judged(&design, part);
    let cut = AsCut::new(part, 2.0).expect("ready");
    let kerf = 1.3;
    let shape = cut.shape(0.0, 0.5 * kerf).expect("cut on the line");
    let names = [
        "length",
        "below",
        "top",
        "height",
        "step",
        "tongue",
        "small hole diameter",
        "middle hole diameter",
        "large hole diameter",
        "narrow slot width",
        "wide slot width",
        "wide slot length",
    ];
    for (row, name) in ROWS.iter().zip(names) {
        let one = all.iter().find(|one| one.name == name).expect(name);
        assert!((one.drawn - row.drawn).abs() < 1e-9, "{name} as drawn");
        let value = one.value(part, &shape, &design.dimensions).expect(name);
        let expected = row.drawn + row.side.sign() * kerf;
        assert!(
            (value - expected).abs() < 1e-6,
            "{name}: {value}, not {expected}"
        );
    }
}

#[test]
fn exact_readings_give_the_kerf_the_scale_and_the_taper_back() {
    let (kerf, scale, lean) = (1.07, 0.0004, 0.06);
    let rows: Vec<(u32, String)> = ROWS
        .iter()
        .map(|row| {
            let sign = row.side.sign();
            let middle = row.drawn * (1.0 + scale) + sign * kerf;
            let (top, bottom) = (middle + sign * lean, middle - sign * lean);
            (row.number, format!("{top:.9},{bottom:.9}"))
        })
        .collect();
    let borrowed: Vec<(u32, &str)> = rows
        .iter()
        .map(|(row, text)| (*row, text.as_str()))
        .collect();
    let found = fit(&Readings::read(&text(&borrowed)).expect("readings")).expect("a kerf");
    assert!((found.kerf - kerf).abs() < 1e-8, "{found:?}");
    assert!(
        (found.scale.expect("told apart") - scale).abs() < 1e-10,
        "{found:?}"
    );
    assert!(
        (found.taper.expect("both faces") - lean).abs() < 1e-8,
        "{found:?}"
    );
    assert!(found.kerf_uncertainty < 1e-7, "exact: {found:?}");
    assert!(found.steps_wrong(), "0.4 mm a metre");
}

#[test]
fn outside_sizes_alone_give_their_mean_and_no_scale() {
    // 1.0, 1.1, 0.9, 1.0 less: mean 1.0, standard deviation √(0.02 / 3), t(0.975; 3) = 3.182
    let found = fit(&Readings::read(&text(&[
        (1, "99.0,"),
        (2, "78.9,"),
        (3, "59.1,"),
        (4, "59.0,"),
    ]))
    .expect("readings"))
    .expect("a kerf");
    assert!((found.kerf - 1.0).abs() < 1e-12, "{found:?}");
    assert_eq!(found.scale, None, "not told apart");
    let deviation = (0.02_f64 / 3.0).sqrt();
    assert!(
        (found.kerf_uncertainty - 3.182 * deviation / 2.0).abs() < 1e-9,
        "{found:?}"
    );
}

#[test]
fn what_is_no_reading_is_told_with_its_line() {
    for (rows, name, words) in [
        (
            vec![(99, "1,")],
            "unknown-row",
            "line 3: there is no row `99`",
        ),
        (vec![(1, "99,"), (1, "99,")], "twice", "line 4: row 1"),
        (
            vec![(1, "99x,")],
            "not-a-number",
            "`99x` is no reading of row 1",
        ),
        (
            vec![(1, "9.9,")],
            "far-off",
            "is drawn 100 mm and read 9.9 mm",
        ),
    ] {
        let fault = Readings::read(&text(&rows)).expect_err(name);
        assert_eq!(fault.name(), name, "{fault}");
        assert!(fault.to_string().contains(words), "{fault}");
    }
    let few = fit(&Readings::read(&text(&[(1, "99,")])).expect("one"));
    assert_eq!(few.expect_err("too few").name(), "too-few", "one reading");
    let grown: Vec<(u32, &str)> = vec![(1, "101,"), (2, "81,"), (7, "7,"), (8, "11,")];
    let none = fit(&Readings::read(&text(&grown)).expect("readings"));
    assert_eq!(
        none.expect_err("exchanged").name(),
        "no-cut",
        "larger outside, smaller inside"
    );
    let semicolons = text(&[(1, "99,98.9")]).replace(',', ";");
    let read = Readings::read(&semicolons).expect("semicolons");
    assert_eq!(
        read.all.first().and_then(|one| one.bottom),
        Some(98.9),
        "read as well"
    );
}
