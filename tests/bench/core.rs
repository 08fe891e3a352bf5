//! How fast the core draws and marks, and what the registry adds to a bare law.
//!
//! By hand: `cargo bench -p seatwork-tests --bench core`. What is told is the median of some rounds in turn, as a ratio
//! where two ways lead to the same.

use std::hint::black_box;
use std::process::Command;
use std::time::Instant;

use pages::Words;
use problems::DecimalMark;
use problems::Recipe;
use problems::draw::{Setting, draw};
use problems::mark::{Verdict, mark};
use problems::recipe::System;
use problems::seed::{FIRST_ATTEMPT, Seed};
use relief::relations::liquid::liquid_area;
use relief::relations::spring::full_open_pressure;
use relief::{Area, Argument, Gauge, Length, Manner, Number, SpringRate, Typed, VolumeFlow};

/// The SI form, with nothing rounded between steps.
const SI: Manner = Manner::unrounded(System::Si);

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
    in_the_browser(&recipe.recipe);
    let [bare, ordered, named, found] = in_turn([&bare, &ordered, &named, &found], CALLS);
    println!("a relation worked ({bare:.1} ns as a bare law):");
    println!("  in the order of its inputs, ranges and kinds checked {:.1} of bare", ordered / bare);
    println!("  by the names of its inputs {:.1} of bare, found by its own name too {:.1}", named / bare, found / bare);
    sizes();
}

/// The same drawn and marked natively and by the built engine in Chromium, in turn.
fn in_the_browser(recipe: &Recipe) {
    let file = std::env::temp_dir().join("seatwork-bench-recipe.json");
    let native = || assert_eq!(problems::parity::draw_and_mark(black_box(recipe), "rate", DRAWS), DRAWS);
    let [before] = in_turn([&native], DRAWS);
    let wasm = std::fs::write(&file, recipe.write())
        .ok()
        .and_then(|()| in_wasm(["problem", &file.display().to_string(), "rate"], DRAWS));
    let [after] = in_turn([&native], DRAWS);
    match wasm {
        Some(wasm) => println!(
            "  in Chromium {:.0} a second, {:.2} of the native time before and {:.2} after",
            1e9 / wasm,
            wasm / before,
            wasm / after
        ),
        None => println!("  not measured in Chromium: there is no Chromium, or tests/browser has no packages"),
    }
}

/// A liquid valve sized a million times: the bare law, through the registry, and the registry in the built engine under
/// Node.
fn sizes() {
    const MILLION: u32 = 1_000_000;
    let relation = relief::find("liquid_area").expect("the relation");
    let given = size_arguments(relation);
    let registry = || drop(black_box(problems::parity::repeat("liquid_area", black_box(&given), MILLION)));
    let [bare, registry] = in_turn([&bare_size, &registry], MILLION);
    println!(
        "liquid_area a million times ({bare:.1} ns as a bare law): through the registry {:.1} of bare",
        registry / bare
    );
    match in_wasm(["relation", "liquid_area", &given], MILLION) {
        Some(wasm) => println!("  in wasm under Node {:.2} of native, both through the registry", wasm / registry),
        None => println!("  not measured in wasm: there is no node"),
    }
}

fn bare_size() {
    const MILLION: u32 = 1_000_000;
    let corrections = [0.65, 0.97, 1.0, 1.0].map(Number::from_si);
    for _ in 0..MILLION {
        let (flow, gravity) = black_box((VolumeFlow::from_si(0.1136), Number::from_si(0.9)));
        let (relieving, back) = black_box((Gauge::from_si(1.896e6), Gauge::from_si(3.45e5)));
        black_box(liquid_area(flow, gravity, relieving, back, black_box(&corrections), SI).ok());
    }
}

/// The same values as bits, in the order of the inputs.
fn size_arguments(relation: &relief::Relation) -> String {
    let value = |name: &str| match name {
        "flow" => 0.1136,
        "gravity" => 0.9,
        "relieving" => 1.896e6,
        "back" => 3.45e5,
        "kd" => 0.65,
        "kw" => 0.97,
        _ => 1.0,
    };
    let bits = |input: &relief::Input| format!("{:016x}", f64::to_bits(value(input.name)));
    relation.inputs.iter().map(bits).collect::<Vec<_>>().join(" ")
}

/// The median nanoseconds of one in the built engine.
fn in_wasm(what: [&str; 3], times: u32) -> Option<f64> {
    let top = seatwork_tests::top();
    let mut node = Command::new("node");
    node.arg(top.join("tests/bench/wasm.mjs")).arg(top.join("exercises/engine/prebuilt")).args(what);
    node.args([&times.to_string(), &ROUNDS.to_string()]);
    String::from_utf8(node.output().ok()?.stdout).ok()?.trim().parse().ok()
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
    let setting = Setting { system: System::Us, mark: DecimalMark::Point };
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
        black_box(relation.evaluate_ordered(&arguments(call), SI).expect("a value"));
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
