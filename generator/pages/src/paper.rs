//! A sheet of problems on paper, and its key: two files that need no other, so that the key is not handed out by accident.

use course::Course;
use problems::DecimalMark;
use problems::draw::{Problem, Setting, draw};
use problems::review::PartReview;
use problems::seed::{FIRST_ATTEMPT, Seed};
use problems::view::{AnswerView, GivenView, PartView};
use problems::{Recipe, System};
use serde::Serialize;
use tera::{Context, Tera};

use crate::alone::{css_text, styles, with_pictures, within_itself};
use crate::render::{CourseContext, RenderError, revision};
use crate::theme;
use crate::words::Words;

/// What a sheet and its key begin with, so that no other file is ever written over.
pub const PAPER_MARK: &str = "<!-- seatwork sheet: problems on paper, or the key to them -->";

/// What only these pages need.
const STYLE: &str = include_str!("../../../theme/styles/paper.css");

/// The template of the key.
const KEY: &str = "paper-key.html";

/// A problem of a sheet: the recipe, and the number that it is drawn with.
#[derive(Clone, Debug)]
pub struct Numbered<'c> {
    /// The recipe.
    pub recipe: &'c Recipe,
    /// The number of the problem.
    pub number: String,
}

/// What all problems of a sheet share.
#[derive(Clone, Copy, Debug)]
pub struct Paper<'p> {
    /// What is written at its head; the usual words where there is nothing.
    pub title: Option<&'p str>,
    /// The system of units.
    pub system: System,
}

/// A problem, as both files have it.
#[derive(Serialize)]
struct OnPaper<'c> {
    title: &'c str,
    number: &'c str,
    statement_html: String,
    givens: Vec<GivenView>,
    parts: Vec<PartView>,
    answers: Vec<AnswerView>,
    reviews: Vec<PartReview>,
    working_html: String,
    /// Whether something is worked out, for which the paper leaves room.
    is_worked: bool,
}

/// A sheet of problems and its key, as HTML.
///
/// # Errors
/// [`RenderError::Draw`], or [`RenderError::Template`].
pub fn paper(course: &Course, problems: &[Numbered], words: &Words, paper: Paper) -> Result<[String; 2], RenderError> {
    let setting = Setting { system: paper.system, mark: DecimalMark::of(course.decimal_mark) };
    let drawn = problems.iter().enumerate().map(|(place, problem)| on_paper(place, problem, setting));
    let drawn = drawn.collect::<Result<Vec<_>, _>>()?;
    let tera = theme::templates()?;
    let sheet = render(&tera, course, &drawn, words, paper, &numbers(problems, paper.system), "paper.html")?;
    let key = render(&tera, course, &drawn, words, paper, &numbers(problems, paper.system), KEY)?;
    Ok([sheet, key])
}

/// The numbers of problems as a line that can be typed: `spring_rate_for_rise 48213 · seat_force 10001 · us`.
#[must_use]
pub fn numbers(problems: &[Numbered], system: System) -> String {
    let each = problems.iter().map(|problem| format!("{} {}", problem.recipe.id, problem.number));
    each.chain([system.id().to_owned()]).collect::<Vec<_>>().join(" · ")
}

fn on_paper<'c>(place: usize, problem: &'c Numbered, setting: Setting) -> Result<OnPaper<'c>, RenderError> {
    let recipe = problem.recipe;
    let seed = Seed { text: problem.number.clone(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
    let drawn: Problem = draw(recipe, &seed, setting)
        .map_err(|error| RenderError::Draw { recipe: recipe.id.clone(), error: error.into() })?;
    let (view, solution) = (drawn.view(false, &format!("problem-{}", place + 1)), drawn.solution());
    Ok(OnPaper {
        title: &recipe.title,
        number: &problem.number,
        statement_html: view.statement,
        givens: view.givens,
        parts: view.parts,
        answers: solution.answers,
        reviews: drawn.review(),
        working_html: solution.working,
        is_worked: recipe.numbers().next().is_some(),
    })
}

fn render(
    tera: &Tera,
    course: &Course,
    problems: &[OnPaper],
    words: &Words,
    paper: Paper,
    numbers: &str,
    template: &str,
) -> Result<String, RenderError> {
    let units = words.get(&format!("live.units.{}", paper.system.id())).to_owned();
    let title = paper.title.unwrap_or_else(|| words.get("pages.paper.title"));
    let revision = revision(course);
    let mut context = Context::new();
    context.insert("mark", PAPER_MARK);
    context.insert("styles", &(styles() + STYLE));
    context.insert("running", &[&course.title, title, &course.owner].map(css_text));
    context.insert("running_key", &css_text(words.get("pages.paper.for_instructor")));
    context.insert("is_key", &(template == KEY));
    context.insert("course", &CourseContext::new(course, words, &revision));
    context.insert("lang", &course.language);
    context.insert("words", words.section("pages"));
    context.insert("live", words.section("live"));
    context.insert("title", title);
    context.insert("units", &units);
    context.insert("numbers", numbers);
    context.insert("problems", problems);
    context.insert("sheet_of_its_own", &false);
    Ok(with_pictures(course, within_itself(&tera.render(template, &context)?)))
}
