//! `proof`: checks everything, writes nothing but its own memory of what it proved.

mod cache;
mod text;

use std::collections::BTreeMap;
use std::sync::atomic::{AtomicUsize, Ordering};

use course::{Course, Coverage, Faults, RecipeFile, on_threads};
use pages::Words;
use problems::proof::{Effort, Report, prove};
use serde_json::{Value, json};

use crate::options::ProofOptions;
use crate::progress::Progress;
use crate::status::{End, Ended, Status};
use crate::{draw, faults};
use cache::Cache;

/// With how many seeds `proof` draws each recipe, where nothing else is said.
pub(crate) const SEEDS: u64 = 2000;

pub(crate) fn run(options: &ProofOptions, words: &Words) -> Ended {
    let dir = &options.course.course;
    let course = faults::read_course(dir, words)?;
    let files = chosen(&course, &options.recipes, words)?;
    let efforts = [Effort::full(options.seeds).starting_at(options.from)];
    let proven = prove_all(&files, &Proving { efforts: &efforts, cache: &Cache::new(options.afresh.afresh) }, words)
        .map_err(|found| faults::end(dir, &found, words))?;
    let look = Look::at(&course, options);
    if options.json {
        let recipes: Value = proven.iter().map(as_json).collect();
        let warnings = faults::as_json(look.warnings, words);
        crate::say!("{}", json!({ "recipes": recipes, "unshown": look.unshown, "warnings": warnings }));
    } else {
        crate::say!("{}", text::reports(&proven, &look.unshown, words));
        faults::warn(dir, look.warnings, words);
    }
    Ok(Status::Done)
}

/// What proof tells of a course beside its recipes. Who names recipes asks about these alone.
struct Look<'c> {
    warnings: &'c Faults,
    /// Recipes that no lesson shows.
    unshown: Vec<&'c str>,
}

impl<'c> Look<'c> {
    fn at(course: &'c Course, options: &ProofOptions) -> Self {
        const NONE: &Faults = &Faults { list: Vec::new(), sources: BTreeMap::new(), unreadable: false };
        if !options.recipes.is_empty() {
            return Self { warnings: NONE, unshown: Vec::new() };
        }
        let coverage = Coverage::of(course);
        let ids = course.recipes.iter().map(|file| file.recipe.id.as_str());
        Self { warnings: &course.warnings, unshown: ids.filter(|id| coverage.showing(id).is_empty()).collect() }
    }
}

/// The recipes named, in their order; all where none is named.
fn chosen<'c>(course: &'c Course, names: &[String], words: &Words) -> Result<Vec<&'c RecipeFile>, End> {
    if names.is_empty() {
        return Ok(course.recipes.iter().collect());
    }
    names.iter().map(|name| draw::find(course, name, words)).collect()
}

/// How recipes are proven.
pub(crate) struct Proving<'p> {
    /// What will do: the first is what is drawn where none is remembered.
    pub(crate) efforts: &'p [Effort],
    /// What was proven before.
    pub(crate) cache: &'p Cache,
}

/// Proves the recipes of a course before it is published: a few draws, unless `proof` already made many.
///
/// # Errors
/// All that is wrong with its recipes.
pub(crate) fn prove_course(course: &Course, afresh: bool, words: &Words) -> Result<(), Faults> {
    let files: Vec<_> = course.recipes.iter().collect();
    let efforts = [Effort::QUICK, Effort::full(SEEDS)];
    prove_all(&files, &Proving { efforts: &efforts, cache: &Cache::new(afresh) }, words).map(drop)
}

/// Draws every recipe, or gives all that is wrong.
fn prove_all(files: &[&RecipeFile], proving: &Proving, words: &Words) -> Result<Vec<Report>, Faults> {
    let (mut proven, mut faults) = (Vec::new(), Faults::default());
    let progress = Progress::new(words.get("command.progress.proving"));
    let count = AtomicUsize::new(0);
    let results = on_threads(files, 1, |file| {
        let result = proving.one(file);
        progress.done(count.fetch_add(1, Ordering::Relaxed) + 1, files.len());
        result
    });
    drop(progress);
    proving.cache.tidy();
    for (file, result) in files.iter().zip(results) {
        match result {
            Ok(report) => proven.push(report),
            Err(found) => {
                let found = file.proof_faults(&found);
                faults.list.extend(found.list);
                faults.sources.extend(found.sources);
            }
        }
    }
    if faults.list.is_empty() { Ok(proven) } else { Err(faults) }
}

impl Proving<'_> {
    /// What is remembered of a recipe, or found now. Only what passed is remembered: what failed is about to change.
    fn one(&self, file: &RecipeFile) -> Result<Report, Vec<problems::proof::ProofFault>> {
        let compiled = file.recipe.write();
        let keys: Vec<_> = self.efforts.iter().map(|effort| cache::key(&compiled, *effort)).collect();
        if let Some(report) = keys.iter().find_map(|key| self.cache.get(key, &file.recipe.id)) {
            return Ok(report);
        }
        let report = prove(&file.recipe, self.efforts[0])?;
        self.cache.put(&keys[0], &report);
        Ok(report)
    }
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
