use super::arcs::Centre;
use super::*;
use crate::documents::lettering;
use crate::documents::samples;
use crate::geometry::Contour;
use crate::geometry::Point;
use crate::sheet::Item;

const MM: LengthUnit = LengthUnit::Millimetre;

fn tables(document: &Document) -> Vec<&Table> {
    let tables = document.blocks.iter().filter_map(|block| match block {
        Block::Table(table) => Some(table),
        _ => None,
    });
    tables.collect()
}

pub(super) fn table<'a>(document: &'a Document, title: &str) -> &'a Table {
    let found = tables(document)
        .into_iter()
        .find(|table| table.title.contains(title));
    found.unwrap_or_else(|| panic!("no table {title:?}"))
}

fn value(cell: &Cell) -> f64 {
    match cell {
        Cell::Quantity(quantity) => quantity.value,
        other => panic!("no quantity: {other:?}"),
    }
}

pub(super) fn words(cell: &Cell) -> &str {
    match cell {
        Cell::Text(words) => words,
        other => panic!("no words: {other:?}"),
    }
}

#[test]
fn running_dimensions_do_not_depend_on_how_the_part_lies() {
    for angle in [0.0, 0.3, 2.0] {
        let part = samples::turned(&samples::leeboard(), angle);
        let sheet = sheet(&part, &samples::stamp(MM)).expect("a sheet");
        let points = table(&sheet, "Points, by running");
        let row = |name: &str| {
            let found = points.rows.iter().find(|row| words(&row[1]).contains(name));
            let row = found.unwrap_or_else(|| panic!("no point {name}"));
            (value(&row[2]), value(&row[3]))
        };
        for (name, along, across) in [
            ("origin of the datum", 0.0, 0.0),
            ("toe, sharp corner", 0.0, 305.0),
            ("head, centre", 884.0, 90.0),
            ("pivot, centre", 884.0, 90.0),
            ("heel, arc starts", 18.0, 0.0),
            ("heel, arc ends", 0.0, 18.0),
            ("lightening 2, centre", 330.0, 152.5),
            ("head, arc ends", 884.0, 0.0),
        ] {
            let found = row(name);
            assert!(
                (found.0 - along).abs() < 1e-9 && (found.1 - across).abs() < 1e-9,
                "{name} turned by {angle}: {found:?}"
            );
        }
    }
}

#[test]
fn a_centre_far_away_gives_heights_over_the_chord() {
    let part = samples::leeboard();
    let sheet = sheet(&part, &samples::stamp(MM)).expect("a sheet");
    let heights = table(&sheet, "“leading” over its chord");
    let arc = arcs::arcs(&part)
        .into_iter()
        .find(|arc| arc.name == "leading")
        .expect("the leading edge is an arc")
        .arc;
    let half = number::length(arc.end() - arc.start()) / 2.0;
    let middle = arc.start().midpoint(arc.end());
    let chord = number::normalized(arc.end() - arc.start()).expect("a chord");
    assert!(heights.rows.len() >= 5, "{} stations", heights.rows.len());
    for row in &heights.rows {
        let (along, height) = (value(&row[0]), value(&row[1]));
        // the point set off from the chord lies on the circle, on either side of the middle
        for side in [-1.0, 1.0] {
            let point = middle + chord * (side * along) - number::left_normal(chord) * height;
            let radius = number::length(point - arc.centre());
            assert!(
                (radius - 6000.0).abs() < 1e-8,
                "at {along}: {radius} from the centre"
            );
        }
    }
    let last = heights.rows.last().expect("the end of the chord");
    assert!(
        (value(&last[0]) - half).abs() < 1e-9 && value(&last[1]) == 0.0,
        "the last station is the end"
    );
    assert!(heights.notes[0].contains("outward"), "{:?}", heights.notes);
    // the drawing gives the bow of the whole edge, which is more than what is left of it between the rounds
    let edge = part.edges.iter().find(|edge| edge.name == "leading");
    let Some([Segment::Arc(whole)]) = edge.map(|edge| edge.sharp.as_slice()) else {
        panic!("the leading edge was one arc");
    };
    let left = arc.radius() - (arc.radius().powi(2) - half * half).sqrt();
    assert!(left < whole.bow() - 0.1, "{left} of {}", whole.bow());
    assert!(
        heights.notes[1].contains("before its corners are rounded"),
        "{:?}",
        heights.notes
    );
}

#[test]
fn centres_are_told_apart() {
    let part = samples::bracket();
    let find = |name: &str| {
        let arcs = arcs::arcs(&part);
        let found = arcs.into_iter().find(|arc| arc.name == name);
        found.unwrap_or_else(|| panic!("no arc {name}")).centre
    };
    assert_eq!(find("top right"), Centre::OnPart, "a convex corner");
    assert_eq!(find("throat"), Centre::InWaste, "an inner corner");
    let blade = samples::leeboard();
    let arcs = arcs::arcs(&blade);
    let of = |name: &str| {
        let found = arcs.iter().find(|arc| arc.name == name);
        found.unwrap_or_else(|| panic!("no arc {name}"))
    };
    assert_eq!(of("leading").centre, Centre::OffPlate, "6 m away");
    assert_eq!(
        of("head").centre,
        Centre::OnPart,
        "the pivot is drilled: its centre can be punched"
    );
    let mut holed = samples::leeboard();
    holed.openings[0].made = crate::design::part::Made::Cut;
    let head = arcs::arcs(&holed)
        .into_iter()
        .find(|arc| arc.name == "head")
        .expect("the head");
    assert_eq!(
        head.centre,
        Centre::InOpening("pivot".to_owned()),
        "cut out"
    );
    assert!(
        head.method(MM).contains("before “pivot”"),
        "{}",
        head.method(MM)
    );
}

#[test]
fn inside_is_inside() {
    // a half disc above the x axis, and a plate with a bite out of it
    let half = Contour::from_segments([
        Segment::line(Point::new(-10.0, 0.0), Point::new(10.0, 0.0)),
        crate::geometry::Arc::from_centre(
            Point::new(10.0, 0.0),
            Point::new(-10.0, 0.0),
            Point::ORIGIN,
            crate::geometry::Turn::Anticlockwise,
        )
        .into(),
    ])
    .expect("half a disc");
    let bitten = Contour::from_segments([
        Segment::line(Point::new(-20.0, -20.0), Point::new(20.0, -20.0)),
        Segment::line(Point::new(20.0, -20.0), Point::new(20.0, 0.0)),
        Segment::line(Point::new(20.0, 0.0), Point::new(10.0, 0.0)),
        crate::geometry::Arc::from_centre(
            Point::new(10.0, 0.0),
            Point::new(-10.0, 0.0),
            Point::ORIGIN,
            crate::geometry::Turn::Clockwise,
        )
        .into(),
        Segment::line(Point::new(-10.0, 0.0), Point::new(-20.0, 0.0)),
        Segment::line(Point::new(-20.0, 0.0), Point::new(-20.0, -20.0)),
    ])
    .expect("a bitten plate");
    for x in -25..=25 {
        for y in -25..=15 {
            let (x, y) = (f64::from(x) + 0.37, f64::from(y) + 0.41);
            let point = Point::new(x, y);
            let in_half = y > 0.0 && x * x + y * y < 100.0;
            assert_eq!(
                arcs::is_inside(&half, point),
                in_half,
                "half disc, {point:?}"
            );
            // a clockwise arc from (10, 0) to (-10, 0) runs below the axis
            let in_plate = x.abs() < 20.0 && y > -20.0 && y < 0.0 && x * x + y * y > 100.0;
            assert_eq!(
                arcs::is_inside(&bitten, point),
                in_plate,
                "bitten plate, {point:?}"
            );
        }
    }
    assert!(
        arcs::is_inside(&half, Point::new(0.0, 9.99)),
        "near the arc"
    );
    assert!(!arcs::is_inside(&half, Point::new(0.0, 10.01)), "beyond it");
}

#[test]
fn check_distances_are_right() {
    let part = samples::belt_guard();
    let sheet = sheet(&part, &samples::stamp(MM)).expect("a sheet");
    let checks = table(&sheet, "Check before cutting");
    let distances: Vec<f64> = checks.rows.iter().map(|row| value(&row[2])).collect();
    assert_eq!(distances[0], 420.0, "overall along");
    assert_eq!(distances[1], 280.0, "overall across");
    // 140 × (3, 2): diagonal 140 √13
    let diagonal = 140.0 * 13.0_f64.sqrt();
    for distance in &distances[2..4] {
        assert!((distance - diagonal).abs() < 1e-9, "diagonal {distance}");
    }
    assert_eq!(distances.len(), 6, "two cross-checks");
    for distance in &distances[4..] {
        assert!(
            (distance - diagonal).abs() < 1e-9,
            "from sharp corner to sharp corner: {distance}"
        );
    }
}

#[test]
fn the_right_angle_is_as_large_as_the_plate() {
    let angle = |part: &Part, unit| checks::right_angle(part, unit).expect("a right angle");
    let blade = angle(&samples::leeboard(), MM);
    assert_eq!(
        (blade.along, blade.across, blade.third),
        (400.0, 300.0, 500.0),
        "974 by 300.7"
    );
    // 1 mm in 500 over 400 × 300: 500/120000 rad, 4.17 mm in 1 m
    assert!(
        (checks::sensitivity(&blade) - 4.1667).abs() < 1e-3,
        "{}",
        checks::sensitivity(&blade)
    );
    let bracket = angle(&samples::bracket(), LengthUnit::Inch);
    for side in [bracket.along, bracket.across, bracket.third] {
        let eighths = side / 25.4 * 8.0;
        assert!(
            (eighths - eighths.round()).abs() < 1e-9,
            "{side} mm is no round number of inches"
        );
    }
    assert_eq!(
        bracket.across / bracket.along,
        4.0 / 3.0,
        "the longer leg along the longer side"
    );
}

#[test]
fn figures_number_their_points_without_overlap() {
    for (part, unit) in samples::all() {
        let points = Points::of(&part, unit);
        let figure = figure::figure(&part, &samples::stamp(unit), &points);
        let mut rooms = Vec::new();
        for item in &figure.picture.items {
            if let Item::Text(text) = item {
                let room = lettering::room(text);
                for (other, content) in &rooms {
                    assert!(
                        !lettering::overlap(room, *other),
                        "{}: {} lies on {content}",
                        part.name,
                        text.content
                    );
                }
                rooms.push((room, text.content.clone()));
            }
        }
        assert!(
            !figure.caption.contains("Too close"),
            "{}: {}",
            part.name,
            figure.caption
        );
    }
}

#[test]
fn drafts_and_edges_are_said_in_words() {
    let blade = sheet(&samples::leeboard(), &samples::draft_stamp()).expect("a sheet");
    let Some(Block::Caution(draft)) = blade.blocks.first() else {
        panic!("a draft says so first: {:?}", blade.blocks.first())
    };
    assert!(draft.contains("guard, slot_width"), "{draft}");
    let bracket = sheet(&samples::bracket(), &samples::stamp(LengthUnit::Inch)).expect("a sheet");
    let steps = bracket.blocks.iter().find_map(|block| match block {
        Block::Steps(steps) => Some(steps.join("\n")),
        _ => None,
    });
    let steps = steps.expect("an order of work");
    for expected in [
        "Choose the datum edge",
        "leave on a strip of 0.25 in",
        "plate's own edge",
        "trimmed at fitting",
        "3-4-5",
    ] {
        assert!(
            steps.contains(expected),
            "{expected:?} is missing in:\n{steps}"
        );
    }
}

#[test]
fn the_same_part_gives_the_same_sheet() {
    for (part, unit) in samples::all().into_iter().take(4) {
        let stamp = samples::stamp(unit);
        assert_eq!(sheet(&part, &stamp), sheet(&part, &stamp), "{}", part.name);
    }
}

/// A mortise of 40 × 14 relieved for a cutter of 6, and a way through with rounded corners under an arch: everything
/// that is needed to draw them stands on the sheet.
#[test]
fn openings_are_marked_out_like_the_outline() {
    let text = r#"
[part.plate]
outline = [
  { corner = "a", at = [0, 0] },
  { corner = "b", at = [300, 0] },
  { corner = "c", at = [300, 200] },
  { corner = "d", at = [0, 200] },
]
[[part.plate.opening]]
name = "mortise"
rectangle = { at = [60, 40], width = 40, height = 14, relief = { cutter = 6 } }
[[part.plate.opening]]
name = "way"
outline = [
  { corner = "sill left", at = [120, 60], fillet = 20 },
  { corner = "sill right", at = [220, 60], fillet = 20, edge = { name = "jamb right" } },
  { corner = "head right", at = [220, 140], edge = { name = "arch", hollow_by = 18 } },
  { corner = "head left", at = [120, 140] },
]
"#;
    let source = crate::design::Source::new("plate.toml", text);
    let design = match crate::design::Design::load(&source, &[]) {
        Ok(design) => design,
        Err(errors) => panic!("{}", errors[0].to_text(&source)),
    };
    let part = &design.resolved.parts[0];
    let sheet = sheet(part, &samples::stamp(MM)).expect("a sheet");
    let arcs = table(&sheet, "Arcs");
    let found = |name: &str| {
        let row = arcs
            .rows
            .iter()
            .find(|row| row[0] == Cell::Text(name.to_owned()));
        row.unwrap_or_else(|| panic!("no arc {name}: {:?}", arcs.rows))
    };
    let near = |cell: &Cell, expected: f64| (value(cell) - expected).abs() < 1e-9;
    assert!(
        near(&found("way: sill left")[1], 20.0),
        "radius of the sill"
    );
    assert_eq!(
        found("way: sill left")[6],
        Cell::Text("compass, or drill Ø 40 there".to_owned()),
        "a hole saw makes it"
    );
    assert!(
        near(&found("mortise, relief 1")[1], 3.0),
        "radius of a relief"
    );
    // chord 100, bow 18: r = (50² + 18²) / 36 (closed form)
    assert!(
        near(&found("way: arch")[1], (2500.0 + 324.0) / 36.0),
        "radius of the arch"
    );
    let openings = table(&sheet, "Openings");
    assert_eq!(
        openings.rows[0][1],
        Cell::Text("40 × 14, reliefs R 3".to_owned()),
        "the mortise by its sides"
    );
    let points = table(&sheet, "Points, by running");
    let centre = points.rows.iter().find(|row| {
        matches!(&row[1], Cell::Text(what) if what.contains("way: sill left, centre of R 20"))
    });
    let centre = centre.expect("its centre is a point");
    assert!(
        near(&centre[2], 140.0) && near(&centre[3], 80.0),
        "where it is"
    );
    assert_eq!(
        centre[4],
        Cell::Text("in “way”".to_owned()),
        "it goes with the waste"
    );
}

#[test]
fn words_follow_the_material_and_the_weight() {
    let of = |material: &str, size| {
        let mut part = samples::leeboard();
        if let Some(plate) = &mut part.plate {
            material.clone_into(&mut plate.material);
            plate.size = size;
        }
        let sheet = sheet(&part, &samples::stamp(MM)).expect("a sheet");
        crate::formats::text::write(&sheet, 10_000)
    };
    let ply = of("okoume plywood", None);
    for word in ["layout dye", "unch", "metal"] {
        assert!(!ply.contains(word), "{word} on plywood: {ply}");
    }
    assert!(ply.contains("awl") && !ply.contains("with two"), "{ply}");
    assert!(
        of("steel, galvanised", None).contains("layout dye"),
        "steel"
    );
    assert!(
        of("polycarbonate", None).contains("masking tape"),
        "plastic"
    );
    // 2.5 m by 1.25 m of 5.09 mm steel is 125 kg by 7850 kg/m³; the part alone is some 9 kg
    let light = of("steel, galvanised", None);
    let heavy = of("steel, galvanised", Some((2500.0, 1250.0)));
    assert!(
        !light.contains("lift it with two") && heavy.contains("lift it with two"),
        "{heavy}"
    );
    assert!(!ply.contains('`'), "{ply}");
}

/// The stations stand in the table as the design has them, under their numbers.
#[test]
fn a_batten_goes_through_the_stations_of_the_design() {
    let text = include_str!("../../../fixtures/parts/skeg.toml");
    let source = crate::design::Source::new("skeg.toml", text);
    let design = crate::design::Design::load(&source, &[]).expect("a skeg");
    let sheet = sheet(&design.resolved.parts[0], &samples::stamp(MM)).expect("a sheet");
    let points = table(&sheet, "Points along “hull”");
    let named: Vec<(&str, f64, f64)> = points
        .rows
        .iter()
        .filter(|row| words(&row[0]).starts_with("station"))
        .map(|row| (words(&row[0]), value(&row[1]), value(&row[2])))
        .collect();
    let expected = [
        ("station 1", 750.0, 38.0),
        ("station 2", 600.0, 62.0),
        ("station 3", 450.0, 86.0),
        ("station 4", 300.0, 109.0),
        ("station 5", 150.0, 130.0),
    ];
    assert_eq!(named.len(), expected.len(), "{named:?}");
    for ((name, along, across), wanted) in named.into_iter().zip(expected) {
        let off = (along - wanted.1).abs().max((across - wanted.2).abs());
        assert!(
            name == wanted.0 && off < 1e-9,
            "{name} at {along}, {across}"
        );
    }
    // after the station at 150 one between, the end at the rounding, and the corner that it takes away
    let last = points.rows.last().expect("a last row");
    assert_eq!(words(&last[0]), "sharp corner, rounded away", "{last:?}");
    let off = value(&last[1]).abs().max((value(&last[2]) - 148.0).abs());
    assert!(off < 1e-9, "the corner is where depth says: {last:?}");
}
