//! Holes too near an edge.

use super::Finding;
use super::Grade;
use super::Limit;
use super::Rule;
use super::Subject;
use super::finding::Findings;
use crate::geometry::Contour;
use crate::geometry::Rect;
use crate::geometry::SourceId;
use crate::geometry::bounds_tree::SegmentTree;
use crate::geometry::nearest::Nearest;
use crate::geometry::nearest::walk_below;
use crate::geometry::number;

/// Distance from the middle of a bolt's hole to the edge, in diameters, that is the least in use: from
/// memory, so it only warns.
const LEAST_DIAMETERS: f64 = 1.5;
/// Holes larger than this are no bolt's, in millimetres: the clearance of the largest usual screw, M24.
const LARGEST_BOLT_HOLE: f64 = 30.0;

pub(super) fn check(subject: &Subject, found: &mut Findings) {
    for region in &subject.nested.regions {
        let edge = SegmentTree::new(region.outer().segments());
        for hole in region.holes() {
            let strip = subject.limits.web.as_ref().and_then(|web| {
                let strip = walk_below(hole.segments(), &edge, web.value)?;
                (strip.distance > 0.0).then_some((strip, web))
            });
            if let Some((strip, web)) = strip {
                found.push(narrow(subject, hole, &strip, web));
            } else {
                found.extend(of_bolt(subject, hole, &edge));
            }
        }
    }
}

fn source(hole: &Contour) -> SourceId {
    let first = hole.pieces().first();
    first.map_or(SourceId::UNTRACED, |piece| piece.source)
}

/// An opening with a strip beside it narrower than the process leaves.
fn narrow(subject: &Subject, hole: &Contour, strip: &Nearest, web: &Limit) -> Finding {
    let said = format!(
        "only {} of material between an opening and the edge; {} is the least that stays sound",
        subject.length(strip.distance),
        subject.length(web.value)
    );
    Finding::new(
        Rule::NearEdge,
        Grade::Notice,
        source(hole),
        strip.on_first.midpoint(strip.on_second),
    )
    .measured(strip.distance)
    .against(web)
    .said(said, "move it inwards, or ask the shop")
}

/// A hole that is too near to the edge, should it carry a bolt.
fn of_bolt(subject: &Subject, hole: &Contour, edge: &SegmentTree<'_>) -> Option<Finding> {
    let (centre, radius) = hole.as_circle()?;
    let diameter = 2.0 * radius;
    if diameter > LARGEST_BOLT_HOLE {
        return None;
    }
    let least = LEAST_DIAMETERS * diameter;
    let near = edge.near(Rect::from_points(centre, centre), least);
    let distance = near
        .into_iter()
        .filter_map(|index| edge.segment(index))
        .map(|segment| number::length(segment.nearest_point(centre) - centre))
        .fold(f64::INFINITY, f64::min);
    if distance >= least {
        return None;
    }
    let limit = Limit {
        value: least,
        basis: "1.5 diameters, from memory, not looked up".to_owned(),
        decides: false,
    };
    let said = format!(
        "the middle of a hole of {} is {} from the edge: should it carry a bolt, {} is the least",
        subject.length(diameter),
        subject.length(distance),
        subject.length(least)
    );
    Some(
        Finding::new(Rule::NearEdge, Grade::Notice, source(hole), centre)
            .measured(distance)
            .against(&limit)
            .said(said, "move it inwards if it carries a load"),
    )
}
