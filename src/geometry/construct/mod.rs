//! Constructions: fillets and chamfers (stand-in until the full set lands).

use super::Arc;
use super::Line;
use super::Point;
use super::Segment;
use super::Turn;
use super::number;
use super::tolerance;

/// Why a corner cannot be worked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CornerFault {
    /// The segments run on tangent.
    NoCorner,
    /// Too large for the segments beside it.
    TooLarge {
        /// The largest that fits.
        largest: f64,
    },
}

/// A corner rounded.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fillet {
    /// What is left of the segment that arrives.
    pub before: Segment,
    /// The rounding.
    pub arc: Arc,
    /// What is left of the segment that leaves.
    pub after: Segment,
}

/// A corner cut off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chamfer {
    /// What is left of the segment that arrives.
    pub before: Segment,
    /// The cut.
    pub line: Line,
    /// What is left of the segment that leaves.
    pub after: Segment,
}

/// Rounds a corner.
///
/// # Errors
/// [`CornerFault`].
pub fn fillet(before: &Segment, after: &Segment, radius: f64) -> Result<Fillet, CornerFault> {
    let cross = before.direction_at(1.0).cross(after.direction_at(0.0));
    if cross.abs() <= tolerance::SAME_DIRECTION {
        return Err(CornerFault::NoCorner);
    }
    let sign = cross.signum();
    try_fillet(before, after, radius * sign).ok_or_else(|| {
        let (mut low, mut high) = (0.0, radius);
        for _ in 0..200 {
            let middle = f64::midpoint(low, high);
            if try_fillet(before, after, middle * sign).is_some() {
                low = middle
            } else {
                high = middle
            }
        }
        CornerFault::TooLarge { largest: low }
    })
}

fn try_fillet(before: &Segment, after: &Segment, signed: f64) -> Option<Fillet> {
    let corner = before.end();
    let centres = match (before, after) {
        (Segment::Line(a), Segment::Line(b)) => {
            let (n, m) = (
                number::left_normal(a.direction()),
                number::left_normal(b.direction()),
            );
            let det = n.cross(m);
            vec![corner + kurbo::Vec2::new(signed * (m.y - n.y) / det, signed * (n.x - m.x) / det)]
        }
        (Segment::Line(line), Segment::Arc(arc)) | (Segment::Arc(arc), Segment::Line(line)) => {
            let (u, n) = (line.direction(), number::left_normal(line.direction()));
            let base = corner + n * signed;
            let reach = arc.signed_radius() - signed;
            let half = u.dot(base - arc.centre());
            let rest = (base - arc.centre()).dot(base - arc.centre()) - reach * reach;
            let root = (half * half - rest).sqrt();
            vec![base + u * (-half - root), base + u * (-half + root)]
        }
        (Segment::Arc(a), Segment::Arc(b)) => {
            let between = b.centre() - a.centre();
            let d = number::length(between);
            let (ra, rb) = (a.signed_radius() - signed, b.signed_radius() - signed);
            let along = (d * d + ra * ra - rb * rb) / (2.0 * d);
            let across = (ra * ra - along * along).sqrt();
            let unit = between / d;
            let foot = a.centre() + unit * along;
            vec![
                foot + number::left_normal(unit) * across,
                foot - number::left_normal(unit) * across,
            ]
        }
    };
    let touch = |segment: &Segment, centre: Point| match segment {
        Segment::Line(line) => centre - number::left_normal(line.direction()) * signed,
        Segment::Arc(arc) => {
            let ratio = arc.signed_radius() / (arc.signed_radius() - signed);
            arc.centre() + (centre - arc.centre()) * ratio
        }
    };
    let centre = centres
        .into_iter()
        .filter(|c| c.is_finite())
        .min_by(|a, b| (*a - corner).hypot2().total_cmp(&(*b - corner).hypot2()))?;
    let (start, end) = (touch(before, centre), touch(after, centre));
    let (a, b) = (fraction(before, start)?, fraction(after, end)?);
    let arc = Arc::from_centre(start, end, centre, Turn::of_sign(signed));
    Some(Fillet {
        before: before.part(0.0, a).with_ends(before.start(), start),
        arc,
        after: after.part(b, 1.0).with_ends(end, after.end()),
    })
}

fn fraction(segment: &Segment, point: Point) -> Option<f64> {
    match segment {
        Segment::Line(line) => {
            let t = line.direction().dot(point - line.start) / line.length();
            let slack = tolerance::SAME_POINT / line.length();
            (t >= -slack && t <= 1.0 + slack).then(|| t.clamp(0.0, 1.0))
        }
        Segment::Arc(arc) => arc.fraction_towards(point),
    }
}

/// Cuts a corner off.
///
/// # Errors
/// [`CornerFault`].
pub fn chamfer(
    before: &Segment,
    after: &Segment,
    arriving: f64,
    leaving: f64,
) -> Result<Chamfer, CornerFault> {
    let back = before.reversed();
    let at = |segment: &Segment, distance: f64| match segment {
        Segment::Line(line) => distance / line.length(),
        Segment::Arc(arc) => {
            2.0 * number::arcsin(distance / (2.0 * arc.radius())) / arc.sweep().abs()
        }
    };
    let (a, b) = (1.0 - at(&back, arriving), at(after, leaving));
    if a < 0.0 || b > 1.0 {
        return Err(CornerFault::TooLarge {
            largest: before.length().min(after.length()),
        });
    }
    let (before, after) = (before.part(0.0, a), after.part(b, 1.0));
    Ok(Chamfer {
        before,
        line: Line::new(before.end(), after.start()),
        after,
    })
}
