//! The JSON Schema of a design file, for editors.

use super::file::DesignFile;
use super::read::keys;
use schemars::generate::SchemaSettings;
use serde_json::Value;
use serde_json::json;

/// The JSON Schema (draft 2020-12) of a design file, for editors to complete and check with. The same
/// text every time.
pub fn json_schema() -> String {
    let settings = SchemaSettings::draft2020_12();
    let mut schema = settings
        .into_generator()
        .into_root_schema_for::<DesignFile>()
        .to_value();
    if let Some(definitions) = schema.get_mut("$defs").and_then(Value::as_object_mut) {
        for (name, definition) in definitions {
            add_groups(name, definition);
        }
    }
    let mut text = serde_json::to_string_pretty(&schema).unwrap_or_default();
    text.push('\n');
    text
}

/// Adds to a definition which of its keys go together.
fn add_groups(name: &str, definition: &mut Value) {
    let rules: Vec<Value> = keys::groups_of_definition(name)
        .map(|(needed, keys)| {
            let mut choices: Vec<Value> = keys
                .iter()
                .map(|key| json!({ "required": [key] }))
                .collect();
            if !needed {
                let none: Vec<Value> = choices.clone();
                choices.push(json!({ "not": { "anyOf": none } }));
            }
            json!({ "oneOf": choices })
        })
        .collect();
    if let (Some(definition), false) = (definition.as_object_mut(), rules.is_empty()) {
        definition.insert("allOf".to_owned(), Value::Array(rules));
    }
}

/// Keeps the derive honest: the schema has a definition for every structure with groups of keys.
#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_group_of_keys_is_in_the_schema() {
        let schema: Value = serde_json::from_str(&json_schema()).expect("JSON");
        let definitions = schema["$defs"].as_object().expect("definitions");
        for name in keys::definitions_with_groups() {
            let definition = definitions
                .get(name)
                .unwrap_or_else(|| panic!("no definition {name}"));
            assert!(definition["allOf"].is_array(), "{name} has its groups");
        }
    }

    #[test]
    fn the_title_is_that_of_the_design_file() {
        use schemars::JsonSchema;
        assert_eq!(DesignFile::schema_name(), "DesignFile", "name");
    }
}
