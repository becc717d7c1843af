//! Patterns from parts to bytes.
#![expect(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::print_stdout,
    reason = "a test stops at what it cannot do"
)]

mod parts;

use std::fs;
use std::path::PathBuf;

use kerfwise::design::part::Part;
use kerfwise::documents::pattern;
use kerfwise::documents::pattern::Extent;
use kerfwise::documents::pattern::Face;
use kerfwise::documents::pattern::PatternOptions;
use kerfwise::documents::pattern::PatternPaper;
use kerfwise::documents::pattern::RoughCut;
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

fn letter() -> PatternPaper {
    PatternPaper::Sheets {
        name: "letter".to_owned(),
        width: 215.9,
        height: 279.4,
    }
}

fn write(name: &str, parts: &[Part], options: &PatternOptions) {
    let file = pattern::build(parts, &parts::stamp(), options).unwrap();
    let summary = &file.summary;
    println!(
        "{name}: {} sheets, {} saved, {:?}",
        summary.sheets,
        summary.sheets_saved(),
        summary.notes
    );
    let path = folder().join(format!("{name}.pdf"));
    fs::write(path, pdf::write(&file.pdf).unwrap()).unwrap();
}

#[test]
#[ignore = "writes files to look at"]
fn samples() {
    let plain = PatternOptions::new(a4());
    write("leeboard", &[parts::leeboard()], &plain);
    write("panel", &[parts::panel()], &plain);
    write("bracket", &[parts::bracket()], &plain);
    write(
        "corners",
        &[parts::panel()],
        &PatternOptions {
            extent: Extent::CornersOnly,
            ..plain.clone()
        },
    );
    write(
        "several",
        &[parts::leeboard(), parts::bracket(), parts::bracket()],
        &PatternOptions {
            paper: letter(),
            face: Face::Mirrored,
            rough_cut: RoughCut::Allowance(2.0),
            ..plain.clone()
        },
    );
    write(
        "roll",
        &[parts::panel()],
        &PatternOptions {
            paper: PatternPaper::Roll { width: 610.0 },
            ..plain.clone()
        },
    );
    write(
        "one-page",
        &[parts::panel()],
        &PatternOptions {
            paper: PatternPaper::OnePage,
            ..plain.clone()
        },
    );
    write(
        "small",
        &[parts::leeboard()],
        &PatternOptions {
            paper: PatternPaper::custom(148.0, 210.0),
            ..plain.clone()
        },
    );
    let page = pattern::calibration_page(&plain).unwrap();
    fs::write(
        folder().join("calibration.pdf"),
        pdf::write(&page.pdf).unwrap(),
    )
    .unwrap();
}
