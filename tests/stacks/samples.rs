//! Stacks beside normal samples of everything that is free.

use super::close;
use super::demo;
use super::derived;
use super::limit_named;
use super::load;
use kerfwise::design::Design;
use kerfwise::design::Dimensions;
use kerfwise::design::Override;
use kerfwise::measures::limits::Limit;
use kerfwise::measures::limits::value_at;
use kerfwise::measures::stack::Bench;
use kerfwise::measures::stack::Stack;
use rand::SeedableRng;
use rand::rngs::StdRng;
use rand_distr::Distribution;
use rand_distr::Normal;

/// What is sampled.
enum Sampled<'a> {
    Derived(&'a str),
    Limits(&'a [Limit]),
}

/// Normal samples of everything that is free, a third of its spread wide: for each value sampled the
/// mean and the standard deviation of what comes out.
fn sampled(design: &Design, what: &Sampled<'_>, count: usize) -> Vec<(f64, f64)> {
    let bench = Bench::new(design);
    let mut random = StdRng::seed_from_u64(20_261_128);
    let normals: Vec<(String, Normal<f64>)> = bench
        .free()
        .iter()
        .filter(|free| design.dimensions.get(&free.name).is_some())
        .map(|free| {
            let middle = free.value + free.band.middle();
            let normal = Normal::new(middle, free.band.half() / 3.0).unwrap();
            (free.name.clone(), normal)
        })
        .collect();
    let mut samples: Vec<Vec<f64>> = Vec::new();
    for _ in 0..count {
        let values: Vec<Override> = normals
            .iter()
            .map(|(name, normal)| Override::exact(name.clone(), normal.sample(&mut random)))
            .collect();
        samples.push(match what {
            Sampled::Limits(limits) => {
                let (dimensions, resolved) = design.with_values(&values).unwrap();
                let value = |limit| value_at(limit, &dimensions, &resolved.parts).unwrap();
                limits.iter().map(value).collect()
            }
            Sampled::Derived(name) => {
                let dimensions = Dimensions::evaluate(&design.file, &values).unwrap();
                vec![dimensions.get(name).unwrap().value().unwrap()]
            }
        });
    }
    let count = count as f64;
    let of = |index: usize| {
        let mean = samples.iter().map(|row| row[index]).sum::<f64>() / count;
        let squares: f64 = samples.iter().map(|row| (row[index] - mean).powi(2)).sum();
        (mean, (squares / (count - 1.0)).sqrt())
    };
    (0..samples[0].len()).map(of).collect()
}

fn deviation(stack: &Stack) -> f64 {
    (stack.likely[1] - stack.likely[0]) / 6.0
}

/// A sum, which is linear: the deviation of so many samples is the stack's.
fn a_sum(count: usize, within: f64) {
    let design = load(
        r#"
[dims]
a = { value = 50, spread = 0.5 }
b = { value = 30, spread = 0.3 }
c = { value = 20, spread = { plus = 0.4, minus = 0.1 } }
gap = "2*a - b - c/2"
"#,
    );
    let stack = derived(&design, "gap");
    let (mean, found) = sampled(&design, &Sampled::Derived("gap"), count)[0];
    let expected = deviation(&stack);
    assert!(
        ((found - expected) / expected).abs() < within,
        "{found} for {expected}"
    );
    close("mean", mean, stack.middle(), 0.01);
}

#[test]
fn normal_samples_of_a_sum_have_the_deviation_of_the_stack() {
    // 20,000 samples: the deviation itself is known to 0.5 %, three times that is 1.5 %
    a_sum(20_000, 0.015);
}

#[test]
#[ignore = "evaluates 200,000 times"]
fn normal_samples_of_a_sum_in_full() {
    a_sum(200_000, 0.01);
}

/// The linear cases of the demo, and the others with their difference.
#[expect(clippy::print_stdout, reason = "the differences are to be read")]
fn demo_cases(count: usize, within: f64) {
    let design = demo("leeboard.toml");
    let bench = Bench::new(&design);
    let cases = [
        ("pivot_up", true),
        ("foot", true),
        ("width 300 above the foot", false),
        ("metal between hole and leading edge", false),
    ];
    let all = cases.map(|(name, _)| limit_named(&design, name));
    let found = sampled(&design, &Sampled::Limits(&all), count);
    for (((name, is_linear), limit), (mean, found)) in cases.iter().zip(&all).zip(found) {
        let stack = bench.limit(limit).unwrap();
        let expected = deviation(&stack);
        let off = (found - expected) / expected;
        println!(
            "{name}: deviation {found:.6} mm in {count} samples, {expected:.6} mm in the stack ({:+.2} %); mean {mean:.4} mm for {:.4} mm",
            off * 100.0,
            stack.middle()
        );
        let within = if *is_linear { within } else { 0.1 };
        assert!(off.abs() < within, "{name}: {found} for {expected}");
    }
}

#[test]
fn normal_samples_of_the_demo() {
    // 4000 samples: the deviation itself is known to 1.1 %, three times that is 3.4 %
    demo_cases(4_000, 0.035);
}

#[test]
#[ignore = "resolves the demo 200,000 times"]
fn normal_samples_of_the_demo_in_full() {
    demo_cases(200_000, 0.01);
}
