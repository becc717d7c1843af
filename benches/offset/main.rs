//! The certified offset beside other engines, in one run: `cargo bench --bench offset`.
//!
//! Prints a table of milliseconds on the processor (means) and of ratios. The engines that know no arcs work on
//! outlines flattened to within 0.001 mm. Peers that need minutes for a line are left out of it unless
//! `OFFSET_ALL` is set. GEOS is asked by `geos.py` if `target/oracles` has shapely.
#![expect(clippy::expect_used, clippy::print_stdout, reason = "a bench")]
#![expect(
    clippy::disallowed_methods,
    reason = "the outlines of a bench may differ in the last digit"
)]

mod peers;
mod shapes;

use std::fmt::Write;
use std::path::Path;
use std::process::Command;
use std::time::Instant;

use peers::Run;
use shapes::Shape;

/// Seconds this thread has spent on a processor, or on the clock where that is not told.
fn spent(since: Instant) -> f64 {
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").ok();
    let nanoseconds: Option<f64> = told
        .as_deref()
        .and_then(|text| text.split_whitespace().next()?.parse().ok());
    nanoseconds.map_or_else(|| since.elapsed().as_secs_f64(), |value| value * 1e-9)
}

/// Mean of some runs in seconds, and the area.
fn timed(run: &Run) -> (f64, f64) {
    let start = Instant::now();
    let mut area = run();
    let first = spent(start);
    let mut count = 0.0;
    // the processor's account is kept in steps of some milliseconds
    while count < 3.0 || spent(start) - first < 0.5 {
        area = run();
        count += 1.0;
    }
    ((spent(start) - first) / count, area)
}

/// GEOS on every shape: seconds and area.
fn geos(shapes: &[Shape]) -> Vec<Option<(f64, f64)>> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let python = std::env::var("OFFSET_PYTHON")
        .unwrap_or_else(|_| root.join("target/oracles/bin/python").display().to_string());
    let folder = root.join("target/offset-bench");
    std::fs::create_dir_all(&folder).expect("a folder");
    let mut command = Command::new(python);
    command.arg(root.join("benches/offset/geos.py"));
    for (place, shape) in shapes.iter().enumerate() {
        let path = folder.join(format!("{place}.json"));
        let rings = peers::flattened(&shape.outline);
        let (distance, chord) = (shape.distance, peers::CHORD);
        let text =
            format!("{{\"distance\": {distance}, \"chord\": {chord}, \"rings\": {rings:?}}}");
        std::fs::write(&path, text).expect("a file");
        command.arg(path);
    }
    let Ok(output) = command.output() else {
        return vec![None; shapes.len()];
    };
    let text = String::from_utf8_lossy(&output.stdout).into_owned();
    let number = |line: &str, key: &str| -> Option<f64> {
        let rest = line.split_once(key)?.1;
        rest.trim_start_matches([':', ' ', '"'])
            .split([',', '}'])
            .next()?
            .trim()
            .parse()
            .ok()
    };
    let mut found: Vec<_> = text
        .lines()
        .map(|line| Some((number(line, "seconds")?, number(line, "area")?)))
        .collect();
    found.resize(shapes.len(), None);
    found
}

/// A cell: milliseconds, how many times ours, and a mark if the area is another.
fn cell(ours: (f64, f64), peer: Option<(f64, f64)>) -> String {
    let Some((seconds, area)) = peer else {
        return "–".to_owned();
    };
    let wrong = (area - ours.1).abs() > 1e-3 * ours.1.abs();
    let mark = if wrong { " ✗" } else { "" };
    format!("{} ({:.2}){mark}", milliseconds(seconds), seconds / ours.0)
}

fn milliseconds(seconds: f64) -> String {
    let value = seconds * 1e3;
    let digits = if value < 10.0 { 3 } else { 1 };
    format!("{value:.digits$}")
}

fn main() {
    // cargo passes --bench; anything else is a part of the names wanted
    let wanted: Vec<String> = std::env::args()
        .skip(1)
        .filter(|a| !a.starts_with('-'))
        .collect();
    let everything = std::env::var("OFFSET_ALL").is_ok();
    let mut shapes = shapes::all();
    shapes.retain(|shape| wanted.is_empty() || wanted.iter().any(|part| shape.name.contains(part)));
    let by_geos = geos(&shapes);
    println!("Milliseconds, and in brackets how many times ours; ✗: another area, – not run.\n");
    let names = [
        "cavalier_contours",
        "GEOS",
        "clipper2-rust",
        "i_overlay",
        "geo",
    ];
    println!(
        "| outline, distance in mm | vertices | ours | {} |",
        names.join(" | ")
    );
    println!("| --- | ---: | ---: | {} |", ["---:"; 5].join(" | "));
    let mut lines = Vec::new();
    for (shape, geos) in shapes.iter().zip(by_geos) {
        let (outline, distance) = (&shape.outline, shape.distance);
        let count = shapes::vertices(outline);
        let ours = timed(&peers::ours(outline, distance));
        let bare = timed(&peers::cavalier(outline, distance));
        let quick = everything || count <= 10_100;
        let peer =
            |make: fn(&shapes::Outline, f64) -> Run| quick.then(|| timed(&make(outline, distance)));
        let mut row = format!("| {} | {count} | {} |", shape.name, milliseconds(ours.0));
        let others = [
            Some(bare),
            geos,
            peer(peers::clipper),
            peer(peers::i_overlay),
            peer(peers::geo),
        ];
        for other in others {
            write!(row, " {} |", cell(ours, other)).expect("a string grows");
        }
        println!("{row}");
        lines.push((shape.name.clone(), count, ours.0));
    }
    growth(&lines);
}

/// By what power of the number of vertices the time grows from 1k to 100k.
fn growth(lines: &[(String, usize, f64)]) {
    println!();
    for name in ["star", "comb"] {
        let of = |size: &str| {
            lines
                .iter()
                .find(|line| line.0.starts_with(&format!("{name} {size},")))
        };
        if let (Some(small), Some(large)) = (of("1k"), of("100k")) {
            let times = (large.2 / small.2).ln();
            #[expect(clippy::cast_precision_loss, reason = "small")]
            let sizes = (large.1 as f64 / small.1 as f64).ln();
            println!(
                "{name}: the time grows as the vertices to the power {:.2}",
                times / sizes
            );
        }
    }
}
