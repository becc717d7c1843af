//! How long a tool path of many holes takes: the order alone, and the whole of it.
//!
//! `cargo bench --bench tool_path`

use divan::Bencher;
use kerfwise::design::Design;
use kerfwise::design::Source;
use kerfwise::geometry::Point;
use kerfwise::geometry::number;
use kerfwise::shop::tool_path::Setting;
use kerfwise::shop::tool_path::short_order;
use kerfwise::shop::tool_path::tool_path;

fn main() {
    divan::main();
}

/// Places on a spiral of the golden angle: as even as chance, and the same in every run.
fn places(count: u32) -> Vec<Point> {
    (0..count)
        .map(|index| {
            let angle = f64::from(index) * 2.399_963_229_728_653;
            let radius = f64::from(index).sqrt() * 10.0;
            (number::unit(angle) * radius).to_point()
        })
        .collect()
}

#[divan::bench(args = [200, 2000])]
fn order(bencher: Bencher<'_, '_>, count: u32) {
    let places = places(count);
    bencher.bench(|| short_order(&places, Point::ORIGIN, None));
}

#[divan::bench(args = [10, 45])]
fn plate_of_holes(bencher: Bencher<'_, '_>, rows: u32) {
    let side = rows * 20;
    let text = format!(
        "[part.plate]\noutline = [\n{{ corner = \"a\", at = [0, 0] }},\n{{ corner = \"b\", at = [{side}, 0] }},\n\
         {{ corner = \"c\", at = [{side}, {side}] }},\n{{ corner = \"d\", at = [0, {side}] }},\n]\n\
         [[part.plate.opening]]\nname = \"hole\"\ncircle = {{ diameter = 9 }}\n\
         grid = {{ at = [10, 10], columns = {rows}, rows = {rows}, column_pitch = 20, row_pitch = 20 }}\n"
    );
    let source = Source::new("plate", text);
    let Ok(design) = Design::load(&source, &[]) else {
        return;
    };
    let Some(part) = design.resolved.parts.first() else {
        return;
    };
    bencher.bench(|| tool_path(part, &Setting::plain(1.0)));
}
