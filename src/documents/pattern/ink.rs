//! What is drawn, as short straight chords that can be asked for quickly: is this place free?
//!
//! Chords serve only to decide which sheets are needed and where marks and words may stand; what is
//! printed is the exact geometry.

use crate::geometry::Arc;
use crate::geometry::Line;
use crate::geometry::Motion;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Segment;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::sheet::Item;
use crate::sheet::Picture;
use crate::sheet::Shape;

/// Side of the squares that chords are sorted into, in millimetres, unless there would be too many.
const SQUARE: f64 = 12.0;

/// The most squares.
const MOST_SQUARES: f64 = 400_000.0;

/// The chords of everything stroked in a picture, and of the edges of what is filled.
pub(super) fn chords(picture: &Picture) -> Vec<Line> {
    let mut found = Vec::new();
    for item in &picture.items {
        match item {
            Item::Stroke(stroke) => shape_chords(&stroke.shape, &mut found),
            Item::Fill(fill) => fill.contour.segments().for_each(|s| add(s, &mut found)),
            Item::Text(_) => {}
        }
    }
    found
}

fn shape_chords(shape: &Shape, found: &mut Vec<Line>) {
    match shape {
        Shape::Contour(contour) => contour.segments().for_each(|s| add(s, found)),
        Shape::Path(path) => path.segments().for_each(|s| add(s, found)),
        Shape::Circle { centre, radius } => {
            add(&Segment::Arc(Arc::circle(*centre, *radius)), found);
        }
        Shape::Spot(spot) => found.extend(crate::formats::drawn::spot_cross(*spot)),
    }
}

/// Adds the chords of a segment, within [`tolerance::LAID_OUT`] of it.
pub(super) fn add(segment: &Segment, found: &mut Vec<Line>) {
    let arc = match segment {
        Segment::Line(line) => {
            found.push(*line);
            return;
        }
        Segment::Arc(arc) => arc,
    };
    // sagitta r·(1 − cos(step / 2))
    let step = 2.0 * number::arccos(1.0 - (tolerance::LAID_OUT / arc.radius()).min(1.0));
    let mut count = 1_u32;
    while f64::from(count) * step < arc.sweep().abs() && count < 100_000 {
        count += 1;
    }
    let at = |index: u32| arc.point_at(f64::from(index) / f64::from(count));
    found.extend((0..count).map(|index| Line::new(at(index), at(index + 1))));
}

/// Chords after a motion.
pub(super) fn moved(chords: &[Line], motion: &Motion) -> Vec<Line> {
    let moved = |chord: &Line| Line::new(motion.point(chord.start), motion.point(chord.end));
    chords.iter().map(moved).collect()
}

/// The smallest upright rectangle around chords; `None` when there are none.
pub(super) fn bounds(chords: &[Line]) -> Option<Rect> {
    chords.iter().map(Line::bounds).reduce(|a, b| a.union(b))
}

/// Whether any of a straight line lies in a rectangle, its rim included.
///
/// # Source
/// Closed form: the part of the line between the sides of each axis (Liang and Barsky, 1984).
pub(super) fn crosses(chord: &Line, rect: &Rect) -> bool {
    let along = chord.end - chord.start;
    let (mut from, mut to) = (0.0_f64, 1.0_f64);
    for (start, step, low, high) in [
        (chord.start.x, along.x, rect.x0, rect.x1),
        (chord.start.y, along.y, rect.y0, rect.y1),
    ] {
        if step == 0.0 {
            if start < low || start > high {
                return false;
            }
            continue;
        }
        let (a, b) = ((low - start) / step, (high - start) / step);
        from = from.max(a.min(b));
        to = to.min(a.max(b));
    }
    from <= to
}

/// Chords sorted by place.
#[derive(Clone, Debug)]
pub(super) struct Ink {
    chords: Vec<Line>,
    corner: Point,
    square: f64,
    columns: usize,
    rows: usize,
    squares: Vec<Vec<u32>>,
}

impl Ink {
    /// Sorts chords by place.
    pub(super) fn new(chords: Vec<Line>) -> Self {
        let area = bounds(&chords).unwrap_or(Rect::ZERO);
        let square = SQUARE.max((area.width() * area.height() / MOST_SQUARES).sqrt());
        let columns = whole(area.width() / square) + 1;
        let rows = whole(area.height() / square) + 1;
        let mut ink = Self {
            chords: Vec::new(),
            corner: area.origin(),
            square,
            columns,
            rows,
            squares: vec![Vec::new(); columns * rows],
        };
        for (number, chord) in (0_u32..).zip(&chords) {
            ink.sort_in(number, chord);
        }
        ink.chords = chords;
        ink
    }

    fn sort_in(&mut self, number: u32, chord: &Line) {
        let ((left, right), (low, high)) = self.span(&chord.bounds());
        for row in low..=high {
            for column in left..=right {
                let size = (self.square, self.square);
                let at = (
                    column_f64(column) * self.square,
                    column_f64(row) * self.square,
                );
                let square = Rect::from_origin_size(self.corner + at, size).inflate(0.01, 0.01);
                if crosses(chord, &square)
                    && let Some(list) = self.squares.get_mut(row * self.columns + column)
                {
                    list.push(number);
                }
            }
        }
    }

    /// Squares that a rectangle reaches, held to those there are.
    fn span(&self, rect: &Rect) -> ((usize, usize), (usize, usize)) {
        let place = |value: f64, most: usize| whole(value / self.square).min(most - 1);
        (
            (
                place(rect.x0 - self.corner.x, self.columns),
                place(rect.x1 - self.corner.x, self.columns),
            ),
            (
                place(rect.y0 - self.corner.y, self.rows),
                place(rect.y1 - self.corner.y, self.rows),
            ),
        )
    }

    /// The chords that may come near a rectangle; some may be named twice.
    pub(super) fn near(&self, rect: &Rect) -> impl Iterator<Item = &Line> {
        let ((left, right), (low, high)) = self.span(rect);
        let columns = self.columns;
        (low..=high)
            .flat_map(move |row| (left..=right).map(move |column| row * columns + column))
            .filter_map(|place| self.squares.get(place))
            .flatten()
            .filter_map(|&number| self.chords.get(number as usize))
    }

    /// Whether anything is drawn in a rectangle.
    pub(super) fn touches(&self, rect: &Rect) -> bool {
        self.near(rect).any(|chord| crosses(chord, rect))
    }
}

/// The whole number below, none for a negative one.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "held to what fits before"
)]
pub(super) fn whole(value: f64) -> usize {
    // cutting off is rounding down, once nothing is negative, and needs no call
    value.clamp(0.0, 1e9) as usize
}

/// A count as a number.
#[expect(
    clippy::cast_precision_loss,
    reason = "counts of sheets are far below 2^53"
)]
pub(super) const fn column_f64(count: usize) -> f64 {
    count as f64
}
