//! Recipes proven, with a memory of what was proven before.

mod cache;

use std::sync::atomic::{AtomicUsize, Ordering};

use course::{Course, Faults, RecipeFile, on_threads};
use pages::Words;
use problems::proof::{Effort, Report, prove};

use crate::options::SEEDS;
use crate::progress::Progress;
pub(crate) use cache::Cache;

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
pub(crate) fn prove_course(course: &Course, force: bool, words: &Words) -> Result<(), Faults> {
    let files: Vec<_> = course.recipes.iter().collect();
    let efforts = [Effort::QUICK, Effort::full(SEEDS)];
    prove_all(&files, &Proving { efforts: &efforts, cache: &Cache::new(force) }, words).map(drop)
}

/// Draws every recipe, or gives all that is wrong.
pub(crate) fn prove_all(files: &[&RecipeFile], proving: &Proving, words: &Words) -> Result<Vec<Report>, Faults> {
    let progress = Progress::new(words.get("command.progress.proving"));
    let count = AtomicUsize::new(0);
    let results = on_threads(files, 1, |file| {
        let result = proving.one(file);
        progress.done(count.fetch_add(1, Ordering::Relaxed) + 1, files.len());
        result.map_err(|found| file.proof_faults(&found))
    });
    drop(progress);
    proving.cache.tidy();
    all(results)
}

/// Every report, or every fault.
fn all(results: Vec<Result<Report, Faults>>) -> Result<Vec<Report>, Faults> {
    let mut faults = Faults::default();
    let mut failed = |found: Faults| {
        faults.list.extend(found.list);
        faults.sources.extend(found.sources);
    };
    let proven = results.into_iter().filter_map(|result| result.map_err(&mut failed).ok()).collect();
    if faults.list.is_empty() { Ok(proven) } else { Err(faults) }
}

impl Proving<'_> {
    /// What is remembered of a recipe, or found now. Only what passed is remembered: what failed is about to change.
    fn one(&self, file: &RecipeFile) -> Result<Report, Vec<problems::proof::ProofFault>> {
        let keys: Vec<_> = self.efforts.iter().map(|effort| cache::key(&file.compiled, *effort)).collect();
        if let Some(report) = keys.iter().find_map(|key| self.cache.get(key, &file.recipe.id)) {
            return Ok(report);
        }
        let report = prove(&file.recipe, self.efforts[0])?;
        self.cache.put(&keys[0], &report);
        Ok(report)
    }
}
