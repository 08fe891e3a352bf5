//! Published tables, worked examples and conversions, with their sources in `tests/published/`.

use std::collections::BTreeSet;

use problems::formula::{Condition, Formula, Names, Scope};
use relief::{System, units};
use seatwork_tests::{Case, cases, top};

fn all() -> Vec<Case> {
    cases(&top().join("tests/published"))
}

#[test]
fn every_published_value_comes_out() {
    let all = all();
    let wrong: Vec<_> =
        all.iter().filter_map(|case| if case.is_choice() { choice(case) } else { number(case) }).collect();
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// Says where a number does not come out.
fn number(case: &Case) -> Option<String> {
    let formula =
        Formula::read(&case.formula, &Names::new(), None).unwrap_or_else(|faults| panic!("{}: {faults:?}", case.place));
    let system = formula.system(|_| None, units::find(&case.unit)).unwrap_or(System::Si);
    let result = formula.evaluate(&Scope::new(system)).unwrap_or_else(|error| panic!("{}: {error}", case.place));
    let found = if case.unit.is_empty() {
        assert!(result.kind.is_pure(), "{}: {:?} without a unit", case.place, result.kind);
        result.si
    } else {
        let unit = units::find(&case.unit).unwrap_or_else(|| panic!("{}: unit {}", case.place, case.unit));
        let same = unit.measures(result.kind) || result.kind.dimension() == unit.usual_kind().dimension();
        assert!(same, "{}: {:?} in {}", case.place, result.kind, case.unit);
        unit.value(result)
    };
    let fits = (found - case.value()).abs() <= case.tolerance();
    (!fits).then(|| format!("{}: {found} instead of {} ({})", case.place, case.printed, case.source))
}

/// Says where another choice comes out.
fn choice(case: &Case) -> Option<String> {
    assert!(case.unit.is_empty(), "{}: a choice has no unit", case.place);
    let text = format!("{} = {}", case.formula, case.printed);
    let condition = Condition::read(&text, &Names::new()).unwrap_or_else(|faults| panic!("{}: {faults:?}", case.place));
    let units = symbols(case).into_iter().filter_map(|symbol| units::find(&symbol)).map(|unit| unit.system);
    let scope = Scope::new(System::of_units(units).unwrap_or(System::Si));
    let holds = condition.holds(&scope).unwrap_or_else(|error| panic!("{}: {error}", case.place));
    (!holds).then(|| format!("{}: not {} ({})", case.place, case.printed, case.source))
}

#[test]
fn every_relation_and_every_output_of_one_has_a_published_or_independent_case() {
    let all = all();
    let mut missing = BTreeSet::new();
    for relation in relief::relations() {
        let call = format!("{}(", relation.id);
        let own: Vec<_> = all.iter().filter(|case| case.formula.contains(&call)).collect();
        for (place, output) in relation.outputs.iter().enumerate() {
            let named = format!(").{}", output.name);
            if !own.iter().any(|case| place == 0 || case.formula.contains(&named)) {
                missing.insert(format!("{}.{}", relation.id, output.name));
            }
        }
    }
    assert!(missing.is_empty(), "no case for {missing:?}");
}

#[test]
fn every_unit_has_a_published_or_independent_case() {
    let used: BTreeSet<String> = all().iter().flat_map(symbols).collect();
    let missing: Vec<_> =
        units::UNITS.iter().map(|unit| unit.symbol).filter(|symbol| !used.contains(*symbol)).collect();
    assert!(missing.is_empty(), "no case for {missing:?}");
}

/// The symbols of the units in a case.
fn symbols(case: &Case) -> Vec<String> {
    let places = case.formula.match_indices(' ').map(|(place, _)| place + 1);
    let inside = places.filter_map(|place| units::longest_symbol(&case.formula[place..]));
    inside.map(|unit| unit.symbol).chain([case.unit.as_str()]).map(str::to_owned).collect()
}
