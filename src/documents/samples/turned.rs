//! Parts turned.

use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::geometry::Motion;
use crate::geometry::Segment;
use crate::geometry::Vec2;

/// The part turned about the origin by an angle in radians, and shifted.
pub(crate) fn turned(part: &Part, angle: f64) -> Part {
    let motion = Motion::turn(angle).then(&Motion::shift(Vec2::new(-321.0, 57.0)));
    let segments = |list: &[Segment]| list.iter().map(|one| motion.segment(one)).collect();
    let mut moved = part.clone();
    moved.region = motion.region(&part.region);
    for corner in &mut moved.corners {
        corner.sharp = motion.point(corner.sharp);
        corner.worked = corner.worked.map(|worked| motion.segment(&worked));
    }
    for round in &mut moved.rounds {
        round.centre = motion.point(round.centre);
        round.arc = round.arc.map(|arc| motion.arc(&arc));
    }
    for edge in &mut moved.edges {
        edge.sharp = segments(&edge.sharp);
        edge.finished = segments(&edge.finished);
    }
    for opening in &mut moved.openings {
        opening.shape = turned_opening(opening.shape, &motion, angle);
    }
    for scribe in &mut moved.scribes {
        scribe.paths = scribe.paths.iter().map(|path| motion.path(path)).collect();
    }
    for mark in &mut moved.marks {
        mark.at = motion.point(mark.at);
    }
    moved.datum.origin = motion.point(part.datum.origin);
    moved.datum.along = motion.vector(part.datum.along);
    moved.datum.across = motion.vector(part.datum.across);
    moved
}

fn turned_opening(shape: OpeningShape, motion: &Motion, by: f64) -> OpeningShape {
    match shape {
        OpeningShape::Circle { centre, diameter } => OpeningShape::Circle {
            centre: motion.point(centre),
            diameter,
        },
        OpeningShape::Slot { from, to, width } => OpeningShape::Slot {
            from: motion.point(from),
            to: motion.point(to),
            width,
        },
        OpeningShape::Rectangle {
            centre,
            width,
            height,
            corner_radius,
            relief,
            angle,
        } => OpeningShape::Rectangle {
            centre: motion.point(centre),
            width,
            height,
            corner_radius,
            relief,
            angle: angle + by,
        },
        OpeningShape::Outline => shape,
    }
}
