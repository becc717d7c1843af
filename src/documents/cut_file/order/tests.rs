use super::*;
use crate::documents::samples;

fn rows(document: &Document) -> Vec<(String, Cell)> {
    let Some(Block::Table(table)) = document
        .blocks
        .iter()
        .find(|block| matches!(block, Block::Table(_)))
    else {
        panic!("no table")
    };
    table
        .rows
        .iter()
        .map(|row| {
            let Cell::Text(name) = &row[0] else {
                panic!("no name in {row:?}")
            };
            (name.clone(), row[1].clone())
        })
        .collect()
}

#[test]
fn a_draft_is_refused_with_what_is_missing() {
    let part = samples::leeboard();
    let stamp = samples::draft_stamp();
    let refused = order_sheet(&CutFile::nominal(&part, &stamp), "blade.dxf");
    let message = refused.expect_err("a draft must be refused").to_string();
    assert!(
        message.contains("guard, slot_width"),
        "the message names the open dimensions: {message}"
    );
}

#[test]
fn numbers_agree_with_closed_forms() {
    let part = samples::belt_guard();
    let stamp = samples::stamp(LengthUnit::Millimetre);
    let sheet = order_sheet(&CutFile::nominal(&part, &stamp), "guard.dxf").expect("an order sheet");
    let rows = rows(&sheet);
    let value = |name: &str| {
        let found = rows.iter().find(|row| row.0 == name);
        found.unwrap_or_else(|| panic!("no row {name}")).1.clone()
    };
    let pi = std::f64::consts::PI;
    // rectangle less its four corners, less circles, slots and window
    let corners = (4.0 - pi) * (30.0 * 30.0 + 12.0 * 12.0) / 2.0;
    let slots = 2.0 * (24.0 * 9.0 + pi * 4.5 * 4.5);
    let area = 420.0 * 280.0 - corners - slots - 2400.0 - 12.0 * pi * 3.25 * 3.25 - pi * 3600.0;
    assert_eq!(
        value("area of one part"),
        Cell::Text(format!("{area:.0} mm²")),
        "area"
    );
    let cut = 2.0 * (420.0 + 280.0) - (8.0 - 2.0 * pi) * (30.0 + 12.0) / 2.0
        + 12.0 * pi * 6.5
        + pi * 120.0
        + 2.0 * (48.0 + pi * 9.0)
        + 200.0;
    assert_eq!(
        value("length of cut, one part, without edges of the plate"),
        Cell::Text(format!("{cut:.2} mm")),
        "length of cut"
    );
    assert_eq!(value("contours to cut"), Cell::Count(17), "contours");
    assert_eq!(value("quantity"), Cell::Text("2".to_owned()), "quantity");
}

#[test]
fn drilled_holes_are_not_cut() {
    let part = samples::leeboard();
    let with = part.region.perimeter();
    let pivot = std::f64::consts::PI * 13.0;
    // the trailing edge runs from the head at 884 down to the fillet of 18 at the heel
    let trailing = 884.0 - 18.0;
    assert!(
        (with - cut_length(&part) - pivot - trailing).abs() < 1e-9,
        "the pivot is drilled, and the trailing edge is the plate's own"
    );
    assert_eq!(contours_to_cut(&part), 4, "outline and three holes");
}

#[test]
fn the_shop_is_told_what_not_to_cut() {
    let part = samples::leeboard();
    let facts = facts(&CutFile::nominal(
        &part,
        &samples::stamp(LengthUnit::Millimetre),
    ));
    let marked = facts.iter().find(|fact| fact.name == "to mark only");
    let words = marked.map_or("", |fact| fact.value.as_str());
    for scribe in &part.scribes {
        assert!(words.contains(&scribe.name), "“{}” in {words}", scribe.name);
    }
    assert!(words.contains("do not cut"), "what is said: {words}");
}

#[test]
fn cautions_follow_the_material() {
    let of = |material: &str| {
        let mut part = samples::leeboard();
        if let Some(plate) = &mut part.plate {
            material.clone_into(&mut plate.material);
        }
        cautions(&CutFile::nominal(
            &part,
            &samples::stamp(LengthUnit::Millimetre),
        ))
        .join(" ")
    };
    assert!(
        of("aluminium 5083-H116").contains("hydrogen"),
        "plasma over water"
    );
    assert!(of("steel, galvanised").contains("zinc"), "zinc fume");
    assert_eq!(of("unobtainium"), "", "nothing is known of it");
    // who cuts it is not known yet
    let ply = of("okoume plywood");
    assert!(
        ply.starts_with("If it is cut by laser: Plywood can catch fire"),
        "{ply}"
    );
}

#[test]
fn what_is_not_known_is_left_blank() {
    let (part, stamp) = (samples::bracket(), samples::stamp(LengthUnit::Inch));
    let file = CutFile::nominal(&part, &stamp);
    let sheet = order_sheet(&file, "bracket.dxf").expect("an order sheet");
    let Some(Block::Paragraph(first)) = sheet.blocks.first() else {
        panic!("it says first what it goes with: {:?}", sheet.blocks);
    };
    assert!(first.contains("the file bracket.dxf and"), "{first}");
    let blank = rows(&sheet).into_iter().filter(|row| row.1 == Cell::Blank);
    let names: Vec<String> = blank.map(|row| row.0).collect();
    assert_eq!(
        names,
        ["material", "thickness", "good face"],
        "no plate is named"
    );
}
