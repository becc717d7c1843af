//! Webs too narrow: between openings, and across the part.

use std::collections::BTreeMap;

use super::Finding;
use super::Grade;
use super::Rule;
use super::Subject;
use super::finding::Findings;
use crate::geometry::Contour;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::SourceId;
use crate::geometry::bounds_tree::SegmentTree;
use crate::geometry::nearest;
use crate::geometry::nearest::Nearest;
use crate::geometry::nearest::narrowest_web_below;

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
                source.unwrap_or(SourceId::UNTRACED),
                web.on_first.midpoint(web.on_second),
            )
            .measured(web.distance)
            .against(limit)
            .said(said, "move them apart, or ask the shop"),
        );
    };
    let mut finished = true;
    for region in &subject.nested.regions {
        for (one, web) in close_openings(region, limit.value) {
            tell(one, &web, "between two openings stays");
        }
        let alone = Region::new(region.outer().clone(), Vec::new());
        let below = narrowest_web_below(&alone, limit.value);
        if let Some(web) = below.web {
            tell(region.outer(), &web, "the part has across it");
        }
        finished &= below.finished;
    }
    if !finished {
        found.push(not_all(Rule::NarrowWeb));
    }
}

/// The notice that not every edge of a very fine drawing was held against every other.
pub(super) fn not_all(rule: Rule) -> Finding {
    let mut finding = Finding::new(rule, Grade::Notice, SourceId::UNTRACED, Point::ORIGIN).said(
        "so many short edges lie near each other that not all widths were looked at".to_owned(),
        "mend the drawing with --mend, and inspect what that writes",
    );
    finding.at = None;
    finding
}

/// Openings nearer to each other than `limit`, each pair once, the first with the place.
fn close_openings(region: &Region, limit: f64) -> Vec<(&Contour, Nearest)> {
    let holes = region.holes();
    let owners: Vec<usize> = holes
        .iter()
        .enumerate()
        .flat_map(|(index, hole)| std::iter::repeat_n(index, hole.pieces().len()))
        .collect();
    let tree = SegmentTree::new(holes.iter().flat_map(Contour::segments));
    let mut nearest: BTreeMap<(usize, usize), Nearest> = BTreeMap::new();
    for (index, hole) in holes.iter().enumerate() {
        for segment in hole.segments() {
            for near in tree.near(segment.bounds(), limit) {
                let (Some(&owner), Some(other)) = (owners.get(near), tree.segment(near)) else {
                    continue;
                };
                if owner <= index {
                    continue;
                }
                let found = nearest::between(segment, other);
                let known = nearest.get(&(index, owner)).map_or(limit, |n| n.distance);
                if found.distance < known {
                    nearest.insert((index, owner), found);
                }
            }
        }
    }
    nearest
        .into_iter()
        .filter(|(_, nearest)| nearest.distance > 0.0)
        .filter_map(|((index, _), nearest)| Some((holes.get(index)?, nearest)))
        .collect()
}
