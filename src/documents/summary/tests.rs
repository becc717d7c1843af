use super::*;
use crate::documents::samples;
use crate::geometry::Arc;
use crate::geometry::Motion;
use crate::geometry::SourceId;
use crate::geometry::Turn;

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
fn a_half_disc_has_its_centroid_at_four_thirds_of_r_over_pi() {
    // 4 r / 3 π: Machinery's Handbook, 31st ed., centre of gravity of a half circle (closed form)
    let half = Contour::from_segments([
        Segment::line(Point::new(-30.0, 0.0), Point::new(30.0, 0.0)),
        Arc::from_centre(
            Point::new(30.0, 0.0),
            Point::new(-30.0, 0.0),
            Point::ORIGIN,
            Turn::Anticlockwise,
        )
        .into(),
    ])
    .expect("half a disc");
    let region = Region::new(half, Vec::new());
    let found = centroid(&region).expect("a centroid");
    let expected = 4.0 * 30.0 / (3.0 * number::HALF_TURN);
    assert!(
        found.x.abs() < 1e-12 && (found.y - expected).abs() < 1e-12,
        "{found:?} for {expected}"
    );
    let moved = Motion::turn(1.1).then(&Motion::shift(Vec2::new(500.0, -70.0)));
    let there = centroid(&moved.region(&region)).expect("a centroid");
    let image = moved.point(found);
    assert!(
        number::length(there - image) < 1e-10,
        "moved: {there:?} for {image:?}"
    );
}

#[test]
fn a_hole_moves_the_centroid_away() {
    // square 100 with a round hole of 20 at (75, 50): (A 50 − a 75) / (A − a)
    let square = Contour::polygon(&[
        Point::new(0.0, 0.0),
        Point::new(100.0, 0.0),
        Point::new(100.0, 100.0),
        Point::new(0.0, 100.0),
    ])
    .expect("a square");
    let hole = Contour::circle(Point::new(75.0, 50.0), 10.0, SourceId::UNTRACED).expect("a hole");
    let small = number::HALF_TURN * 100.0;
    let expected = (10_000.0 * 50.0 - small * 75.0) / (10_000.0 - small);
    let found = centroid(&Region::new(square, vec![hole])).expect("a centroid");
    assert!(
        (found.x - expected).abs() < 1e-10 && (found.y - 50.0).abs() < 1e-10,
        "{found:?} for {expected}"
    );
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
