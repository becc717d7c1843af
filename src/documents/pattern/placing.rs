//! How the parts are turned and shifted under the grid of sheets, for the fewest of them.

use super::error::PatternError;
use super::frame::Frame;
use super::grid::Grid;
use super::ink;
use super::options::Turning;
use crate::geometry::Line;
use crate::geometry::Motion;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::geometry::number;

/// Shifts tried along each axis.
const SHIFTS: u32 = 8;

/// Steps of a turn tried within half a turn.
const TURNS: u32 = 12;

/// The most places of the outline that the quick count looks at.
const MOST_SAMPLES: f64 = 1000.0;

/// How many of the best quick counts are counted exactly.
const COUNTED: usize = 6;

/// How far from a joint a centre should stay, in millimetres.
const OFF_JOINT: f64 = 8.0;

/// A centre on a joint is as bad as a straight line of this length along it, in millimetres.
const CENTRE_ON_JOINT: u64 = 90;

/// The most sheets of a pattern.
const MOST_SHEETS: usize = 2000;

/// Room between several parts in millimetres.
const BETWEEN: f64 = 20.0;

/// What is to be laid out.
pub(super) struct Layout<'a> {
    /// The lines of each part, as drawn.
    pub(super) parts: &'a [Vec<Line>],
    /// Places of each part that should not lie on a joint, as drawn.
    pub(super) off_joints: &'a [Vec<Point>],
    /// The sheets to choose from.
    pub(super) frames: &'a [Frame],
    pub(super) turning: Turning,
}

/// How it is laid out.
#[derive(Clone, Debug)]
pub(super) struct Laid {
    /// What becomes of each part.
    pub(super) motions: Vec<Motion>,
    /// Which frame.
    pub(super) frame: usize,
    /// A corner of a cell.
    pub(super) anchor: Point,
    /// Sheets it takes.
    pub(super) sheets: usize,
    /// Sheets that it would take as drawn, its lower left corner in that of a sheet.
    pub(super) as_drawn: usize,
}

/// One way to lay the parts, and how good it is.
struct Candidate {
    arrangement: usize,
    frame: usize,
    anchor: Point,
    /// Lower is better: sheets, then which arrangement, then edges near joints, then how far off the
    /// middle.
    score: (usize, usize, u64, u64),
}

/// Lays the parts for the fewest sheets.
pub(super) fn lay(layout: &Layout<'_>) -> Result<Laid, PatternError> {
    let arrangements = arrangements(layout);
    let mut candidates = Vec::new();
    for (number, motions) in arrangements.iter().enumerate() {
        let chords = all_moved(layout.parts, motions);
        let samples = samples(&chords);
        let centres = all_centres(layout.off_joints, motions);
        let Some(bounds) = ink::bounds(&chords) else {
            continue;
        };
        for (index, frame) in layout.frames.iter().enumerate() {
            for anchor in anchors(&chords, frame) {
                let count = quick_count(&samples, bounds, frame, anchor);
                let cell = (frame.cell.width(), frame.cell.height());
                let on_joints = centres_on_joints(&centres, anchor, cell);
                candidates.push(Candidate {
                    arrangement: number,
                    frame: index,
                    anchor,
                    score: (count, number, on_joints, 0),
                });
            }
        }
    }
    candidates.sort_by_key(|candidate| candidate.score);
    let fewest = candidates.first().map_or(0, |best| best.score.0);
    if fewest > MOST_SHEETS {
        return Err(PatternError::TooManySheets {
            sheets: fewest,
            most: MOST_SHEETS,
        });
    }
    keep_best(&mut candidates);
    let mut best: Option<(Candidate, usize)> = None;
    for mut candidate in candidates {
        let Some(motions) = arrangements.get(candidate.arrangement) else {
            continue;
        };
        let Some(frame) = layout.frames.get(candidate.frame) else {
            continue;
        };
        let Some((score, sheets)) = exact(layout, motions, frame, &candidate) else {
            continue;
        };
        candidate.score = score;
        if best.as_ref().is_none_or(|(best, _)| score < best.score) {
            best = Some((candidate, sheets));
        }
    }
    let (Some((best, sheets)), Some(frame)) = (best, layout.frames.first()) else {
        return Err(PatternError::TooManySheets {
            sheets: fewest,
            most: MOST_SHEETS,
        });
    };
    let motions = arrangements
        .into_iter()
        .nth(best.arrangement)
        .unwrap_or_default();
    Ok(Laid {
        motions,
        frame: best.frame,
        anchor: best.anchor,
        sheets,
        as_drawn: as_drawn(layout.parts, frame),
    })
}

/// Keeps a few of the best by quick count, of every arrangement and frame that comes near.
fn keep_best(candidates: &mut Vec<Candidate>) {
    let fewest = candidates.first().map_or(0, |best| best.score.0);
    let mut kept: Vec<(usize, usize, usize)> = Vec::new();
    candidates.retain(|candidate| {
        if candidate.score.0 > fewest + 1 || kept.len() >= 3 * COUNTED {
            return false;
        }
        let key = (candidate.arrangement, candidate.frame, candidate.score.0);
        let same = kept.iter().filter(|&&other| other == key).count();
        if same < COUNTED {
            kept.push(key);
        }
        same < COUNTED
    });
}

/// Score and number of sheets, counted exactly.
fn exact(
    layout: &Layout<'_>,
    motions: &[Motion],
    frame: &Frame,
    candidate: &Candidate,
) -> Option<((usize, usize, u64, u64), usize)> {
    let cell = (frame.cell.width(), frame.cell.height());
    let chords = all_moved(layout.parts, motions);
    let mut grid = Grid::over(&chords, cell, candidate.anchor)?;
    let mut from = 0;
    for part in layout.parts {
        let own = chords.get(from..from + part.len())?;
        from += part.len();
        let mut places: Vec<_> = own.iter().flat_map(|chord| grid.places_of(chord)).collect();
        places.sort_unstable();
        places.dedup();
        grid.join(&places);
    }
    let sheets = grid.count();
    let bounds = ink::bounds(&chords)?;
    let off_middle = bounds.center() - grid.bounds().center();
    let centres = all_centres(layout.off_joints, motions);
    let on_joints = centres_on_joints(&centres, grid.corner, grid.cell);
    let along_joints = millimetres(near_joints(&chords, &grid)) + CENTRE_ON_JOINT * on_joints;
    let score = (
        sheets,
        candidate.arrangement,
        // a few millimetres of a hole's side matter less than the middle
        along_joints / 30,
        millimetres(off_middle.x.abs() + off_middle.y.abs()),
    );
    Some((score, sheets))
}

#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "a length in whole millimetres, held to what fits"
)]
fn millimetres(value: f64) -> u64 {
    value.round().clamp(0.0, 1e12) as u64
}

/// How far a coordinate is from the nearest joint of those `step` apart.
fn off_joint(value: f64, corner: f64, step: f64) -> f64 {
    let share = (value - corner) / step;
    (share - share.round()).abs() * step
}

/// How many centres lie on a joint: they would have to be punched through two sheets.
fn centres_on_joints(centres: &[Point], corner: Point, cell: (f64, f64)) -> u64 {
    let on_joint = |centre: &&Point| {
        off_joint(centre.x, corner.x, cell.0) < OFF_JOINT
            || off_joint(centre.y, corner.y, cell.1) < OFF_JOINT
    };
    centres.iter().filter(on_joint).map(|_| 1).sum()
}

/// Length of straight lines that run along a joint within 4 mm of it.
fn near_joints(chords: &[Line], grid: &Grid) -> f64 {
    let near = |from: f64, to: f64, corner: f64, step: f64| {
        off_joint(from, corner, step) < 4.0 && off_joint(to, corner, step) < 4.0
    };
    chords
        .iter()
        .filter(|chord| {
            let along = chord.end - chord.start;
            let upright = along.x.abs() * 20.0 < along.y.abs()
                && near(chord.start.x, chord.end.x, grid.corner.x, grid.cell.0);
            let level = along.y.abs() * 20.0 < along.x.abs()
                && near(chord.start.y, chord.end.y, grid.corner.y, grid.cell.1);
            upright || level
        })
        .map(Line::length)
        .sum()
}

fn as_drawn(parts: &[Vec<Line>], frame: &Frame) -> usize {
    let motions = stacked(parts, 0.0, f64::INFINITY);
    let chords = all_moved(parts, &motions);
    let cell = (frame.cell.width(), frame.cell.height());
    let corner = ink::bounds(&chords).map_or(Point::ORIGIN, |bounds| bounds.origin());
    let anchor = corner - Vec2::new(1.0, 1.0);
    Grid::over(&chords, cell, anchor).map_or(0, |grid| grid.count())
}

/// The ways to turn and stack the parts that are tried, the plainest first.
fn arrangements(layout: &Layout<'_>) -> Vec<Vec<Motion>> {
    let quarter = number::QUARTER_TURN;
    let mut turns = vec![0.0];
    if layout.turning != Turning::AsDrawn {
        turns.push(quarter);
    }
    if layout.turning == Turning::AnyAngle && layout.parts.len() == 1 {
        let step = number::HALF_TURN / f64::from(TURNS);
        let others = (1..TURNS).filter(|&turn| turn * 2 != TURNS);
        turns.extend(others.map(|turn| f64::from(turn) * step));
    }
    if layout.parts.len() == 1 {
        let turned = |angle: f64| vec![Motion::turn(angle)];
        return turns.into_iter().map(turned).collect();
    }
    let mut arrangements = Vec::new();
    for turn in turns {
        for frame in layout.frames {
            for columns in 1..=6 {
                let width = f64::from(columns) * frame.cell.width();
                let motions = stacked(layout.parts, turn, width);
                if !arrangements.contains(&motions) {
                    arrangements.push(motions);
                }
            }
        }
    }
    arrangements
}

/// Parts side by side in rows no wider than `width`, as far as each fits, highest first.
pub(super) fn stacked(parts: &[Vec<Line>], turn: f64, width: f64) -> Vec<Motion> {
    let turn = Motion::turn(turn);
    let bounds: Vec<Rect> = parts
        .iter()
        .map(|chords| ink::bounds(&ink::moved(chords, &turn)).unwrap_or(Rect::ZERO))
        .collect();
    let mut order: Vec<usize> = (0..bounds.len()).collect();
    let height = |index: &usize| bounds.get(*index).map_or(0.0, Rect::height);
    order.sort_by(|a, b| height(b).total_cmp(&height(a)));
    let mut motions = vec![turn; parts.len()];
    let (mut x, mut y, mut row_height) = (0.0, 0.0, 0.0_f64);
    for index in order {
        let (Some(bounds), Some(motion)) = (bounds.get(index), motions.get_mut(index)) else {
            continue;
        };
        if x > 0.0 && x + bounds.width() > width {
            x = 0.0;
            y -= row_height + BETWEEN;
            row_height = 0.0;
        }
        let to = Vec2::new(x - bounds.x0, y - bounds.height() - bounds.y0);
        *motion = turn.then(&Motion::shift(to));
        x += bounds.width() + BETWEEN;
        row_height = row_height.max(bounds.height());
    }
    motions
}

fn all_centres(centres: &[Vec<Point>], motions: &[Motion]) -> Vec<Point> {
    let placed = centres.iter().zip(motions);
    placed
        .flat_map(|(centres, motion)| centres.iter().map(|&centre| motion.point(centre)))
        .collect()
}

fn all_moved(parts: &[Vec<Line>], motions: &[Motion]) -> Vec<Line> {
    let moved = |(chords, motion): (&Vec<Line>, &Motion)| ink::moved(chords, motion);
    parts.iter().zip(motions).flat_map(moved).collect()
}

/// Places for a cell corner: the block of cells about the middle of the drawing, then a net of shifts.
fn anchors(chords: &[Line], frame: &Frame) -> Vec<Point> {
    let Some(bounds) = ink::bounds(chords) else {
        return Vec::new();
    };
    let (width, height) = (frame.cell.width(), frame.cell.height());
    let half = |size: f64, cell: f64| (size / cell).ceil().max(1.0) * cell / 2.0;
    let middle =
        bounds.center() - Vec2::new(half(bounds.width(), width), half(bounds.height(), height));
    let mut anchors = vec![middle];
    for column in 0..SHIFTS {
        for row in 0..SHIFTS {
            let share = |index: u32| f64::from(index) / f64::from(SHIFTS);
            anchors.push(middle + Vec2::new(share(column) * width, share(row) * height));
        }
    }
    anchors.remove(1);
    anchors
}

/// Places along the chords, near enough for a quick count.
fn samples(chords: &[Line]) -> Vec<Point> {
    let length: f64 = chords.iter().map(Line::length).sum();
    let step = (length / MOST_SAMPLES).max(3.0);
    let mut points = Vec::new();
    let mut since = step;
    for chord in chords {
        let length = chord.length();
        let mut at = step - since;
        while at <= length {
            points.push(chord.point_at(if length > 0.0 { at / length } else { 0.0 }));
            at += step;
        }
        since = length - (at - step);
    }
    points
}

/// How many cells the samples lie in; `bounds` are those of the samples.
fn quick_count(samples: &[Point], bounds: Rect, frame: &Frame, anchor: Point) -> usize {
    let (width, height) = (frame.cell.width(), frame.cell.height());
    let left = anchor.x + ((bounds.x0 - anchor.x) / width).floor() * width;
    let low = anchor.y + ((bounds.y0 - anchor.y) / height).floor() * height;
    // a product is quicker than a quotient, and near enough for a quick count
    let (across, upwards) = (width.recip(), height.recip());
    let columns = ink::whole((bounds.x1 - left) * across) + 1;
    let cells = columns.saturating_mul(ink::whole((bounds.y1 - low) * upwards) + 1);
    if cells > super::grid::MOST_CELLS {
        return cells;
    }
    let mut seen = vec![false; cells];
    for point in samples {
        let (column, row) = ((point.x - left) * across, (point.y - low) * upwards);
        if let Some(seen) = seen.get_mut(ink::whole(row) * columns + ink::whole(column)) {
            *seen = true;
        }
    }
    seen.iter().filter(|&&seen| seen).count()
}
