//! Inside corners tighter than the cutter.

use super::Finding;
use super::Grade;
use super::Rule;
use super::Subject;
use super::finding::Findings;
use super::sharp_corner;
use crate::geometry::Segment;

pub(super) fn check(subject: &Subject, found: &mut Findings) {
    let Some(limit) = &subject.limits.inside_radius else {
        return;
    };
    if limit.value <= 0.0 {
        return;
    }
    for region in &subject.nested.regions {
        for contour in region.contours() {
            // a hole is judged by its size
            if contour.as_circle().is_some() {
                continue;
            }
            for piece in contour.pieces() {
                let Segment::Arc(arc) = &piece.segment else {
                    continue;
                };
                // material on the left: an arc that turns right is hollow
                if arc.sweep() < 0.0 && arc.radius() < limit.value {
                    let said = format!(
                        "an inside corner of radius {} is tighter than {}",
                        subject.length(arc.radius()),
                        subject.length(limit.value)
                    );
                    found.push(
                        Finding::new(
                            Rule::InsideCorner,
                            Grade::Notice,
                            piece.source,
                            arc.point_at(0.5),
                        )
                        .measured(arc.radius())
                        .against(limit)
                        .said(
                            said,
                            "make the radius larger, or leave the corner to the file",
                        ),
                    );
                }
            }
            for corner in sharp_corner::of(contour) {
                let said = format!(
                    "a sharp inside corner: the cut leaves a radius of {} there",
                    subject.length(limit.value)
                );
                found.push(
                    Finding::new(Rule::InsideCorner, Grade::Notice, corner.source, corner.at)
                        .measured(0.0)
                        .against(limit)
                        .said(said, "round it, relieve it, or leave it to the file"),
                );
            }
        }
    }
}
