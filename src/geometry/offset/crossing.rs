//! Where two curves cross or touch.

use crate::geometry::Point;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;

use super::curve::Curve;
use super::curve::Round;
use super::curve::Shape;

/// A common point of two curves and how far along each it lies, in millimetres.
#[derive(Clone, Copy, Debug)]
pub(super) struct Crossing {
    pub(super) at: Point,
    pub(super) along: [f64; 2],
}

/// Appends the common points of two curves: proper crossings, and ends that lie on the other curve
/// within [`tolerance::OFFSET_TOUCH`]. Curves that coincide over a length give the ends of that
/// length.
///
/// # Accuracy
/// Rounding, divided by the sine of the angle between the curves.
pub(super) fn crossings(a: &Curve, b: &Curve, found: &mut Vec<Crossing>) {
    let first = found.len();
    match (a.shape(), b.shape()) {
        (
            Shape::Line { direction, .. },
            Shape::Line {
                direction: other, ..
            },
        ) => {
            line_line(a, direction, b, other, found);
        }
        (Shape::Line { direction, .. }, Shape::Arc(round)) => {
            for point in line_circle(a.start, direction, &round)
                .into_iter()
                .flatten()
            {
                keep_if_on_both(a, b, point, found);
            }
        }
        (Shape::Arc(round), Shape::Line { direction, .. }) => {
            for point in line_circle(b.start, direction, &round)
                .into_iter()
                .flatten()
            {
                keep_if_on_both(a, b, point, found);
            }
        }
        (Shape::Arc(one), Shape::Arc(two)) => {
            for point in circle_circle(&one, &two).into_iter().flatten() {
                keep_if_on_both(a, b, point, found);
            }
        }
    }
    touches(a, b, first, found);
}

fn line_line(a: &Curve, u: Vec2, b: &Curve, v: Vec2, found: &mut Vec<Crossing>) {
    let sine = u.cross(v);
    if sine.abs() < 1e-14 {
        return;
    }
    let apart = b.start - a.start;
    let slack = tolerance::OFFSET_TOUCH;
    let along = [apart.cross(v) / sine, apart.cross(u) / sine];
    if within(a, along[0], slack) && within(b, along[1], slack) {
        let held = [hold(a, along[0]), hold(b, along[1])];
        found.push(Crossing {
            at: a.start + u * held[0],
            along: held,
        });
    }
}

fn within(line: &Curve, along: f64, slack: f64) -> bool {
    let Shape::Line { length, .. } = line.shape() else {
        return false;
    };
    along >= -slack && along <= length + slack
}

fn hold(line: &Curve, along: f64) -> f64 {
    match line.shape() {
        Shape::Line { length, .. } => along.max(0.0).min(length),
        Shape::Arc(_) => along,
    }
}

/// The points that a line and a circle share.
pub(super) fn line_circle(start: Point, direction: Vec2, round: &Round) -> [Option<Point>; 2] {
    let to_centre = round.centre - start;
    let foot = to_centre.dot(direction);
    let height = to_centre.cross(direction);
    // measured from the foot on the circle's side, so that a far start loses nothing
    let middle = round.centre + number::left_normal(direction) * height;
    let square = (round.radius - height) * (round.radius + height);
    let touch = tolerance::OFFSET_TOUCH;
    if square <= 0.0 {
        let misses = height.abs() - round.radius > touch;
        return [(!misses).then_some(start + direction * foot), None];
    }
    let half = direction * square.sqrt();
    [Some(middle - half), Some(middle + half)]
}

/// The points that two circles share; none for one circle twice.
pub(super) fn circle_circle(one: &Round, two: &Round) -> [Option<Point>; 2] {
    // measured from the smaller: from the centre of a very flat arc half the digits would be lost
    if one.radius > two.radius {
        return circle_circle(two, one);
    }
    let apart = two.centre - one.centre;
    let distance = number::length(apart);
    let touch = tolerance::OFFSET_TOUCH;
    let Some(direction) = number::normalized(apart) else {
        return [None, None];
    };
    if distance < touch {
        return [None, None];
    }
    let (r, s) = (one.radius, two.radius);
    if distance > r + s + touch || distance < (r - s).abs() - touch {
        return [None, None];
    }
    // distance of the common chord from the first centre
    let along = ((distance - s) * (distance + s) + r * r) / (2.0 * distance);
    let square = (r - along) * (r + along);
    let middle = one.centre + direction * along.clamp(-r, r);
    if square <= 0.0 {
        return [Some(middle), None];
    }
    let half = number::left_normal(direction) * square.sqrt();
    [Some(middle - half), Some(middle + half)]
}

/// The other point that the carriers of two curves through `joint` share. Exact where they cross at a
/// small angle, unlike a crossing computed without that knowledge.
fn second_crossing(a: &Curve, b: &Curve, joint: Point) -> Option<Point> {
    match (a.shape(), b.shape()) {
        (Shape::Line { .. }, Shape::Line { .. }) => None,
        (Shape::Line { direction, .. }, Shape::Arc(round))
        | (Shape::Arc(round), Shape::Line { direction, .. }) => {
            Some(joint + direction * (2.0 * (round.centre - joint).dot(direction)))
        }
        (Shape::Arc(one), Shape::Arc(two)) => {
            let nearer = if one.radius < two.radius { one } else { two };
            // mirrored in the line through the centres
            let across = number::left_normal(number::normalized(two.centre - one.centre)?);
            Some(joint + across * (2.0 * (nearer.centre - joint).dot(across)))
        }
    }
}

/// Whether two curves that share an end, or both, meet elsewhere too, further than `slack` from there.
pub(super) fn neighbours_meet(
    one: &Curve,
    two: &Curve,
    joints: [Option<Point>; 2],
    slack: f64,
) -> bool {
    let at = |point: Point, joint: Option<Point>| {
        joint.is_some_and(|joint| {
            let away = point - joint;
            away.dot(away) <= slack * slack
        })
    };
    let at_joint = |point: Point| at(point, joints[0]) || at(point, joints[1]);
    let lies_on = |point: Point, curve: &Curve| curve.distance(point) <= tolerance::OFFSET_TOUCH;
    let ends = [
        (one.start, two),
        (one.end, two),
        (two.start, one),
        (two.end, one),
    ];
    if ends
        .into_iter()
        .any(|(end, curve)| !at_joint(end) && lies_on(end, curve))
    {
        return true;
    }
    joints.into_iter().flatten().any(|joint| {
        second_crossing(one, two, joint)
            .is_some_and(|point| !at_joint(point) && lies_on(point, one) && lies_on(point, two))
    })
}

/// Keeps a common point of the two whole carriers if it lies on both curves.
fn keep_if_on_both(a: &Curve, b: &Curve, point: Point, found: &mut Vec<Crossing>) {
    if let (Some(first), Some(second)) = (place_on(a, point), place_on(b, point)) {
        found.push(Crossing {
            at: point,
            along: [first, second],
        });
    }
}

/// How far along the curve a point of its carrier lies, if it is on the curve.
fn place_on(curve: &Curve, point: Point) -> Option<f64> {
    let slack = tolerance::OFFSET_TOUCH;
    if let Shape::Arc(round) = curve.shape()
        && !round.covers(point - round.centre)
    {
        let near = |end: Point| number::length(point - end) <= slack;
        if near(curve.start) {
            return Some(0.0);
        }
        return near(curve.end).then(|| curve.length());
    }
    let along = curve.along(point);
    let length = curve.length();
    (along >= -slack && along <= length + slack).then(|| along.max(0.0).min(length))
}

/// Adds the ends of each that lie on the other, unless found already.
fn touches(a: &Curve, b: &Curve, first: usize, found: &mut Vec<Crossing>) {
    let touch = tolerance::OFFSET_TOUCH;
    for (end, own) in [(a.start, 0.0), (a.end, f64::INFINITY)] {
        if b.distance(end) <= touch {
            let along = [own.min(a.length()), held(b, end)];
            add_if_new(end, along, first, found);
        }
    }
    for (end, own) in [(b.start, 0.0), (b.end, f64::INFINITY)] {
        if a.distance(end) <= touch {
            let along = [held(a, end), own.min(b.length())];
            add_if_new(end, along, first, found);
        }
    }
}

fn held(curve: &Curve, point: Point) -> f64 {
    curve.along(point).max(0.0).min(curve.length())
}

fn add_if_new(at: Point, along: [f64; 2], first: usize, found: &mut Vec<Crossing>) {
    let known = found[first..]
        .iter()
        .any(|crossing| number::length(crossing.at - at) <= tolerance::OFFSET_TOUCH);
    if !known {
        found.push(Crossing { at, along });
    }
}
