//! The JSON Schema of the parts of a recipe, for editors that complete and check: it is made of what the forms say of
//! themselves.

use std::borrow::Cow;

use schemars::{JsonSchema, Schema, SchemaGenerator, json_schema};
use serde_json::{Map, Value, json};

use super::raw::{OF_EVERY_PART, RawAsk};
use super::schema::{Name, one_of};
use crate::forms::{FORMS, needs, schemas_of_keys};

impl JsonSchema for RawAsk {
    fn schema_name() -> Cow<'static, str> {
        "RawAsk".into()
    }

    fn json_schema(generator: &mut SchemaGenerator) -> Schema {
        let mut properties = Map::new();
        properties.insert("id".to_owned(), described(Name::json_schema(generator), "The name of the part."));
        let forms = one_of(FORMS.iter().map(|(form, _)| *form));
        properties.insert("form".to_owned(), described(forms, "The form of the answer."));
        let label = json_schema!({ "type": "string" });
        properties.insert("label".to_owned(), described(label, "What the learner sees beside the field."));
        for mut keys in schemas_of_keys(generator) {
            if let Some(Value::Object(of_form)) = keys.remove("properties") {
                properties.extend(of_form);
            }
        }
        json_schema!({
            "description": "One thing that is asked.",
            "type": "object",
            "properties": properties,
            "additionalProperties": false,
            "required": ["id", "label"],
            "allOf": FORMS.iter().map(keys_of_form).collect::<Vec<_>>(),
        })
    }
}

fn described(mut schema: Schema, description: &str) -> Value {
    schema.insert("description".to_owned(), description.into());
    schema.into()
}

/// Says which keys belong to a form, which of them it needs, and how many entries. A part that names no form asks for a
/// number.
fn keys_of_form((form, keys): &(&str, &[&str])) -> Value {
    let named: &[&str] = if *form == "number" { &[] } else { &["form"] };
    let known: Vec<_> = OF_EVERY_PART.iter().chain(*keys).collect();
    let (needed, counts) = needs(form);
    json!({
        "if": { "properties": { "form": { "const": form } }, "required": named },
        "then": { "propertyNames": { "enum": known }, "required": needed, "properties": counts },
    })
}
