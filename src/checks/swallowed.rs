//! Openings that the width of the cut swallows: nothing of them can be cut on the right side of the line.

use super::Finding;
use super::Grade;
use super::Rule;
use super::Subject;
use super::finding::Findings;
use super::small_opening;
use crate::geometry::Contour;
use crate::geometry::Region;
use crate::geometry::offset::Join;
use crate::geometry::offset::offset;

pub(super) fn check(subject: &Subject, found: &mut Findings) {
    let Some(kerf) = &subject.limits.kerf else {
        return;
    };
    for hole in subject.nested.regions.iter().flat_map(Region::holes) {
        // the size alone rules most openings out
        let Some((width, _)) = small_opening::narrowest(hole, kerf.value) else {
            continue;
        };
        let pieces_left = path_inside(hole, kerf.value / 2.0);
        let said = match pieces_left {
            Some(0) => format!(
                "an opening {} wide vanishes in a cut {} wide",
                subject.length(width.distance),
                subject.length(kerf.value)
            ),
            _ => format!(
                "an opening narrows to {}: a cut {} wide does not get through there",
                subject.length(width.distance),
                subject.length(kerf.value)
            ),
        };
        let at = width.on_first.midpoint(width.on_second);
        let source = hole.pieces().first().map(|piece| piece.source);
        found.push(
            Finding::new(
                Rule::Swallowed,
                Grade::Notice,
                source.unwrap_or(crate::geometry::SourceId::UNTRACED),
                at,
            )
            .measured(width.distance)
            .against(kerf)
            .said(said, "make it wider than the cut, or drill it"),
        );
    }
}

/// How many paths run inside the opening at half the width of the cut; `None` where that cannot be told.
fn path_inside(hole: &Contour, half: f64) -> Option<usize> {
    let void = Region::new(hole.clone(), Vec::new());
    let shrunk = offset(&void, -half, Join::Round).ok()?;
    Some(shrunk.regions.len())
}
