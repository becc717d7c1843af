//! How long patterns take, and how that grows with the outline and with the number of sheets.
#![expect(clippy::expect_used, clippy::print_stdout, reason = "a bench")]

#[path = "../tests/pattern/parts.rs"]
mod parts;

use divan::Bencher;
use kerfwise::design::part::Part;
use kerfwise::documents::pattern;
use kerfwise::documents::pattern::PatternOptions;
use kerfwise::documents::pattern::PatternPaper;
use kerfwise::formats::pdf;

fn main() {
    divan::main();
    println!("\nSize of the file, 5 × 1.5 m on A4:");
    for segments in [1_000, 10_000, 100_000] {
        let size = bytes(&parts::toothed(segments), &paper(210.0, 297.0)).len();
        println!("{segments:7} segments  {size:9} bytes");
    }
}

fn paper(width: f64, height: f64) -> PatternOptions {
    PatternOptions::new(PatternPaper::custom(width, height))
}

fn bytes(part: &Part, options: &PatternOptions) -> Vec<u8> {
    let parts = std::slice::from_ref(part);
    let file = pattern::build(parts, &parts::stamp(), options).expect("a pattern");
    pdf::write(&file.pdf).expect("a file")
}

#[divan::bench]
fn leeboard_on_a4(bencher: Bencher<'_, '_>) {
    let (part, options) = (parts::leeboard(), paper(210.0, 297.0));
    bencher.bench_local(|| bytes(&part, &options));
}

#[divan::bench]
fn panel_on_letter(bencher: Bencher<'_, '_>) {
    let (part, options) = (parts::panel(), paper(215.9, 279.4));
    bencher.bench_local(|| bytes(&part, &options));
}

/// 5 × 1.5 m on A4, outlines of more and more segments.
#[divan::bench(args = [1_000, 10_000, 100_000], sample_count = 5)]
fn toothed_on_a4(bencher: Bencher<'_, '_>, segments: u32) {
    let (part, options) = (parts::toothed(segments), paper(210.0, 297.0));
    bencher.bench_local(|| bytes(&part, &options));
}

/// The same outline on smaller and smaller paper: more and more sheets.
#[divan::bench(args = [841.0, 420.0, 210.0, 148.0], sample_count = 5)]
fn toothed_of_10_000_on_paper(bencher: Bencher<'_, '_>, width: f64) {
    let (part, options) = (parts::toothed(10_000), paper(width, width * 1.414));
    bencher.bench_local(|| bytes(&part, &options));
}
