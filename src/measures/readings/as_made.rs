//! What the dimensions of a made part came out at, for the part that mates with it.

use super::ItemReadings;
use super::Reached;
use super::ReadingError;
use super::ReadingFault;
use crate::design::Dimensions;
use crate::design::Override;
use crate::geometry::tolerance;
use crate::measures::How;
use crate::measures::inspection;
use crate::measures::inspection::Item;
use crate::measures::inspection::Judging;
use crate::measures::inspection::Rules;
use crate::measures::uncertainty::Budget;
use crate::measures::uncertainty::Sample;

/// For each dimension that was measured on the made part the mean of its readings, as the value that
/// the dimension is to have, with the uncertainty of that mean in place of what the maker may be off: twice
/// the standard uncertainty, or by Student's t for the same probability where readings are few. Where the
/// readings do not say with what they were taken, the file's own spread stays. Rows that are no dimension (limits, weights) change nothing.
///
/// # Errors
/// A dimension that ends at a rounding, where nothing says whether it was read over that; one whose measure
/// is not the dimension itself (as over roundings), one that is read on two
/// parts, and readings of no dimension at all.
pub fn as_made(
    items: &[Item],
    taken: &[ItemReadings],
    dimensions: &Dimensions,
) -> Result<Vec<Override>, Vec<ReadingError>> {
    let mut set: Vec<(usize, Override)> = Vec::new();
    let mut errors = Vec::new();
    for taken in taken {
        let Some(item) = items.get(taken.item) else {
            continue;
        };
        let dimension = item
            .dimension
            .as_deref()
            .and_then(|name| dimensions.get(name));
        let values: Vec<f64> = taken.readings.iter().map(|reading| reading.value).collect();
        let (Some(dimension), Some(sample)) = (dimension, Sample::of(&values)) else {
            continue;
        };
        if item.judging == Judging::Each {
            continue;
        }
        if let (Some(value), Some(expected)) = (dimension.value(), item.expected)
            && (value - expected).abs() > tolerance::SAME_DIMENSION
        {
            let more = item.kind.decimals_to_tell(value, expected, item.unit);
            let shown = |value: f64| item.kind.shown_finer(value, item.unit, more);
            let fault = ReadingFault::NotTheDimension {
                number: item.number,
                name: item.name.clone(),
                value: shown(value),
                expected: shown(expected),
            };
            let help = format!(
                "leave row {} out here, and set the dimension with --set {}=…",
                item.number, item.name
            );
            errors.push(ReadingError::new(fault, taken.place, help));
            continue;
        }
        if let Some(&(first, _)) = set.iter().find(|(_, set)| set.name == dimension.name) {
            let fault = ReadingFault::DimensionTwice {
                first,
                second: item.number,
                name: dimension.name.clone(),
            };
            let help = "leave the readings of one of the parts out: a dimension has one value";
            errors.push(ReadingError::new(fault, taken.place, help));
            continue;
        }
        let beyond = match beyond_the_rounds(item, taken) {
            Ok(beyond) => beyond,
            Err(error) => {
                errors.push(error);
                continue;
            }
        };
        let read = Override::exact(dimension.name.clone(), sample.mean + beyond);
        let read = match uncertainty(item, taken, &sample) {
            Some(uncertainty) => read.within(uncertainty),
            None => read,
        };
        set.push((item.number, read));
    }
    if errors.is_empty() && set.is_empty() {
        let place = taken.first().map(|taken| taken.place).unwrap_or_default();
        let help = "give the dimensions that the other part is to fit a `measure`, and read those";
        errors.push(ReadingError::new(ReadingFault::NoDimension, place, help));
    }
    if errors.is_empty() {
        Ok(set.into_iter().map(|(_, set)| set).collect())
    } else {
        Err(errors)
    }
}

/// What is added to readings over the rounds for the dimension itself, the roundings as drawn.
fn beyond_the_rounds(item: &Item, taken: &ItemReadings) -> Result<f64, ReadingError> {
    let Some((drawn, beyond)) = item
        .taken
        .and_then(|drawn| Some((drawn, drawn.beyond_the_rounds()?)))
    else {
        return Ok(0.0);
    };
    match taken.reached {
        Some(Reached::OverTheRounds) => Ok(beyond),
        Some(Reached::AsTheRowSays) => Ok(0.0),
        None => {
            let fault = ReadingFault::NotSaidWhich {
                number: item.number,
                name: item.name.clone(),
                how: drawn.how.words(),
                value: item.shown(drawn.value),
                jaws: item.shown(drawn.value - beyond),
            };
            let help = format!(
                "write `{}` or `{}` under `taken`",
                How::OverTheRounds.words(),
                drawn.how.words()
            );
            Err(ReadingError::new(fault, taken.place, help))
        }
    }
}

/// What the mean of the readings may be off.
fn uncertainty(item: &Item, taken: &ItemReadings, sample: &Sample) -> Option<f64> {
    let rules = Rules::default();
    let circumstances = inspection::circumstances(item, taken, &rules, sample).ok()?;
    let combined = Budget::of_the_mean(sample, &circumstances).combined;
    Some(combined.factor_as_sure_as(rules.guard) * combined.standard)
}
