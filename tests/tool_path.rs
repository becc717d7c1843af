//! Orders of many holes, left under `target/tmp/tool_path` for `tests/oracles/tool_path.py`, which holds
//! them against a lower bound of the shortest way.
#![expect(clippy::unwrap_used, reason = "a test that cannot go on fails")]

use kerfwise::geometry::Point;
use kerfwise::shop::tool_path::short_order;
use std::fs;
use std::path::Path;

/// Numbers 0 … 1 that are the same in every run.
fn scattered(count: usize, mut seed: u64) -> Vec<f64> {
    (0..count)
        .map(|_| {
            // the multiplier and the constant of Knuth's MMIX generator
            seed = seed
                .wrapping_mul(6_364_136_223_846_793_005)
                .wrapping_add(1_442_695_040_888_963_407);
            f64::from(u32::try_from(seed >> 32).unwrap()) / f64::from(u32::MAX)
        })
        .collect()
}

#[test]
fn orders_for_the_outside_check() {
    let random = |count: usize, seed| -> Vec<Point> {
        let numbers = scattered(2 * count, seed);
        numbers
            .chunks(2)
            .map(|pair| Point::new(pair[0] * 1000.0, pair[1] * 500.0))
            .collect()
    };
    let grid: Vec<Point> = (0..2000)
        .map(|index| Point::new(f64::from(index % 50) * 12.0, f64::from(index / 50) * 12.0))
        .collect();
    let sets = [
        ("random 2000", random(2000, 7)),
        ("random 300", random(300, 11)),
        ("grid 50 by 40", grid),
    ];
    let mut told = Vec::new();
    for (name, places) in sets {
        // there and back: a closed tour, as the bound is one of those
        let from = Point::new(0.0, 0.0);
        let order = short_order(&places, from, Some(from));
        let mut sorted = order.clone();
        sorted.sort_unstable();
        let all: Vec<usize> = (0..places.len()).collect();
        assert_eq!(sorted, all, "{name}: every place once");
        let places: Vec<[f64; 2]> = places.iter().map(|at| [at.x, at.y]).collect();
        told.push(serde_json::json!({ "name": name, "places": places, "order": order }));
    }
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("tool_path");
    fs::create_dir_all(&folder).unwrap();
    fs::write(
        folder.join("orders.json"),
        serde_json::Value::from(told).to_string(),
    )
    .unwrap();
}
