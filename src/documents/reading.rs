//! How a limit is measured, in a reader's words: to the sharp corner or over the rounds, and what the
//! jaws read.

use crate::geometry::LengthUnit;
use crate::measures::How;
use crate::measures::Taken;
use crate::measures::limits::Judged;
use crate::sheet::Quantity;
use crate::sheet::number::with_unit;

/// How a limit is measured.
pub(super) fn how(judged: &Judged, unit: LengthUnit) -> String {
    match (&judged.taken, &judged.limit.measure) {
        (Some(taken), _) => how_taken(taken, unit),
        (None, Some(_)) => "when its values are known".to_owned(),
        (None, None) => "cannot be measured: it names no `measure`".to_owned(),
    }
}

/// How a measure is taken, and what jaws read if that is another number.
pub(super) fn how_taken(taken: &Taken, unit: LengthUnit) -> String {
    let words = taken.how.words();
    let Some(jaws) = taken.jaws else {
        return words.to_owned();
    };
    let reading = with_unit(&Quantity::length(jaws.reading, unit));
    match taken.how {
        How::SharpCorner => format!(
            "{words}, which its rounding has taken away: jaws over the rounds read {reading}"
        ),
        _ => format!("{words}; jaws over the rounds read {reading}"),
    }
}
