//! TOML into the tree.

use super::node::Field;
use super::node::Node;
use super::node::NodeValue;
use super::node::text_start;
use crate::design::error::DesignError;
use crate::design::error::FileFault;
use crate::design::error::Sink;
use crate::design::limits;
use crate::design::located::Located;
use crate::design::source::Place;
use toml::Spanned;
use toml::de::DeTable;
use toml::de::DeValue;

/// The tree of a TOML text; `None` after faults, which are in the sink.
pub(super) fn read(text: &str, sink: &mut Sink) -> Option<Node> {
    if let Some(error) = nested_too_deep(text) {
        sink.push(error);
        return None;
    }
    let (table, errors) = DeTable::parse_recoverable(text);
    if errors.is_empty() {
        let place = Place::new(0, 0);
        let walker = Walker { text };
        return sink.take(walker.table(place, table.get_ref(), 0));
    }
    tell(text, &errors, sink);
    None
}

/// Tells syntax errors: the first of each line, and nothing after a bracket that is left open, since
/// everything behind it is misread.
fn tell(text: &str, errors: &[toml::de::Error], sink: &mut Sink) {
    let mut last_line_end = 0;
    // the keys of a table that stands twice stand twice for that alone
    let mut told_until = 0;
    let mut brackets = Brackets::default();
    for error in errors {
        let place = error
            .span()
            .map_or(Place::new(text.len(), text.len()), |span| {
                Place::new(span.start, span.end)
            });
        if let Some(bracket) = brackets.left_open(text, line_around(text, place.start).start) {
            let message = format!(
                "`{}` is not closed",
                text.get(bracket.start..bracket.end).unwrap_or("{")
            );
            let fault = FileFault::Syntax { message };
            let help = "close it on its own line, behind the last value that belongs to it";
            sink.push(DesignError::new(fault, bracket).with_help(help));
            return;
        }
        // one slip makes the reader stumble several times on one line: only the first is told
        let is_first = last_line_end == 0 || place.start >= last_line_end;
        if is_first && place.start >= told_until {
            if doubled_header(text, place).is_some() && error.message().contains("duplicate key") {
                told_until = next_header(text, line_around(text, place.start).end);
            }
            sink.push_with(|| syntax_error(text, place, error.message()));
        }
        last_line_end = line_around(text, place.start).end + 1;
    }
}

/// Reads a text once, from its start, for curly brackets that are left open: designs close them on the
/// line they open on.
#[derive(Default)]
struct Brackets {
    /// How far it has read.
    read: usize,
    open: Vec<usize>,
    quote: Option<u8>,
    escaped: bool,
    comment: bool,
}

impl Brackets {
    /// Reads on to `end`, the start of a line, and gives the innermost bracket still open there.
    fn left_open(&mut self, text: &str, end: usize) -> Option<Place> {
        let bytes = text.as_bytes().get(self.read..end).unwrap_or_default();
        for (offset, &byte) in (self.read..).zip(bytes) {
            self.take(offset, byte);
        }
        self.read = self.read.max(end);
        let bracket = *self.open.last()?;
        Some(Place::new(bracket, bracket + 1))
    }

    fn take(&mut self, offset: usize, byte: u8) {
        match (byte, self.quote) {
            // a text that is not closed on its line is an error of its own
            (b'\n', _) => (self.quote, self.escaped, self.comment) = (None, false, false),
            _ if self.comment => {}
            _ if self.escaped => self.escaped = false,
            (b'\\', Some(b'"')) => self.escaped = true,
            (_, Some(own)) if byte == own => self.quote = None,
            (b'"' | b'\'', None) => self.quote = Some(byte),
            (b'#', None) => self.comment = true,
            (b'{', None) => self.open.push(offset),
            (b'}', None) => {
                self.open.pop();
            }
            _ => {}
        }
    }
}

/// Places of the line that holds an offset.
fn line_around(text: &str, offset: usize) -> Place {
    let offset = offset.min(text.len());
    let bytes = text.as_bytes();
    let start = bytes
        .get(..offset)
        .and_then(|before| before.iter().rposition(|&byte| byte == b'\n'))
        .map_or(0, |at| at + 1);
    let end = bytes
        .get(offset..)
        .and_then(|after| after.iter().position(|&byte| byte == b'\n'))
        .map_or(text.len(), |at| offset + at);
    Place::new(start, end)
}

/// Headers and dotted keys nest without brackets, which the reader of TOML does not bound.
fn nested_too_deep(text: &str) -> Option<DesignError> {
    let mut start = 0;
    for line in text.split_inclusive('\n') {
        let key = line.split_once('=').map_or(line, |(key, _)| key);
        if line.len() > limits::DEEPEST_TABLE
            && key.bytes().filter(|&byte| byte == b'.').count() > limits::DEEPEST_TABLE
            && !line.trim_start().starts_with('#')
            && !key.contains(['"', '\''])
        {
            let place = Place::new(start, start + line.trim_end().len());
            return Some(too_deep(place));
        }
        start += line.len();
    }
    None
}

fn too_deep(place: Place) -> DesignError {
    let fault = FileFault::TooDeep {
        limit: limits::DEEPEST_TABLE,
    };
    DesignError::new(fault, place).with_help("a design needs six levels at most")
}

fn syntax_error(text: &str, place: Place, message: &str) -> DesignError {
    if let Some((place, written)) = decimal_comma(text, place) {
        let help = format!("write `{}`", written.replace(',', "."));
        return DesignError::new(FileFault::DecimalComma { written }, place).with_help(help);
    }
    if message.contains("duplicate key") {
        let fault = FileFault::DuplicateKey {
            key: text
                .get(place.start..place.end)
                .unwrap_or("")
                .trim()
                .to_owned(),
            within: "its table".to_owned(),
        };
        let help = match doubled_header(text, place) {
            Some(list) => format!("write `[[{list}]]` for each of them"),
            None => "keep one of the two".to_owned(),
        };
        return DesignError::new(fault, place).with_help(help);
    }
    let message = message.trim().replace('\n', "; ");
    DesignError::new(FileFault::Syntax { message }, place)
        .with_help("look for a quote, bracket or comma too many or too few about here")
}

/// Keys of which there may be several, each under a header in two brackets.
const LISTS: [&str; 5] = ["opening", "limit", "scribe", "mark", "fit"];

/// The key of a header in single brackets at a place, if it is one that needs two.
fn doubled_header(text: &str, place: Place) -> Option<&str> {
    let line = line_around(text, place.start);
    let key = text.get(line.start..line.end)?.trim();
    let key = key.strip_prefix('[')?.split_once(']')?.0.trim();
    let last = key.rsplit('.').next()?.trim();
    (!key.starts_with('[') && LISTS.contains(&last)).then_some(key)
}

/// Where the next header stands after an offset; the end of the text without one.
fn next_header(text: &str, after: usize) -> usize {
    let rest = text.get(after..).unwrap_or_default();
    rest.find("\n[").map_or(text.len(), |at| after + at + 1)
}

/// The nearest start of a character, not after the offset.
fn boundary(text: &str, mut offset: usize) -> usize {
    while !text.is_char_boundary(offset) {
        offset -= 1;
    }
    offset
}

/// A number with a decimal comma as a value, in the line where TOML could not be read and before the
/// place where the reader gave up.
fn decimal_comma(text: &str, place: Place) -> Option<(Place, String)> {
    /// How much of a line is searched before and after the place.
    const REACH: usize = 400;
    let mut line = line_around(text, place.start);
    line.start = boundary(text, line.start.max(place.start.saturating_sub(REACH)));
    line.end = boundary(text, line.end.min(place.end + REACH));
    let written = text.get(line.start..line.end)?;
    let digits = |rest: &str| rest.bytes().take_while(u8::is_ascii_digit).count();
    let mut found = None;
    for (comma, _) in written.match_indices(',') {
        let (before, after) = (written.get(..comma)?, written.get(comma + 1..)?);
        let number = before.trim_end_matches(|character: char| {
            character.is_ascii_digit() || matches!(character, '+' | '-')
        });
        let quoted = before.matches(['"', '\'']).count() % 2 == 1;
        let value = number.trim_end().ends_with('=') && number.len() < before.len();
        if value && !quoted && digits(after) > 0 && line.start + comma <= place.end {
            let start = line.start + number.len();
            let end = line.start + comma + 1 + digits(after);
            found = Some(Place::new(start, end));
        }
    }
    let place = found?;
    Some((place, text.get(place.start..place.end)?.to_owned()))
}

/// Copies what the reader of TOML gives.
struct Walker<'a> {
    text: &'a str,
}

impl Walker<'_> {
    fn table(&self, place: Place, table: &DeTable<'_>, depth: usize) -> Result<Node, DesignError> {
        let mut fields = Vec::with_capacity(table.len());
        for (key, value) in table {
            let span = key.span();
            let place = Place::new(span.start, span.end);
            fields.push(Field {
                key: Located::new(place, key.get_ref().clone().into_owned()),
                node: self.node(value, depth + 1)?,
            });
        }
        fields.sort_by_key(|field| field.key.place);
        Ok(Node {
            place,
            value: NodeValue::Table(fields),
        })
    }

    fn node(&self, value: &Spanned<DeValue<'_>>, depth: usize) -> Result<Node, DesignError> {
        let place = Place::new(value.span().start, value.span().end);
        if depth > limits::DEEPEST_TABLE {
            return Err(too_deep(place));
        }
        let value = match value.get_ref() {
            DeValue::String(text) => {
                let start = text_start(self.text, place, text);
                NodeValue::Text(text.clone().into_owned(), start)
            }
            DeValue::Integer(integer) => {
                let number = i128::from_str_radix(integer.as_str(), integer.radix());
                NodeValue::Number(usable(self.text, place, number.ok().map(to_float))?)
            }
            DeValue::Float(float) => {
                NodeValue::Number(usable(self.text, place, float.as_str().parse().ok())?)
            }
            DeValue::Boolean(value) => NodeValue::Boolean(*value),
            DeValue::Datetime(_) => NodeValue::Date,
            DeValue::Array(entries) => {
                let nodes: Result<_, _> = entries
                    .iter()
                    .map(|entry| self.node(entry, depth + 1))
                    .collect();
                NodeValue::List(nodes?)
            }
            DeValue::Table(table) => return self.table(place, table, depth),
        };
        Ok(Node { place, value })
    }
}

#[expect(
    clippy::cast_precision_loss,
    reason = "a design has no whole numbers beyond 2^53 that matter"
)]
fn to_float(number: i128) -> f64 {
    number as f64
}

/// A number that can be computed with.
pub(super) fn usable(text: &str, place: Place, number: Option<f64>) -> Result<f64, DesignError> {
    number.filter(|number| number.is_finite()).ok_or_else(|| {
        let written = super::node::shortened(text.get(place.start..place.end).unwrap_or(""));
        DesignError::new(FileFault::NotANumber { written }, place)
            .with_help("write a number in digits")
    })
}
