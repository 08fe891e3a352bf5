//! `schema`: what editors need to complete and check while an author types.

use pages::Words;

use crate::options::SchemaOptions;
use crate::out::say;
use crate::schema_files::{FOLDER, schema_files};
use crate::status::{Ended, Status};
use crate::write_plan::{Plan, Right};

pub(crate) fn run(options: &SchemaOptions, words: &Words) -> Ended {
    let items = schema_files("");
    let plan = Plan::look(&options.dir, &items, words)?;
    if plan.replaces() {
        plan.agree(Right::of(options.yes), words)?;
    }
    plan.write(words)?;
    let dir = options.dir.display().to_string();
    say!("{}", words.fill("command.schema.written", &[("count", &items.len().to_string()), ("dir", &dir)]));
    say!("{}", words.get("command.schema.course"));
    say!("  # yaml-language-server: $schema={FOLDER}/course.schema.json");
    say!("{}", words.get("command.schema.front_matter"));
    Ok(Status::Done)
}
