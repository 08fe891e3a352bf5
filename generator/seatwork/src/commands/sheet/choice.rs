//! Which problems come on a sheet, from one number.

use course::Course;
use pages::{Numbered, Words};
use problems::draw::{Setting, draw};
use problems::seed::{FIRST_ATTEMPT, Seed};
use problems::{DecimalMark, Recipe, System};

use crate::find_recipe::find_recipe;
use crate::options::SheetOptions;
use crate::status::{End, Status};

/// How often another number is tried where a recipe gives a problem that is on the sheet already.
const TRIES: u32 = 20;

/// Chooses the problems: recipes take turns, and each time one comes it has another number.
pub(super) fn choose<'c>(
    course: &'c Course,
    options: &SheetOptions,
    seed: u64,
    system: System,
    words: &Words,
) -> Result<Vec<Numbered<'c>>, End> {
    let count = usize::from(options.problems);
    let pool = pool(course, options, words)?;
    let recipes = if options.recipes.is_empty() { some_of(pool, seed, count) } else { pool };
    let setting = Setting { system, mark: DecimalMark::of(course.decimal_mark) };
    let mut chosen: Vec<(Numbered, String)> = Vec::new();
    for recipe in recipes.iter().cycle().take(count) {
        chosen.push(next(recipe, seed, setting, &chosen));
    }
    Ok(chosen.into_iter().map(|(problem, _)| problem).collect())
}

/// The recipes that are named, or practise what is named; all where nothing is.
fn pool<'c>(course: &'c Course, options: &SheetOptions, words: &Words) -> Result<Vec<&'c Recipe>, End> {
    if !options.recipes.is_empty() {
        return options.recipes.iter().map(|id| Ok(&find_recipe(course, id, words)?.recipe)).collect();
    }
    options.objectives.iter().try_for_each(|id| known(course, id, words))?;
    let wanted = |recipe: &Recipe| {
        options.objectives.is_empty() || recipe.objectives.iter().any(|id| options.objectives.contains(id))
    };
    let pool: Vec<_> = course.recipes.iter().map(|file| &file.recipe).filter(|recipe| wanted(recipe)).collect();
    if pool.is_empty() {
        let found = options.objectives.join(", ");
        return Err(End::new(Status::WrongUse, words.fill("command.sheet.nothing", &[("found", &found)])));
    }
    Ok(pool)
}

fn known(course: &Course, id: &str, words: &Words) -> Result<(), End> {
    let all: Vec<_> =
        course.lessons.iter().flat_map(|lesson| &lesson.objectives).map(|objective| objective.id.as_str()).collect();
    if all.contains(&id) {
        return Ok(());
    }
    let values = [("found", id), ("known", &*all.join(", "))];
    Err(End::new(Status::WrongUse, words.fill("command.sheet.unknown_objective", &values)))
}

/// So many of the recipes, in the order of the course, where there are more.
fn some_of(pool: Vec<&Recipe>, seed: u64, count: usize) -> Vec<&Recipe> {
    if pool.len() <= count {
        return pool;
    }
    let sheet = Seed { text: seed.to_string(), question: String::new(), attempt: FIRST_ATTEMPT };
    let mut places: Vec<_> = sheet.order("recipes", pool.len()).into_iter().take(count).collect();
    places.sort_unstable();
    places.into_iter().filter_map(|place| pool.get(place).copied()).collect()
}

/// The next problem of a recipe, with what it says. What else is on the sheet moves its number only where it would ask the
/// same again.
fn next<'c>(recipe: &'c Recipe, seed: u64, setting: Setting, before: &[(Numbered, String)]) -> (Numbered<'c>, String) {
    let of_sheet = Seed { text: seed.to_string(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
    let nth = before.iter().filter(|(problem, _)| problem.recipe.id == recipe.id).count();
    let numbered = |try_: u32| {
        let number = of_sheet.problem_number(&format!("sheet {nth} {try_}")).to_string();
        let said = statement(recipe, &number, setting);
        (Numbered { recipe, number }, said)
    };
    let is_new = |said: &String| before.iter().all(|(_, other)| other != said);
    (0..TRIES).map(numbered).find(|(_, said)| is_new(said)).unwrap_or_else(|| numbered(0))
}

/// What a problem asks, to compare it with others.
fn statement(recipe: &Recipe, number: &str, setting: Setting) -> String {
    let seed = Seed { text: number.to_owned(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
    let given = |problem: &problems::draw::Problem| {
        problem.facts.givens.iter().map(|given| given.text.as_str()).collect::<Vec<_>>().join("; ")
    };
    draw(recipe, &seed, setting).map(|problem| format!("{}: {}", recipe.id, given(&problem))).unwrap_or_default()
}
