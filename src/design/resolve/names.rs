//! Names that refer to something else in the file.

use super::amounts::Amounts;
use crate::design::error::DesignError;
use crate::design::fault::FileFault;
use crate::design::located::Word;
use crate::design::part::Edge;
use crate::design::part::Plate;

/// The edge of this name; an unknown one is reported with the nearest.
pub(super) fn find_edge<'a>(
    word: &Word,
    edges: &'a [Edge],
    amounts: &mut Amounts<'_>,
) -> Option<&'a Edge> {
    let found = edges.iter().find(|edge| edge.name == word.value);
    if found.is_none() {
        let names = edges.iter().map(|edge| edge.name.as_str());
        unknown("edge", word, names, amounts);
    }
    found
}

/// Reports a name that nothing bears, with the nearest that something does.
pub(super) fn unknown<'a>(
    what: &str,
    word: &Word,
    names: impl Iterator<Item = &'a str> + Clone,
    amounts: &mut Amounts<'_>,
) {
    let fault = FileFault::UnknownReference { what: what.to_owned(), name: word.value.clone() };
    let nearest = names.clone().max_by(|a, b| {
        let likeness = |name: &str| strsim::jaro_winkler(name, &word.value);
        likeness(a).total_cmp(&likeness(b))
    });
    let help = match nearest {
        Some(name) if strsim::jaro_winkler(name, &word.value) > 0.7 => {
            format!("did you mean `{name}`?")
        }
        Some(_) => {
            let all: Vec<String> = names.map(|name| format!("`{name}`")).collect();
            format!("there is {}", all.join(", "))
        }
        None => format!("there is no {what} here at all"),
    };
    amounts.report(DesignError::new(fault, word.place).with_help(help));
}

/// The plate of this name; an unknown one is reported with the nearest.
pub(super) fn find_plate(
    word: &Word,
    plates: &[Plate],
    amounts: &mut Amounts<'_>,
) -> Option<Plate> {
    let found = plates.iter().find(|plate| plate.name == word.value);
    if found.is_none() {
        let names = plates.iter().map(|plate| plate.name.as_str());
        unknown("plate", word, names, amounts);
    }
    found.cloned()
}
