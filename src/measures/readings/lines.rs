//! The lines of a table of readings, and their fields with places.

use crate::design::Place;

/// What stands between the fields: a semicolon or tab if the first line that is no remark has one.
pub(super) fn delimiter(text: &str) -> u8 {
    let first = text
        .lines()
        .find(|line| !line.starts_with('#') && !line.trim().is_empty())
        .unwrap_or("");
    [b';', b'\t']
        .into_iter()
        .find(|mark| first.as_bytes().contains(mark))
        .unwrap_or(b',')
}

/// The fields of a line, each with its place in the text.
pub(super) struct Line<'a> {
    pub(super) fields: Vec<(&'a str, Place)>,
    pub(super) place: Place,
}

impl<'a> Line<'a> {
    pub(super) fn new(text: &str, start: usize, record: &'a csv::StringRecord) -> Self {
        let skipped = text.get(start..).map_or(0, |rest| {
            rest.len() - rest.trim_start_matches(['\r', '\n']).len()
        });
        let start = start + skipped;
        let rest = text.get(start..).unwrap_or("");
        let end = start + rest.find(['\r', '\n']).unwrap_or(rest.len());
        let place = Place::new(start, end);
        let mut from = start;
        let mut fields = Vec::new();
        for field in record {
            // a field that the line spells otherwise (with doubled quotation marks) has the line's place
            let at = text
                .get(from..end)
                .and_then(|rest| rest.find(field))
                .map(|at| from + at);
            let place = match at {
                Some(at) if !field.is_empty() => Place::new(at, at + field.len()),
                _ => place,
            };
            if let (Some(at), false) = (at, field.is_empty()) {
                from = at + field.len();
            }
            fields.push((field, place));
        }
        Self { fields, place }
    }
}
