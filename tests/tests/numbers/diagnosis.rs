//! Eight learners, each with one misconception, answer every number of every recipe to which it applies. Their wrong
//! answers are explained for what they are.
//!
//! The learners work each formula for themselves, in an evaluator of their own, and type what comes out with five
//! figures, so that no rounding of theirs hides what they did.

mod learners;

use std::collections::BTreeMap;

use learners::{LEARNERS, Learner, Work};
use problems::DecimalMark;
use problems::draw::{Problem, Setting, draw};
use problems::facts::NumberAt;
use problems::mark::{Verdict, mark};
use problems::number::Number;
use problems::recipe::System;
use problems::seed::{FIRST_ATTEMPT, Seed};
use relief::Quantity;
use seatwork_tests::top;

const SEEDS: u64 = 50;

/// Of the wrong answers of each learner and of all together, at least so many are named right.
const LEAST: f64 = 0.95;

#[derive(Default)]
struct Tally {
    wrong: usize,
    named: usize,
    rest: BTreeMap<String, usize>,
}

#[test]
fn a_misconception_is_named_for_what_it_is() {
    let mut tallies: BTreeMap<&str, Tally> = BTreeMap::new();
    let words = pages::Words::of("en").expect("words");
    let course = course::read(&top().join("content"), &words).expect("the course is sound");
    for file in &course.recipes {
        for system in System::BOTH {
            for seed in 1..=SEEDS {
                let seed = Seed { text: seed.to_string(), question: file.recipe.id.clone(), attempt: FIRST_ATTEMPT };
                let problem = draw(&file.recipe, &seed, Setting { system, mark: DecimalMark::Point }).expect("proven");
                for (at, right) in problem.numbers() {
                    for learner in &LEARNERS {
                        meet(&problem, &at, at.number, right, learner, tallies.entry(learner.name).or_default());
                    }
                }
            }
        }
    }
    let mut told = String::new();
    for (name, tally) in &tallies {
        told.push_str(&format!("{name}: {} of {} named\n", tally.named, tally.wrong));
        for (place, count) in &tally.rest {
            told.push_str(&format!("    {count:4} {place}\n"));
        }
    }
    println!("{told}");
    let (named, wrong) =
        tallies.values().fold((0, 0), |(named, wrong), tally| (named + tally.named, wrong + tally.wrong));
    assert!(share(named, wrong) >= LEAST, "{named} of {wrong} named\n{told}");
    for (name, tally) in &tallies {
        assert!(tally.wrong > 0, "{name} meets nothing");
        assert!(share(tally.named, tally.wrong) >= LEAST, "{name}\n{told}");
    }
}

fn share(part: usize, whole: usize) -> f64 {
    let number = |count: usize| f64::from(u32::try_from(count).expect("few"));
    number(part) / number(whole)
}

/// A number with so many significant figures, zeros at the end too.
fn with_figures(value: f64, figures: i32) -> String {
    let first = if value == 0.0 { 0.0 } else { libm::floor(libm::log10(value.abs())) };
    #[expect(clippy::cast_possible_truncation, reason = "a power of ten")]
    let places = usize::try_from((figures - 1 - first as i32).max(0)).expect("not below zero");
    format!("{value:.places$}")
}

/// Lets a learner answer, and notes whether the answer was explained right where it was wrong.
fn meet(problem: &Problem, ask: &NumberAt, number: &Number, right: Quantity, learner: &Learner, tally: &mut Tally) {
    let unit = number.unit.of(problem.facts.setting.system).0;
    let work = Work { problem, number, right, unit };
    for own in (learner.answers)(&work).into_iter().filter(|own| own.is_finite()) {
        let typed = format!("{} {}", with_figures(own, 5), unit.map_or("", |unit| unit.symbol));
        let marked = mark(problem, ask.id, &typed).expect("part");
        // A misconception that changes nothing here is not a mistake; where it only changes the unit or the rounding,
        // that is what is to be told.
        if matches!(marked.verdict, Verdict::Right | Verdict::WrongUnit | Verdict::Rounding) {
            continue;
        }
        tally.wrong += 1;
        let named = match &marked.verdict {
            Verdict::Slip(slip) => learner.slips.contains(&slip.id()),
            // The author's own words for this very number.
            Verdict::Mistake(name) => {
                let mistake = number.mistakes.iter().find(|mistake| mistake.name == *name).expect("named");
                let value = mistake.answer.quantity(&problem.facts.scope).expect("proven");
                let value = unit.map_or(value.si, |unit| unit.value(Quantity::new(value.si, right.kind)));
                (value - own).abs() <= 1e-3 * own.abs()
            }
            _ => false,
        };
        if named {
            tally.named += 1;
        } else {
            let found = match &marked.verdict {
                Verdict::Slip(slip) => slip.id().to_owned(),
                Verdict::Mistake(name) => format!("mistake {name}"),
                other => other.id().to_owned(),
            };
            *tally.rest.entry(format!("{} {}: {found}", problem.recipe.id, ask.id)).or_default() += 1;
        }
    }
}
