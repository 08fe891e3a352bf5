//! Numbers in a text that the calculation core works out: `{= formula in unit}`.

use std::ops::Range;

use faults::Code;
use problems::DecimalMark;
use problems::display;
use problems::formula::{EvaluateError, Formula, FormulaFault};
use relief::Kind;
use relief::units::{self, Unit};

use crate::fault::{Fault, Place};
use crate::marks::{KNOWN, OTHER};
use crate::scenario::{Given, Scenario};

/// The mark for a worked number in a text that is searched for numbers: one with a unit may end a range.
pub(super) fn mark_of(formula: &str) -> char {
    if split(formula).1.is_some() { KNOWN } else { OTHER }
}

/// The same for a value of the scenario.
pub(super) fn mark_of_given(given: &Given) -> char {
    if given.unit.is_some() { KNOWN } else { OTHER }
}

/// The fault of a name that the scenario does not have; none where its value has a fault of its own.
pub(super) fn unknown(scenario: &Scenario, name: &str, place: Place) -> Option<Fault> {
    let fault = || Fault::at(Code::ScenarioUnknown, place).with("name", name).near(name, scenario.known());
    (!scenario.is_lost(name)).then(fault)
}

/// Works `formula in unit` out, or a formula alone whose result is a bare number. A fault has bytes of the text.
pub(super) fn number(text: &str, scenario: &Scenario, mark: DecimalMark) -> Result<String, Vec<FormulaFault>> {
    let (formula, unit) = split(text);
    let start = formula.len() - formula.trim_start().len();
    let formula_range = start..start + formula.trim().len();
    let moved = |faults: Vec<FormulaFault>| {
        let own = faults.into_iter().filter(|fault| !names_lost(fault, scenario));
        own.map(|fault| fault.map(|span| shifted(&span, start))).collect::<Vec<_>>()
    };
    let read = Formula::read(&text[formula_range.clone()], &scenario.names, None).map_err(moved)?;
    let asked = unit.clone().and_then(|range| units::find(&text[range]));
    let read = read.in_units(asked.as_slice());
    let unit = unit.map(|range| in_unit(text, range, read.kind())).transpose().map_err(|fault| vec![fault])?;
    if unit.is_none() && !read.is_bare() {
        return Err(vec![FormulaFault::at(Code::ComputedWithoutUnit, formula_range).with("kind", read.kind().told())]);
    }
    let value = read.evaluate(scenario.scope_of(&read, unit)).map_err(|error| {
        let (relation, reason) = reason(&error);
        vec![FormulaFault::at(Code::ComputedNoValue, formula_range).with("relation", relation).with("reason", reason)]
    })?;
    Ok(display::computed(value, unit, read.rounding(), mark))
}

/// Whether a fault is only that a name is not known whose value has a fault of its own.
pub(super) fn names_lost(fault: &FormulaFault, scenario: &Scenario) -> bool {
    fault.code == Code::FormulaUnknownName && fault.raw("found").is_some_and(|name| scenario.is_lost(name))
}

/// The relation that gives no value, and the word for why.
fn reason(error: &EvaluateError) -> (&str, &'static str) {
    match error {
        EvaluateError::Relation(relation, error) => (relation, error.id()),
        EvaluateError::NotFinite => ("", "not_finite"),
        EvaluateError::Unfit => ("", "unfit"),
    }
}

/// The formula, and the bytes of the unit after its last ` in `.
fn split(text: &str) -> (&str, Option<Range<usize>>) {
    match text.rfind(" in ") {
        Some(at) => {
            let unit = &text[at + 4..];
            let start = at + 4 + (unit.len() - unit.trim_start().len());
            (&text[..at], Some(start..start + unit.trim().len()))
        }
        None => (text, None),
    }
}

fn in_unit(text: &str, range: Range<usize>, kind: Kind) -> Result<&'static Unit, FormulaFault> {
    let symbol = &text[range.clone()];
    let menu = || units::for_kind(kind).map(|unit| unit.symbol).collect::<Vec<_>>().join(", ");
    let unit = units::find(symbol)
        .ok_or_else(|| FormulaFault::at(Code::UnitUnknown, range.clone()).with("unit", symbol).with("known", menu()))?;
    if unit.measures(kind) {
        return Ok(unit);
    }
    if units::for_kind(kind).next().is_none() {
        return Err(FormulaFault::at(Code::UnitForProduct, range).with("found", kind.told()));
    }
    Err(FormulaFault::at(Code::UnitOfAnotherKind, range)
        .with("unit", symbol)
        .with("kind", kind.id())
        .with("known", menu()))
}

/// Bytes of a part of a text as bytes of the text.
pub(super) fn shifted(span: &Range<usize>, by: usize) -> Range<usize> {
    span.start + by..span.end + by
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(text: &str) -> String {
        number(text, &Scenario::default(), DecimalMark::Point).expect("a number").replace('\u{a0}', " ")
    }

    fn refused(text: &str) -> (Code, &str) {
        let faults = number(text, &Scenario::default(), DecimalMark::Point).expect_err("a fault");
        (faults[0].code, &text[faults[0].place.clone()])
    }

    #[test]
    fn numbers_are_worked_and_shown_in_the_unit() {
        assert_eq!(shown(" opening_accumulation(full_open: 110 psig, opening: 100 psig) in psi"), "10 psi");
        assert_eq!(shown(" bore_area(bore: 1.5 in) in in2"), "1.767 in²");
        assert_eq!(shown("3 in + 1 in in in"), "4 in");
        assert_eq!(shown("2 * 3"), "6");
    }

    #[test]
    fn faults_have_their_bytes() {
        assert_eq!(refused(" 3 psi in furlong"), (Code::UnitUnknown, "furlong"));
        assert_eq!(refused(" 3 psi in mm"), (Code::UnitOfAnotherKind, "mm"));
        assert_eq!(refused(" 3 psi"), (Code::ComputedWithoutUnit, "3 psi"));
        assert_eq!(refused(" bore_area(bore: bore) in in2").1, "bore");
    }
}
