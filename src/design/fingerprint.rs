//! A short sum of a design, printed on every output, so that a paper and a file can be told to belong
//! together.
//!
//! It is taken of the design with its dimensions evaluated: comments, white space, the order of keys,
//! and whether it is TOML or JSON do not change it; a value that is set does, unless it is the same.

use super::dimensions::Dimension;
use super::dimensions::Dimensions;
use super::dimensions::Override;
use super::dimensions::State;
use super::error::DesignError;
use super::expression::Kind;
use super::file::DesignFile;
use super::read::node::Field;
use super::read::node::Node;
use super::read::node::NodeValue;
use sha2::Digest;
use sha2::Sha256;

/// The SHA-256 of a design with some of its dimensions set, as 64 hexadecimal digits.
///
/// # Errors
/// As [`Dimensions::evaluate`].
pub fn fingerprint(file: &DesignFile, overrides: &[Override]) -> Result<String, Vec<DesignError>> {
    let dimensions = Dimensions::evaluate(file, overrides)?;
    Ok(fingerprint_of(file, &dimensions))
}

/// The SHA-256 of a design with these dimensions, as 64 hexadecimal digits.
pub fn fingerprint_of(file: &DesignFile, dimensions: &Dimensions) -> String {
    let digest = Sha256::digest(canonical_text(file, dimensions).as_bytes());
    let mut text = String::with_capacity(64);
    for byte in digest {
        for half in [byte >> 4, byte & 15] {
            text.extend(char::from_digit(u32::from(half), 16));
        }
    }
    text
}

/// What the fingerprint is taken of: the file with sorted keys and without the values of its
/// dimensions, then these, evaluated and sorted by name, one a line.
pub fn canonical_text(file: &DesignFile, dimensions: &Dimensions) -> String {
    let mut text = file.canonical.clone();
    let mut sorted: Vec<&Dimension> = dimensions.iter().collect();
    sorted.sort_by(|one, other| one.name.cmp(&other.name));
    for dimension in sorted {
        let value = match &dimension.state {
            State::Known(value) => format!("{value:e}"),
            State::Open => "open".to_owned(),
            State::Undecided(_) => "undecided".to_owned(),
        };
        let kind = match dimension.kind {
            Kind::Bare => "bare".to_owned(),
            Kind::Angle => "radians".to_owned(),
            Kind::Power(power) => format!("mm^{power}"),
        };
        put(
            &mut text,
            &["\n", &dimension.name, " = ", &value, " ", &kind],
        );
    }
    text
}

/// The tree without the values of its dimensions, keys sorted, without white space.
pub(super) fn canonical(tree: &Node) -> String {
    let mut text = String::new();
    let NodeValue::Table(fields) = &tree.value else {
        return text;
    };
    let dims = tree.get("dims").map(|field| without_values(&field.node));
    let others = fields
        .iter()
        // the maker's tools are no part of the design
        .filter(|field| !matches!(field.key.value.as_str(), "dims" | "$schema" | "tools"));
    let mut parts: Vec<(&str, &Node)> = others
        .map(|field| (field.key.value.as_str(), &field.node))
        .collect();
    if let Some(dims) = &dims {
        parts.push(("dims", dims));
    }
    write_table(&mut text, parts);
    text
}

/// The dimensions without their values.
fn without_values(dims: &Node) -> Node {
    let NodeValue::Table(fields) = &dims.value else {
        return dims.clone();
    };
    let kept = fields.iter().filter_map(|field| match &field.node.value {
        NodeValue::Table(keys) => Some(Field {
            key: field.key.clone(),
            node: Node {
                place: field.node.place,
                value: NodeValue::Table(
                    keys.iter()
                        .filter(|key| key.key.value != "value")
                        .cloned()
                        .collect(),
                ),
            },
        }),
        _ => None,
    });
    Node {
        place: dims.place,
        value: NodeValue::Table(kept.collect()),
    }
}

fn put(text: &mut String, parts: &[&str]) {
    for part in parts {
        text.push_str(part);
    }
}

/// A string as JSON spells it.
fn quoted(text: &str) -> String {
    serde_json::Value::from(text).to_string()
}

fn write_table(text: &mut String, mut parts: Vec<(&str, &Node)>) {
    parts.retain(|(_, node)| node.value != NodeValue::Null);
    parts.sort_by(|one, other| one.0.cmp(other.0));
    text.push('{');
    for (index, (key, node)) in parts.into_iter().enumerate() {
        if index > 0 {
            text.push(',');
        }
        put(text, &[&quoted(key), ":"]);
        write_node(text, node);
    }
    text.push('}');
}

fn write_node(text: &mut String, node: &Node) {
    match &node.value {
        NodeValue::Null | NodeValue::Date => text.push_str("null"),
        NodeValue::Boolean(value) => text.push_str(&value.to_string()),
        NodeValue::Number(value) => put(text, &[&format!("{value:e}")]),
        NodeValue::Text(value, _) => put(text, &[&quoted(value)]),
        NodeValue::List(nodes) => {
            text.push('[');
            for (index, node) in nodes.iter().enumerate() {
                if index > 0 {
                    text.push(',');
                }
                write_node(text, node);
            }
            text.push(']');
        }
        NodeValue::Table(fields) => write_table(
            text,
            fields
                .iter()
                .map(|field| (field.key.value.as_str(), &field.node))
                .collect(),
        ),
    }
}
