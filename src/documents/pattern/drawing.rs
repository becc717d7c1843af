//! Everything that is drawn over all sheets of a pattern.

use super::build::LaidOn;
use super::checks;
use super::checks::Check;
use super::checks::CheckPoint;
use super::error::PatternError;
use super::grid::Grid;
use super::grid::Place;
use super::ink;
use super::ink::Ink;
use super::joints;
use super::joints::Lining;
use super::labels::Labels;
use super::labels::Where;
use super::options::Extent;
use super::options::PatternOptions;
use super::outline;
use super::points;
use super::words;
use crate::design::part::Part;
use crate::documents::Stamp;
use crate::geometry::Contour;
use crate::geometry::Line;
use crate::sheet::Picture;

/// The lines of a part that decide about sheets.
pub(super) fn lines_of(part: &Part, options: &PatternOptions) -> Result<Picture, PatternError> {
    let mut picture = Picture::new();
    outline::draw(&mut picture, part)?;
    super::rough_cut::draw(&mut picture, part, options.rough_cut)?;
    Ok(picture)
}

/// Straight lines longer than this are left out between their ends when only corners are printed, in
/// millimetres.
const PLAIN: f64 = 120.0;
/// How much of such a line stays at either end.
const PLAIN_ENDS: f64 = 30.0;

/// The chords that decide which sheets are printed.
pub(super) fn deciding(picture: &Picture, extent: Extent) -> Vec<Line> {
    let chords = ink::chords(picture);
    match extent {
        Extent::Whole => chords,
        Extent::CornersOnly => {
            let ends = |chord: Line| {
                let length = chord.length();
                if length <= PLAIN {
                    return vec![chord];
                }
                let share = PLAIN_ENDS / length;
                vec![
                    Line::new(chord.start, chord.point_at(share)),
                    Line::new(chord.point_at(1.0 - share), chord.end),
                ]
            };
            chords.into_iter().flat_map(ends).collect()
        }
    }
}

/// Everything that is drawn over all sheets.
pub(super) struct Drawing {
    pub(super) picture: Picture,
    pub(super) grid: Grid,
    pub(super) checks: Vec<(String, Check)>,
    pub(super) notes: Vec<String>,
}

pub(super) fn draw(
    parts: &[Part],
    laid: &LaidOn,
    stamp: &Stamp,
    options: &PatternOptions,
) -> Result<Drawing, PatternError> {
    let mut picture = Picture::new();
    let mut deciding_all: Vec<Vec<Line>> = Vec::new();
    for part in parts {
        let lines = lines_of(part, options)?;
        deciding_all.push(deciding(&lines, options.extent));
        picture.append(lines);
    }
    let all: Vec<Line> = deciding_all.iter().flatten().copied().collect();
    let cell = (laid.frame.cell.width(), laid.frame.cell.height());
    let mut grid = Grid::over(&all, cell, laid.anchor).ok_or(PatternError::TooManySheets {
        sheets: super::grid::MOST_CELLS,
        most: super::grid::MOST_CELLS,
    })?;
    if options.extent == Extent::Whole {
        for part in &deciding_all {
            let mut places: Vec<Place> = part.iter().flat_map(|c| grid.places_of(c)).collect();
            places.sort_unstable();
            places.dedup();
            grid.join(&places);
        }
    }
    let mut notes = Vec::new();
    for part in parts {
        let far = points::draw(&mut picture, part);
        notes.extend(words::far_centres(part, &far, stamp.unit));
        points::draw_plate_edges(&mut picture, part);
    }
    let lining = lining_of(parts, &grid, &picture, stamp)?;
    let (check_points, checks) = all_checks(parts, &lining, &grid, options.extent);
    checks::draw(&mut picture, &check_points);
    let bare = Ink::new(ink::chords(&picture));
    let joints = joints::joints(&grid, &bare, &lining)?;
    joints::draw_lining(&mut picture, &grid, &lining);
    joints::draw(&mut picture, &joints)?;
    let left_out = write_words(&mut picture, parts, &grid, (&lining, &check_points), stamp);
    if !left_out.is_empty() {
        notes.push(words::left_out(&left_out));
    }
    Ok(Drawing {
        picture,
        grid,
        checks,
        notes,
    })
}

fn lining_of(
    parts: &[Part],
    grid: &Grid,
    picture: &Picture,
    stamp: &Stamp,
) -> Result<Lining, PatternError> {
    let first = parts.first().ok_or(PatternError::NoPart)?;
    let ink = Ink::new(ink::chords(picture));
    // several parts have several datums: none of them measures them all
    let datum = (parts.len() == 1).then_some(&first.datum);
    Ok(joints::lining(grid, &ink, datum, stamp.unit))
}

fn all_checks(
    parts: &[Part],
    lining: &Lining,
    grid: &Grid,
    extent: Extent,
) -> (Vec<CheckPoint>, Vec<(String, Check)>) {
    let mut check_points: Vec<CheckPoint> = Vec::new();
    let mut checks = Vec::new();
    for part in parts {
        let first = checks::letters(&check_points);
        let (points, found) = checks::of_part(part, lining, first);
        check_points.extend(points);
        checks.extend(found.into_iter().map(|check| (part.name.clone(), check)));
    }
    if extent == Extent::CornersOnly {
        checks.retain(|(_, check)| checks::is_on_one_group(check, grid));
    }
    checks::keep_used(&mut check_points, &checks);
    (check_points, checks)
}

/// Writes all words of the drawing; gives back those for which there was no room.
fn write_words(
    picture: &mut Picture,
    parts: &[Part],
    grid: &Grid,
    (lining, check_points): (&Lining, &[CheckPoint]),
    stamp: &Stamp,
) -> Vec<String> {
    let ink = Ink::new(ink::chords(picture));
    let mut labels = Labels::new(&ink, grid);
    for point in check_points {
        if let Some(out) = point.out {
            let near = Where::Near(point.at + out * 5.0);
            labels.write(picture, std::slice::from_ref(&point.name), 3.2, &near);
        }
    }
    for part in parts {
        points::name(picture, &mut labels, part, stamp.unit);
    }
    joints::name_lining(picture, &mut labels, grid, lining);
    for place in grid.sheets() {
        // found again after trimming
        let within = Where::Within(grid.rect(place).inflate(-14.0, -14.0));
        labels.try_write(picture, &[place.name()], 5.0, &within);
    }
    for part in parts {
        let lines = words::title(part, stamp);
        let mut chords = Vec::new();
        let segments = part.region.contours().flat_map(Contour::segments);
        segments.for_each(|segment| ink::add(segment, &mut chords));
        let upon = Where::Upon(part.region.bounds(), chords);
        if !labels.try_write(picture, &lines, 3.2, &upon) {
            labels.try_write(picture, std::slice::from_ref(&part.name), 3.2, &upon);
        }
    }
    labels.left_out
}
