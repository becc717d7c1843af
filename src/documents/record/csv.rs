//! The form as comma-separated values, to fill in with a spreadsheet or by hand.

use crate::documents::Stamp;
use crate::measures::inspection::Item;
use crate::measures::readings::ItemReadings;
use crate::measures::uncertainty::Means;
use crate::sheet::number::trimmed;
use crate::sheet::number::with_unit;

/// The column that says which of two figures was read; only where a row has two.
const TAKEN: &str = "taken";

/// Columns of the form.
const HEADINGS: [&str; 12] = [
    "row",
    "name",
    "part",
    "how",
    "expected",
    "reading",
    "reading",
    "reading",
    TAKEN,
    "with",
    "temperature",
    "note",
];

/// Readings a line of the form has room for.
const READINGS: usize = 3;

/// The empty form.
pub fn empty<'a>(items: impl Iterator<Item = &'a Item>, stamp: &Stamp) -> String {
    let items: Vec<&Item> = items.collect();
    let ways = items.iter().any(|item| item.ways_of_reading().is_some());
    let mut text = head(stamp, ways);
    for item in items {
        line(&mut text, (item, ways), &[], None);
    }
    text
}

/// The form with readings that were typed in.
pub fn filled(items: &[Item], readings: &[ItemReadings], stamp: &Stamp) -> String {
    let ways = items.iter().any(|item| item.ways_of_reading().is_some());
    let mut text = head(stamp, ways);
    for (index, item) in items.iter().enumerate() {
        let Some(taken) = readings.iter().find(|taken| taken.item == index) else {
            continue;
        };
        let written: Vec<String> = taken
            .readings
            .iter()
            // whoever typed it in has answered for it
            .map(|reading| format!("{}!", reading.written))
            .collect();
        for some in written.chunks(READINGS) {
            line(&mut text, (item, ways), some, Some(taken));
        }
    }
    text
}

fn head(stamp: &Stamp, ways: bool) -> String {
    let short = stamp.fingerprint.get(..12).unwrap_or(&stamp.fingerprint);
    let shown = |heading: &&&str| ways || **heading != TAKEN;
    let headings: Vec<&str> = HEADINGS.iter().filter(shown).copied().collect();
    // without commas and quotation marks, so that a spreadsheet leaves it as it is
    let remark = if ways {
        "# under taken write over the rounds or to the sharp corner - whichever the row was read - where \
         how names both\n"
    } else {
        ""
    };
    format!(
        "# kerfwise {} readings for design {short}\n{remark}{}\n",
        env!("CARGO_PKG_VERSION"),
        headings.join(",")
    )
}

fn line(
    text: &mut String,
    (item, ways): (&Item, bool),
    readings: &[String],
    taken: Option<&ItemReadings>,
) {
    let expected = item.expected.map_or_else(String::new, |expected| {
        with_unit(&super::values::plain(item, expected))
    });
    let mut fields = vec![
        item.number.to_string(),
        item.name.clone(),
        item.part.clone(),
        super::how_to_read(item),
        expected,
    ];
    let blank = String::new();
    let padded = readings.iter().chain(std::iter::repeat(&blank));
    fields.extend(padded.take(READINGS).cloned());
    if ways {
        let reached = taken.and_then(|taken| taken.reached);
        fields.push(reached.map_or_else(String::new, |reached| reached.words(item).to_owned()));
    }
    let means = taken.and_then(|taken| taken.means.as_ref());
    fields.push(means.map_or_else(String::new, Means::words));
    let temperature = taken.and_then(|taken| taken.temperature);
    fields.push(temperature.map_or_else(String::new, |read| trimmed(read, 1)));
    fields.push(taken.map_or_else(String::new, |taken| taken.notes.join("; ")));
    let quoted: Vec<String> = fields.iter().map(|field| quoted(field)).collect();
    text.push_str(&quoted.join(","));
    text.push('\n');
}

/// A field as RFC 4180 spells it.
fn quoted(field: &str) -> String {
    if field.contains([',', '"', '\n', '\r', ';', '\t', '#']) {
        format!("\"{}\"", field.replace('"', "\"\""))
    } else {
        field.to_owned()
    }
}
