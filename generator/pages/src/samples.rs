//! A page of sample problems for the instructor who writes a recipe: one file that needs no other.

use course::Course;
use problems::DecimalMark;
use problems::draw::{Setting, draw};
use problems::review::PartReview;
use problems::seed::{FIRST_ATTEMPT, Seed};
use problems::view::{AnswerView, GivenView, PartView};
use problems::{Recipe, System};
use serde::Serialize;
use tera::Context;

use crate::alone::{styles, with_pictures, within_itself};
use crate::render::RenderError;
use crate::theme;
use crate::words::Words;

/// What a page of samples begins with, so that no other file is ever written over.
pub const SAMPLES_MARK: &str = "<!-- seatwork samples: for the instructor, not for learners -->";

/// What only this page needs.
const STYLE: &str = include_str!("../../../theme/styles/samples.css");

/// A drawn problem with its answers, its working and its mistakes.
#[derive(Serialize)]
struct Sample {
    seed: u64,
    statement_html: String,
    givens: Vec<GivenView>,
    parts: Vec<PartContext>,
    start_html: Option<String>,
    working_html: String,
}

#[derive(Serialize)]
struct PartContext {
    view: PartView,
    answer: AnswerView,
    review: PartReview,
}

/// The words of the page.
#[derive(Serialize)]
struct Say<'w> {
    title: String,
    for_instructor: &'w str,
    about: String,
    at_a_glance: &'w str,
    seed: &'w str,
    answer: &'w str,
    also_right: &'w str,
    start: &'w str,
    working: &'w str,
    mistake: &'w str,
    comes_out_as: &'w str,
    told: &'w str,
    unsafe_side: &'w str,
    unsafe_choice: &'w str,
    no_value: &'w str,
    option: &'w str,
    right: &'w str,
    wrong: &'w str,
    none_named: &'w str,
}

/// A page with problems drawn from a recipe for the seeds from 1 on, with their answers, workings, and what every
/// mistake comes out as and what is said of it.
///
/// # Errors
/// [`RenderError::Draw`], or [`RenderError::Template`].
pub fn samples(
    course: &Course,
    recipe: &Recipe,
    words: &Words,
    system: System,
    count: u64,
) -> Result<String, RenderError> {
    let setting = Setting { system, mark: DecimalMark::of(course.decimal_mark) };
    let drawn = (1..=count).map(|seed| sample(recipe, seed, setting)).collect::<Result<Vec<_>, _>>()?;
    let mut context = Context::new();
    context.insert("mark", SAMPLES_MARK);
    context.insert("styles", &(styles() + STYLE));
    context.insert("say", &say(recipe, words, system, count));
    context.insert("recipe", &recipe.id);
    context.insert("samples", &drawn);
    Ok(with_pictures(course, within_itself(&theme::templates()?.render("samples.html", &context)?)))
}

fn sample(recipe: &Recipe, seed: u64, setting: Setting) -> Result<Sample, RenderError> {
    let drawn = Seed { text: seed.to_string(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
    let problem = draw(recipe, &drawn, setting)
        .map_err(|error| RenderError::Draw { recipe: recipe.id.clone(), error: error.into() })?;
    let (view, solution) = (problem.view(false, &format!("seed-{seed}")), problem.solution());
    let parts = view.parts.into_iter().zip(solution.answers).zip(problem.review());
    Ok(Sample {
        seed,
        statement_html: view.statement,
        givens: view.givens,
        parts: parts.map(|((view, answer), review)| PartContext { view, answer, review }).collect(),
        start_html: solution.start,
        working_html: solution.working,
    })
}

fn say<'w>(recipe: &Recipe, words: &'w Words, system: System, count: u64) -> Say<'w> {
    let units = words.get(&format!("live.units.{}", system.id())).to_owned();
    let values =
        [("title", recipe.title.as_str()), ("recipe", &recipe.id), ("units", &units), ("count", &count.to_string())];
    Say {
        title: words.fill("command.samples.title", &values),
        for_instructor: words.get("command.samples.for_instructor"),
        about: words.fill("command.samples.about", &values),
        at_a_glance: words.get("command.samples.at_a_glance"),
        seed: words.get("command.samples.seed"),
        answer: words.get("command.samples.answer"),
        also_right: words.get("command.samples.also_right"),
        start: words.get("command.samples.start"),
        working: words.get("command.samples.working"),
        mistake: words.get("command.samples.mistake"),
        comes_out_as: words.get("command.samples.comes_out_as"),
        told: words.get("command.samples.told"),
        unsafe_side: words.get("command.samples.unsafe_side"),
        unsafe_choice: words.get("command.samples.unsafe_choice"),
        no_value: words.get("command.samples.no_value"),
        option: words.get("command.samples.option"),
        right: words.get("command.samples.right"),
        wrong: words.get("command.samples.wrong"),
        none_named: words.get("command.samples.none_named"),
    }
}
