//! Holes and slots below what the process can cut.

use super::Finding;
use super::Grade;
use super::Rule;
use super::Subject;
use super::finding::Findings;
use crate::geometry::Contour;
use crate::geometry::Region;
use crate::geometry::nearest::Nearest;
use crate::geometry::nearest::narrowest_web_below;

pub(super) fn check(subject: &Subject, found: &mut Findings) {
    let Some(limit) = &subject.limits.smallest_opening else {
        return;
    };
    for hole in subject.nested.regions.iter().flat_map(Region::holes) {
        let Some((width, what)) = narrowest(hole, limit.value) else {
            continue;
        };
        let at = width.on_first.midpoint(width.on_second);
        let said = format!(
            "{what} of {} is below the {} that comes out well",
            subject.length(width.distance),
            subject.length(limit.value)
        );
        let source = hole.pieces().first().map(|piece| piece.source);
        found.push(
            Finding::new(
                Rule::SmallOpening,
                Grade::Notice,
                source.unwrap_or(crate::geometry::SourceId::UNTRACED),
                at,
            )
            .measured(width.distance)
            .against(limit)
            .said(said, "mark it and drill it, or make it larger"),
        );
    }
}

/// The narrowest way across an opening, if it is below a limit, and what it is.
pub(super) fn narrowest(hole: &Contour, limit: f64) -> Option<(Nearest, &'static str)> {
    if let Some((centre, radius)) = hole.as_circle() {
        let across = crate::geometry::Vec2::new(radius, 0.0);
        let width = Nearest {
            distance: 2.0 * radius,
            on_first: centre - across,
            on_second: centre + across,
        };
        return (width.distance < limit).then_some((width, "a hole"));
    }
    // the void as if it were material
    let void = Region::new(hole.clone(), Vec::new());
    let web = narrowest_web_below(&void, limit).web?;
    Some((web, "an opening with a width"))
}
