//! `schema`: what editors need to complete and check while an author types.

use std::path::PathBuf;

use pages::Words;

use crate::course_folder::{course_folder, holds_course};
use crate::options::SchemaOptions;
use crate::out::say;
use crate::schema_files::{FOLDER, schema_files};
use crate::status::{End, Ended, Status};
use crate::write_plan::{Plan, Right};

pub(crate) fn run(options: &SchemaOptions, words: &Words) -> Ended {
    let items = schema_files("");
    let folder = folder(options, words)?;
    let plan = Plan::look(&folder, &items, words)?;
    if plan.replaces() {
        plan.agree(Right::of(options.yes), words)?;
    }
    plan.write(words)?;
    let dir = folder.display().to_string();
    say!("{}", words.fill("command.schema.written", &[("count", &items.len().to_string()), ("dir", &dir)]));
    say!("{}", words.get("command.schema.course"));
    say!("  # yaml-language-server: $schema={FOLDER}/course.schema.json");
    say!("{}", words.get("command.schema.front_matter"));
    Ok(Status::Done)
}

/// The folder of the schemas: within that of a course, never among the files of the course.
fn folder(options: &SchemaOptions, words: &Words) -> Result<PathBuf, End> {
    let named = match &options.dir {
        Some(dir) if !holds_course(dir) => return Ok(dir.clone()),
        named => named.as_deref(),
    };
    Ok(course_folder(named, words)?.join(FOLDER))
}
