//! Distances between features, along an edge, and from the datum.

use crate::design::DesignError;
use crate::design::Word;
use crate::design::file::measure::Along;
use crate::design::file::measure::Distance;
use crate::design::file::measure::FeaturePosition;
use crate::design::file::measure::Way;
use crate::design::part::Datum;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::nearest;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::measures::feature::CornerHere;
use crate::measures::feature::EdgeHere;
use crate::measures::feature::Feature;
use crate::measures::find;
use crate::measures::shape::Shape;
use crate::measures::shape::apart;
use crate::measures::shape::foot;
use crate::measures::taken::How;
use crate::measures::taken::Jaws;
use crate::measures::taken::Taken;

/// A point that something is measured from or to.
#[derive(Clone, Debug)]
pub(super) struct Anchor {
    pub(super) at: Point,
    /// The corner, if it is one.
    corner: Option<CornerHere>,
}

impl Anchor {
    const fn at(at: Point) -> Self {
        Self { at, corner: None }
    }

    /// The place that jaws find when they come from this side: the corner's metal that is farthest out,
    /// or the point itself.
    fn reached_from(&self, outward: Vec2) -> Point {
        self.corner
            .as_ref()
            .map_or(self.at, |corner| corner.farthest(outward))
    }

    /// Whether jaws stop there that come from this side.
    fn stops_jaws(&self, outward: Vec2) -> bool {
        self.corner
            .as_ref()
            .is_none_or(|corner| corner.stops_jaws(outward))
    }

    /// Whether its corner is rounded or chamfered away.
    fn is_worked(&self) -> bool {
        self.corner
            .as_ref()
            .is_some_and(|corner| !corner.worked.is_empty())
    }
}

/// The point of a feature: of a corner where its edges meet, of a round or opening the centre.
pub(super) fn anchor(feature: &Feature) -> Option<Anchor> {
    match feature {
        Feature::Corner(corner) => Some(Anchor {
            at: corner.sharp,
            corner: Some(corner.clone()),
        }),
        Feature::Round(round) => Some(Anchor::at(round.centre)),
        Feature::Opening(opening) => Some(Anchor::at(opening.centre)),
        Feature::Edge(_) => None,
    }
}

const POINT: &str = "a corner, a round or an opening";

pub(super) fn point(shape: &Shape<'_>, word: &Word) -> Result<Anchor, DesignError> {
    let feature = find::one(shape, word)?;
    anchor(&feature).ok_or_else(|| find::wrong(word, feature.what(), POINT))
}

/// The distance between two features; of edges the nearest place.
pub(super) fn distance(shape: &Shape<'_>, distance: &Distance) -> Result<Taken, DesignError> {
    let (from, to) = (
        find::all(shape, &distance.from)?,
        find::all(shape, &distance.to)?,
    );
    let mut best: Option<Taken> = None;
    for (a, b) in from.iter().flat_map(|a| to.iter().map(move |b| (a, b))) {
        let taken = of_two(a, b)
            .ok_or_else(|| find::wrong(&distance.from, "rounded away", "an edge that is there"))?;
        if best.is_none_or(|best| taken.value < best.value) {
            best = Some(taken);
        }
    }
    best.ok_or_else(|| find::wrong(&distance.from, "nothing", POINT))
}

fn of_two(from: &Feature, to: &Feature) -> Option<Taken> {
    match (from, to) {
        (Feature::Edge(a), Feature::Edge(b)) => nearest_of(&a.finished, &b.finished),
        (Feature::Edge(edge), other) => {
            let at = anchor(other)?.at;
            let taken = to_edge(at, edge)?;
            let between = taken.between.map(|[a, b]| [b, a]);
            Some(Taken { between, ..taken })
        }
        (other, Feature::Edge(edge)) => to_edge(anchor(other)?.at, edge),
        _ => {
            let (a, b) = (anchor(from)?, anchor(to)?);
            let value = apart(a.at, b.at);
            let direction = number::normalized(b.at - a.at).unwrap_or(Vec2::ZERO);
            Some(between_anchors(&a, &b, direction, value, [a.at, b.at]))
        }
    }
}

/// The distance of a point from an edge as it would be without its roundings.
fn to_edge(at: Point, edge: &EdgeHere) -> Option<Taken> {
    let nearest = edge.sharp.iter().map(|segment| segment.nearest_point(at));
    let on_edge = nearest.min_by(|&a, &b| apart(at, a).total_cmp(&apart(at, b)))?;
    let between = [at, on_edge];
    Some(Taken::length(apart(at, on_edge), between, How::Straight))
}

fn nearest_of(first: &[Segment], second: &[Segment]) -> Option<Taken> {
    let pairs = first
        .iter()
        .flat_map(|a| second.iter().map(move |b| (a, b)));
    let nearest = pairs
        .map(|(a, b)| nearest::between(a, b))
        .min_by(|a, b| a.distance.total_cmp(&b.distance))?;
    let between = [nearest.on_first, nearest.on_second];
    Some(Taken::length(nearest.distance, between, How::Straight))
}

/// A length between two points along a direction, with what jaws find where a corner is rounded.
fn between_anchors(
    from: &Anchor,
    to: &Anchor,
    direction: Vec2,
    value: f64,
    between: [Point; 2],
) -> Taken {
    let how = if from.is_worked() || to.is_worked() {
        How::SharpCorner
    } else {
        How::Straight
    };
    let forward = if (to.at - from.at).dot(direction) < 0.0 {
        -direction
    } else {
        direction
    };
    let (low, high) = (from.reached_from(-forward), to.reached_from(forward));
    let reading = (high - low).dot(forward);
    let stop = from.stops_jaws(-forward) && to.stops_jaws(forward);
    let differs = (reading - value.abs()).abs() > tolerance::SAME_DIMENSION;
    let jaws = (stop && differs).then_some(Jaws {
        reading,
        between: [low, high],
    });
    Taken {
        jaws,
        ..Taken::length(value, between, how)
    }
}

/// The distance of two features along a straight edge.
pub(super) fn along(shape: &Shape<'_>, along: &Along) -> Result<Taken, DesignError> {
    let edge = find::one(shape, &along.along)?;
    let straight = match &edge {
        Feature::Edge(edge) => match edge.sharp.as_slice() {
            [Segment::Line(line)] => Some(*line),
            _ => None,
        },
        _ => None,
    };
    let line: Line =
        straight.ok_or_else(|| find::wrong(&along.along, edge.what(), "a straight edge"))?;
    let (from, to) = (point(shape, &along.from)?, point(shape, &along.to)?);
    let direction = line.direction();
    let value = (to.at - from.at).dot(direction).abs();
    let between = [foot(&line, from.at), foot(&line, to.at)];
    Ok(between_anchors(&from, &to, direction, value, between))
}

/// The direction of a way on a datum.
pub(super) const fn way(datum: &Datum, way: Way) -> Vec2 {
    match way {
        Way::Along => datum.along,
        Way::Square => datum.across,
    }
}

/// The place of a feature along the datum edge or square to it: positive away from the datum corner,
/// or into the part.
pub(super) fn position(
    shape: &Shape<'_>,
    position: &FeaturePosition,
) -> Result<Taken, DesignError> {
    let datum = shape.datum();
    let direction = way(&datum, position.way.value);
    let of = point(shape, &position.of)?;
    let from = match &position.from {
        Some(from) => point(shape, from)?,
        None => Anchor::at(datum.origin),
    };
    let value = (of.at - from.at).dot(direction);
    let start = of.at - direction * value;
    Ok(between_anchors(
        &from,
        &of,
        direction,
        value,
        [start, of.at],
    ))
}
