//! Seeds 1 to 3 of every recipe of the course give these numbers and these answers. What fails here would silently
//! change a worksheet that was printed, or an assignment that was handed out.

use problems::DecimalMark;
use problems::draw::{Setting, draw};
use problems::recipe::System;
use problems::seed::{FIRST_ATTEMPT, Seed};
use problems::view::AnswerView;
use seatwork_tests::top;

#[test]
fn printed_problems_stay_as_they_are() {
    let words = pages::Words::of("en").expect("words");
    let course = course::read(&top().join("content"), &words).expect("the course is sound");
    let mut lines = Vec::new();
    for file in &course.recipes {
        for system in System::BOTH {
            for seed in 1..=3 {
                let seed = Seed { text: seed.to_string(), question: file.recipe.id.clone(), attempt: FIRST_ATTEMPT };
                let problem = draw(&file.recipe, &seed, Setting { system, mark: DecimalMark::Point }).expect("proven");
                let givens: Vec<_> =
                    problem.facts.givens.iter().map(|given| format!("{} {}", given.name, given.text)).collect();
                let answers = problem.solution().answers;
                let answers: Vec<_> =
                    answers.iter().flat_map(AnswerView::fields).map(|answer| answer.exact.as_str()).collect();
                let head = format!("{} {} {}", file.recipe.id, system.id(), seed.text);
                lines.push(format!("{head}: {} => {}", givens.join(", "), answers.join("; ")));
            }
        }
    }
    // By their names: the order of the lessons, which recipes follow, may change.
    lines.sort_by(|one, other| one.split(' ').next().cmp(&other.split(' ').next()));
    insta::assert_snapshot!(lines.join("\n"));
}
