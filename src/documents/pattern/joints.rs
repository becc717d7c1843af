//! How sheets are joined: lines along the joints, register marks on them, and lining-up lines through
//! all sheets.

use super::error::PatternError;
use super::frame::BLEED;
use super::grid::Grid;
use super::grid::Place;
use super::ink;
use super::ink::Ink;
use super::labels;
use super::labels::Labels;
use super::moved;
use super::outline::THIN;
use super::points;
use crate::design::part::Datum;
use crate::geometry::Contour;
use crate::geometry::GeometryError;
use crate::geometry::LengthUnit;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::sheet::Layer;
use crate::sheet::LineType;
use crate::sheet::Pen;
use crate::sheet::Picture;
use crate::sheet::Shade;

/// Half the length of a register mark, across the joint, in millimetres.
pub(super) const MARK: f64 = 4.0;
/// Half its width, along the joint.
const MARK_WIDTH: f64 = 2.4;
/// Room kept about a register mark.
const CLEAR: f64 = 1.2;
/// Distance of the outermost register marks from the ends of a joint.
const INSET: f64 = 12.0;
/// The pen of lining-up lines.
const LINING: Pen = Pen::solid(0.12).line_type(LineType::LongDashedDotted);

/// A line through all sheets of a row or a column.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct LiningLine {
    /// Its y, or its x for an upright one.
    pub(super) at: f64,
    /// Its name where little room is.
    pub(super) short: String,
    /// What is written along it.
    pub(super) words: String,
}

/// The lining-up lines: one a row, one a column.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Lining {
    /// The level ones, top row first.
    pub(super) levels: Vec<LiningLine>,
    /// The upright ones, left column first.
    pub(super) uprights: Vec<LiningLine>,
}

/// Chooses lines that run along no straight edge: one at the same height of every row, one at the same
/// place of every column.
pub(super) fn lining(grid: &Grid, ink: &Ink, datum: Option<&Datum>, unit: LengthUnit) -> Lining {
    let (width, height) = grid.cell;
    let corner = grid.corner;
    let datum = datum.filter(|datum| moved::is_upright(datum.along));
    let bounds = grid.bounds();
    let level = |share: f64| {
        let rows = (0..grid.rows).map(|row| corner.y + share + ink::column_f64(row) * height);
        let strip = |y: f64| Rect::new(bounds.x0, y - 5.0, bounds.x1, y + 5.0);
        rows.map(|y| run_along(ink, &strip(y))).sum::<f64>()
    };
    let upright = |share: f64| {
        let columns =
            (0..grid.columns).map(|column| corner.x + share + ink::column_f64(column) * width);
        let strip = |x: f64| Rect::new(x - 5.0, bounds.y0, x + 5.0, bounds.y1);
        columns.map(|x| run_along(ink, &strip(x))).sum::<f64>()
    };
    let at_y = whole_from(
        corner.y + best_share(height, level),
        datum.map(|datum| datum.origin.y),
    );
    let at_x = whole_from(
        corner.x + best_share(width, upright),
        datum.map(|datum| datum.origin.x),
    );
    let busiest = |lines: usize, is_in: &dyn Fn(Place, usize) -> bool| {
        let count = |line: usize| grid.sheets().filter(|&place| is_in(place, line)).count();
        (0..lines)
            .rev()
            .max_by_key(|&line| count(line))
            .unwrap_or(0)
    };
    let base_row = busiest(grid.rows, &|place, row| place.row == row);
    let base_column = busiest(grid.columns, &|place, column| place.column == column);
    let levels = (0..grid.rows)
        .map(|row| {
            let y = at_y + ink::column_f64(grid.rows - 1 - row) * height;
            let base = at_y + ink::column_f64(grid.rows - 1 - base_row) * height;
            let names = ("base line", "above", "below");
            let running = datum.map(|datum| datum.running(Point::new(datum.origin.x, y)));
            line(y, y - base, names, running, unit)
        })
        .collect();
    let uprights = (0..grid.columns)
        .map(|column| {
            let x = at_x + ink::column_f64(column) * width;
            let base = at_x + ink::column_f64(base_column) * width;
            let names = ("perpendicular", "right of", "left of");
            let running = datum.map(|datum| datum.running(Point::new(x, datum.origin.y)));
            line(x, x - base, names, running, unit)
        })
        .collect();
    Lining { levels, uprights }
}

fn line(
    at: f64,
    off: f64,
    (name, more, less): (&str, &str, &str),
    running: Option<Vec2>,
    unit: LengthUnit,
) -> LiningLine {
    let side = if off > 0.0 { more } else { less };
    let short = if off.abs() < 0.5 {
        format!("the {name}")
    } else {
        format!(
            "the line {} {side} the {name}",
            points::length(off.abs(), unit)
        )
    };
    let own = if off.abs() < 0.5 {
        name.to_owned()
    } else {
        format!("{} {side} the {name}", points::length(off.abs(), unit))
    };
    // one of the two is 0 for a line along the datum edge or square to it
    let datum = running.map_or_else(String::new, |running| {
        let (along, across) = (running.x, running.y);
        if along.abs() > across.abs() {
            format!(" · {} along the datum edge", points::length(along, unit))
        } else {
            format!(
                " · {} square to the datum edge",
                points::length(across, unit)
            )
        }
    });
    LiningLine {
        at,
        short,
        words: format!("{own}{datum}"),
    }
}

/// Moves a place to whole millimetres from another.
fn whole_from(at: f64, origin: Option<f64>) -> f64 {
    let origin = origin.unwrap_or(0.0);
    origin + (at - origin).round()
}

/// The place within a cell, near its middle, along which the least runs.
fn best_share(size: f64, along: impl Fn(f64) -> f64) -> f64 {
    let mut best = (f64::INFINITY, size / 2.0);
    for step in 0..=10 {
        for side in [1.0, -1.0] {
            let share = size / 2.0 + side * f64::from(step) * size * 0.03;
            let found = along(share);
            if found < best.0 {
                best = (found, share);
            }
        }
    }
    best.1
}

/// Length of what runs lengthwise through a narrow strip: crossings count little.
fn run_along(ink: &Ink, strip: &Rect) -> f64 {
    let is_level = strip.width() > strip.height();
    let inside = |line: &&Line| ink::crosses(line, strip);
    let lengthwise = |line: &Line| {
        let along = line.end - line.start;
        let (run, across) = if is_level {
            (along.x.abs(), along.y.abs())
        } else {
            (along.y.abs(), along.x.abs())
        };
        (run - 2.0 * across).max(0.0)
    };
    ink.near(strip).filter(inside).map(lengthwise).sum()
}

/// Draws the lining-up lines over the printed sheets and their neighbours' edges.
pub(super) fn draw_lining(picture: &mut Picture, grid: &Grid, lining: &Lining) {
    for (row, line) in lining.levels.iter().enumerate() {
        let sheets = || grid.sheets().filter(|place| place.row == row);
        if let (Some(first), Some(last)) = (sheets().next(), sheets().last()) {
            let (from, to) = (grid.rect(first).x0 - BLEED, grid.rect(last).x1 + BLEED);
            let ends = (Point::new(from, line.at), Point::new(to, line.at));
            picture.line(Layer::Guides, ends.0, ends.1, LINING);
        }
    }
    for (column, line) in lining.uprights.iter().enumerate() {
        let sheets = || grid.sheets().filter(|place| place.column == column);
        if let (Some(first), Some(last)) = (sheets().next(), sheets().last()) {
            let (top, low) = (grid.rect(first).y1 + BLEED, grid.rect(last).y0 - BLEED);
            let ends = (Point::new(line.at, low), Point::new(line.at, top));
            picture.line(Layer::Guides, ends.0, ends.1, LINING);
        }
    }
}

/// Names the lining-up lines on every sheet.
pub(super) fn name_lining(
    picture: &mut Picture,
    labels: &mut Labels<'_>,
    grid: &Grid,
    lining: &Lining,
) {
    const SIZE: f64 = 2.1;
    for place in grid.sheets() {
        let cell = grid.rect(place);
        let lines = [
            lining.levels.get(place.row).map(|line| {
                let (from, to) = (Point::new(cell.x0, line.at), Point::new(cell.x1, line.at));
                (line, Line::new(from, to))
            }),
            lining.uprights.get(place.column).map(|line| {
                let (from, to) = (Point::new(line.at, cell.y0), Point::new(line.at, cell.y1));
                (line, Line::new(from, to))
            }),
        ];
        for (line, on_sheet) in lines.into_iter().flatten() {
            let places = points::along(&[on_sheet.into()]);
            let beside = |side: f64, size: f64| labels::beside(places.clone(), side, size);
            let whole = [line.words.clone()];
            let mut is_written = false;
            for side in [1.0, -1.0] {
                let place = beside(side, SIZE);
                is_written = is_written || labels.try_write(picture, &whole, SIZE, &place);
            }
            if is_written {
                continue;
            }
            // in two pieces, on whichever side each finds room
            for piece in line.words.split(" · ") {
                let piece = [piece.to_owned()];
                let above = beside(1.0, SIZE);
                if !labels.try_write(picture, &piece, SIZE, &above) {
                    labels.write(picture, &piece, SIZE, &beside(-1.0, SIZE));
                }
            }
        }
    }
}

/// A joint between two printed sheets; the second lies over the first, right of it or below it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Joint {
    pub(super) first: Place,
    pub(super) second: Place,
    /// From the top or from the left.
    pub(super) line: Line,
    /// Middles of its register marks, on the line.
    pub(super) marks: Vec<Point>,
}

/// All joints, with the places of their marks: off every line and as far apart as can be.
pub(super) fn joints(grid: &Grid, ink: &Ink, lining: &Lining) -> Result<Vec<Joint>, PatternError> {
    let mut joints = Vec::new();
    for first in grid.sheets() {
        let cell = grid.rect(first);
        let right = Line::new(Point::new(cell.x1, cell.y1), Point::new(cell.x1, cell.y0));
        let below = Line::new(Point::new(cell.x0, cell.y0), Point::new(cell.x1, cell.y0));
        for (second, line) in [(first.right(), right), (first.below(), below)] {
            if !grid.is_printed(second) {
                continue;
            }
            let marks = mark_places(&line, ink, lining);
            if marks.len() < 2 {
                return Err(PatternError::NoRoomForMarks {
                    first: first.name(),
                    second: second.name(),
                });
            }
            joints.push(Joint {
                first,
                second,
                line,
                marks,
            });
        }
    }
    Ok(joints)
}

/// The free places nearest to both ends of a joint.
fn mark_places(line: &Line, ink: &Ink, lining: &Lining) -> Vec<Point> {
    let (length, along) = (line.length(), line.direction());
    let is_free = |point: Point| {
        let half = MARK + CLEAR;
        let off_lining = if along.x == 0.0 {
            lining.levels.iter().all(|l| (l.at - point.y).abs() > half)
        } else {
            lining
                .uprights
                .iter()
                .all(|l| (l.at - point.x).abs() > half)
        };
        off_lining && !ink.touches(&points::around(point, half))
    };
    let mut at = INSET;
    let mut places = Vec::new();
    while at <= length - INSET {
        places.push(at);
        at += 2.0;
    }
    let place = |at: &f64| line.start + along * *at;
    let first = places.iter().find(|at| is_free(place(at)));
    let last = places.iter().rev().find(|at| is_free(place(at)));
    match (first, last) {
        (Some(first), Some(last)) if last - first >= 3.0 * MARK => vec![place(first), place(last)],
        _ => Vec::new(),
    }
}

/// Draws the joint lines and their register marks: two black triangles, one on each sheet, whose tips
/// meet on the joint.
pub(super) fn draw(picture: &mut Picture, joints: &[Joint]) -> Result<(), GeometryError> {
    for joint in joints {
        picture.line(Layer::Guides, joint.line.start, joint.line.end, THIN);
        let along = joint.line.direction();
        let across = number::left_normal(along);
        for &tip in &joint.marks {
            for side in [1.0, -1.0] {
                let foot = tip + across * (side * MARK);
                let triangle = [tip, foot + along * MARK_WIDTH, foot - along * MARK_WIDTH];
                picture.fill(Layer::Guides, Contour::polygon(&triangle)?, Shade::Black);
            }
        }
    }
    Ok(())
}
