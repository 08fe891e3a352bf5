//! A table to fill in, on a recipe whose answers are known: cells as parts of their own, and what was not measured.

use problems::DecimalMark;
use problems::Recipe;
use problems::draw::{Problem, Setting, draw};
use problems::mark::{Marked, mark, mark_all, mark_part};
use problems::recipe::System;
use problems::seed::{FIRST_ATTEMPT, Seed};
use problems::view::AnswerView;

use super::recipe::compiled_from;

const RECIPE: &str = r#"
format: 1
id: table
title: A record
objectives: []
level: 2
draw:
  set: 100 psig
  first: 104 psig
  second: 102 psig
  closed: 93 psig
  leak: 40 1/min
ask:
  - id: record
    form: fill_table
    label: Record
    columns:
      - { id: opened, head: Opened at, unit: psig }
      - { id: off, head: Off the set pressure, unit: psi, within: 0.5 psi }
      - { id: share, head: Of the set pressure, unit: "%", limit: upper }
      - { id: fall, head: Blowdown, unit: psi }
    rows:
      - id: first
        head: First
        cells:
          opened: { given: first }
          off: { answer: "first - set", within: 0.1 psi, mistakes: { whole: "first - 0 psig" } }
          share: { answer: "record.first.off / set" }
          fall: { answer: "set - closed", not_measured: { small: "leak < 0 1/min" } }
      - id: second
        head: Second
        cells:
          opened: { given: second }
          off: { answer: "second - set" }
          share: { answer: "record.second.off / set" }
          fall: { answer: "set - closed", not_measured: { leaking: "leak > 0 1/min", small: false } }
    not_measured:
      - { id: leaking, text: "it leaked at {leak}", why: "At {leak} nobody could read it." }
      - { id: small, text: the stand is too small }
  - id: greater
    label: The greater of the two
    answer: "record.first.off"
    unit: psi
"#;

const CELLS: [(&str, &str); 6] = [
    ("record.first.off", "4 psi"),
    ("record.first.share", "4 %"),
    ("record.first.fall", "7 psi"),
    ("record.second.off", "2 psi"),
    ("record.second.share", "2 %"),
    ("record.second.fall", "not measured: 0"),
];

fn drawn(recipe: &Recipe) -> Problem<'_> {
    let seed = Seed { text: "1".to_owned(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
    draw(recipe, &seed, Setting { system: System::Us, mark: DecimalMark::Point }).expect("draws")
}

fn cell(name: &str, typed: &str) -> Marked {
    mark(&drawn(&compiled_from(RECIPE)), name, typed).expect("cell")
}

/// The record with some cells answered in another way.
fn record(changed: &[(&str, &str)]) -> Marked {
    mark_part(&drawn(&compiled_from(RECIPE)), "record", &answers(changed)).expect("part")
}

fn answers(changed: &[(&str, &str)]) -> Vec<(String, String)> {
    let typed = |name: &str| changed.iter().find(|(changed, _)| *changed == name).map(|(_, typed)| *typed);
    CELLS.map(|(name, right)| (name.to_owned(), typed(name).unwrap_or(right).to_owned())).to_vec()
}

#[test]
fn each_cell_is_marked_as_a_number() {
    for (name, typed, verdict, credit) in [
        ("record.first.off", "4", "right", 100),
        ("record.first.off", "4.1 psi", "right", 100),
        ("record.first.off", "4.3 psi", "wrong", 0),
        ("record.second.off", "2.3 psi", "right", 100),
        ("record.first.off", "104 psi", "mistake", 0),
        ("record.first.off", "-4 psi", "slip", 0),
        ("record.first.off", "4 in", "wrong_unit", 50),
        ("record.first.off", "", "blank", 0),
        ("record.first.off", "four", "unreadable", 0),
        ("record.first.off", "1,234", "ambiguous", 0),
        ("record.first.off", "not measured: 0", "was_read", 0),
        ("record.first.share", "4 %", "right", 100),
    ] {
        let marked = cell(name, typed);
        assert_eq!((marked.verdict.id(), marked.credit), (verdict, credit), "{name}: {typed:?}");
    }
}

#[test]
fn what_was_not_measured_is_said_with_its_reason() {
    for (name, typed, verdict, credit) in [
        ("record.first.fall", "7 psi", "right", 100),
        ("record.first.fall", "not measured: 0", "was_read", 0),
        ("record.second.fall", "not measured: 0", "right", 100),
        ("record.second.fall", "not measured: 1", "other_reason", 50),
        ("record.second.fall", "not measured: 2", "unreadable", 0),
        ("record.second.fall", "not measured: 0 1", "unreadable", 0),
        ("record.second.fall", "7 psi", "no_reading", 0),
        ("record.second.fall", "1,234", "no_reading", 0),
        ("record.second.fall", "seven", "unreadable", 0),
        ("record.second.fall", " ", "blank", 0),
    ] {
        let marked = cell(name, typed);
        assert_eq!((marked.verdict.id(), marked.credit), (verdict, credit), "{name}: {typed:?}");
    }
    for typed in ["7 psi", "not measured: 1"] {
        assert_eq!(cell("record.second.fall", typed).html.as_deref(), Some(WHY), "{typed}");
    }
}

const WHY: &str = "At <span class=\"given\">40\u{a0}1/min</span> nobody could read it.";

/// What is typed by the cells, the verdict of the whole table and its credit.
type Case<'c> = (&'c [(&'c str, &'c str)], &'c str, u8);

/// Six cells: the credit of the record is their mean, rounded down.
#[test]
fn a_record_counts_by_its_cells() {
    let blank: Vec<_> = CELLS.iter().map(|(name, _)| (*name, "")).collect();
    let unread: Vec<_> = CELLS.iter().map(|(name, _)| (*name, "?")).collect();
    let cases: [Case; 7] = [
        (&[], "right", 100),
        (&[("record.second.fall", "")], "partly", 83),
        (&[("record.first.fall", "9 psi"), ("record.second.fall", "not measured: 1")], "partly", 75),
        (&[("record.first.share", "4.2 %")], "unsafe", 83),
        (&blank, "blank", 0),
        (&unread, "unreadable", 0),
        (&[("record.first.share", "3.7 %")], "partly", 83),
    ];
    for (changed, verdict, credit) in cases {
        let marked = record(changed);
        assert_eq!((marked.verdict.id(), marked.credit), (verdict, credit), "{changed:?}");
        assert_eq!(marked.cells.iter().map(|(name, _)| name.as_str()).collect::<Vec<_>>(), CELLS.map(|(name, _)| name));
    }
}

#[test]
fn an_error_is_carried_on_from_cell_to_cell_and_to_the_next_part() {
    let marked = record(&[("record.first.off", "5 psi"), ("record.first.share", "5 %")]);
    let verdicts: Vec<_> = marked.cells.iter().map(|(_, cell)| cell.verdict.id()).collect();
    assert_eq!(verdicts[..3], ["wrong", "carried", "right"]);
    let mut all = answers(&[("record.first.off", "5 psi"), ("record.first.share", "5 %")]);
    all.push(("greater".to_owned(), "5 psi".to_owned()));
    let recipe = compiled_from(RECIPE);
    let marked = mark_all(&drawn(&recipe), &all);
    assert_eq!(marked.parts[1].1.verdict.id(), "carried");
    assert_eq!(marked.credit, (75 + 50) / 2);
}

#[test]
fn an_unsafe_cell_fails_the_whole_where_its_column_says_so() {
    let typed = answers(&[("record.first.share", "4.2 %")]);
    let recipe = compiled_from(RECIPE);
    assert!(!mark_all(&drawn(&recipe), &typed).failed);
    let recipe = compiled_from(&RECIPE.replace("limit: upper", "limit: upper, unsafe_fails: true"));
    let marked = mark_all(&drawn(&recipe), &typed);
    assert!(marked.failed && marked.credit == 0);
    assert!(!mark_all(&drawn(&recipe), &answers(&[])).failed);
}

#[test]
fn its_right_answers_are_shown_and_can_be_typed() {
    let recipe = compiled_from(RECIPE);
    let problem = drawn(&recipe);
    let answers = problem.solution().answers;
    let typed: Vec<_> = answers[0].fields().map(|answer| (answer.id.as_str(), answer.exact.as_str())).collect();
    assert_eq!(typed.iter().map(|(name, _)| *name).collect::<Vec<_>>(), CELLS.map(|(name, _)| name));
    for answer in answers.iter().flat_map(AnswerView::fields) {
        assert_eq!(mark(&problem, &answer.id, &answer.exact).expect("cell").credit, 100, "{}", answer.id);
    }
    for said in ["<td>104</td>", "<strong>4\u{a0}psi</strong>", "answers.not_measured"] {
        assert!(answers[0].shown.contains(said), "{said}: {}", answers[0].shown);
    }
    assert_eq!(
        problem.numbers().map(|(at, _)| at.id).collect::<Vec<_>>().len(),
        CELLS.len(),
        "five, and the last part"
    );
}
