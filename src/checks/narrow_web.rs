//! Webs too narrow: between openings, and across the part.

use super::Finding;
use super::Grade;
use super::Rule;
use super::Subject;
use super::finding::Findings;
use super::small_opening::MOST_EDGES;
use crate::geometry::Contour;
use crate::geometry::Region;
use crate::geometry::bounds_tree::BoundsTree;
use crate::geometry::nearest::Clearance;
use crate::geometry::nearest::Nearest;
use crate::geometry::nearest::Web;
use crate::geometry::nearest::between_contours;
use crate::geometry::nearest::narrowest_web;

pub(super) fn check(subject: &Subject, found: &mut Findings) {
    let Some(limit) = &subject.limits.web else {
        return;
    };
    let mut tell = |contour: &Contour, web: &Nearest, what: &str| {
        let source = contour.pieces().first().map(|piece| piece.source);
        let said = format!(
            "{what} only {} of material; {} is the least that stays sound",
            subject.length(web.distance),
            subject.length(limit.value)
        );
        found.push(
            Finding::new(
                Rule::NarrowWeb,
                Grade::Notice,
                source.unwrap_or(crate::geometry::SourceId::UNTRACED),
                web.on_first.midpoint(web.on_second),
            )
            .measured(web.distance)
            .against(limit)
            .said(said, "move them apart, or ask the shop"),
        );
    };
    for region in &subject.nested.regions {
        for (one, other, web) in close_openings(region, limit.value) {
            let _ = other;
            tell(one, &web, "between two openings stays");
        }
        let edges: usize = region.contours().map(|c| c.pieces().len()).sum();
        if edges > MOST_EDGES {
            continue;
        }
        let alone = Region::new(region.outer().clone(), Vec::new());
        if let Web::At(web) = narrowest_web(&alone)
            && web.distance < limit.value
        {
            tell(region.outer(), &web, "the part has across it");
        }
    }
}

/// Openings nearer to each other than `limit`, each pair once.
fn close_openings(region: &Region, limit: f64) -> Vec<(&Contour, &Contour, Nearest)> {
    let holes = region.holes();
    let tree = BoundsTree::new(holes.iter().map(Contour::bounds));
    let mut found = Vec::new();
    for (index, hole) in holes.iter().enumerate() {
        for other in tree.near(hole.bounds(), limit) {
            if other <= index {
                continue;
            }
            let Some(second) = holes.get(other) else {
                continue;
            };
            let Clearance { nearest, .. } = between_contours(hole, second);
            if nearest.distance < limit && nearest.distance > 0.0 {
                found.push((hole, second, nearest));
            }
        }
    }
    found
}
