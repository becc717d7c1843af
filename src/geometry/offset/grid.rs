//! A grid of square cells over many curves: which of them come near a place.
//!
//! Only what is not empty takes room. A ring of small pieces is nearly all empty inside, and cells as
//! large as a full table would need hold far too many of them. Cells are kept in blocks of
//! [`SIDE`] by [`SIDE`], found by hashing and numbered as the curves come, so that what lies side
//! by side in the outline lies side by side in memory.

use crate::geometry::Point;
use crate::geometry::Rect;

use super::curve::Curve;

/// Lists the curves that pass through each cell.
#[derive(Clone, Debug)]
pub(super) struct Grid {
    origin: Point,
    pub(super) cell: f64,
    per_millimetre: f64,
    /// Number of the last column and row.
    last: [u32; 2],
    blocks: Blocks,
    /// Where the list of each cell of each block starts.
    starts: Vec<u32>,
    items: Vec<u32>,
    /// The rectangle round each curve.
    boxes: Vec<Rect>,
}

/// Cells along one side of a block.
const SIDE: u32 = 4;

/// The most columns or rows.
const MOST: f64 = 4e6;

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

/// The numbers of the blocks that are not empty, by place: a table with open addresses.
#[derive(Clone, Debug)]
struct Blocks {
    /// Place and number of a block; [`FREE`] where there is none.
    slots: Vec<(u64, u32)>,
    count: u32,
}

const FREE: (u64, u32) = (u64::MAX, u32::MAX);

impl Blocks {
    fn new(expected: usize) -> Self {
        Self {
            slots: vec![FREE; expected.max(8).next_power_of_two()],
            count: 0,
        }
    }

    /// Where the block is, or where it would be put.
    fn slot(&self, place: u64) -> usize {
        let mask = self.slots.len() - 1;
        // the high digits of the product depend on all digits of the place (Knuth, volume 3, 6.4)
        let mut slot = (place.wrapping_mul(0x9E37_79B9_7F4A_7C15) >> 32) as usize & mask;
        while self.slots[slot].0 != place && self.slots[slot] != FREE {
            slot = (slot + 1) & mask;
        }
        slot
    }

    fn find(&self, place: u64) -> Option<u32> {
        let (found, number) = self.slots[self.slot(place)];
        (found == place).then_some(number)
    }

    fn find_or_add(&mut self, place: u64) -> u32 {
        let slot = self.slot(place);
        if self.slots[slot] != FREE {
            return self.slots[slot].1;
        }
        let number = self.count;
        self.slots[slot] = (place, number);
        self.count += 1;
        if 2 * self.count as usize > self.slots.len() {
            let wider = vec![FREE; 2 * self.slots.len()];
            for entry in std::mem::replace(&mut self.slots, wider) {
                if entry != FREE {
                    let slot = self.slot(entry.0);
                    self.slots[slot] = entry;
                }
            }
        }
        number
    }
}

/// Place of the block a cell is in, and the number of the cell within it.
fn block_of(column: u32, row: u32) -> (u64, u32) {
    let place = u64::from(row / SIDE) << 32 | u64::from(column / SIDE);
    (place, row % SIDE * SIDE + column % SIDE)
}

impl Grid {
    /// A grid over the curves with cells of about the mean length of a curve, and no smaller than
    /// `least`.
    pub(super) fn new<'c>(curves: impl Iterator<Item = &'c Curve> + Clone, least: f64) -> Self {
        let boxes: Vec<Rect> = curves.clone().map(Curve::bounds).collect();
        let count = boxes.len();
        let bounds = boxes.iter().copied().reduce(|a, b| a.union(b));
        let bounds = bounds.unwrap_or(Rect::ZERO);
        let longer_side = |part: &Rect| part.width().max(part.height());
        let length: f64 = boxes.iter().map(longer_side).sum();
        let finest = bounds.width().max(bounds.height()) / MOST;
        let cell = (length / to_f64(count.max(1)))
            .max(least)
            .max(finest)
            .max(1e-6);
        let mut grid = Self {
            origin: bounds.origin(),
            cell,
            per_millimetre: 1.0 / cell,
            last: [0, 0],
            blocks: Blocks::new(count / 4),
            starts: Vec::new(),
            items: Vec::new(),
            boxes,
        };
        grid.last = [bounds.width(), bounds.height()].map(|side| to_number(side / cell));
        grid.fill(curves, count);
        grid
    }

    fn fill<'c>(&mut self, curves: impl Iterator<Item = &'c Curve>, count: usize) {
        let mut entries: Vec<(u32, u32)> = Vec::with_capacity(3 * count);
        let mut near = (u64::MAX, 0);
        for (index, curve) in curves.enumerate() {
            let item = to_item(index);
            curve.boxes(self.boxes[index], self.cell, |part| {
                for (column, row) in self.cells(part) {
                    let (place, inside) = block_of(column, row);
                    if near.0 != place {
                        near = (place, self.blocks.find_or_add(place));
                    }
                    entries.push((near.1 * SIDE * SIDE + inside, item));
                }
            });
        }
        let cells = (self.blocks.count * SIDE * SIDE) as usize;
        // counted one further on, so that filling moves each start to its place
        let mut starts = vec![0_u32; cells + 2];
        for &(cell, _) in &entries {
            starts[cell as usize + 2] += 1;
        }
        for index in 1..starts.len() {
            starts[index] += starts[index - 1];
        }
        self.items = vec![0; entries.len()];
        for (cell, item) in entries {
            let next = &mut starts[cell as usize + 1];
            self.items[*next as usize] = item;
            *next += 1;
        }
        self.starts = starts;
    }

    fn column(&self, x: f64) -> u32 {
        to_number((x - self.origin.x) * self.per_millimetre).min(self.last[0])
    }

    fn row(&self, y: f64) -> u32 {
        to_number((y - self.origin.y) * self.per_millimetre).min(self.last[1])
    }

    /// Column and row of the cells that a rectangle touches.
    fn cells(&self, part: Rect) -> impl Iterator<Item = (u32, u32)> + use<> {
        let (first, last) = (self.column(part.x0), self.column(part.x1));
        let rows = self.row(part.y0)..=self.row(part.y1);
        rows.flat_map(move |row| (first..=last).map(move |column| (column, row)))
    }

    /// The rectangle round a curve.
    pub(super) fn bounds(&self, index: usize) -> Rect {
        self.boxes[index]
    }

    /// The curves of one cell of a block.
    fn list(&self, block: u32, inside: u32) -> &[u32] {
        let cell = (block * SIDE * SIDE + inside) as usize;
        &self.items[self.starts[cell] as usize..self.starts[cell + 1] as usize]
    }

    /// Calls `visit` with the index of every curve whose rectangle `part` touches, and perhaps not
    /// only once, until it says `Stop`. Curves that come near only with their rectangle may be left
    /// out.
    pub(super) fn near(&self, part: Rect, visit: impl FnMut(usize) -> Going) -> Going {
        self.near_from(0, part, visit)
    }

    /// As [`Self::near`], with the curves from the index `least` on.
    pub(super) fn near_from(
        &self,
        least: usize,
        part: Rect,
        mut visit: impl FnMut(usize) -> Going,
    ) -> Going {
        let least = to_item(least);
        let mut near = (u64::MAX, None);
        let (first, last) = (self.column(part.x0), self.column(part.x1));
        for row in self.row(part.y0)..=self.row(part.y1) {
            for column in first..=last {
                let (place, inside) = block_of(column, row);
                if near.0 != place {
                    near = (place, self.blocks.find(place));
                }
                let Some(block) = near.1 else {
                    continue;
                };
                for &item in self.list(block, inside) {
                    let near = item >= least && touch(self.boxes[item as usize], part);
                    if near && visit(item as usize) == Going::Stop {
                        return Going::Stop;
                    }
                }
            }
        }
        Going::On
    }

    /// Calls `visit` with the curves of the cells on the row of `from`, from its own cell leftwards,
    /// and the x of the left side of each cell, until it says `Stop`. Where that is a longer way than
    /// through all curves, it is called once with all of them.
    pub(super) fn leftwards(&self, from: Point, mut visit: impl FnMut(&[u32], f64) -> Going) {
        let (row, first) = (self.row(from.y), self.column(from.x));
        if first as usize > self.items.len() {
            visit(&self.items, f64::NEG_INFINITY);
            return;
        }
        for column in (0..=first).rev() {
            let (place, inside) = block_of(column, row);
            let Some(block) = self.blocks.find(place) else {
                continue;
            };
            let side = self.origin.x + f64::from(column) * self.cell;
            if visit(self.list(block, inside), side) == Going::Stop {
                return;
            }
        }
    }
}

/// Whether two rectangles touch: in one go, since nobody can foresee which of the four is the one that fails.
fn touch(a: Rect, b: Rect) -> bool {
    let across = (a.x0 - b.x1).max(b.x0 - a.x1);
    let up = (a.y0 - b.y1).max(b.y0 - a.y1);
    across.max(up) <= 0.0
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
fn to_number(value: f64) -> u32 {
    value.clamp(0.0, 1e9) as u32
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
