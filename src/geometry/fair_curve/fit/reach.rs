//! How far along the curve one arc or one biarc goes.

use super::biarc::Bow;
use super::joint::Joint;
use super::search::Effort;
use super::search::MANNERS;
use super::search::Manner;
use super::search::Reached;
use super::search::Search;
use super::track::SHORTEST;
use crate::geometry::number;

impl Search<'_, '_> {
    /// The furthest joint that one biarc reaches within the target, if it lies `beyond` that length of
    /// the curve.
    pub(super) fn biarc_reach(
        &self,
        from: &Reached,
        manner: Manner,
        beyond: f64,
    ) -> Option<(Joint, bool)> {
        let start = from.joint;
        let rest = self.track.total_length() - start.length;
        // only the curve's own direction may end it
        let most = match manner {
            Manner::Own => rest,
            Manner::Leaning => rest * 0.95,
        };
        let attempt = |span: f64| {
            let length = if span == rest {
                self.track.total_length()
            } else {
                start.length + span
            };
            let mut joint = self.joint(length, manner, span);
            let (ratio, deviation) = self.best_ratio(&start, &joint);
            joint.ratio = ratio;
            (joint, deviation)
        };
        let guess = self.guess(from);
        if manner == Manner::Own && rest < 3.0 * guess {
            let (joint, deviation) = attempt(rest);
            if deviation <= self.target {
                return Some((joint, true));
            }
        }
        let least = match self.effort {
            Effort::Usual => beyond - start.length,
            // longer ones may do where shorter ones do not
            Effort::Thorough => 0.0,
        };
        let mut best = furthest(attempt, guess, (least, most), self.target);
        let beyond = match self.effort {
            Effort::Usual => &FURTHER[..1],
            Effort::Thorough => &FURTHER[..],
        };
        for further in beyond {
            let Some((span, _)) = best else { break };
            if span * further < most {
                let (joint, deviation) = attempt(span * further);
                if deviation <= self.target {
                    best = Some((span * further, joint));
                }
            }
        }
        best.map(|(span, joint)| (joint, span == rest))
    }

    /// For each manner, the furthest joint that one arc reaches within the target and meets in the
    /// direction of that manner, if it lies `beyond` that length of the curve.
    pub(super) fn arc_reach(&self, from: &Reached, beyond: f64) -> [Option<(Joint, bool)>; 2] {
        let start = from.joint;
        let rest = self.track.total_length() - start.length;
        let to_arc = |span: f64| {
            let length = (start.length + span).min(self.track.total_length());
            let position = self.track.position_at(length);
            let point = self.track.curve.point_at(position);
            (
                length,
                position,
                Bow::new(start.point, start.direction, point),
            )
        };
        let deviation = |position: f64, bow: &Option<Bow>, limit: f64| {
            bow.map_or(f64::INFINITY, |bow| {
                self.track
                    .deviation(&[bow], start.position, position, limit)[0]
            })
        };
        let attempt = |span: f64| {
            let (_, position, bow) = to_arc(span);
            ((), deviation(position, &bow, self.target * 30.0))
        };
        let spans = (beyond - start.length, rest);
        let Some((most, ())) = furthest(attempt, self.guess(from) / 2.0, spans, self.target) else {
            return [None, None];
        };
        MANNERS.map(|manner| {
            // how far the arc's end direction is off that of the manner
            let off = |span: f64| {
                let (length, _, bow) = to_arc(span);
                let joint = self.joint(length, manner, 2.0 * span);
                bow.map(|bow| bow.end_direction().cross(joint.direction))
            };
            let span = last_zero(off, most)?;
            if manner == Manner::Leaning && span > rest * 0.95 {
                return None;
            }
            let (length, position, bow) = to_arc(span);
            if deviation(position, &bow, self.target) > self.target {
                return None;
            }
            let mut joint = self.joint(length, manner, 2.0 * span);
            let end = span == rest;
            if !end {
                // the arc decides; what is left of the difference goes into the lean
                let own = self.track.curve.direction_at(position);
                joint.direction = bow?.end_direction();
                joint.lean = number::turn(own, joint.direction);
            }
            Some((joint, end))
        })
    }
}

/// The zero of `off` nearest to `most` from below, looked for down to half of it.
fn last_zero(off: impl Fn(f64) -> Option<f64>, most: f64) -> Option<f64> {
    const STEPS: u8 = 4;
    let mut high = most;
    let mut at_high = off(high)?;
    if at_high.abs() < EQUAL_DIRECTIONS {
        return Some(most);
    }
    for step in 1..=STEPS {
        let mut low = most * (1.0 - f64::from(step) / f64::from(2 * STEPS));
        let mut at_low = off(low)?;
        if (at_low > 0.0) != (at_high > 0.0) {
            for _ in 0..5 {
                // false position, held away from the ends
                let share = (at_low / (at_low - at_high)).clamp(0.1, 0.9);
                let middle = low + (high - low) * share;
                let at_middle = off(middle)?;
                if (at_middle > 0.0) == (at_low > 0.0) {
                    (low, at_low) = (middle, at_middle);
                } else {
                    (high, at_high) = (middle, at_middle);
                }
            }
            return Some(low);
        }
        (high, at_high) = (low, at_low);
    }
    None
}

/// The longest span whose deviation is within the target, with what the attempt gave for it; `None`
/// where it is not longer than `least`, or there is none.
///
/// The deviation grows with about the third power of the span, so that its cube root is nearly straight.
/// Between a span that fits and one that does not, the next guess lies on the line through the last two
/// attempts. From above the steps are half as long as the cube root tells: spans that fit may lie beyond
/// shorter ones that do not.
fn furthest<T>(
    attempt: impl Fn(f64) -> (T, f64),
    guess: f64,
    (least, most): (f64, f64),
    target: f64,
) -> Option<(f64, T)> {
    let mut best: Option<(f64, T)> = None;
    let (mut fits, mut fails) = (least.max(0.0), f64::INFINITY);
    let mut span = guess.max(fits * 1.004).min(most);
    let mut before: Option<(f64, f64)> = None;
    for _ in 0..60 {
        if span < SHORTEST.min(most) {
            break;
        }
        let (outcome, deviation) = attempt(span);
        if deviation <= target {
            best = Some((span, outcome));
            fits = span;
            if span == most || deviation > NEAR_ENOUGH * target {
                break;
            }
        } else {
            fails = span;
        }
        if fails < fits * 1.008 {
            break;
        }
        let root = number::cube_root(deviation / target);
        let by_cube_law = AIM / root;
        let next = if fails.is_infinite() {
            span * by_cube_law.clamp(1.01, 6.0)
        } else if best.is_none() {
            span * f64::midpoint(1.0, by_cube_law).clamp(0.1, 0.99)
        } else {
            let slope = before.map_or(0.0, |(other, there)| (root - there) / (span - other));
            let by_line = span + (AIM - root) / slope;
            let has_line = slope > 0.0 && slope.is_finite();
            if has_line {
                by_line
            } else {
                span * by_cube_law
            }
        };
        before = root.is_finite().then_some((span, root));
        span = if fails.is_finite() {
            let inside = fails - fits;
            next.clamp(fits + inside * 0.05, fails - inside * 0.05)
        } else {
            next.min(most)
        };
    }
    best
}

/// Cube root of the share of the target that is aimed at.
const AIM: f64 = 0.995;
/// The least share that is near enough to stop at.
const NEAR_ENOUGH: f64 = 0.96;

/// Longer spans tried beyond one that fits while a slightly longer one does not.
const FURTHER: [f64; 3] = [1.1, 1.25, 1.6];

/// Sine of an angle between directions that are one direction.
const EQUAL_DIRECTIONS: f64 = 1e-12;
