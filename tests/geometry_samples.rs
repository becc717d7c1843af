//! Measures of the demo parts' regions, left under `target/tmp/geometry` for `oracles/geometry.py`.
#![expect(clippy::unwrap_used, reason = "a test stops at what it cannot do")]

use kerfwise::design::Design;
use kerfwise::design::Source;
use kerfwise::geometry::Contour;
use kerfwise::geometry::Region;
use kerfwise::geometry::Segment;
use kerfwise::geometry::Vec2;
use kerfwise::geometry::moments::Moments;
use kerfwise::geometry::moments::PrincipalAxes;
use kerfwise::geometry::nearest;
use serde_json::Value;
use serde_json::json;
use std::path::Path;

fn segment(segment: &Segment) -> Value {
    match segment {
        Segment::Line(line) => {
            json!({ "from": [line.start.x, line.start.y], "to": [line.end.x, line.end.y] })
        }
        Segment::Arc(arc) => json!({
            "centre": [arc.centre().x, arc.centre().y],
            "radius": arc.radius(),
            "start": arc.start_angle(),
            "sweep": arc.sweep(),
        }),
    }
}

fn contour(contour: &Contour) -> Value {
    contour.segments().map(segment).collect()
}

fn sample(region: &Region) -> Value {
    let moments = Moments::of_region(region).unwrap();
    let PrincipalAxes::Two { largest, least, .. } = moments.principal_axes() else {
        unreachable!("no demo is that round");
    };
    let bounds = region.bounds();
    let stations: Vec<Value> = [0.13, 0.37, 0.5, 0.71, 0.92]
        .iter()
        .map(|part| {
            let y = bounds.y0 + part * bounds.height();
            let at = nearest::width_at(region, (bounds.x0, y).into(), Vec2::new(1.0, 0.0));
            json!({ "y": y, "width": at.width(), "metal": at.metal_width() })
        })
        .collect();
    let strips: Vec<f64> = (0..region.holes().len())
        .map(|hole| {
            nearest::beside_opening(region, hole)
                .unwrap()
                .nearest
                .distance
        })
        .collect();
    json!({
        "outer": contour(region.outer()),
        "holes": region.holes().iter().map(contour).collect::<Vec<_>>(),
        "area": moments.area,
        "perimeter": region.perimeter(),
        "centroid": [moments.centroid.x, moments.centroid.y],
        "about_x": moments.about_x,
        "about_y": moments.about_y,
        "product": moments.product,
        "largest": largest,
        "least": least,
        "stations": stations,
        "strips": strips,
    })
}

#[test]
fn measures_of_the_demo_parts_for_the_oracle() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let mut names: Vec<_> = std::fs::read_dir(root.join("fixtures/parts"))
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .collect();
    names.sort();
    let mut samples = serde_json::Map::new();
    for path in names {
        let name = path.file_name().unwrap().to_str().unwrap().to_owned();
        let source = Source::new(name.clone(), std::fs::read_to_string(&path).unwrap());
        let design = Design::load(&source, &[]).unwrap();
        for part in &design.resolved.parts {
            samples.insert(format!("{name}: {}", part.name), sample(&part.region));
        }
    }
    assert!(samples.len() >= 8, "parts: {}", samples.len());
    let folder = root.join("target/tmp/geometry");
    std::fs::create_dir_all(&folder).unwrap();
    let text = serde_json::to_string_pretty(&Value::Object(samples)).unwrap();
    std::fs::write(folder.join("samples.json"), text).unwrap();
}
