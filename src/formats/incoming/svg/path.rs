//! Path strings into runs of lines, arcs and curves, in user units mapped at once.

use svgtypes::PathParser;
use svgtypes::PathSegment;

use crate::formats::FormatError;
use crate::formats::incoming::Follower;
use crate::formats::incoming::MOST_SEGMENTS;
use crate::formats::incoming::fitted::Followed;
use crate::formats::incoming::place::Placing;
use crate::formats::incoming::place::Round;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::Vec2;
use crate::geometry::fair_curve::FairCurve;
use crate::geometry::fair_curve::RationalSpline;
use crate::geometry::number;

/// One run of the pen.
#[derive(Debug, Default)]
pub(super) struct Run {
    pub(super) segments: Vec<Segment>,
    pub(super) closed: bool,
    pub(super) deviation: f64,
    /// Whether it has elliptical arcs or Bézier curves in it.
    pub(super) curved: bool,
}

/// The pen, with the map that its places go through.
pub(super) struct Pen<'a> {
    placing: Placing,
    follower: &'a mut Follower,
    at: Point,
    start: Point,
    run: Run,
    pub(super) runs: Vec<Run>,
    pub(super) problem: Option<String>,
}

impl<'a> Pen<'a> {
    pub(super) fn new(placing: Placing, follower: &'a mut Follower) -> Self {
        Self {
            placing,
            follower,
            at: Point::ORIGIN,
            start: Point::ORIGIN,
            run: Run::default(),
            runs: Vec::new(),
            problem: None,
        }
    }

    pub(super) fn move_to(&mut self, to: Point) {
        self.lift();
        self.at = to;
        self.start = to;
    }

    /// Ends the run.
    pub(super) fn lift(&mut self) {
        if !self.run.segments.is_empty() {
            self.runs.push(std::mem::take(&mut self.run));
        }
    }

    pub(super) fn line_to(&mut self, to: Point) {
        let line = Segment::line(self.placing.point(self.at), self.placing.point(to));
        self.run.segments.push(line);
        self.at = to;
    }

    pub(super) fn close(&mut self) {
        if self.at != self.start {
            self.line_to(self.start);
        }
        self.run.closed = true;
        self.lift();
        self.at = self.start;
    }

    fn take(&mut self, followed: Followed) {
        self.run.segments.extend(followed.segments);
        self.run.deviation = self.run.deviation.max(followed.deviation);
        self.run.curved = true;
    }

    fn fault(&mut self, problem: impl Into<String>) {
        self.problem.get_or_insert(problem.into());
    }

    pub(super) fn round(&mut self, round: Option<Round>) -> Result<(), FormatError> {
        match round {
            Some(Round::Line(line)) => self.run.segments.push(line),
            Some(Round::Arc(arc)) => self.run.segments.push(arc.into()),
            Some(Round::Ellipse(ellipse)) => {
                let followed = self.follower.follow(&FairCurve::Ellipse(ellipse))?;
                self.take(followed);
            }
            None => self.fault("has an arc without a size"),
        }
        Ok(())
    }

    pub(super) fn ellipse_round(
        &self,
        centre: Point,
        first: Vec2,
        second: Vec2,
        sweep: f64,
    ) -> Option<Round> {
        self.placing.ellipse(centre, first, second, (0.0, sweep))
    }

    /// A quarter ellipse tangent to the lines to the corner.
    pub(super) fn quarter_to(&mut self, corner: Point, end: Point) -> Result<(), FormatError> {
        let centre = self.at + (end - corner);
        let (first, second) = (self.at - centre, end - centre);
        let sweep = (0.0, number::QUARTER_TURN);
        let round = self.placing.ellipse(centre, first, second, sweep);
        self.round(round)?;
        self.at = end;
        Ok(())
    }

    fn curve_to(&mut self, control: &[Point]) -> Result<(), FormatError> {
        let Some(&end) = control.last() else {
            return Ok(());
        };
        let mut points = vec![self.placing.point(self.at)];
        points.extend(control.iter().map(|&point| self.placing.point(point)));
        match RationalSpline::bezier(&points, &[]) {
            Ok(curve) => {
                let followed = self.follower.follow(&FairCurve::Rational(curve))?;
                self.take(followed);
            }
            // all its points are one
            Err(_) => self.run.segments.push(Segment::line(
                self.placing.point(self.at),
                self.placing.point(end),
            )),
        }
        self.at = end;
        Ok(())
    }

    /// The elliptical arc of the format (SVG 1.1, appendix F.6.5 and F.6.6).
    fn arc_to(&mut self, arc: &EllipticalStep) -> Result<(), FormatError> {
        let (from, to) = (self.at, arc.to);
        if from == to {
            return Ok(());
        }
        let (mut rx, mut ry) = (arc.rx.abs(), arc.ry.abs());
        if !(rx > 0.0 && ry > 0.0) {
            self.line_to(to);
            return Ok(());
        }
        let axis = number::unit(arc.turn.to_radians());
        let half = (from - to) / 2.0;
        let x = half.dot(axis);
        let y = axis.cross(half);
        let excess = (x / rx) * (x / rx) + (y / ry) * (y / ry);
        if excess > 1.0 {
            rx *= excess.sqrt();
            ry *= excess.sqrt();
        }
        let (a, b) = (rx * y, ry * x);
        let under = (rx * ry / (a * a + b * b).sqrt()).powi(2) - 1.0;
        let factor = under.max(0.0).sqrt() * if arc.large == arc.sweep { -1.0 } else { 1.0 };
        let (cx, cy) = (factor * rx * y / ry, -factor * ry * x / rx);
        let across = number::left_normal(axis);
        let centre = from.midpoint(to) + axis * cx + across * cy;
        let start = number::direction(Vec2::new((x - cx) / rx, (y - cy) / ry));
        let end = number::direction(Vec2::new((-x - cx) / rx, (-y - cy) / ry));
        let forward = number::positive_angle(end - start);
        let sweep = if arc.sweep {
            forward
        } else {
            forward - number::FULL_TURN
        };
        let round = if rx == ry && self.placing.point(from) != self.placing.point(to) {
            // through its very ends: a bulge keeps them to the last digit
            self.placing.bulged(from, to, number::tan(sweep / 4.0))
        } else {
            self.placing
                .ellipse(centre, axis * rx, across * ry, (start, sweep))
        };
        self.round(round)?;
        self.at = to;
        Ok(())
    }
}

struct EllipticalStep {
    rx: f64,
    ry: f64,
    turn: f64,
    large: bool,
    sweep: bool,
    to: Point,
}

/// Draws a path string. What follows a fault in it is not drawn, as the format asks.
#[expect(clippy::too_many_lines, reason = "one arm for each command")]
pub(super) fn draw(data: &str, pen: &mut Pen<'_>) -> Result<(), FormatError> {
    // the last control point, for the smooth commands
    let mut cubic: Option<Point> = None;
    let mut quadratic: Option<Point> = None;
    for (count, segment) in PathParser::from(data).enumerate() {
        let Ok(segment) = segment else {
            pen.fault(format!("has a fault in its path after {count} commands"));
            break;
        };
        if count > MOST_SEGMENTS {
            pen.fault("has too many commands in its path");
            break;
        }
        let here = pen.at;
        let place = |abs: bool, x: f64, y: f64| {
            if abs {
                Point::new(x, y)
            } else {
                Point::new(here.x + x, here.y + y)
            }
        };
        let mirrored = |control: Option<Point>| control.map_or(here, |c| here + (here - c));
        let (mut next_cubic, mut next_quadratic) = (None, None);
        match segment {
            PathSegment::MoveTo { abs, x, y } => pen.move_to(place(abs, x, y)),
            PathSegment::LineTo { abs, x, y } => pen.line_to(place(abs, x, y)),
            PathSegment::HorizontalLineTo { abs, x } => {
                let x = if abs { x } else { here.x + x };
                pen.line_to(Point::new(x, here.y));
            }
            PathSegment::VerticalLineTo { abs, y } => {
                let y = if abs { y } else { here.y + y };
                pen.line_to(Point::new(here.x, y));
            }
            PathSegment::CurveTo {
                abs,
                x1,
                y1,
                x2,
                y2,
                x,
                y,
            } => {
                let second = place(abs, x2, y2);
                pen.curve_to(&[place(abs, x1, y1), second, place(abs, x, y)])?;
                next_cubic = Some(second);
            }
            PathSegment::SmoothCurveTo { abs, x2, y2, x, y } => {
                let second = place(abs, x2, y2);
                pen.curve_to(&[mirrored(cubic), second, place(abs, x, y)])?;
                next_cubic = Some(second);
            }
            PathSegment::Quadratic { abs, x1, y1, x, y } => {
                let control = place(abs, x1, y1);
                pen.curve_to(&[control, place(abs, x, y)])?;
                next_quadratic = Some(control);
            }
            PathSegment::SmoothQuadratic { abs, x, y } => {
                let control = mirrored(quadratic);
                pen.curve_to(&[control, place(abs, x, y)])?;
                next_quadratic = Some(control);
            }
            PathSegment::EllipticalArc {
                abs,
                rx,
                ry,
                x_axis_rotation,
                large_arc,
                sweep,
                x,
                y,
            } => pen.arc_to(&EllipticalStep {
                rx,
                ry,
                turn: x_axis_rotation,
                large: large_arc,
                sweep,
                to: place(abs, x, y),
            })?,
            PathSegment::ClosePath { .. } => pen.close(),
        }
        (cubic, quadratic) = (next_cubic, next_quadratic);
    }
    pen.lift();
    Ok(())
}
