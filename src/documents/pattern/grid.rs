//! The sheets: cells in rows and columns over the drawing, and which of them are printed.

use std::collections::VecDeque;

use super::ink;
use super::ink::column_f64;
use super::ink::whole;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::Rect;

/// The most cells that a grid may have, printed or not.
pub(super) const MOST_CELLS: usize = 20_000;

/// A place in a grid: row counted from the top, column from the left, both from 0.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Place {
    pub(super) row: usize,
    pub(super) column: usize,
}

impl Place {
    /// The place to the right.
    pub(super) const fn right(self) -> Self {
        Self {
            column: self.column + 1,
            ..self
        }
    }

    /// The place below.
    pub(super) const fn below(self) -> Self {
        Self {
            row: self.row + 1,
            ..self
        }
    }

    /// The place to the left, if there is one.
    pub(super) fn left(self) -> Option<Self> {
        let column = self.column.checked_sub(1)?;
        Some(Self { column, ..self })
    }

    /// The place above, if there is one.
    pub(super) fn above(self) -> Option<Self> {
        let row = self.row.checked_sub(1)?;
        Some(Self { row, ..self })
    }

    /// Its name: the row as a letter (A the top one, then AA after Z), the column as a number.
    pub(super) fn name(self) -> String {
        format!("{}{}", row_name(self.row), self.column + 1)
    }
}

fn row_name(row: usize) -> String {
    let letter = |index: usize| char::from(b'A' + u8::try_from(index % 26).unwrap_or(0));
    if row < 26 {
        letter(row).to_string()
    } else {
        format!("{}{}", letter(row / 26 - 1), letter(row))
    }
}

/// Cells in rows and columns.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Grid {
    /// Lower left corner of the lowest row's first cell.
    pub(super) corner: Point,
    /// Width and height of a cell.
    pub(super) cell: (f64, f64),
    pub(super) columns: usize,
    pub(super) rows: usize,
    printed: Vec<bool>,
}

impl Grid {
    /// The grid with a cell corner at `anchor` that holds all chords; cells with a chord in them are
    /// printed. `None` for no chords, or for more than [`MOST_CELLS`].
    pub(super) fn over(chords: &[Line], cell: (f64, f64), anchor: Point) -> Option<Self> {
        let bounds = ink::bounds(chords)?.inflate(LINE, LINE);
        let (left, low) = (
            ((bounds.x0 - anchor.x) / cell.0).floor(),
            ((bounds.y0 - anchor.y) / cell.1).floor(),
        );
        let columns = whole(((bounds.x1 - anchor.x) / cell.0).floor() - left) + 1;
        let rows = whole(((bounds.y1 - anchor.y) / cell.1).floor() - low) + 1;
        if columns.saturating_mul(rows) > MOST_CELLS {
            return None;
        }
        let mut grid = Self {
            corner: Point::new(anchor.x + left * cell.0, anchor.y + low * cell.1),
            cell,
            columns,
            rows,
            printed: vec![false; columns * rows],
        };
        for chord in chords {
            for place in grid.places_of(chord) {
                grid.print(place);
            }
        }
        Some(grid)
    }

    /// The cells that a chord runs through, its width included.
    pub(super) fn places_of(&self, chord: &Line) -> Vec<Place> {
        let bounds = chord.bounds().inflate(LINE, LINE);
        let column = |x: f64| whole((x - self.corner.x) / self.cell.0).min(self.columns - 1);
        let level = |y: f64| whole((y - self.corner.y) / self.cell.1).min(self.rows - 1);
        let mut places = Vec::new();
        for level in level(bounds.y0)..=level(bounds.y1) {
            for column in column(bounds.x0)..=column(bounds.x1) {
                let place = Place {
                    row: self.rows - 1 - level,
                    column,
                };
                if ink::crosses(chord, &self.rect(place).inflate(LINE, LINE)) {
                    places.push(place);
                }
            }
        }
        places
    }

    /// The rectangle of a cell in the drawing.
    pub(super) fn rect(&self, place: Place) -> Rect {
        let level = column_f64(self.rows) - 1.0 - column_f64(place.row);
        let corner = Point::new(
            self.corner.x + column_f64(place.column) * self.cell.0,
            self.corner.y + level * self.cell.1,
        );
        Rect::from_origin_size(corner, self.cell)
    }

    /// The rectangle of all cells.
    pub(super) fn bounds(&self) -> Rect {
        let size = (
            column_f64(self.columns) * self.cell.0,
            column_f64(self.rows) * self.cell.1,
        );
        Rect::from_origin_size(self.corner, size)
    }

    fn index(&self, place: Place) -> Option<usize> {
        (place.row < self.rows && place.column < self.columns)
            .then_some(place.row * self.columns + place.column)
    }

    /// Whether a cell is printed.
    pub(super) fn is_printed(&self, place: Place) -> bool {
        self.index(place)
            .and_then(|index| self.printed.get(index))
            .is_some_and(|&printed| printed)
    }

    /// Has a cell printed.
    pub(super) fn print(&mut self, place: Place) {
        if let Some(index) = self.index(place)
            && let Some(printed) = self.printed.get_mut(index)
        {
            *printed = true;
        }
    }

    /// The printed cells, row by row from the top.
    pub(super) fn sheets(&self) -> impl Iterator<Item = Place> + '_ {
        self.all().filter(|&place| self.is_printed(place))
    }

    fn all(&self) -> impl Iterator<Item = Place> + use<> {
        let columns = self.columns;
        (0..self.rows).flat_map(move |row| (0..columns).map(move |column| Place { row, column }))
    }

    /// How many cells are printed.
    pub(super) fn count(&self) -> usize {
        self.printed.iter().filter(|&&printed| printed).count()
    }

    /// The printed cell that a point lies in.
    pub(super) fn place_at(&self, point: Point) -> Option<Place> {
        let from = point - self.corner;
        if from.x < 0.0 || from.y < 0.0 {
            return None;
        }
        let level = whole(from.y / self.cell.1);
        let row = self.rows.checked_sub(level + 1)?;
        let column = whole(from.x / self.cell.0);
        let place = Place { row, column };
        self.is_printed(place).then_some(place)
    }

    /// Printed neighbours over an edge.
    fn neighbours(&self, place: Place) -> impl Iterator<Item = Place> + '_ {
        [
            place.left(),
            place.above(),
            Some(place.right()),
            Some(place.below()),
        ]
        .into_iter()
        .flatten()
        .filter(|&place| self.is_printed(place))
    }

    /// The printed cells that hang together with one, itself included, in order.
    pub(super) fn group(&self, first: Place) -> Vec<Place> {
        let mut seen = vec![false; self.printed.len()];
        let mut waiting = VecDeque::from([first]);
        while let Some(place) = waiting.pop_front() {
            let Some(index) = self.index(place) else {
                continue;
            };
            let Some(seen) = seen.get_mut(index) else {
                continue;
            };
            if !std::mem::replace(seen, true) {
                waiting.extend(self.neighbours(place));
            }
        }
        let in_group = |place: &Place| {
            self.index(*place)
                .and_then(|index| seen.get(index))
                .is_some_and(|&seen| seen)
        };
        self.all().filter(in_group).collect()
    }

    /// Prints further cells until those of one part hang together.
    pub(super) fn join(&mut self, part: &[Place]) {
        while let Some(&first) = part.first() {
            let group = self.group(first);
            let distance = |a: Place, b: Place| a.row.abs_diff(b.row) + a.column.abs_diff(b.column);
            let nearest = part
                .iter()
                .filter(|&place| !group.contains(place))
                .flat_map(|&other| {
                    group
                        .iter()
                        .map(move |&own| (distance(own, other), own, other))
                })
                .min();
            let Some((_, own, other)) = nearest else {
                return;
            };
            for column in own.column.min(other.column)..=own.column.max(other.column) {
                self.print(Place {
                    row: own.row,
                    column,
                });
            }
            for row in own.row.min(other.row)..=own.row.max(other.row) {
                self.print(Place {
                    row,
                    column: other.column,
                });
            }
        }
    }
}

/// Half the width of a line and the chords' distance from it, in millimetres: nearer to a cell than
/// this, it shows there.
const LINE: f64 = 0.15;

#[cfg(test)]
mod tests {
    use super::*;

    fn line(x0: f64, y0: f64, x1: f64, y1: f64) -> Line {
        Line::new(Point::new(x0, y0), Point::new(x1, y1))
    }

    #[test]
    fn rows_are_named_from_the_top_and_go_on_after_z() {
        let name = |row, column| Place { row, column }.name();
        assert_eq!(name(0, 0), "A1", "top left");
        assert_eq!(name(25, 9), "Z10", "row 26");
        assert_eq!(name(26, 0), "AA1", "row 27");
        assert_eq!(name(53, 0), "BB1", "row 54");
    }

    #[test]
    fn only_cells_with_something_in_them_are_printed() {
        // an L: down the first column, along the lowest row
        let chords = [line(5.0, 5.0, 5.0, 250.0), line(5.0, 5.0, 250.0, 5.0)];
        let grid = Grid::over(&chords, (100.0, 100.0), Point::ORIGIN).unwrap();
        assert_eq!((grid.columns, grid.rows), (3, 3), "cells");
        let names: Vec<String> = grid.sheets().map(Place::name).collect();
        assert_eq!(names, ["A1", "B1", "C1", "C2", "C3"], "sheets");
        let corner = Place { row: 2, column: 0 };
        assert_eq!(grid.group(corner).len(), 5, "they hang together");
        assert_eq!(
            grid.place_at(Point::new(150.0, 50.0)),
            Some(Place { row: 2, column: 1 }),
            "place of a point"
        );
    }

    #[test]
    fn cells_that_touch_at_a_corner_only_are_joined() {
        let chords = [
            line(10.0, 10.0, 90.0, 20.0),
            line(110.0, 110.0, 190.0, 190.0),
        ];
        let mut grid = Grid::over(&chords, (100.0, 100.0), Point::ORIGIN).unwrap();
        assert_eq!(grid.count(), 2, "before");
        let part: Vec<Place> = grid.sheets().collect();
        grid.join(&part);
        assert_eq!(grid.count(), 3, "one more joins them");
        let first = grid.sheets().next().unwrap();
        assert_eq!(grid.group(first).len(), 3, "all hang together");
    }
}
