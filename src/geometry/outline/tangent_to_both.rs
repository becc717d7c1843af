//! An arc tangent to its two straight neighbours, which it cuts short: arched openings, full-round
//! ends.

use super::entry::BothFixedBy;
use super::error::OutlineFault;
use crate::geometry::Arc;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::Turn;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;

/// The arc between two straight neighbours, and the neighbours cut short.
#[derive(Clone, Copy, Debug)]
pub(super) struct Between {
    pub(super) before: Line,
    pub(super) arc: Arc,
    pub(super) after: Line,
}

/// A directed line a·x = b in normal form: points p with n·p = offset, n the left normal of travel.
/// A directed circle of signed radius r about c touches it when n·c − r = offset.
#[derive(Clone, Copy, Debug)]
struct NormalForm {
    normal: Vec2,
    offset: f64,
}

impl NormalForm {
    fn of(at: Point, direction: Vec2) -> Self {
        let normal = number::left_normal(direction);
        Self {
            normal,
            offset: normal.dot(at.to_vec2()),
        }
    }
}

/// The arc tangent to `before`, which ends at one corner, and `after`, which starts at the other.
pub(super) fn between(
    before: Line,
    after: Line,
    fixed_by: BothFixedBy,
    names: (&str, &str),
) -> Result<Between, OutlineFault> {
    // about the first corner, so that a part far from the origin loses no digits
    let origin = before.end.to_vec2();
    let local = |line: Line| Line::new(line.start - origin, line.end - origin);
    let (first, second) = (local(before), local(after));
    let (centre, radius) = match fixed_by {
        BothFixedBy::Radius(radius) => of_radius(first, second, radius)?,
        BothFixedBy::Crown(height) => of_crown(first, second, height)?,
        BothFixedBy::Through(point) => of_point(first, second, point - origin)?,
    };
    let touch = |line: Line| centre - number::left_normal(line.direction()) * radius;
    let (start, end) = (touch(first), touch(second));
    check_inside(first, start, origin, names.0)?;
    check_inside(second, end, origin, names.1)?;
    let turn = Turn::of_sign(radius);
    let arc = Arc::from_centre(start + origin, end + origin, centre + origin, turn);
    Ok(Between {
        before: Line::new(before.start, arc.start()),
        arc,
        after: Line::new(arc.end(), after.end),
    })
}

/// Centre and signed radius, given the size of the radius.
fn of_radius(first: Line, second: Line, radius: f64) -> Result<(Point, f64), OutlineFault> {
    super::edge::check_positive("radius", radius)?;
    let (u, v) = (first.direction(), second.direction());
    if u.cross(v).abs() <= tolerance::SAME_DIRECTION {
        // parallel: the radius is fixed, and then any place along the sides serves; the arc is put
        // where it touches the nearer corner
        let apart = number::left_normal(u).dot(second.start - first.end);
        if (apart.abs() / 2.0 - radius).abs() > tolerance::SAME_POINT {
            return Err(OutlineFault::ParallelNeighbours {
                apart: apart.abs(),
                radius,
            });
        }
        let signed = apart / 2.0;
        let nearer = u.dot(second.start - first.end).min(0.0);
        return Ok((
            first.end + u * nearer + number::left_normal(u) * signed,
            signed,
        ));
    }
    let signed = radius * u.cross(v).signum();
    let (a, b) = (
        NormalForm::of(first.end, u),
        NormalForm::of(second.start, v),
    );
    let centre = solve_two(a, b, signed);
    Ok((centre, signed))
}

/// Centre and signed radius, given the height over the line between the corners: a circle tangent
/// to three lines.
fn of_crown(first: Line, second: Line, height: f64) -> Result<(Point, f64), OutlineFault> {
    if !(0.0..=tolerance::LARGEST_COORDINATE).contains(&height) {
        return Err(OutlineFault::NotPositive {
            what: "crown",
            value: height,
        });
    }
    let (u, v) = (first.direction(), second.direction());
    let chord = number::normalized(second.start - first.end).ok_or(OutlineFault::NoArcBetween)?;
    // the arc bulges to the outside of the turn from the one side to the other
    let bulge = -turn_between(u, v, chord);
    let crown = first.end + number::left_normal(chord) * (bulge * height);
    let lines = [
        NormalForm::of(first.end, u),
        NormalForm::of(crown, chord),
        NormalForm::of(second.start, v),
    ];
    let [p, q, s] = lines;
    // n·c − r = offset for each: subtract the first from the others, and r drops out
    let (m, n) = (q.normal - p.normal, s.normal - p.normal);
    let determinant = m.cross(n);
    if determinant.abs() <= tolerance::SAME_DIRECTION {
        return Err(OutlineFault::NoArcBetween);
    }
    let (g, h) = (q.offset - p.offset, s.offset - p.offset);
    let centre = Point::new(
        (g * n.y - h * m.y) / determinant,
        (m.x * h - n.x * g) / determinant,
    );
    let signed = p.normal.dot(centre.to_vec2()) - p.offset;
    if signed * -bulge <= 0.0 {
        return Err(OutlineFault::NoArcBetween);
    }
    Ok((centre, signed))
}

/// Centre and signed radius, given a point on the arc.
fn of_point(first: Line, second: Line, point: Point) -> Result<(Point, f64), OutlineFault> {
    let (u, v) = (first.direction(), second.direction());
    let (a, b) = (
        NormalForm::of(first.end, u),
        NormalForm::of(second.start, v),
    );
    let candidates = if u.cross(v).abs() <= tolerance::SAME_DIRECTION {
        let signed = number::left_normal(u).dot(second.start - first.end) / 2.0;
        let base = first.end + number::left_normal(u) * signed;
        // |base + t u − point| = |r|
        let from = base - point;
        let (half, rest) = (u.dot(from), from.dot(from) - signed * signed);
        roots(1.0, half, rest).map(|t| (base + u * t, signed))
    } else {
        // the centre moves on a straight line as the radius grows: c = c₀ + r w
        let at_zero = solve_two(a, b, 0.0);
        let along = solve_two(a, b, 1.0) - at_zero;
        let from = at_zero - point;
        roots(along.dot(along) - 1.0, along.dot(from), from.dot(from))
            .map(|radius| (at_zero + along * radius, radius))
    };
    let touches = |&(centre, radius): &(Point, f64)| {
        let touch = |line: Line| centre - number::left_normal(line.direction()) * radius;
        let arc = Arc::from_centre(touch(first), touch(second), centre, Turn::of_sign(radius));
        radius.is_finite()
            && arc.radius() > 0.0
            && arc.sweep().abs() <= number::FULL_TURN / 2.0 + tolerance::SAME_DIRECTION
            && arc.fraction_towards(point).is_some()
    };
    candidates
        .into_iter()
        .find(touches)
        .ok_or(OutlineFault::NoArcBetween)
}

/// +1 when the arc from direction `u` to direction `v` turns left, −1 right; parallel sides turn
/// towards the chord.
fn turn_between(u: Vec2, v: Vec2, chord: Vec2) -> f64 {
    let cross = u.cross(v);
    if cross.abs() > tolerance::SAME_DIRECTION {
        cross.signum()
    } else {
        u.cross(chord).signum()
    }
}

/// The centre of the circle of signed radius `radius` tangent to both lines.
fn solve_two(a: NormalForm, b: NormalForm, radius: f64) -> Point {
    let determinant = a.normal.cross(b.normal);
    let (g, h) = (a.offset + radius, b.offset + radius);
    Point::new(
        (g * b.normal.y - h * a.normal.y) / determinant,
        (a.normal.x * h - b.normal.x * g) / determinant,
    )
}

/// Both roots of a t² + 2 half t + rest = 0, without cancellation; not-a-number where there is none.
fn roots(a: f64, half: f64, rest: f64) -> [f64; 2] {
    let discriminant = (half * half - a * rest).sqrt();
    let larger = -(half + discriminant.copysign(half));
    [larger / a, rest / larger]
}

fn check_inside(line: Line, touch: Point, origin: Vec2, name: &str) -> Result<(), OutlineFault> {
    let along = line.direction().dot(touch - line.start);
    let beyond = (along - line.length()).max(-along);
    if beyond > tolerance::SAME_POINT || beyond.is_nan() {
        let (neighbour, at) = (name.to_owned(), touch + origin);
        return Err(OutlineFault::TouchesBeyond {
            neighbour,
            beyond,
            at,
        });
    }
    Ok(())
}
