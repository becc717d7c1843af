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
use kerfwise::documents::pattern::Correction;
use kerfwise::documents::pattern::Extent;
use kerfwise::documents::pattern::Face;
use kerfwise::documents::pattern::Orientation;
use kerfwise::documents::pattern::PatternOptions;
use kerfwise::documents::pattern::PatternPaper;
use kerfwise::documents::pattern::Printer;
use kerfwise::documents::pattern::Readings;
use kerfwise::documents::pattern::RoughCut;
use kerfwise::formats::pdf;
use kerfwise::geometry::Point;
use kerfwise::geometry::Vec2;

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

/// What the simulated printer needs: a calibration page, and two patterns with and without its readings.
/// `tests/oracles/pattern.py` runs this, reads the pages from their pixels, and runs it again.
#[test]
#[ignore = "run by tests/oracles/pattern.py"]
fn proof() {
    let out = PathBuf::from(std::env::var("PATTERN_OUT").unwrap());
    let readings = std::env::var("PATTERN_READINGS").ok();
    for (name, paper, part) in [
        ("leeboard", a4(), parts::leeboard()),
        ("panel", letter(), parts::panel()),
    ] {
        for (way, orientation) in [
            ("upright", Orientation::Portrait),
            ("lying", Orientation::Landscape),
        ] {
            let mut options = PatternOptions {
                orientation,
                ..PatternOptions::new(paper.clone())
            };
            let page = pattern::calibration_page(&options).unwrap();
            if let Some(readings) = &readings {
                let path = PathBuf::from(readings).join(format!("{name}.json"));
                let read: Readings =
                    serde_json::from_str(&fs::read_to_string(path).unwrap()).unwrap();
                let correction =
                    Correction::from_readings("simulated", page.paper, page.asked, read).unwrap();
                options.printer = Printer::Measured(correction);
            }
            let file = pattern::build(std::slice::from_ref(&part), &parts::stamp(), &options);
            let file = file.unwrap();
            let first = file
                .pdf
                .pages
                .iter()
                .find(|page| page.placements.iter().any(|place| place.picture == 0))
                .unwrap();
            // only where a search may start: the pose itself is found from the pixels
            let motion = file.summary.placed[0].then(&first.placements[0].motion);
            let (x, y) = (Vec2::new(1.0, 0.0), Vec2::new(0.0, 1.0));
            let (x, y, to) = (
                motion.vector(x),
                motion.vector(y),
                motion.point(Point::ORIGIN),
            );
            let start = [x.x, x.y, y.x, y.y, to.x, to.y];
            fs::write(
                out.join(format!("{name}-{way}.json")),
                serde_json::to_string(&start).unwrap(),
            )
            .unwrap();
            let bytes = pdf::write(&file.pdf).unwrap();
            fs::write(out.join(format!("{name}-{way}.pdf")), bytes).unwrap();
            let bytes = pdf::write(&page.pdf).unwrap();
            fs::write(out.join(format!("{name}-calibration.pdf")), bytes).unwrap();
            fs::write(
                out.join(format!("{name}-asked.json")),
                serde_json::to_string(&page.asked).unwrap(),
            )
            .unwrap();
        }
    }
}
