//! The fewest arcs along a curve.

use super::super::FairCurveError;
use super::joint::Joint;
use super::joint::joint_at;
use super::track::Track;
use super::track::arc_length_allowed;
use crate::geometry::number;

/// How the direction at a joint is chosen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Manner {
    /// The curve's own direction.
    Own,
    /// Leaning by what the best row of arcs would have there.
    Leaning,
}

/// The manners, in the order of the cells of a level.
pub(super) const MANNERS: [Manner; 2] = [Manner::Own, Manner::Leaning];

/// A joint that has been reached, and from where.
#[derive(Clone, Copy, Debug)]
pub(super) struct Reached {
    pub(super) joint: Joint,
    from: Option<usize>,
    /// Length of the span that led here, for the next guess.
    pub(super) span: f64,
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

/// How far along the curve the joint of a cell lies; 0 where there is none.
fn length_of(reached: &[Reached], cell: Option<usize>) -> f64 {
    cell.map_or(0.0, |index| reached[index].joint.length)
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
            for cell in Self::leader_first(&reached, &one_before) {
                // a joint carried over from the level before has been continued already
                let once = |here: &Level, before: &Level| {
                    let index = here[cell].filter(|_| here[cell] != before[cell])?;
                    let other = length_of(&reached, here[1 - cell]);
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
                        let beyond = length_of(&reached, level[to]);
                        let found = self.biarc_reach(&reached[index], manner, beyond);
                        keep(&mut reached, &mut level[to], index, found);
                    }
                }
                if let Some(index) = by_arc {
                    let beyond = level.map(|cell| length_of(&reached, cell));
                    let found = self.arc_reach(&reached[index], beyond[0].min(beyond[1]));
                    for (to, found) in found.into_iter().enumerate() {
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

    /// The cells of a level, that of the furthest joint first: what it reaches need not be looked for
    /// from the other.
    fn leader_first(reached: &[Reached], level: &Level) -> [usize; 2] {
        let [own, leaning] = level.map(|cell| length_of(reached, cell));
        if own >= leaning { [0, 1] } else { [1, 0] }
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

    pub(super) fn joint(&self, length: f64, manner: Manner, span: f64) -> Joint {
        let position = self.track.position_at(length);
        let lean = match manner {
            Manner::Own => 0.0,
            Manner::Leaning => self.lean_of(self.slope_about(length, span / 4.0)),
        };
        joint_at(self.track, length, position, lean)
    }

    pub(super) fn guess(&self, from: &Reached) -> f64 {
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
}

/// Share of the ideal lean that is used. With all of it a biarc of three quarters of the ideal length
/// leaves the curve by 1.09 of the tolerance, and a search from below would stop short; with 0.94 the
/// deviation stays within the tolerance up to 0.983 of the ideal length (both computed from the
/// formula at `lean_of`).
const LEAN_SHARE: f64 = 0.94;

/// Share of its own span by which a joint may lie behind the other of its level and still be gone on
/// from, in the usual search.
const WORTH_CONTINUING: f64 = 0.1;
