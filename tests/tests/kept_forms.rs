//! Compiled recipes of earlier formats, kept as they were published, draw and mark as they did. The values were printed
//! by the program that wrote them.

use std::fs;

use problems::Recipe;
use problems::display::Mark;
use problems::draw::{Setting, draw};
use problems::mark::mark;
use problems::recipe::System;
use problems::seed::{FIRST_ATTEMPT, Seed};
use seatwork_tests::top;

fn kept(name: &str) -> Recipe {
    let text = fs::read_to_string(top().join(format!("tests/kept/recipe-format-1-{name}.json"))).expect("kept");
    Recipe::read(&text).expect("an older form is read")
}

fn check(name: &str, system: System, answers: &[(&str, &str, &str)]) {
    let recipe = kept(name);
    let seed = Seed { text: "48213".to_owned(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
    let problem = draw(&recipe, &seed, Setting { system, mark: Mark::Point }).expect("draws");
    let solution = problem.solution();
    let found: Vec<_> = (solution.answers.iter())
        .map(|answer| (answer.id.as_str(), answer.exact.as_str(), answer.shown.as_str()))
        .collect();
    assert_eq!(found, answers, "{name}");
    for (part, exact, _) in answers {
        assert_eq!(mark(&problem, part, exact).expect("part").credit, 100, "{name} {part}");
    }
    assert!(solution.working.contains("step"), "{name}");
}

#[test]
fn a_recipe_of_format_1_draws_and_marks_as_it_did() {
    let us = [("allowed", "19.5 psi", "19.5\u{a0}psi"), ("highest", "229.19594877551344 psia", "229.1\u{a0}psia")];
    let si = [("allowed", "1.2 bar", "1.2\u{a0}bar"), ("highest", "14.21325 bara", "14.21\u{a0}bara")];
    check("allowed_over_mawp", System::Us, &us);
    check("allowed_over_mawp", System::Si, &si);
}

#[test]
fn a_newer_form_is_refused_and_says_which() {
    let recipe = kept("allowed_over_mawp").write();
    let newer = recipe.replacen("\"format\":1", "\"format\":99", 1);
    assert!(matches!(Recipe::read(&newer), Err(problems::ReadError::Newer { format: 99, rules: 1 })));
}
