//! Plates with straight edges.

use super::NOWHERE;
use super::polygon::Written;
use super::polygon::circle;
use super::polygon::polygon;
use super::polygon::written;
use crate::design::part::EdgeState;
use crate::design::part::Made;
use crate::design::part::Mark;
use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::geometry::Point;
use crate::geometry::number;

/// A plate with a bolt circle of twelve, a large hole, four slots and two marks.
pub(crate) fn belt_guard() -> Part {
    let names: Vec<String> = (1..=12).map(|index| format!("bolt {index}")).collect();
    let mut openings: Vec<(&str, OpeningShape, Made)> = names
        .iter()
        .zip(0..12)
        .map(|(name, index)| {
            let out = number::unit(f64::from(index) * number::FULL_TURN / 12.0) * 90.0;
            (
                name.as_str(),
                circle(150.0 + out.x, 140.0 + out.y, 6.5),
                Made::Cut,
            )
        })
        .collect();
    openings.push(("shaft", circle(150.0, 140.0, 120.0), Made::Cut));
    let slot = |x: f64, y: f64| OpeningShape::Slot {
        from: Point::new(x, y),
        to: Point::new(x + 24.0, y),
        width: 9.0,
    };
    openings.push(("slot 1", slot(320.0, 30.0), Made::Cut));
    openings.push(("slot 2", slot(320.0, 250.0), Made::Cut));
    let turned = OpeningShape::Rectangle {
        centre: Point::new(350.0, 140.0),
        width: 60.0,
        height: 40.0,
        corner_radius: 0.0,
        relief: 0.0,
        angle: 0.3,
    };
    openings.push(("window", turned, Made::Cut));
    let outline = [
        written("A", (0.0, 0.0), 30.0, "bottom"),
        written("B", (420.0, 0.0), 12.0, "right"),
        written("C", (420.0, 280.0), 12.0, "top"),
        written("D", (0.0, 280.0), 30.0, "left"),
    ];
    Part {
        quantity: 2,
        marks: vec![Mark {
            name: "hook".to_owned(),
            at: Point::new(280.0, 140.0),
            place: NOWHERE,
        }],
        ..polygon("belt guard", &outline, &openings)
    }
}

/// A small angle bracket in inches: chamfer, sharp corners, a hollow fillet, a strip left on, an edge
/// trimmed at fitting, drilled holes.
pub(crate) fn bracket() -> Part {
    let inch = 25.4;
    let at = |x: f64, y: f64| (x * inch, y * inch);
    let hole = |x: f64, y: f64| circle(x * inch, y * inch, 0.25 * inch);
    let outline = [
        written("base left", at(0.0, 0.0), 0.0, "base"),
        Written {
            state: EdgeState::LeaveOn(0.25 * inch),
            ..written("base right", at(4.0, 0.0), -0.375 * inch, "end")
        },
        written("shoulder", at(4.0, 1.5), 0.25 * inch, "shelf"),
        written("throat", at(1.5, 1.5), 0.5 * inch, "inner"),
        Written {
            state: EdgeState::TrimAtFitting,
            ..written("top right", at(1.5, 5.0), 0.25 * inch, "top")
        },
        Written {
            state: EdgeState::PlateEdge,
            ..written("top left", at(0.0, 5.0), 0.0, "back")
        },
    ];
    let openings = [
        ("screw 1", hole(0.75, 0.75), Made::Drilled),
        ("screw 2", hole(3.25, 0.75), Made::Drilled),
        ("screw 3", hole(0.75, 4.25), Made::Drilled),
    ];
    let part = polygon("bracket", &outline, &openings);
    Part {
        mirror_of: Some("bracket port".to_owned()),
        plate: None,
        ..part
    }
}

/// A panel with 40 openings, all of different sizes and names.
pub(crate) fn crowded() -> Part {
    let letter = |index: u8| char::from(b'A' + index % 8);
    let names: Vec<String> = (0..40_u8)
        .map(|index| format!("cable {}{}", letter(index / 8), letter(index)))
        .collect();
    let openings: Vec<(&str, OpeningShape, Made)> = names
        .iter()
        .zip(0..40)
        .map(|(name, index)| {
            let (column, row) = (f64::from(index % 8), f64::from(index / 8));
            let index = f64::from(index);
            let (x, y) = (40.0 + 60.0 * column + row, 40.0 + 55.0 * row + column);
            (name.as_str(), circle(x, y, 10.0 + 0.5 * index), Made::Cut)
        })
        .collect();
    let outline = [
        written("A", (0.0, 0.0), 10.0, "bottom"),
        written("B", (520.0, 0.0), 10.0, "right"),
        written("C", (520.0, 310.0), 10.0, "top"),
        written("D", (0.0, 310.0), 10.0, "left"),
    ];
    polygon("switch panel", &outline, &openings)
}
