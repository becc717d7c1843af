//! The form as comma-separated values, to fill in with a spreadsheet or by hand.

use crate::documents::Stamp;
use crate::measures::inspection::Item;
use crate::measures::readings::ItemReadings;
use crate::measures::uncertainty::Means;
use crate::sheet::number::trimmed;
use crate::sheet::number::with_unit;

/// Columns of the form.
const HEADINGS: [&str; 11] = [
    "row",
    "name",
    "part",
    "how",
    "expected",
    "reading",
    "reading",
    "reading",
    "with",
    "temperature",
    "note",
];

/// Readings a line of the form has room for.
const READINGS: usize = 3;

/// The empty form.
pub fn empty<'a>(items: impl Iterator<Item = &'a Item>, stamp: &Stamp) -> String {
    let mut text = head(stamp);
    for item in items {
        line(&mut text, item, &[], None);
    }
    text
}

/// The form with readings that were typed in.
pub fn filled(items: &[Item], readings: &[ItemReadings], stamp: &Stamp) -> String {
    let mut text = head(stamp);
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
            line(&mut text, item, some, Some(taken));
        }
    }
    text
}

fn head(stamp: &Stamp) -> String {
    let short = stamp.fingerprint.get(..12).unwrap_or(&stamp.fingerprint);
    format!(
        "# kerfwise {} readings for design {short}\n{}\n",
        env!("CARGO_PKG_VERSION"),
        HEADINGS.join(",")
    )
}

fn line(text: &mut String, item: &Item, readings: &[String], taken: Option<&ItemReadings>) {
    let expected = item.expected.map_or_else(String::new, |expected| {
        with_unit(&super::values::plain(item, expected))
    });
    let mut fields = vec![
        item.number.to_string(),
        item.name.clone(),
        item.part.clone(),
        super::how(item),
        expected,
    ];
    let blank = String::new();
    let padded = readings.iter().chain(std::iter::repeat(&blank));
    fields.extend(padded.take(READINGS).cloned());
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
