//! A processes file to edit: everything that is known, commented out, so that only what a person takes
//! the mark away from becomes a statement of theirs.

use crate::geometry::number::trimmed;
use crate::trade::Process;
use crate::trade::Processes;
use crate::trade::processes::ByThickness;
use std::fmt::Write;

const HEAD: &str = "\
# Ways of cutting, for kerfwise. Every line that starts with # says what is known without this file.
# To state your shop's own figure take the # away and write it: it then goes before the one that is
# known, under the name of whoever stated it. Lengths are in the unit below; a string may carry its
# own, such as \"0.04 in\". With per_thickness a figure grows with the plate: value + per_thickness ×
# thickness, and never less than least.

units = \"mm\"
# currency = \"EUR\"                 # the money of the rates
# stated_by = \"the shop\"           # who says so
# stated_on = \"2026-11-20\"         # and when
";

const TAIL: &str = "
# A way of cutting of your own, like one above or with a kerf and its spread:
# [process.old-jet]
# like = \"waterjet\"
# kerf = { value = 1.3, spread = 0.1, stated_by = \"Anna\", on = \"2026-11-12\" }
";

/// The processes as a file to edit, each figure with its mark.
pub fn to_file(processes: &Processes) -> String {
    let mut text = HEAD.to_owned();
    for process in &processes.all {
        one(&mut text, process);
    }
    text.push_str(TAIL);
    text
}

/// The table of a process whose kerf was measured, to be put into a processes file.
///
/// All in millimetres; the spread is that of a single cut.
pub fn kerf_table(
    key: &str,
    (kerf, spread): (f64, f64),
    taper: Option<f64>,
    by: &str,
    on: &str,
) -> String {
    let quoted = |word: &str| format!("\"{}\"", word.replace(['"', '\\'], "'"));
    let mut table = format!("[process.{key}]\n");
    for (name, word) in [("stated_by", by), ("stated_on", on)] {
        if !word.is_empty() {
            let _ = writeln!(table, "{name} = {}", quoted(word));
        }
    }
    let mm = |value| format!("\"{} mm\"", trimmed(value, 3));
    let _ = writeln!(
        table,
        "kerf = {{ value = {}, spread = {} }}",
        mm(kerf),
        mm(spread)
    );
    if let Some(taper) = taper {
        let _ = writeln!(
            table,
            "taper = {{ value = {}, spread = 0 }}",
            mm(taper.max(0.0))
        );
    }
    table
}

fn one(text: &mut String, process: &Process) {
    let _ = write!(text, "\n[process.{}]\n", process.key);
    let mut line = |words: String, remark: &str| {
        let gap = if remark.is_empty() { "" } else { "   # " };
        let _ = writeln!(text, "# {words}{gap}{remark}");
    };
    line(format!("title = \"{}\"", process.title), "");
    figure(&mut line, "kerf", Some(&process.kerf));
    figure(&mut line, "taper", process.taper.as_ref());
    figure(&mut line, "tolerance", process.tolerance.as_ref());
    figure(&mut line, "smallest_hole", process.smallest_hole.as_ref());
    figure(&mut line, "inside_radius", process.inside_radius.as_ref());
    figure(&mut line, "web", process.web.as_ref());
    figure(&mut line, "pierce", process.pierce.as_ref());
    figure(&mut line, "lead_in", process.lead_in.as_ref());
    line(
        format!("part_on = \"{}\"", process.part_on.word()),
        "side of the travel",
    );
    line(format!("start = \"{}\"", process.start.word()), "");
    line(format!("straight_only = {}", process.straight_only), "");
    figure(&mut line, "longest", process.longest.as_ref());
    figure(&mut line, "thickest", process.thickest.as_ref());
    let cuts: Vec<String> = process
        .cuts
        .iter()
        .map(|of| format!("\"{}\"", of.word()))
        .collect();
    line(format!("cuts = [{}]", cuts.join(", ")), "");
    for refusal in &process.never {
        line(
            format!(
                "never = [{{ material = \"{}\", why = \"{}\" }}]",
                refusal.of.word(),
                refusal.why
            ),
            "known already; yours is added",
        );
    }
    if let Some(first) = process.feeds.first() {
        line("feeds = [".to_owned(), &first.origin.words());
        for feed in &process.feeds {
            let entry = format!(
                "  {{ material = \"{}\", thickness = {}, a_minute = {}, low = {}, high = {} }},",
                feed.of.word(),
                trimmed(feed.thickness, 2),
                trimmed(feed.value, 0),
                trimmed(feed.low, 0),
                trimmed(feed.high, 0),
            );
            line(entry, "");
        }
        line("]".to_owned(), "");
    }
    line(
        "rates = { per_hour = 0, per_metre = 0, per_pierce = 0, set_up = 0 }".to_owned(),
        "the shop's; none is known",
    );
    if !process.note.is_empty() {
        line(format!("note = \"{}\"", process.note), "");
    }
}

fn figure(line: &mut impl FnMut(String, &str), key: &str, figure: Option<&ByThickness>) {
    let Some(figure) = figure else {
        line(format!("{key} ="), "not known");
        return;
    };
    let mut fields = Vec::new();
    if figure.base != 0.0 || figure.is_constant() && figure.least == 0.0 {
        fields.push(format!("value = {}", trimmed(figure.base, 4)));
    }
    if figure.per_thickness != 0.0 {
        fields.push(format!(
            "per_thickness = {}",
            trimmed(figure.per_thickness, 6)
        ));
    }
    if figure.least != 0.0 {
        fields.push(format!("least = {}", trimmed(figure.least, 3)));
    }
    if (figure.below - figure.above).abs() < 5e-5 {
        if figure.above > 5e-5 {
            fields.push(format!("spread = {}", trimmed(figure.above, 4)));
        }
    } else if figure.is_constant() {
        fields.push(format!("low = {}", trimmed(figure.low(0.0), 4)));
        fields.push(format!("high = {}", trimmed(figure.high(0.0), 4)));
    } else {
        fields.push(format!(
            "spread = {}",
            trimmed(figure.below.max(figure.above), 4)
        ));
    }
    let remark = figure.origin.words();
    line(format!("{key} = {{ {} }}", fields.join(", ")), &remark);
}
