//! Features found by their names.

use super::feature::CornerHere;
use super::feature::EdgeHere;
use super::feature::Feature;
use super::feature::OpeningHere;
use super::shape::Shape;
use super::shape::Trip;
use crate::design::DesignError;
use crate::design::Word;
use crate::design::error::MeasureFault;
use crate::design::part::Opening;
use crate::design::part::Part;
use crate::design::suggestion;
use crate::geometry::Contour;
use crate::geometry::Segment;

/// Every feature of a name: one, or the openings of a pattern.
///
/// # Errors
/// [`MeasureFault::UnknownFeature`], [`MeasureFault::NotOnShape`].
pub(super) fn all(shape: &Shape<'_>, word: &Word) -> Result<Vec<Feature>, DesignError> {
    let part = shape.part();
    let name = word.as_str();
    let gone = |name: &str| {
        let fault = MeasureFault::NotOnShape {
            name: name.to_owned(),
            part: part.name.clone(),
        };
        DesignError::new(fault, word.place).with_help("take the measure on the part as drawn")
    };
    let one = |feature: Result<Feature, Gone>| match feature {
        Ok(feature) => Ok(vec![feature]),
        Err(Gone) => Err(gone(name)),
    };
    if let Some(found) = in_trip(shape, shape.trip(), name) {
        return one(found);
    }
    let members: Vec<&Opening> = part.openings.iter().filter(|o| bears(o, name)).collect();
    if !members.is_empty() {
        let here = |opening: &Opening| {
            let here = shape.opening(opening).map(Feature::Opening);
            here.ok_or_else(|| gone(&opening.name))
        };
        return members.into_iter().map(here).collect();
    }
    let within: Vec<_> = part
        .openings
        .iter()
        .filter_map(|opening| {
            let name = name
                .strip_prefix(opening.name.as_str())
                .and_then(|rest| rest.strip_prefix('/'))
                .unwrap_or(name);
            in_trip(shape, Trip::of(&opening.features), name)
        })
        .collect();
    let count = within.len();
    match within.into_iter().next() {
        Some(only) if count == 1 => one(only),
        Some(_) => Err(several(part, word, count)),
        None => Err(unknown(part, word)),
    }
}

/// The one feature of a name.
///
/// # Errors
/// As [`all`], and [`MeasureFault::SeveralFeatures`] for a pattern of several openings.
pub(super) fn one(shape: &Shape<'_>, word: &Word) -> Result<Feature, DesignError> {
    let mut found = all(shape, word)?;
    match (found.pop(), found.len()) {
        (Some(only), 0) => Ok(only),
        (_, others) => Err(several(shape.part(), word, others + 1)),
    }
}

/// The openings of a name, one or a pattern, as written and as they stand on the shape.
///
/// # Errors
/// As [`all`], and [`MeasureFault::WrongFeature`] for what is no opening.
pub(super) fn openings<'a>(
    shape: &Shape<'a>,
    word: &Word,
) -> Result<Vec<(&'a Opening, Contour)>, DesignError> {
    let found = all(shape, word)?;
    let written = shape
        .part()
        .openings
        .iter()
        .filter(|o| bears(o, word.as_str()));
    let pair = |(feature, written): (Feature, &'a Opening)| match feature {
        Feature::Opening(here) => Ok((written, here.contour)),
        other => Err(wrong(word, other.what(), "an opening")),
    };
    let other = found
        .iter()
        .find(|found| !matches!(found, Feature::Opening(_)));
    if let Some(other) = other {
        return Err(wrong(word, other.what(), "an opening"));
    }
    found.into_iter().zip(written).map(pair).collect()
}

/// The fault that a feature is not what a measure needs.
pub(super) fn wrong(word: &Word, found: &'static str, wanted: &'static str) -> DesignError {
    let fault = MeasureFault::WrongFeature {
        name: word.value.clone(),
        found,
        wanted,
    };
    DesignError::new(fault, word.place).with_help(format!("name {wanted}"))
}

/// A feature of one outline, if it has one of that name.
fn in_trip<'a>(shape: &Shape<'a>, trip: Trip<'a>, name: &str) -> Option<Result<Feature, Gone>> {
    let here = if let Some(corner) = trip.corners.iter().find(|corner| corner.name == name) {
        shape.corner(trip, corner).map(Feature::Corner)
    } else if let Some(round) = trip.rounds.iter().find(|round| round.name == name) {
        shape.round(round).map(Feature::Round)
    } else {
        let edge = trip.edges.iter().find(|edge| edge.name == name)?;
        shape.edge(trip, edge).map(Feature::Edge)
    };
    Some(here.ok_or(Gone))
}

/// A feature that the shape has lost.
#[derive(Clone, Copy, Debug)]
struct Gone;

/// Whether an opening bears a name, or is one of the pattern of that name.
fn bears(opening: &Opening, name: &str) -> bool {
    let number = opening
        .name
        .strip_prefix(name)
        .and_then(|rest| rest.strip_prefix(' '));
    opening.name == name || number.is_some_and(|number| number.parse::<u32>().is_ok())
}

/// Every name that a measure can use on the part.
pub(super) fn names(part: &Part) -> Vec<&str> {
    let corners = part.corners.iter().map(|corner| corner.name.as_str());
    let rounds = part.rounds.iter().map(|round| round.name.as_str());
    let edges = part.edges.iter().map(|edge| edge.name.as_str());
    let openings = part.openings.iter().map(|opening| opening.name.as_str());
    corners.chain(rounds).chain(edges).chain(openings).collect()
}

fn unknown(part: &Part, word: &Word) -> DesignError {
    let fault = MeasureFault::UnknownFeature {
        name: word.value.clone(),
        part: part.name.clone(),
    };
    DesignError::new(fault, word.place).with_help(suggestion(word.as_str(), &names(part)))
}

fn several(part: &Part, word: &Word, count: usize) -> DesignError {
    let name = word.value.clone();
    let help = format!("say which, such as `{name} 1`");
    let part = part.name.clone();
    DesignError::new(
        MeasureFault::SeveralFeatures { name, count, part },
        word.place,
    )
    .with_help(help)
}

impl Feature {
    /// What it is, in words.
    pub(super) fn what(&self) -> &'static str {
        match self {
            Self::Corner(CornerHere { worked, .. }) if worked.is_empty() => "a sharp corner",
            Self::Corner(_) => "a corner",
            Self::Round(_) => "a round",
            Self::Edge(EdgeHere { sharp, .. }) => match sharp.as_slice() {
                [Segment::Line(_)] => "a straight edge",
                [Segment::Arc(_)] => "an edge of one arc",
                _ => "an edge of several arcs",
            },
            Self::Opening(OpeningHere { contour, .. }) => {
                if contour.as_circle().is_some() {
                    "a round opening"
                } else {
                    "an opening that is not round"
                }
            }
        }
    }
}
