//! The linear equations of a cubic spline: three unknowns a row, solved in one sweep.

use super::super::Vec2;

/// One row: `below`·m₋₁ + `diagonal`·m + `above`·m₊₁ = `right`.
#[derive(Clone, Copy, Debug)]
pub(super) struct Row {
    pub(super) below: f64,
    pub(super) diagonal: f64,
    pub(super) above: f64,
    pub(super) right: Vec2,
}

/// The unknowns of the rows, x and y at once. `below` of the first and `above` of the last row are
/// not used.
///
/// # Accuracy
/// Spline rows are dominated by their diagonal, so no pivoting is needed and nothing is lost.
///
/// # Source
/// Thomas' algorithm: Gaussian elimination of a tridiagonal matrix (Burden & Faires, Numerical
/// Analysis, 9th ed., Algorithm 6.7).
pub(super) fn solve(rows: &[Row]) -> Vec<Vec2> {
    let mut reduced: Vec<(f64, Vec2)> = Vec::with_capacity(rows.len());
    let mut last = (0.0, Vec2::ZERO);
    for row in rows {
        let pivot = row.diagonal - row.below * last.0;
        last = (row.above / pivot, (row.right - last.1 * row.below) / pivot);
        reduced.push(last);
    }
    let mut next = Vec2::ZERO;
    let mut unknowns: Vec<Vec2> = Vec::with_capacity(rows.len());
    for (factor, right) in reduced.iter().rev() {
        next = *right - next * *factor;
        unknowns.push(next);
    }
    unknowns.reverse();
    unknowns
}

/// The unknowns of rows that close in a ring: `below` of the first row belongs to the last unknown,
/// `above` of the last row to the first.
///
/// # Source
/// Sherman and Morrison's formula for a matrix changed by one product of vectors (Press et al.,
/// Numerical Recipes, 3rd ed., section 2.7.2).
pub(super) fn solve_ring(rows: &[Row]) -> Vec<Vec2> {
    let (Some(first), Some(last)) = (rows.first(), rows.last()) else {
        return Vec::new();
    };
    let (corner_above, corner_below) = (first.below, last.above);
    let gamma = -first.diagonal;
    let mut open: Vec<Row> = rows.to_vec();
    let end = open.len() - 1;
    open[0].below = 0.0;
    open[0].diagonal -= gamma;
    open[end].above = 0.0;
    open[end].diagonal -= corner_above * corner_below / gamma;
    let plain = solve(&open);
    for row in &mut open {
        row.right = Vec2::ZERO;
    }
    open[0].right = Vec2::new(gamma, 0.0);
    open[end].right += Vec2::new(corner_below, 0.0);
    let correction = solve(&open);
    let along = corner_above / gamma;
    let share =
        (plain[0] + plain[end] * along) / (1.0 + correction[0].x + correction[end].x * along);
    plain
        .iter()
        .zip(&correction)
        .map(|(value, change)| *value - share * change.x)
        .collect()
}
