use super::*;
use crate::design::Source;
use crate::trade::Processes;

const KNEES: &str = include_str!("../../../fixtures/fits/knees.toml");

/// The words of a kerf page, block by block and cell by cell.
fn page(text: &str, part: &str, process: &str, kerf: f64) -> String {
    let design = Design::load(&Source::new("knees.toml", text), &[]).expect(text);
    let mut parts = design.resolved.parts.iter();
    let part = parts.find(|found| found.name == part).expect(part);
    let known = Processes::default();
    let wanted = [Wanted {
        process: known.find(process).expect(process),
        kerf: Some(kerf),
    }];
    let compared = Compared::new(&design, part, &wanted, "").expect("compared");
    let stamp = Stamp::of(&design);
    let document = compared.document(&stamp).expect("a page");
    crate::formats::text::write(&document, 10_000)
}

fn answer(page: &str) -> &str {
    page.lines().nth(3).expect("the answer")
}

#[test]
fn an_uncompensated_fit_is_told_and_not_claimed_to_hold() {
    let page = page(KNEES, "cleat", "waterjet", 1.0);
    // by hand: 0.4 drawn, 1.0 more by the kerf and 0.15 by the leaning face, over the 0.8 permitted
    let said = "If the shop does not compensate: tenon in its mortise 0.75 mm too loose: scrap.";
    assert!(answer(&page).contains(said), "{page}");
    assert!(
        page.contains("tenon in its mortise: clearance"),
        "a row of its own: {page}"
    );
    assert!(
        page.contains("the other as designed"),
        "what is taken for the other: {page}"
    );
}

#[test]
fn where_nothing_is_limited_nothing_is_claimed() {
    let without = KNEES.split("[[fit]]").next().expect("the parts");
    let page = page(without, "cleat", "waterjet", 1.0);
    let said = answer(&page);
    assert!(
        said.starts_with("Nothing here limits what kerf changes"),
        "{said}"
    );
    for claim in ["Every limit", "Best choice", "still fits", "  fits"] {
        assert!(!page.contains(claim), "{claim}: {page}");
    }
}

#[test]
fn the_general_tolerance_is_named_and_nothing_by_it_is_scrap() {
    let page = page(KNEES, "spacer", "waterjet", 1.0);
    let said = answer(&page);
    // ISO 2768-1, class m, 6 to 30 mm: ±0.2; 1.0 and 0.15 more
    let remark = "If the shop does not compensate: vent width 0.95 mm too large (by ISO 2768-m, not a limit of the design).";
    assert!(said.contains(remark), "{said}");
    assert!(!page.contains("too large: scrap"), "{page}");
    assert!(
        page.contains("24.80 to 25.20 mm by ISO 2768-m")
            || page.contains("24.8 mm to 25.2 mm by ISO 2768-m"),
        "{page}"
    );
}

#[test]
fn a_page_of_plywood_speaks_of_no_metal_and_of_the_process_in_hand() {
    for (process, words) in [
        ("router", ["saw", "Carbide", "blade"]),
        ("waterjet", ["laser", "fire", "saw"]),
    ] {
        let page = page(KNEES, "knee_port", process, 1.0);
        for word in words {
            assert!(
                !page.contains(word),
                "{word} on the page of the {process}: {page}"
            );
        }
        assert!(!page.to_lowercase().contains("metal"), "{process}: {page}");
        assert!(!page.contains('`'), "{process}: {page}");
    }
    let sawn = page(KNEES, "knee_port", "jigsaw", 1.0);
    assert!(
        sawn.contains("Carbide teeth") && sawn.contains("dust mask"),
        "{sawn}"
    );
}

#[test]
fn less_than_a_printed_digit_is_at_the_limit() {
    // not compensated the clearance is 0.4 as drawn, 1.0 of the kerf and 0.15 of the leaning face
    let permitted = 0.4 + 1.0 + 0.15 - 0.004;
    let text = KNEES.replace("max   = 0.8", &format!("max   = {permitted}"));
    let page = page(&text, "cleat", "waterjet", 1.0);
    let said = "tenon in its mortise at the limit, 0.004 mm too loose";
    assert!(page.contains(said), "{page}");
    assert!(!page.contains("0 mm too loose"), "{page}");
}
