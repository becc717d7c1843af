//! Holes too near an edge.

use super::Finding;
use super::Grade;
use super::Limit;
use super::Rule;
use super::Subject;
use super::finding::Findings;
use crate::geometry::SourceId;
use crate::geometry::nearest::between_contours;
use crate::geometry::nearest::to_contour;

/// Distance from the middle of a bolt's hole to the edge, in diameters, that is the least in use: from
/// memory, so it only warns.
const LEAST_DIAMETERS: f64 = 1.5;
/// Holes larger than this are no bolt's, in millimetres: the clearance of the largest usual screw, M24.
const LARGEST_BOLT_HOLE: f64 = 30.0;

pub(super) fn check(subject: &Subject, found: &mut Findings) {
    for region in &subject.nested.regions {
        for hole in region.holes() {
            let source = hole
                .pieces()
                .first()
                .map_or(SourceId::UNTRACED, |p| p.source);
            if let Some(web) = &subject.limits.web {
                // far bounds rule most of them out
                let inside = region.bounds().inflate(-web.value, -web.value);
                let near =
                    !inside.contains_rect(hole.bounds()) || region.outer().pieces().len() > 4;
                let clearance = near.then(|| between_contours(hole, region.outer()).nearest);
                if let Some(strip) = clearance
                    && strip.distance < web.value
                    && strip.distance > 0.0
                {
                    let said = format!(
                        "only {} of material between an opening and the edge; {} is the least that \
                         stays sound",
                        subject.length(strip.distance),
                        subject.length(web.value)
                    );
                    found.push(
                        Finding::new(
                            Rule::NearEdge,
                            Grade::Notice,
                            source,
                            strip.on_first.midpoint(strip.on_second),
                        )
                        .measured(strip.distance)
                        .against(web)
                        .said(said, "move it inwards, or ask the shop"),
                    );
                    continue;
                }
            }
            let Some((centre, radius)) = hole.as_circle() else {
                continue;
            };
            let diameter = 2.0 * radius;
            if diameter > LARGEST_BOLT_HOLE {
                continue;
            }
            let edge = to_contour(centre, region.outer()).nearest;
            let least = LEAST_DIAMETERS * diameter;
            if edge.distance < least {
                let limit = Limit {
                    value: least,
                    basis: "1.5 diameters, from memory, not looked up".to_owned(),
                    decides: false,
                };
                let said = format!(
                    "the middle of a hole of {} is {} from the edge: should it carry a bolt, {} is \
                     the least",
                    subject.length(diameter),
                    subject.length(edge.distance),
                    subject.length(least)
                );
                found.push(
                    Finding::new(Rule::NearEdge, Grade::Notice, source, centre)
                        .measured(edge.distance)
                        .against(&limit)
                        .said(said, "move it inwards if it carries a load"),
                );
            }
        }
    }
}
