//! Sensitivities by resolving again, and what they add up to.

use super::bench::Bench;
use super::bench::Bent;
use super::bench::Holder;
use super::bench::Target;
use crate::design::Band;
use crate::measures::limits::Limit;

/// How far a value is moved to see what follows, in millimetres: large against what a root finder
/// leaves over, small against any size of a part.
const STEP: f64 = 1.0 / 128.0;

/// Slopes up and down that differ by more than this part of their size make a bend.
const BEND: f64 = 0.02;

/// What one value does to what is asked for.
#[derive(Clone, Debug, PartialEq)]
pub struct Contribution {
    /// Its name.
    pub name: String,
    /// What has it.
    pub holder: Holder,
    /// By how much the result changes for each millimetre of it.
    pub sensitivity: f64,
    /// How far it is expected to come out.
    pub band: Band,
    /// What half its spread does to the result: never negative.
    pub reach: f64,
}

/// What the spreads of everything add up to.
#[derive(Clone, Debug, PartialEq)]
pub struct Stack {
    /// The value as designed.
    pub value: f64,
    /// What moves it, the biggest first; what does not move it is left out.
    pub contributions: Vec<Contribution>,
    /// The least and the greatest it can come to.
    pub worst: [f64; 2],
    /// Where it comes to most likely.
    pub likely: [f64; 2],
    /// Whether the slopes tell all.
    pub course: Course,
}

/// How a result goes with what it is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Course {
    /// The slopes hold over the whole spread, near enough.
    Straight,
    /// It bends: the worst case, which is resolved, is not the sum of the slopes.
    Bends,
    /// The part cannot be built where every value is at its worst; that case is the sum of the slopes.
    CannotBeBuilt,
}

impl Stack {
    /// The middle of where it comes to most likely.
    pub fn middle(&self) -> f64 {
        f64::midpoint(self.likely[0], self.likely[1])
    }
}

impl Bench<'_> {
    /// The stack of a limit; `None` when it has no value.
    pub fn limit(&self, limit: &Limit) -> Option<Stack> {
        self.stacks(&[Target::Limit(Box::new(limit.clone()))])
            .pop()?
    }

    /// The stacks of several limits, in their order: cheaper than one by one.
    pub fn limits(&self, limits: &[Limit]) -> Vec<Option<Stack>> {
        let targets: Vec<Target> = limits
            .iter()
            .map(|limit| Target::Limit(Box::new(limit.clone())))
            .collect();
        self.stacks(&targets)
    }

    /// The stacks of the dimensions that are made of others, by name.
    pub fn derived(&self) -> Vec<(String, Stack)> {
        let names: Vec<String> = self
            .design()
            .dimensions
            .iter()
            .filter(|dimension| !dimension.made_of.is_empty() && dimension.value().is_some())
            .map(|dimension| dimension.name.clone())
            .collect();
        let targets: Vec<Target> = names.iter().cloned().map(Target::Dimension).collect();
        let stacks = self.stacks(&targets);
        names
            .into_iter()
            .zip(stacks)
            .filter_map(|(name, stack)| Some((name, stack?)))
            .filter(|(_, stack)| !stack.contributions.is_empty())
            .collect()
    }

    /// The stacks of targets, in their order.
    pub(in crate::measures) fn stacks(&self, targets: &[Target]) -> Vec<Option<Stack>> {
        let Ok(centre) = self.bent(&[]) else {
            return targets.iter().map(|_| None).collect();
        };
        let at_centre: Vec<Option<f64>> = targets.iter().map(|t| centre.value(t)).collect();
        // for each free value the targets there and there
        let mut slopes: Vec<Vec<Option<f64>>> = Vec::new();
        for index in 0..self.free().len() {
            let here = |by: f64| match self.bent(&[(index, by)]) {
                Ok(bent) => targets.iter().map(|target| bent.value(target)).collect(),
                Err(_) => vec![None; targets.len()],
            };
            let steps = [-STEP, STEP, -STEP / 2.0, STEP / 2.0].map(here);
            let slope = |target: usize| {
                let at = |step: usize| steps.get(step)?.get(target).copied().flatten();
                slope(
                    [at(0), at(1), at(2), at(3)],
                    at_centre.get(target).copied().flatten()?,
                )
            };
            slopes.push((0..targets.len()).map(slope).collect());
        }
        let stack = |(number, target): (usize, &Target)| {
            let value = at_centre.get(number).copied().flatten()?;
            let of_target: Vec<f64> = slopes
                .iter()
                .map(|slopes| slopes.get(number).copied().flatten().unwrap_or(0.0))
                .collect();
            Some(self.stack(target, value, &of_target))
        };
        targets.iter().enumerate().map(stack).collect()
    }

    fn stack(&self, target: &Target, value: f64, slopes: &[f64]) -> Stack {
        let mut contributions: Vec<Contribution> = Vec::new();
        let (mut middle, mut square) = (value, 0.0);
        let mut linear = [value, value];
        let mut corners: [Vec<(usize, f64)>; 2] = [Vec::new(), Vec::new()];
        for (index, (free, &sensitivity)) in self.free().iter().zip(slopes).enumerate() {
            let reach = sensitivity.abs() * free.band.half();
            if sensitivity.abs() <= NO_SLOPE || reach == 0.0 {
                continue;
            }
            middle += sensitivity * free.band.middle();
            square += reach * reach;
            let ends = if sensitivity > 0.0 {
                [-free.band.minus, free.band.plus]
            } else {
                [free.band.plus, -free.band.minus]
            };
            for ((end, corner), linear) in ends.iter().zip(&mut corners).zip(&mut linear) {
                corner.push((index, *end));
                *linear += sensitivity * end;
            }
            contributions.push(Contribution {
                name: free.name.clone(),
                holder: free.holder,
                sensitivity,
                band: free.band,
                reach,
            });
        }
        contributions.sort_by(|a, b| b.reach.total_cmp(&a.reach));
        let resolved = corners.map(|corner| self.bent(&corner).ok()?.value(target));
        let (worst, course) = match resolved {
            [Some(least), Some(most)] => {
                let off = (least - linear[0]).abs().max((most - linear[1]).abs());
                let bends = off > BEND * (linear[1] - linear[0]).abs();
                let course = if bends {
                    Course::Bends
                } else {
                    Course::Straight
                };
                ([least.min(most), most.max(least)], course)
            }
            _ => (linear, Course::CannotBeBuilt),
        };
        let deviation = square.sqrt();
        Stack {
            value,
            contributions,
            worst,
            likely: [middle - deviation, middle + deviation],
            course,
        }
    }
}

/// A slope smaller than this is none: what the differences of exact sums leave over.
const NO_SLOPE: f64 = 1e-7;

/// By how much something changes for each millimetre of one free value; `None` where it does not.
pub(super) fn slope_of(
    bench: &Bench<'_>,
    index: usize,
    value: &dyn Fn(&Bent) -> Option<f64>,
) -> Option<f64> {
    let at = |by: f64| value(&bench.bent(&[(index, by)]).ok()?);
    let steps = [-STEP, STEP, -STEP / 2.0, STEP / 2.0].map(at);
    slope(steps, at(0.0)?).filter(|slope| slope.abs() > NO_SLOPE)
}

/// The slope from the values one and half a step down and up, by Richardson's rule; from one side
/// alone where the other has no value.
fn slope([down, up, half_down, half_up]: [Option<f64>; 4], centre: f64) -> Option<f64> {
    let one_sided =
        |half: f64, whole: f64, step: f64| (4.0 * (half - centre) - (whole - centre)) / step;
    match (down, up, half_down, half_up) {
        (Some(down), Some(up), Some(half_down), Some(half_up)) => {
            let wide = (up - down) / (2.0 * STEP);
            let narrow = (half_up - half_down) / STEP;
            Some(narrow + (narrow - wide) / 3.0)
        }
        (_, Some(up), _, Some(half_up)) => Some(one_sided(half_up, up, STEP)),
        (Some(down), _, Some(half_down), _) => Some(one_sided(half_down, down, -STEP)),
        _ => None,
    }
}
