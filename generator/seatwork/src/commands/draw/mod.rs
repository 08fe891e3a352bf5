//! `draw`: the problem that a seed gives, as it stands in the page.

use course::{Course, RecipeFile};
use pages::Words;
use problems::Recipe;
use problems::display::Mark;
use problems::draw::{Problem, Setting, draw};
use problems::seed::{FIRST_ATTEMPT, Seed};
use problems::view::{FigureView, FormView, OptionView, PartView, ProblemView, RoundView};

use crate::options::DrawOptions;
use crate::plain::plain;
use crate::status::{End, Ended, Status};
use crate::{faults, samples};

pub(crate) fn run(options: &DrawOptions, words: &Words) -> Ended {
    let course = faults::read_course(&options.course.course, words)?;
    let recipe = &find(&course, &options.recipe, words)?.recipe;
    match (options.samples, &options.seed) {
        (Some(count), _) => samples::run(&course, recipe, count, options, words),
        (None, Some(seed)) => one(&course, recipe, seed, options, words),
        // The options ask for one of the two.
        (None, None) => Ok(Status::WrongUse),
    }
}

fn one(course: &Course, recipe: &Recipe, seed: &str, options: &DrawOptions, words: &Words) -> Ended {
    let mark = Mark::of(course.decimal_mark);
    let setting = Setting { system: options.units.map_or(course.units, Into::into), mark };
    let seed = Seed { text: seed.to_owned(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
    let problem = draw(recipe, &seed, setting)
        .map_err(|error| End::new(Status::Faults, words.get(&format!("command.draw.{}", error.id()))))?;
    if options.json {
        crate::say!("{}", as_json(&problem, options.answers));
    } else {
        print(&problem, options.answers, words);
    }
    Ok(Status::Done)
}

/// The recipe of a course with an id, or with a title as it stands on a printed sheet.
pub(crate) fn find<'c>(course: &'c Course, id: &str, words: &Words) -> Result<&'c RecipeFile, End> {
    let by_id = course.recipes.iter().find(|file| file.recipe.id == id);
    let by_title = || course.recipes.iter().find(|file| file.recipe.title.eq_ignore_ascii_case(id));
    by_id.or_else(by_title).ok_or_else(|| {
        let known: Vec<_> = course.recipes.iter().map(|file| file.recipe.id.as_str()).collect();
        End::new(Status::WrongUse, words.fill("command.unknown_recipe", &[("found", id), ("known", &known.join(", "))]))
    })
}

/// The problem as data; the statement as text, and as the HTML of the page beside it.
fn as_json(problem: &Problem, answers: bool) -> serde_json::Value {
    let mut view = problem.view(answers);
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

fn print(problem: &Problem, answers: bool, words: &Words) {
    let view = problem.view(answers);
    crate::say!("{}\n\n{}\n", problem.recipe.title, plain(&view.statement));
    for part in &view.parts {
        print_part(part, words);
    }
    print_answers(&view, words);
    if answers {
        crate::say!("\n{}", plain(&problem.solution().working));
    }
}

fn print_part(part: &PartView, words: &Words) {
    let label = &part.label;
    match &part.form {
        FormView::Number { unit, round, limit, figure, .. } => {
            let unit = unit.as_deref().map(|unit| words.fill("pages.practice.in_unit", &[("unit", unit)]));
            let asked: Vec<_> = unit.into_iter().chain(round.as_ref().map(|round| rounded(round, words))).collect();
            crate::say!("{label} {}", asked.join(", "));
            if let Some(limit) = limit {
                crate::say!("{}", words.get(&format!("live.round.limit_{limit}")));
            }
            figure.iter().for_each(print_rows);
        }
        FormView::OneOf { options } | FormView::SeveralOf { options } => print_list(label, options),
        FormView::InOrder { items } => print_list(label, items),
        FormView::Match { items, partners } => {
            print_list(label, items);
            print_list(words.get("command.draw.partners"), partners);
        }
        FormView::PointAt { options, .. } => {
            crate::say!("{label}");
            options.iter().for_each(|option| crate::say!("  {:2} {}", option.number, plain(&option.html)));
        }
        FormView::TrueOrFalse { statement, reasons } => {
            crate::say!("{label} {}", plain(statement));
            print_list(words.get("command.draw.reasons"), reasons);
        }
    }
}

/// How a number is to be rounded, in words.
fn rounded(round: &RoundView, words: &Words) -> String {
    let figures = |figures: u8| words.fill("command.draw.figures", &[("figures", &figures.to_string())]);
    let to = round.figures.map(figures).or_else(|| round.to.clone()).unwrap_or_default();
    let key = match round.side {
        "up" => "command.draw.round_up",
        "down" => "command.draw.round_down",
        "safe" => "command.draw.round_safe",
        _ => "command.draw.round_nearest",
    };
    words.fill(key, &[("to", &to)])
}

/// A figure as the list of what it shows, in columns as wide as their heads.
fn print_rows(figure: &FigureView) {
    let cell = |(head, text): (&String, &String)| format!("{text:>width$}", width = head.chars().count());
    for row in [&figure.heads].into_iter().chain(&figure.rows).filter(|row| !row.is_empty()) {
        crate::say!("  {}", figure.heads.iter().zip(row).map(cell).collect::<Vec<_>>().join("  "));
    }
}

fn print_list(label: &str, options: &[OptionView]) {
    crate::say!("{label}");
    options.iter().for_each(|option| crate::say!("  - {}", plain(&option.html)));
}

fn print_answers(view: &ProblemView, words: &Words) {
    for answer in view.answers.iter().flatten() {
        let colon = if answer.label.ends_with('?') { "" } else { ":" };
        let shown = plain(&answer.shown).replace('\n', "; ");
        crate::say!("\n{}. {}{colon} {shown}", words.get("command.answer"), answer.label);
    }
}
