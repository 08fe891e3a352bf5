//! Every text that the readers' types know, as their schemas say, so that none is left out of the walk.

use std::collections::BTreeSet;

use serde_json::Value;

use super::originals::Slot;

/// A field by its folder and name.
type Name = (String, String);

/// The folder of the files that a schema is for; none for `course.yaml`.
const FOLDERS: [(&str, &str); 6] = [
    ("course.schema.json", ""),
    ("lesson.schema.json", "lessons"),
    ("term.schema.json", "terms"),
    ("recipe.schema.json", "recipes"),
    ("picture.schema.json", "pictures"),
    ("relation.schema.json", "relations"),
];

/// What the key of a mapping is called here whose keys the author chooses.
const ANY: &str = "any";

/// Fields that cannot be in a course that publishes, each with the reason.
pub(crate) const NOT_WALKED: [(&str, &str, &str); 1] = [(
    "recipes",
    "ask.*.reasons.*.value",
    "reasons share the type of options, and have words only: the key is refused",
)];

/// The fields of all schemas that hold a text, and of mappings with keys of the author's own the keys.
pub(crate) fn known_fields() -> BTreeSet<Name> {
    course::schemas().iter().flat_map(|schema| known_in(schema.name, &schema.text)).collect()
}

/// Those of one schema.
fn known_in(name: &str, text: &str) -> Vec<Name> {
    let folder = FOLDERS.iter().find(|(file, _)| *file == name).unwrap_or_else(|| panic!("no folder for {name}")).1;
    let mut slots = Vec::new();
    collect(&serde_json::from_str(text).expect("JSON"), &[], &mut slots);
    slots.iter().map(|slot| (folder.to_owned(), slot.field())).collect()
}

/// Adds the texts of a schema at a path. Alternatives are at the same one. What only narrows (`if`, `then`, alternatives beside
/// a type) has no field of its own.
///
/// # Panics
/// Where a schema has a form that is not known here, since there could be texts in it.
fn collect(schema: &Value, path: &[String], slots: &mut Vec<Slot>) {
    let at = |step: &str| [path, &[step.to_owned()]].concat();
    if let Some(alternatives) = schema["anyOf"].as_array().filter(|_| schema["type"].is_null()) {
        return alternatives.iter().for_each(|schema| collect(schema, path, slots));
    }
    for kind in kinds(schema) {
        match kind {
            "string" => slots.push(Slot::Value(path.to_owned())),
            "array" => collect(&schema["items"], &at("0"), slots),
            "object" => {
                let named = schema["properties"].as_object();
                named.into_iter().flatten().for_each(|(key, schema)| collect(schema, &at(key), slots));
                if schema["additionalProperties"].is_object() {
                    slots.push(Slot::Key(at(ANY)));
                    collect(&schema["additionalProperties"], &at(ANY), slots);
                }
            }
            "integer" | "number" | "boolean" | "null" => {}
            other => panic!("{path:?}: a schema of a form that is not known: {other}: {schema}"),
        }
    }
}

/// The types of what a schema takes; where it lists values, theirs.
fn kinds(schema: &Value) -> Vec<&str> {
    let listed = |value: &Value| match value {
        Value::String(_) => "string",
        Value::Number(_) => "number",
        Value::Bool(_) => "boolean",
        Value::Null => "null",
        _ => "of many parts",
    };
    match (&schema["type"], schema["enum"].as_array()) {
        (Value::String(kind), _) => vec![kind],
        (Value::Array(kinds), _) => kinds.iter().filter_map(Value::as_str).collect(),
        (_, Some(values)) => values.iter().map(listed).collect::<BTreeSet<_>>().into_iter().collect(),
        _ if schema["const"].is_string() => vec!["string"],
        _ => vec!["nothing"],
    }
}

/// A schema with texts in every form that it can have, and with what is none.
#[test]
fn every_text_of_a_schema_is_found() {
    let schema = serde_json::json!({
        "type": "object",
        "properties": {
            "format": { "type": "integer", "enum": [1] },
            "level": { "enum": [1, 2] },
            "flag": { "type": ["boolean", "null"] },
            "side": { "enum": ["up", "down"] },
            "words": { "type": ["string", "null"] },
            "list": { "type": "array", "items": { "type": "object", "properties": { "us": { "const": "a" } } } },
            "unit": { "anyOf": [{ "type": "string" }, { "type": "object", "properties": { "si": { "type": "string" } } }] },
            "draw": { "type": "object", "additionalProperties": { "type": ["string", "number"] } },
        },
    });
    let found: Vec<_> = known_in("recipe.schema.json", &schema.to_string()).into_iter().map(|(_, name)| name).collect();
    assert_eq!(found, ["draw: a key", "draw.*", "list.*.*", "side", "unit", "unit.*", "words"]);
}

/// A text may be of any form that this has not seen: that is told, and not taken for no text.
#[test]
#[should_panic(expected = "not known")]
fn a_schema_of_an_unknown_form_is_told() {
    known_in("term.schema.json", r##"{ "type": "object", "properties": { "more": { "$ref": "#/$defs/More" } } }"##);
}
