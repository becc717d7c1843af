//! Patterns from parts to bytes.
#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a test stops at what it cannot do"
)]

mod parts;

use std::fs;
use std::path::PathBuf;

use kerfwise::documents::pattern;
use kerfwise::documents::pattern::PatternOptions;
use kerfwise::documents::pattern::PatternPaper;
use kerfwise::formats::pdf;

fn folder() -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("pattern");
    fs::create_dir_all(&folder).unwrap();
    folder
}

fn a4() -> PatternPaper {
    PatternPaper::Sheets {
        name: "A4".to_owned(),
        width: 210.0,
        height: 297.0,
    }
}

#[test]
#[ignore = "writes files to look at"]
fn samples() {
    let stamp = parts::stamp();
    let options = PatternOptions::new(a4());
    for part in [parts::leeboard(), parts::panel(), parts::bracket()] {
        let name = part.name.replace(' ', "-");
        let file = pattern::build(&[part], &stamp, &options).unwrap();
        println!("{name}: {:?}", file.summary);
        fs::write(
            folder().join(format!("{name}.pdf")),
            pdf::write(&file.pdf).unwrap(),
        )
        .unwrap();
    }
    let page = pattern::calibration_page(&options).unwrap();
    fs::write(
        folder().join("calibration.pdf"),
        pdf::write(&page.pdf).unwrap(),
    )
    .unwrap();
}
