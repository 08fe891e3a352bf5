//! Ten relations of other trades, written only in a course (`tests/trades`), against a general-purpose library of units: kept
//! cases in `tests/outside/pint.csv`, made by `tests/outside/pint-live.py`, with the name and version of the library at the top.

use std::collections::BTreeMap;

use problems::formula::literal;
use relief::{Argument, Kind, Manner, Quantity, Relation, System, units};
use seatwork_tests::top;

/// What the last bits of another order of operations may make.
const CLOSE: f64 = 1e-9;

fn course() -> course::Course {
    let words = pages::Words::of("en").expect("words");
    course::read(&top().join("tests/trades"), &words).expect("the course is sound")
}

fn measured(text: &str, kind: Kind) -> Quantity {
    let (value, _, unit) = literal(text).unwrap_or_else(|| panic!("{text}"));
    unit.map_or(Quantity::new(value.to_f64(), kind), |unit| unit.quantity(value.to_f64(), kind))
}

fn worked(relation: &'static Relation, inputs: &str, system: System) -> Quantity {
    let given: Vec<_> = inputs
        .split("; ")
        .map(|pair| {
            let (name, text) = pair.split_once('=').expect("name=value");
            let kind = relation.input(name).and_then(|(_, input)| input.kind()).expect("an input");
            (name, Argument::Quantity(measured(text, kind)))
        })
        .collect();
    let outputs = relation.evaluate_in(&given, Manner::unrounded(system));
    outputs.unwrap_or_else(|error| panic!("{}({inputs}): {error}", relation.id)).first()
}

#[test]
fn ten_relations_written_in_a_course_give_what_a_library_of_units_gives() {
    let course = course();
    let mut reader = csv::Reader::from_path(top().join("tests/outside/pint.csv")).expect("cases");
    let mut counts: BTreeMap<String, usize> = BTreeMap::new();
    for row in reader.records() {
        let row = row.expect("row");
        let [id, system, inputs, expected, unit] = [0, 1, 2, 3, 4].map(|place| row.get(place).expect("cell"));
        let relation = course.relation(id).unwrap_or_else(|| panic!("{id}"));
        let found = worked(relation, inputs, System::find(system).expect("system"));
        let found = units::find(unit).filter(|_| !unit.is_empty()).map_or(found.si, |unit| unit.value(found));
        let expected: f64 = expected.parse().expect("number");
        assert!((found - expected).abs() <= CLOSE * expected.abs(), "{id}({inputs}): {found} {unit}, not {expected}");
        *counts.entry(format!("{id} {system}")).or_default() += 1;
    }
    assert_eq!(counts.len(), 20, "{counts:?}");
    assert!(counts.values().all(|count| *count >= 10), "{counts:?}");
}

#[test]
fn a_recipe_carries_the_relations_that_it_calls() {
    let course = course();
    let file = course.recipes.iter().find(|file| file.recipe.id == "warm_pump").expect("recipe");
    let ids: Vec<_> = file.recipe.relations.iter().map(|own| own.id.as_str()).collect();
    assert_eq!(ids.len(), 3, "{ids:?}");
    let read = problems::Recipe::read(&file.compiled).expect("what is written is read back");
    assert_eq!(read, file.recipe);
}
