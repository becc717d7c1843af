//! The path beside the edges: the wanted shape grown by half the kerf and the allowance, certified, and
//! every edge found again beside it.

use super::error::ToolPathError;
use super::note::Note;
use super::setting::Setting;
use super::wanted::Wanted;
use super::waste;
use crate::design::part::Part;
use crate::geometry::Contour;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::bounds_tree::SegmentTree;
use crate::geometry::offset::Join;
use crate::geometry::offset::offset;
use crate::geometry::tolerance;
use crate::geometry::validate::Place;
use crate::geometry::validate::contour_contains;

/// The closed paths beside the edges, material on their left.
#[derive(Debug)]
pub(super) struct Compensated {
    pub(super) outside: Contour,
    /// One for each hole of the wanted region.
    pub(super) insides: Vec<Contour>,
    pub(super) notes: Vec<Note>,
}

pub(super) fn compensate(
    part: &Part,
    wanted: &Wanted,
    setting: &Setting,
) -> Result<Compensated, ToolPathError> {
    let reach = setting.reach();
    let grown = offset(&wanted.region, reach, Join::Round)?;
    let mut outside = None;
    let mut found: Vec<Vec<Contour>> = vec![Vec::new(); wanted.openings.len()];
    for region in &grown.regions {
        // growing keeps one piece in one piece
        outside.get_or_insert_with(|| region.outer().clone());
        for hole in region.holes() {
            match opening_around(wanted, hole) {
                Some(index) => found[index].push(hole.clone()),
                None => return Err(pocket(part, hole, reach)),
            }
        }
    }
    let mut insides = Vec::with_capacity(found.len());
    for (index, loops) in found.into_iter().enumerate() {
        let opening = part.openings.get(wanted.openings[index]);
        let name = || opening.map_or_else(String::new, |opening| opening.name.clone());
        let at = wanted.region.holes()[index].bounds().center();
        let kerf = 2.0 * reach;
        let pieces = loops.len();
        match (loops.into_iter().next(), pieces) {
            (Some(only), 1) => insides.push(only),
            (None, _) => {
                return Err(ToolPathError::OpeningTooNarrow {
                    opening: name(),
                    at,
                    kerf,
                });
            }
            _ => {
                return Err(ToolPathError::OpeningFallsApart {
                    opening: name(),
                    at,
                    kerf,
                    pieces,
                });
            }
        }
    }
    let Some(outside) = outside else {
        let at = wanted.region.bounds().center();
        return Err(not_reached("the outline".to_owned(), at, reach, reach));
    };
    let mut notes = Vec::new();
    check_reached(part, (wanted.region.outer(), &outside), reach, &mut notes)?;
    for (hole, path) in wanted.region.holes().iter().zip(&insides) {
        check_reached(part, (hole, path), reach, &mut notes)?;
    }
    Ok(Compensated {
        outside,
        insides,
        notes,
    })
}

/// The hole of the wanted region in which a path runs.
fn opening_around(wanted: &Wanted, path: &Contour) -> Option<usize> {
    let at = path.pieces().first()?.segment.start();
    wanted
        .region
        .holes()
        .iter()
        .position(|hole| hole.bounds().contains(at) && contour_contains(hole, at) != Place::Outside)
}

/// A hollow of the outline that growing closes at its mouth.
fn pocket(part: &Part, path: &Contour, reach: f64) -> ToolPathError {
    let piece = path.pieces().first();
    let at = piece.map_or(Point::ORIGIN, |piece| piece.segment.start());
    let feature = piece.and_then(|piece| part.origin(piece.source));
    let feature = feature.map_or("the outline", |origin| origin.feature.as_str());
    not_reached(
        format!("the hollow of the outline at {feature}"),
        at,
        reach,
        reach,
    )
}

const fn not_reached(feature: String, at: Point, reach: f64, left: f64) -> ToolPathError {
    ToolPathError::EdgeNotReached {
        feature,
        at,
        kerf: 2.0 * reach,
        left,
    }
}

/// Refuses a path that leaves an edge out; notes the inside corners that it rounds.
fn check_reached(
    part: &Part,
    (edges, path): (&Contour, &Contour),
    reach: f64,
    notes: &mut Vec<Note>,
) -> Result<(), ToolPathError> {
    let tree = SegmentTree::new(path.segments());
    let left_at = |at: Point| (waste::distance(&tree, at) - reach).max(0.0);
    let stands = |left: f64| left > tolerance::LEFT_STANDING;
    let mut missed = Vec::with_capacity(edges.pieces().len());
    for piece in edges.pieces() {
        let segment = &piece.segment;
        let places = [segment.start(), segment.point_at(0.5), segment.end()];
        let left = places.map(left_at);
        let whole = left.iter().all(|&left| stands(left));
        let most = left.iter().copied().fold(0.0, f64::max);
        if whole && most > reach {
            let origin = part.origin(piece.source);
            let feature = origin.map_or("an edge", |origin| origin.feature.as_str());
            return Err(not_reached(feature.to_owned(), places[1], reach, most));
        }
        missed.push((whole, left));
    }
    for (index, piece) in edges.pieces().iter().enumerate() {
        let (whole, [_, middle, end]) = missed[index];
        let (next_whole, _) = missed[(index + 1) % missed.len()];
        if whole {
            notes.push(corner(
                part,
                piece,
                piece.segment.point_at(0.5),
                reach,
                middle,
            ));
        } else if !next_whole && stands(end) {
            notes.push(corner(part, piece, piece.segment.end(), reach, end));
        }
    }
    Ok(())
}

fn corner(part: &Part, piece: &Piece, at: Point, radius: f64, left: f64) -> Note {
    let origin = part.origin(piece.source);
    Note::CornerLeft {
        feature: origin.map_or_else(String::new, |origin| origin.feature.clone()),
        at,
        radius,
        left,
    }
}
