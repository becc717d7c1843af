//! The cubic spline: a thin batten through a table of points.

use super::super::Point;
use super::super::Vec2;
use super::super::number;
use super::super::tolerance;
use super::FairCurveError;
use super::jet::Jet;
use super::tridiagonal::Row;
use super::tridiagonal::solve;
use super::tridiagonal::solve_ring;

/// How a batten is held at its end.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum BattenEnd {
    /// Free: it runs out straight (no curvature).
    Natural,
    /// Held in this direction of travel; the length of the vector does not matter.
    Direction(Vec2),
}

/// A cubic spline: x and y are cubic polynomials between the stations, with continuous direction and
/// curvature.
///
/// Its parameter is the length along the chords of the table ([`Spline::through`],
/// [`Spline::closed`]), or x itself ([`Spline::over_stations`]). A *position* counts in stations
/// instead: 2.5 is half the parameter's way from station 2 to station 3. Positions keep their meaning
/// when the values of the table change.
#[derive(Clone, Debug, PartialEq)]
pub struct Spline {
    points: Vec<Point>,
    knots: Vec<f64>,
    pieces: Vec<CubicPiece>,
    closure: Closure,
}

/// One piece: a + bτ + cτ² + dτ³, τ measured from its first station.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CubicPiece {
    /// The station it starts at.
    pub a: Point,
    /// First derivative there.
    pub b: Vec2,
    /// Half the second derivative there.
    pub c: Vec2,
    /// A sixth of the third derivative, the same all along.
    pub d: Vec2,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Closure {
    Open,
    Closed,
}

impl Spline {
    /// The spline through the points in their order, by the length along their chords.
    ///
    /// # Errors
    /// [`FairCurveError::TooFewPoints`] below two, [`FairCurveError::NotUsable`],
    /// [`FairCurveError::SamePoint`] and [`FairCurveError::NoDirection`].
    ///
    /// # Source
    /// The moments of the cubic spline: Burden & Faires, Numerical Analysis, 9th ed., section 3.5,
    /// for x and y each; the parameter after Ahlberg, Nilson and Walsh, The Theory of Splines (1967).
    pub fn through(
        points: &[Point],
        start: BattenEnd,
        end: BattenEnd,
    ) -> Result<Self, FairCurveError> {
        check_points(points, 2)?;
        let knots = chord_knots(points)?;
        let held = |end| match end {
            BattenEnd::Natural => Ok(None),
            BattenEnd::Direction(given) => number::normalized(given)
                .map(Some)
                .ok_or(no_direction(given)),
        };
        Ok(Self::open(points, knots, held(start)?, held(end)?))
    }

    /// The closed spline through the points, back to the first (which is not repeated).
    ///
    /// # Errors
    /// As [`Spline::through`], with at least three points.
    ///
    /// # Source
    /// As [`Spline::through`]; the equations close in a ring.
    pub fn closed(points: &[Point]) -> Result<Self, FairCurveError> {
        check_points(points, 3)?;
        let mut ring = points.to_vec();
        ring.push(points[0]);
        let knots = chord_knots(&ring).map_err(|error| match error {
            FairCurveError::SamePoint { first, at, .. } if first + 1 == points.len() => {
                FairCurveError::SamePoint {
                    first: 0,
                    second: first,
                    at,
                }
            }
            other => other,
        })?;
        let moments = closed_moments(&ring, &knots);
        Ok(Self::from_moments(ring, knots, &moments, Closure::Closed))
    }

    /// The spline y(x) over stations whose x runs one way. A direction at an end gives the slope
    /// there.
    ///
    /// # Errors
    /// As [`Spline::through`], and [`FairCurveError::OutOfOrder`].
    ///
    /// # Source
    /// Burden & Faires, Numerical Analysis, 9th ed., section 3.5.
    pub fn over_stations(
        points: &[Point],
        start: BattenEnd,
        end: BattenEnd,
    ) -> Result<Self, FairCurveError> {
        check_points(points, 2)?;
        let forward = if points[1].x < points[0].x { -1.0 } else { 1.0 };
        for (index, pair) in points.windows(2).enumerate() {
            if (pair[1].x - pair[0].x) * forward < tolerance::SHORTEST_SEGMENT {
                return Err(FairCurveError::OutOfOrder {
                    station: index + 1,
                    x: pair[1].x,
                    before: pair[0].x,
                });
            }
        }
        let knots = points.iter().map(|point| point.x * forward).collect();
        let held = |end| match end {
            BattenEnd::Natural => Ok(None),
            BattenEnd::Direction(given) => {
                let per_parameter = given / (given.x * forward);
                let usable = given.x * forward > 0.0
                    && per_parameter.y.abs() <= tolerance::LARGEST_COORDINATE;
                if usable {
                    Ok(Some(Vec2::new(forward, per_parameter.y)))
                } else {
                    Err(no_direction(given))
                }
            }
        };
        Ok(Self::open(points, knots, held(start)?, held(end)?))
    }

    fn open(points: &[Point], knots: Vec<f64>, start: Option<Vec2>, end: Option<Vec2>) -> Self {
        let moments = open_moments(points, &knots, start, end);
        Self::from_moments(points.to_vec(), knots, &moments, Closure::Open)
    }

    fn from_moments(
        points: Vec<Point>,
        knots: Vec<f64>,
        moments: &[Vec2],
        closure: Closure,
    ) -> Self {
        let pieces = (1..points.len())
            .map(|right| {
                let left = right - 1;
                let step = knots[right] - knots[left];
                let slope = (points[right] - points[left]) / step;
                CubicPiece {
                    a: points[left],
                    b: slope - (moments[left] * 2.0 + moments[right]) * (step / 6.0),
                    c: moments[left] / 2.0,
                    d: (moments[right] - moments[left]) / (6.0 * step),
                }
            })
            .collect();
        Self {
            points,
            knots,
            pieces,
            closure,
        }
    }

    /// The table; a closed spline repeats its first point at the end.
    pub fn points(&self) -> &[Point] {
        &self.points
    }

    /// The parameter at each point of the table.
    pub fn knots(&self) -> &[f64] {
        &self.knots
    }

    /// The polynomials between the stations.
    pub fn pieces(&self) -> &[CubicPiece] {
        &self.pieces
    }

    /// Whether it returns to its first point.
    pub fn is_closed(&self) -> bool {
        self.closure == Closure::Closed
    }

    /// The same spline run the other way: its parameter is what was left to its end.
    #[must_use]
    pub fn reversed(&self) -> Self {
        let end = self.knots.last().copied().unwrap_or(0.0);
        let steps = self.knots.windows(2).map(|pair| pair[1] - pair[0]);
        let mut pieces: Vec<CubicPiece> = self
            .pieces
            .iter()
            .zip(steps)
            .zip(&self.points[1..])
            .map(|((&CubicPiece { b, c, d, .. }, step), &far)| CubicPiece {
                a: far,
                b: -(b + (c * 2.0 + d * (3.0 * step)) * step),
                c: c + d * (3.0 * step),
                d: -d,
            })
            .collect();
        pieces.reverse();
        Self {
            points: self.points.iter().rev().copied().collect(),
            knots: self.knots.iter().rev().map(|knot| end - knot).collect(),
            pieces,
            closure: self.closure,
        }
    }

    /// The piece a position lies in, and how far into it in parameter and as a fraction.
    fn locate(&self, position: f64) -> (usize, f64, f64) {
        let last = self.pieces.len() - 1;
        let index = to_index(position).min(last);
        let fraction = (position - to_number(index)).clamp(0.0, 1.0);
        let step = self.knots[index + 1] - self.knots[index];
        (index, fraction * step, fraction)
    }

    pub(super) fn jet(&self, position: f64) -> Jet {
        let (index, into, fraction) = self.locate(position);
        let CubicPiece { a, b, c, d } = self.pieces[index];
        let point = if fraction == 1.0 {
            self.points[index + 1]
        } else {
            a + (b + (c + d * into) * into) * into
        };
        Jet {
            point,
            first: b + (c * 2.0 + d * (3.0 * into)) * into,
            second: c * 2.0 + d * (6.0 * into),
            third: d * 6.0,
        }
    }
}

/// A count as a number: tables are far below 2⁵² long.
#[expect(clippy::cast_precision_loss, reason = "counts here are far below 2^52")]
pub(super) const fn to_number(count: usize) -> f64 {
    count as f64
}

/// The whole part of a position as an index; 0 for anything below, and for no number.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "the cast saturates, which is what is wanted"
)]
pub(super) const fn to_index(position: f64) -> usize {
    position as usize
}

fn no_direction(given: Vec2) -> FairCurveError {
    FairCurveError::NoDirection {
        x: given.x,
        y: given.y,
    }
}

/// Refuses too few points, and coordinates that are no numbers or beyond 1 km.
pub(super) fn check_points(points: &[Point], needed: usize) -> Result<(), FairCurveError> {
    for (station, point) in points.iter().enumerate() {
        for (what, value) in [("x", point.x), ("y", point.y)] {
            if !value.is_finite() || value.abs() > tolerance::LARGEST_COORDINATE {
                return Err(FairCurveError::NotUsable {
                    what,
                    station,
                    value,
                });
            }
        }
    }
    if points.len() < needed {
        return Err(FairCurveError::TooFewPoints {
            needed,
            found: points.len(),
        });
    }
    Ok(())
}

fn chord_knots(points: &[Point]) -> Result<Vec<f64>, FairCurveError> {
    let mut knots = vec![0.0];
    let mut along = 0.0;
    for (index, pair) in points.windows(2).enumerate() {
        let chord = number::length(pair[1] - pair[0]);
        if chord < tolerance::SHORTEST_SEGMENT {
            return Err(FairCurveError::SamePoint {
                first: index,
                second: index + 1,
                at: pair[0],
            });
        }
        along += chord;
        knots.push(along);
    }
    Ok(knots)
}

/// The row of an inner station: the slopes of its two pieces agree.
fn inner_row(points: [Point; 3], before: f64, after: f64) -> Row {
    let [left, middle, right] = points;
    Row {
        below: before,
        diagonal: 2.0 * (before + after),
        above: after,
        right: ((right - middle) / after - (middle - left) / before) * 6.0,
    }
}

/// Second derivatives at the stations. An end is free where no derivative is given.
fn open_moments(
    points: &[Point],
    knots: &[f64],
    start: Option<Vec2>,
    end: Option<Vec2>,
) -> Vec<Vec2> {
    let last = points.len() - 1;
    let free = Row {
        below: 0.0,
        diagonal: 1.0,
        above: 0.0,
        right: Vec2::ZERO,
    };
    let mut rows = Vec::with_capacity(points.len());
    rows.push(start.map_or(free, |derivative| {
        let step = knots[1] - knots[0];
        Row {
            below: 0.0,
            diagonal: 2.0 * step,
            above: step,
            right: ((points[1] - points[0]) / step - derivative) * 6.0,
        }
    }));
    for index in 1..last {
        rows.push(inner_row(
            [points[index - 1], points[index], points[index + 1]],
            knots[index] - knots[index - 1],
            knots[index + 1] - knots[index],
        ));
    }
    rows.push(end.map_or(free, |derivative| {
        let step = knots[last] - knots[last - 1];
        Row {
            below: step,
            diagonal: 2.0 * step,
            above: 0.0,
            right: (derivative - (points[last] - points[last - 1]) / step) * 6.0,
        }
    }));
    solve(&rows)
}

/// Second derivatives at the stations of a ring whose last point repeats the first.
fn closed_moments(ring: &[Point], knots: &[f64]) -> Vec<Vec2> {
    let count = ring.len() - 1;
    let step = |index: usize| knots[index + 1] - knots[index];
    let rows: Vec<Row> = (0..count)
        .map(|index| {
            let before = (index + count - 1) % count;
            inner_row(
                [ring[before], ring[index], ring[index + 1]],
                step(before),
                step(index),
            )
        })
        .collect();
    let mut moments = solve_ring(&rows);
    moments.push(moments[0]);
    moments
}
