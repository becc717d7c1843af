use crate::design::Design;
use crate::design::Severity;
use crate::design::Source;
use crate::measures::review;

/// What is found of a rectangle in these units: its sides, the thickness and the size of its plate.
fn found(units: &str, [long, high]: [&str; 2], thickness: &str, size: &str) -> Vec<String> {
    let text = format!(
        "units = '{units}'\n[plate.stock]\nmaterial = 'aluminium 5083'\nthickness = {thickness}\n\
         size = [{size}]\n[part.board]\nplate = 'stock'\noutline = [\n\
         {{ corner = 'a', at = [0, 0] }}, {{ corner = 'b', at = [{long}, 0] }},\n\
         {{ corner = 'c', at = [{long}, {high}] }}, {{ corner = 'd', at = [0, {high}] }}]\n\
         [part.other]\nmirror_of = 'board'\n"
    );
    let source = Source::new("x.toml", text.clone());
    let design = Design::load(&source, &[]).expect(&text);
    let findings = review(&design).findings;
    let told = findings.iter().map(|finding| {
        let is_error = finding.severity == Severity::Error;
        let is_of_plate = finding.kind.is_of_plate_size();
        assert_eq!(is_error, is_of_plate, "only that keeps it from being cut");
        format!("{}: {}", source.text_at(finding.place), finding.kind)
    });
    told.collect()
}

#[test]
fn a_part_goes_on_its_plate_either_way_round() {
    for size in ["800, 340", "340, 800"] {
        for sides in [["800", "340"], ["340", "800"]] {
            let told = found("mm", sides, "5", size);
            assert!(told.is_empty(), "{sides:?} on {size}: {told:?}");
        }
    }
    assert_eq!(
        found("mm", ["819", "362"], "5", "800, 340"),
        [
            "[800, 340]: the part `board` is 819 mm × 362 mm over all, and its plate `stock` is 800 mm × 340 mm"
        ],
        "both sides are over, and the mirror image is not told"
    );
    assert_eq!(
        found("in", ["30", "9.000_01"], "0.25", "9, 36"),
        [
            "[9, 36]: the part `board` is 30 in × 9.00001 in over all, and its plate `stock` is 36 in × 9 in"
        ],
        "one side is enough; 0.00001 in are 0.000254 mm"
    );
}

#[test]
fn sizes_that_few_have_are_asked_about() {
    // 819.236 m by 362 m of a plate 12 m thick: metres for millimetres
    let told = found("m", ["819.236", "362"], "12", "2500, 1220");
    assert_eq!(
        told,
        [
            "12: the plate `stock` is 12 m thick, and few are thicker than 0.1 m",
            "board: the part `board` is 819.236 m over all, and few are longer than 10 m"
        ],
        "by place in the file"
    );
    // the other way about: 12 mm and 800 mm written as metres
    let told = found("mm", ["0.8", "0.3"], "0.012", "2.5, 1.22");
    assert_eq!(
        told,
        [
            "0.012: the plate `stock` is 0.012 mm thick, and few are thinner than 0.3 mm",
            "board: the part `board` is 0.8 mm over all, and few are shorter than 5 mm"
        ],
        "by place in the file"
    );
    // on the limits, and inside them
    for (sides, thickness) in [(["10_000", "5"], "100"), (["5", "1"], "0.3")] {
        let told = found("mm", sides, thickness, "12_000, 3000");
        assert!(told.is_empty(), "{told:?}");
    }
}

/// A strip of 900 × 60 drawn at 30°: 809 × 502 as it is drawn, and 900 × 60 turned by 60° or −30°.
#[test]
fn a_part_that_is_drawn_aslant_may_be_turned() {
    let told = |size: &str| {
        let text = format!(
            "[plate.stock]\nmaterial = 'aluminium 5083'\nthickness = 5\nsize = [{size}]\n\
             [part.strip]\nplate = 'stock'\noutline = [\n\
             {{ corner = 'a', at = [0, 0] }}, {{ corner = 'b', at = ['900 mm*cos(30 deg)', 450] }},\n\
             {{ corner = 'c', at = ['900 mm*cos(30 deg) - 30', '450 + 60 mm*cos(30 deg)'] }},\n\
             {{ corner = 'd', at = [-30, '60 mm*cos(30 deg)'] }}]\n"
        );
        let design = Design::load(&Source::new("x.toml", text.clone()), &[]).expect(&text);
        review(&design).findings.len()
    };
    assert_eq!(told("920, 80"), 0, "it goes on turned");
    assert_eq!(told("880, 80"), 1, "too long however it lies");
}
