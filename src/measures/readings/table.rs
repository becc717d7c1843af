//! Readings in a table of comma-separated values (RFC 4180; semicolons or tabs between the fields will
//! do too, as spreadsheets write them where the decimal mark is a comma).
//!
//! The first line names the columns: `row` or `name` or both, one or more `reading`, and if wanted
//! `unit`, `taken`, `with`, `temperature`, `note`. Lines that begin with `#` are remarks; one of them may name
//! the design that the form was printed for. What the form itself says beside (`part`, `expected`,
//! `permitted`, `how`) may stay in it.

use super::CONFIRMED;
use super::ItemReadings;
use super::Reached;
use super::ReadingError;
use super::ReadingFault;
use super::columns::Column;
use super::columns::HEADINGS;
use super::lines::Line;
use super::lines::delimiter;
use super::means;
use super::number;
use super::reached;
use super::typed;
use crate::design::Place;
use crate::design::suggestion;
use crate::measures::inspection::Item;
use crate::measures::uncertainty::Means;

/// The coldest and the warmest that anybody measures a part at, in °C.
const TEMPERATURES: std::ops::RangeInclusive<f64> = -40.0..=60.0;

/// The word by which a remark names the design.
const DESIGN: &str = "design ";

const COLUMNS_HELP: &str = "the first line names the columns, such as `row,reading,unit,with`";

/// Digits of a fingerprint that are enough to know a design by.
const SHORTEST_FINGERPRINT: usize = 8;

/// The readings of a table, in the order of the form.
///
/// `fingerprint` is that of the design whose form `items` are.
///
/// # Errors
/// All that is wrong with it, in the order of its lines.
pub fn read(
    text: &str,
    items: &[Item],
    fingerprint: &str,
) -> Result<Vec<ItemReadings>, Vec<ReadingError>> {
    let mut table = Reader {
        text,
        items,
        columns: Vec::new(),
        found: Vec::new(),
        errors: Vec::new(),
        last: None,
    };
    table.design(fingerprint);
    table.lines();
    if table.errors.is_empty() && table.found.iter().all(|found| found.readings.is_empty()) {
        let help = "write them under `reading`, one line a row of the form";
        table.refuse(ReadingFault::Empty, Place::default(), help);
    }
    if !table.errors.is_empty() {
        table.errors.sort_by_key(|error| error.place);
        return Err(table.errors);
    }
    table.found.retain(|found| !found.readings.is_empty());
    table.found.sort_by_key(|found| found.item);
    Ok(table.found)
}

struct Reader<'a> {
    text: &'a str,
    items: &'a [Item],
    columns: Vec<Column>,
    found: Vec<ItemReadings>,
    errors: Vec<ReadingError>,
    /// The item of the last line that had readings.
    last: Option<usize>,
}

impl Reader<'_> {
    fn refuse(&mut self, fault: impl Into<ReadingFault>, place: Place, help: impl Into<String>) {
        self.errors.push(ReadingError::new(fault, place, help));
    }

    /// Whether the form was printed for this design.
    fn design(&mut self, fingerprint: &str) {
        let mut start = 0;
        for line in self.text.split_inclusive('\n') {
            let here = start;
            start += line.len();
            if !line.starts_with('#') {
                continue;
            }
            let Some((_, after)) = line.split_once(DESIGN) else {
                continue;
            };
            let written: String = after.chars().take_while(char::is_ascii_hexdigit).collect();
            if written.len() < SHORTEST_FINGERPRINT
                || fingerprint.starts_with(&written.to_ascii_lowercase())
            {
                continue;
            }
            let this = fingerprint.get(..12).unwrap_or(fingerprint).to_owned();
            let fault = ReadingFault::OtherDesign { written, this };
            let help = "rows may have other numbers now: print the form anew, or take this line away \
                        and name the rows by `name`";
            self.refuse(fault, Place::new(here, here + line.trim_end().len()), help);
        }
    }

    fn lines(&mut self) {
        let mut reader = csv::ReaderBuilder::new()
            .delimiter(delimiter(self.text))
            .comment(Some(b'#'))
            .has_headers(false)
            .flexible(true)
            .trim(csv::Trim::All)
            .from_reader(self.text.as_bytes());
        for record in reader.records() {
            match record {
                Ok(record) => {
                    let start = record
                        .position()
                        .and_then(|position| usize::try_from(position.byte()).ok())
                        .unwrap_or(0);
                    let line = Line::new(self.text, start, &record);
                    if self.columns.is_empty() {
                        self.headings(&line);
                        if self.columns.is_empty() {
                            return;
                        }
                    } else {
                        self.line(&line);
                    }
                }
                Err(error) => {
                    let message = error.to_string();
                    let help = "look at its quotation marks";
                    self.refuse(ReadingFault::BadLine { message }, Place::default(), help);
                    return;
                }
            }
        }
    }

    /// Reads the first line; the columns stay empty if it cannot be one.
    fn headings(&mut self, line: &Line<'_>) {
        let mut columns = Vec::new();
        for (heading, place) in &line.fields {
            let plain = heading.trim_start_matches('\u{feff}').to_lowercase();
            let plain = plain.trim_end_matches(|c: char| c.is_ascii_digit() || c == ' ');
            let known = HEADINGS.iter().find(|(name, _)| *name == plain);
            let Some((_, column)) = known else {
                let fault = ReadingFault::UnknownColumn {
                    heading: (*heading).to_owned(),
                };
                let help = if heading.starts_with(|first: char| first.is_ascii_digit()) {
                    COLUMNS_HELP.to_owned()
                } else {
                    let names: Vec<&str> = HEADINGS.iter().map(|(name, _)| *name).collect();
                    suggestion(heading, &names)
                };
                self.refuse(fault, *place, help);
                continue;
            };
            let several = matches!(column, Column::Reading | Column::OfTheForm);
            if !several && columns.contains(column) {
                let heading = (*heading).to_owned();
                let help = "leave one of them out";
                self.refuse(ReadingFault::DoubledColumn { heading }, *place, help);
            }
            columns.push(*column);
        }
        if !self.errors.is_empty() {
            return;
        }
        let has = |column: Column| columns.contains(&column);
        if !has(Column::Row) && !has(Column::Name) {
            let fault = ReadingFault::MissingColumn { heading: "row" };
            self.refuse(fault, line.place, COLUMNS_HELP);
        }
        if !has(Column::Reading) {
            let heading = "reading";
            let fault = ReadingFault::MissingColumn { heading };
            self.refuse(fault, line.place, COLUMNS_HELP);
        }
        if self.errors.is_empty() {
            self.columns = columns;
        }
    }

    fn line(&mut self, line: &Line<'_>) {
        if line.fields.len() > self.columns.len() {
            let fault = ReadingFault::TooManyFields {
                found: line.fields.len(),
                expected: self.columns.len(),
            };
            let help = "a number with a decimal comma stands in quotation marks (`\"884,5\"`), or the \
                        fields have semicolons between them";
            self.refuse(fault, line.place, help);
            return;
        }
        let columns = self.columns.clone();
        let of = |wanted: Column| {
            line.fields
                .iter()
                .zip(&columns)
                .filter(move |((text, _), column)| **column == wanted && !text.is_empty())
                .map(|(field, _)| *field)
        };
        let one = |wanted: Column| of(wanted).next();
        let (row, name) = (one(Column::Row), one(Column::Name));
        let written: Vec<(&str, Place)> = of(Column::Reading).collect();
        if written.is_empty() {
            return;
        }
        let Some(index) = self.item(row, name, line.place) else {
            return;
        };
        let Some(item) = self.items.get(index) else {
            return;
        };
        let confirmed = row
            .or(name)
            .is_some_and(|(text, _)| text.ends_with(CONFIRMED));
        if !self.in_order(index, line.place, confirmed) {
            return;
        }
        self.last = Some(index);
        let unit = one(Column::Unit);
        if let Some((written, place)) = unit
            && !number::is_unit(written)
        {
            let written = written.to_owned();
            let help = "write `mm`, `cm`, `m`, `in`, `ft`, `deg`, `kg`, `g` or `lb`; a number with a decimal \
                        comma stands in quotation marks";
            self.refuse(ReadingFault::UnknownUnit { written }, place, help);
            return;
        }
        let unit = unit.map(|(unit, _)| unit);
        let reached = one(Column::Taken).and_then(|(text, place)| self.taken(text, place, item));
        let mut readings = Vec::new();
        for (text, place) in written {
            match typed::reading(text, unit, (item, reached), place) {
                Ok(reading) => readings.push(reading),
                Err(error) => self.errors.push(error),
            }
        }
        let temperature =
            one(Column::Temperature).and_then(|(text, place)| self.temperature(text, place));
        let with = one(Column::With).and_then(|(text, place)| self.with(text, place, item));
        let here = ItemReadings {
            item: index,
            readings,
            reached,
            means: with,
            temperature,
            notes: one(Column::Note)
                .map(|(note, _)| note.to_owned())
                .into_iter()
                .collect(),
            place: line.place,
        };
        self.add(here);
    }

    fn temperature(&mut self, text: &str, place: Place) -> Option<f64> {
        let parsed = temperature(text);
        if parsed.is_none() {
            let written = text.to_owned();
            let help = "write it as `18.5`, or leave it out";
            self.refuse(ReadingFault::BadTemperature { written }, place, help);
        }
        parsed
    }

    fn taken(&mut self, text: &str, place: Place, item: &Item) -> Option<Reached> {
        match Reached::parse(text, item) {
            Ok(reached) => Some(reached),
            Err(fault) => {
                self.refuse(fault, place, reached::help(item));
                None
            }
        }
    }

    fn with(&mut self, text: &str, place: Place, item: &Item) -> Option<Means> {
        match means(text, item) {
            Ok(means) => Some(means),
            Err(fault) => {
                self.refuse(fault, place, super::MEANS_HELP);
                None
            }
        }
    }

    /// The item that a line names.
    fn item(
        &mut self,
        row: Option<(&str, Place)>,
        name: Option<(&str, Place)>,
        line: Place,
    ) -> Option<usize> {
        let by_row = match row {
            Some((text, place)) => Some((self.by_number(text, place)?, place)),
            None => None,
        };
        let by_name = match name {
            Some((text, place)) if by_row.is_none() => Some(self.by_name(text, place)?),
            _ => None,
        };
        match (by_row, by_name, name) {
            (Some((index, _)), _, Some((written, place))) => {
                let item = self.items.get(index)?;
                let bare = written.trim_end_matches(CONFIRMED);
                if item.name == bare {
                    return Some(index);
                }
                let fault = ReadingFault::NamesDisagree {
                    number: item.number,
                    name: item.name.clone(),
                    written: bare.to_owned(),
                };
                let help = "correct the number or the name, or leave one of them out";
                self.refuse(fault, place, help);
                None
            }
            (Some((index, _)), _, None) => Some(index),
            (None, index @ Some(_), _) => index,
            (None, None, _) => {
                let help = "write the number that the form has for it under `row`";
                self.refuse(ReadingFault::NoRow, line, help);
                None
            }
        }
    }

    fn by_number(&mut self, text: &str, place: Place) -> Option<usize> {
        let bare = text.trim_end_matches(CONFIRMED).trim();
        let number: Option<usize> = bare.parse().ok();
        let index = self
            .items
            .iter()
            .position(|item| Some(item.number) == number);
        if index.is_none() {
            let fault = ReadingFault::UnknownRow {
                written: bare.to_owned(),
                last: self.items.last().map_or(0, |item| item.number),
            };
            self.refuse(fault, place, "look its number up on the form");
        }
        index
    }

    fn by_name(&mut self, text: &str, place: Place) -> Option<usize> {
        let bare = text.trim_end_matches(CONFIRMED).trim();
        // the row of the other hand bears the name of its part too, and is of the same dimension
        let has_it = self.items.iter().any(|item| item.name == bare);
        let mut called = self.items.iter().enumerate().filter(|(_, item)| {
            item.name == bare || !has_it && item.dimension.as_deref() == Some(bare)
        });
        let (first, second) = (called.next(), called.next());
        match (first, second) {
            (Some((index, _)), None) => Some(index),
            (Some((_, first)), Some((_, second))) => {
                let fault = ReadingFault::NameOfTwo {
                    name: bare.to_owned(),
                    first: first.number,
                    second: second.number,
                };
                self.refuse(fault, place, "name it by its number under `row`");
                None
            }
            _ => {
                let names: Vec<&str> = self.items.iter().map(|item| item.name.as_str()).collect();
                let help = suggestion(bare, &names);
                let name = bare.to_owned();
                self.refuse(ReadingFault::UnknownName { name }, place, help);
                None
            }
        }
    }

    /// Repeated readings stand on neighbouring lines; the same row further down may be another row's.
    fn in_order(&mut self, index: usize, place: Place, confirmed: bool) -> bool {
        if confirmed || self.last == Some(index) {
            return true;
        }
        let Some(before) = self.found.iter().find(|found| found.item == index) else {
            return true;
        };
        let line = self.text.get(..before.place.start).unwrap_or("");
        let line = line.matches('\n').count() + 1;
        let Some(item) = self.items.get(index) else {
            return true;
        };
        let fault = ReadingFault::Duplicate {
            number: item.number,
            name: item.name.clone(),
            line,
        };
        let help = format!(
            "is it another row? repeated readings stand on neighbouring lines; if it is right, confirm \
             it with `{CONFIRMED}` behind the row: `{}{CONFIRMED}`",
            item.number
        );
        self.refuse(fault, place, help);
        false
    }

    /// Adds a line to what its item has already.
    fn add(&mut self, here: ItemReadings) {
        let Some(item) = self.items.get(here.item) else {
            return;
        };
        let (number, name) = (item.number, item.name.clone());
        let Some(known) = self.found.iter_mut().find(|known| known.item == here.item) else {
            self.found.push(here);
            return;
        };
        known.readings.extend(here.readings);
        known.notes.extend(here.notes);
        let mut fault = (known.reached != here.reached).then(|| ReadingFault::TwoWays {
            number,
            name: name.clone(),
        });
        match (&known.means, here.means) {
            (Some(one), Some(other)) if *one != other => {
                fault = Some(ReadingFault::TwoMeans {
                    number,
                    name: name.clone(),
                    one: one.words(),
                    other: other.words(),
                });
            }
            (None, other @ Some(_)) => known.means = other,
            _ => {}
        }
        match (known.temperature, here.temperature) {
            (Some(one), Some(other)) if one != other => {
                fault = Some(ReadingFault::TwoTemperatures {
                    number,
                    name,
                    one,
                    other,
                });
            }
            (None, other @ Some(_)) => known.temperature = other,
            _ => {}
        }
        if let Some(fault) = fault {
            let help = "keep the readings of one, and make another file of the rest";
            self.refuse(fault, here.place, help);
        }
    }
}

/// A temperature in °C.
pub(super) fn temperature(text: &str) -> Option<f64> {
    let text = text.trim().trim_end_matches("°C").trim_end_matches('C');
    let value: f64 = text.trim().replace(',', ".").parse().ok()?;
    TEMPERATURES.contains(&value).then_some(value)
}
