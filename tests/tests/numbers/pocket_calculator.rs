//! Worked with a pocket calculator: for every recipe of the course that ends in a size, a limit or a flow there is a
//! calculation of its own here, written from the printed form and its constants, and it shares nothing with the core but
//! what the question gives. Whoever works so in a sound manner is right; whoever is careless never is.
//!
//! `SEATWORK_DRAWS` says how many problems of each recipe are worked in each system of units.

mod calculator;
mod careless;
mod code_limits;
mod examples;
mod laws;
mod rounding;
mod sizes;
mod sound;
mod springs;
mod tally;
mod units;

use course::{Course, RecipeFile};
use problems::DecimalMark;
use problems::draw::{Problem, Setting, draw};
use problems::number::Number;
use problems::recipe::{Recipe, System};
use problems::seed::{FIRST_ATTEMPT, Seed};
use seatwork_tests::top;

use calculator::{Calculation, Manner, work};
use sound::Sheet;
use tally::Tally;

/// How many problems of each recipe are worked in each system, where `SEATWORK_DRAWS` does not say.
const DRAWS: u64 = 100;

/// At most this share of the careless answers may be left out, in percent.
const MOST_LEFT_OUT: u32 = 5;

/// A recipe that names one of these relations ends in a size, a limit or a flow, or is drawn around one.
const RELATIONS: [&str; 22] = [
    "liquid_area",
    "liquid_area_uncertified",
    "liquid_capacity",
    "liquid_reynolds",
    "viscosity_factor",
    "gas_area",
    "subcritical_gas_area",
    "steam_area",
    "napier_factor",
    "gas_coefficient",
    "allowed_accumulation_over_mawp",
    "set_tolerance",
    "blowdown_limit",
    "water_leak_limit",
    "bubble_limit",
    "maximum_set",
    "orifice_flow",
    "thermal_expansion_flow",
    "accumulation_over_mawp",
    "opening_accumulation",
    "blowdown",
    "blowdown_percent",
];

fn read_course() -> Course {
    let words = pages::Words::of("en").expect("words");
    course::read(&top().join("content"), &words).expect("the course is sound")
}

fn draws() -> u64 {
    let wanted = std::env::var("SEATWORK_DRAWS").ok();
    wanted.map_or(DRAWS, |wanted| wanted.parse().expect("SEATWORK_DRAWS is a number"))
}

fn drawn(recipe: &Recipe, seed: u64, system: System) -> Problem<'_> {
    let seed = Seed { text: seed.to_string(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
    draw(recipe, &seed, Setting { system, mark: DecimalMark::Point }).expect("proven")
}

/// The calculations that are here, by recipe.
fn calculations() -> impl Iterator<Item = (&'static str, Calculation)> {
    sizes::ALL.into_iter().chain(code_limits::ALL).chain(springs::ALL)
}

fn calculation(recipe: &Recipe) -> Option<Calculation> {
    calculations().find(|(id, _)| *id == recipe.id).map(|(_, calculation)| calculation)
}

fn numbers(recipe: &Recipe) -> impl Iterator<Item = (&str, &Number)> {
    recipe.numbers().map(|at| (at.id, at.number))
}

/// Whether a recipe asks for a number that ends in a size, a limit or a flow. Its stored form holds the id of every
/// relation that it names, wherever it does.
fn needs_calculation(recipe: &Recipe) -> bool {
    let stored = recipe.write();
    let names_one = || RELATIONS.iter().any(|relation| stored.contains(&format!("\"{relation}\"")));
    let is_rounded = numbers(recipe).any(|(_, number)| number.limit.is_some() || number.round.is_some());
    is_rounded || numbers(recipe).next().is_some() && names_one()
}

/// Tries every problem that has a calculation, recipe by recipe on all threads.
fn each_sheet(course: &Course, attempt: impl Fn(&Sheet, &mut Tally) + Sync) -> Tally {
    let draws = draws();
    let of_recipe = |file: &RecipeFile| {
        let mut tally = Tally::default();
        let Some(calculation) = calculation(&file.recipe) else { return tally };
        for system in System::BOTH {
            for seed in 1..=draws {
                let problem = drawn(&file.recipe, seed, system);
                attempt(&Sheet { problem: &problem, calculation, seed }, &mut tally);
            }
        }
        tally
    };
    Tally::together(course::on_threads(&course.recipes, 1, of_recipe))
}

#[test]
fn every_recipe_that_ends_in_a_size_a_limit_or_a_flow_is_worked_here() {
    let course = read_course();
    let recipes = || course.recipes.iter().map(|file| &file.recipe);
    let missing: Vec<_> = recipes()
        .filter(|recipe| needs_calculation(recipe) && calculation(recipe).is_none())
        .map(|recipe| &recipe.id)
        .collect();
    assert!(missing.is_empty(), "write a calculation in tests/tests/numbers/pocket_calculator for: {missing:?}");
    for (id, calculation) in calculations() {
        let recipe = recipes().find(|recipe| recipe.id == id).unwrap_or_else(|| panic!("no recipe is called {id}"));
        // Several, since a number may not have been measured on one of them.
        for seed in 1..=8 {
            let problem = drawn(recipe, seed, System::Us);
            let worked = work(&problem, calculation, System::Us, Manner::Unrounded);
            let answered = worked.iter().map(|one| one.part.as_str());
            assert!(answered.eq(problem.numbers().map(|(at, _)| at.id)), "{id}: not every number is worked");
        }
    }
}

#[test]
fn sound_work_is_right_in_every_manner() {
    let tally = each_sheet(&read_course(), |sheet, tally| sheet.try_all(tally));
    let failures = tally.failures();
    println!("{} sound answers", tally.tried());
    assert!(failures.is_empty(), "of {} sound answers, not right:\n{}", tally.tried(), failures.join("\n"));
}

#[test]
fn careless_work_is_never_right() {
    let tally = each_sheet(&read_course(), |sheet, tally| sheet.try_carelessly(tally));
    let (tried, left_out) = (tally.tried(), tally.left_out());
    let counts = format!("{tried} careless answers, and {left_out} left out that some sound way gives, too");
    println!("{counts}");
    let failures = tally.failures();
    assert!(failures.is_empty(), "{counts}; right and yet careless:\n{}", failures.join("\n"));
    let few = left_out * 100 <= (tried + left_out) * MOST_LEFT_OUT;
    assert!(few, "{counts}, which is more than {MOST_LEFT_OUT} %:\n{}", tally.omissions().join("\n"));
}
