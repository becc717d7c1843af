//! Which instrument would settle what is too close to call.

use super::Item;
use super::Taking;
use crate::measures::TakenKind;
use crate::measures::uncertainty::Budget;
use crate::measures::uncertainty::Circumstances;
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
    /// if the reading is on the limit itself, which nothing settles.
    pub needed: f64,
}

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
    let needed = if guard > 0.0 {
        distance / guard * f64::sqrt(3.0)
    } else {
        f64::INFINITY
    };
    if item.kind != TakenKind::Length || item.taking == Taking::Gauge {
        return Settling {
            instrument: None,
            needed,
        };
    }
    let known = instruments::ALL.iter().flat_map(|instrument| {
        [MeasuredFrom::End, MeasuredFrom::Mark].map(|from| Means::of(instrument, from))
    });
    let mut settles: Vec<(f64, Means)> = known
        .filter(|means| means.reaches(sample.mean))
        .filter(|means| item.taking == Taking::Jaws || means.has_scale())
        .map(|means| {
            let with = Circumstances {
                means,
                ..circumstances.clone()
            };
            let budget = Budget::of_the_mean(sample, &with);
            (budget.combined.standard, with.means)
        })
        .filter(|(standard, _)| guard * standard <= distance)
        .collect();
    // the roughest that will do is the one most people have
    settles.sort_by(|one, other| other.0.total_cmp(&one.0));
    Settling {
        instrument: settles.into_iter().next().map(|(_, means)| means),
        needed,
    }
}
