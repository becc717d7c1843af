//! Documents and tables as JSON, for programs.
//!
//! # Schema
//!
//! A document is an object:
//!
//! - `kind`: `"document"`; `schema`: 1, raised when a key is taken away or changes its meaning;
//! - `title`, `footer`: strings;
//! - `blocks`: a list of objects, each with its `kind`:
//!   - `"heading"`, `"paragraph"`, `"caution"`: with `text`;
//!   - `"list"`: with `items`, a list of strings;
//!   - `"table"`: as below;
//!   - `"figure"`: with `caption` (the picture itself is for the formats that draw);
//!   - `"page_break"`.
//!
//! A table is an object with `kind` `"table"`, `title`, `columns` (a list of `key` and `heading`), `notes`
//! (a list of strings) and `rows`: objects from the keys of the columns to cells. A second column of the
//! same key gets `_2` behind it, and so on. A cell is
//!
//! - `null`: nothing, or a space to write in;
//! - a string: words, or the name of a file;
//! - a whole number: a count;
//! - `{"value": 304.8, "unit": "mm"}`: a number in full, not as it is rounded for people, with its unit;
//!   the unit of a pure number is the empty string.
//!
//! Keys stand in alphabetical order, so that the same input gives the same bytes.

use serde_json::Map;
use serde_json::Value;
use serde_json::json;

use super::FormatError;
use crate::sheet::Block;
use crate::sheet::Cell;
use crate::sheet::Column;
use crate::sheet::Document;
use crate::sheet::Table;

/// Edition of the schema of this module.
pub const SCHEMA: u32 = 1;

/// The document as JSON text, with `extra` keys beside its own; where a key is in both, the document's
/// own stands.
///
/// # Errors
/// [`FormatError::NotUsable`] for a number that is none: JSON has no word for it.
///
/// # Example
/// ```
/// use kerfwise::formats::json;
/// use kerfwise::sheet::Document;
///
/// let document = Document { title: "Leeboard".to_owned(), ..Document::default() };
/// let text = json::write(&document, &serde_json::Map::new())?;
/// let read: serde_json::Value = serde_json::from_str(&text)?;
/// assert_eq!(read["title"], "Leeboard");
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn write(document: &Document, extra: &Map<String, Value>) -> Result<String, FormatError> {
    let mut object = extra.clone();
    object.append(&mut document_object(&document.on_paper())?);
    Ok(text(object))
}

/// The table as JSON text, with `extra` keys beside its own.
///
/// # Errors
/// As [`write()`].
pub fn write_table(table: &Table, extra: &Map<String, Value>) -> Result<String, FormatError> {
    let mut object = extra.clone();
    object.append(&mut table_object(&table.on_paper())?);
    Ok(text(object))
}

fn text(object: Map<String, Value>) -> String {
    // alphabetical whatever features other crates switch on in the library
    let mut value = Value::Object(object);
    value.sort_all_objects();
    format!("{value:#}\n")
}

fn object(kind: &str) -> Map<String, Value> {
    let mut object = Map::new();
    object.insert("kind".to_owned(), kind.into());
    object
}

fn document_object(document: &Document) -> Result<Map<String, Value>, FormatError> {
    let blocks: Result<Vec<Value>, FormatError> = document.blocks.iter().map(block).collect();
    let mut object = object("document");
    object.insert("schema".to_owned(), SCHEMA.into());
    object.insert("title".to_owned(), document.title.clone().into());
    object.insert("footer".to_owned(), document.footer.clone().into());
    object.insert("blocks".to_owned(), blocks?.into());
    Ok(object)
}

fn block(block: &Block) -> Result<Value, FormatError> {
    Ok(match block {
        Block::Heading(words) => json!({ "kind": "heading", "text": words }),
        Block::Paragraph(words) => json!({ "kind": "paragraph", "text": words }),
        Block::Caution(words) => json!({ "kind": "caution", "text": words }),
        Block::List(items) => json!({ "kind": "list", "items": items }),
        Block::Steps(items) => json!({ "kind": "steps", "items": items }),
        Block::Table(table) => Value::Object(table_object(table)?),
        Block::Figure(figure) => json!({ "kind": "figure", "caption": figure.caption }),
        Block::PageBreak => json!({ "kind": "page_break" }),
    })
}

fn table_object(table: &Table) -> Result<Map<String, Value>, FormatError> {
    let keys = keys(&table.columns);
    let columns: Vec<Value> = keys
        .iter()
        .zip(&table.columns)
        .map(|(key, column)| json!({ "key": key, "heading": column.heading }))
        .collect();
    let rows: Result<Vec<Value>, FormatError> =
        table.rows.iter().map(|cells| row(&keys, cells)).collect();
    let mut object = object("table");
    object.insert("title".to_owned(), table.title.clone().into());
    object.insert("columns".to_owned(), columns.into());
    object.insert("rows".to_owned(), rows?.into());
    object.insert("notes".to_owned(), table.notes.clone().into());
    Ok(object)
}

/// One key a column, each only once.
fn keys(columns: &[Column]) -> Vec<String> {
    let mut keys: Vec<String> = Vec::new();
    for column in columns {
        let mut key = column.key.to_owned();
        let mut count = 1;
        while keys.contains(&key) {
            count += 1;
            key = format!("{}_{count}", column.key);
        }
        keys.push(key);
    }
    keys
}

fn row(keys: &[String], cells: &[Cell]) -> Result<Value, FormatError> {
    let mut object = Map::new();
    for (place, key) in keys.iter().enumerate() {
        let value = cells.get(place).map_or(Ok(Value::Null), cell)?;
        object.insert(key.clone(), value);
    }
    Ok(Value::Object(object))
}

fn cell(cell: &Cell) -> Result<Value, FormatError> {
    Ok(match cell {
        Cell::Empty | Cell::Blank => Value::Null,
        Cell::Text(words) | Cell::File(words) => words.clone().into(),
        Cell::Count(count) => (*count).into(),
        Cell::Quantity(quantity) => {
            if !quantity.value.is_finite() {
                return Err(FormatError::NotUsable {
                    what: "a number in a list",
                    value: quantity.value,
                    needed: "a finite number",
                });
            }
            // no negative zero
            let value = quantity.value + 0.0;
            json!({ "value": value, "unit": quantity.unit.symbol() })
        }
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::LengthUnit;
    use crate::sheet::Quantity;
    use crate::sheet::Unit;

    fn table() -> Table {
        let mut table = Table::new(
            "Limits",
            vec![
                Column::words("Dimension", "dimension"),
                Column::numbers("Size", "size"),
                Column::numbers("Size", "size"),
            ],
        );
        table.row(vec![
            "foot \"a\"".into(),
            Quantity::length(0.1 + 0.2, LengthUnit::Millimetre).into(),
            Cell::Count(3),
        ]);
        table.rows.push(vec![Cell::Blank]);
        table.notes.push("over the rounds".to_owned());
        table
    }

    #[test]
    fn a_table_has_keys_and_numbers_in_full() {
        let mut extra = Map::new();
        extra.insert("tool".to_owned(), "kerfwise".into());
        extra.insert("title".to_owned(), "not this one".into());
        let text = write_table(&table(), &extra).expect("finite");
        let read: Value = serde_json::from_str(&text).expect("JSON");
        assert_eq!(
            read,
            json!({
                "kind": "table",
                "tool": "kerfwise",
                "title": "Limits",
                "columns": [
                    { "key": "dimension", "heading": "Dimension" },
                    { "key": "size", "heading": "Size" },
                    { "key": "size_2", "heading": "Size" },
                ],
                "rows": [
                    {
                        "dimension": "foot \"a\"",
                        "size": { "value": 0.300_000_000_000_000_04, "unit": "mm" },
                        "size_2": 3,
                    },
                    { "dimension": null, "size": null, "size_2": null },
                ],
                "notes": ["over the rounds"],
            }),
            "schema"
        );
        let places: Vec<Option<usize>> = [
            "\"columns\"",
            "\"kind\"",
            "\"notes\"",
            "\"rows\"",
            "\"title\"",
        ]
        .map(|key| text.find(&format!("\n  {key}")))
        .to_vec();
        assert!(
            places.is_sorted() && places[0].is_some(),
            "alphabetical: {places:?}"
        );
    }

    #[test]
    fn a_document_lists_its_blocks() {
        let document = Document {
            title: "Leeboard".to_owned(),
            footer: "a1b2".to_owned(),
            blocks: vec![
                Block::Heading("Sizes".to_owned()),
                Block::Caution("Sharp.".to_owned()),
                Block::List(vec!["one".to_owned()]),
                Block::Table(table()),
                Block::PageBreak,
            ],
        };
        let text = write(&document, &Map::new()).expect("finite");
        let read: Value = serde_json::from_str(&text).expect("JSON");
        let kinds: Vec<&str> = read["blocks"]
            .as_array()
            .expect("a list")
            .iter()
            .filter_map(|block| block["kind"].as_str())
            .collect();
        assert_eq!(
            kinds,
            ["heading", "caution", "list", "table", "page_break"],
            "kinds"
        );
        assert_eq!(read["schema"], SCHEMA, "edition of the schema");
        assert_eq!(
            text,
            write(&document, &Map::new()).expect("finite"),
            "the same again"
        );
    }

    #[test]
    fn a_number_that_is_none_is_refused() {
        let mut table = table();
        table.rows[0][1] = Quantity {
            value: f64::NAN,
            unit: Unit::None,
            decimals: 1,
        }
        .into();
        let found = write_table(&table, &Map::new());
        assert!(
            matches!(found, Err(FormatError::NotUsable { .. })),
            "{found:?}"
        );
    }
}
