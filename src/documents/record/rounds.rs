//! Rows that end at a rounding, where jaws read another number than the row says.

use super::values;
use crate::measures::How;
use crate::measures::inspection::Found;
use crate::measures::inspection::Inspected;
use crate::measures::inspection::Item;
use crate::measures::inspection::Otherwise;
use crate::measures::verdict::Judgement;
use crate::measures::verdict::Verdict;

/// Both ways of reading an item, in the words that are read back; `None` where there is one only.
pub(super) fn both_ways(item: &Item) -> Option<String> {
    let [over, own] = item.ways_of_reading()?;
    Some(format!("`{}` or `{}`", over.words(), own.words()))
}

/// How the readings of an item were taken, as far as they say.
pub(super) fn how_read(item: &Item, found: &Found) -> String {
    match found.readings.reached {
        Some(reached) => format!("{}, {}", item.place_words, reached.words(item)),
        None => super::how(item),
    }
}

/// What is said below the table of a reading that was taken over the rounds, and of one without limits of
/// which nothing says which figure it is (one with limits is told among what follows).
pub(super) fn brought(item: &Item, found: &Found, decimals: usize) -> Option<String> {
    let how = item.taken?.how.words();
    if found.otherwise.is_some() && found.judgement.is_none() {
        return Some(format!(
            "Row {}: the value is as it was written, and nothing says whether it was read {how} or {}.",
            item.number,
            How::OverTheRounds.words()
        ));
    }
    let beyond = found.beyond_the_rounds?;
    Some(format!(
        "Row {}: read over the rounds. {} is added to bring it {how}, which takes the rounds as drawn: \
         gauge them if they may have come out otherwise.",
        item.number,
        values::text(item, beyond, decimals)
    ))
}

/// The difference to the limit of a reading of which nothing says which figure it is.
pub(super) fn or_over_the_rounds(
    item: &Item,
    judgement: &Judgement,
    otherwise: &Otherwise,
    decimals: usize,
) -> String {
    let words =
        |judgement: &Judgement| super::verdicts::difference_words(item, judgement, decimals);
    let over = otherwise.judgement.as_ref().map(words);
    format!(
        "{}; {} if over the rounds",
        words(judgement),
        over.unwrap_or_default()
    )
}

/// What follows where nothing says which of two figures was read; `remedy` puts a judgement's into words.
pub(super) fn unsaid(
    inspected: &Inspected,
    otherwise: &Otherwise,
    decimals: usize,
    remedy: impl Fn(&Judgement) -> String,
) -> Option<String> {
    let Inspected { item, found } = inspected;
    let found = found.as_ref()?;
    let own = item.taken?.how.words();
    let one = |how: &str, value: f64, judgement: &Judgement| {
        let remedy = remedy(judgement);
        let remedy = if remedy.is_empty() {
            remedy
        } else {
            format!(" ({remedy})")
        };
        format!(
            "{how} it is {} and {}{remedy}",
            values::text(item, value, decimals),
            match judgement.verdict {
                Verdict::TooClose => "is too close to call",
                other => other.words(),
            }
        )
    };
    let judged = |how, value, judgement: Option<&Judgement>| {
        judgement.map(|judgement| one(how, value, judgement))
    };
    Some(format!(
        "nothing says which was read: {}, {}. Write {} under `taken`, or behind the reading where it is typed",
        judged(own, found.budget.value, found.judgement.as_ref())?,
        judged(
            How::OverTheRounds.words(),
            otherwise.value,
            otherwise.judgement.as_ref()
        )?,
        both_ways(item)?
    ))
}
