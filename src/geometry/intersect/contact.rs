//! From what the carriers share to what the segments share.
//!
//! Stages: gather *events* (ends that lie on the other segment, crossings of the carriers inside both);
//! sort them along the first segment; link events between which the segments stay together; read each
//! linked group as a point or a stretch.

use super::Crossing;
use super::Meeting;
use super::Overlap;
use super::Stretch;
use crate::geometry::Arc;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::number;
use crate::geometry::tolerance;

/// What the infinite carriers share.
#[derive(Clone, Copy, Debug)]
pub(super) enum Candidates {
    None,
    One(Point),
    Touch {
        point: Point,
        /// An end on the other segment that is nearer than this to the touch is at the touch.
        reach: f64,
    },
    Two(Point, Point),
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    End,
    Inner,
    Touch,
}

#[derive(Clone, Copy, Debug)]
struct Event {
    crossing: Crossing,
    kind: Kind,
}

/// What the two segments share, given what their carriers share.
pub(super) fn assemble(first: &Segment, second: &Segment, candidates: Candidates) -> Meeting {
    let mut events = end_events(first, second);
    match candidates {
        Candidates::None => {}
        Candidates::One(point) => events.extend(inner_event(first, second, point, Kind::Inner)),
        Candidates::Two(p, q) => {
            events.extend(inner_event(first, second, p, Kind::Inner));
            events.extend(inner_event(first, second, q, Kind::Inner));
        }
        Candidates::Touch { point, reach } => {
            for event in &mut events {
                if number::length(event.crossing.point - point) <= reach {
                    event.kind = Kind::Touch;
                }
            }
            // a touch that an end stands for already needs no second event
            if events.iter().all(|event| event.kind != Kind::Touch) {
                events.extend(inner_event(first, second, point, Kind::Touch));
            }
        }
    }
    match events.as_slice() {
        [] => Meeting::None,
        [only] => lone_point(*only),
        _ => from_groups(first, second, events),
    }
}

fn lone_point(event: Event) -> Meeting {
    if event.kind == Kind::Touch {
        Meeting::Touch(event.crossing)
    } else {
        Meeting::One(event.crossing)
    }
}

/// The ends of each segment that lie on the other.
fn end_events(first: &Segment, second: &Segment) -> Vec<Event> {
    let mut events = Vec::new();
    for (point, on_first) in [(first.start(), 0.0), (first.end(), 1.0)] {
        if let Some(on_second) = fraction_on(second, point) {
            events.push(end_event(point, on_first, on_second));
        }
    }
    for (point, on_second) in [(second.start(), 0.0), (second.end(), 1.0)] {
        if let Some(on_first) = fraction_on(first, point) {
            events.push(end_event(point, on_first, on_second));
        }
    }
    events
}

const fn end_event(point: Point, on_first: f64, on_second: f64) -> Event {
    Event {
        crossing: Crossing {
            point,
            on_first,
            on_second,
        },
        kind: Kind::End,
    }
}

fn inner_event(first: &Segment, second: &Segment, point: Point, kind: Kind) -> Option<Event> {
    let on_first = fraction_towards(first, point)?;
    let on_second = fraction_towards(second, point)?;
    Some(Event {
        crossing: Crossing {
            point,
            on_first,
            on_second,
        },
        kind,
    })
}

/// The fraction at which `point`, known to lie on the carrier, stands on the segment, if it does.
fn fraction_towards(segment: &Segment, point: Point) -> Option<f64> {
    match segment {
        Segment::Line(line) => {
            let along = line.end - line.start;
            let t = (point - line.start).dot(along) / along.dot(along);
            (0.0..=1.0).contains(&t).then_some(t)
        }
        Segment::Arc(arc) => arc.fraction_towards(point),
    }
}

/// The fraction at which `point` stands on the segment, if it is nearer than
/// [`tolerance::SAME_POINT`]; exactly 0 or 1 at the ends.
pub(super) fn fraction_on(segment: &Segment, point: Point) -> Option<f64> {
    let near = |end: Point| {
        let away = point - end;
        away.dot(away) <= tolerance::SAME_POINT * tolerance::SAME_POINT
    };
    if near(segment.start()) {
        return Some(0.0);
    }
    if near(segment.end()) {
        return Some(1.0);
    }
    match segment {
        Segment::Line(line) => {
            let (along, away) = (line.end - line.start, point - line.start);
            let square = along.dot(along);
            let cross = along.cross(away);
            if cross * cross > tolerance::SAME_POINT * tolerance::SAME_POINT * square {
                return None;
            }
            let t = away.dot(along) / square;
            (0.0..=1.0).contains(&t).then_some(t)
        }
        Segment::Arc(arc) => {
            let off = distance_from_circle(arc, point);
            if off.abs() > tolerance::SAME_POINT {
                return None;
            }
            arc.fraction_towards(point)
        }
    }
}

fn distance_from_circle(arc: &Arc, point: Point) -> f64 {
    number::length(point - arc.centre()) - arc.radius()
}

/// Whether the segments stay together between two events that follow each other on the first.
///
/// Between two shared points the distance of lines and circles has one hump, so that its middle
/// decides.
fn linked(first: &Segment, second: &Segment, from: &Event, to: &Event) -> bool {
    let (from, to) = (from.crossing.on_first, to.crossing.on_first);
    if (to - from) * first.length() <= 2.0 * tolerance::SAME_POINT {
        return true;
    }
    fraction_on(second, first.point_at(f64::midpoint(from, to))).is_some()
}

fn from_groups(first: &Segment, second: &Segment, mut events: Vec<Event>) -> Meeting {
    events.sort_by(|a, b| a.crossing.on_first.total_cmp(&b.crossing.on_first));
    let mut points: Vec<Event> = Vec::new();
    let mut stretches: Vec<Stretch> = Vec::new();
    for group in events.chunk_by(|a, b| linked(first, second, a, b)) {
        read_group(first, second, group, &mut points, &mut stretches);
    }
    // on a closed circle the start and the end are one place: of the two the start stays
    let same_place =
        |point: Point, other: Point| number::length(point - other) <= 2.0 * tolerance::SAME_POINT;
    let mut kept: Vec<Event> = Vec::new();
    for event in points {
        let at = event.crossing.point;
        let in_stretch = stretches
            .iter()
            .any(|stretch| same_place(at, stretch.from.point) || same_place(at, stretch.to.point));
        if !in_stretch
            && !kept
                .iter()
                .any(|other| same_place(at, other.crossing.point))
        {
            kept.push(event);
        }
    }
    match (stretches.as_slice(), kept.as_slice()) {
        ([], []) => Meeting::None,
        ([], [only]) => lone_point(*only),
        ([], [one, other, ..]) => Meeting::Two(one.crossing, other.crossing),
        ([one], []) => Meeting::Overlap(Overlap::One(*one)),
        ([one], [point, ..]) => Meeting::Overlap(Overlap::OneAndPoint(*one, point.crossing)),
        ([one, other, ..], _) => Meeting::Overlap(Overlap::Two(*one, *other)),
    }
}

/// Reads a linked group: a stretch between its outermost ends, or one point.
fn read_group(
    first: &Segment,
    second: &Segment,
    group: &[Event],
    points: &mut Vec<Event>,
    stretches: &mut Vec<Stretch>,
) {
    let ends: Vec<&Event> = group
        .iter()
        .filter(|event| ends_at(&event.crossing) > 0)
        .collect();
    if let (Some(from), Some(to)) = (ends.first(), ends.last()) {
        let (start, end) = (from.crossing.on_first, to.crossing.on_first);
        if (end - start) * first.length() > tolerance::SHORTEST_SEGMENT {
            push_stretches(first, second, &ends, stretches);
            return;
        }
    }
    let touches = group.iter().any(|event| event.kind == Kind::Touch);
    let (Some(first_event), Some(last_event)) = (group.first(), group.last()) else {
        return;
    };
    // the earliest of those that say most about ends
    if let Some(end) = ends
        .iter()
        .rev()
        .max_by_key(|event| ends_at(&event.crossing))
    {
        let kind = if touches { Kind::Touch } else { Kind::End };
        points.push(Event {
            crossing: end.crossing,
            kind,
        });
        return;
    }
    // two crossings that the tolerance cannot tell apart: a touch halfway
    let (from, to) = (first_event.crossing, last_event.crossing);
    let crossing = Crossing {
        point: from.point.midpoint(to.point),
        on_first: f64::midpoint(from.on_first, to.on_first),
        on_second: f64::midpoint(from.on_second, to.on_second),
    };
    let kind = if group.len() > 1 {
        Kind::Touch
    } else {
        first_event.kind
    };
    points.push(Event { crossing, kind });
}

/// The stretch from the first to the last of the ends, cut where the second segment, a closed circle,
/// has its own start inside it.
fn push_stretches(
    first: &Segment,
    second: &Segment,
    ends: &[&Event],
    stretches: &mut Vec<Stretch>,
) {
    let mut places: Vec<Crossing> = Vec::new();
    for event in ends {
        let here = event.crossing;
        match places.last_mut() {
            Some(last)
                if (here.on_first - last.on_first) * first.length()
                    <= 2.0 * tolerance::SAME_POINT =>
            {
                // one place: keep the event that says most about ends
                if ends_at(&here) > ends_at(last) {
                    *last = here;
                }
            }
            _ => places.push(here),
        }
    }
    let is_circle = matches!(second, Segment::Arc(arc) if arc.is_circle());
    let last = places.len().saturating_sub(1);
    let cuts: Vec<Crossing> = places
        .iter()
        .enumerate()
        .filter(|(index, place)| {
            *index == 0 || *index == last || (is_circle && is_end(place.on_second))
        })
        .map(|(_, place)| *place)
        .collect();
    for pair in cuts.windows(2) {
        if let [from, to] = pair {
            stretches.push(with_side_of_seam(first, second, *from, *to));
        }
    }
}

fn is_end(fraction: f64) -> bool {
    fraction == 0.0 || fraction == 1.0
}

/// How many of the two segments end at the crossing; the first counts double.
fn ends_at(crossing: &Crossing) -> u8 {
    2 * u8::from(is_end(crossing.on_first)) + u8::from(is_end(crossing.on_second))
}

/// The stretch with the fractions on a closed circle read on the side of its seam where the stretch
/// lies.
fn with_side_of_seam(
    first: &Segment,
    second: &Segment,
    mut from: Crossing,
    mut to: Crossing,
) -> Stretch {
    if matches!(second, Segment::Arc(arc) if arc.is_circle()) {
        let middle = first.point_at(f64::midpoint(from.on_first, to.on_first));
        if let Some(inside) = fraction_towards(second, middle) {
            for crossing in [&mut from, &mut to] {
                if is_end(crossing.on_second) {
                    // a stretch from seam to seam is the whole circle: its ends are told by direction
                    crossing.on_second = inside.round();
                }
            }
            if from.on_second == to.on_second {
                let quarter = first.point_at(from.on_first + (to.on_first - from.on_first) / 4.0);
                let rising = fraction_towards(second, quarter).is_some_and(|t| t < inside);
                (from.on_second, to.on_second) = if rising { (0.0, 1.0) } else { (1.0, 0.0) };
            }
        }
    }
    Stretch { from, to }
}
