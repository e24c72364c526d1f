//! How do an editor and a validator know what a document may say?
//!
//! The schema is made from the types of [`Spec`], whose doc comments become descriptions, and completed with what the
//! reader records: defaults, limits, which keys must be given. The reader takes words in capitals, which the schema does
//! not, and refuses lengths beyond their limits and numbers in quotes without a unit, which the schema lets pass; it has
//! the last word and the better messages.

mod values;

use schemars::generate::SchemaSettings;
use serde_json::{Map, Value, json};

use crate::instrument::Spec;
use crate::key::{KeyInfo, KeyKind, keys};

/// The JSON Schema (2020-12) of a document.
#[must_use]
pub fn schema() -> Value {
    let settings = SchemaSettings::draft2020_12().with(|settings| settings.inline_subschemas = true);
    let mut schema = settings.into_generator().into_root_schema_for::<Spec>().to_value();
    close(&mut schema);
    for key in keys() {
        if let Some(property) = property_at(&mut schema, &key.path) {
            complete(property, key);
        }
        if key.required {
            require(&mut schema, key);
        }
    }
    schema
}

/// Closes every object to unknown keys and opens all that is required: the reader says what is, and has defaults.
fn close(schema: &mut Value) {
    let Value::Object(object) = schema else { return };
    make_plain(object);
    if object.contains_key("properties") {
        join_alternatives(object);
        object.remove("required");
        object.remove("unevaluatedProperties");
        object.insert("additionalProperties".to_owned(), json!(false));
    }
    if let Some(Value::Object(properties)) = object.get_mut("properties") {
        properties.values_mut().for_each(close);
    }
    if let Some(items) = object.get_mut("items") {
        close(items);
    }
}

/// Takes out what TOML has no use for: null, sizes of machine integers, line ends within a description.
fn make_plain(object: &mut Map<String, Value>) {
    if let Some(Value::String(description)) = object.get_mut("description") {
        *description = description.replace('\n', " ");
    }
    object.remove("format");
    for list in ["type", "enum", "anyOf"] {
        let Some(Value::Array(items)) = object.get_mut(list) else { continue };
        let null_type = json!({ "type": "null" });
        items.retain(|item| !item.is_null() && *item != json!("null") && *item != null_type);
        if list == "type" && items.len() == 1 {
            let only = items.remove(0);
            object.insert(list.to_owned(), only);
        }
    }
}

/// Alternative groups of keys become keys of the object itself, of which exactly one group is required and the others are
/// forbidden: a closed object must list all its keys in one place.
fn join_alternatives(object: &mut Map<String, Value>) {
    let Some(Value::Array(alternatives)) = object.remove("anyOf") else { return };
    let mut joined = Map::new();
    let mut groups: Vec<(Vec<String>, Value)> = Vec::new();
    for mut alternative in alternatives {
        if let Some(Value::Object(properties)) = alternative.get_mut("properties").map(Value::take) {
            let own: Vec<String> = properties.keys().cloned().collect();
            let required = alternative.get_mut("required").map(Value::take).unwrap_or_default();
            groups.push((own, required));
            joined.extend(properties);
        }
    }
    let group = |(own, required): &(Vec<String>, Value)| {
        let others = joined.keys().filter(|key| !own.contains(key));
        let forbidden: Map<String, Value> = others.map(|key| (key.clone(), json!(false))).collect();
        json!({ "required": required, "properties": forbidden })
    };
    let one_of: Vec<Value> = groups.iter().map(group).collect();
    if let Some(Value::Object(properties)) = object.get_mut("properties") {
        properties.extend(joined);
    }
    object.insert("oneOf".to_owned(), Value::Array(one_of));
}

/// The schema of a dotted key; N leads into the items of a list.
fn property_at<'s>(schema: &'s mut Value, path: &str) -> Option<&'s mut Value> {
    path.split('.').try_fold(schema, |schema, step| match step {
        "N" => schema.get_mut("items"),
        name => schema.get_mut("properties")?.get_mut(name),
    })
}

/// Adds what the reader knows of a key.
fn complete(property: &mut Value, key: &KeyInfo) {
    let Value::Object(property) = property else { return };
    if let Some(default) = default_of(key) {
        property.insert("default".to_owned(), default);
    }
    let mut sentences: Vec<String> =
        property.get("description").and_then(Value::as_str).map(str::to_owned).into_iter().collect();
    if let Some(range) = key.range {
        match key.kind {
            KeyKind::Count => {
                // Counts print as whole numbers, which is what a schema wants.
                property.insert("minimum".to_owned(), number(&range.least.to_string()));
                property.insert("maximum".to_owned(), number(&range.most.to_string()));
            }
            KeyKind::Sections => {
                property.insert("minItems".to_owned(), number(&range.least.to_string()));
                property.insert("maxItems".to_owned(), number(&range.most.to_string()));
            }
            _ => {}
        }
        sentences.push(format!("From {} to {}.", range.least, range.most));
    }
    match (&key.default, &key.default_rule) {
        (_, Some(rule)) => sentences.push(format!("Default: {rule}.")),
        (Some(default), None) => sentences.push(format!("Default: {default}.")),
        (None, None) => {}
    }
    property.insert("description".to_owned(), Value::String(sentences.join(" ")));
    if key.kind == KeyKind::Text {
        property.insert("minLength".to_owned(), json!(1));
        property.insert("maxLength".to_owned(), json!(crate::limits::NAME_CHARACTERS));
    }
}

/// The default as a document writes it.
fn default_of(key: &KeyInfo) -> Option<Value> {
    let default = key.default.as_ref()?;
    Some(match key.kind {
        KeyKind::Count => number(default),
        KeyKind::LengthPair => default.split(',').map(|length| json!(length.trim())).collect(),
        _ => json!(default),
    })
}

fn number(digits: &str) -> Value {
    digits.parse::<u64>().map_or(Value::Null, Value::from)
}

/// Marks a key as required where it stands.
fn require(schema: &mut Value, key: &KeyInfo) {
    let Some((section, name)) = key.path.rsplit_once('.') else { return };
    let Some(Value::Object(object)) = property_at(schema, section) else { return };
    let required = object.entry("required").or_insert_with(|| json!([]));
    if let Value::Array(required) = required {
        required.push(json!(name));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::BTreeSet;

    /// Every dotted key that the schema describes; sections themselves left out, lists kept.
    fn described(schema: &Value, path: &str, found: &mut BTreeSet<String>) {
        let properties = schema.get("properties").and_then(Value::as_object);
        for (name, property) in properties.into_iter().flatten() {
            let dotted = if path.is_empty() { name.clone() } else { format!("{path}.{name}") };
            if property.get("properties").is_some() {
                described(property, &dotted, found);
            } else if property.pointer("/items/properties").is_some() {
                described(&property["items"], &format!("{dotted}.N"), found);
                found.insert(dotted);
            } else {
                found.insert(dotted);
            }
        }
    }

    #[test]
    fn schema_and_reader_know_the_same_keys() {
        let mut in_schema = BTreeSet::new();
        described(&schema(), "", &mut in_schema);
        let in_reader: BTreeSet<String> = keys().iter().map(|key| key.path.clone()).collect();
        assert_eq!(in_schema, in_reader, "the schema's keys against the reader's");
        assert_eq!(keys().len(), in_reader.len(), "no key is asked for twice");
    }

    #[test]
    fn every_object_is_closed_and_described() {
        fn walk(schema: &Value, path: &str) {
            for (name, property) in schema.get("properties").and_then(Value::as_object).into_iter().flatten()
            {
                let path = format!("{path}.{name}");
                let description = property.get("description").and_then(Value::as_str).unwrap_or_default();
                assert!(description.len() > 10, "{path} is described, found {description:?}");
                walk(property, &path);
            }
            if schema.get("properties").is_some() {
                assert_eq!(schema.get("additionalProperties"), Some(&json!(false)), "{path} is closed");
            }
            if let Some(items) = schema.get("items") {
                walk(items, &format!("{path}.N"));
            }
        }
        walk(&schema(), "");
    }

    #[test]
    fn words_are_those_of_the_reader() {
        let mut schema = schema();
        for key in keys().iter().filter(|key| key.kind == KeyKind::Choice) {
            let property = property_at(&mut schema, &key.path).expect("the key is described");
            let consts = property.get("oneOf").and_then(Value::as_array).into_iter().flatten();
            let consts = consts.filter_map(|one| one.get("const")).filter_map(Value::as_str);
            let plain = property
                .get("enum")
                .and_then(Value::as_array)
                .into_iter()
                .flatten()
                .filter_map(Value::as_str);
            let words: Vec<&str> = consts.chain(plain).collect();
            assert_eq!(words, key.choices, "the words of {}", key.path);
        }
    }

    #[test]
    fn nothing_is_null() {
        let text = schema().to_string();
        assert!(!text.contains("null") && !text.contains("uint8") && !text.contains("\\n"), "plain: {text}");
    }

    #[test]
    fn a_hole_has_one_size() {
        let schema = schema();
        let hole = &schema["properties"]["box"]["properties"]["holes"]["items"];
        assert_eq!(hole["required"], json!(["at"]), "what a hole must have");
        assert_eq!(
            hole["oneOf"],
            json!([
                { "required": ["diameter"], "properties": { "length": false, "outline": false, "outline_units": false, "width": false } },
                { "required": ["length", "width"], "properties": { "diameter": false, "outline": false, "outline_units": false } },
                { "required": ["outline"], "properties": { "diameter": false, "length": false, "width": false } },
            ]),
            "one size of three kinds"
        );
    }
}
