//! Items and readings brought together.

use super::Item;
use super::Judging;
use super::Settling;
use super::settling;
use crate::design::dimensions::Permitted;
use crate::measures::TakenKind;
use crate::measures::readings::ItemReadings;
use crate::measures::readings::Reached;
use crate::measures::readings::ReadingError;
use crate::measures::readings::ReadingFault;
use crate::measures::uncertainty::Accuracy;
use crate::measures::uncertainty::Budget;
use crate::measures::uncertainty::Circumstances;
use crate::measures::uncertainty::Means;
use crate::measures::uncertainty::Sample;
use crate::measures::uncertainty::temperature::Temperature;
use crate::measures::verdict;
use crate::measures::verdict::Claimant;
use crate::measures::verdict::Judgement;
use crate::measures::verdict::Verdict;

/// How an inspection is done.
#[derive(Clone, Debug, PartialEq)]
pub struct Rules {
    /// Who claims.
    pub claimant: Claimant,
    /// How many standard uncertainties the limits are drawn in by: g. Where few readings say little of
    /// the uncertainty, Student's t for the same probability takes its place.
    pub guard: f64,
    /// With what lengths are measured where the readings do not say.
    pub means: Option<Means>,
    /// The temperature in °C where the readings do not say.
    pub temperature: Option<f64>,
}

impl Default for Rules {
    fn default() -> Self {
        Self {
            claimant: Claimant::Maker,
            guard: verdict::USUAL_GUARD,
            means: None,
            temperature: None,
        }
    }
}

/// An item with its readings and what can be said of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Inspected {
    /// The item.
    pub item: Item,
    /// What was read and what follows; `None` if it was not measured.
    pub found: Option<Found>,
}

/// What was read of an item, and what follows.
#[derive(Clone, Debug, PartialEq)]
pub struct Found {
    /// The readings.
    pub readings: ItemReadings,
    /// What they come to.
    pub sample: Sample,
    /// How they came about.
    pub circumstances: Circumstances,
    /// The value that is judged, with its uncertainty: the mean, or the reading nearest to a limit
    /// where each of them counts. With what was added for the rounds.
    pub budget: Budget,
    /// How many standard uncertainties the limits are drawn in by for it: g, or more for few readings.
    pub factor: f64,
    /// What was added to readings over the rounds, the roundings taken as drawn; `None` if it is not
    /// said that they were taken so.
    pub beyond_the_rounds: Option<f64>,
    /// What can be said of it; `None` without limits. Where nothing says which of two figures was read,
    /// of a reading as the row says.
    pub judgement: Option<Judgement>,
    /// Where nothing says which of two figures was read: what can be said of a reading over the rounds.
    pub otherwise: Option<Otherwise>,
    /// What would settle it, if it is too close to call.
    pub settling: Option<Settling>,
}

/// What readings come to if they were taken over the rounds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Otherwise {
    /// The value, with what the rounds take away.
    pub value: f64,
    /// What can be said of it; `None` without limits.
    pub judgement: Option<Judgement>,
}

/// A part inspected.
#[derive(Clone, Debug, PartialEq)]
pub struct Inspection {
    /// How it was done.
    pub rules: Rules,
    /// Its items, in the order of the form.
    pub items: Vec<Inspected>,
}

impl Inspection {
    /// How many limited items have this verdict.
    pub fn count(&self, verdict: Verdict) -> usize {
        self.items
            .iter()
            .filter(|inspected| inspected.verdict() == Some(verdict))
            .count()
    }

    /// The items with limits that were not measured.
    pub fn missing(&self) -> impl Iterator<Item = &Item> {
        self.items
            .iter()
            .filter(|inspected| inspected.found.is_none() && inspected.item.permitted.is_limited())
            .map(|inspected| &inspected.item)
    }
}

impl Inspected {
    /// What can be said of it, if it was measured and has limits.
    pub fn verdict(&self) -> Option<Verdict> {
        let found = self.found.as_ref()?;
        verdict(found.judgement.as_ref()?, found.otherwise.as_ref())
    }
}

/// What can be said of a judgement where nothing may say that it is of the figure that was read.
fn verdict(judgement: &Judgement, otherwise: Option<&Otherwise>) -> Option<Verdict> {
    let other = match otherwise {
        Some(otherwise) => otherwise.judgement?.verdict,
        None => judgement.verdict,
    };
    if judgement.verdict == other {
        Some(other)
    } else {
        Some(Verdict::NotDecided)
    }
}

/// Judges every item that has readings. Items without readings stay in it, not measured.
///
/// # Errors
/// Readings of which nothing says what they were taken with, or with an instrument that cannot take
/// them.
pub fn inspect(
    items: &[Item],
    readings: &[ItemReadings],
    rules: &Rules,
) -> Result<Inspection, Vec<ReadingError>> {
    let mut errors = Vec::new();
    let mut inspected = Vec::with_capacity(items.len());
    for (index, item) in items.iter().enumerate() {
        let taken = readings.iter().find(|taken| taken.item == index);
        let found = taken.and_then(|taken| match found(item, taken, rules) {
            Ok(found) => found,
            Err(error) => {
                errors.push(error);
                None
            }
        });
        inspected.push(Inspected {
            item: item.clone(),
            found,
        });
    }
    if !errors.is_empty() {
        return Err(errors);
    }
    Ok(Inspection {
        rules: rules.clone(),
        items: inspected,
    })
}

fn found(item: &Item, taken: &ItemReadings, rules: &Rules) -> Result<Option<Found>, ReadingError> {
    let values: Vec<f64> = taken.readings.iter().map(|reading| reading.value).collect();
    let Some(sample) = Sample::of(&values) else {
        return Ok(None);
    };
    let circumstances = circumstances(item, taken, rules, &sample)?;
    let beyond = item.taken.and_then(|drawn| drawn.beyond_the_rounds());
    let beyond_the_rounds = beyond.filter(|_| taken.reached == Some(Reached::OverTheRounds));
    let (budget, judgement) = match item.judging {
        Judging::Mean => {
            let mut budget = Budget::of_the_mean(&sample, &circumstances);
            budget.value += beyond_the_rounds.unwrap_or(0.0);
            let judgement = judged(item, item.permitted, &budget, rules);
            (budget, judgement)
        }
        Judging::Each => worst(item, &sample, &circumstances, rules),
    };
    let otherwise = beyond.filter(|_| taken.reached.is_none()).map(|beyond| {
        let over = Budget {
            value: budget.value + beyond,
            ..budget.clone()
        };
        Otherwise {
            value: over.value,
            judgement: judged(item, item.permitted, &over, rules),
        }
    });
    let too_close = judgement
        .filter(|judgement| verdict(judgement, otherwise.as_ref()) == Some(Verdict::TooClose));
    let settling = too_close.map(|judgement| {
        let one = match item.judging {
            Judging::Mean => Some(sample),
            Judging::Each => Sample::of(&[budget.value - budget.correction]),
        };
        let sample = one.unwrap_or(sample);
        settling(
            item,
            &sample,
            &circumstances,
            (judgement.inside, rules.guard),
        )
    });
    Ok(Some(Found {
        readings: taken.clone(),
        sample,
        circumstances,
        factor: budget.combined.factor_as_sure_as(rules.guard),
        budget,
        beyond_the_rounds,
        judgement,
        otherwise,
        settling,
    }))
}

fn judged(item: &Item, permitted: Permitted, budget: &Budget, rules: &Rules) -> Option<Judgement> {
    let combined = budget.combined;
    let guard = combined.factor_as_sure_as(rules.guard) * combined.standard;
    verdict::judge(budget.value, permitted, guard, item.filing)
}

/// Where each reading must keep the limits: the least against the one, the greatest against the other;
/// the worse of the two counts.
fn worst(
    item: &Item,
    sample: &Sample,
    circumstances: &Circumstances,
    rules: &Rules,
) -> (Budget, Option<Judgement>) {
    let sides = [sample.least, sample.greatest].map(|reading| {
        let budget = Budget::of_one(reading, circumstances);
        let judgement = judged(item, item.permitted, &budget, rules);
        (budget, judgement)
    });
    let margin = |side: &(Budget, Option<Judgement>)| {
        side.1.map_or(f64::INFINITY, |judgement| {
            judgement.inside - judgement.guard
        })
    };
    let [least, greatest] = sides;
    if margin(&greatest) < margin(&least) {
        greatest
    } else {
        least
    }
}

/// How the readings of an item came about.
///
/// # Errors
/// Nothing says what they were taken with, or it cannot take them.
pub(in crate::measures) fn circumstances(
    item: &Item,
    taken: &ItemReadings,
    rules: &Rules,
    sample: &Sample,
) -> Result<Circumstances, ReadingError> {
    let (number, name) = (item.number, item.name.clone());
    let stated = taken.means.clone();
    let means = stated.or_else(|| {
        let of_lengths = item.kind == TakenKind::Length;
        rules.means.clone().filter(|_| of_lengths)
    });
    let Some(means) = means else {
        let help = "name the instrument, or state what it may be off by, such as `scales ±0.05 kg`";
        let fault = ReadingFault::NoMeans { number, name };
        return Err(ReadingError::new(fault, taken.place, help));
    };
    if let Accuracy::Known(instrument, _) = means.accuracy {
        if item.kind != TakenKind::Length {
            let fault = ReadingFault::NotForThis {
                number,
                name,
                what: item.kind.noun(),
                means: means.words(),
            };
            let help = "state what the instrument may be off by, such as `protractor ±0.5 deg`";
            return Err(ReadingError::new(fault, taken.place, help));
        }
        if let (false, Some(reach)) = (means.reaches(sample.mean), instrument.reach) {
            let fault = ReadingFault::TooShort {
                number,
                name,
                read: item.shown(sample.mean),
                means: means.words(),
                reach,
            };
            let help = "name the instrument that it was, or state what it may be off by";
            return Err(ReadingError::new(fault, taken.place, help));
        }
    }
    let temperature = taken
        .temperature
        .or(rules.temperature)
        .map_or(Temperature::UNREAD, Temperature::read);
    Ok(Circumstances {
        means,
        temperature,
        expansion: item.expansion.filter(|_| item.kind == TakenKind::Length),
    })
}
