//! Design files as text: what they give, and what is said of what is wrong.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot go on fails"
)]

use kerfwise::design::DesignError;
use kerfwise::design::DesignFile;
use kerfwise::design::Dimensions;
use kerfwise::design::Override;
use kerfwise::design::Source;
use std::fs;
use std::path::PathBuf;

fn fixture(name: &str) -> Source {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR"))
        .join("fixtures")
        .join(name);
    Source::new(name, fs::read_to_string(&path).unwrap())
}

fn told(source: &Source, errors: &[DesignError]) -> String {
    errors.iter().map(|error| error.to_text(source)).collect()
}

fn read(source: &Source) -> DesignFile {
    DesignFile::read(source).unwrap_or_else(|errors| panic!("{}", told(source, &errors)))
}

fn evaluate(file: &DesignFile, source: &Source, overrides: &[Override]) -> Dimensions {
    Dimensions::evaluate(file, overrides)
        .unwrap_or_else(|errors| panic!("{}", told(source, &errors)))
}

#[test]
fn show() {
    let source = fixture("designs/leeboard.toml");
    let file = read(&source);
    let dimensions = evaluate(&file, &source, &[]);
    for dimension in &dimensions {
        println!("{dimension:?}");
    }
    println!("{}", told(&source, dimensions.findings()));
}
