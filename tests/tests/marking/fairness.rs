//! Over many draws of every recipe of the course: what is right is right however it is written, what is wrong never is,
//! and every named mistake gets its own message.

use problems::Recipe;
use problems::display::Mark;
use problems::draw::{Answer, Problem, Setting, draw};
use problems::mark::{Verdict, mark};
use problems::recipe::{Ask, Form, Limit, NumberAsk, System, Tolerance};
use problems::seed::{FIRST_ATTEMPT, Seed};
use relief::{Quantity, units};
use seatwork_tests::top;

const SEEDS: u64 = 40;

fn each_number(then: impl Fn(&Problem, &Ask, &NumberAsk, Quantity)) {
    let words = pages::Words::of("en").expect("words");
    let course = course::read(&top().join("content"), &words).expect("the course is sound");
    for file in &course.recipes {
        for system in System::BOTH {
            for seed in 1..=SEEDS {
                let problem = drawn(&file.recipe, seed, system);
                for (ask, answer) in file.recipe.asks.iter().zip(&problem.answers) {
                    if let (Form::Number(number), Answer::Number(right)) = (&ask.form, answer) {
                        then(&problem, ask, number, *right);
                    }
                }
            }
        }
    }
}

fn drawn(recipe: &Recipe, seed: u64, system: System) -> Problem<'_> {
    let seed = Seed { text: seed.to_string(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
    draw(recipe, &seed, Setting { system, mark: Mark::Point }).expect("proven")
}

fn verdict(problem: &Problem, ask: &Ask, typed: &str) -> Verdict {
    mark(problem, &ask.id, typed).expect("part").verdict
}

#[test]
fn the_right_answer_is_right_in_every_unit_and_as_it_is_shown() {
    each_number(|problem, ask, number, right| {
        assert_eq!(verdict(problem, ask, &problem.text(&ask.id)), Verdict::Right, "{} as shown", ask.id);
        for unit in units::for_kind(number.kind) {
            let typed = format!("{} {}", unit.value(right), unit.symbol);
            assert_eq!(verdict(problem, ask, &typed), Verdict::Right, "{}: {typed}", ask.id);
        }
    });
}

#[test]
fn every_named_mistake_gets_its_own_message() {
    each_number(|problem, ask, number, right| {
        for mistake in &number.mistakes {
            let value = mistake.answer.quantity(&problem.scope).expect("proven");
            let unit = number.unit.of(problem.setting.system).0;
            let typed = match unit {
                Some(unit) => format!("{} {}", unit.value(Quantity::new(value.si, right.kind)), unit.symbol),
                None => value.si.to_string(),
            };
            let found = verdict(problem, ask, &typed);
            assert_eq!(found, Verdict::Mistake(mistake.name.clone()), "{} {}: {typed}", problem.recipe.id, ask.id);
        }
    });
}

/// The oracle here is separate from the marking: the tolerance is taken from the recipe and compared in plain numbers.
#[test]
fn nothing_outside_the_tolerance_is_ever_right() {
    each_number(|problem, ask, number, right| {
        let unit = number.unit.of(problem.setting.system).0;
        let value = unit.map_or(right.si, |unit| unit.value(right));
        let reach = match number.within.of(problem.setting.system) {
            Tolerance::Share(share) => share.to_f64() * value.abs(),
            Tolerance::Amount(amount) => amount.to_f64(),
        };
        for step in 1..=20 {
            let beyond = reach * (1.0 + 1e-6 + f64::from(step) * f64::from(step) * 0.1);
            for typed in [value + beyond, value - beyond] {
                let text = format!("{typed:.12} {}", unit.map_or("", |unit| unit.symbol));
                assert_ne!(verdict(problem, ask, &text), Verdict::Right, "{} {}: {text}", problem.recipe.id, ask.id);
            }
        }
        let Some(limit) = number.limit else { return };
        let towards = if limit == Limit::Upper { 1.0 } else { -1.0 };
        for step in 1..=10 {
            let typed = format!(
                "{:.12} {}",
                value + towards * reach * f64::from(step) / 10.0,
                unit.map_or("", |unit| unit.symbol)
            );
            assert_ne!(verdict(problem, ask, &typed), Verdict::Right, "unsafe: {typed}");
        }
    });
}
