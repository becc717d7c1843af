//! Paper whose length follows the part: a roll, and one page for a plot shop.

use super::error::PatternError;
use super::frame::Frame;
use super::ink;
use super::options::PatternOptions;
use super::options::Turning;
use super::placing;
use super::placing::Laid;
use super::placing::Layout;
use crate::geometry::Line;
use crate::geometry::Motion;
use crate::geometry::Point;
use crate::geometry::Rect;
use crate::geometry::Vec2;
use crate::geometry::number;

/// The largest side of a page in millimetres (200 inches: PDF Reference, 5th ed., appendix C).
const LARGEST: f64 = 5080.0;

/// Room about the part on paper of its own length, in millimetres.
const ROOM: f64 = 12.0;

/// Width of the words beside the part on one page, and the least height they need.
const WORDS: (f64, f64) = (130.0, 300.0);

/// The least length of a piece of a roll: the first page needs it.
const SHORTEST_PIECE: f64 = 297.0;

/// The parts along a roll, turned for the fewest strips and then the least paper.
pub(super) fn on_roll(
    (parts, centres): (&[Vec<Line>], &[Vec<Point>]),
    width: f64,
    options: &PatternOptions,
) -> Result<(Laid, Frame), PatternError> {
    let mut turns = vec![0.0];
    if options.turning != Turning::AsDrawn {
        turns.push(number::QUARTER_TURN);
    }
    let mut best: Option<(usize, f64, Laid, Frame)> = None;
    for turn in turns {
        let first = Motion::turn(turn);
        let turned: Vec<Vec<Line>> = parts.iter().map(|part| ink::moved(part, &first)).collect();
        let turned_centres: Vec<Vec<Point>> = centres
            .iter()
            .map(|part| part.iter().map(|&centre| first.point(centre)).collect())
            .collect();
        let inner = width - 2.0 * options.margin - options.overlap;
        let motions = placing::stacked(&turned, 0.0, inner);
        let height = bounds(&turned, &motions).height() + 2.0 * ROOM;
        let length = height + options.overlap + 2.0 * options.margin + width * 0.03;
        let page = (width, length.clamp(SHORTEST_PIECE, LARGEST).ceil());
        let frame = Frame::new(page, options)?;
        let mut laid = placing::lay(&Layout {
            parts: &turned,
            off_joints: &turned_centres,
            frames: &[frame],
            turning: Turning::AsDrawn,
        })?;
        for motion in &mut laid.motions {
            *motion = first.then(motion);
        }
        let paper = page.1 * ink::column_f64(laid.sheets);
        let better = best
            .as_ref()
            .is_none_or(|(sheets, other, ..)| (laid.sheets, paper) < (*sheets, *other));
        if better {
            best = Some((laid.sheets, paper, laid, frame));
        }
    }
    best.map(|(_, _, laid, frame)| (laid, frame))
        .ok_or(PatternError::NoPart)
}

/// All parts on one page, words beside them.
pub(super) fn on_one_page(
    parts: &[Vec<Line>],
    options: &PatternOptions,
) -> Result<(Laid, Frame), PatternError> {
    let motions = if parts.len() == 1 {
        vec![Motion::IDENTITY]
    } else {
        placing::stacked(parts, 0.0, 2000.0)
    };
    let bounds = bounds(parts, &motions);
    let around = options.overlap + 2.0 * options.margin;
    // a little more where a printer's error is undone
    let cell = (
        (bounds.width() * 1.035 + 2.0 * ROOM).ceil().max(120.0),
        (bounds.height() * 1.035 + 2.0 * ROOM).ceil().max(WORDS.1),
    );
    let page = (cell.0 + around + WORDS.0, cell.1 + around);
    if page.0 > LARGEST || page.1 > LARGEST {
        return Err(PatternError::PageTooLarge {
            width: page.0,
            height: page.1,
            largest: LARGEST,
        });
    }
    let mut frame = Frame::new(page, options)?;
    frame.cell.x1 -= WORDS.0;
    let middle = bounds.center();
    let anchor = middle - Vec2::new(frame.cell.width(), frame.cell.height()) / 2.0;
    let laid = Laid {
        motions,
        frame: 0,
        anchor,
        sheets: 1,
        as_drawn: 1,
    };
    Ok((laid, frame))
}

/// Where the words stand on one page, from its middle.
pub(super) fn words_area(frame: &Frame) -> Rect {
    let area = frame.printable;
    Rect::new(area.x1 - WORDS.0 + 8.0, area.y0, area.x1, area.y1)
}

fn bounds(parts: &[Vec<Line>], motions: &[Motion]) -> Rect {
    parts
        .iter()
        .zip(motions)
        .filter_map(|(part, motion)| ink::bounds(&ink::moved(part, motion)))
        .reduce(|a, b| a.union(b))
        .unwrap_or(Rect::from_points(Point::ORIGIN, Point::ORIGIN))
}
