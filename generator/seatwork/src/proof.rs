//! `proof`: checks everything, writes nothing.

use std::path::Path;
use std::sync::atomic::{AtomicUsize, Ordering};

use course::{Course, Faults, on_threads};
use pages::Words;
use problems::proof::{Spread, prove};
use serde_json::json;

use crate::faults;
use crate::options::ProofOptions;
use crate::progress::Progress;
use crate::status::{End, Ended, Status};

/// What proof found of each recipe.
type Proven<'c> = Vec<(&'c str, Vec<Spread>)>;

pub(crate) fn run(options: &ProofOptions, words: &Words) -> Ended {
    let dir = &options.course.course;
    let course = faults::read_course(dir, words)?;
    let proven = prove_all(&course, dir, options.seeds, words)?;
    if options.json {
        println!("{}", as_json(&proven));
        return Ok(Status::Done);
    }
    for (id, spreads) in &proven {
        println!("{id}");
        for spread in spreads {
            println!("  {}", describe(spread, words));
        }
    }
    println!("{}", words.fill("command.proven", &[("count", &proven.len().to_string())]));
    Ok(Status::Done)
}

/// Draws every recipe over so many seeds, or ends with all that is wrong.
pub(crate) fn prove_all<'c>(course: &'c Course, dir: &Path, seeds: u64, words: &Words) -> Result<Proven<'c>, End> {
    let (mut proven, mut faults) = (Vec::new(), Faults::default());
    let progress = Progress::new(course.recipes.len());
    let count = AtomicUsize::new(0);
    let results = on_threads(&course.recipes, 1, |file| {
        let result = prove(&file.recipe, 1..=seeds);
        progress.done(count.fetch_add(1, Ordering::Relaxed) + 1);
        result
    });
    for (file, result) in course.recipes.iter().zip(results) {
        match result {
            Ok(spreads) => proven.push((file.recipe.id.as_str(), spreads)),
            Err(found) => {
                let found = file.proof_faults(&found);
                faults.list.extend(found.list);
                faults.sources.extend(found.sources);
            }
        }
    }
    progress.end();
    if faults.list.is_empty() { Ok(proven) } else { Err(faults::end(dir, &faults, words)) }
}

fn describe(spread: &Spread, words: &Words) -> String {
    let (draws, distinct) = (spread.draws.to_string(), spread.distinct.to_string());
    let mut line = words.fill(
        "command.spread",
        &[
            ("units", words.get(&format!("live.units.{}", spread.system.id()))),
            ("draws", &draws),
            ("distinct", &distinct),
        ],
    );
    for (id, least, greatest) in &spread.answers {
        let shown = |value: f64| relief::shown(value, 4, relief::Rounding::Nearest);
        line.push_str(&format!("; {id} {} .. {}", shown(*least), shown(*greatest)));
    }
    line
}

fn as_json(proven: &Proven) -> serde_json::Value {
    let spread = |spread: &Spread| {
        let answers: Vec<_> = (spread.answers.iter())
            .map(|(id, least, greatest)| json!({ "part": id, "least": least, "greatest": greatest }))
            .collect();
        json!({ "units": spread.system.id(), "draws": spread.draws, "distinct": spread.distinct, "answers": answers })
    };
    proven
        .iter()
        .map(|(id, spreads)| json!({ "recipe": id, "systems": spreads.iter().map(spread).collect::<Vec<_>>() }))
        .collect()
}
