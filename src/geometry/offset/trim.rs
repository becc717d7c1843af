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

/// How much is trimmed off either front at the end of each piece of a contour, in millimetres; 0 where
/// nothing is.
pub(super) fn trims(source: &Source, contour: Range<usize>, reach: f64, trims: &mut Vec<f64>) {
    trims.clear();
    trims.extend(contour.clone().map(|index| trim(source, index, reach)));
    // a piece from which both ends would take more than there is keeps both; which ones do is decided
    // before any of them is
    let mut before = trims.last().copied().unwrap_or(0.0);
    let spare: Vec<bool> = contour
        .zip(trims.iter())
        .map(|(index, &after)| {
            let together = std::mem::replace(&mut before, after) + after;
            match source.curves[index].shape() {
                Shape::Line { length, .. } => length - together > tolerance::OFFSET_SHORTEST,
                Shape::Arc(_) => false,
            }
        })
        .collect();
    let following = spare.iter().cycle().skip(1);
    for ((trim, own), next) in trims.iter_mut().zip(&spare).zip(following) {
        if !own || !next {
            *trim = 0.0;
        }
    }
}

/// The directions of the two lines that meet at the end of a piece.
fn directions(source: &Source, index: usize) -> Option<(Vec2, Vec2)> {
    let next = source.links[index].next as usize;
    let [one, two] = [index, next].map(|piece| source.curves[piece].shape());
    let (Shape::Line { direction: u, .. }, Shape::Line { direction: v, .. }) = (one, two) else {
        return None;
    };
    Some((u, v))
}

/// What can be trimmed off at the end of one piece, if nothing else is trimmed off it.
fn trim(source: &Source, index: usize, reach: f64) -> f64 {
    let Some((u, v)) = directions(source, index) else {
        return 0.0;
    };
    let (sine, cosine) = (u.cross(v), u.dot(v));
    // the middle of what is cut off is covered by half of this
    let depth = reach * (1.0 - cosine);
    let plain = sine < 0.0 && 1.0 + cosine > 1e-3 && depth > PLAIN;
    if !plain || source.links[index].corner_kind == CornerKind::Tip {
        return 0.0;
    }
    reach * -sine / (1.0 + cosine)
}

/// Where the fronts of the two lines cross that meet at the end of a piece.
pub(super) fn crossing(source: &Source, index: usize, reach: f64) -> Option<Point> {
    let (u, v) = directions(source, index)?;
    let outwards = Vec2::new(u.y + v.y, -u.x - v.x);
    Some(source.curves[index].end + outwards * (reach / (1.0 + u.dot(v))))
}

/// How deep the end of a front must lie within the distance to be cut off without further proof, in
/// millimetres: far above rounding.
const PLAIN: f64 = 10.0 * tolerance::OFFSET_TOUCH;
