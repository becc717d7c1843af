use super::*;
use crate::documents::samples;
use crate::geometry::number;

const MM: LengthUnit = LengthUnit::Millimetre;

fn table(part: &Part, which: usize, density: Option<f64>) -> Table {
    let blocks = part_tables(part, &samples::stamp(MM), density);
    match blocks.into_iter().nth(which) {
        Some(Block::Table(table)) => table,
        other => panic!("no table {which}: {other:?}"),
    }
}

fn value(table: &Table, row: &str, column: usize) -> f64 {
    let name = Cell::Text(row.to_owned());
    let found = table.rows.iter().find(|cells| cells[0] == name);
    match found.map(|cells| &cells[column]) {
        Some(Cell::Quantity(quantity)) => quantity.value,
        other => panic!("{row}: {other:?}"),
    }
}

#[test]
fn the_centroid_stands_by_running_dimensions() {
    // rectangle of 420 × 280 with equal fillets at each end: it lies on the line across = 140
    let mut part = samples::belt_guard();
    part.region = crate::geometry::Region::new(part.region.outer().clone(), Vec::new());
    part.openings.clear();
    for angle in [0.0, 0.7] {
        let table = table(&samples::turned(&part, angle), 0, None);
        // the corners lost: (1 − π/4) r² each, their centroids from the corner
        // r (10 − 3π) / (12 − 3π) (closed form)
        let pi = number::HALF_TURN;
        let lost = |r: f64| (1.0 - pi / 4.0) * r * r;
        let from_corner = |r: f64| r * (10.0 - 3.0 * pi) / (12.0 - 3.0 * pi);
        let (left, right) = (2.0 * lost(30.0), 2.0 * lost(12.0));
        let whole = 420.0 * 280.0;
        let along =
            (whole * 210.0 - left * from_corner(30.0) - right * (420.0 - from_corner(12.0)))
                / (whole - left - right);
        let found = value(&table, "centroid, along the datum edge", 1);
        assert!((found - along).abs() < 1e-9, "along {found} for {along}");
        let found = value(&table, "centroid, square to it", 1);
        assert!((found - 140.0).abs() < 1e-9, "across {found}");
    }
}

#[test]
fn weight_is_area_times_thickness_times_density() {
    let part = samples::belt_guard();
    let table = table(&part, 0, Some(2660.0));
    let pi = number::HALF_TURN;
    let corners = (4.0 - pi) * (30.0 * 30.0 + 12.0 * 12.0) / 2.0;
    let slots = 2.0 * (24.0 * 9.0 + pi * 4.5 * 4.5);
    let holes = 12.0 * pi * 3.25 * 3.25 + pi * 3600.0 + slots + 2400.0;
    let area = 420.0 * 280.0 - corners - holes;
    assert!(
        (value(&table, "area without openings", 1) - area).abs() < 1e-6,
        "area for {area}"
    );
    let weight = area * 8.0 * 2660e-9;
    assert!(
        (value(&table, "weight, edges square", 1) - weight).abs() < 1e-9,
        "weight for {weight}"
    );
    assert_eq!(
        value(&table, "overall, along the datum edge", 1),
        420.0,
        "overall"
    );
}

#[test]
fn without_thickness_or_density_there_is_no_weight_and_it_says_why() {
    for (part, density, reason) in [
        (samples::bracket(), Some(2700.0), "thickness"),
        (samples::leeboard(), None, "density"),
    ] {
        let table = table(&part, 0, density);
        let weighed = table
            .rows
            .iter()
            .any(|row| row[0] == Cell::Text("weight, edges square".to_owned()));
        assert!(!weighed, "{}: no weight", part.name);
        assert!(table.notes[0].contains(reason), "{:?}", table.notes);
    }
}

#[test]
fn edges_and_openings_are_listed() {
    let part = samples::leeboard();
    let edges = table(&part, 1, None);
    assert_eq!(
        value(&edges, "trailing", 2),
        866.0,
        "884 less the heel's 18"
    );
    assert_eq!(
        edges.rows[2][3],
        Cell::Text("plate edge".to_owned()),
        "state of the trailing edge"
    );
    let openings = table(&part, 2, None);
    assert_eq!(openings.rows.len(), 4, "pivot and lightening holes");
    assert_eq!(value(&openings, "pivot", 2), 884.0, "along");
    assert_eq!(value(&openings, "pivot", 3), 90.0, "across");
    let area = number::HALF_TURN * 45.0 * 45.0;
    assert!(
        (value(&openings, "lightening 3", 4) - area).abs() < 1e-9,
        "area of a lightening hole"
    );
}

/// Seven stations of which one stands 3 mm off the straight run of the others.
#[test]
fn a_station_that_does_not_lie_fair_is_named() {
    let text = r#"
[part.plank]
outline = [
  { corner = "a", at = [0, 0] },
  { corner = "b", at = [700, 0] },
  { corner = "c", at = [700, 120], edge = { name = "sheer", fair = { stations = [
    [600, 124], [500, 126.8], [400, 130.4], [300, 127.2], [200, 124.8], [100, 120.4],
  ] } } },
  { corner = "d", at = [0, 114] },
]
"#;
    let source = crate::design::Source::new("plank.toml", text);
    let design = crate::design::Design::load(&source, &[]).expect("a plank");
    let table = table(&design.resolved.parts[0], 2, None);
    let [row] = table.rows.as_slice() else {
        panic!("one fair curve: {:?}", table.rows);
    };
    assert_eq!(row[0], Cell::Text("sheer".to_owned()), "its edge");
    let Cell::Quantity(deviation) = &row[2] else {
        panic!("a deviation: {:?}", row[2]);
    };
    assert!(
        (0.0..=0.01).contains(&deviation.value),
        "{}",
        deviation.value
    );
    let Cell::Text(lumps) = &row[4] else {
        panic!("words: {:?}", row[4]);
    };
    assert!(
        lumps.starts_with("station 3 at (400, 130.4) by 2.53 mm: the batten goes to (400, 127.87)"),
        "{lumps}"
    );
}
