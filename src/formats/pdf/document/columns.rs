//! What the cells of a table say, and how wide its columns are.

use super::measure;
use super::measure::Letter;
use super::words;
use crate::sheet::Cell;
use crate::sheet::Table;
use crate::sheet::Unit;
use crate::sheet::number;

/// The words of a table, wrapped nowhere yet.
pub(super) struct Content {
    pub(super) headings: Vec<String>,
    pub(super) rows: Vec<Vec<CellContent>>,
}

/// What stands in a cell.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum CellContent {
    /// Words, perhaps none.
    Words(String),
    /// A space for writing in.
    Blank,
}

/// Where the units stand.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Units {
    /// Beside each number.
    InCells,
    /// In the heading of a column whose numbers all have the same: narrower.
    InHeadings,
}

/// How a table is set: its words, the letters, the widths of its columns.
pub(super) struct Columns {
    pub(super) content: Content,
    pub(super) letter: Letter,
    pub(super) widths: Vec<f64>,
}

impl Content {
    fn new(table: &Table, columns: usize, units: Units) -> Self {
        let common: Vec<Option<Unit>> = (0..columns)
            .map(|index| match units {
                Units::InCells => None,
                Units::InHeadings => common_unit(table, index),
            })
            .collect();
        let heading = |(index, unit): (usize, &Option<Unit>)| {
            let column = table.columns.get(index);
            let heading = column.map_or("", |column| column.heading.as_str());
            match unit {
                Some(unit) => format!("{heading}, {}", unit.symbol()),
                None => heading.to_owned(),
            }
        };
        let row = |cells: &Vec<Cell>| {
            let cell = |(index, unit): (usize, &Option<Unit>)| {
                cell_content(cells.get(index).unwrap_or(&Cell::Empty), *unit)
            };
            common.iter().enumerate().map(cell).collect()
        };
        let mut rows: Vec<Vec<CellContent>> = table.rows.iter().map(row).collect();
        if rows.is_empty() {
            // an empty list is shown to be empty
            rows.push(vec![CellContent::Words("\u{2013}".to_owned())]);
        }
        Self {
            headings: common.iter().enumerate().map(heading).collect(),
            rows,
        }
    }

    /// Width of the widest word and of the widest cell in a column.
    fn widths(&self, index: usize, size: f64) -> (f64, f64) {
        let heading = self.headings.get(index).map_or("", String::as_str);
        let mut least = words::widest_word(heading, size);
        // a heading may wrap: it does not make a column of short cells wide
        let mut most = least.max(words::widest_line(heading, size).min(size * 9.0));
        for row in &self.rows {
            match row.get(index) {
                Some(CellContent::Blank) => {
                    least = least.max(measure::WRITING_WIDTH);
                    most = most.max(measure::WRITING_WIDTH);
                }
                Some(CellContent::Words(content)) => {
                    least = least.max(words::widest_word(content, size));
                    most = most.max(words::widest_line(content, size));
                }
                None => {}
            }
        }
        (least, most)
    }
}

/// The unit that all numbers of a column have, if it can be written into the heading.
fn common_unit(table: &Table, index: usize) -> Option<Unit> {
    let mut common = None;
    for cell in table.rows.iter().filter_map(|row| row.get(index)) {
        match cell {
            Cell::Quantity(quantity) => {
                if common.is_some_and(|unit| unit != quantity.unit) {
                    return None;
                }
                common = Some(quantity.unit);
            }
            Cell::Count(_) => return None,
            Cell::Empty | Cell::Text(_) | Cell::File(_) | Cell::Blank => {}
        }
    }
    common.filter(|unit| !unit.symbol().is_empty())
}

fn cell_content(cell: &Cell, unit_in_heading: Option<Unit>) -> CellContent {
    let words = match (cell, unit_in_heading) {
        (Cell::Blank, _) => return CellContent::Blank,
        (Cell::Empty, _) => String::new(),
        (Cell::Text(words) | Cell::File(words), _) => words.clone(),
        (Cell::Count(count), _) => count.to_string(),
        (Cell::Quantity(quantity), Some(_)) => number::fixed(quantity.value, quantity.decimals),
        // a number keeps its unit beside it
        (Cell::Quantity(quantity), None) => number::with_unit(quantity).replace(' ', "\u{A0}"),
    };
    CellContent::Words(words)
}

/// Room left and right of a cell's words.
pub(super) fn side(letter: Letter) -> f64 {
    letter.size / 2.0
}

impl Columns {
    /// The usual letters with the units in the cells, if every word fits between the margins; else
    /// with the units in the headings; else in smaller letters; and in the smallest, words are
    /// broken. `None` for a table without columns.
    pub(super) fn new(table: &Table, width: f64) -> Option<Self> {
        let longest_row = table.rows.iter().map(Vec::len).max().unwrap_or(0);
        let columns = table.columns.len().max(longest_row);
        if columns == 0 {
            return None;
        }
        let number = f64::from(u32::try_from(columns).unwrap_or(u32::MAX));
        // a little is taken off, so that rounding does not make a table too wide
        let room = |letter: Letter| width - 2.0 * side(letter) * number - 0.01;
        let [usual, ..] = Letter::TABLE;
        let plain = Content::new(table, columns, Units::InCells);
        if let Ok(widths) = fitting(&plain, usual, room(usual)) {
            return Some(Self {
                content: plain,
                letter: usual,
                widths,
            });
        }
        let content = Content::new(table, columns, Units::InHeadings);
        let mut letter = usual;
        let mut narrowest = Vec::new();
        for smaller in Letter::TABLE {
            letter = smaller;
            match fitting(&content, letter, room(letter)) {
                Ok(widths) => {
                    return Some(Self {
                        content,
                        letter,
                        widths,
                    });
                }
                Err(too_wide) => narrowest = too_wide,
            }
        }
        let shared = share_out(&vec![0.0; columns], &narrowest, room(letter));
        // a letter at least: where there is no room for that, the table is refused
        let widths = shared
            .into_iter()
            .map(|width| width.max(letter.size))
            .collect();
        Some(Self {
            content,
            letter,
            widths,
        })
    }
}

/// Widths that break no word; else the widths that would be needed for that.
fn fitting(content: &Content, letter: Letter, room: f64) -> Result<Vec<f64>, Vec<f64>> {
    let both = (0..content.headings.len()).map(|index| content.widths(index, letter.size));
    let (narrowest, widest): (Vec<f64>, Vec<f64>) = both.unzip();
    if narrowest.iter().sum::<f64>() <= room {
        Ok(share_out(&narrowest, &widest, room))
    } else {
        Err(narrowest)
    }
}

/// Widths between the narrowest and the widest, with the room shared so that narrow columns get all
/// they want and only wide ones are cut, all to one width.
fn share_out(narrowest: &[f64], widest: &[f64], room: f64) -> Vec<f64> {
    let widths = |limit: f64| -> Vec<f64> {
        let one = |(&least, &most): (&f64, &f64)| most.min(limit).max(least);
        narrowest.iter().zip(widest).map(one).collect()
    };
    let (mut low, mut high) = (0.0, room.max(0.0));
    if widest.iter().sum::<f64>() <= room {
        return widest.to_vec();
    }
    // halving 40 times leaves less than a nanometre
    for _ in 0..40 {
        let middle = f64::midpoint(low, high);
        if widths(middle).iter().sum::<f64>() <= room {
            low = middle;
        } else {
            high = middle;
        }
    }
    widths(low)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geometry::LengthUnit;
    use crate::sheet::Column;
    use crate::sheet::Quantity;

    #[test]
    fn narrow_columns_get_all_they_want() {
        let widths = share_out(&[5.0, 10.0, 5.0], &[12.0, 200.0, 100.0], 100.0);
        assert!((widths[0] - 12.0).abs() < 1e-6, "{widths:?}");
        assert!((widths[1] - 44.0).abs() < 1e-6, "{widths:?}");
        assert!((widths[2] - 44.0).abs() < 1e-6, "{widths:?}");
        let enough = share_out(&[5.0, 10.0], &[12.0, 20.0], 100.0);
        assert_eq!(enough, [12.0, 20.0], "no wider than needed");
    }

    #[test]
    fn units_go_into_the_headings_where_there_is_no_room_beside_the_numbers() {
        let mut table = Table::new("t", vec![Column::numbers("Width", "width"); 8]);
        let length = |mm| Cell::from(Quantity::length(mm, LengthUnit::Millimetre));
        table.row((0..8).map(|_| length(1234.5)).collect());
        let wide = Columns::new(&table, 400.0).unwrap();
        assert_eq!(wide.content.headings[0], "Width", "room enough");
        let words = CellContent::Words("1234.50\u{A0}mm".to_owned());
        assert_eq!(wide.content.rows[0][0], words, "the unit beside the number");
        let narrow = Columns::new(&table, 130.0).unwrap();
        assert_eq!(narrow.letter, Letter::TABLE[0], "letters of the usual size");
        assert_eq!(narrow.content.headings[0], "Width, mm", "no room");
        let words = CellContent::Words("1234.50".to_owned());
        assert_eq!(narrow.content.rows[0][0], words, "the number alone");
    }
}
