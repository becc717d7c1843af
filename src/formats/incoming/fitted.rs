//! Curves that are neither lines nor arcs, followed by arcs.

use super::too_much;
use crate::formats::FileFormat;
use crate::formats::FormatError;
use crate::geometry::Point;
use crate::geometry::Segment;
use crate::geometry::deviation;
use crate::geometry::fair_curve::FairCurve;
use crate::geometry::fair_curve::RationalSpline;
use crate::geometry::fair_curve::fit;
use crate::geometry::number;
use crate::geometry::tolerance;

/// Most spans of curves that are followed in one file.
const MOST_SPANS: usize = 20_000;
/// Most chords for one span that no arcs follow.
const MOST_CHORDS: usize = 4096;

/// Follows curves by arcs, within limits.
#[derive(Debug)]
pub(in crate::formats) struct Follower {
    format: FileFormat,
    within: f64,
    spans: usize,
}

/// The lines and arcs that follow a curve, and how near.
#[derive(Clone, Debug, Default, PartialEq)]
pub(in crate::formats) struct Followed {
    pub(in crate::formats) segments: Vec<Segment>,
    pub(in crate::formats) deviation: f64,
}

impl Followed {
    pub(in crate::formats) fn append(&mut self, mut other: Self) {
        self.segments.append(&mut other.segments);
        self.deviation = self.deviation.max(other.deviation);
    }
}

impl Follower {
    pub(in crate::formats) const fn new(format: FileFormat, within: f64) -> Self {
        Self {
            format,
            within,
            spans: 0,
        }
    }

    /// Arcs along the curve; chords where it comes to a point that no arc follows.
    pub(in crate::formats) fn follow(
        &mut self,
        curve: &FairCurve,
    ) -> Result<Followed, FormatError> {
        let last = curve.last_position();
        let spans = match curve {
            FairCurve::Rational(spline) => spline.spans(),
            FairCurve::Spline(spline) => spline.pieces().len(),
            FairCurve::Ellipse(_) | FairCurve::Bezier(_) | FairCurve::Exact(_) => 1,
        };
        self.spans += spans;
        if self.spans > MOST_SPANS {
            return Err(too_much(
                self.format,
                "spans of curves",
                self.spans,
                MOST_SPANS,
            ));
        }
        if let Some(line) = straight(curve, last, spans) {
            return Ok(line);
        }
        if let Ok(fitted) = fit(curve, self.within) {
            return Ok(Followed {
                segments: fitted.segments,
                deviation: fitted.deviation,
            });
        }
        Ok(self.chords(curve, last, spans))
    }

    /// Arcs along each smooth run of a spline.
    pub(in crate::formats) fn follow_spline(
        &mut self,
        spline: &RationalSpline,
    ) -> Result<Followed, FormatError> {
        let mut whole = Followed::default();
        for run in spline.smooth_runs() {
            let degree_one = run.degree() == 1;
            let curve = FairCurve::Rational(run);
            if degree_one {
                let spans = curve.last_position();
                let mut at = 0.0;
                while at < spans {
                    let (from, to) = (curve.point_at(at), curve.point_at(at + 1.0));
                    whole.segments.push(Segment::line(from, to));
                    at += 1.0;
                }
                continue;
            }
            whole.append(self.follow(&curve)?);
        }
        Ok(whole)
    }

    /// Chords, twice as many until they lie within the tolerance.
    fn chords(&self, curve: &FairCurve, last: f64, spans: usize) -> Followed {
        let most = MOST_CHORDS * spans.min(16);
        let mut count = 16 * spans;
        let mut points = sampled(curve, last, count);
        loop {
            let finer = sampled(curve, last, 2 * count);
            let off = points
                .windows(2)
                .zip(finer.chunks(2))
                .filter_map(|(ends, fine)| match (ends, fine) {
                    ([a, b], [_, middle]) => {
                        let foot = Segment::line(*a, *b).nearest_point(*middle);
                        Some(number::length(*middle - foot))
                    }
                    _ => None,
                })
                .fold(0.0, f64::max);
            if off <= self.within / 2.0 || 2 * count > most {
                return Followed {
                    segments: polyline(&points),
                    deviation: off,
                };
            }
            points = finer;
            count *= 2;
        }
    }
}

fn share(index: usize, count: usize) -> f64 {
    // whole numbers below 2^52 are exact
    #[expect(clippy::cast_precision_loss, reason = "far below 2^52")]
    let share = index as f64 / count as f64;
    share
}

fn sampled(curve: &FairCurve, last: f64, count: usize) -> Vec<Point> {
    (0..=count)
        .map(|index| curve.point_at(last * share(index, count)))
        .collect()
}

fn polyline(points: &[Point]) -> Vec<Segment> {
    points
        .windows(2)
        .filter_map(|pair| match pair {
            [a, b] if number::length(*b - *a) >= tolerance::SHORTEST_SEGMENT => {
                Some(Segment::line(*a, *b))
            }
            _ => None,
        })
        .collect()
}

/// A curve that is a straight line run one way.
fn straight(curve: &FairCurve, last: f64, spans: usize) -> Option<Followed> {
    if matches!(curve, FairCurve::Ellipse(_)) {
        return None;
    }
    let points = sampled(curve, last, 8 * spans.min(64));
    let (first, end) = (*points.first()?, *points.last()?);
    let chord = number::normalized(end - first)?;
    let mut before = -tolerance::SAME_POINT;
    for point in &points {
        let along = (*point - first).dot(chord);
        let off = (*point - first).cross(chord).abs();
        if off > tolerance::SAME_POINT || along < before - tolerance::SAME_POINT {
            return None;
        }
        before = along;
    }
    let line = [Segment::line(first, end)];
    let stray = deviation::furthest(&polyline(&points), &line)?;
    Some(Followed {
        segments: line.to_vec(),
        deviation: stray.distance,
    })
}
