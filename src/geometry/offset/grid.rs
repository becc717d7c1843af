//! A grid of square cells over many curves: which of them come near a place.

use crate::geometry::Point;
use crate::geometry::Rect;

use super::curve::Curve;

/// Lists the curves that pass through each cell.
#[derive(Clone, Debug)]
pub(super) struct Grid {
    origin: Point,
    pub(super) cell: f64,
    columns: usize,
    rows: usize,
    starts: Vec<u32>,
    items: Vec<u32>,
}

/// The curves already met in the present round of questions.
#[derive(Debug)]
pub(super) struct Met {
    round: u32,
    stamps: Vec<u32>,
}

impl Met {
    pub(super) fn new(count: usize) -> Self {
        Self {
            round: 0,
            stamps: vec![0; count],
        }
    }

    pub(super) fn begin(&mut self) {
        self.round = self.round.wrapping_add(1);
        if self.round == 0 {
            self.stamps.fill(0);
            self.round = 1;
        }
    }

    /// Whether this is the first time in this round.
    pub(super) fn is_new(&mut self, index: usize) -> bool {
        let fresh = self.stamps[index] != self.round;
        self.stamps[index] = self.round;
        fresh
    }
}

impl Grid {
    /// A grid over the curves with cells of about the mean length of a curve, and no smaller than
    /// `least`.
    pub(super) fn new(curves: &[Curve], least: f64) -> Self {
        Self::over(curves.iter(), least)
    }

    /// The same over curves that are parts of something else.
    pub(super) fn over<'c>(curves: impl Iterator<Item = &'c Curve> + Clone, least: f64) -> Self {
        let mut bounds: Option<Rect> = None;
        let mut length = 0.0;
        let mut number = 0;
        for curve in curves.clone() {
            bounds = Some(bounds.map_or(curve.bounds, |sum| sum.union(curve.bounds)));
            length += curve.bounds.width().max(curve.bounds.height());
            number += 1;
        }
        let bounds = bounds.unwrap_or(Rect::ZERO);
        let count = to_f64(number.max(1));
        let mut cell = (length / count).max(least).max(1e-6);
        // no more than a few cells to a curve
        while (bounds.width() / cell + 1.0) * (bounds.height() / cell + 1.0) > 4.0 * count + 64.0 {
            cell *= 1.3;
        }
        let mut grid = Self {
            origin: bounds.origin(),
            cell,
            columns: to_index(bounds.width() / cell) + 1,
            rows: to_index(bounds.height() / cell) + 1,
            starts: Vec::new(),
            items: Vec::new(),
        };
        grid.fill(curves);
        grid
    }

    fn fill<'c>(&mut self, curves: impl Iterator<Item = &'c Curve> + Clone) {
        let mut counts = vec![0_u32; self.columns * self.rows + 1];
        for curve in curves.clone() {
            curve.boxes(self.cell, |part| {
                self.cells(part, |cell| counts[cell + 1] += 1);
            });
        }
        for index in 1..counts.len() {
            counts[index] += counts[index - 1];
        }
        let mut next = counts.clone();
        let mut items = vec![0_u32; counts.last().map_or(0, |&total| total as usize)];
        for (index, curve) in curves.enumerate() {
            let item = to_item(index);
            curve.boxes(self.cell, |part| {
                self.cells(part, |cell| {
                    items[next[cell] as usize] = item;
                    next[cell] += 1;
                });
            });
        }
        self.starts = counts;
        self.items = items;
    }

    fn column(&self, x: f64) -> usize {
        to_index((x - self.origin.x) / self.cell).min(self.columns - 1)
    }

    fn row(&self, y: f64) -> usize {
        to_index((y - self.origin.y) / self.cell).min(self.rows - 1)
    }

    fn cells(&self, part: Rect, mut visit: impl FnMut(usize)) {
        let (first, last) = (self.column(part.x0), self.column(part.x1));
        for row in self.row(part.y0)..=self.row(part.y1) {
            for column in first..=last {
                visit(row * self.columns + column);
            }
        }
    }

    /// Calls `visit` with the index of every curve that passes through a cell that `part` touches,
    /// perhaps more than once, until it says `Stop`.
    pub(super) fn near(&self, part: Rect, mut visit: impl FnMut(usize) -> Going) -> Going {
        let (first, last) = (self.column(part.x0), self.column(part.x1));
        for row in self.row(part.y0)..=self.row(part.y1) {
            let line = row * self.columns;
            let (from, to) = (self.starts[line + first], self.starts[line + last + 1]);
            for &item in &self.items[from as usize..to as usize] {
                if visit(item as usize) == Going::Stop {
                    return Going::Stop;
                }
            }
        }
        Going::On
    }

    /// Calls `visit` with the curves of the cells on the row of `from`, from its own cell leftwards,
    /// and the x of the left side of each cell, until it says `Stop`.
    pub(super) fn leftwards(&self, from: Point, mut visit: impl FnMut(&[u32], f64) -> Going) {
        let line = self.row(from.y) * self.columns;
        for column in (0..=self.column(from.x)).rev() {
            let (start, end) = (self.starts[line + column], self.starts[line + column + 1]);
            #[expect(clippy::cast_precision_loss, reason = "column numbers are small")]
            let side = self.origin.x + column as f64 * self.cell;
            if visit(&self.items[start as usize..end as usize], side) == Going::Stop {
                return;
            }
        }
    }
}

/// Whether a search goes on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Going {
    On,
    Stop,
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held to 0 … 1e9 before"
)]
fn to_index(value: f64) -> usize {
    value.clamp(0.0, 1e9) as usize
}

#[expect(
    clippy::cast_possible_truncation,
    reason = "more than 4e9 curves do not fit in memory"
)]
fn to_item(index: usize) -> u32 {
    index as u32
}

#[expect(
    clippy::cast_precision_loss,
    reason = "a size for a cell, not a coordinate"
)]
fn to_f64(count: usize) -> f64 {
    count as f64
}
