//! The ratio of tangent lengths of a biarc.

use super::biarc::biarc;
use super::joint::Joint;
use super::search::Effort;
use super::search::Search;
use crate::geometry::number;

impl Search<'_, '_> {
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
}

/// Changes of the best ratio that are tried, coarse to fine.
const FINER_RATIOS: [[f64; 2]; 3] = [[0.8, 1.25], [0.9, 1.12], [0.95, 1.06]];

/// Ratios of tangent lengths tried for one biarc.
const MOST_RATIOS: u8 = 6;
