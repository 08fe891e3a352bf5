//! Every form beside a plain number, on a recipe whose answers are known.

use problems::DecimalMark;
use problems::Recipe;
use problems::draw::{Problem, Setting, draw};
use problems::mark::{Marked, MarkedAll, mark, mark_all};
use problems::recipe::System;
use problems::seed::{FIRST_ATTEMPT, Seed};
use problems::view::AnswerView;

use super::recipe::compiled_from;

const RECIPE: &str = r#"
format: 1
id: forms
title: Every form
objectives: []
level: 2
draw:
  set: 100 psig
  reseat: 93 psig
  opened: 105 psig
  rate: 620 lbf/in
  seat: 2 in
  pitch: 1/16 in
ask:
  - id: turns
    label: Turns
    answer: "turns_for_change(change: opened - set, rate: rate, pitch: pitch, area: bore_area(bore: seat))"
    unit: turn
    round: { to: 1/4 turn }
    usual_range: 1/4 turn .. 3 turn
  - id: area
    label: Least area
    answer: "bore_area(bore: seat)"
    unit: in2
    limit: lower
    unsafe_fails: true
    round: { figures: 3, side: safe }
  - id: fall
    label: Blowdown
    answer: "blowdown(set: set, reseat: reseat)"
    unit: psi
  - id: share
    label: In percent
    answer: "fall / set"
    unit: "%"
  - id: figure
    form: one_of
    label: Which is the blowdown?
    unit: psi
    options:
      - { value: "set - reseat", right: true, why: "Set less reseat." }
      - { value: "opened - reseat", why: "From the opening." }
      - { text: "{set}", why: "The whole." }
  - id: causes
    form: several_of
    label: Which raise the opening pressure?
    options:
      - { text: A sticking disc, right: true, why: It holds. }
      - { text: More preload, right: "opened > set" }
      - { text: A hot spring, why: Heat softens it. }
      - { text: A worn seat, why: It leaks. }
      - { text: A weak spring, why: It holds less. }
  - id: steps
    form: in_order
    label: Put in order
    items:
      - { text: Read the tag, why: First of all. }
      - { text: Test as found, why: Before any change. }
      - { text: Turn the screw, why: Only now. }
      - { text: Seal, why: Last. }
  - id: ranks
    form: in_order
    label: From the highest
    highest_first: true
    items:
      - { text: "set", by: set }
      - { text: "reseat", by: reseat }
      - { text: "opened", by: opened }
  - id: jobs
    form: match
    label: Match
    pairs:
      - { item: disc, with: closes, why: The disc closes. }
      - { item: spring, with: presses }
      - { item: screw, with: adjusts }
    extra: [ carries ]
  - id: part
    form: point_at
    label: Point at what sets the pressure
    figure: relief_valve_section
    parts:
      - { part: adjusting_screw, right: true, why: It presses on the spring. }
      - { part: spring, why: It holds what the screw gives it. }
    any_other_part: Look above the spring.
  - id: opens
    form: read_off
    label: Opening pressure
    figure: { show: bench_trace, opening: opened, highest: opened + 6 psi, reseat: reseat }
    answer: "opened"
    unit: psig
    within: 1 psi
  - id: claim
    form: true_or_false
    label: True or false?
    statement: The valve opened above {set}.
    right: "opened > set"
    reasons:
      - { text: "{opened} is more.", right: true }
      - { text: It was hot., why: Heat lowers it. }
      - { text: It leaked., why: A leak is no opening. }
"#;

fn compiled() -> Recipe {
    compiled_from(RECIPE)
}

fn drawn(recipe: &Recipe, seed: u64) -> Problem<'_> {
    let seed = Seed { text: seed.to_string(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
    draw(recipe, &seed, Setting { system: System::Us, mark: DecimalMark::Point }).expect("draws")
}

fn marked(part: &str, typed: &str) -> Marked {
    mark(&drawn(&compiled(), 1), part, typed).expect("part")
}

fn check(part: &str, cases: &[(&str, &str, u8)]) {
    for (typed, verdict, credit) in cases {
        let marked = marked(part, typed);
        assert_eq!((marked.verdict.id(), marked.credit), (*verdict, *credit), "{part}: {typed:?}");
    }
}

fn all(answers: &[(&str, &str)]) -> MarkedAll {
    let answers: Vec<_> = answers.iter().map(|(part, typed)| ((*part).to_owned(), (*typed).to_owned())).collect();
    mark_all(&drawn(&compiled(), 1), &answers)
}

fn part(all: &MarkedAll, id: &str) -> &'static str {
    all.parts.iter().find(|(part, _)| part == id).map_or("", |(_, marked)| marked.verdict.id())
}

/// 5 psi x 3.1416 in2 / (620 lbf/in x 1/16 in) = 0.405 turn, to the nearest quarter 0.5 turn.
#[test]
fn a_number_is_rounded_as_it_is_asked_for() {
    check(
        "turns",
        &[
            ("1/2", "right", 100),
            ("0.5 turn", "right", 100),
            ("0.405", "rounding", 50),
            ("0.25", "rounding", 50),
            ("3/4", "slip", 0),
            ("5", "slip", 0),
        ],
    );
    assert!(marked("turns", "30").notes.contains(&"unusual"));
}

/// pi/4 x (2 in)^2 = 3.14159 in2: three figures towards the safe side are 3.15 in2.
#[test]
fn a_size_is_rounded_to_its_safe_side() {
    check("area", &[("3.15", "right", 100), ("3.1416", "rounding", 50), ("3.14", "unsafe", 0), ("3.2", "wrong", 0)]);
    check("area", &[("20.3 cm2", "rounding", 50), ("20.4 cm2", "wrong", 0), ("3.15 in", "wrong_unit", 50)]);
    let problem = compiled();
    assert_eq!(drawn(&problem, 1).text("area"), "3.15\u{a0}in²");
}

#[test]
fn an_answer_on_the_unsafe_side_may_fail_the_whole_question() {
    let safe = all(&[("turns", "1/2"), ("area", "3.15")]);
    assert_eq!(safe.credit, 16, "two of twelve parts");
    assert_eq!(all(&[("turns", "1/2"), ("area", "3.1")]).credit, 0);
}

/// Blowdown 7 psi, 7 %. From an earlier answer of 9 psi, 9 % is the right method carried on.
#[test]
fn an_error_carried_on_earns_the_method_mark() {
    assert_eq!(part(&all(&[("fall", "9 psi"), ("share", "9 %")]), "share"), "carried");
    assert_eq!(part(&all(&[("fall", "7 psi"), ("share", "9 %")]), "share"), "wrong");
    assert_eq!(part(&all(&[("fall", "9 psi"), ("share", "7 %")]), "share"), "right");
    assert_eq!(part(&all(&[("fall", "9 in"), ("share", "9 %")]), "share"), "wrong");
    assert_eq!(part(&all(&[("share", "9 %")]), "share"), "wrong");
    assert_eq!(part(&all(&[("share", "7 %")]), "turns"), "blank");
}

#[test]
fn a_computed_option_shows_its_value() {
    let recipe = compiled();
    let view = serde_json::to_value(drawn(&recipe, 1).view(false, "")).expect("data");
    let options = &view["parts"][4]["options"];
    let says: Vec<_> = options.as_array().expect("list").iter().map(|option| option["html"].to_string()).collect();
    assert!(
        says.iter().any(|says| says.contains("7\u{a0}psi")) && says.iter().any(|says| says.contains("12\u{a0}psi"))
    );
    check("figure", &[("0", "right", 100), ("1", "wrong_option", 0), ("0 1", "unreadable", 0), ("", "blank", 0)]);
}

/// Two are right and three wrong: each right one is worth a half, each wrong one costs a third.
#[test]
fn several_options_count_in_part_and_guessing_costs() {
    check(
        "causes",
        &[
            ("0 1", "right", 100),
            ("1 0", "right", 100),
            ("0", "partly", 50),
            ("0 1 2", "partly", 66),
            ("0 2", "partly", 16),
            ("0 1 2 3 4", "wrong_choices", 0),
            ("2 3", "wrong_choices", 0),
            ("", "blank", 0),
            ("9", "unreadable", 0),
        ],
    );
    let marked = marked("causes", "0 2");
    assert_eq!(marked.told, ["Heat softens it."]);
    assert!(marked.values.contains(&("missing", "1".to_owned())));
}

/// Of six twos of items, five are right where two neighbours are exchanged: 2 x 5/6 - 1 = 2/3.
#[test]
fn an_order_counts_by_twos_of_items() {
    check(
        "steps",
        &[
            ("0 1 2 3", "right", 100),
            ("1 0 2 3", "partly", 66),
            ("3 2 1 0", "wrong_sequence", 0),
            ("0 1 2", "unreadable", 0),
            ("0 1 2 2", "unreadable", 0),
            ("", "blank", 0),
        ],
    );
    let marked = marked("steps", "0 2 1 3");
    assert_eq!(marked.told, ["Only now."]);
    assert!(marked.values.contains(&("placed", "1".to_owned())));
    check("ranks", &[("2 0 1", "right", 100)]);
}

/// Four partners: a wrong pair costs a third of a pair.
#[test]
fn pairs_count_each_for_itself() {
    check(
        "jobs",
        &[
            ("0=0 1=1 2=2", "right", 100),
            ("2=2 0=0", "partly", 66),
            ("0=0 1=2 2=1", "partly", 11),
            ("0=1 1=2 2=0", "wrong_pairs", 0),
            ("0=3", "wrong_pairs", 0),
            ("0=4", "unreadable", 0),
            ("0=0 0=1", "unreadable", 0),
            ("", "blank", 0),
        ],
    );
    assert_eq!(marked("jobs", "0=1").told, ["The disc closes."]);
}

#[test]
fn a_part_is_pointed_at_by_its_name() {
    check(
        "part",
        &[
            ("adjusting_screw", "right", 100),
            ("spring", "wrong_part", 0),
            ("disc", "wrong_part", 0),
            ("nut", "unreadable", 0),
            ("", "blank", 0),
        ],
    );
    assert_eq!(marked("part", "disc").html.as_deref(), Some("Look above the spring."));
    assert_eq!(marked("part", "spring").html.as_deref(), Some("It holds what the screw gives it."));
}

/// The trace as a list shows where the rise becomes slower, which is where the valve opens.
#[test]
fn a_value_is_read_off_a_plot_or_its_list() {
    check("opens", &[("105 psig", "right", 100), ("105.8", "right", 100), ("107", "wrong", 0)]);
    let recipe = compiled();
    let view = serde_json::to_value(drawn(&recipe, 1).view(false, "")).expect("data");
    let part = view["parts"].as_array().expect("list").iter().find(|part| part["id"] == "opens").expect("part");
    let figure = &part["figure"];
    assert!(figure["svg"].as_str().is_some_and(|svg| svg.starts_with("<svg ")));
    let rows = figure["rows"].as_array().expect("list");
    assert!(rows.iter().any(|row| row[1].as_str().is_some_and(|text| text.parse() == Ok(105.0))), "{rows:?}");
}

#[test]
fn true_or_false_counts_only_with_its_reason() {
    check(
        "claim",
        &[
            ("true 0", "right", 100),
            ("true 1", "wrong_reason", 0),
            ("false 0", "wrong_truth", 0),
            ("true", "blank", 0),
            ("maybe 0", "unreadable", 0),
            ("true 7", "unreadable", 0),
        ],
    );
}

#[test]
fn what_is_shown_in_another_order_is_marked_the_same() {
    let recipe = compiled();
    let mut orders = std::collections::BTreeSet::new();
    for seed in 1..=40 {
        let problem = drawn(&recipe, seed);
        let view = serde_json::to_value(problem.view(false, "")).expect("data");
        let shown = &view["parts"][6]["items"];
        orders.insert(shown.to_string());
        for answer in problem.solution().answers.iter().flat_map(AnswerView::fields) {
            assert_eq!(mark(&problem, &answer.id, &answer.exact).expect("part").credit, 100, "{}", answer.id);
        }
        let ids: Vec<_> = shown.as_array().expect("list").iter().map(|item| item["id"].as_str().expect("id")).collect();
        assert_ne!(ids, ["0", "1", "2", "3"], "the right order is no question");
    }
    assert!(orders.len() > 10, "{} orders", orders.len());
}
