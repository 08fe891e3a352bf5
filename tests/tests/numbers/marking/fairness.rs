//! Over many draws of every recipe of the course: what is right is right however it is written, what is wrong never is,
//! and every named mistake gets its own message.

use problems::DecimalMark;
use problems::Recipe;
use problems::draw::{Problem, Setting, draw};
use problems::facts::NumberAt;
use problems::mark::{Verdict, mark};
use problems::number::{Limit, Number, Tolerance};
use problems::recipe::System;
use problems::seed::{FIRST_ATTEMPT, Seed};
use relief::{Quantity, units};
use seatwork_tests::top;

const SEEDS: u64 = 200;
/// Values outside the tolerance that are tried for each number of each draw in each system: 10,000 for each number.
const OUTSIDE: u32 = 25;

/// What is tried of each number of each draw.
type Trial<'t> = dyn Fn(&Problem, u64, &NumberAt, &Number, Quantity) + Sync + 't;

fn each_number(then: &Trial) {
    let words = pages::Words::of("en").expect("words");
    let course = course::read(&top().join("content"), &words).expect("the course is sound");
    course::on_threads(&course.recipes, 1, |file| {
        for system in System::BOTH {
            for seed in 1..=SEEDS {
                let problem = drawn(&file.recipe, seed, system);
                for (at, right) in problem.numbers() {
                    then(&problem, seed, &at, at.number, right);
                }
            }
        }
    });
}

fn drawn(recipe: &Recipe, seed: u64, system: System) -> Problem<'_> {
    drawn_with(recipe, seed, system, DecimalMark::Point)
}

fn drawn_with(recipe: &Recipe, seed: u64, system: System, mark: DecimalMark) -> Problem<'_> {
    let seed = Seed { text: seed.to_string(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
    draw(recipe, &seed, Setting { system, mark }).expect("proven")
}

fn verdict(problem: &Problem, ask: &NumberAt, typed: &str) -> Verdict {
    mark(problem, ask.id, typed).expect("part").verdict
}

/// What is right to type: the answer itself, or rounded where that is asked for.
fn to_type(problem: &Problem, number: &Number, right: Quantity) -> Quantity {
    number.rounded(right, problem.facts.setting.system)
}

#[test]
fn the_right_answer_is_right_in_every_unit_and_as_it_is_shown() {
    each_number(&|problem, _, ask, number, right| {
        let place = || format!("{} {}", problem.recipe.id, ask.id);
        assert_eq!(verdict(problem, ask, &problem.text(ask.id)), Verdict::Right, "{} as shown", place());
        let right = to_type(problem, number, right);
        for unit in units::for_kind(number.kind) {
            let typed = format!("{} {}", unit.value(right), unit.symbol);
            assert_eq!(verdict(problem, ask, &typed), Verdict::Right, "{}: {typed}", place());
        }
    });
}

/// The same problem in a course with a decimal comma, its answer typed as it is shown there.
#[test]
fn the_right_answer_is_right_with_the_decimal_mark_of_the_course() {
    each_number(&|problem, seed, ask, _, _| {
        let other = drawn_with(problem.recipe, seed, problem.facts.setting.system, DecimalMark::Comma);
        let typed = other.text(ask.id);
        assert!(!typed.contains('.'), "{typed}");
        assert_eq!(verdict(&other, ask, &typed), Verdict::Right, "{} {}: {typed}", problem.recipe.id, ask.id);
    });
}

#[test]
fn every_named_mistake_gets_its_own_message() {
    each_number(&|problem, _, ask, number, right| {
        for mistake in &number.mistakes {
            let value = mistake.answer.quantity(&problem.facts.scope).expect("proven");
            let value = to_type(problem, number, Quantity::new(value.si, right.kind));
            let unit = number.unit.of(problem.facts.setting.system).0;
            let typed = match unit {
                Some(unit) => format!("{} {}", unit.value(value), unit.symbol),
                None => value.si.to_string(),
            };
            let found = verdict(problem, ask, &typed);
            assert_eq!(found, Verdict::Mistake(mistake.name.clone()), "{} {}: {typed}", problem.recipe.id, ask.id);
        }
    });
}

/// The oracle here is separate from the marking: the tolerance is taken from the recipe and compared in plain numbers.
/// Where an answer is rounded, what is farther than the tolerance from the rounded answer, and more than a whole step,
/// is outside for certain. So is what no printed form and no rounding between steps can come to.
#[test]
fn nothing_outside_the_tolerance_is_ever_right() {
    each_number(&|problem, seed, ask, number, right| {
        let unit = number.unit.of(problem.facts.setting.system).0;
        let in_unit = |value: Quantity| unit.map_or(value.si, |unit| unit.value(value));
        let symbol = unit.map_or("", |unit| unit.symbol);
        let (value, aim) = (in_unit(right), in_unit(to_type(problem, number, right)));
        let reach = match number.within.of(problem.facts.setting.system) {
            Tolerance::Share(share) => share.to_f64() * value.abs(),
            Tolerance::Amount(amount) => amount.to_f64(),
        };
        // What goes on from a rounded answer may go on from the number before rounding as well.
        let mut earlier = problem.facts.numbers.iter().take_while(|earlier| earlier.id != ask.id);
        if earlier.any(|earlier| earlier.number.round.is_some()) {
            return;
        }
        let left_open = LEFT_OPEN * value.abs();
        let reach = reach.max(left_open);
        let outside =
            number.grid(problem.facts.setting.system).map_or(reach, |grid| reach + grid.step(value) * (1.0 + 1e-6));
        let mut random = Random(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ ask.id.len() as u64);
        for _ in 0..OUTSIDE {
            // From just outside to a thousand times as far, to either side.
            let far = outside * (1.0 + 1e-6) * libm::pow(1000.0, random.share());
            let typed = if random.share() < 0.5 { aim - far } else { aim + far };
            let text = format!("{typed:.12} {symbol}");
            assert_ne!(verdict(problem, ask, &text), Verdict::Right, "{} {}: {text}", problem.recipe.id, ask.id);
        }
        let Some(limit) = number.limit else { return };
        let towards = if limit == Limit::Upper { 1.0 } else { -1.0 };
        for _ in 0..OUTSIDE {
            let typed = value + towards * (left_open + (reach + value.abs()) * libm::pow(10.0, -5.0 * random.share()));
            let text = format!("{typed:.12} {symbol}");
            assert_ne!(
                verdict(problem, ask, &text),
                Verdict::Right,
                "unsafe: {} {}: {text}",
                problem.recipe.id,
                ask.id
            );
        }
    });
}

/// How much of an answer printed forms and four figures on each line leave open, at most.
const LEFT_OPEN: f64 = 0.01;

/// SplitMix64: enough for picking values, and no part of the product.
struct Random(u64);

impl Random {
    #[expect(clippy::cast_precision_loss, reason = "53 bits fit")]
    fn share(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mixed = (self.0 ^ (self.0 >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        let mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((mixed ^ (mixed >> 31)) >> 11) as f64 / (1u64 << 53) as f64
    }
}
