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
use kerfwise::documents::Stamp;
use kerfwise::documents::pattern;
use kerfwise::documents::pattern::Correction;
use kerfwise::documents::pattern::Extent;
use kerfwise::documents::pattern::Face;
use kerfwise::documents::pattern::Orientation;
use kerfwise::documents::pattern::PatternError;
use kerfwise::documents::pattern::PatternFile;
use kerfwise::documents::pattern::PatternOptions;
use kerfwise::documents::pattern::PatternPaper;
use kerfwise::documents::pattern::Printer;
use kerfwise::documents::pattern::Readings;
use kerfwise::documents::pattern::RoughCut;
use kerfwise::documents::pattern::Turning;
use kerfwise::formats::drawn;
use kerfwise::formats::font;
use kerfwise::formats::pdf;
use kerfwise::geometry::Contour;
use kerfwise::geometry::Motion;
use kerfwise::geometry::Point;
use kerfwise::geometry::Rect;
use kerfwise::geometry::Region;
use kerfwise::geometry::Vec2;
use kerfwise::geometry::number;
use kerfwise::sheet::Item;

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

fn build(part: Part, options: &PatternOptions) -> PatternFile {
    pattern::build(&[part], &parts::stamp(), options).unwrap()
}

#[test]
fn a_draft_has_no_pattern() {
    let stamp = Stamp {
        open: vec!["guard".to_owned()],
        ..parts::stamp()
    };
    let refused = pattern::build(&[parts::bracket()], &stamp, &PatternOptions::new(a4()));
    let message = refused.unwrap_err().to_string();
    assert!(message.contains("guard"), "names the open one: {message}");
}

#[test]
fn a_small_part_takes_one_sheet_and_the_same_bytes_every_time() {
    let options = PatternOptions::new(a4());
    let file = build(parts::bracket(), &options);
    assert_eq!(file.summary.sheets, 1, "sheets");
    assert_eq!(file.summary.checks.rows.len(), 8, "distances to verify");
    let again = build(parts::bracket(), &options);
    assert_eq!(
        pdf::write(&file.pdf).unwrap(),
        pdf::write(&again.pdf).unwrap(),
        "bytes"
    );
}

#[test]
fn every_sheet_shows_its_part_of_one_drawing_at_full_size() {
    let file = build(parts::leeboard(), &PatternOptions::new(a4()));
    let pages = file
        .pdf
        .pages
        .iter()
        .filter(|page| page.placements.len() == 2);
    let shown: Vec<_> = pages
        .map(|page| (page, page.placements[0].clone()))
        .collect();
    assert_eq!(shown.len(), file.summary.sheets, "pages with a window");
    let mut area = 0.0;
    for (page, placement) in &shown {
        assert_eq!(placement.picture, 0, "the drawing, on {}", page.label);
        let unit = placement.motion.vector(Vec2::new(1.0, 0.0));
        assert_eq!(unit, Vec2::new(1.0, 0.0), "full size and not turned");
        let clip = placement.clip.unwrap();
        let printable = clip.x0 >= 8.0 - 1e-9
            && clip.y0 >= 8.0 - 1e-9
            && clip.x1 <= page.width - 8.0 + 1e-9
            && clip.y1 <= page.height - 8.0 + 1e-9;
        assert!(printable, "{}: {clip:?} runs into the margin", page.label);
        area += (clip.width() - 10.0) * (clip.height() - 10.0);
    }
    let bounds = parts::leeboard().region.bounds();
    assert!(
        area >= bounds.width() * bounds.height(),
        "the sheets' own parts cover {area} mm²"
    );
}

#[test]
fn everything_stands_inside_the_margin_and_words_clear_of_one_another() {
    let measured = Readings {
        x: 180.0 * 1.02,
        y: 270.0 * 0.99,
        rising: 325.9,
        falling: 325.9,
    };
    let mut options = PatternOptions::new(a4());
    let page = pattern::calibration_page(&options).unwrap();
    let measured = Readings {
        rising: (measured.x * measured.x + measured.y * measured.y).sqrt(),
        falling: (measured.x * measured.x + measured.y * measured.y).sqrt(),
        ..measured
    };
    let correction = Correction::from_readings("", page.paper, page.asked, measured).unwrap();
    options.printer = Printer::Measured(correction);
    let file = build(parts::leeboard(), &options);
    for page in &file.pdf.pages {
        for placement in page.placements.iter().filter(|place| place.picture != 0) {
            let extent = drawn::extent(&file.pdf.pictures[placement.picture]).unwrap();
            let place = |x, y| {
                let moved = placement.motion.point(Point::new(x, y));
                placement.stretch.point(moved)
            };
            let (low, high) = (place(extent.x0, extent.y0), place(extent.x1, extent.y1));
            // letters reach a little below and above their line
            let fits = low.x > 7.0
                && low.y > 7.0
                && high.x < page.width - 7.0
                && high.y < page.height - 7.0;
            assert!(fits, "{}: {low:?} to {high:?}", page.label);
        }
    }
    let words = file.pdf.pictures[0]
        .items
        .iter()
        .filter_map(|item| match item {
            Item::Text(text) if text.angle == 0.0 => Some(text),
            _ => None,
        });
    let boxes: Vec<_> = words
        .map(|text| {
            let start = drawn::text_start(text);
            let size = (font::text_width(&text.content, text.size), text.size * 0.7);
            (text, Rect::from_origin_size(start, size))
        })
        .collect();
    assert!(boxes.len() > 20, "there are words");
    for (index, (one, a)) in boxes.iter().enumerate() {
        for (other, b) in &boxes[index + 1..] {
            let apart = a.x1 <= b.x0 || b.x1 <= a.x0 || a.y1 <= b.y0 || b.y1 <= a.y0;
            assert!(apart, "{:?} and {:?} overlap", one.content, other.content);
        }
    }
}

#[test]
fn turning_saves_sheets() {
    // 520 × 100 mm at 45°: across the corners of many sheets as drawn
    let turn = Motion::turn(number::QUARTER_TURN / 2.0);
    let mut part = parts::bracket();
    let corners = [(0.0, 0.0), (520.0, 0.0), (520.0, 100.0), (0.0, 100.0)];
    let corners = corners.map(|(x, y)| turn.point(Point::new(x, y)));
    part.region = Region::new(Contour::polygon(&corners).unwrap(), Vec::new());
    part.openings.clear();
    let options = PatternOptions::new(a4());
    let turned = build(part.clone(), &options);
    // 178 × 263 mm are a sheet's own: 520 mm take two of 263
    assert_eq!(turned.summary.sheets, 2, "turned");
    let as_drawn = build(
        part,
        &PatternOptions {
            turning: Turning::AsDrawn,
            ..options
        },
    );
    assert!(
        as_drawn.summary.sheets > 2,
        "as drawn: {}",
        as_drawn.summary.sheets
    );
    assert_eq!(
        turned.summary.sheets_saved(),
        turned.summary.sheets_as_drawn - 2,
        "sheets saved"
    );
}

#[test]
fn the_other_face_is_mirrored() {
    let options = PatternOptions {
        face: Face::Mirrored,
        ..PatternOptions::new(a4())
    };
    let file = build(parts::leeboard(), &options);
    assert!(file.summary.placed[0].mirrors(), "the part is mirrored");
    assert!(file.pdf.title.contains("mirrored"), "and says so");
}

#[test]
fn corners_only_takes_fewer_sheets() {
    let mut part = parts::bracket();
    let corners = [(0.0, 0.0), (3000.0, 0.0), (3000.0, 60.0), (0.0, 60.0)];
    let corners = corners.map(|(x, y)| Point::new(x, y));
    part.region = Region::new(Contour::polygon(&corners).unwrap(), Vec::new());
    part.openings.clear();
    let whole = PatternOptions::new(a4());
    let corners = PatternOptions {
        extent: Extent::CornersOnly,
        ..whole.clone()
    };
    let (whole, corners) = (build(part.clone(), &whole), build(part, &corners));
    assert!(
        whole.summary.sheets >= 12,
        "whole: {}",
        whole.summary.sheets
    );
    assert_eq!(corners.summary.sheets, 2, "one at each end");
}

#[test]
fn paper_of_its_own_length_and_its_limit() {
    let roll = PatternOptions::new(PatternPaper::Roll { width: 610.0 });
    let file = build(parts::panel(), &roll);
    assert_eq!(file.summary.sheets, 2, "two strips of 2.4 m");
    assert!(file.summary.page.1 < 2700.0, "no longer than needed");
    let one = PatternOptions::new(PatternPaper::OnePage);
    let file = build(parts::panel(), &one);
    assert_eq!(
        (file.summary.sheets, file.pdf.pages.len()),
        (1, 1),
        "one page"
    );
    // 5 m and the words beside it are more than 200 inches
    let refused = pattern::build(&[parts::toothed(100)], &parts::stamp(), &one);
    assert!(
        matches!(refused, Err(PatternError::PageTooLarge { .. })),
        "{refused:?}"
    );
}

#[test]
fn what_cannot_be_printed_is_refused() {
    let small = PatternOptions::new(PatternPaper::custom(90.0, 120.0));
    let refused = pattern::build(&[parts::bracket()], &parts::stamp(), &small);
    assert!(
        matches!(refused, Err(PatternError::PaperTooSmall { .. })),
        "{refused:?}"
    );
    let mut options = PatternOptions::new(a4());
    for margin in [-1.0, f64::NAN, 500.0] {
        options.margin = margin;
        let refused = pattern::build(&[parts::bracket()], &parts::stamp(), &options);
        assert!(
            matches!(refused, Err(PatternError::Setting { .. })),
            "margin {margin}: {refused:?}"
        );
    }
    let none = pattern::build(&[], &parts::stamp(), &PatternOptions::new(a4()));
    assert!(matches!(none, Err(PatternError::NoPart)), "{none:?}");
}

#[test]
fn the_file_hardly_grows_with_the_sheets() {
    let bytes = |width: f64| {
        let options = PatternOptions::new(PatternPaper::custom(width, width * 1.4));
        let file = build(parts::toothed(20_000), &options);
        (file.summary.sheets, pdf::write(&file.pdf).unwrap().len())
    };
    let ((few, small), (many, large)) = (bytes(600.0), bytes(200.0));
    assert!(many > 3 * few, "{few} and {many} sheets");
    assert!(large < small * 2, "{small} and {large} bytes");
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
