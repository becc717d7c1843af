//! The fronts of two lines at an inside corner, trimmed to their crossing.
//!
//! Beyond the crossing each of the two runs on within the distance of the other's piece: the end of
//! it is as far from the corner as the distance, the crossing as far from a point of that piece, and
//! the distance from a line is convex along another. So what is trimmed off is covered by that piece
//! over its whole length, which is what is proven of every edge that is left out; here it is so by
//! construction.

use std::ops::Range;

use crate::geometry::Point;
use crate::geometry::Vec2;
use crate::geometry::tolerance;

use super::curve::Shape;
use super::source::CornerKind;
use super::source::Source;

/// What is trimmed off at a corner.
#[derive(Clone, Copy, Debug)]
pub(super) struct Trim {
    /// Where the two fronts cross.
    pub(super) at: Point,
    /// How much of each is cut off, in millimetres.
    off: f64,
}

/// What is trimmed off at the end of each piece of a contour.
pub(super) fn trims(
    source: &Source,
    contour: Range<usize>,
    reach: f64,
    trims: &mut Vec<Option<Trim>>,
) {
    let first = contour.start;
    trims.clear();
    trims.extend(contour.map(|index| trim(source, index, reach)));
    let off = |trim: Option<Trim>| trim.map_or(0.0, |trim| trim.off);
    // a piece from which both ends would take more than there is keeps both; which ones do is decided
    // before any of them is
    let spare: Vec<bool> = (0..trims.len())
        .map(|place| {
            let before = trims[(place + trims.len() - 1) % trims.len()];
            let together = off(before) + off(trims[place]);
            match source.curves[first + place].shape {
                Shape::Line { length, .. } => length - together > tolerance::OFFSET_SHORTEST,
                Shape::Arc(_) => false,
            }
        })
        .collect();
    for place in 0..trims.len() {
        if !spare[place] || !spare[(place + 1) % spare.len()] {
            trims[place] = None;
        }
    }
}

/// What can be trimmed off at the end of one piece, if nothing else is trimmed off it.
fn trim(source: &Source, index: usize, reach: f64) -> Option<Trim> {
    let link = &source.links[index];
    let (one, two) = (&source.curves[index], &source.curves[link.next as usize]);
    let (Shape::Line { direction: u, .. }, Shape::Line { direction: v, .. }) =
        (one.shape, two.shape)
    else {
        return None;
    };
    let (sine, cosine) = (u.cross(v), u.dot(v));
    // the middle of what is cut off is covered by half of this
    let depth = reach * (1.0 - cosine);
    let plain = sine < 0.0 && 1.0 + cosine > 1e-3 && depth > PLAIN;
    if !plain || link.corner_kind == CornerKind::Tip {
        return None;
    }
    let off = reach * -sine / (1.0 + cosine);
    let outwards = Vec2::new(u.y + v.y, -u.x - v.x);
    Some(Trim {
        at: one.end + outwards * (reach / (1.0 + cosine)),
        off,
    })
}

/// How deep the end of a front must lie within the distance to be cut off without further proof, in
/// millimetres: far above rounding.
const PLAIN: f64 = 10.0 * tolerance::OFFSET_TOUCH;
