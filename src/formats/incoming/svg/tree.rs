//! The elements of a document, with their lines.

use std::collections::BTreeMap;

use super::malformed;
use super::xml::Event;
use super::xml::Xml;
use crate::formats::FileFormat;
use crate::formats::FormatError;
use crate::formats::incoming::MOST_DRAWN;
use crate::formats::incoming::too_much;

/// Elements within elements are taken this deep.
const DEEPEST_ELEMENT: usize = 200;

/// An element.
#[derive(Debug)]
pub(super) struct Element {
    pub(super) name: String,
    pub(super) line: usize,
    attributes: Vec<(String, String)>,
    pub(super) children: Vec<usize>,
}

impl Element {
    /// The attribute of this name, also where the style says it.
    pub(super) fn get(&self, name: &str) -> Option<&str> {
        self.attributes
            .iter()
            .find(|(known, _)| known == name)
            .map(|(_, value)| value.trim())
    }

    /// A property: in the style, or as an attribute.
    pub(super) fn property(&self, name: &str) -> Option<&str> {
        let styled = self.get("style").and_then(|style| {
            style.split(';').rev().find_map(|one| {
                let (known, value) = one.split_once(':')?;
                (known.trim() == name).then(|| value.trim())
            })
        });
        styled.or_else(|| self.get(name))
    }
}

/// All elements; a child stands after its parent.
#[derive(Debug)]
pub(super) struct Tree {
    elements: Vec<Element>,
    by_id: BTreeMap<String, usize>,
    pub(super) comments: Vec<String>,
}

impl Tree {
    pub(super) fn parse(text: &str) -> Result<Self, FormatError> {
        let mut tree = Self {
            elements: Vec::new(),
            by_id: BTreeMap::new(),
            comments: Vec::new(),
        };
        let mut xml = Xml::new(text);
        let mut open: Vec<usize> = Vec::new();
        while let Some(event) = xml.next_event()? {
            match event {
                Event::Comment(comment) => {
                    if tree.comments.len() < 64 {
                        let comment = comment.trim().chars().take(400).collect();
                        tree.comments.push(comment);
                    }
                }
                Event::End { name, line } => {
                    let ended = open.pop().and_then(|index| tree.elements.get(index));
                    if ended.is_none_or(|element| element.name != name) {
                        return Err(malformed(line, "an end tag that ends no element"));
                    }
                }
                Event::Start {
                    name,
                    attributes,
                    empty,
                    line,
                } => {
                    let index = tree.elements.len();
                    if open.is_empty() && index > 0 {
                        return Err(malformed(line, "more than one root element"));
                    }
                    if open.len() >= DEEPEST_ELEMENT {
                        return Err(malformed(line, "elements within elements without end"));
                    }
                    if index >= MOST_DRAWN {
                        let limit = MOST_DRAWN;
                        return Err(too_much(FileFormat::Svg, "elements", index + 1, limit));
                    }
                    if let Some(parent) = open.last().and_then(|&at| tree.elements.get_mut(at)) {
                        parent.children.push(index);
                    }
                    let attributes: Vec<(String, String)> = attributes
                        .into_iter()
                        .map(|(name, value)| (name.to_owned(), value.into_owned()))
                        .collect();
                    if let Some((_, id)) = attributes.iter().find(|(name, _)| name == "id") {
                        tree.by_id.entry(id.clone()).or_insert(index);
                    }
                    tree.elements.push(Element {
                        name: name.to_owned(),
                        line,
                        attributes,
                        children: Vec::new(),
                    });
                    if !empty {
                        open.push(index);
                    }
                }
            }
        }
        if open.is_empty() && !tree.elements.is_empty() {
            return Ok(tree);
        }
        let line = xml.line();
        Err(malformed(
            line,
            "the file ends before its last element does",
        ))
    }

    pub(super) fn get(&self, index: usize) -> Option<&Element> {
        self.elements.get(index)
    }

    pub(super) fn root(&self) -> Result<&Element, FormatError> {
        match self.elements.first() {
            Some(root) if root.name == "svg" => Ok(root),
            _ => Err(malformed(1, "it does not start with an svg element")),
        }
    }

    /// The element that a reference such as `#name` means.
    pub(super) fn referred(&self, reference: &str) -> Option<usize> {
        let id = reference.trim().strip_prefix('#')?;
        self.by_id.get(id).copied()
    }
}
