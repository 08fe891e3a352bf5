//! Marking: every verdict for numbers, on one recipe whose numbers are known; and fairness, over the recipes of the
//! course.

mod also_right;
mod fairness;
mod forms;
mod names;
mod recipe;
mod tables;

use problems::DecimalMark;
use problems::draw::{Problem, Setting, draw};
use problems::mark::{Marked, mark};
use problems::recipe::System;
use problems::seed::{FIRST_ATTEMPT, Seed};

use recipe::compiled;

/// Drawn values are fixed by the recipe: seat 2 in, opens at 100 psig, rate 620 lbf/in, full lift 0.45 in.
fn marked(part: &str, typed: &str) -> Marked {
    let recipe = compiled();
    let seed = Seed { text: "1".to_owned(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
    let problem: Problem =
        draw(&recipe, &seed, Setting { system: System::Us, mark: DecimalMark::Point }).expect("draws");
    mark(&problem, part, typed).expect("part")
}

fn verdict(part: &str, typed: &str) -> String {
    let view = marked(part, typed).view(part.to_owned());
    match view.values.get("slip").or_else(|| view.values.get("mistake")) {
        Some(detail) => format!("{} {detail}", view.verdict),
        None => view.verdict.to_owned(),
    }
}

/// Rise = 620 lbf/in x 0.45 in / (pi/4 x (2 in)²) = 88.81 psi; worked by hand.
#[test]
fn a_difference_is_marked_with_its_reason() {
    for (typed, expected) in [
        ("88.8 psi", "right"),
        ("88.8", "right"),
        ("88,8 psi", "right"),
        ("88.8 psid", "right"),
        ("6.12 bar", "right"),
        ("612.3 kPa", "right"),
        ("0.0888e3 psi", "right"),
        ("88.8 bar", "wrong_unit"),
        ("88.8 in", "wrong_unit"),
        ("88.8 psig", "wrong_unit"),
        ("12 in", "wrong_kind"),
        ("188.8 psi", "mistake whole"),
        ("-88.8 psi", "slip sign"),
        ("888 psi", "slip decade"),
        ("0.888 psi", "slip decade"),
        ("6.12 psi", "slip unit_not_converted"),
        ("355 psi", "slip diameter_for_radius"),
        ("22.2 psi", "slip diameter_for_radius"),
        ("0.01126 psi", "slip inverted"),
        ("50 psi", "wrong"),
        ("1,234 psi", "ambiguous"),
        ("eighty", "unreadable"),
        ("88.8 furlongs", "unreadable"),
        ("", "blank"),
    ] {
        assert_eq!(verdict("rise", typed), expected, "{typed}");
    }
}

/// Full-open pressure = 100 psig + 88.81 psi = 188.81 psig, 203.5 psia.
#[test]
fn a_gauge_pressure_is_told_from_an_absolute_one() {
    for (typed, expected) in [
        ("188.8 psig", "right"),
        ("188.8 psi", "right"),
        ("203.5 psia", "slip absolute_for_gauge"),
        ("203.5 psig", "slip absolute_for_gauge"),
        ("188.8 psia", "wrong_unit"),
    ] {
        assert_eq!(verdict("full", typed), expected, "{typed}");
    }
    assert_eq!(marked("full", "188.8 psi").notes, ["taken_as_gauge"]);
    assert_eq!(marked("full", "188.8").notes, ["unit_assumed"]);
    assert_eq!(verdict("inlet", "188.8 psia"), "slip gauge_for_absolute");
    assert_eq!(verdict("inlet", "203.5 psia"), "right");
}

/// Rise over opening pressure = 88.81 %; over the full-open pressure 47.04 %.
#[test]
fn a_share_of_the_wrong_whole_is_named() {
    assert_eq!(verdict("share", "88.8 %"), "right");
    assert_eq!(verdict("share", "88.8"), "right");
    assert_eq!(verdict("share", "47.04 %"), "slip percent_base");
    assert_eq!(verdict("share", "0.888 %"), "slip decade");
}

/// The answer is 64.4 psig, and half a psi off is right. Ten times less, that is a twentieth.
#[test]
fn a_moved_decimal_point_leaves_the_digits_alone() {
    for (typed, expected) in [
        ("64.8 psig", "right"),
        ("6.44 psig", "slip decade"),
        ("6.48 psig", "slip decade"),
        ("644 psig", "slip decade"),
        ("6.89 psig", "wrong"),
        ("5.99 psig", "wrong"),
        ("1.04 psig", "wrong"),
    ] {
        assert_eq!(verdict("closes", typed), expected, "{typed}");
    }
    // The answer is 88.81 psi, and a hundredth of it is allowed: of the smaller number, too.
    for (typed, expected) in [
        ("0.892 psi", "slip decade"),
        ("0.08925 psi", "slip decade"),
        ("891 psi", "slip decade"),
        ("0.90 psi", "wrong"),
    ] {
        assert_eq!(verdict("rise", typed), expected, "{typed}");
    }
}

/// Allowed over a MAWP of 100 psig, one valve: 10 psi; an upper limit.
#[test]
fn a_limit_is_never_right_on_its_unsafe_side() {
    for (typed, expected) in [
        ("10 psi", "right"),
        ("9.95 psi", "right"),
        ("10.05 psi", "unsafe"),
        ("10.0001 psi", "unsafe"),
        ("10.000000001 psi", "right"),
        ("10.4 psi", "unsafe"),
        ("11.3 psi", "wrong"),
        ("9 psi", "wrong"),
    ] {
        assert_eq!(verdict("limit", typed), expected, "{typed}");
    }
    for far in ["11.3 psi", "100 psi"] {
        assert!(marked("limit", far).notes.contains(&"unsafe_side"), "{far}");
    }
}

/// An answer within a twentieth of the right one that nothing explains is said to be near.
#[test]
fn a_near_miss_is_told_from_a_guess() {
    assert!(marked("rise", "91 psi").notes.contains(&"near"));
    assert!(!marked("rise", "50 psi").notes.contains(&"near"));
}

#[test]
fn credit_follows_the_verdict() {
    assert_eq!(marked("rise", "88.8 psi").credit, 100);
    assert_eq!(marked("rise", "88.8 bar").credit, 50);
    assert_eq!(marked("rise", "50 psi").credit, 0);
}

#[test]
fn ambiguous_answers_offer_both_readings() {
    assert_eq!(marked("rise", "1,234 psi").readings, ["1234 psi", "1.234 psi"]);
}

#[test]
fn choices_are_marked_with_the_author_s_reason() {
    assert_eq!(verdict("which", "0"), "right");
    assert_eq!(verdict("which", "1"), "wrong_option");
    assert_eq!(verdict("which", "7"), "unreadable");
    assert_eq!(verdict("which", ""), "blank");
    assert_eq!(marked("which", "1").html.as_deref(), Some("Counted down from the set pressure."));
}

#[test]
fn a_drawn_statement_and_its_working_show_the_values_used() {
    let recipe = compiled();
    let seed = Seed { text: "1".to_owned(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
    let problem = draw(&recipe, &seed, Setting { system: System::Us, mark: DecimalMark::Comma }).expect("draws");
    assert_eq!(problem.text("lift"), "0,45\u{a0}in");
    assert_eq!(problem.text("rise"), "88,81\u{a0}psi");
    let working = problem.solution().working;
    assert!(working.contains("3,1416\u{a0}in²") && working.contains("= 188,81\u{a0}psig"), "{working}");
    // What is printed adds up: 188,81 less 100.
    assert!(
        working.contains("= 88,81\u{a0}psi<")
            && working.contains("100\u{a0}psig \u{2212} 35,6\u{a0}psi = 64,4\u{a0}psig"),
        "{working}"
    );
}
