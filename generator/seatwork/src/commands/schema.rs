//! `schema`: what editors need to complete and check while an author types.

use course::{Schema, schemas};
use pages::Words;

use crate::lay::{Item, Plan, Right};
use crate::options::SchemaOptions;
use crate::status::{Ended, Status};

/// The folder of the schemas within that of a course: what starts with a dot is no part of a course.
pub(crate) const FOLDER: &str = ".schema";

pub(crate) fn run(options: &SchemaOptions, words: &Words) -> Ended {
    let items: Vec<_> = schemas().into_iter().map(|schema| item("", schema)).collect();
    let plan = Plan::look(&options.dir, &items, words)?;
    if plan.replaces() {
        plan.agree(Right::of(options.yes), words)?;
    }
    plan.write(words)?;
    let dir = options.dir.display().to_string();
    crate::say!("{}", words.fill("command.schema.written", &[("count", &items.len().to_string()), ("dir", &dir)]));
    crate::say!("{}", words.get("command.schema.course"));
    crate::say!("  # yaml-language-server: $schema={FOLDER}/course.schema.json");
    crate::say!("{}", words.get("command.schema.front_matter"));
    Ok(Status::Done)
}

/// The schemas as `start` writes them, within a course.
pub(crate) fn items() -> impl Iterator<Item = Item> {
    schemas().into_iter().map(|schema| item(&format!("{FOLDER}/"), schema))
}

fn item(folder: &str, schema: Schema) -> Item {
    Item::new(format!("{folder}{}", schema.name), schema.text).marked(Schema::MARK)
}
