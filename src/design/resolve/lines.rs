//! Scribed lines and marked points.

use super::amounts::Amounts;
use super::fault::PartFault;
use super::names;
use crate::design::file;
use crate::design::located::Located;
use crate::design::part::Edge;
use crate::design::part::Mark;
use crate::design::part::Scribe;
use crate::geometry::Arc;
use crate::geometry::Contour;
use crate::geometry::Path;
use crate::geometry::Piece;
use crate::geometry::Point;
use crate::geometry::Region;
use crate::geometry::Segment;
use crate::geometry::SourceId;
use crate::geometry::intersect;
use crate::geometry::number;
use crate::geometry::tolerance;
use crate::geometry::validate;

/// Which side of an edge, as written, the material is on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Material {
    /// On its left: the outline is written anticlockwise.
    Left,
    /// On its right: the outline is written clockwise.
    Right,
}

/// A scribed line as it lies on the part.
pub(super) fn scribe(
    written: &file::Scribe,
    region: &Region,
    edges: &[Edge],
    material: Material,
    amounts: &mut Amounts<'_>,
) -> Option<Scribe> {
    let name = written.value.name().value.clone();
    let place = written.place;
    match &written.value {
        file::ScribeLine::Along(line) => {
            let edge = names::find_edge(&line.along, edges, amounts);
            let inset = amounts.length(&line.inset);
            let (edge, inset) = (edge?, inset?);
            let paths = parallel(edge, inset, region, material);
            if paths.is_empty() {
                let fault = PartFault::ScribeOutside { edge: edge.name.clone(), inset };
                amounts.fault(fault, line.inset.place, "use an inset that stays on the part");
                return None;
            }
            Some(Scribe { name, along: Some((edge.name.clone(), inset)), paths, place })
        }
        file::ScribeLine::Between(line) => {
            let (from, to) = (amounts.point(&line.from), amounts.point(&line.to));
            let (from, to) = (from?, to?);
            let segment = Segment::line(from, to);
            let paths = if segment.length() < tolerance::SHORTEST_SEGMENT {
                Vec::new()
            } else {
                on_material(&segment, 0.0, 1.0, region)
            };
            if paths.is_empty() {
                amounts.fault(
                    PartFault::MarkOutside { name, at: from },
                    place,
                    "move its ends onto the part",
                );
                return None;
            }
            Some(Scribe { name, along: None, paths, place })
        }
    }
}

/// Marked points.
pub(super) fn marks(
    written: &Located<file::Mark>,
    region: &Region,
    amounts: &mut Amounts<'_>,
) -> Vec<Mark> {
    let mark = &written.value;
    let several = mark.places.len() > 1;
    let mut marks = Vec::new();
    for (index, pair) in mark.places.iter().enumerate() {
        let Some(at) = amounts.point(pair) else { continue };
        let own = &mark.name.value;
        let name = if several { format!("{own} {}", index + 1) } else { own.clone() };
        if validate::contour_contains(region.outer(), at) == validate::Place::Outside {
            let fault = PartFault::MarkOutside { name, at };
            amounts.fault(fault, pair.place, "move it onto the part");
            continue;
        }
        marks.push(Mark { name, at, place: pair.place });
    }
    marks
}

/// The parallel of an edge, run on both ways until it meets the outer edge, without the stretches
/// over openings. Empty when it does not lie on the part.
fn parallel(edge: &Edge, inset: f64, region: &Region, material: Material) -> Vec<Path> {
    let inward = match material {
        Material::Left => inset,
        Material::Right => -inset,
    };
    let [single] = edge.sharp.as_slice() else { return Vec::new() };
    let bounds = region.bounds();
    let reach = 2.0 * (bounds.width() + bounds.height()) + inset.abs();
    let Some(carrier) = extended_parallel(single, inward, reach) else { return Vec::new() };
    let crossings = fractions(&carrier, region.outer());
    let below = crossings.iter().copied().filter(|t| *t < 0.5).fold(f64::NAN, f64::max);
    let above = crossings.iter().copied().filter(|t| *t > 0.5).fold(f64::NAN, f64::min);
    let inside =
        validate::contour_contains(region.outer(), carrier.point_at(0.5)) == validate::Place::Inside;
    if !inside || below.is_nan() || above.is_nan() {
        return Vec::new();
    }
    on_material(&carrier, below, above, region)
}

/// The parallel at `inward` to the left, its middle still in the middle, long enough to leave the
/// part at both ends.
fn extended_parallel(segment: &Segment, inward: f64, reach: f64) -> Option<Segment> {
    match segment {
        Segment::Line(line) => {
            let direction = line.direction();
            let middle = line.point_at(0.5) + number::left_normal(direction) * inward;
            Some(Segment::line(middle - direction * reach, middle + direction * reach))
        }
        Segment::Arc(arc) => {
            // to the left of an anticlockwise arc is its centre
            let radius = arc.radius() - inward * arc.turn().sign();
            if radius <= tolerance::SHORTEST_SEGMENT {
                return None;
            }
            let middle = number::direction(arc.point_at(0.5) - arc.centre());
            let half = (reach / radius).min(number::HALF_TURN * 0.999);
            let sweep = 2.0 * half * arc.turn().sign();
            let start = middle - sweep / 2.0;
            Some(Arc::from_angles(arc.centre(), radius, start, sweep).into())
        }
    }
}

fn fractions(carrier: &Segment, contour: &Contour) -> Vec<f64> {
    let mut found = Vec::new();
    for segment in contour.segments() {
        let meeting = intersect::meet(carrier, segment);
        found.extend(meeting.points().map(|crossing| crossing.on_first));
        for stretch in meeting.stretches() {
            found.extend([stretch.from.on_first, stretch.to.on_first]);
        }
    }
    found.sort_by(f64::total_cmp);
    found
}

/// The parts of `carrier` between two fractions that lie on material.
fn on_material(carrier: &Segment, from: f64, to: f64, region: &Region) -> Vec<Path> {
    let mut cuts: Vec<f64> =
        region.contours().flat_map(|contour| fractions(carrier, contour)).collect();
    cuts.retain(|t| *t > from && *t < to);
    cuts.extend([from, to]);
    cuts.sort_by(f64::total_cmp);
    let mut paths: Vec<(f64, f64)> = Vec::new();
    for pair in cuts.windows(2) {
        let (a, b) = (pair[0], pair[1]);
        let middle: Point = carrier.point_at(f64::midpoint(a, b));
        let long_enough = (b - a) * carrier.length() >= tolerance::SHORTEST_SEGMENT;
        let on_part = validate::region_contains(region, middle) == validate::Place::Inside;
        if !long_enough || !on_part {
            continue;
        }
        match paths.last_mut() {
            Some(last) if last.1 == a => last.1 = b,
            _ => paths.push((a, b)),
        }
    }
    let path = |(a, b): (f64, f64)| {
        Path::new(vec![Piece::new(carrier.part(a, b), SourceId::UNTRACED)]).ok()
    };
    paths.into_iter().filter_map(path).collect()
}
