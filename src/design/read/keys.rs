//! Which keys a table may have together, and the nearest right key to a wrong one.

use super::node::Node;
use super::node::NodeValue;
use crate::design::error::DesignError;
use crate::design::error::DesignErrorKind;
use crate::design::error::FileFault;
use crate::design::limits;

/// How many keys of a group a table has.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Count {
    /// One at most.
    AtMostOne,
    /// One.
    One,
}

/// Keys of which a table has one, by the name of the structure.
const GROUPS: &[(&str, Count, &[&str])] = &[
    ("a dimension", Count::AtMostOne, &["tol", "plus"]),
    ("a dimension", Count::AtMostOne, &["tol", "minus"]),
    ("a limit", Count::AtMostOne, &["tol", "plus"]),
    ("a limit", Count::AtMostOne, &["tol", "minus"]),
    ("a figure", Count::AtMostOne, &["spread", "low"]),
    ("a figure", Count::AtMostOne, &["spread", "high"]),
    ("a width", Count::One, &["above", "from"]),
    ("a flatness", Count::One, &["straight_edge", "span"]),
    (
        "a corner",
        Count::AtMostOne,
        &["fillet", "chamfer", "relief"],
    ),
    (
        "an edge",
        Count::AtMostOne,
        &[
            "full",
            "hollow",
            "full_by",
            "hollow_by",
            "through",
            "tangent_to_previous",
            "tangent_to_both",
            "full_round",
            "fair",
            "ellipse",
        ],
    ),
    (
        "an opening",
        Count::One,
        &["circle", "hole", "slot", "rectangle", "outline"],
    ),
    (
        "an opening",
        Count::AtMostOne,
        &["places", "grid", "bolt_circle"],
    ),
    ("a circle", Count::One, &["diameter", "radius"]),
    ("a rectangle", Count::AtMostOne, &["radius", "relief"]),
    ("a mark", Count::One, &["at", "places"]),
    ("a part", Count::One, &["outline", "mirror_of"]),
];

/// The definitions of the schema whose structures have groups of keys, with the name of the structure.
const DEFINITIONS: &[(&str, &str)] = &[
    ("DimensionTable", "a dimension"),
    ("Limit", "a limit"),
    ("Width", "a width"),
    ("Flatness", "a flatness"),
    ("Corner", "a corner"),
    ("Edge", "an edge"),
    ("Opening", "an opening"),
    ("Circle", "a circle"),
    ("Rectangle", "a rectangle"),
    ("Mark", "a mark"),
    ("Part", "a part"),
];

/// The groups of keys of a definition of the schema: whether one is needed, and the keys.
pub(crate) fn groups_of_definition(
    definition: &str,
) -> impl Iterator<Item = (bool, &'static [&'static str])> {
    let structure = DEFINITIONS
        .iter()
        .find(|(name, _)| *name == definition)
        .map(|(_, structure)| *structure);
    GROUPS
        .iter()
        .filter(move |(name, _, _)| Some(*name) == structure)
        .map(|(_, count, keys)| (*count == Count::One, *keys))
}

/// The definitions of the schema that have groups of keys.
#[cfg(test)]
pub(crate) fn definitions_with_groups() -> impl Iterator<Item = &'static str> {
    DEFINITIONS.iter().map(|(name, _)| *name)
}

/// What is wrong with the keys of a table that is to become the structure called `within`.
pub(super) fn faults(node: &Node, within: &str, known: &[&str]) -> Vec<DesignError> {
    let NodeValue::Table(fields) = &node.value else {
        return Vec::new();
    };
    let mut errors = Vec::new();
    for field in fields {
        if !known.contains(&field.key.value.as_str()) {
            errors.push(unknown_key(&field.key, within, known));
        }
    }
    for (_, count, keys) in GROUPS.iter().filter(|(name, _, _)| *name == within) {
        let fault = group_fault(node, within, (*count, keys));
        let misspelt = || keys.iter().any(|key| is_misspelt(node, known, key));
        errors.extend(fault.filter(|fault| {
            let needed = matches!(
                *fault.kind,
                DesignErrorKind::File(FileFault::OneIsNeeded { .. })
            );
            // the one that is needed is there, and misspelt
            !(needed && misspelt())
        }));
    }
    if within == "an edge" {
        errors.extend(strip_fault(node));
    }
    errors
}

/// Whether a table has a key that means nothing and is nearest to this one of those known: the message
/// about it has said all.
pub(super) fn is_misspelt(node: &Node, known: &[&str], key: &str) -> bool {
    let NodeValue::Table(fields) = &node.value else {
        return false;
    };
    fields.iter().any(|field| {
        let written = field.key.value.as_str();
        !known.contains(&written) && nearest(written, known) == Some(key)
    })
}

/// The error of a key that means nothing.
pub(super) fn unknown_key(
    key: &crate::design::located::Word,
    within: &str,
    known: &[&str],
) -> DesignError {
    let fault = FileFault::UnknownKey {
        key: super::node::shortened(&key.value),
        within: within.to_owned(),
    };
    DesignError::new(fault, key.place).with_help(suggestion(&key.value, known))
}

fn group_fault(node: &Node, within: &str, group: (Count, &[&str])) -> Option<DesignError> {
    let (count, keys) = group;
    let mut present = keys.iter().filter_map(|key| {
        let field = node.get(key)?;
        // a shape that is switched off is not there
        (!matches!(
            field.node.value,
            NodeValue::Boolean(false) | NodeValue::Null
        ))
        .then_some(field)
    });
    let (first, second) = (present.next(), present.next());
    match (first, second) {
        (Some(first), Some(second)) => {
            let (first, second) = if first.key.place <= second.key.place {
                (first, second)
            } else {
                (second, first)
            };
            let fault = FileFault::OnlyOneOf {
                within: within.to_owned(),
                first: first.key.value.clone(),
                second: second.key.value.clone(),
            };
            Some(
                DesignError::new(fault, second.key.place)
                    .with_also(first.key.place, format!("`{}` is here", first.key.value))
                    .with_help("take one of them out"),
            )
        }
        (None, None) if count == Count::One => {
            let fault = FileFault::OneIsNeeded {
                within: within.to_owned(),
                choices: listed(keys),
            };
            Some(DesignError::new(fault, node.place).with_help(format!("add `{}`", keys.first()?)))
        }
        _ => None,
    }
}

/// `strip` goes with `leave on`, and `leave on` with `strip`.
fn strip_fault(node: &Node) -> Option<DesignError> {
    let state = node.get("as");
    let left_on = state.is_some_and(
        |state| matches!(&state.node.value, NodeValue::Text(text, _) if text == "leave on"),
    );
    let strip = node.get("strip");
    let (key, place, other) = match (left_on, strip, state) {
        (true, None, Some(state)) => ("as = \"leave on\"", state.node.place, "`strip`"),
        (false, Some(strip), _) => ("strip", strip.key.place, "`as = \"leave on\"`"),
        _ => return None,
    };
    let fault = FileFault::NeedsOther {
        within: "an edge".to_owned(),
        key: key.to_owned(),
        other: other.to_owned(),
    };
    let help = if left_on {
        "say how wide a strip is left on, such as `strip = 10`"
    } else {
        "add `as = \"leave on\"`, or take `strip` out"
    };
    Some(DesignError::new(fault, place).with_help(help))
}

/// Words as a list with "or".
pub(crate) fn listed(words: &[&str]) -> String {
    let quoted: Vec<String> = words.iter().map(|word| format!("`{word}`")).collect();
    match quoted.as_slice() {
        [] => String::new(),
        [only] => only.clone(),
        [front @ .., last] => format!("{} or {last}", front.join(", ")),
    }
}

/// The way out for a wrong word: the nearest right one, or all of them.
pub(crate) fn suggestion(word: &str, known: &[&str]) -> String {
    if let Some(near) = nearest(word, known) {
        format!("did you mean `{near}`?")
    } else if known.is_empty() {
        "there is none yet".to_owned()
    } else if known.len() > 24 {
        format!(
            "there are {}, among them {}",
            known.len(),
            listed(&known[..8])
        )
    } else {
        format!("there is {}", listed(known))
    }
}

/// The nearest of the right words, if one is near; the first of equals.
pub(crate) fn nearest<'a>(word: &str, known: &[&'a str]) -> Option<&'a str> {
    if word.len() > 4 * limits::LONGEST_NAME {
        return None;
    }
    let lower = word.to_lowercase();
    let mut best: Option<(f64, &str)> = None;
    for candidate in known.iter().take(limits::MOST_COMPARED) {
        let score = strsim::jaro_winkler(&lower, &candidate.to_lowercase());
        let typing = strsim::osa_distance(&lower, &candidate.to_lowercase());
        let near = score >= 0.85 || typing <= 1 + word.chars().count() / 5;
        if near && best.is_none_or(|(highest, _)| score > highest) {
            best = Some((score, candidate));
        }
    }
    best.map(|(_, candidate)| candidate)
}
