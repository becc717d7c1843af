//! Fillets: arcs tangent to both edges of a corner.

use super::corner::Corner;
use super::error::ConstructError;
use crate::geometry::Arc;
use crate::geometry::GeometryError;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Turn;
use crate::geometry::Vec2;
use crate::geometry::number;
use crate::geometry::tolerance;

/// A corner rounded off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fillet {
    /// What is left of the edge before; `None` when the arc uses it up.
    pub before: Option<Segment>,
    /// The arc, tangent to both edges. It turns the way the corner did.
    pub arc: Arc,
    /// What is left of the edge after; `None` when the arc uses it up.
    pub after: Option<Segment>,
}

/// The fillet of `radius` between two segments, lines or arcs, of which the second starts where the
/// first ends. A corner that turns left gets an anticlockwise arc, one that turns right a clockwise one.
/// Of several such arcs it is the one that grows out of the corner as the radius grows from nothing.
///
/// # Accuracy
/// Exact up to rounding, at any distance from the origin and for corners that are nearly smooth: the
/// equations are solved relative to the corner, in a form without differences of nearly equal numbers.
/// Radii of more than a thousand times the edges lose digits in proportion.
///
/// # Errors
/// [`ConstructError::FilletTooLarge`] with the largest radius that fits,
/// [`ConstructError::NoCorner`] for edges that meet smoothly, [`ConstructError::DoublesBack`],
/// [`ConstructError::NotJoined`], and [`GeometryError::NotUsable`] for a radius that is none.
///
/// # Example
/// ```
/// use kerfwise::geometry::Point;
/// use kerfwise::geometry::Segment;
/// use kerfwise::geometry::construct::fillet;
///
/// let corner = Point::new(100.0, 0.0);
/// let bottom = Segment::line(Point::ORIGIN, corner);
/// let side = Segment::line(corner, Point::new(100.0, 50.0));
/// let round = fillet(&bottom, &side, 12.0)?;
/// assert_eq!(round.arc.centre(), Point::new(88.0, 12.0));
/// let refused = fillet(&bottom, &side, 60.0).unwrap_err();
/// assert!(refused.to_string().ends_with("the largest that fits here is 50.0000 mm"));
/// # Ok::<(), kerfwise::geometry::construct::ConstructError>(())
/// ```
///
/// # Source
/// Derived here. With the corner as origin, n₁ and n₂ the left normals, κ₁ and κ₂ the curvatures and ρ
/// the signed radius, the centre w satisfies w·nᵢ = ρ + κᵢq/2, where q = w·w − ρ² is the square of the
/// tangent from the corner: two linear equations, and a quadratic for q. For lines it gives the tangent
/// length ρ·tan(Δ/2) of Engineering Surveying, 6th ed., §10.1.
pub fn fillet(before: &Segment, after: &Segment, radius: f64) -> Result<Fillet, ConstructError> {
    check_radius(radius)?;
    let corner = Corner::between(before, after)?;
    let frame = Frame::new(&corner);
    let Some(placed) = frame.place(radius) else {
        return Err(ConstructError::FilletTooLarge {
            radius,
            largest: frame.largest(),
        });
    };
    let turn = Turn::of_sign(corner.turn);
    let arc = Arc::from_centre(placed.from, placed.to, placed.centre, turn);
    if arc.length() < tolerance::SHORTEST_SEGMENT {
        return Err(ConstructError::NoCorner { at: corner.at });
    }
    Ok(Fillet {
        before: corner.before_until(placed.from),
        arc,
        after: corner.after_from(placed.to),
    })
}

/// The largest radius of a fillet between the two segments, in millimetres; no more than
/// [`tolerance::LARGEST_COORDINATE`], which an arc that runs out of two bulging edges can reach.
///
/// # Errors
/// As [`fillet`], but never too large.
pub fn largest_fillet(before: &Segment, after: &Segment) -> Result<f64, ConstructError> {
    let corner = Corner::between(before, after)?;
    Ok(Frame::new(&corner).largest())
}

pub(super) fn check_radius(radius: f64) -> Result<(), GeometryError> {
    if radius > 0.0 && radius <= tolerance::LARGEST_COORDINATE {
        Ok(())
    } else {
        Err(GeometryError::NotUsable {
            what: "radius",
            value: radius,
        })
    }
}

/// A fillet's arc.
struct Placed {
    centre: Point,
    from: Point,
    to: Point,
}

/// The corner in numbers: the tangent of half the turn, and the two curvatures.
struct Frame<'a> {
    corner: &'a Corner,
    /// Left normals of the edges at the corner.
    normals: [Vec2; 2],
    curvatures: [f64; 2],
    tangent: f64,
}

impl<'a> Frame<'a> {
    fn new(corner: &'a Corner) -> Self {
        // exactly 1 at a square corner, and good for sharp and for nearly smooth ones
        let (sine, cosine) = (
            corner.arriving.cross(corner.leaving),
            corner.arriving.dot(corner.leaving),
        );
        let tangent = if cosine >= 0.0 {
            sine / (1.0 + cosine)
        } else {
            (1.0 - cosine) / sine
        };
        Self {
            corner,
            normals: [corner.arriving, corner.leaving].map(number::left_normal),
            curvatures: [corner.before.curvature(), corner.after.curvature()],
            tangent,
        }
    }

    /// The signed radius of a fillet at this corner.
    fn signed(&self, radius: f64) -> f64 {
        radius * Turn::of_sign(self.corner.turn).sign()
    }

    /// Half the sum and half the difference of the curvatures; and by how much the two answers for a
    /// centre part, in proportion to the radius.
    fn bends(&self) -> (f64, f64, f64) {
        let [first, second] = self.curvatures;
        let (mean, difference) = (f64::midpoint(first, second), (first - second) / 2.0);
        let square = self.tangent * self.tangent;
        let spread = (1.0 + square) * (difference * difference + mean * mean * square);
        (mean, difference, spread.sqrt())
    }

    /// Centre of the fillet relative to the corner; `None` beyond the radius at which the two answers
    /// for it become one.
    fn centre(&self, radius: f64) -> Option<Vec2> {
        let signed = self.signed(radius);
        let tangent = self.tangent;
        let (mean, difference, spread) = self.bends();
        // q² (…) − q g + (ρ tan)² = 0, of which the smaller root
        let linear = 1.0 - signed * mean * (1.0 + tangent * tangent);
        let root = (linear - radius * spread) * (linear + radius * spread);
        if linear <= 0.0 || root < 0.0 {
            return None;
        }
        let scale = signed * signed / f64::midpoint(linear, root.sqrt());
        let along = scale * tangent * difference / 2.0;
        let across = signed + scale * tangent * tangent * mean / 2.0;
        // the bisector of the directions and its left normal, both longer than 1 alike
        let [normal, _] = self.normals;
        let bisector = self.corner.arriving + normal * tangent;
        let centre = bisector * along + number::left_normal(bisector) * across;
        Some(self.polished(centre, signed))
    }

    /// The centre brought nearer to where both edges want it, as far as Newton's method does: a radius a
    /// thousand times that of the edges costs the closed form as many digits.
    fn polished(&self, mut centre: Vec2, signed: f64) -> Vec2 {
        if self.curvatures == [0.0, 0.0] {
            return centre; // exact as it is
        }
        for _ in 0..3 {
            let [(one, first), (other, second)] = self.misfits(centre, signed);
            let cross = one.cross(other);
            let step = number::left_normal(other * first - one * second) / cross;
            let next = centre + step;
            let worst = |at: Vec2| self.misfits(at, signed).map(|(_, misfit)| misfit.abs());
            let [reached, before] = [next, centre].map(|at| f64::max(worst(at)[0], worst(at)[1]));
            // a step that is no number does not help either
            if reached.is_nan() || reached >= before {
                break;
            }
            centre = next;
        }
        centre
    }

    /// For each edge, how far the centre is off, and in which direction that grows.
    fn misfits(&self, centre: Vec2, signed: f64) -> [(Vec2, f64); 2] {
        let [first, second] = self.normals;
        let [one, other] = self.curvatures;
        [(first, one), (second, other)].map(|(normal, curvature)| {
            if curvature == 0.0 {
                return (normal, centre.dot(normal) - signed);
            }
            let own = 1.0 / curvature;
            let from_own = centre - normal * own;
            let distance = number::length(from_own);
            (from_own / distance, distance - (own - signed).abs())
        })
    }

    /// The fillet of this radius, if it fits on both edges.
    fn place(&self, radius: f64) -> Option<Placed> {
        let signed = self.signed(radius);
        let centre = self.centre(radius)?;
        let [first, second] = [0, 1].map(|edge| self.foot(edge, centre, signed));
        let (first, second) = (first?, second?);
        let fits = |segment: &Segment, used: f64| used <= segment.length() + tolerance::SAME_POINT;
        if !fits(&self.corner.before, first.used) || !fits(&self.corner.after, second.used) {
            return None;
        }
        let [before, after] = self.curvatures;
        let turned = self.corner.turn + first.used * before + second.used * after;
        // it turns one way, and less than once round
        if turned * signed <= 0.0 || turned.abs() >= number::FULL_TURN {
            return None;
        }
        let at = self.corner.at;
        let snapped = |used: f64, segment: &Segment, end: Point, point: Vec2| {
            let whole = (segment.length() - used).abs() <= tolerance::SAME_POINT;
            if whole { end } else { at + point }
        };
        Some(Placed {
            centre: at + centre,
            from: snapped(
                first.used,
                &self.corner.before,
                self.corner.before.start(),
                first.point,
            ),
            to: snapped(
                second.used,
                &self.corner.after,
                self.corner.after.end(),
                second.point,
            ),
        })
    }

    /// Where the circle about `centre` touches one of the edges, relative to the corner.
    fn foot(&self, edge: usize, centre: Vec2, signed: f64) -> Option<Foot> {
        let normal = *self.normals.get(edge)?;
        let curvature = *self.curvatures.get(edge)?;
        // away from the edge's own centre, for a line to its right
        let outward = number::normalized(
            (centre * curvature - normal) * (1.0 - signed * curvature).signum(),
        )?;
        let point = centre + outward * signed;
        // the first edge is used backwards from the corner
        let way = if edge == 0 { -1.0 } else { 1.0 };
        let direction = -number::left_normal(normal) * way;
        let used = if curvature == 0.0 {
            point.dot(direction)
        } else {
            let turn = number::turn(-normal, outward) * way * curvature.signum();
            let around = number::positive_angle(turn);
            let slack = tolerance::SAME_DIRECTION;
            let forward = if around > number::FULL_TURN - slack {
                0.0
            } else {
                around
            };
            forward / curvature.abs()
        };
        (used >= -tolerance::SAME_POINT).then_some(Foot { point, used })
    }

    /// The largest radius that fits. Between the radii at which something happens (an edge used up, the
    /// two answers become one) all fit or none does.
    fn largest(&self) -> f64 {
        // what is larger than the last is refused anyway, and its numbers would mean nothing
        let last = tolerance::LARGEST_COORDINATE;
        let mut limits: Vec<f64> = [self.used_up(0), self.used_up(1), self.last_answer(), last]
            .into_iter()
            .filter(|limit| *limit > 0.0 && *limit <= last)
            .collect();
        limits.sort_by(f64::total_cmp);
        let mut largest = 0.0;
        for limit in limits {
            if self.place(f64::midpoint(largest, limit)).is_none() {
                break;
            }
            largest = limit;
        }
        largest
    }

    /// The radius of the circle that touches one edge at its far end and the other anywhere.
    fn used_up(&self, edge: usize) -> f64 {
        let corner = self.corner;
        let (end, direction) = if edge == 0 {
            (corner.before.start(), corner.before.direction_at(0.0))
        } else {
            (corner.after.end(), corner.after.direction_at(1.0))
        };
        let (Some(normal), Some(curvature)) =
            (self.normals.get(1 - edge), self.curvatures.get(1 - edge))
        else {
            return f64::NAN;
        };
        let from_corner = end - corner.at;
        let outward = -number::left_normal(direction);
        let above = curvature * from_corner.dot(from_corner) - 2.0 * normal.dot(from_corner);
        let below = curvature * outward.dot(from_corner) - outward.dot(*normal) - 1.0;
        self.signed(above / (2.0 * below))
    }

    /// The radius at which the two circles that touch both edges become one.
    fn last_answer(&self) -> f64 {
        let (mean, _, spread) = self.bends();
        let square = self.tangent * self.tangent;
        1.0 / (self.signed(mean) * (1.0 + square) + spread)
    }
}

/// Where a fillet touches an edge, and how much of the edge it uses.
struct Foot {
    point: Vec2,
    used: f64,
}

#[cfg(test)]
mod tests;
