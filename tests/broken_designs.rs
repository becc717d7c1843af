//! Every broken design is told what is wrong with it: one expected message beside each.
//!
//! `OVERWRITE=1 cargo test --test broken_designs` writes the messages anew; read the difference.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on fails")]

use kerfwise::design::Design;
use kerfwise::design::DesignError;
use kerfwise::design::DesignFile;
use kerfwise::design::Dimensions;
use kerfwise::design::Source;
use kerfwise::design::error::DimensionFault;
use kerfwise::design::error::ExpressionFault;
use kerfwise::design::error::FileFault;
use kerfwise::design::error::MeasureFault;
use kerfwise::design::error::PartFault;
use kerfwise::geometry::outline::OutlineFault;
use kerfwise::measures::review;
use std::fs;
use std::path::PathBuf;

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("fixtures/broken")
}

/// The broken designs, by name.
fn fixtures() -> Vec<PathBuf> {
    let mut paths: Vec<PathBuf> = fs::read_dir(folder())
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending != "expected"))
        .collect();
    paths.sort();
    paths
}

/// Everything found in a text, whether it keeps the design from being built or not.
fn errors_of(source: &Source) -> Vec<DesignError> {
    let found = |design: Design| {
        let mut all = design.findings();
        all.extend(review(&design).findings);
        all
    };
    Design::load(source, &[]).map_or_else(|errors| errors, found)
}

/// All that is said about a text, and the short names of what is said.
fn told(source: &Source) -> (String, Vec<&'static str>) {
    let errors = errors_of(source);
    let text: Vec<String> = errors.iter().map(|error| error.to_text(source)).collect();
    let names = errors.iter().map(|error| error.kind.name()).collect();
    (text.join("\n"), names)
}

#[test]
fn every_broken_design_has_its_message() {
    let mut wrong = Vec::new();
    for path in fixtures() {
        let name = path.file_name().unwrap().to_str().unwrap().to_owned();
        let source = Source::new(name.clone(), fs::read_to_string(&path).unwrap());
        let (text, _) = told(&source);
        assert!(!text.is_empty(), "{name} is not broken");
        let expected_path = path.with_extension("expected");
        if std::env::var_os("OVERWRITE").is_some() {
            fs::write(&expected_path, &text).unwrap();
        }
        let expected = fs::read_to_string(&expected_path).unwrap_or_default();
        if text != expected {
            wrong.push(format!("{name}: expected\n{expected}\nbut is told\n{text}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Faults that no file on its own can show, and where they are tested.
const NOT_IN_A_FILE: &[&str] = &[
    "not-text",            // bytes, in the tests of `source`
    "too-large",           // 32 MiB, below
    "geometry-of-outline", // numbers beyond 1 km, in the tests of the profile builder
    "more-errors",         // a hundred errors, below
    "not-a-count",         // where the count is used, in tests/design_text.rs
    "unknown-override",    // --set, in tests/design_text.rs
    "bad-override",        // --set, in tests/design_text.rs
    "not-on-shape",        // a shape grown too far, in tests/measures.rs
];

#[test]
fn every_fault_has_its_broken_design() {
    let mut seen: Vec<&str> = NOT_IN_A_FILE.to_vec();
    for path in fixtures() {
        let source = Source::new(
            path.file_name().unwrap().to_str().unwrap(),
            fs::read_to_string(&path).unwrap(),
        );
        seen.extend(told(&source).1);
    }
    let known = [
        FileFault::NAMES,
        ExpressionFault::NAMES,
        DimensionFault::NAMES,
        OutlineFault::NAMES,
        PartFault::NAMES,
        MeasureFault::NAMES,
    ]
    .concat();
    let missing: Vec<&&str> = known.iter().filter(|name| !seen.contains(name)).collect();
    assert!(missing.is_empty(), "no broken design shows {missing:?}");
    assert!(fixtures().len() >= 25, "at least 25 broken designs");
}

#[test]
fn every_error_has_a_way_out_and_a_place() {
    for path in fixtures() {
        let source = Source::new("x", fs::read_to_string(&path).unwrap());
        let name = path.display();
        let errors = errors_of(&source);
        for error in errors {
            assert!(!error.help.is_empty(), "{name}: no way out of {error}");
            assert!(error.place.end <= source.text().len(), "{name}: {error}");
            let message = error.kind.to_string();
            assert!(!message.ends_with('.'), "{name}: full stop in {message}");
            let first = message.chars().next().unwrap();
            assert!(!first.is_uppercase(), "{name}: capital in {message}");
        }
    }
}

#[test]
fn a_hundred_errors_are_enough() {
    let mut text = "[dims]\n".to_owned();
    for number in 0..150 {
        text.extend([format!("d{number} = \"missing_{number}\"\n")]);
    }
    let file = DesignFile::read(&Source::new("x", text)).unwrap();
    let errors = Dimensions::evaluate(&file, &[]).unwrap_err();
    assert_eq!(errors.len(), 101, "a hundred and the count of the rest");
    let last = errors.last().unwrap();
    assert_eq!(last.kind.name(), "more-errors", "{last}");
    assert!(last.to_string().starts_with("50 further"), "{last}");
}

#[test]
fn a_file_may_be_too_large() {
    let bytes = vec![b'#'; 33 * 1024 * 1024];
    let error = Source::from_bytes("x", &bytes).unwrap_err();
    assert_eq!(error.kind.name(), "too-large", "{error}");
}
