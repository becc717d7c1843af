use super::*;
use crate::trade::instruments;
use crate::trade::instruments::MeasuredFrom;
use temperature::Temperature;

fn near(value: f64, expected: f64, within: f64) -> bool {
    (value - expected).abs() <= within
}

/// JCGM 100:2008, H.1: a gauge block of 50 mm against a standard; lengths in millimetres and
/// nanometres as printed there.
#[test]
fn the_gauge_block_of_the_gum_comes_out() {
    // H.1.2: l = lS + d − lS(δα·θ + αS·δθ), with δα = 0 and δθ = 0 at the estimates
    let (standard, difference) = (50.000_623, 215e-6);
    let warmer = -0.1;
    let length = temperature::at_reference(standard, (11.5, warmer), (11.5, warmer)) + difference;
    assert!(near(length, 50.000_838, 5e-8), "length {length} mm");

    // H.1.6: three sources of the difference, with their degrees of freedom
    let of_the_difference = combine(&[
        Component::known("repeated observations", 5.8).with_freedom(24.0),
        Component::known("random effects of the comparator", 3.9).with_freedom(5.0),
        Component::known("systematic effects of the comparator", 6.7).with_freedom(8.0),
    ]);
    assert!(
        near(of_the_difference.standard, 9.7, 0.05)
            // printed 25.6 comes of 9.7 already rounded
            && near(of_the_difference.freedom, 25.6, 0.2),
        "{of_the_difference:?}"
    );

    // Table H.1, and H.1.7: sensitivities 1, 1, −lS·θ, −lS·αS; length in nanometres
    let nanometres = standard * 1e6;
    let components = [
        Component::known("standard", 25.0).with_freedom(18.0),
        Component::known("difference", 9.7).with_freedom(25.6),
        Component::known("difference of growth", 0.58e-6)
            .with_freedom(50.0)
            .with_sensitivity(-nanometres * warmer),
        Component::known("difference of temperature", 0.029)
            .with_freedom(2.0)
            .with_sensitivity(-nanometres * 11.5e-6),
    ];
    let contributions = [25.0, 9.7, 2.9, 16.6];
    for (component, expected) in components.iter().zip(contributions) {
        let found = component.contribution();
        assert!(
            near(found, expected, 0.08),
            "{}: {found} for {expected} nm",
            component.source
        );
    }
    let together = combine(&components);
    assert!(near(together.standard, 32.0, 0.5), "{together:?}");
    // GTC 1.5.1 on the same numbers: 31.710609640 nm, 16.656062703; tests/oracles/uncertainty.py
    assert!(
        near(together.standard, 31.710_609_640, 1e-6),
        "{together:?}"
    );
    assert!(near(together.freedom, 16.656_062_703, 1e-6), "{together:?}");
    assert!(
        near(together.whole_freedom(), 16.0, 0.0),
        "cut, not rounded"
    );
    assert!(near(together.coverage_factor(0.99), 2.92, 0.005), "t99(16)");
    assert!(near(together.expanded(0.99), 93.0, 0.5), "U99");
    // scipy 1.17.1: stats.t.ppf(0.995, 16)
    assert!(
        near(together.coverage_factor(0.99), 2.920_781_622_425, 1e-9),
        "t99(16)"
    );
}

#[test]
fn students_factors_are_those_of_the_tables() {
    // JCGM 100:2008, Table G.2: t for 95 %, 95.45 % and 99 %
    for (freedom, expected) in [
        (1.0, [12.71, 13.97, 63.66]),
        (2.0, [4.30, 4.53, 9.92]),
        (3.0, [3.18, 3.31, 5.84]),
        (5.0, [2.57, 2.65, 4.03]),
        (10.0, [2.23, 2.28, 3.17]),
        (50.0, [2.01, 2.05, 2.68]),
        (f64::INFINITY, [1.960, 2.000, 2.576]),
    ] {
        for (level, expected) in [0.95, 0.9545, 0.99].into_iter().zip(expected) {
            let factor = student::factor(level, freedom);
            assert!(
                near(factor, expected, 0.0051),
                "{level}, {freedom}: {factor} for {expected}"
            );
            assert!(
                near(student::level(factor, freedom), level, 1e-10),
                "there and back at {level}, {freedom}"
            );
        }
    }
    // scipy 1.17.1: 2*stats.t.cdf(2, v) - 1
    for (freedom, expected) in [
        (1.0, 0.704_832_764_699_133_4),
        (4.0, 0.883_883_476_483_184_4),
        (30.0, 0.945_374_955_037_017),
        (1000.0, 0.954_229_653_506_748_3),
    ] {
        let level = student::level(2.0, freedom);
        assert!(near(level, expected, 1e-12), "{freedom}: {level}");
    }
    assert!(
        near(student::level(0.0, 3.0), 0.0, 1e-15),
        "nothing within nothing"
    );
}

#[test]
fn few_readings_are_as_sure_as_many() {
    // JCGM 100:2008, Table G.2, column 95.45 %: what k = 2 is for infinitely many
    for (freedom, expected) in [
        (1.0, 13.97),
        (2.0, 4.53),
        (2.9, 4.53), // cut to a whole number, G.4.1
        (3.0, 3.31),
        (4.0, 2.87),
        (5.0, 2.65),
        (6.0, 2.52),
        (7.0, 2.43),
        (8.0, 2.37),
        (9.0, 2.32),
        (10.0, 2.28),
        (20.0, 2.13),
        (50.0, 2.05),
        (100.0, 2.025),
    ] {
        let few = Combined {
            standard: 1.0,
            freedom,
        };
        let factor = few.factor_as_sure_as(2.0);
        assert!(
            near(factor, expected, 0.0051),
            "{freedom}: {factor} for {expected}"
        );
        // column 99.73 %: k = 3
        let wider = few.factor_as_sure_as(3.0);
        assert!(wider > factor && wider > 3.0, "{freedom}: {wider}");
    }
    let three = Combined {
        standard: 1.0,
        freedom: 3.0,
    };
    // Table G.2, 99.73 % and 3 degrees of freedom
    assert!(near(three.factor_as_sure_as(3.0), 9.22, 0.0051), "k = 3");
    assert!(near(three.factor_as_sure_as(0.0), 0.0, 1e-12), "no guard");
    assert!(three.factor_as_sure_as(8.0) >= 8.0, "past all tables");
}

#[test]
fn readings_have_mean_scatter_and_freedom() {
    // JCGM 100:2008, Table H.2 (voltage of a resistor): mean 4.9990 V, s of the mean 0.0032 V
    let sample = Sample::of(&[5.007, 4.994, 5.005, 4.990, 4.999]).expect("five readings");
    assert!(near(sample.mean, 4.9990, 5e-5), "{sample:?}");
    assert!(near(sample.of_the_mean(), 0.0032, 5e-5), "{sample:?}");
    assert_eq!(sample.freedom(), Some(4.0), "one less");
    assert!(near(sample.range(), 0.017, 1e-12), "{sample:?}");

    let one = Sample::of(&[5.0]).expect("one reading");
    assert_eq!((one.deviation, one.freedom()), (0.0, None), "no scatter");
    assert_eq!(Sample::of(&[]), None, "nothing to take the mean of");
}

fn plain(text: &str) -> Option<f64> {
    text.trim_end_matches("mm")
        .trim()
        .replace(',', ".")
        .parse()
        .ok()
}

#[test]
fn instruments_go_by_name_or_by_what_is_stated() {
    let named = |text: &str| Means::parse(text, plain);
    let tape = named("tape").expect("tape");
    assert_eq!(tape.words(), "tape, class II", "from its end");
    let tape = named("tape from a mark").expect("tape");
    assert_eq!(
        tape.words(),
        "tape, class II from a mark",
        "not from its end"
    );
    assert!(
        near(tape.component(1200.0).standard, 0.7 / 3f64.sqrt(), 1e-12),
        "0.3 + 0.2 × 2 mm, anywhere alike"
    );
    let own = named("old calliper ±0,1 mm").expect("stated");
    assert_eq!(own.accuracy, Accuracy::Within(0.1), "decimal comma");
    assert_eq!(own.name, "old calliper ±0,1 mm", "with what was stated");
    let certified = named("plug gauge U 0.01 mm k 2.5").expect("certificate");
    assert!(
        near(certified.component(8.0).standard, 0.004, 1e-12),
        "0.01 / 2.5"
    );
    assert_eq!(
        named("U=0.01").expect("no name").accuracy,
        Accuracy::Certificate {
            expanded: 0.01,
            factor: 2.0
        },
        "the usual factor"
    );
    for wrong in ["theodolite", "calliper ±0", "calliper ±", "gauge U 0.1 k 0"] {
        assert!(named(wrong).is_err(), "{wrong}");
    }
}

#[test]
fn a_budget_has_instrument_reading_and_temperature() {
    let sample = Sample::of(&[1200.0]).expect("one reading");
    let cold = Circumstances {
        means: Means::of(instruments::find("tape").expect("tape"), MeasuredFrom::End),
        temperature: Temperature::read(10.0),
        expansion: Some(23.6),
    };
    let budget = Budget::of_the_mean(&sample, &cold);
    // 1200 mm × 10 K × (23.6 − 11.7)e-6: a cold plate is longer at 20 °C
    assert!(
        near(budget.correction, 0.1428, 1e-4),
        "{}",
        budget.correction
    );
    let expected = [
        0.9 / 3f64.sqrt(),
        0.25 / 3f64.sqrt(),
        2.0 / 3f64.sqrt() * 1200.0 * 11.9e-6,
    ];
    assert_eq!(budget.components.len(), 3, "{:?}", budget.components);
    for (component, expected) in budget.components.iter().zip(expected) {
        assert!(
            near(component.contribution(), expected, 1e-9),
            "{component:?} for {expected}"
        );
    }
    assert!(budget.combined.freedom.is_infinite(), "all of type B");

    // the scatter of readings counts in place of the reading where it is larger
    let rough = Sample::of(&[1199.0, 1201.0, 1200.0]).expect("three readings");
    let budget = Budget::of_the_mean(&rough, &cold);
    let of_reading = &budget.components[1];
    assert_eq!(
        of_reading.evaluation,
        Evaluation::Readings,
        "{of_reading:?}"
    );
    assert!(
        near(of_reading.contribution(), 1.0 / 3f64.sqrt(), 1e-12),
        "s/√n"
    );
    assert!(budget.combined.freedom.is_finite(), "{:?}", budget.combined);

    // steel against steel: no matter how warm
    let steel = Circumstances {
        expansion: Some(instruments::SCALE_EXPANSION.value),
        ..cold
    };
    let budget = Budget::of_the_mean(&sample, &steel);
    assert_eq!(budget.components.len(), 2, "no term of temperature");
    assert!(near(budget.correction, 0.0, 1e-12), "{}", budget.correction);
}
