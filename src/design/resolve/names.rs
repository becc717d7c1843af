//! Names that refer to features of a part. (References to parts, plates and openings are checked when
//! the file is read.)

use super::amounts::Amounts;
use crate::design::error::DesignError;
use crate::design::fault::FileFault;
use crate::design::located::Word;
use crate::design::part::Edge;
use crate::design::part::Plate;
use crate::design::read::keys::suggestion;

/// The edge of this name; an unknown one is reported with the nearest.
pub(super) fn find_edge<'a>(
    word: &Word,
    edges: &'a [Edge],
    amounts: &mut Amounts<'_>,
) -> Option<&'a Edge> {
    let found = edges.iter().find(|edge| edge.name == word.value);
    if found.is_none() {
        let names: Vec<&str> = edges.iter().map(|edge| edge.name.as_str()).collect();
        unknown("edge", word, &names, amounts);
    }
    found
}

/// Reports a name that nothing bears, with the nearest that something does.
pub(super) fn unknown(what: &str, word: &Word, names: &[&str], amounts: &mut Amounts<'_>) {
    let fault = FileFault::UnknownReference {
        what: what.to_owned(),
        name: word.value.clone(),
    };
    amounts.report(DesignError::new(fault, word.place).with_help(suggestion(&word.value, names)));
}

/// The plate of this name.
pub(super) fn find_plate(word: &Word, plates: &[Plate]) -> Option<Plate> {
    plates
        .iter()
        .find(|plate| plate.name == word.value)
        .cloned()
}
