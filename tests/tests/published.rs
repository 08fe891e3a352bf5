//! Published tables, worked examples and conversions, with their sources in `tests/published/`.

use std::collections::BTreeSet;

use problems::formula::{Formula, Names, Scope};
use relief::units;
use seatwork_tests::{Case, cases, top};

fn all() -> Vec<Case> {
    cases(&top().join("tests/published"))
}

#[test]
fn every_published_value_comes_out() {
    let mut wrong = Vec::new();
    for case in all() {
        let formula = Formula::read(&case.formula, &Names::new(), None)
            .unwrap_or_else(|faults| panic!("{}: {faults:?}", case.place));
        let result = formula.evaluate(&Scope::default()).unwrap_or_else(|error| panic!("{}: {error}", case.place));
        let unit = units::find(&case.unit).unwrap_or_else(|| panic!("{}: unit {}", case.place, case.unit));
        assert!(
            unit.measures(result.kind) || result.kind.dimension() == unit.usual_kind().dimension(),
            "{}",
            case.place
        );
        let found = unit.value(result);
        if (found - case.value()).abs() > case.tolerance() {
            wrong.push(format!("{}: {found} instead of {} ({})", case.place, case.printed, case.source));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn every_relation_has_a_published_or_independent_case() {
    let formulas: String = all().into_iter().map(|case| case.formula + "\n").collect();
    let missing: BTreeSet<_> =
        relief::relations().map(|relation| relation.id).filter(|id| !formulas.contains(&format!("{id}("))).collect();
    assert!(missing.is_empty(), "no case for {missing:?}");
}
