//! Several right answers to one number: full marks and their words, never beyond a limit unless the author says so, and
//! what goes on from them.

use problems::draw::{Problem, draw};
use problems::mark::{Marked, mark, mark_all};
use problems::recipe::System;
use problems::seed::{FIRST_ATTEMPT, Seed};
use problems::{DecimalMark, Recipe, draw::Setting};

use super::recipe::compiled_from;

/// 7 % of the set pressure is 7 psi; of the reseating pressure it is 7.527 %.
const RECIPE: &str = r#"
format: 1
id: also
title: Several right answers
objectives: []
level: 2
draw:
  set: 100 psig
  reseat: 93 psig
ask:
  - id: share
    label: Blowdown
    answer: "(set - reseat) / set"
    unit: "%"
    also_right: [{ answer: "(set - reseat) / reseat", when: "Of the reseating pressure, {reseat}." }]
  - id: next
    label: So much of 200 psi
    answer: "share * 200 psi"
    unit: psi
    also_right: [{ answer: "share * 300 psi", when: "Of 300 psi." }]
  - id: limit
    label: At most
    answer: "set + set * 10 %"
    unit: psig
    limit: upper
    also_right:
      - { answer: "set + 14 psi", when: "With 14 psi." }
      - { answer: "set + 5 psi", when: "With 5 psi." }
  - id: either
    label: At most, either way
    answer: "set + set * 10 %"
    unit: psig
    limit: upper
    also_right: [{ answer: "set + 14 psi", when: "With 14 psi.", beyond_limit: true }]
  - id: rounded
    label: Rounded
    answer: "set - reseat"
    unit: psi
    round: { to: 1 psi }
    also_right: [{ answer: "set * 12 %", when: "At twelve percent." }]
"#;

fn problem(recipe: &Recipe) -> Problem<'_> {
    let seed = Seed { text: "1".to_owned(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
    draw(recipe, &seed, Setting { system: System::Us, mark: DecimalMark::Point }).expect("draws")
}

fn marked(part: &str, typed: &str) -> Marked {
    let recipe = compiled_from(RECIPE);
    mark(&problem(&recipe), part, typed).expect("part")
}

#[test]
fn each_right_answer_has_full_marks_and_the_other_one_its_words() {
    for (part, typed, verdict, credit, words) in [
        ("share", "7 %", "right", 100, None),
        ("share", "7.53 %", "right", 100, Some("Of the reseating pressure, ")),
        ("share", "7.25 %", "wrong", 0, None),
        ("share", "7.53 psi", "wrong_unit", 50, None),
        ("limit", "110 psig", "right", 100, None),
        ("limit", "105 psig", "right", 100, Some("With 5 psi.")),
        ("limit", "114 psig", "unsafe", 0, None),
        ("either", "114 psig", "right", 100, Some("With 14 psi.")),
        ("either", "110 psig", "right", 100, None),
        ("either", "112 psig", "unsafe", 0, None),
        ("either", "115 psig", "unsafe", 0, None),
        ("rounded", "7 psi", "right", 100, None),
        ("rounded", "12 psi", "right", 100, Some("At twelve percent.")),
    ] {
        let marked = marked(part, typed);
        assert_eq!((marked.verdict.id(), marked.credit), (verdict, credit), "{part} {typed}");
        assert_eq!(marked.html.is_some(), words.is_some(), "{part} {typed}");
        assert_eq!(marked.notes.contains(&"also_right"), words.is_some(), "{part} {typed}");
        assert!(marked.html.unwrap_or_default().contains(words.unwrap_or_default()), "{part} {typed}");
    }
}

#[test]
fn a_later_part_goes_on_from_whichever_answer_was_right() {
    let recipe = compiled_from(RECIPE);
    let problem = problem(&recipe);
    for (share, next, expected) in [
        ("7 %", "14 psi", "right"),
        ("7.527 %", "15.05 psi", "right"),
        ("7.527 %", "14 psi", "right"),
        ("7 %", "21 psi", "right"),
        ("7.527 %", "22.58 psi", "right"),
        ("9 %", "18 psi", "carried"),
        ("9 %", "27 psi", "carried"),
        ("9 %", "14 psi", "right"),
    ] {
        let answers = [("share", share), ("next", next)].map(|(id, typed)| (id.to_owned(), typed.to_owned()));
        let all = mark_all(&problem, &answers);
        let (_, found) = all.parts.iter().find(|(id, _)| id == "next").expect("part");
        assert_eq!(found.verdict.id(), expected, "{share}, {next}");
    }
}
