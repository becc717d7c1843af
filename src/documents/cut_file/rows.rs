//! Parts placed in rows, the tallest first. This is no nesting: nothing is turned, and nothing lies in the
//! opening of another.

use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;

/// Pieces placed.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Rows {
    /// How far each is moved, in the order given.
    pub(super) shifts: Vec<Vec2>,
    /// Width and height of the sheet that they need, with the gap all round.
    pub(super) needed: (f64, f64),
}

/// Places pieces with these bounds, `gap` apart and from the sheet's edges, from the lower left corner of the
/// sheet at the origin. Rows are as long as the width allows; without one, so that the whole comes out
/// about square.
pub(super) fn rows(bounds: &[Rect], gap: f64, width: Option<f64>) -> Rows {
    let area: f64 = bounds
        .iter()
        .map(|bounds| (bounds.width() + gap) * (bounds.height() + gap))
        .sum();
    let widest = bounds.iter().map(Rect::width).fold(0.0, f64::max) + 2.0 * gap;
    let width = width.unwrap_or_else(|| widest.max(area.sqrt() * 1.2));
    let mut order: Vec<usize> = (0..bounds.len()).collect();
    // of the same height in the order of the design
    order.sort_by(|&a, &b| bounds[b].height().total_cmp(&bounds[a].height()));
    let mut shifts = vec![Vec2::ZERO; bounds.len()];
    let mut at = Point::new(gap, gap);
    let (mut row_height, mut needed_width) = (0.0_f64, 0.0_f64);
    for index in order {
        let own = bounds[index];
        if at.x > gap && at.x + own.width() + gap > width {
            at = Point::new(gap, at.y + row_height + gap);
            row_height = 0.0;
        }
        shifts[index] = at - own.origin();
        at.x += own.width() + gap;
        row_height = row_height.max(own.height());
        needed_width = needed_width.max(at.x);
    }
    Rows {
        shifts,
        needed: (needed_width, at.y + row_height + gap),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pieces_never_overlap_and_keep_the_gap() {
        let sizes = [
            (30.0, 20.0),
            (10.0, 45.0),
            (25.0, 20.0),
            (60.0, 5.0),
            (12.0, 12.0),
        ];
        let bounds: Vec<Rect> = sizes
            .iter()
            .enumerate()
            .map(|(i, (w, h))| {
                let x = 100.0 * f64::from(u32::try_from(i).expect("few"));
                Rect::new(x, -7.0, x + w, h - 7.0)
            })
            .collect();
        for width in [None, Some(80.0), Some(500.0)] {
            let placed = rows(&bounds, 4.0, width);
            let lying: Vec<Rect> = bounds
                .iter()
                .zip(&placed.shifts)
                .map(|(bounds, shift)| *bounds + *shift)
                .collect();
            let sheet = Rect::new(0.0, 0.0, placed.needed.0, placed.needed.1);
            for (index, one) in lying.iter().enumerate() {
                let inner = sheet.inflate(-4.0 + 1e-9, -4.0 + 1e-9);
                assert!(inner.contains_rect(*one), "{one:?} in {sheet:?}");
                for other in &lying[index + 1..] {
                    let grown = one.inflate(4.0 - 1e-9, 4.0 - 1e-9);
                    assert!(
                        !grown.overlaps(*other),
                        "{one:?} and {other:?} with {width:?}"
                    );
                }
            }
            assert!(
                width.is_none_or(|width| placed.needed.0 <= width),
                "{width:?}: {:?}",
                placed.needed
            );
        }
    }
}
