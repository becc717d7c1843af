//! Names: of dimensions, parts and features; and references to them.

use super::error::DesignError;
use super::error::FileFault;
use super::error::Sink;
use super::expression::is_name_character;
use super::expression::is_unit_word;
use super::expression::term::Function;
use super::file::DesignFile;
use super::file::DimensionEntry;
use super::file::Entry;
use super::file::OpeningShape;
use super::file::Part;
use super::limits;
use super::located::Entries;
use super::located::Named;
use super::located::Word;
use super::read::keys::suggestion;
use super::read::node::Node;
use super::read::node::NodeValue;
use super::read::node::shortened;
use std::collections::BTreeMap;

/// Reports names that cannot be names, names used twice, and references to what is not there.
///
/// What is written but was left out of the structure for its own faults is there: `tree` knows of it.
pub(super) fn check(file: &DesignFile, tree: &Node, sink: &mut Sink) {
    for named in &file.dims {
        if let Some(why) = not_a_dimension_name(&named.name.value) {
            sink.push(bad_name(&named.name, "a dimension", why));
        }
    }
    let tables = file.dims.iter().filter_map(|named| match &named.entry {
        DimensionEntry::Table(table) => table.value.part.as_ref(),
        DimensionEntry::Short(_) => None,
    });
    let sides = file.fit.iter().flat_map(|fit| {
        let fit = &fit.value;
        [Some(&fit.inner), Some(&fit.outer), fit.second.as_ref()]
    });
    let sides = sides.flatten().filter_map(|side| side.part.as_ref());
    for part in tables.chain(sides) {
        refer(part, ("part", &file.part), tree, sink);
    }
    let plates = file.plate.iter().map(|named| (&named.name, "a plate"));
    let parts = file.part.iter().map(|named| (&named.name, "a part"));
    for (name, what) in plates.chain(parts) {
        if let Some(why) = not_a_file_name(&name.value) {
            sink.push(bad_name(name, what, why));
        }
    }
    for named in &file.part {
        part(file, tree, named, sink);
    }
}

fn bad_name(name: &Word, what: &str, why: &str) -> DesignError {
    let fault = FileFault::BadName {
        name: shortened(&name.value),
        what: what.to_owned(),
        why: why.to_owned(),
    };
    DesignError::new(fault, name.place)
        .with_help("choose another name of letters, digits and underscores")
}

fn not_a_dimension_name(name: &str) -> Option<&'static str> {
    if is_unit_word(name) {
        Some("it is a unit")
    } else if Function::from_name(name).is_some() {
        Some("it is a function")
    } else if name == "pi" || name == "open" {
        Some("the word is taken")
    } else if name.starts_with(|first: char| first.is_ascii_digit()) {
        Some("it starts with a digit")
    } else if name.chars().all(is_name_character) {
        wrong_length(name)
    } else {
        Some("names have letters, digits and underscores only")
    }
}

/// Names of parts and plates become names of files.
fn not_a_file_name(name: &str) -> Option<&'static str> {
    let fits = |character| is_name_character(character) || character == '-';
    if name.chars().all(fits) {
        wrong_length(name)
    } else {
        Some("it becomes part of a file name")
    }
}

fn wrong_length(name: &str) -> Option<&'static str> {
    if name.is_empty() {
        Some("it is empty")
    } else if name.chars().count() > limits::LONGEST_NAME {
        Some("it has more than 60 characters")
    } else {
        None
    }
}

fn part(file: &DesignFile, tree: &Node, named: &Named<Part>, sink: &mut Sink) {
    let part = &named.entry;
    if let Some(plate) = &part.plate {
        refer(plate, ("plate", &file.plate), tree, sink);
    }
    if let Some(other) = &part.mirror_of {
        refer(other, ("part", &file.part), tree, sink);
        mirror_of_mirror(file, named, other, sink);
    }
    if let Some(shared) = &part.share_openings {
        refer(&shared.value.of, ("part", &file.part), tree, sink);
        let other = file.part.get(&shared.value.of.value);
        let openings: Vec<&str> = other
            .iter()
            .flat_map(|other| other.entry.opening.iter())
            .map(|opening| opening.value.name.value.as_str())
            .collect();
        let names = shared.value.names.iter().flat_map(|names| names.iter());
        let is_written = |name: &Word| has_opening(tree, &shared.value.of.value, &name.value);
        let unknown_here = |name: &&Word| {
            other.is_some() && !openings.contains(&name.as_str()) && !is_written(name)
        };
        for name in names.filter(unknown_here) {
            sink.push_with(|| unknown(name, "opening", &openings));
        }
    }
    let mut seen = BTreeMap::new();
    if let Some(outline) = &part.outline {
        unique_features(&outline.value, &mut seen, sink);
    }
    for opening in &part.opening {
        unique(&opening.value.name, "the part", &mut seen, sink);
        if let OpeningShape::Outline(outline) = &opening.value.shape {
            unique_features(outline, &mut BTreeMap::new(), sink);
        }
    }
    let mut marked = BTreeMap::new();
    for scribe in &part.scribe {
        unique(scribe.value.name(), "the part", &mut marked, sink);
    }
    for mark in &part.mark {
        unique(&mark.value.name, "the part", &mut marked, sink);
    }
}

/// A part mirrors one that has an outline of its own.
fn mirror_of_mirror(file: &DesignFile, named: &Named<Part>, other: &Word, sink: &mut Sink) {
    let mirrored = file
        .part
        .get(&other.value)
        .is_some_and(|found| found.entry.mirror_of.is_some());
    if other.value == named.name.value || mirrored {
        let fault = FileFault::BadName {
            name: shortened(&other.value),
            what: "the part that is mirrored".to_owned(),
            why: "it has no outline of its own".to_owned(),
        };
        sink.push(
            DesignError::new(fault, other.place).with_help("name a part that has an outline"),
        );
    }
}

fn unknown(name: &Word, what: &str, known: &[&str]) -> DesignError {
    let fault = FileFault::UnknownReference {
        what: what.to_owned(),
        name: shortened(&name.value),
    };
    DesignError::new(fault, name.place).with_help(suggestion(&name.value, known))
}

/// Whether a part as written has an opening of this name, however faulty.
fn has_opening(tree: &Node, part: &str, name: &str) -> bool {
    let openings = ["part", part, "opening"]
        .into_iter()
        .try_fold(tree, |node, key| node.get(key).map(|field| &field.node));
    let Some(NodeValue::List(openings)) = openings.map(|node| &node.value) else {
        return false;
    };
    openings.iter().any(|opening| {
        let called = opening.get("name").map(|field| &field.node.value);
        matches!(called, Some(NodeValue::Text(text, _)) if text == name)
    })
}

fn refer<T>(name: &Word, (what, entries): (&str, &Entries<T>), tree: &Node, sink: &mut Sink) {
    let is_written = || {
        let table = tree.get(what);
        table.is_some_and(|table| table.node.get(&name.value).is_some())
    };
    if entries.get(&name.value).is_none() && !is_written() {
        sink.push_with(|| {
            let known: Vec<&str> = entries.names().collect();
            unknown(name, what, &known)
        });
    }
}

/// The features of an outline have names of their own.
fn unique_features<'a>(
    outline: &'a [Entry],
    seen: &mut BTreeMap<&'a str, &'a Word>,
    sink: &mut Sink,
) {
    for entry in outline {
        unique(entry.name(), "the outline", seen, sink);
        let edge = entry.edge().and_then(|edge| edge.value.name.as_ref());
        if let Some(name) = edge {
            unique(name, "the outline", seen, sink);
        }
    }
}

fn unique<'a>(
    name: &'a Word,
    within: &str,
    seen: &mut BTreeMap<&'a str, &'a Word>,
    sink: &mut Sink,
) {
    if let Some(why) = wrong_length(&name.value) {
        sink.push(bad_name(name, "a feature", why));
    }
    if let Some(first) = seen.insert(name.as_str(), name) {
        let fault = FileFault::DuplicateName {
            name: shortened(&name.value),
            within: within.to_owned(),
        };
        sink.push(
            DesignError::new(fault, name.place)
                .with_also(first.place, "the other is here")
                .with_help("give one of them another name"),
        );
    }
}
