//! The JSON Schema of everything that authors write in YAML, for editors that complete and check.

use problems::own::raw::RawRelation;
use problems::recipe::raw::RawRecipe;
use schemars::generate::SchemaSettings;
use schemars::{JsonSchema, Schema as Generated};
use serde_json::{Map, Value};

use crate::raw::{RawCourse, RawLesson, RawPicture, RawTerm};

/// A schema, as a file of its own.
#[derive(Debug)]
pub struct Schema {
    /// The name of the file.
    pub name: &'static str,
    /// The schema, as JSON.
    pub text: String,
}

impl Schema {
    /// What the text of every such file starts with, of whatever version.
    pub const MARK: &str = "{\n  \"$comment\": \"seatwork schema";

    fn of<T: JsonSchema>(name: &'static str, title: &str) -> Self {
        // Without names for its parts: editors would show the names to authors.
        let settings = SchemaSettings::draft2020_12().with(|settings| settings.inline_subschemas = true);
        let schema: Generated = settings.into_generator().into_root_schema_for::<T>();
        let mut all = Map::new();
        all.insert("$comment".to_owned(), "seatwork schema".into());
        all.extend(schema.as_object().cloned().unwrap_or_default());
        all.insert("title".to_owned(), title.into());
        Self { name, text: format!("{:#}\n", Value::Object(all)) }
    }
}

/// The schemas of `course.yaml` and of the front matter of lessons, terms, recipes, pictures and relations.
#[must_use]
pub fn schemas() -> [Schema; 6] {
    [
        Schema::of::<RawCourse>("course.schema.json", "course.yaml"),
        Schema::of::<RawLesson>("lesson.schema.json", "lesson"),
        Schema::of::<RawTerm>("term.schema.json", "term"),
        Schema::of::<RawRecipe>("recipe.schema.json", "recipe"),
        Schema::of::<RawPicture>("picture.schema.json", "picture"),
        Schema::of::<RawRelation>("relation.schema.json", "relation"),
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_schema_starts_with_the_mark() {
        for schema in schemas() {
            assert!(schema.text.starts_with(Schema::MARK), "{}", schema.name);
        }
    }
}
