//! The points through which a batten is bent.

use super::length;
use crate::design::part::Edge;
use crate::design::part::Part;
use crate::documents::features;
use crate::documents::features::Form;
use crate::geometry::LengthUnit;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::fair_curve::FairCurve;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::sheet::Column;
use crate::sheet::Table;

/// For each edge that is a fair curve, of the part and of its openings, the points along it.
pub(super) fn tables(part: &Part, unit: LengthUnit) -> Vec<Table> {
    let in_openings = part.openings.iter().map(|opening| &opening.features.edges);
    let edges = part.edges.iter().chain(in_openings.flatten());
    edges
        .filter(|edge| matches!(features::form(part, edge), Form::Curve(_)))
        .map(|edge| table(part, edge, unit))
        .collect()
}

fn table(part: &Part, edge: &Edge, unit: LengthUnit) -> Table {
    let mut table = Table::new(
        format!("Points along “{}”, for a batten", edge.name),
        vec![
            Column::words("point", "point"),
            Column::numbers("along the datum edge", "along"),
            Column::numbers("square to it", "across"),
        ],
    );
    let points = points(edge);
    let has_stations = points.iter().any(|point| point.what.starts_with("station"));
    for Along { what, at } in points {
        let running = part.datum.running(at);
        table.row(vec![
            what.into(),
            length(running.x, unit),
            length(running.y, unit),
        ]);
    }
    if has_stations {
        table.notes.push(
            "Stations are numbered as the design lists them. Set the weights on these and on the ends, or on the \
             sharp corner where there is one; the points between only prove that the batten lies as the outline does."
                .to_owned(),
        );
    }
    table
}

/// A point along an edge.
#[derive(Clone, Debug, PartialEq)]
struct Along {
    what: String,
    at: Point,
}

impl Along {
    fn named(what: impl Into<String>, at: Point) -> Self {
        let what = what.into();
        Self { what, at }
    }
}

/// The ends of the finished edge, the stations of its curve that are left on it, and places between, with the
/// sharp corners that a batten through the stations runs out to; where the curve is not known, the joints of
/// its arcs and the middles between.
fn points(edge: &Edge) -> Vec<Along> {
    let (Some(first), Some(last)) = (edge.finished.first(), edge.finished.last()) else {
        return Vec::new();
    };
    let (start, end) = (first.start(), last.end());
    let apart = |one: Point, two: Point| number::length(one - two) > SAME_MARK;
    let between: Vec<Along> = match &edge.curve {
        Some(fitted) => places(&fitted.curve),
        None => edge.finished.iter().flat_map(joint_and_middle).collect(),
    };
    let corner = |place: Option<&Along>, end: Point| {
        let place = place.filter(|place| apart(place.at, end) && !lies_on(edge, place.at))?;
        Some(Along::named("sharp corner, rounded away", place.at))
    };
    let corners = [corner(between.first(), start), corner(between.last(), end)];
    let [before, after] = corners;
    let inner = between
        .into_iter()
        .filter(|place| apart(place.at, start) && apart(place.at, end))
        .filter(|place| lies_on(edge, place.at));
    let start = std::iter::once(Along::named("start", start));
    let end = std::iter::once(Along::named("end", end));
    let whole = before.into_iter().chain(start).chain(inner).chain(end);
    whole.chain(after).collect()
}

/// Points nearer than this are one mark, in millimetres: the width of a scribed line.
const SAME_MARK: f64 = 0.1;

/// Whether a place of the curve is left on the finished edge.
fn lies_on(edge: &Edge, at: Point) -> bool {
    let near = |segment: &Segment| number::length(segment.nearest_point(at) - at);
    let segments = edge.finished.iter().map(near);
    segments.fold(f64::INFINITY, f64::min) <= 2.0 * tolerance::FITTED_CURVE
}

fn joint_and_middle(segment: &Segment) -> [Along; 2] {
    [segment.start(), segment.point_at(0.5)].map(|at| Along::named("", at))
}

/// The stations of a spline, numbered from its first end, which is 0, and the middles between them; other curves in
/// even steps.
fn places(curve: &FairCurve) -> Vec<Along> {
    let last = curve.last_position();
    let is_table = matches!(curve, FairCurve::Spline(_));
    let steps = if is_table { 2.0 * last } else { EVEN_STEPS };
    let mut places = Vec::new();
    let mut step = 0.0;
    while step <= steps {
        let position = last * step / steps;
        let is_station = is_table && position.fract() == 0.0;
        let what = if is_station {
            format!("station {}", curve.station_near(position))
        } else {
            String::new()
        };
        places.push(Along::named(what, curve.point_at(position)));
        step += 1.0;
    }
    places
}

/// Steps along a curve that has no stations.
const EVEN_STEPS: f64 = 12.0;
