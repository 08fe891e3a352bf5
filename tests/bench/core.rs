//! How fast the core draws and marks, and what the registry adds to a bare law.
//!
//! By hand: `cargo bench -p seatwork-tests --bench core`. What is told is the median of some rounds in turn, as a ratio
//! where two ways lead to the same.

use std::hint::black_box;
use std::time::Instant;

use pages::Words;
use problems::Recipe;
use problems::display::Mark;
use problems::draw::{Setting, draw};
use problems::mark::{Verdict, mark};
use problems::recipe::System;
use problems::seed::{FIRST_ATTEMPT, Seed};
use relief::relations::spring::full_open_pressure;
use relief::{Area, Argument, Gauge, Length, SpringRate, Typed};

const ROUNDS: usize = 15;
const DRAWS: u32 = 2_000;
const CALLS: u32 = 200_000;

fn main() {
    let words = Words::of("en").expect("words");
    let course = course::read(&seatwork_tests::top().join("content"), &words).expect("the course");
    let recipe = course.recipes.iter().find(|file| file.recipe.id == "spring_rate_for_rise").expect("the recipe");
    let [drawn, marked] = in_turn([&|| draw_all(&recipe.recipe, false), &|| draw_all(&recipe.recipe, true)], DRAWS);
    println!("a problem drawn: {:.0} a second; drawn and marked: {:.0} a second", 1e9 / drawn, 1e9 / marked);
    println!("  with marking {:.2} of without", marked / drawn);
    let [bare, ordered, named, found] = in_turn([&bare, &ordered, &named, &found], CALLS);
    println!("a relation worked ({bare:.1} ns as a bare law):");
    println!("  in the order of its inputs, ranges and kinds checked {:.1} of bare", ordered / bare);
    println!("  by the names of its inputs {:.1} of bare, found by its own name too {:.1}", named / bare, found / bare);
}

/// The median nanoseconds of one of `times`, for each of some ways, run in turn.
fn in_turn<const N: usize>(ways: [&dyn Fn(); N], times: u32) -> [f64; N] {
    let mut all = [(); N].map(|()| Vec::new());
    for _ in 0..ROUNDS {
        for (way, taken) in ways.iter().zip(&mut all) {
            let start = Instant::now();
            way();
            taken.push(start.elapsed().as_secs_f64() * 1e9 / f64::from(times));
        }
    }
    all.map(|mut taken| {
        taken.sort_by(f64::total_cmp);
        taken[ROUNDS / 2]
    })
}

/// Draws a number problem from one seed after the other, and marks its right answer.
fn draw_all(recipe: &Recipe, and_mark: bool) {
    let setting = Setting { system: System::Us, mark: Mark::Point };
    for seed in 0..DRAWS {
        let seed = Seed { text: seed.to_string(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
        let problem = draw(recipe, &seed, setting).expect("a problem");
        if and_mark {
            let marked = mark(&problem, "rate", &problem.text("rate")).expect("a part");
            assert_eq!(marked.verdict, Verdict::Right);
        }
        black_box(&problem);
    }
}

/// The inputs of the law that is worked: different ones each time.
fn inputs(call: u32) -> (Gauge, Area, SpringRate, Length) {
    let opening = Gauge::from_si(5e5 + f64::from(call));
    (opening, Area::from_si(1.14e-3), SpringRate::from_si(4.6e4), Length::from_si(2.5e-3))
}

fn bare() {
    for call in 0..CALLS {
        let (opening, area, rate, full_lift) = black_box(inputs(call));
        black_box(full_open_pressure(opening, area, rate, full_lift));
    }
}

fn arguments(call: u32) -> [Argument; 4] {
    let (opening, area, rate, full_lift) = black_box(inputs(call));
    [opening.quantity(), area.quantity(), rate.quantity(), full_lift.quantity()].map(Argument::Quantity)
}

fn ordered() {
    let relation = relief::find("full_open_pressure").expect("the relation");
    for call in 0..CALLS {
        black_box(relation.evaluate_ordered(&arguments(call)).expect("a value"));
    }
}

fn work_named(relation: &relief::Relation, call: u32) {
    let [opening, area, rate, full_lift] = arguments(call);
    let given = [("opening", opening), ("area", area), ("rate", rate), ("full_lift", full_lift)];
    black_box(relation.evaluate(&given).expect("a value"));
}

fn named() {
    let relation = relief::find("full_open_pressure").expect("the relation");
    (0..CALLS).for_each(|call| work_named(relation, call));
}

fn found() {
    (0..CALLS).for_each(|call| work_named(relief::find(black_box("full_open_pressure")).expect("the relation"), call));
}
