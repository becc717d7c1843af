//! A curve with enough of its points worked out beforehand.

use super::super::FairCurve;
use super::super::FairCurveError;
use super::super::jet::Jet;
use super::super::spline::to_number;
use super::biarc::Bow;
use super::look::Look;
use crate::geometry::Point;
use crate::geometry::number;
use crate::geometry::tolerance;

/// Points worked out for each arc that the tolerance would allow at that place.
const POINTS_PER_ARC: f64 = 10.0;
/// At least one point for this much turning, in radians.
const TURN_PER_POINT: f64 = 0.2;
/// Most points between two stations (or in one step of an ellipse or a Bézier curve).
const MOST_POINTS: f64 = 400.0;
/// Steps into which an ellipse or a Bézier curve is cut beforehand, as if they were stations.
const STEPS_WITHOUT_STATIONS: f64 = 48.0;

/// The curve's points at rising positions, with the length along them.
#[derive(Debug)]
pub(super) struct Track<'curve> {
    pub(super) curve: &'curve FairCurve,
    pub(super) tolerance: f64,
    positions: Vec<f64>,
    lengths: Vec<f64>,
    points: Vec<Point>,
}

impl<'curve> Track<'curve> {
    /// # Errors
    /// [`FairCurveError::Cusp`] where the curve stands still.
    pub(super) fn new(curve: &'curve FairCurve, tolerance: f64) -> Result<Self, FairCurveError> {
        let last = curve.last_position();
        let steps_per_position = match curve {
            FairCurve::Spline(_) => 1.0,
            FairCurve::Rational(_) => (STEPS_WITHOUT_STATIONS / last).ceil().max(4.0),
            _ => STEPS_WITHOUT_STATIONS,
        };
        let mut track = Self {
            curve,
            tolerance,
            positions: vec![0.0],
            lengths: vec![0.0],
            points: vec![curve.point_at(0.0)],
        };
        let mut step = 0.0;
        let mut before = jet_with_direction(curve, 0.0)?;
        while step < last * steps_per_position {
            let (from, to) = (step / steps_per_position, (step + 1.0) / steps_per_position);
            let after = jet_with_direction(curve, to)?;
            let middle = jet_with_direction(curve, f64::midpoint(from, to))?;
            let count = points_needed([&before, &middle, &after], tolerance);
            for index in 1..=count {
                let share = to_number(index) / to_number(count);
                let (position, point) = if index == count {
                    (to, after.point)
                } else {
                    let position = from + (to - from) * share;
                    (position, curve.point_at(position))
                };
                track.push(position, point);
            }
            before = after;
            step += 1.0;
        }
        Ok(track)
    }

    fn push(&mut self, position: f64, point: Point) {
        let at = self.points.len() - 1;
        let length = self.lengths[at] + number::length(point - self.points[at]);
        self.positions.push(position);
        self.lengths.push(length);
        self.points.push(point);
    }

    /// Length along the points to the end.
    pub(super) fn total_length(&self) -> f64 {
        self.lengths[self.lengths.len() - 1]
    }

    /// The position at a length, by straight interpolation: rising and continuous, no more is needed.
    pub(super) fn position_at(&self, length: f64) -> f64 {
        let after = first_from(&self.lengths, length).clamp(1, self.lengths.len() - 1);
        let (low, high) = (self.lengths[after - 1], self.lengths[after]);
        let share = if high > low {
            ((length - low) / (high - low)).clamp(0.0, 1.0)
        } else {
            1.0
        };
        let (from, to) = (self.positions[after - 1], self.positions[after]);
        if share == 1.0 {
            to
        } else {
            from + (to - from) * share
        }
    }

    /// The length at a position: the inverse of [`Track::position_at`].
    pub(super) fn length_at(&self, position: f64) -> f64 {
        let after = first_from(&self.positions, position).clamp(1, self.positions.len() - 1);
        let (low, high) = (self.positions[after - 1], self.positions[after]);
        let share = ((position - low) / (high - low)).clamp(0.0, 1.0);
        self.lengths[after - 1] + (self.lengths[after] - self.lengths[after - 1]) * share
    }

    /// Greatest distance of the curve between two positions from each of the bows that run between
    /// them (the second value is 0 for a single bow), to about a hundredth of it; infinite when the curve runs backwards beside
    /// them. Gives up above `limit`, returning what it has found till then.
    pub(super) fn deviation(&self, bows: &[Bow], from: f64, to: f64, limit: f64) -> [f64; 2] {
        let Some(mut look) = Look::new(bows, self.tolerance) else {
            return [f64::INFINITY; 2];
        };
        let mut first = first_from(&self.positions, from);
        first += usize::from(self.positions.get(first) == Some(&from));
        let beyond = first_from(&self.positions, to).max(first);
        let stored = &self.points[first..beyond];
        if stored.len() < LEAST_POINTS {
            for index in 1..=LEAST_POINTS {
                let share = to_number(index) / to_number(LEAST_POINTS + 1);
                let point = self.curve.point_at(from + (to - from) * share);
                if look.at(point, share) > limit {
                    break;
                }
            }
            return look.worst();
        }
        if stored.len() > 4 * LEAST_POINTS {
            // a misfit shows at a few points already
            let mut few = stored.iter().step_by(stored.len() / LEAST_POINTS);
            if few.any(|&point| look.size(point) > limit) {
                return [f64::INFINITY; 2];
            }
        }
        for (&point, &length) in stored.iter().zip(&self.lengths[first..beyond]) {
            if look.at(point, length) > limit {
                break;
            }
        }
        look.worst()
    }
}

/// The index of the first of these strictly rising values that is not below `value`. Found by steps of
/// growing size from where it would be if they rose evenly, which they often nearly do.
fn first_from(values: &[f64], value: f64) -> usize {
    let most = values[values.len() - 1];
    let guess = super::super::spline::to_index(value / most * to_number(values.len()));
    let mut low = guess.min(values.len());
    let mut high = low;
    let mut step = 4;
    while low > 0 && values[low - 1] >= value {
        high = low;
        low = low.saturating_sub(step);
        step *= 2;
    }
    step = 4;
    while high < values.len() && values[high] < value {
        low = high + 1;
        high = (high + step).min(values.len());
        step *= 2;
    }
    low + values[low..high].partition_point(|&here| here < value)
}

/// Points looked at between two joints at least.
const LEAST_POINTS: usize = 9;

fn jet_with_direction(curve: &FairCurve, position: f64) -> Result<Jet, FairCurveError> {
    let jet = curve.jet(position);
    if jet.direction().is_some() {
        Ok(jet)
    } else {
        Err(FairCurveError::Cusp {
            station: curve.station_near(position),
            at: jet.point,
            radius: 0.0,
        })
    }
}

/// Length of an arc that leaves a curve by no more than the tolerance, where the curvature changes by
/// `slope` along it: the best arcs leave by √3/216 · slope · length³ to either side.
pub(super) fn arc_length_allowed(slope: f64, tolerance: f64) -> f64 {
    6.0 * number::cube_root(tolerance / (3.0_f64.sqrt() * slope.abs()))
}

/// How many points are needed between the first and the last of three jets.
fn points_needed(jets: [&Jet; 3], tolerance: f64) -> usize {
    let [before, middle, after] = jets;
    let length =
        number::length(middle.point - before.point) + number::length(after.point - middle.point);
    let steepest = jets
        .iter()
        .map(|jet| jet.curvature_slope().abs())
        .filter(|slope| slope.is_finite())
        .fold(0.0, f64::max);
    let turn = |a: &Jet, b: &Jet| match (a.direction(), b.direction()) {
        (Some(a), Some(b)) => number::turn(a, b).abs(),
        _ => 0.0,
    };
    let by_turn = (turn(before, middle) + turn(middle, after)) / TURN_PER_POINT;
    let by_slope = POINTS_PER_ARC * length / arc_length_allowed(steepest, tolerance);
    let wanted = by_turn.max(by_slope).ceil().clamp(1.0, MOST_POINTS);
    super::super::spline::to_index(wanted).max(1)
}

/// The finest length that a search still distinguishes, in millimetres.
pub(super) const SHORTEST: f64 = 2.0 * tolerance::SHORTEST_SEGMENT;
