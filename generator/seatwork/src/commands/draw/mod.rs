//! `draw`: the problem that a seed gives, as the page has it, or a page of samples.

mod samples;
mod text;

use course::Course;
use pages::Words;
use problems::DecimalMark;
use problems::Recipe;
use problems::draw::{Problem, Setting, draw};
use problems::seed::{FIRST_ATTEMPT, Seed};

use crate::fault_report;
use crate::find_recipe::find_recipe;
use crate::options::DrawOptions;
use crate::out::say;
use crate::plain::plain;
use crate::status::{End, Ended, Status};

pub(crate) fn run(options: &DrawOptions, words: &Words) -> Ended {
    let (folder, recipe) = options.folder_and_recipe(words)?;
    let course = fault_report::read_course(&folder, words)?;
    let recipe = &find_recipe(&course, &recipe, words)?.recipe;
    match (options.samples, &options.seed) {
        (Some(count), _) => samples::run((&folder, &course), recipe, count, options, words),
        (None, Some(seed)) => one(&course, recipe, seed, options, words),
        // The options ask for one of the two.
        (None, None) => Ok(Status::WrongUse),
    }
}

fn one(course: &Course, recipe: &Recipe, seed: &str, options: &DrawOptions, words: &Words) -> Ended {
    let mark = DecimalMark::of(course.decimal_mark);
    let setting = Setting { system: options.units.map_or(course.units, Into::into), mark };
    let seed = Seed { text: seed.to_owned(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
    let problem = draw(recipe, &seed, setting)
        .map_err(|error| End::new(Status::Faults, words.get(&format!("command.draw.{}", error.id()))))?;
    if options.json {
        say!("{}", as_json(&problem, options.answers));
    } else {
        text::print(&problem, options.answers, words);
    }
    Ok(Status::Done)
}

/// The problem as data; the statement as text, and as the HTML of the page beside it.
fn as_json(problem: &Problem, answers: bool) -> serde_json::Value {
    let mut view = problem.view(answers, "");
    let html = std::mem::take(&mut view.statement);
    view.statement = plain(&html);
    let mut json = serde_json::to_value(&view).unwrap_or_default();
    json["statement_html"] = html.into();
    for given in json["givens"].as_array_mut().into_iter().flatten() {
        let number = given["value"].as_str().and_then(|text| relief::Exact::parse(text).ok());
        if let Some((value, _)) = number {
            given["value"] = value.to_f64().into();
        }
    }
    json
}
