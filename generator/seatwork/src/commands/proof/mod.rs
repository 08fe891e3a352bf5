//! `proof`: checks everything, writes nothing but its own memory of what it proved.

mod text;

use std::collections::BTreeMap;
use std::path::Path;

use course::{Course, Coverage, Faults, RecipeFile};
use pages::Words;
use problems::proof::{Effort, Report};
use serde_json::{Value, json};

use crate::fault_report;
use crate::find_recipe::find_recipe;
use crate::options::ProofOptions;
use crate::out::say;
use crate::proving::{Cache, Proving, prove_all};
use crate::status::{End, Ended, Status};

pub(crate) fn run(options: &ProofOptions, words: &Words) -> Ended {
    let dir = &options.folder(words)?;
    let ended = |faults: &Faults| {
        if options.json {
            say!("{}", json!({ "faults": fault_report::as_json(dir, faults, words) }));
        }
        fault_report::end(dir, faults, words)
    };
    let course = fault_report::read(dir, words).map_err(|faults| ended(&faults))?;
    let files = chosen(&course, &options.recipes(), words)?;
    let efforts = [Effort::full(options.seeds).starting_at(options.from)];
    let proven = prove_all(&files, &Proving { efforts: &efforts, cache: &Cache::new(options.force.force) }, words)
        .map_err(|found| ended(&found))?;
    let look = Look::at(&course, options);
    if options.json {
        say!("{}", all_as_json(&proven, &look, dir, words));
    } else {
        say!("{}", text::reports(&proven, &look.unshown, words));
        fault_report::warn(dir, look.warnings, words);
    }
    Ok(Status::Done)
}

/// What proof says of a course beside its recipes: nothing where recipes were named, because only they were asked about.
struct Look<'c> {
    warnings: &'c Faults,
    /// Recipes that no lesson shows.
    unshown: Vec<&'c str>,
}

impl<'c> Look<'c> {
    fn at(course: &'c Course, options: &ProofOptions) -> Self {
        const NONE: &Faults = &Faults { list: Vec::new(), sources: BTreeMap::new(), unreadable: false };
        if !options.recipes().is_empty() {
            return Self { warnings: NONE, unshown: Vec::new() };
        }
        let coverage = Coverage::of(course);
        let ids = course.recipes.iter().map(|file| file.recipe.id.as_str());
        Self { warnings: &course.warnings, unshown: ids.filter(|id| coverage.showing(id).is_empty()).collect() }
    }
}

/// The recipes named, in their order; all where none is named.
fn chosen<'c>(course: &'c Course, names: &[&String], words: &Words) -> Result<Vec<&'c RecipeFile>, End> {
    if names.is_empty() {
        return Ok(course.recipes.iter().collect());
    }
    names.iter().map(|name| find_recipe(course, name, words)).collect()
}

fn all_as_json(proven: &[Report], look: &Look, dir: &Path, words: &Words) -> Value {
    let recipes: Value = proven.iter().map(as_json).collect();
    let warnings = fault_report::as_json(dir, look.warnings, words);
    json!({ "recipes": recipes, "unshown": look.unshown, "warnings": warnings })
}

/// A report as data, with what its author should look at.
fn as_json(report: &Report) -> Value {
    let mut json = serde_json::to_value(report).unwrap_or_default();
    for (system, found) in json["systems"].as_array_mut().into_iter().flatten().zip(&report.systems) {
        let point = |point: &problems::proof::Point| {
            let values: serde_json::Map<_, _> =
                point.values.iter().map(|(name, value)| ((*name).to_owned(), value.as_str().into())).collect();
            json!({ "code": point.code, "values": values })
        };
        system["points"] = found.points().iter().map(point).collect();
    }
    json
}
