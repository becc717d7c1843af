//! What the labels of a drawing say, and what they point at.

use super::labels::Label;
use super::view::View;
use crate::documents::features;
use crate::geometry::LengthUnit;
use crate::geometry::Segment;

/// A label for every corner, round, edge, group of openings, scribe line and mark.
pub(super) fn labels(view: &View<'_>, unit: LengthUnit) -> Vec<Label> {
    let part = view.part;
    let mut labels = Vec::new();
    let mut add = |words: String, reach: Vec<Segment>| {
        let reach = reach.iter().map(|segment| view.segment(segment)).collect();
        labels.push(Label { words, reach });
    };
    for corner in &part.corners {
        let reach = corner.worked.map_or_else(
            || Segment::line(corner.sharp, corner.sharp),
            |worked| worked.part(0.25, 0.75),
        );
        add(features::corner(corner, unit), vec![reach]);
    }
    for round in &part.rounds {
        let reach = round.arc.map_or_else(
            || Segment::line(round.centre, round.centre),
            |arc| Segment::Arc(arc).part(0.2, 0.8),
        );
        let size = features::length(round.radius, unit);
        add(format!("{} R {size}", round.name), vec![reach]);
    }
    for edge in &part.edges {
        let longest = edge
            .finished
            .iter()
            .max_by(|a, b| a.length().total_cmp(&b.length()));
        // an edge that its neighbours' roundings have used up cannot be pointed at
        if let Some(longest) = longest {
            add(
                features::edge(part, edge, unit),
                vec![longest.part(0.35, 0.65)],
            );
        }
    }
    for group in features::groups(part) {
        let holes = group
            .members
            .iter()
            .filter_map(|&member| part.openings.get(member))
            .filter_map(|opening| part.region.holes().get(opening.hole));
        let reach = holes.flat_map(|hole| hole.segments().copied()).collect();
        add(features::group(part, &group, unit), reach);
    }
    for scribe in &part.scribes {
        let words = match &scribe.along {
            Some((edge, inset)) => format!(
                "{}: scribe {} in from {edge}",
                scribe.name,
                features::length(*inset, unit)
            ),
            None => format!("{}: scribe", scribe.name),
        };
        let pieces = scribe.paths.iter().flat_map(|path| path.segments());
        let longest = pieces.max_by(|a, b| a.length().total_cmp(&b.length()));
        add(
            words,
            longest.map(|one| one.part(0.3, 0.7)).into_iter().collect(),
        );
    }
    for mark in &part.marks {
        add(mark.name.clone(), vec![Segment::line(mark.at, mark.at)]);
    }
    labels
}
