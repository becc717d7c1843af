//! How fair a curve is: where it changes from full to hollow, and which station of the table bends
//! the batten against its neighbours.

use super::super::Point;
use super::super::Vec2;
use super::super::tolerance;
use super::CubicPiece;
use super::FairCurve;
use super::spline::BattenEnd;
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

/// A station that does not lie fair with its neighbours.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lump {
    /// The station.
    pub station: usize,
    /// Where it is.
    pub at: Point,
    /// Where the batten would go if this station's weight were lifted.
    pub fair: Point,
    /// How far it would spring to the left of the way of the table, in millimetres (negative: right).
    pub spring: f64,
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
    let points = spline.points();
    let last = points.len() - 1;
    (0..=last)
        .map(|station| {
            if spline.is_closed() {
                spring_in_ring(spline, station % last)
            } else if station == 0 || station == last {
                Vec2::ZERO
            } else {
                let from = station.saturating_sub(REACH);
                let to = (station + REACH).min(last);
                let window: Vec<(f64, Point)> = (from..=to)
                    .map(|index| (spline.knots()[index], points[index]))
                    .collect();
                spring_in_window(&window, station - from)
            }
        })
        .collect()
}

/// Stations to either side that decide where a lifted batten goes.
const REACH: usize = 12;

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

/// The stations that bend the batten against their neighbours: lifted, the batten would spring there
/// by more than `smallest` millimetres, further than at either neighbour and the other way than at
/// both. The one first whose mending leaves the least to mend; in order of the table where they are many.
///
/// A fair table springs the same way at neighbouring stations, and less the closer they stand; one
/// wrong value makes itself and its neighbours spring in turn to either side. What is below a
/// twentieth of the largest lump may be its echo and is left out: mend the largest and look again.
///
/// # Source
/// As [`spring_at_stations`].
pub fn lumps(spline: &Spline, smallest: f64) -> Vec<Lump> {
    let points = spline.points();
    let last = points.len() - 1;
    let springs = spring_at_stations(spline);
    let curve = |station: usize| spline.jet(to_number(station)).direction();
    let sideways: Vec<f64> = (0..=last)
        .map(|station| {
            let along = curve(station).unwrap_or(Vec2::ZERO);
            along.cross(springs[station])
        })
        .collect();
    let neighbours = |station: usize| {
        let before = match station {
            0 => spline.is_closed().then(|| last - 1),
            _ => Some(station - 1),
        };
        let after = (station < last).then_some(station + 1);
        [before, after]
    };
    let stands_out = |station: usize| {
        let own = sideways[station];
        own.abs() > smallest
            && neighbours(station).into_iter().flatten().all(|other| {
                let is_end = !spline.is_closed() && (other == 0 || other == last);
                let theirs = sideways[other];
                is_end || (theirs * own < 0.0 && theirs.abs() < own.abs())
            })
    };
    let end = if spline.is_closed() { last } else { last + 1 };
    let standing_out: Vec<usize> = (0..end).filter(|&station| stands_out(station)).collect();
    let largest = standing_out
        .iter()
        .map(|&station| sideways[station].abs())
        .fold(0.0, f64::max);
    let mut found: Vec<Lump> = standing_out
        .into_iter()
        .filter(|&station| sideways[station].abs() > ECHO * largest)
        .map(|station| Lump {
            station,
            at: points[station],
            fair: points[station] + springs[station],
            spring: sideways[station],
        })
        .collect();
    if found.len() <= MOST_MENDED {
        found.sort_by(|a, b| left_after(spline, a).total_cmp(&left_after(spline, b)));
    }
    found
}

/// How far the batten would still spring somewhere, in millimetres, if this station alone were moved to where it
/// lies fair.
fn left_after(spline: &Spline, lump: &Lump) -> f64 {
    let mut points = spline.points().to_vec();
    let last = points.len() - 1;
    points[lump.station] = lump.fair;
    let mended = if spline.is_closed() {
        if lump.station == 0 {
            points[last] = lump.fair;
        }
        Spline::closed(&points[..last])
    } else {
        Spline::through(&points, BattenEnd::Natural, BattenEnd::Natural)
    };
    mended.map_or(f64::INFINITY, |mended| {
        let springs = spring_at_stations(&mended);
        springs
            .into_iter()
            .map(super::super::number::length)
            .fold(0.0, f64::max)
    })
}

/// The most lumps that are put in the order of what mending each would do.
const MOST_MENDED: usize = 12;

/// Share of the largest lump below which another may be its echo along the table.
const ECHO: f64 = 0.05;
