//! A verdict follows from what a value is in the formula, never from what the author calls it.

use problems::DecimalMark;
use problems::draw::{Setting, draw};
use problems::mark::mark;
use problems::recipe::{Recipe, System};
use problems::seed::{FIRST_ATTEMPT, Seed};

use super::recipe::compiled_from;

/// Three parts whose slips were once told by the names of draws. The names are in capitals until they are put in.
const RECIPE: &str = r#"
format: 1
id: named
title: Named at will
objectives: []
level: 2
draw:
  SET: 120 psig
  FALL: 9 psi
  SHUT: 103 psig
  WIDE: 1.5 in
ask:
  - id: closes
    label: Reseating pressure
    answer: "absolute_pressure(gauge: SET - FALL)"
    unit: psia
    within: 0.2 %
  - id: share
    label: Blowdown in percent
    answer: "blowdown_percent(set: SET, reseat: SHUT)"
    unit: "%"
    within: 0.2 %
  - id: force
    label: Force at the reseating pressure
    answer: "opening_force(opening: SHUT, area: bore_area(bore: WIDE))"
    unit: lbf
    within: 0.2 %
"#;

fn named(names: [&str; 4]) -> Recipe {
    let named = ["SET", "FALL", "SHUT", "WIDE"].into_iter().zip(names);
    compiled_from(&named.fold(RECIPE.to_owned(), |text, (place, name)| text.replace(place, name)))
}

/// The verdict on a number, with its slip and whether that is only asked about.
fn verdict(recipe: &Recipe, part: &str, typed: &str) -> String {
    let seed = Seed { text: "1".to_owned(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
    let problem = draw(recipe, &seed, Setting { system: System::Us, mark: DecimalMark::Point }).expect("draws");
    let view = mark(&problem, part, typed).expect("part").view(part.to_owned());
    format!("{} {:?}", view.verdict, view.values)
}

/// (120 - 9 + 14.7) psia; without the fall 134.7. (120 - 103) / 120 = 14.17 %, of the lower pressure 16.5 %; 103 / 120 is
/// 85.8 %. A bore of 1.5 in has 1.767 in²; taken for the radius it has four times as much.
const TOLD: [(&str, &str, &str); 6] = [
    ("closes", "134.7", "set_for_reseat"),
    ("closes", "111", "gauge_for_absolute"),
    ("share", "16.50", "percent_base"),
    ("share", "85.83", "whole_for_rise"),
    ("force", "728.1", "diameter_for_radius"),
    ("force", "212.1", "other_value"),
];

#[test]
fn what_a_draw_is_called_changes_no_verdict() {
    let usual = named(["set", "fall", "reseat", "bore"]);
    let others = [named(["reseat", "set", "bore", "fall"]), named(["alpha", "beta", "gamma", "delta"])];
    for (part, typed, slip) in TOLD {
        let told = verdict(&usual, part, typed);
        assert!(told.contains(slip), "{part} {typed}: {told}");
    }
    for part in ["closes", "share", "force"] {
        for typed in (1..800)
            .map(|number| format!("{}", f64::from(number) / 2.0))
            .chain(TOLD.map(|(_, typed, _)| typed.to_owned()))
        {
            let told = verdict(&usual, part, &typed);
            for other in &others {
                assert_eq!(verdict(other, part, &typed), told, "{part} {typed}");
            }
        }
    }
}
