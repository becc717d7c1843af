//! How fair a curve is: where it changes from full to hollow, and how far the batten would spring from
//! each station of the table.

use super::super::Point;
use super::super::Vec2;
use super::super::tolerance;
use super::CubicPiece;
use super::FairCurve;
use super::spline::Spline;
use super::spline::to_number;
use super::tridiagonal::Row;
use super::tridiagonal::solve;

/// A place where a curve changes from turning one way to turning the other.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Inflection {
    /// Where on the curve.
    pub position: f64,
    /// The nearest station.
    pub station: usize,
    /// Where in the plane.
    pub at: Point,
}

/// The inflections of a curve, in its order. A piece that is straight but for rounding has none.
///
/// # Accuracy
/// Exact up to rounding: on each cubic piece x′y″ − y′x″ is a quadratic polynomial. A piece that turns
/// by less than [`tolerance::SAME_DIRECTION`] counts as straight.
///
/// # Source
/// Closed form: 2 b×c + 6 (b×d) τ + 6 (c×d) τ² for the piece a + bτ + cτ² + dτ³.
pub fn inflections(curve: &FairCurve) -> Vec<Inflection> {
    let pieces: Vec<(CubicPiece, f64)> = match curve {
        FairCurve::Spline(spline) => spline
            .pieces()
            .iter()
            .zip(spline.knots().windows(2))
            .map(|(piece, knots)| (*piece, knots[1] - knots[0]))
            .collect(),
        FairCurve::Bezier(bezier) => vec![(bezier.to_piece(), 1.0)],
        FairCurve::Ellipse(_) | FairCurve::Rational(_) | FairCurve::Exact(_) => Vec::new(),
    };
    let mut found = Vec::new();
    let mut before: Option<f64> = None;
    for (index, (piece, step)) in pieces.iter().enumerate() {
        for (from, side) in turning_parts(piece, *step) {
            if before.is_some_and(|earlier| earlier != side) {
                let position = to_number(index) + from / step;
                found.push(Inflection {
                    position,
                    station: curve.station_near(position),
                    at: curve.point_at(position),
                });
            }
            before = Some(side);
        }
    }
    found
}

/// The parts of a piece that turn one way: where each starts, and which way (±1).
fn turning_parts(piece: &CubicPiece, step: f64) -> Vec<(f64, f64)> {
    let CubicPiece { b, c, d, .. } = *piece;
    let bend = [2.0 * b.cross(c), 6.0 * b.cross(d), 6.0 * c.cross(d)];
    let size = bend[0].abs() + (bend[1].abs() + bend[2].abs() * step) * step;
    if size * step <= tolerance::SAME_DIRECTION * b.dot(b) {
        return Vec::new();
    }
    let mut starts = vec![0.0];
    starts.extend(quadratic_roots(bend).into_iter().flatten());
    // a root at the very end of a piece, such as where a batten lies free, turns nothing on this piece
    let end = step * (1.0 - tolerance::SAME_DIRECTION);
    starts.retain(|&start| start == 0.0 || (step - end..end).contains(&start));
    let mut parts: Vec<(f64, f64)> = Vec::new();
    for (index, &start) in starts.iter().enumerate() {
        let end = starts.get(index + 1).copied().unwrap_or(step);
        let middle = f64::midpoint(start, end);
        let side = (bend[0] + (bend[1] + bend[2] * middle) * middle).signum();
        if parts.last().is_none_or(|&(_, earlier)| earlier != side) {
            parts.push((start, side));
        }
    }
    parts
}

/// Roots of p + qτ + rτ², the lesser first.
fn quadratic_roots([p, q, r]: [f64; 3]) -> [Option<f64>; 2] {
    let discriminant = q * q - 4.0 * p * r;
    if discriminant < 0.0 || (q == 0.0 && r == 0.0) {
        return [None, None];
    }
    // the form that adds magnitudes, so that no digits are lost
    let sum = -(q + discriminant.sqrt().copysign(q)) / 2.0;
    let both = [sum / r, p / sum].map(|root| root.is_finite().then_some(root));
    match both {
        [Some(first), Some(second)] if first > second => [Some(second), Some(first)],
        _ => both,
    }
}

/// How far the batten would spring at each station if that station's weight alone were lifted:
/// the vector from the station to where the batten would go, in millimetres. The ends are held
/// (zero), as is the first station of a closed table's repeated end.
///
/// # Accuracy
/// The spline without the station is computed from twelve stations to either side and runs out with
/// an evenly changing curvature there (a free end would make the stations beside the ends of every
/// round table spring); what lies further off has an influence below 1e-6 of its own size.
///
/// # Source
/// Common practice of fairing a lines plan (lift one weight at a time and see where the batten goes);
/// as an algorithm: Kjellander, "Smoothing of cubic parametric splines", Computer-Aided Design 15
/// (1983) 175–179 (from memory).
pub fn spring_at_stations(spline: &Spline) -> Vec<Vec2> {
    let last = spline.points().len() - 1;
    (0..=last)
        .map(|station| spring_at(spline, station))
        .collect()
}

/// How far the batten would spring at one station: see [`spring_at_stations`].
pub(super) fn spring_at(spline: &Spline, station: usize) -> Vec2 {
    let points = spline.points();
    let last = points.len() - 1;
    if spline.is_closed() {
        return spring_in_ring(spline, station % last);
    }
    if station == 0 || station == last {
        return Vec2::ZERO;
    }
    let from = station.saturating_sub(REACH);
    let to = (station + REACH).min(last);
    let window: Vec<(f64, Point)> = (from..=to)
        .map(|index| (spline.knots()[index], points[index]))
        .collect();
    spring_in_window(&window, station - from)
}

/// Stations to either side that decide where a lifted batten goes.
pub(super) const REACH: usize = 12;

fn spring_in_ring(spline: &Spline, station: usize) -> Vec2 {
    let count = spline.points().len() - 1;
    let round = spline.knots()[count];
    let reach = REACH.min(count - 1);
    let window: Vec<(f64, Point)> = (0..=2 * reach)
        .map(|step| {
            let index = station + step + count - reach;
            let turns = to_number(index / count);
            let knot = spline.knots()[index % count] + turns * round;
            (knot, spline.points()[index % count])
        })
        .collect();
    spring_in_window(&window, reach)
}

/// Leaves out one station of the window and says where the spline through the others goes there.
fn spring_in_window(window: &[(f64, Point)], lifted: usize) -> Vec2 {
    let kept: Vec<(f64, Point)> = window
        .iter()
        .enumerate()
        .filter_map(|(index, entry)| (index != lifted).then_some(*entry))
        .collect();
    let last = kept.len() - 1;
    if last < 2 {
        return chord_spring(&kept, window[lifted]);
    }
    let moments = run_out_moments(&kept);
    let (knot, point) = window[lifted];
    let (a, b) = (kept[lifted - 1], kept[lifted]);
    let step = b.0 - a.0;
    let (s, t) = ((b.0 - knot) / step, (knot - a.0) / step);
    let chord = a.1 + (b.1 - a.1) * t;
    let bend = moments[lifted - 1] * (s * s * s - s) + moments[lifted] * (t * t * t - t);
    chord + bend * (step * step / 6.0) - point
}

/// Second derivatives at three or more stations of a spline whose first two pieces are one cubic, and
/// its last two (with three stations: one parabola).
fn run_out_moments(stations: &[(f64, Point)]) -> Vec<Vec2> {
    let last = stations.len() - 1;
    let step = |index: usize| stations[index + 1].0 - stations[index].0;
    let slope = |index: usize| (stations[index + 1].1 - stations[index].1) / step(index);
    if last == 2 {
        let moment = (slope(1) - slope(0)) * 2.0 / (step(0) + step(1));
        return vec![moment; 3];
    }
    let mut rows: Vec<Row> = (1..last)
        .map(|index| {
            let (before, after) = (step(index - 1), step(index));
            Row {
                below: before,
                diagonal: 2.0 * (before + after),
                above: after,
                right: (slope(index) - slope(index - 1)) * 6.0,
            }
        })
        .collect();
    // the moment of an end lies on the straight line through the next two, and is put into their rows
    let (first_ratio, last_ratio) = (step(0) / step(1), step(last - 1) / step(last - 2));
    rows[0].diagonal += step(0) * (1.0 + first_ratio);
    rows[0].above -= step(0) * first_ratio;
    rows[last - 2].diagonal += step(last - 1) * (1.0 + last_ratio);
    rows[last - 2].below -= step(last - 1) * last_ratio;
    let inner = solve(&rows);
    let mut moments = Vec::with_capacity(stations.len());
    moments.push(inner[0] + (inner[0] - inner[1]) * first_ratio);
    moments.extend_from_slice(&inner);
    moments.push(inner[last - 2] + (inner[last - 2] - inner[last - 3]) * last_ratio);
    moments
}

/// The spring of the only station between two others: to their chord.
fn chord_spring(kept: &[(f64, Point)], (knot, point): (f64, Point)) -> Vec2 {
    let [a, b] = kept else {
        return Vec2::ZERO;
    };
    a.1 + (b.1 - a.1) * ((knot - a.0) / (b.0 - a.0)) - point
}
