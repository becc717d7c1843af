//! A line or an arc.

use super::Arc;
use super::Line;
use super::Point;
use super::Rect;
use super::Vec2;
use super::number;
use super::tolerance;

/// A piece of an outline: straight or a circular arc.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Segment {
    /// Straight.
    Line(Line),
    /// A circular arc.
    Arc(Arc),
}

impl Segment {
    /// A straight segment.
    pub const fn line(start: Point, end: Point) -> Self {
        Self::Line(Line::new(start, end))
    }

    /// Where it starts.
    pub const fn start(&self) -> Point {
        match self {
            Self::Line(line) => line.start,
            Self::Arc(arc) => arc.start(),
        }
    }

    /// Where it ends.
    pub const fn end(&self) -> Point {
        match self {
            Self::Line(line) => line.end,
            Self::Arc(arc) => arc.end(),
        }
    }

    /// Its length in millimetres.
    pub fn length(&self) -> f64 {
        match self {
            Self::Line(line) => line.length(),
            Self::Arc(arc) => arc.length(),
        }
    }

    /// The point at the fraction `t` of its length.
    pub fn point_at(&self, t: f64) -> Point {
        match self {
            Self::Line(line) => line.point_at(t),
            Self::Arc(arc) => arc.point_at(t),
        }
    }

    /// Unit vector of travel at the fraction `t` of its length.
    pub fn direction_at(&self, t: f64) -> Vec2 {
        match self {
            Self::Line(line) => line.direction(),
            Self::Arc(arc) => arc.direction_at(t),
        }
    }

    /// Curvature in 1/mm, anticlockwise positive; 0 for a line.
    pub fn curvature(&self) -> f64 {
        match self {
            Self::Line(_) => 0.0,
            Self::Arc(arc) => 1.0 / arc.signed_radius(),
        }
    }

    /// The nearest point on it, ends included.
    pub fn nearest_point(&self, to: Point) -> Point {
        match self {
            Self::Line(line) => line.nearest_point(to),
            Self::Arc(arc) => arc.nearest_point(to),
        }
    }

    /// Its point farthest in a direction; one of them if there are several.
    pub fn farthest(&self, direction: Vec2) -> Point {
        let reach = |point: Point| point.to_vec2().dot(direction);
        let ends = if reach(self.end()) > reach(self.start()) {
            self.end()
        } else {
            self.start()
        };
        let Self::Arc(arc) = self else {
            return ends;
        };
        let Some(unit) = number::normalized(direction) else {
            return ends;
        };
        let extreme = arc.centre() + unit * arc.radius();
        if arc.fraction_towards(extreme).is_some() && reach(extreme) > reach(ends) {
            extreme
        } else {
            ends
        }
    }

    /// The same line or circle run up to other ends, which must lie on it: a line to the new ends, an
    /// arc with the same turn between them.
    #[must_use]
    pub fn run_between(&self, start: Point, end: Point) -> Self {
        match self {
            Self::Line(_) => Self::line(start, end),
            Self::Arc(arc) => Self::Arc(Arc::from_centre(start, end, arc.centre(), arc.turn())),
        }
    }

    /// The smallest upright rectangle around it.
    pub fn bounds(&self) -> Rect {
        match self {
            Self::Line(line) => line.bounds(),
            Self::Arc(arc) => arc.bounds(),
        }
    }

    /// The same segment run the other way.
    #[must_use]
    pub const fn reversed(&self) -> Self {
        match self {
            Self::Line(line) => Self::Line(line.reversed()),
            Self::Arc(arc) => Self::Arc(arc.reversed()),
        }
    }

    /// The same segment with its ends moved onto given points that are the same places up to
    /// rounding.
    #[must_use]
    pub const fn with_ends(&self, start: Point, end: Point) -> Self {
        match self {
            Self::Line(_) => Self::line(start, end),
            Self::Arc(arc) => Self::Arc(arc.with_ends(start, end)),
        }
    }

    /// The segment at a distance beside this one, positive to the left of travel; an arc keeps its
    /// centre. `None` for an arc that would shrink to nothing.
    pub fn beside(&self, distance: f64) -> Option<Self> {
        match self {
            Self::Line(line) => {
                let shift = number::left_normal(line.direction()) * distance;
                Some(Self::line(line.start + shift, line.end + shift))
            }
            Self::Arc(arc) => {
                let radius = arc.radius() - distance * arc.turn().sign();
                (radius > tolerance::SHORTEST_SEGMENT).then(|| {
                    let (angle, sweep) = (arc.start_angle(), arc.sweep());
                    Self::Arc(Arc::from_angles(arc.centre(), radius, angle, sweep))
                })
            }
        }
    }

    /// The fraction of its length at which it is nearest to the point, 0 … 1.
    pub fn fraction_near(&self, point: Point) -> f64 {
        match self {
            Self::Line(line) => {
                let along = line.end - line.start;
                let square = along.dot(along);
                if square == 0.0 {
                    0.0
                } else {
                    ((point - line.start).dot(along) / square).clamp(0.0, 1.0)
                }
            }
            Self::Arc(arc) => arc.fraction_towards(point).unwrap_or_else(|| {
                let (to_start, to_end) = (point - arc.start(), point - arc.end());
                f64::from(u8::from(to_start.hypot2() > to_end.hypot2()))
            }),
        }
    }

    /// Its part between the fractions `from` and `to` (0 ≤ from < to ≤ 1).
    #[must_use]
    pub fn part(&self, from: f64, to: f64) -> Self {
        let (start, end) = (self.point_at(from), self.point_at(to));
        match self {
            Self::Line(_) => Self::line(start, end),
            Self::Arc(arc) => {
                let whole = from <= 0.0 && to >= 1.0;
                let sweep = if whole {
                    arc.sweep()
                } else {
                    arc.sweep() * (to - from)
                };
                let angle = number::direction(start - arc.centre());
                let piece = Arc::from_angles(arc.centre(), arc.radius(), angle, sweep);
                Self::Arc(piece.with_ends(start, end))
            }
        }
    }
}

impl From<Line> for Segment {
    fn from(line: Line) -> Self {
        Self::Line(line)
    }
}

impl From<Arc> for Segment {
    fn from(arc: Arc) -> Self {
        Self::Arc(arc)
    }
}
