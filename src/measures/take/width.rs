//! Widths square to the datum, at a station.

use super::distance::anchor;
use super::size;
use crate::design::DesignError;
use crate::design::Dimensions;
use crate::design::Unresolved;
use crate::design::error::MeasureFault;
use crate::design::file::measure::MetalCount;
use crate::design::file::measure::SizeWay;
use crate::design::file::measure::Width;
use crate::design::file::measure::WidthEnd;
use crate::design::part::Datum;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::intersect;
use crate::geometry::nearest::Station;
use crate::geometry::nearest::width_at;
use crate::geometry::tolerance;
use crate::measures::feature::CornerHere;
use crate::measures::feature::Feature;
use crate::measures::feature::OpeningHere;
use crate::measures::find;
use crate::measures::shape::Shape;
use crate::measures::shape::apart;
use crate::measures::taken::How;
use crate::measures::taken::Jaws;
use crate::measures::taken::Taken;

pub(super) fn width(
    shape: &Shape<'_>,
    width: &Width,
    dimensions: &Dimensions,
) -> Result<Taken, Unresolved> {
    let by = dimensions.length(&width.by)?;
    let datum = shape.datum();
    let at = station(shape, &datum, width, by)?;
    let metal = metal(shape, at, datum.across);
    if width.metal == MetalCount::MetalOnly {
        let value = metal.iter().map(Line::length).sum();
        let ends = ends_of(&metal).unwrap_or([at, at]);
        return Ok(Taken::length(value, ends, How::MetalOnly));
    }
    let crossing = crossing(shape, at, datum.across);
    let over_sharp = sharp(shape, at, datum.across);
    let (Some(ends), Some(sharp)) = (crossing.or(over_sharp), over_sharp.or(crossing)) else {
        let (least, most) = shape.reach(datum.along);
        let start = datum.origin.to_vec2().dot(datum.along);
        return Err(outside(width, by, [least - start, most - start]).into());
    };
    Ok(End::both(shape, ends, sharp, datum.across)
        .taken(width.to.as_ref().map(|to| to.value), datum.across))
}

/// The point of the datum edge at which the station is.
fn station(shape: &Shape<'_>, datum: &Datum, width: &Width, by: f64) -> Result<Point, DesignError> {
    let feature = find::one(shape, &width.from)?;
    if let Feature::Opening(opening) = &feature
        && by == 0.0
        && width.metal == MetalCount::OverAll
    {
        return Err(of_an_opening(shape, width, opening, feature.what()));
    }
    let from = match &feature {
        Feature::Edge(edge) => match edge.sharp.as_slice() {
            [Segment::Line(line)]
                if line.direction().dot(datum.along).abs() <= tolerance::SAME_WALL =>
            {
                line.start
            }
            _ => {
                let wanted = "a corner, a round, an opening or an edge square to the datum";
                return Err(find::wrong(&width.from, feature.what(), wanted));
            }
        },
        _ => match anchor(&feature) {
            Some(anchor) => anchor.at,
            None => datum.origin,
        },
    };
    let (least, most) = shape.reach(datum.along);
    let from = from.to_vec2().dot(datum.along);
    // into the part: towards the farther end
    let into = if from - least <= most - from {
        1.0
    } else {
        -1.0
    };
    let at = from + into * by;
    if at < least - tolerance::SAME_DIMENSION || at > most + tolerance::SAME_DIMENSION {
        let mut reach = [(least - from) * into, (most - from) * into];
        reach.sort_by(f64::total_cmp);
        return Err(outside(width, by, reach));
    }
    let start = datum.origin.to_vec2().dot(datum.along);
    Ok(datum.origin + datum.along * (at - start))
}

/// The fault of a width at an opening: what is meant is the opening, and this would be the part.
fn of_an_opening(
    shape: &Shape<'_>,
    width: &Width,
    here: &OpeningHere,
    found: &'static str,
) -> DesignError {
    let name = &width.from.value;
    let mut openings = shape.part().openings.iter();
    let sized = openings.any(|opening| opening.name == *name && size::has(opening, SizeWay::Width));
    let own = if here.contour.as_circle().is_some() {
        format!("`diameter = \"{name}\"`")
    } else if sized {
        format!("`size = {{ of = \"{name}\", way = \"width\" }}`")
    } else {
        "`distance = { from = \"…\", to = \"…\" }` between two of its edges".to_owned()
    };
    let wanted = "a corner, a round or an edge of the part";
    find::wrong(&width.from, found, wanted).with_help(format!(
        "a width is that of the part: for the opening take {own}; for the metal beside it add \
         `metal_only = true`"
    ))
}

fn outside(width: &Width, by: f64, [least, most]: [f64; 2]) -> DesignError {
    let fault = MeasureFault::StationOutside {
        from: width.from.value.clone(),
        by,
        least,
        most,
    };
    DesignError::new(fault, width.by.place).with_help("choose a station on the part")
}

/// The stretches of metal on the station's line, in order.
fn metal(shape: &Shape<'_>, at: Point, across: Vec2) -> Vec<Line> {
    let mut all: Vec<Line> = Vec::new();
    for region in shape.regions() {
        if let Station::Crosses { metal, .. } = width_at(region, at, across) {
            all.extend(metal);
        }
    }
    all.sort_by(|a, b| reach(a.start, across).total_cmp(&reach(b.start, across)));
    all
}

fn ends_of(lines: &[Line]) -> Option<[Point; 2]> {
    Some([lines.first()?.start, lines.last()?.end])
}

/// The outermost crossings of the station's line with the shape.
fn crossing(shape: &Shape<'_>, at: Point, across: Vec2) -> Option<[Point; 2]> {
    let mut points: Vec<Point> = Vec::new();
    for region in shape.regions() {
        if let Station::Crosses { outermost, .. } = width_at(region, at, across) {
            points.extend([outermost.start, outermost.end]);
        }
    }
    outermost(&points, across)
}

/// The outermost crossings with the outline as it would be without roundings; `None` when an edge of it
/// is not on the shape.
fn sharp(shape: &Shape<'_>, at: Point, across: Vec2) -> Option<[Point; 2]> {
    let mut outline: Vec<Segment> = Vec::new();
    let trip = shape.trip();
    for edge in trip.edges {
        outline.extend(shape.edge(trip, edge)?.sharp);
    }
    for round in trip.rounds {
        outline.extend(shape.round(round)?.arcs.into_iter().map(Segment::Arc));
    }
    let (least, most) = outline
        .iter()
        .fold((0.0_f64, 0.0_f64), |(least, most), segment| {
            let along = |direction: Vec2| (segment.farthest(direction) - at).dot(across);
            (least.min(along(-across)), most.max(along(across)))
        });
    let line = Segment::line(at + across * (least - 1.0), at + across * (most + 1.0));
    let nodes = outline
        .iter()
        .flat_map(|segment| intersect::meet(&line, segment).nodes());
    let points: Vec<Point> = nodes.map(|node| node.point).collect();
    outermost(&points, across)
}

fn outermost(points: &[Point], across: Vec2) -> Option<[Point; 2]> {
    let by_reach = |a: &Point, b: &Point| reach(*a, across).total_cmp(&reach(*b, across));
    let first = points.iter().copied().min_by(by_reach)?;
    let last = points.iter().copied().max_by(by_reach)?;
    (apart(first, last) > tolerance::SAME_POINT).then_some([first, last])
}

fn reach(point: Point, across: Vec2) -> f64 {
    point.to_vec2().dot(across)
}

/// One end of a width.
#[derive(Clone, Copy, Debug)]
struct End {
    /// On the metal at the station itself.
    metal: Point,
    /// On the edges run out to their sharp corners.
    sharp: Point,
    /// Where jaws touch.
    jaws: Point,
    /// Whether the sharp end is a corner itself.
    is_corner: bool,
    /// Whether jaws stop where they touch.
    stops: bool,
}

/// Both ends of a width.
#[derive(Clone, Copy, Debug)]
struct Ends([End; 2]);

impl End {
    fn both(shape: &Shape<'_>, metal: [Point; 2], sharp: [Point; 2], across: Vec2) -> Ends {
        let trip = shape.trip();
        let corners: Vec<CornerHere> = trip
            .corners
            .iter()
            .filter_map(|corner| shape.corner(trip, corner))
            .filter(|corner| !corner.worked.is_empty())
            .collect();
        let end = |metal: Point, sharp: Point, outward: Vec2| {
            // the corner whose rounding has taken the sharp end away
            let rounded = corners
                .iter()
                .filter(|corner| {
                    apart(corner.sharp, sharp) < corner.setback() - tolerance::SAME_DIMENSION
                })
                .min_by(|a, b| apart(a.sharp, sharp).total_cmp(&apart(b.sharp, sharp)));
            Self {
                metal,
                sharp,
                stops: rounded.is_none_or(|corner| corner.stops_jaws(outward)),
                jaws: rounded.map_or(metal, |corner| corner.farthest(outward)),
                is_corner: rounded
                    .is_some_and(|corner| apart(corner.sharp, sharp) <= tolerance::SAME_DIMENSION),
            }
        };
        Ends([
            end(metal[0], sharp[0], -across),
            end(metal[1], sharp[1], across),
        ])
    }
}

impl Ends {
    fn taken(self, to: Option<WidthEnd>, across: Vec2) -> Taken {
        let points = |of: fn(&End) -> Point| [of(&self.0[0]), of(&self.0[1])];
        let (metal, sharp, jaws) = (
            points(|end| end.metal),
            points(|end| end.sharp),
            points(|end| end.jaws),
        );
        let length = |ends: [Point; 2]| (ends[1] - ends[0]).dot(across);
        let is_plain =
            apart(metal[0], sharp[0]).max(apart(metal[1], sharp[1])) <= tolerance::SAME_DIMENSION;
        let (ends, how) = match to {
            _ if is_plain => (metal, How::Straight),
            Some(WidthEnd::SharpCorner) => (sharp, How::SharpCorner),
            Some(WidthEnd::OverTheRounds) => (jaws, How::OverTheRounds),
            None if self.0.iter().any(|end| end.is_corner) => (sharp, How::SharpCorner),
            None => (metal, How::Straight),
        };
        let (value, reading) = (length(ends), length(jaws));
        let stop = self.0.iter().all(|end| end.stops);
        let differs = (reading - value).abs() > tolerance::SAME_DIMENSION;
        let jaws = (stop && differs).then_some(Jaws {
            reading,
            between: jaws,
        });
        Taken {
            jaws,
            ..Taken::length(value, ends, how)
        }
    }
}
