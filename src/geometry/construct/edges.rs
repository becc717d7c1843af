//! Fillets and chamfers between edges of several pieces, such as the arcs of a fair curve.

use super::chamfer::Setbacks;
use super::chamfer::chamfer;
use super::chamfer::point_at_chord;
use super::corner::Corner;
use super::corner::Side;
use super::corner::longest_chord;
use super::corner::trimmed_end;
use super::directed::Carrier;
use super::directed::DirectedCircle;
use super::error::ConstructError;
use super::fillet::fillet;
use super::fillet::largest_fillet;
use super::tangent_circle::with_radius;
use crate::geometry::Arc;
use crate::geometry::Circle;
use crate::geometry::Line;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Turn;
use crate::geometry::intersect::arc_arc;
use crate::geometry::intersect::line_arc;
use crate::geometry::number;
use crate::geometry::tolerance;

/// What a worked corner leaves of an edge: all pieces on the far side of `piece`, and `left` of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rest {
    /// The piece that the corner cuts into, counted from the start of the edge.
    pub piece: usize,
    /// What is left of that piece; `None` when nothing is.
    pub left: Option<Segment>,
}

/// A corner between two edges, worked.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WorkedCorner {
    /// Of the edge that runs up to the corner.
    pub before: Rest,
    /// The rounding or the new straight edge.
    pub worked: Segment,
    /// Of the edge that leaves the corner.
    pub after: Rest,
}

/// The fillet of `radius` between two edges, each a run of segments that join smoothly, of which the second
/// starts where the first ends. It is [`fillet`] where that fits on the two pieces at the corner, and else the
/// nearest arc that touches one piece of each.
///
/// # Accuracy
/// As [`fillet`], and beyond the first pieces as [`with_radius`].
///
/// # Errors
/// As [`fillet`]; the largest radius is found by halving, to a millionth of itself.
pub fn fillet_between_edges(
    before: &[Segment],
    after: &[Segment],
    radius: f64,
) -> Result<WorkedCorner, ConstructError> {
    let edges = Edges::new(before, after)?;
    match fillet(edges.last, edges.first, radius) {
        Ok(found) => Ok(WorkedCorner {
            before: edges.rest_before(0, found.before),
            worked: found.arc.into(),
            after: edges.rest_after(0, found.after),
        }),
        Err(ConstructError::FilletTooLarge { .. }) => {
            edges
                .further_fillet(radius)
                .ok_or_else(|| ConstructError::FilletTooLarge {
                    radius,
                    largest: edges.largest(radius),
                })
        }
        Err(error) => Err(error),
    }
}

/// The chamfer between two edges, each a run of segments, of which the second starts where the first ends. A
/// setback is measured straight from the corner to the first point of the edge at that distance.
///
/// # Accuracy
/// As the crossings of [`intersect`](crate::geometry::intersect).
///
/// # Errors
/// As [`chamfer`]; the largest setback named is that to the far end of the edge.
pub fn chamfer_between_edges(
    before: &[Segment],
    after: &[Segment],
    setbacks: Setbacks,
) -> Result<WorkedCorner, ConstructError> {
    let edges = Edges::new(before, after)?;
    match chamfer(edges.last, edges.first, setbacks) {
        Ok(found) => Ok(WorkedCorner {
            before: edges.rest_before(0, found.before),
            worked: found.edge.into(),
            after: edges.rest_after(0, found.after),
        }),
        Err(ConstructError::SetbackTooLarge { .. }) => {
            let arriving: Vec<Segment> = before.iter().rev().map(Segment::reversed).collect();
            let (i, from) = set_back(&arriving, setbacks.before, Side::Before)?;
            let (j, to) = set_back(after, setbacks.after, Side::After)?;
            Ok(edges.worked(Line::new(from, to).into(), (i, from), (j, to)))
        }
        Err(error) => Err(error),
    }
}

/// The two edges of a corner; pieces are counted from the corner.
struct Edges<'a> {
    before: &'a [Segment],
    after: &'a [Segment],
    last: &'a Segment,
    first: &'a Segment,
    corner: Corner,
}

impl<'a> Edges<'a> {
    fn new(before: &'a [Segment], after: &'a [Segment]) -> Result<Self, ConstructError> {
        let (Some(last), Some(first)) = (before.last(), after.first()) else {
            let at = before
                .last()
                .or(after.first())
                .map_or(Point::ORIGIN, Segment::end);
            return Err(ConstructError::NotJoined {
                at,
                gap: f64::INFINITY,
            });
        };
        Ok(Self {
            before,
            after,
            last,
            first,
            corner: Corner::between(last, first)?,
        })
    }

    const fn rest_before(&self, from_corner: usize, left: Option<Segment>) -> Rest {
        Rest {
            piece: self.before.len().saturating_sub(1 + from_corner),
            left,
        }
    }

    const fn rest_after(&self, from_corner: usize, left: Option<Segment>) -> Rest {
        Rest {
            piece: from_corner,
            left,
        }
    }

    /// The pieces of both edges counted from the corner, each run away from it.
    fn away(&self, side: Side, from_corner: usize) -> Option<Segment> {
        match side {
            Side::Before => self
                .before
                .iter()
                .rev()
                .nth(from_corner)
                .map(Segment::reversed),
            Side::After => self.after.get(from_corner).copied(),
        }
    }

    /// With what is left of the pieces that are cut at these points.
    fn worked(&self, worked: Segment, from: (usize, Point), to: (usize, Point)) -> WorkedCorner {
        let left = |side, (piece, point): (usize, Point)| {
            let towards = self.away(side, piece)?.reversed();
            trimmed_end(&towards, point)
        };
        let after = left(Side::After, to).map(|piece| piece.reversed());
        WorkedCorner {
            before: self.rest_before(from.0, left(Side::Before, from)),
            worked,
            after: self.rest_after(to.0, after),
        }
    }

    /// The fillet that touches other pieces than the two at the corner: the pair that is nearest to it.
    fn further_fillet(&self, radius: f64) -> Option<WorkedCorner> {
        let pairs = self.before.len() + self.after.len();
        (1..pairs)
            .flat_map(|reach| (0..=reach).map(move |i| (i, reach - i)))
            .find_map(|(i, j)| self.fillet_on(i, j, radius))
    }

    /// The fillet that touches these two pieces, if there is one.
    fn fillet_on(&self, i: usize, j: usize, radius: f64) -> Option<WorkedCorner> {
        let signed = radius * Turn::of_sign(self.corner.turn).sign();
        let (arriving, leaving) = (
            self.away(Side::Before, i)?.reversed(),
            self.away(Side::After, j)?,
        );
        // on an edge that turns in more sharply than the fillet, the fillet would not grow out of the corner
        if [arriving, leaving]
            .iter()
            .any(|piece| signed * piece.curvature() >= 1.0)
        {
            return None;
        }
        let carriers = (Carrier::of(&arriving)?, Carrier::of(&leaving)?);
        with_radius(&carriers.0, &carriers.1, signed)
            .circles()
            .find_map(|circle| {
                let from = touch_on(&arriving, &carriers.0, &circle)?;
                let to = touch_on(&leaving, &carriers.1, &circle)?;
                let arc = Arc::from_centre(from, to, circle.centre, Turn::of_sign(signed));
                let turned = self.corner.turn
                    + self.turned(Side::Before, i, from)?
                    + self.turned(Side::After, j, to)?;
                let same = (turned - arc.sweep()).abs() <= tolerance::SMOOTH_JOINT;
                let long_enough = arc.length() >= tolerance::SHORTEST_SEGMENT;
                (same && long_enough).then(|| self.worked(arc.into(), (i, from), (j, to)))
            })
    }

    /// By how much an edge turns between the corner and a point of one of its pieces, in the way of travel.
    fn turned(&self, side: Side, piece: usize, at: Point) -> Option<f64> {
        let mut turned = 0.0;
        for index in 0..piece {
            let whole = self.away(side, index)?;
            turned += whole.curvature() * whole.length();
        }
        let cut = self.away(side, piece)?;
        turned += cut.curvature() * cut.length() * cut.fraction_near(at);
        // run away from the corner, the edge before it turns the other way
        Some(if side == Side::Before {
            -turned
        } else {
            turned
        })
    }

    /// The largest radius that fits, known to be less than `refused`.
    fn largest(&self, refused: f64) -> f64 {
        let mut fits = largest_fillet(self.last, self.first).unwrap_or(0.0);
        let mut too_large = refused;
        while too_large - fits > 1e-6 * too_large {
            let radius = f64::midpoint(fits, too_large);
            if self.further_fillet(radius).is_some() {
                fits = radius;
            } else {
                too_large = radius;
            }
        }
        fits
    }
}

/// Where the circle touches the piece; at its end if that is as near as makes no difference.
fn touch_on(piece: &Segment, carrier: &Carrier, circle: &DirectedCircle) -> Option<Point> {
    let point = carrier.touch(circle);
    let ends = [piece.start(), piece.end()];
    let end = ends
        .into_iter()
        .find(|end| number::length(point - *end) <= tolerance::SHORTEST_SEGMENT);
    if end.is_some() {
        return end;
    }
    let off = number::length(point - piece.nearest_point(point));
    (off <= tolerance::SAME_POINT).then_some(point)
}

/// The first point of an edge that leaves the corner at a straight distance from it, and its piece.
fn set_back(edge: &[Segment], chord: f64, side: Side) -> Result<(usize, Point), ConstructError> {
    let Some(corner) = edge.first().map(Segment::start) else {
        return Err(ConstructError::NotJoined {
            at: Point::ORIGIN,
            gap: f64::INFINITY,
        });
    };
    let mut largest: f64 = 0.0;
    for (index, piece) in edge.iter().enumerate() {
        if index == 0 && chord <= longest_chord(piece) + tolerance::SAME_POINT {
            return point_at_chord(piece, chord, side).map(|point| (index, point));
        }
        let reached = number::length(piece.end() - corner);
        largest = largest.max(reached);
        if (reached - chord).abs() <= tolerance::SAME_POINT {
            return Ok((index, piece.end()));
        }
        if let Some(point) = crossing(piece, &Circle::new(corner, chord)) {
            return Ok((index, point));
        }
    }
    Err(ConstructError::SetbackTooLarge {
        setback: chord,
        largest,
        side,
    })
}

/// The first point at which a piece crosses a circle.
fn crossing(piece: &Segment, circle: &Circle) -> Option<Point> {
    let points = match piece {
        Segment::Line(line) => match line_arc::carriers(line, circle) {
            line_arc::LineCircleMeeting::Two(a, b) => [Some(a), Some(b)],
            line_arc::LineCircleMeeting::Touch(a) => [Some(a), None],
            line_arc::LineCircleMeeting::Apart { .. } => [None, None],
        },
        Segment::Arc(arc) => {
            match arc_arc::carriers(&Circle::new(arc.centre(), arc.radius()), circle) {
                arc_arc::CirclesMeeting::Two(a, b) => [Some(a), Some(b)],
                arc_arc::CirclesMeeting::TouchOutside(a)
                | arc_arc::CirclesMeeting::TouchInside(a) => [Some(a), None],
                _ => [None, None],
            }
        }
    };
    let on = |point: &Point| {
        number::length(*point - piece.nearest_point(*point)) <= tolerance::SAME_POINT
    };
    points
        .into_iter()
        .flatten()
        .filter(on)
        .min_by(|a, b| piece.fraction_near(*a).total_cmp(&piece.fraction_near(*b)))
}

#[cfg(test)]
mod tests;
