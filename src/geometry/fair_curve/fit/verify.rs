//! How far finished segments and a curve are apart, measured both ways.

use super::super::FairCurve;
use super::super::spline::to_number;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::number;

/// A stretch of the curve and the segments that stand for it.
#[derive(Clone, Copy, Debug)]
pub(super) struct Span<'segments> {
    pub(super) from: f64,
    pub(super) to: f64,
    pub(super) segments: &'segments [Segment],
}

/// Points of the curve looked at in each span, and of each segment.
const CURVE_POINTS: usize = 19;
const SEGMENT_POINTS: usize = 11;

/// The greatest distance of any point of either from the other.
///
/// # Accuracy
/// The span of the curve is looked at in 19 places or twice between stations, whichever is more, and
/// each segment in 11, none of which the fit used; about the worst place the maximum is closed in on
/// by golden section. The distance between is smooth with at most a few waves a span, so the value is
/// good to about one part in a thousand.
pub(super) fn deviation(curve: &FairCurve, span: &Span<'_>) -> f64 {
    curve_from_segments(curve, span).max(segments_from_curve(curve, span))
}

fn nearest_distance(segments: &[Segment], to: Point) -> f64 {
    segments
        .iter()
        .map(|segment| number::length(segment.nearest_point(to) - to))
        .fold(f64::INFINITY, f64::min)
}

fn curve_from_segments(curve: &FairCurve, span: &Span<'_>) -> f64 {
    let length = span.to - span.from;
    let between = super::super::spline::to_index(2.0 * length);
    let count = match curve {
        FairCurve::Spline(_) => CURVE_POINTS.max(between),
        FairCurve::Rational(_) => (2 * CURVE_POINTS).max(4 * between),
        _ => 2 * CURVE_POINTS,
    };
    let step = length / to_number(count);
    let distance = |position: f64| nearest_distance(span.segments, curve.point_at(position));
    let mut worst = (span.from, 0.0);
    for index in 0..count {
        let position = span.from + step * (to_number(index) + 0.5);
        let here = distance(position);
        if here > worst.1 {
            worst = (position, here);
        }
    }
    let (low, high) = (
        (worst.0 - step).max(span.from),
        (worst.0 + step).min(span.to),
    );
    golden(distance, low, high, -1.0).max(worst.1)
}

fn segments_from_curve(curve: &FairCurve, span: &Span<'_>) -> f64 {
    let whole: f64 = span.segments.iter().map(Segment::length).sum();
    let mut before = 0.0;
    let mut worst: f64 = 0.0;
    let mut low = span.from;
    for segment in span.segments {
        let length = segment.length();
        for index in 0..SEGMENT_POINTS {
            let share = (to_number(index) + 0.5) / to_number(SEGMENT_POINTS);
            let point = segment.point_at(share);
            let along = (before + share * length) / whole;
            let guess = span.from + (span.to - span.from) * along;
            let (position, distance) = nearest_on_curve(curve, point, guess.max(low), span);
            // feet follow each other: the next search starts where this one ended
            low = low.max(position);
            worst = worst.max(distance);
        }
        before += length;
    }
    worst
}

/// The curve's nearest position to a point within a span, and the distance, from a guess.
fn nearest_on_curve(curve: &FairCurve, point: Point, guess: f64, span: &Span<'_>) -> (f64, f64) {
    let distance = |position: f64| number::length(curve.point_at(position) - point);
    let mut best = (guess, distance(guess));
    // step along the tangent to the foot, as long as that comes nearer
    for _ in 0..12 {
        let jet = curve.jet(best.0);
        let per_position = scale(curve, best.0);
        let ahead = (point - jet.point).dot(jet.first) / jet.first.dot(jet.first) / per_position;
        let mut step = ahead;
        let mut moved = false;
        for _ in 0..6 {
            let next = (best.0 + step).clamp(span.from, span.to);
            let there = distance(next);
            if there < best.1 {
                best = (next, there);
                moved = true;
                break;
            }
            step /= 2.0;
        }
        if !moved || step.abs() < 1e-9 {
            break;
        }
    }
    best
}

/// The curve's own parameter per position, at a position.
fn scale(curve: &FairCurve, position: f64) -> f64 {
    match curve {
        FairCurve::Spline(spline) => {
            let last = spline.pieces().len() - 1;
            let index = super::super::spline::to_index(position).min(last);
            spline.knots()[index + 1] - spline.knots()[index]
        }
        FairCurve::Ellipse(ellipse) => ellipse.sweep().abs(),
        FairCurve::Bezier(_) | FairCurve::Rational(_) | FairCurve::Exact(_) => 1.0,
    }
}

/// The extreme of `value` between `low` and `high`: the least for `sign` 1, the greatest for −1.
fn golden(value: impl Fn(f64) -> f64, low: f64, high: f64, sign: f64) -> f64 {
    let ratio = (5.0_f64.sqrt() - 1.0) / 2.0;
    let (mut low, mut high) = (low, high);
    let mut left = high - (high - low) * ratio;
    let mut right = low + (high - low) * ratio;
    let (mut at_left, mut at_right) = (value(left) * sign, value(right) * sign);
    for _ in 0..12 {
        if at_left < at_right {
            (high, right, at_right) = (right, left, at_left);
            left = high - (high - low) * ratio;
            at_left = value(left) * sign;
        } else {
            (low, left, at_left) = (left, right, at_right);
            right = low + (high - low) * ratio;
            at_right = value(right) * sign;
        }
    }
    at_left.min(at_right) * sign
}
