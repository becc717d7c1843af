//! A part as it lies on the pattern: turned, shifted, perhaps mirrored.

use crate::design::part::Datum;
use crate::design::part::OpeningShape;
use crate::design::part::Part;
use crate::geometry::Motion;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::number;

/// The part after a motion that does not scale.
pub(super) fn moved(part: &Part, motion: &Motion) -> Part {
    let mut part = part.clone();
    part.region = motion.region(&part.region);
    for corner in &mut part.corners {
        corner.sharp = motion.point(corner.sharp);
        corner.worked = corner.worked.map(|segment| motion.segment(&segment));
    }
    for round in &mut part.rounds {
        round.centre = motion.point(round.centre);
        round.arc = round.arc.map(|arc| motion.arc(&arc));
    }
    for edge in &mut part.edges {
        move_all(&mut edge.sharp, motion);
        move_all(&mut edge.finished, motion);
    }
    for opening in &mut part.openings {
        opening.shape = shape(opening.shape, motion);
    }
    for scribe in &mut part.scribes {
        for path in &mut scribe.paths {
            *path = motion.path(path);
        }
    }
    for mark in &mut part.marks {
        mark.at = motion.point(mark.at);
    }
    part.datum = Datum {
        origin: motion.point(part.datum.origin),
        along: motion.vector(part.datum.along),
        across: motion.vector(part.datum.across),
        ..part.datum
    };
    part
}

fn move_all(segments: &mut [Segment], motion: &Motion) {
    for segment in segments {
        *segment = motion.segment(segment);
    }
}

fn shape(shape: OpeningShape, motion: &Motion) -> OpeningShape {
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
            angle: number::direction(motion.vector(number::unit(angle))),
        },
        OpeningShape::Outline => OpeningShape::Outline,
    }
}

/// Whether a direction is along x or y.
pub(super) fn is_upright(direction: Vec2) -> bool {
    let small = crate::geometry::tolerance::SAME_DIRECTION;
    direction.x.abs() <= small || direction.y.abs() <= small
}
