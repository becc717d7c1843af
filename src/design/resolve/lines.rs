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
                let fault = PartFault::ScribeOutside {
                    edge: edge.name.clone(),
                    inset,
                };
                amounts.fault(
                    fault,
                    line.inset.place,
                    "use an inset that stays on the part",
                );
                return None;
            }
            Some(Scribe {
                name,
                along: Some((edge.name.clone(), inset)),
                paths,
                place,
            })
        }
        file::ScribeLine::Between(line) => {
            let (from, to) = (amounts.point(&line.from), amounts.point(&line.to));
            let (from, to) = (from?, to?);
            let segment = Segment::line(from, to);
            let paths = if segment.length() < tolerance::SHORTEST_SEGMENT {
                Vec::new()
            } else {
                let chain = [segment];
                paths(&chain, &stretches(&chain, region))
            };
            if paths.is_empty() {
                amounts.fault(
                    PartFault::MarkOutside { name, at: from },
                    place,
                    "move its ends onto the part",
                );
                return None;
            }
            Some(Scribe {
                name,
                along: None,
                paths,
                place,
            })
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
        let Some(at) = amounts.point(pair) else {
            continue;
        };
        let own = &mark.name.value;
        let name = if several {
            format!("{own} {}", index + 1)
        } else {
            own.clone()
        };
        if validate::contour_contains(region.outer(), at) == validate::Place::Outside {
            let fault = PartFault::MarkOutside { name, at };
            amounts.fault(fault, pair.place, "move it onto the part");
            continue;
        }
        marks.push(Mark {
            name,
            at,
            place: pair.place,
        });
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
    let bounds = region.bounds();
    let reach = 2.0 * (bounds.width() + bounds.height()) + inset.abs();
    let last = edge.sharp.len().saturating_sub(1);
    let parallel_of = |(index, segment): (usize, &Segment)| {
        let before = if index == 0 { reach } else { 0.0 };
        let after = if index == last { reach } else { 0.0 };
        extended_parallel(segment, inward, before, after)
    };
    let chain: Option<Vec<Segment>> = edge.sharp.iter().enumerate().map(parallel_of).collect();
    let Some(chain) = chain else {
        return Vec::new();
    };
    let stretches = stretches(&chain, region);
    // from the middle of the edge outwards both ways; a segment run on at one end only has its own
    // middle elsewhere, but still on the part if the parallel is
    let Some((segment, middle)) = middle(&edge.sharp, &chain) else {
        return Vec::new();
    };
    let holds = |stretch: &Stretch| {
        stretch.segment == segment && (stretch.from..=stretch.to).contains(&middle)
    };
    let Some(start) = stretches.iter().position(holds) else {
        return Vec::new();
    };
    let outside = |stretch: &Stretch| stretch.lies == Lies::Outside;
    if outside(&stretches[start]) {
        return Vec::new();
    }
    let first = stretches[..start]
        .iter()
        .rposition(outside)
        .map_or(0, |index| index + 1);
    let end = stretches[start..].iter().position(outside);
    let end = end.map_or(stretches.len(), |index| start + index);
    paths(&chain, &stretches[first..end])
}

/// The middle segment of an edge, and the fraction of its parallel that stands beside its middle.
fn middle(edge: &[Segment], chain: &[Segment]) -> Option<(usize, f64)> {
    let index = edge.len() / 2;
    let (own, parallel) = (edge.get(index)?, chain.get(index)?);
    let beside = parallel.nearest_point(own.point_at(0.5));
    let fraction = match parallel {
        Segment::Line(line) => number::length(beside - line.start) / line.length(),
        Segment::Arc(arc) => arc.fraction_towards(beside)?,
    };
    Some((index, fraction))
}

/// The parallel at `inward` to the left, run on at its start and end by lengths in millimetres (an
/// arc by less than half a turn from its middle).
fn extended_parallel(segment: &Segment, inward: f64, before: f64, after: f64) -> Option<Segment> {
    match segment {
        Segment::Line(line) => {
            let direction = line.direction();
            let aside = number::left_normal(direction) * inward;
            let (start, end) = (line.start + aside, line.end + aside);
            Some(Segment::line(
                start - direction * before,
                end + direction * after,
            ))
        }
        Segment::Arc(arc) => {
            // to the left of an anticlockwise arc is its centre
            let radius = arc.radius() - inward * arc.turn().sign();
            if radius <= tolerance::SHORTEST_SEGMENT {
                return None;
            }
            let most = number::HALF_TURN * 0.999 - arc.sweep().abs() / 2.0;
            let run_on = |length: f64| (length / radius).min(most.max(0.0));
            let sign = arc.turn().sign();
            let start = arc.start_angle() - run_on(before) * sign;
            let sweep = arc.sweep() + (run_on(before) + run_on(after)) * sign;
            Some(Arc::from_angles(arc.centre(), radius, start, sweep).into())
        }
    }
}

/// Where a stretch of a line lies.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Lies {
    /// On material.
    OnPart,
    /// Over an opening.
    OverOpening,
    /// Beside the part.
    Outside,
}

/// A stretch of a chain between two crossings.
#[derive(Clone, Copy, Debug)]
struct Stretch {
    segment: usize,
    from: f64,
    to: f64,
    lies: Lies,
}

/// The chain cut wherever it meets an edge of the part.
fn stretches(chain: &[Segment], region: &Region) -> Vec<Stretch> {
    let mut stretches = Vec::new();
    for (index, segment) in chain.iter().enumerate() {
        let mut cuts: Vec<f64> = region
            .contours()
            .flat_map(|contour| fractions(segment, contour))
            .collect();
        cuts.extend([0.0, 1.0]);
        cuts.sort_by(f64::total_cmp);
        for pair in cuts.windows(2) {
            let (from, to) = (pair[0], pair[1]);
            if (to - from) * segment.length() < tolerance::SHORTEST_SEGMENT {
                continue;
            }
            let middle = segment.point_at(f64::midpoint(from, to));
            let lies = match validate::region_contains(region, middle) {
                validate::Place::Inside => Lies::OnPart,
                _ => match validate::contour_contains(region.outer(), middle) {
                    validate::Place::Inside => Lies::OverOpening,
                    _ => Lies::Outside,
                },
            };
            stretches.push(Stretch {
                segment: index,
                from,
                to,
                lies,
            });
        }
    }
    stretches
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
    found
}

/// The stretches on material as paths, joined where they follow one another.
fn paths(chain: &[Segment], stretches: &[Stretch]) -> Vec<Path> {
    let mut runs: Vec<Vec<Stretch>> = Vec::new();
    let mut before_was_on_part = false;
    for stretch in stretches {
        let on_part = stretch.lies == Lies::OnPart;
        if on_part {
            match runs.last_mut() {
                Some(run) if before_was_on_part => extend(run, *stretch),
                _ => runs.push(vec![*stretch]),
            }
        }
        before_was_on_part = on_part;
    }
    let piece = |stretch: &Stretch| {
        let segment = chain[stretch.segment].part(stretch.from, stretch.to);
        Piece::new(segment, SourceId::UNTRACED)
    };
    runs.iter()
        .filter_map(|run| Path::new(run.iter().map(piece).collect()).ok())
        .collect()
}

/// Adds a stretch to a run; one that carries on in the same segment makes the last one longer.
fn extend(run: &mut Vec<Stretch>, stretch: Stretch) {
    match run.last_mut() {
        Some(last) if last.segment == stretch.segment => last.to = stretch.to,
        _ => run.push(stretch),
    }
}
