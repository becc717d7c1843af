use super::*;
use crate::trade::processes::Origin;
use crate::trade::processes::Subject;
use crate::trade::processes::Suits;

fn known(text: &str) -> Processes {
    read(&Source::new("shop.toml", text)).expect(text)
}

/// What is said about a faulty file: name, place as written, message, way out.
fn told(text: &str) -> Vec<(String, String, String, String)> {
    let source = Source::new("shop.toml", text);
    let errors = read(&source).expect_err(text);
    errors
        .iter()
        .map(|error| {
            (
                error.kind.name().to_owned(),
                source.text_at(error.place).to_owned(),
                error.kind.to_string(),
                error.help.clone(),
            )
        })
        .collect()
}

#[test]
fn a_stated_figure_goes_before_the_known_one_and_carries_its_name() {
    let text = "stated_by = 'Quay Metalwork'\nstated_on = '2026-11-20'\n[process.waterjet]\n\
                kerf = { value = 0.95, spread = 0.05 }\n\
                web = { value = '1/8 in', stated_by = 'Anna', on = '2026-11-12' }\n";
    let book = known(text);
    let jet = book.find("waterjet").expect("the jet");
    assert_eq!(
        (jet.kerf.at(5.0), jet.kerf.low(5.0)),
        (0.95, 0.95 - 0.05),
        "kerf"
    );
    assert_eq!(
        jet.kerf.origin.words(),
        "stated by Quay Metalwork, 2026-11-20",
        "who and when"
    );
    let web = jet.web.as_ref().expect("a web");
    assert_eq!(
        web.at(50.0),
        3.175,
        "an eighth of an inch, whatever the thickness"
    );
    assert_eq!(web.origin.words(), "stated by Anna, 2026-11-12", "its own");
    let hole = jet.smallest_hole.as_ref().expect("a hole");
    assert!(
        !hole.origin.is_authority(),
        "what is not stated keeps its mark"
    );
    assert_eq!(
        book.all.len(),
        Processes::default().all.len(),
        "none was added"
    );
}

#[test]
fn a_process_of_ones_own_is_like_another_or_has_a_kerf_with_a_spread() {
    let book = known(
        "units = 'in'\n[process.old-jet]\nlike = 'water jet'\nkerf = 0.05\n\
         [process.fret]\nkerf = { value = 0.02, spread = 0.004 }\ncuts = ['plywood birch', 'plastic']\n\
         never = [{ material = 'PVC', why = 'the dust is bad' }]\n\
         feeds = [{ material = 'plastic', thickness = '3 mm', a_minute = '200 mm' }]\n\
         rates = { per_hour = 30 }\n",
    );
    let jet = book.find("old-jet").expect("the old jet");
    assert!((jet.kerf.at(5.0) - 1.27).abs() < 1e-12, "in inches");
    assert!(
        (jet.kerf.above - 0.3).abs() < 1e-12,
        "the spread stays as it was"
    );
    assert!(
        jet.web.is_some() && !jet.feeds.is_empty(),
        "the rest is the jet's"
    );
    let fret = book.find("fret").expect("the fret saw");
    assert_eq!(
        fret.cuts.first(),
        Some(&Subject::Material("birch plywood")),
        "by its words"
    );
    let pvc = crate::trade::materials::find("PVC").expect("PVC");
    assert!(
        matches!(fret.suits(pvc), Suits::Never(_)),
        "never goes before cuts"
    );
    assert_eq!(
        fret.feed(pvc, 3.0).map(|feed| feed.value),
        Some(200.0),
        "as stated"
    );
    assert_eq!(
        fret.rates.per_hour,
        Some(30.0),
        "a rate is money, not a length"
    );
}

#[test]
fn an_angle_of_taper_grows_with_the_plate() {
    let book = known(
        "[process.plasma]\ntaper = '3 deg'\nkerf = { value = 0.5, per_thickness = 0.1, least = 1.2 }",
    );
    let plasma = book.find("plasma").expect("plasma");
    let taper = plasma.taper.as_ref().expect("taper");
    // tan 3° = 0.0524077793
    assert!((taper.at(10.0) - 0.524_077_793).abs() < 1e-9, "{taper:?}");
    assert_eq!(plasma.kerf.at(5.0), 1.2, "the least");
    assert!((plasma.kerf.at(10.0) - 1.5).abs() < 1e-12, "the line");
}

/// Faulty files: the text, the name of the fault, its place, a part of the message, a part of the way out.
const FAULTY: &[(&str, &str, &str, &str, &str)] = &[
    (
        "[process.waterjet]\nkerf = 0\n",
        "not-a-size",
        "0",
        "`kerf` is 0 mm, and must be more than 0",
        "trial cut",
    ),
    (
        "[process.waterjet]\nkerf = '-0.04 in'\n",
        "not-a-size",
        "'-0.04 in'",
        "`kerf` is -1.016 mm, and must be more than 0",
        "trial cut",
    ),
    (
        "[process.laser]\nkerf = { value = 0.2, spread = 0.25 }\n",
        "bad-spread",
        "{ value = 0.2, spread = 0.25 }",
        "`kerf` lies between -0.05 mm and 0.45 mm, which leaves no cut",
        "spread",
    ),
    (
        "[process.laser]\nkerf = { value = 0.2, low = 0.3, high = 0.4 }\n",
        "bad-spread",
        "{ value = 0.2, low = 0.3, high = 0.4 }",
        "does not hold its value",
        "spread",
    ),
    (
        "[process.watrjet]\nweb = 2\n",
        "too-little-known",
        "watrjet",
        "`watrjet` is none of the known ways of cutting, and has no `kerf`",
        "did you mean `waterjet`?",
    ),
    (
        "[process.mine]\nkerf = 1.2\n",
        "too-little-known",
        "mine",
        "has no `spread`",
        "spread = 0.1",
    ),
    (
        "[process.mine]\nlike = 'lazer'\n",
        "unknown-process",
        "'lazer'",
        "there is no way of cutting `lazer`",
        "did you mean `laser`?",
    ),
    (
        "[process.laser]\ncuts = ['alumnium']\n",
        "unknown-material",
        "'alumnium'",
        "there is no material `alumnium`",
        "did you mean `aluminium`?",
    ),
    (
        "[process.laser]\nkerff = 1\n",
        "unknown-key",
        "kerff",
        "`kerff` is not a key of a process",
        "did you mean `kerf`?",
    ),
    (
        "[process.laser]\nkerf = { value = 1, spread = 0.1, low = 0.9 }\n",
        "only-one-of",
        "low",
        "both `spread` and `low`",
        "take one",
    ),
    (
        "[process.laser]\nkerf = '30 deg'\n",
        "wrong-kind",
        "30 deg",
        "a length is needed here",
        "",
    ),
];

#[test]
fn what_is_wrong_is_told_with_its_place_its_numbers_and_a_way_out() {
    for &(text, name, place, message, help) in FAULTY {
        let said = told(text);
        let [(found_name, found_place, found_message, found_help)] = &said[..] else {
            panic!("one error in {text}: {said:?}");
        };
        assert_eq!(found_name, name, "{text}");
        assert_eq!(found_place, place, "{text}");
        assert!(found_message.contains(message), "{text}: {found_message}");
        assert!(found_help.contains(help), "{text}: {found_help}");
    }
}

#[test]
fn every_fault_is_told_by_the_test_above() {
    let tested = [
        "not-a-size",
        "bad-spread",
        "too-little-known",
        "unknown-process",
        // of a part: in the tests of the command
        "wider-than-opening",
        "unknown-material",
    ];
    assert_eq!(ProcessFault::NAMES, tested, "each has its faulty file");
}

#[test]
fn several_faults_are_told_at_once() {
    let said = told("[process.laser]\nkerf = 0\nweb = -1\n[process.plasma]\nlead_in = 0\n");
    assert_eq!(said.len(), 3, "{said:?}");
}

#[test]
fn the_file_to_edit_reads_back_as_what_is_known() {
    let known_figures = Processes::default();
    let file = to_file(&known_figures);
    let same = known(&file);
    assert_eq!(same, known_figures, "all of it is commented out");
    // with every mark taken away it states the same figures
    let mut bare = String::new();
    for line in file.lines() {
        let line = line.strip_prefix("# ").unwrap_or(line);
        let once = !line.starts_with("never") && !line.starts_with("feeds");
        let sure = line.starts_with('[') || line.contains(" = {") || line.starts_with("cuts");
        if once && sure && !line.contains("old-jet") && !line.contains("Anna") {
            bare.push_str(line);
            bare.push('\n');
        }
    }
    let stated = known(&bare);
    for (before, after) in known_figures.all.iter().zip(&stated.all) {
        let key = &before.key;
        for thickness in [1.0, 5.0, 12.0] {
            let pairs = [
                (Some(&before.kerf), Some(&after.kerf)),
                (before.taper.as_ref(), after.taper.as_ref()),
                (before.web.as_ref(), after.web.as_ref()),
                (before.smallest_hole.as_ref(), after.smallest_hole.as_ref()),
            ];
            for (before, after) in pairs {
                let (Some(before), Some(after)) = (before, after) else {
                    assert_eq!(before.is_some(), after.is_some(), "{key}");
                    continue;
                };
                let gap = (before.at(thickness) - after.at(thickness)).abs();
                assert!(gap < 1e-3, "{key} at {thickness}: {before:?} {after:?}");
                assert!(
                    matches!(after.origin, Origin::Stated { .. }),
                    "{key}: stated now"
                );
            }
        }
        assert_eq!(before.cuts, after.cuts, "{key}");
    }
}

#[test]
fn a_measured_kerf_goes_back_into_the_file() {
    let table = kerf_table(
        "waterjet",
        (1.043, 0.027),
        Some(0.06),
        "test piece",
        "2026-11-21",
    );
    let book = known(&table);
    let jet = book.find("waterjet").expect("the jet");
    assert_eq!(
        (jet.kerf.at(3.0), jet.kerf.above),
        (1.043, 0.027),
        "{table}"
    );
    assert_eq!(
        jet.kerf.origin.words(),
        "stated by test piece, 2026-11-21",
        "{table}"
    );
    assert_eq!(
        jet.taper.as_ref().map(|taper| taper.at(3.0)),
        Some(0.06),
        "{table}"
    );
}
