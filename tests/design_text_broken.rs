//! Every broken design is told what is wrong with it: one expected message beside each.
//!
//! `OVERWRITE=1 cargo test --test design_text_broken` writes the messages anew; read the difference.
#![expect(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot go on fails"
)]

use kerfwise::design::DesignError;
use kerfwise::design::DesignFile;
use kerfwise::design::Dimensions;
use kerfwise::design::Source;
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

/// All that is said about a text, and the short names of what is said.
fn told(source: &Source) -> (String, Vec<&'static str>) {
    let errors: Vec<DesignError> = match DesignFile::read(source) {
        Err(errors) => errors,
        Ok(file) => match Dimensions::evaluate(&file, &[]) {
            Err(errors) => errors,
            Ok(dimensions) => dimensions.findings().to_vec(),
        },
    };
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
