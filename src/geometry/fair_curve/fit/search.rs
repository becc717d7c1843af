//! The fewest arcs along a curve.

use super::super::super::Point;
use super::super::super::Vec2;
use super::super::super::number;
use super::super::FairCurve;
use super::super::FairCurveError;
use super::biarc::Bow;
use super::biarc::biarc;
use super::track::SHORTEST;
use super::track::Track;
use super::track::arc_length_allowed;

/// A place where arcs may meet: on the curve, in a direction of its own.
#[derive(Clone, Copy, Debug)]
pub(super) struct Joint {
    pub(super) position: f64,
    pub(super) length: f64,
    pub(super) point: Point,
    pub(super) direction: Vec2,
    /// The curve's own direction, turned by this much (radians, anticlockwise positive), is
    /// `direction`.
    pub(super) lean: f64,
    /// Ratio of the tangent lengths, second to first, of the biarc that ends here.
    pub(super) ratio: f64,
}

/// How the direction at a joint is chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Manner {
    /// The curve's own direction.
    Own,
    /// Leaning by what the best row of arcs would have there.
    Leaning,
}

/// The manners, in the order of the cells of a level.
const MANNERS: [Manner; 2] = [Manner::Own, Manner::Leaning];

/// A joint that has been reached, and from where.
#[derive(Clone, Copy, Debug)]
struct Reached {
    joint: Joint,
    from: Option<usize>,
    /// Length of the span that led here, for the next guess.
    span: f64,
    end: bool,
}

/// For one number of arcs and each manner: the joint furthest along the curve.
type Level = [Option<usize>; 2];

/// The joints, first to last, between which one arc or one biarc each stays within `target` of the
/// curve.
///
/// Level by level (number of arcs) the joint furthest along is kept for each manner of direction. It
/// is reached from the best joints one arc or two arcs before.
///
/// # Errors
/// [`FairCurveError::Cusp`] where not even the shortest span keeps the tolerance.
///
/// # Source
/// Farthest reach per number of arcs: Drysdale, Rote and Sturm, "Approximation of an open polygonal
/// curve with a minimum number of circular arcs and biarcs", Computational Geometry 41 (2008) 31–47
/// (from memory), here over a continuous curve. The lean: derived in [`lean_of`].
pub(super) fn fewest(
    track: &Track<'_>,
    target: f64,
    effort: Effort,
) -> Result<Vec<Joint>, FairCurveError> {
    let search = Search {
        track,
        target,
        effort,
    };
    search.fewest()
}

/// How hard to look.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Effort {
    /// For any number of arcs.
    Usual,
    /// For few arcs, of which one more would show: biarcs with any ratio of tangent lengths.
    Thorough,
}

fn keep(
    reached: &mut Vec<Reached>,
    cell: &mut Option<usize>,
    from: usize,
    found: Option<(Joint, bool)>,
) {
    let Some((joint, end)) = found else {
        return;
    };
    let best = cell.map_or(f64::NEG_INFINITY, |index| reached[index].joint.length);
    if joint.length > best {
        *cell = Some(reached.len());
        let span = joint.length - reached[from].joint.length;
        reached.push(Reached {
            joint,
            from: Some(from),
            span,
            end,
        });
    }
}

fn back_from(reached: &[Reached], end: usize) -> Vec<Joint> {
    let mut joints = Vec::new();
    let mut next = Some(end);
    while let Some(index) = next {
        joints.push(reached[index].joint);
        next = reached[index].from;
    }
    joints.reverse();
    joints
}

/// The joint at a length of the track, leaning by the given angle.
fn joint_at(track: &Track<'_>, length: f64, position: f64, lean: f64) -> Joint {
    let jet = track.curve.jet(position);
    let own = jet.direction().unwrap_or(Vec2::ZERO);
    Joint {
        position,
        length,
        point: jet.point,
        direction: leaning(own, lean),
        lean,
        ratio: 1.0,
    }
}

/// The joints of a reversed curve, as joints of the curve itself.
pub(super) fn turned_round(curve: &FairCurve, joints: &[Joint]) -> Vec<Joint> {
    let last = curve.last_position();
    let ratios = std::iter::once(1.0).chain(joints.iter().skip(1).rev().map(|one| 1.0 / one.ratio));
    joints
        .iter()
        .rev()
        .zip(ratios)
        .map(|(joint, ratio)| Joint {
            position: last - joint.position,
            direction: -joint.direction,
            ratio,
            ..*joint
        })
        .collect()
}

/// The direction turned by the lean.
pub(super) fn leaning(direction: Vec2, lean: f64) -> Vec2 {
    if lean == 0.0 {
        direction
    } else {
        number::rotated(direction, lean)
    }
}

/// One search along a curve.
#[derive(Debug)]
pub(super) struct Search<'track, 'curve> {
    pub(super) track: &'track Track<'curve>,
    pub(super) target: f64,
    pub(super) effort: Effort,
}

impl Search<'_, '_> {
    fn fewest(&self) -> Result<Vec<Joint>, FairCurveError> {
        let start = joint_at(self.track, 0.0, 0.0, 0.0);
        let mut reached = vec![Reached {
            joint: start,
            from: None,
            span: 0.0,
            end: false,
        }];
        // two levels before the start, so that the first steps find something behind them
        let mut behind: [Level; 3] = [[None; 2], [None; 2], [Some(0), None]];
        loop {
            let [three_before, two_before, one_before] = behind;
            let mut level = one_before;
            for cell in 0..MANNERS.len() {
                // a joint carried over from the level before has been continued already
                let once = |here: &Level, before: &Level| {
                    let index = here[cell].filter(|_| here[cell] != before[cell])?;
                    let other = here[1 - cell].map_or(0.0, |i| reached[i].joint.length);
                    let behind = other - reached[index].joint.length;
                    let hopeless = behind > WORTH_CONTINUING * reached[index].span;
                    (!hopeless || self.effort == Effort::Thorough).then_some(index)
                };
                let (by_biarc, by_arc) = (
                    once(&two_before, &three_before),
                    once(&one_before, &two_before),
                );
                if let Some(index) = by_biarc {
                    for (to, &manner) in MANNERS.iter().enumerate() {
                        let found = self.biarc_reach(&reached[index], manner);
                        keep(&mut reached, &mut level[to], index, found);
                    }
                }
                if let Some(index) = by_arc {
                    for (to, found) in self.arc_reach(&reached[index]).into_iter().enumerate() {
                        keep(&mut reached, &mut level[to], index, found);
                    }
                }
            }
            if let Some(end) = level.iter().flatten().find(|&&index| reached[index].end) {
                return Ok(back_from(&reached, *end));
            }
            let stuck = level == one_before && level == two_before && level == three_before;
            if stuck {
                return Err(self.no_way_on(&reached));
            }
            behind = [two_before, one_before, level];
        }
    }

    fn no_way_on(&self, reached: &[Reached]) -> FairCurveError {
        let curve = self.track.curve;
        let furthest = reached.iter().map(|one| one.joint);
        let at = furthest.fold(None, |best: Option<Joint>, joint| match best {
            Some(best) if best.length >= joint.length => Some(best),
            _ => Some(joint),
        });
        let position = at.map_or(0.0, |joint| joint.position);
        FairCurveError::Cusp {
            station: curve.station_near(position),
            at: curve.point_at(position),
            radius: 1.0 / curve.curvature_at(position).abs(),
        }
    }

    /// The lean that the best row of arcs has where the curvature changes by `slope` along the curve.
    ///
    /// With arcs of length L, the row's angle against the curve is a(u² − uL)/2 + aL²/12 at u along
    /// each arc (mean zero), its distance a(u³/6 − u²L/4 + uL²/12): zero at the joints, ±√3/216·aL³
    /// between. Put that equal to the tolerance ε: the curve's angle exceeds the row's by aL²/12 =
    /// (9aε²)^⅓ at the joints.
    ///
    /// # Source
    /// Derived here; closed form.
    fn lean_of(&self, slope: f64) -> f64 {
        -LEAN_SHARE * number::cube_root(9.0 * slope * self.target * self.target)
    }

    /// Change of curvature along the curve about a length, over `reach` to either side.
    fn slope_about(&self, length: f64, reach: f64) -> f64 {
        let (low, high) = (
            (length - reach).max(0.0),
            (length + reach).min(self.track.total_length()),
        );
        let curvature = |at| self.track.curve.curvature_at(self.track.position_at(at));
        let slope = (curvature(high) - curvature(low)) / (high - low);
        if slope.is_finite() { slope } else { 0.0 }
    }

    /// The joint at a length, in the curve's own direction.
    pub(super) fn own_joint(&self, length: f64) -> Joint {
        joint_at(self.track, length, self.track.position_at(length), 0.0)
    }

    fn joint(&self, length: f64, manner: Manner, span: f64) -> Joint {
        let position = self.track.position_at(length);
        let lean = match manner {
            Manner::Own => 0.0,
            Manner::Leaning => self.lean_of(self.slope_about(length, span / 4.0)),
        };
        joint_at(self.track, length, position, lean)
    }

    fn guess(&self, from: &Reached) -> f64 {
        let slope = self.track.curve.jet(from.joint.position).curvature_slope();
        let allowed = arc_length_allowed(slope, self.target);
        let whole = self.track.total_length();
        match (allowed.is_finite(), from.span > 0.0) {
            (true, true) => (1.9 * allowed).clamp(from.span / 8.0, from.span * 8.0),
            (false, true) => from.span,
            (true, false) => allowed.clamp(whole * 1e-6, whole),
            (false, false) => whole / 4.0,
        }
    }

    /// A ratio of tangent lengths with which the biarc between two joints keeps the target, or the best
    /// one found, and its deviation.
    ///
    /// The deviation of an arc grows with the third power of its length: the ratio is changed until
    /// both arcs deviate alike.
    pub(super) fn best_ratio(&self, start: &Joint, end: &Joint) -> (f64, f64) {
        let mut best = (1.0, f64::INFINITY);
        let mut ratio: f64 = 1.0;
        let most = match self.effort {
            Effort::Usual => 3,
            Effort::Thorough => MOST_RATIOS,
        };
        for _ in 0..most {
            let Some([first, second]) = self.biarc_deviation(start, end, ratio) else {
                break;
            };
            let worse = first.max(second);
            if worse < best.1 {
                best = (ratio, worse);
            }
            let change = number::cube_root(first / second);
            let alike = (0.97..1.03).contains(&change) || !change.is_finite();
            if worse <= self.target || worse > self.target * 8.0 || alike {
                break;
            }
            ratio = (ratio * change.clamp(0.5, 2.0)).clamp(0.1, 10.0);
        }
        let near = best.1 > self.target && best.1 < self.target * 8.0;
        if near && self.effort == Effort::Thorough {
            // coarsely over the whole range, then ever closer about the best
            self.better_ratio((start, end), &mut best, &[0.3, 0.45, 0.67, 1.5, 2.2, 3.3]);
            for steps in FINER_RATIOS {
                let base = best.0;
                let changed = steps.map(|step| base * step);
                self.better_ratio((start, end), &mut best, &changed);
            }
        }
        best
    }

    fn better_ratio(&self, ends: (&Joint, &Joint), best: &mut (f64, f64), ratios: &[f64]) {
        for &ratio in ratios {
            if best.1 <= self.target {
                return;
            }
            if let Some([first, second]) = self.biarc_deviation(ends.0, ends.1, ratio)
                && first.max(second) < best.1
            {
                *best = (ratio, first.max(second));
            }
        }
    }

    fn biarc_deviation(&self, start: &Joint, end: &Joint, ratio: f64) -> Option<[f64; 2]> {
        let ends = ((start.point, start.direction), (end.point, end.direction));
        let bows = biarc(ends.0, ends.1, ratio)?;
        let limit = self.target * 30.0;
        let (from, to) = (start.position, end.position);
        Some(self.track.deviation(&bows, from, to, limit))
    }

    /// The furthest joint that one biarc reaches within the target.
    fn biarc_reach(&self, from: &Reached, manner: Manner) -> Option<(Joint, bool)> {
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
        let mut best = furthest(attempt, guess, most, self.target);
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
    /// direction of that manner.
    fn arc_reach(&self, from: &Reached) -> [Option<(Joint, bool)>; 2] {
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
        let Some((most, ())) = furthest(attempt, self.guess(from) / 2.0, rest, self.target) else {
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

/// Share of the ideal lean that is used. With all of it a biarc of three quarters of the ideal length
/// leaves the curve by 1.09 of the tolerance, and a search from below would stop short; with 0.94 the
/// deviation stays within the tolerance up to 0.983 of the ideal length (both computed from the
/// formula at `lean_of`).
const LEAN_SHARE: f64 = 0.94;

/// Share of its own span by which a joint may lie behind the other of its level and still be gone on
/// from, in the usual search.
const WORTH_CONTINUING: f64 = 0.1;

/// Longer spans tried beyond one that fits while a slightly longer one does not.
const FURTHER: [f64; 3] = [1.1, 1.25, 1.6];

/// Changes of the best ratio that are tried, coarse to fine.
const FINER_RATIOS: [[f64; 2]; 3] = [[0.8, 1.25], [0.9, 1.12], [0.95, 1.06]];

/// Ratios of tangent lengths tried for one biarc.
const MOST_RATIOS: u8 = 6;

/// Sine of an angle between directions that are one direction.
const EQUAL_DIRECTIONS: f64 = 1e-12;

/// The longest span whose deviation is within the target, with what the attempt gave for it.
///
/// The deviation grows with the third power of the span: that gives each next guess, held within what
/// is known to fit and not to fit.
fn furthest<T>(
    attempt: impl Fn(f64) -> (T, f64),
    guess: f64,
    most: f64,
    target: f64,
) -> Option<(f64, T)> {
    let mut best: Option<(f64, T)> = None;
    let (mut fits, mut fails) = (0.0, f64::INFINITY);
    let mut span = guess.min(most);
    for _ in 0..60 {
        if span < SHORTEST.min(most) {
            break;
        }
        let (outcome, deviation) = attempt(span);
        let growth = number::cube_root(0.985 * target / deviation);
        let next = if deviation <= target {
            best = Some((span, outcome));
            fits = span;
            if span == most || deviation > 0.96 * target {
                break;
            }
            span * growth.clamp(1.01, 6.0)
        } else {
            fails = span;
            span * growth.clamp(0.1, 0.99)
        };
        if fails < fits * 1.008 {
            break;
        }
        span = if fails.is_finite() {
            let inside = fails - fits;
            next.clamp(fits + inside * 0.05, fails - inside * 0.05)
        } else {
            next.min(most)
        };
    }
    best
}
