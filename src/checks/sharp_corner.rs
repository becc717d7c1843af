//! Sharp inside corners, at which a loaded part tears.

use super::Finding;
use super::Grade;
use super::Rule;
use super::Subject;
use super::finding::Findings;
use crate::geometry::Contour;
use crate::geometry::Point;
use crate::geometry::SourceId;
use crate::geometry::number;
use crate::geometry::tolerance;

/// Chords of a flattened curve turn by less than this, in radians: 20°, common practice. They are told
/// as such.
const CHORDS: f64 = 0.35;

/// A sharp inside corner.
pub(super) struct Corner {
    pub(super) at: Point,
    pub(super) turn: f64,
    pub(super) source: SourceId,
}

/// The sharp inside corners of a contour with the material on its left.
pub(super) fn of(contour: &Contour) -> Vec<Corner> {
    let after = contour.pieces().iter().cycle().skip(1);
    let mut found = Vec::new();
    for (here, next) in contour.pieces().iter().zip(after) {
        let turn = number::turn(
            here.segment.direction_at(1.0),
            next.segment.direction_at(0.0),
        );
        if turn < -tolerance::SMOOTH_JOINT.max(CHORDS) {
            found.push(Corner {
                at: here.segment.end(),
                turn: -turn,
                source: here.source,
            });
        }
    }
    found
}

pub(super) fn check(subject: &Subject, found: &mut Findings) {
    for region in &subject.nested.regions {
        for corner in region.contours().flat_map(of) {
            let degrees = corner.turn.to_degrees();
            found.push(
                Finding::new(Rule::SharpCorner, Grade::Notice, corner.source, corner.at).said(
                    format!(
                        "a sharp inside corner that turns by {degrees:.0}°: a loaded part tears \
                             from there"
                    ),
                    "round it by the thickness of the plate or more, if it carries a load \
                         (common practice)",
                ),
            );
        }
    }
}
