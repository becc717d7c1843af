//! Which change of one dimension would mend what is broken.

use super::bench::Bench;
use super::bench::Bent;
use super::bench::Free;
use super::bench::Holder;
use super::slope::slope_of;
use super::watch::Stop;
use super::watch::Watch;
use crate::design::dimensions::Permitted;
use crate::design::expression::Kind;
use crate::design::file::Origin;
use crate::geometry::LengthUnit;
use crate::geometry::number;
use crate::measures::limits::LimitCheck;

/// How many changes are named.
const NAMED: usize = 3;
/// How many steps a secant may take to the limit.
const STEPS: usize = 12;
/// How near to the limit the secant stops, in the unit of what is limited.
const NEAR: f64 = 1e-7;

/// A change of one dimension that mends something.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::measures) struct Change {
    /// The dimension.
    name: String,
    /// By how much, in millimetres: rounded up to what is printed.
    by: f64,
    /// The unit that it is shown in.
    unit: LengthUnit,
    /// What breaks then that was whole.
    breaks: Option<Stop>,
}

/// What can be changed, in words: the least change of one dimension, for those with the greatest
/// effect that the maker is free to change, each found by resolving the design again and tried.
///
/// Free to change is what is chosen, and what a rule gives limits for, within them. Where nothing of that
/// helps alone, what is given or measured is tried and told as such: not the maker's to choose, but perhaps
/// misread. The plate is left as it is. `None` if nothing moves it.
pub(in crate::measures) fn ways_out(
    bench: &Bench<'_>,
    watch: &Watch<'_>,
    permitted: Permitted,
    value: &dyn Fn(&Bent) -> Option<f64>,
) -> Option<String> {
    let attempt = Attempt {
        bench,
        watch,
        permitted,
        value,
    };
    let own = attempt.changes(Freedom::Own);
    if let Some(changes) = &own
        && changes.iter().any(Change::is_clean)
    {
        return Some(in_words(changes));
    }
    let given = attempt.changes(Freedom::Given).unwrap_or_default();
    let given = clean(&given, |change| attempt.given_words(change));
    match (own, given.is_empty()) {
        (None, true) => None,
        (Some(changes), true) => Some(in_words(&changes)),
        (None, false) => Some(format!(
            "none of the dimensions that are yours to choose moves it; {given}"
        )),
        (Some(_), false) => Some(format!(
            "none of the dimensions that are yours to choose keeps it alone; {given}"
        )),
    }
}

/// The first changes that break nothing else, in words.
fn clean(changes: &[Change], words: impl Fn(&Change) -> String) -> String {
    let clean = changes.iter().filter(|change| change.is_clean());
    let words: Vec<String> = clean.take(NAMED).map(words).collect();
    words.join(", or ")
}

fn in_words(changes: &[Change]) -> String {
    let shown = |change: &Change| format!("`{}` {}", change.name, change.amount());
    let clean = clean(changes, shown);
    match (clean.is_empty(), changes.first()) {
        (false, _) => format!("{clean} would keep it"),
        (true, Some(change)) => {
            let then = match &change.breaks {
                Some(Stop::Limit(name)) => format!("but break the limit of `{name}`"),
                Some(Stop::Fit(name)) => format!("but break the fit `{name}`"),
                Some(Stop::Shape(why)) => format!("but then {why}"),
                None => String::new(),
            };
            format!(
                "{} would keep it, {then}: change two at once",
                shown(change)
            )
        }
        (true, None) => "no change of one dimension alone keeps it: change two at once, or the \
                         numbers in the outline"
            .to_owned(),
    }
}

impl Change {
    /// Whether it breaks nothing else.
    const fn is_clean(&self) -> bool {
        self.breaks.is_none()
    }

    /// By how much: `−0.159 in`.
    fn amount(&self) -> String {
        let side = self.unit.millimetres();
        let sign = if self.by < 0.0 { "−" } else { "+" };
        let by = number::trimmed(self.by.abs() / side, decimals(self.unit));
        format!("{sign}{by} {}", self.unit.symbol())
    }
}

/// Whose a dimension is to change.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Freedom {
    /// The maker's.
    Own,
    /// Nobody's here: the rules or the sketch give it without room, or it was measured.
    Given,
}

/// Whose something is to give another value; `None` for a plate, and for what is no length.
fn freedom(bench: &Bench<'_>, free: &Free) -> Option<Freedom> {
    let dimension = bench.design().dimensions.get(&free.name)?;
    let is_length = free.holder == Holder::Dimension && dimension.kind == Kind::LENGTH;
    match dimension.origin {
        _ if !is_length => None,
        Origin::Chosen => Some(Freedom::Own),
        Origin::Rule if dimension.permitted.is_limited() => Some(Freedom::Own),
        Origin::Rule | Origin::Measured => Some(Freedom::Given),
        Origin::Derived => None,
    }
}

/// The decimals that a change is told with.
const fn decimals(unit: LengthUnit) -> usize {
    match unit {
        LengthUnit::Millimetre => 2,
        LengthUnit::Centimetre | LengthUnit::Inch => 3,
        LengthUnit::Metre | LengthUnit::Foot => 5,
    }
}

/// What is to be mended.
struct Attempt<'w, 'a> {
    bench: &'w Bench<'a>,
    watch: &'w Watch<'a>,
    permitted: Permitted,
    value: &'w dyn Fn(&Bent) -> Option<f64>,
}

impl Attempt<'_, '_> {
    /// The changes of one dimension each that mend it, those with the greatest effect first. `None` if no
    /// dimension that is so free moves it.
    fn changes(&self, wanted: Freedom) -> Option<Vec<Change>> {
        let free = self.bench.free().iter().enumerate();
        let mut candidates: Vec<(usize, f64)> = free
            .filter(|(_, free)| freedom(self.bench, free) == Some(wanted))
            .filter_map(|(index, _)| Some((index, slope_of(self.bench, index, self.value)?)))
            .collect();
        if candidates.is_empty() {
            return None;
        }
        candidates.sort_by(|a, b| b.1.abs().total_cmp(&a.1.abs()));
        let changes = candidates.into_iter();
        Some(
            changes
                .filter_map(|(index, slope)| self.change(index, slope))
                .collect(),
        )
    }

    /// A change of what is not the maker's to choose, with who gives it.
    fn given_words(&self, change: &Change) -> String {
        let dimension = self.bench.design().dimensions.get(&change.name);
        let by = match dimension.map(|dimension| dimension.origin) {
            Some(Origin::Measured) => "was measured",
            _ => "is given by the rules or the sketch",
        };
        format!(
            "`{}` {} would keep it, but it {by}",
            change.name,
            change.amount()
        )
    }

    /// The least change of one dimension that mends it, rounded to what is printed and tried.
    fn change(&self, index: usize, slope: f64) -> Option<Change> {
        let free = self.bench.free().get(index)?;
        let unit = self.bench.design().dimensions.get(&free.name)?.unit;
        let least = self.least(index, slope)?;
        let step = unit.millimetres() / 10_f64.powi(i32::try_from(decimals(unit)).ok()?);
        let steps = (least.abs() / step - NEAR).ceil();
        let tried = |more: f64| {
            let by = (step * (steps + more)).copysign(least);
            let bent = self.bench.bent(&[(index, by)]);
            let value = bent.as_ref().ok().and_then(self.value);
            let keeps = value.is_some() && !LimitCheck::on(value, self.permitted).is_broken();
            keeps.then(|| Change {
                name: free.name.clone(),
                by,
                unit,
                breaks: self.watch.stop(&bent),
            })
        };
        [0.0, 1.0].into_iter().find_map(tried)
    }

    /// Where the limit is met, by secants from the slope as designed.
    fn least(&self, index: usize, slope: f64) -> Option<f64> {
        let at = |by: f64| {
            let bent = self.bench.bent(&[(index, by)]).ok()?;
            (self.value)(&bent)
        };
        let value = at(0.0)?;
        let goal = match (LimitCheck::on(Some(value), self.permitted), self.permitted) {
            (LimitCheck::TooSmall(_), permitted) => permitted.min?,
            (LimitCheck::TooLarge(_), permitted) => permitted.max?,
            _ => return None,
        };
        let farthest = 2.0 * self.bench.free().get(index)?.value.abs() + self.bench.longest();
        let (mut here, mut off) = (0.0, value - goal);
        let mut slope = slope;
        for _ in 0..STEPS {
            let mut there = here - off / slope;
            // where it cannot be built, half the way
            let mut found = at(there);
            for _ in 0..STEPS {
                if found.is_some() {
                    break;
                }
                there = f64::midpoint(here, there);
                found = at(there);
            }
            let off_there = found? - goal;
            if off_there.abs() <= NEAR {
                return (there.abs() <= farthest).then_some(there);
            }
            slope = (off_there - off) / (there - here);
            (here, off) = (there, off_there);
            if !slope.is_finite() || slope == 0.0 || here.abs() > farthest {
                return None;
            }
        }
        None
    }
}
