//! Which instrument would settle what is too close to call.

use super::Item;
use super::Taking;
use crate::geometry::tolerance;
use crate::measures::TakenKind;
use crate::measures::uncertainty::Accuracy;
use crate::measures::uncertainty::Budget;
use crate::measures::uncertainty::Circumstances;
use crate::measures::uncertainty::Evaluation;
use crate::measures::uncertainty::Means;
use crate::measures::uncertainty::Sample;
use crate::trade::instruments;
use crate::trade::instruments::MeasuredFrom;

/// What would settle a verdict that is too close to call.
#[derive(Clone, Debug, PartialEq)]
pub struct Settling {
    /// The roughest instrument known here that would, for this reading.
    pub instrument: Option<Means>,
    /// What any instrument may be off by at most, either way, to settle it: in the unit of the item; 0
    /// if the reading is on the limit itself, which nothing settles, or if something else is in the way.
    pub needed: f64,
    /// What keeps every instrument from settling it, if anything does.
    pub obstacle: Option<Obstacle>,
}

/// What is in the way where no instrument settles a verdict.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Obstacle {
    /// The scatter of the readings, or how few they are.
    Scatter,
    /// How warm part and instrument were.
    Temperature,
}

/// Halvings of the error that an instrument may have: its last digit is reached.
const HALVINGS: u32 = 60;

/// What would settle it: `distance` is how far the value is from the limit, `guard` the factor g.
///
/// The same readings are taken to come from the other instrument; so it is a forecast.
pub fn settling(
    item: &Item,
    sample: &Sample,
    circumstances: &Circumstances,
    (distance, guard): (f64, f64),
) -> Settling {
    let distance = distance.abs();
    let with = |means: Means| {
        let with = Circumstances {
            means,
            ..circumstances.clone()
        };
        let budget = Budget::of_the_mean(sample, &with);
        let combined = budget.combined;
        let settles = combined.factor_as_sure_as(guard) * combined.standard <= distance;
        (settles, budget, with.means)
    };
    let off_by = |error: f64| {
        let means = Means {
            name: String::new(),
            accuracy: Accuracy::Within(error),
        };
        with(means)
    };
    let (needed, obstacle) = match off_by(0.0) {
        _ if distance <= tolerance::SAME_DIMENSION => (0.0, None),
        (true, ..) => (most(|error| off_by(error).0, distance / guard), None),
        (false, budget, _) => (0.0, obstacle(&budget)),
    };
    if item.kind != TakenKind::Length || item.taking == Taking::Gauge {
        return Settling {
            instrument: None,
            needed,
            obstacle,
        };
    }
    let known = instruments::ALL.iter().flat_map(|instrument| {
        [MeasuredFrom::End, MeasuredFrom::Mark].map(|from| Means::of(instrument, from))
    });
    let mut settles: Vec<(f64, Means)> = known
        .filter(|means| means.reaches(sample.mean))
        .filter(|means| item.taking == Taking::Jaws || means.has_scale())
        .map(with)
        .filter(|(settles, ..)| *settles)
        .map(|(_, budget, means)| (budget.combined.standard, means))
        .collect();
    // the roughest that will do is the one most people have
    settles.sort_by(|one, other| other.0.total_cmp(&one.0));
    Settling {
        instrument: settles.into_iter().next().map(|(_, means)| means),
        needed,
        obstacle,
    }
}

/// The largest error with which it is settled: `standard` is the standard uncertainty that would be too
/// much if there were nothing else.
fn most(settles: impl Fn(f64) -> bool, standard: f64) -> f64 {
    let (mut least, mut most) = (0.0, standard * f64::sqrt(3.0));
    if !most.is_finite() || settles(most) {
        return most;
    }
    for _ in 0..HALVINGS {
        let middle = f64::midpoint(least, most);
        if settles(middle) {
            least = middle;
        } else {
            most = middle;
        }
    }
    least
}

/// The larger of the two things that are left without the instrument.
fn obstacle(budget: &Budget) -> Option<Obstacle> {
    let largest = budget
        .components
        .iter()
        .max_by(|one, other| one.contribution().total_cmp(&other.contribution()))?;
    Some(match largest.evaluation {
        Evaluation::Readings => Obstacle::Scatter,
        Evaluation::Knowledge => Obstacle::Temperature,
    })
}
