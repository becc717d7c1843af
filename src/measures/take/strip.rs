//! Strips of metal between features, and from openings to the edge.

use crate::design::DesignError;
use crate::design::Place;
use crate::design::Word;
use crate::design::error::MeasureFault;
use crate::design::file::measure::Between;
use crate::design::file::measure::EdgeDistance;
use crate::geometry::Contour;
use crate::geometry::Segment;
use crate::geometry::nearest;
use crate::geometry::nearest::Nearest;
use crate::geometry::tolerance;
use crate::geometry::validate;
use crate::measures::feature::Feature;
use crate::measures::find;
use crate::measures::shape::Shape;
use crate::measures::taken::How;
use crate::measures::taken::Taken;

/// The least width of metal between two features.
pub(super) fn strip(
    shape: &Shape<'_>,
    between: &Between,
    place: Place,
) -> Result<Taken, DesignError> {
    let [first, second] = &between.between;
    let (one, other) = (rims(shape, first)?, rims(shape, second)?);
    let mut best: Option<Nearest> = None;
    for (a, b) in one.iter().flat_map(|a| other.iter().map(move |b| (a, b))) {
        keep_nearest(&mut best, a, b);
    }
    // the way across may run along an edge: over the end of a bar
    let metal = best.filter(|nearest| {
        let middle = nearest.on_first.midpoint(nearest.on_second);
        let on_metal =
            |region| validate::region_contains(region, middle) != validate::Place::Outside;
        nearest.distance > tolerance::SAME_POINT && shape.regions().iter().any(on_metal)
    });
    let Some(nearest) = metal else {
        let fault = MeasureFault::NoMetalBetween {
            first: first.value.clone(),
            second: second.value.clone(),
        };
        return Err(DesignError::new(fault, place)
            .with_help("name two features that face each other across the material"));
    };
    Ok(taken(&nearest))
}

/// From the rim of an opening to an edge, or to the nearest place of the outline.
pub(super) fn edge_distance(shape: &Shape<'_>, of: &EdgeDistance) -> Result<Taken, DesignError> {
    let mut contours: Vec<Contour> = Vec::new();
    for found in find::all(shape, &of.of)? {
        let Feature::Opening(opening) = found else {
            return Err(find::wrong(&of.of, found.what(), "an opening"));
        };
        contours.push(opening.contour);
    }
    let to: Vec<Segment> = match &of.to {
        Some(to) => match find::one(shape, to)? {
            Feature::Edge(edge) => edge.finished,
            other => return Err(find::wrong(to, other.what(), "an edge")),
        },
        None => shape
            .regions()
            .iter()
            .flat_map(|region| region.outer().segments().copied())
            .collect(),
    };
    let mut best: Option<Nearest> = None;
    for contour in &contours {
        let rim: Vec<Segment> = contour.segments().copied().collect();
        keep_nearest(&mut best, &rim, &to);
    }
    best.map(|nearest| taken(&nearest)).ok_or_else(|| {
        let word = of.to.as_ref().unwrap_or(&of.of);
        find::wrong(word, "rounded away", "an edge that is there")
    })
}

fn taken(nearest: &Nearest) -> Taken {
    let between = [nearest.on_first, nearest.on_second];
    Taken::length(nearest.distance, between, How::Straight)
}

fn keep_nearest(best: &mut Option<Nearest>, first: &[Segment], second: &[Segment]) {
    for (a, b) in first
        .iter()
        .flat_map(|a| second.iter().map(move |b| (a, b)))
    {
        let nearest = nearest::between(a, b);
        if best.is_none_or(|best| nearest.distance < best.distance) {
            *best = Some(nearest);
        }
    }
}

/// The lines that bound features of this name.
fn rims(shape: &Shape<'_>, word: &Word) -> Result<Vec<Vec<Segment>>, DesignError> {
    let rim = |feature: Feature| -> Result<Vec<Segment>, DesignError> {
        let rim: Vec<Segment> = match &feature {
            Feature::Corner(corner) => corner.worked.clone(),
            Feature::Round(round) => round.arcs.iter().copied().map(Segment::Arc).collect(),
            Feature::Edge(edge) => edge.finished.clone(),
            Feature::Opening(opening) => opening.contour.segments().copied().collect(),
        };
        if rim.is_empty() {
            let wanted = "an edge, a round, a worked corner or an opening";
            return Err(find::wrong(word, feature.what(), wanted));
        }
        Ok(rim)
    };
    find::all(shape, word)?.into_iter().map(rim).collect()
}
