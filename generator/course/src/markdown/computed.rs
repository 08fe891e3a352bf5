//! Numbers in a text that the calculation core works out: `{= formula in unit}`.

use std::ops::Range;

use problems::display;
use problems::formula::{EvaluateError, Formula, FormulaFault, Names, Scope};
use relief::Kind;
use relief::units::{self, Unit};

use super::run::Run;
use super::writer::Writer;
use crate::fault::Fault;
use problems::template::escape;

impl Writer<'_, '_> {
    /// Writes the number that stands between `{=` and `}`.
    pub(super) fn computed(&mut self, run: &Run, inner: &Range<usize>) {
        match number(&run.text[inner.clone()], self.mark()) {
            Ok(shown) => {
                let html = format!("<span class=\"computed\">{}</span>", escape(&shown));
                self.write_html(&html);
            }
            Err(faults) => {
                for fault in faults {
                    let at = inner.start + fault.span.start..inner.start + fault.span.end;
                    let place = self.text.place(&run.range(&at));
                    self.faults.push(Fault::from_values(fault.code, place, fault.values));
                }
            }
        }
    }

    fn mark(&self) -> display::Mark {
        if self.shelf.decimal_mark == ',' { display::Mark::Comma } else { display::Mark::Point }
    }
}

/// Works `formula in unit` out, or a formula alone whose result is a bare number.
fn number(text: &str, mark: display::Mark) -> Result<String, Vec<FormulaFault>> {
    let (formula, unit) = split(text);
    let start = formula.len() - formula.trim_start().len();
    let formula_range = start..start + formula.trim().len();
    let moved = |faults: Vec<FormulaFault>| {
        let shift =
            |fault: FormulaFault| FormulaFault { span: fault.span.start + start..fault.span.end + start, ..fault };
        faults.into_iter().map(shift).collect::<Vec<_>>()
    };
    let read = Formula::read(&text[formula_range.clone()], &Names::new(), None).map_err(moved)?;
    let unit = unit.map(|range| in_unit(text, range, read.kind())).transpose().map_err(|fault| vec![fault])?;
    if unit.is_none() && read.kind() != Kind::Number {
        return Err(vec![fault("computed-without-unit", formula_range).with_value("kind", read.kind().id())]);
    }
    let value = read.evaluate(&Scope::default()).map_err(|error| {
        let (relation, reason) = reason(&error);
        vec![fault("computed-no-value", formula_range).with_value("relation", relation).with_value("reason", reason)]
    })?;
    Ok(display::computed(value, unit, read.rounding(), mark))
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
    let known = || units::for_kind(kind).map(|unit| unit.symbol).collect::<Vec<_>>().join(", ");
    let unit = units::UNITS.iter().find(|unit| unit.symbol == symbol);
    let unit = unit
        .ok_or_else(|| fault("unit-unknown", range.clone()).with_value("unit", symbol).with_value("known", known()))?;
    if unit.measures(kind) {
        return Ok(unit);
    }
    Err(fault("unit-of-another-kind", range)
        .with_value("unit", symbol)
        .with_value("kind", kind.id())
        .with_value("known", known()))
}

fn fault(code: &'static str, span: Range<usize>) -> FormulaFault {
    FormulaFault { code, span, values: Vec::new() }
}

trait WithValue {
    fn with_value(self, name: &'static str, value: impl ToString) -> Self;
}

impl WithValue for FormulaFault {
    fn with_value(mut self, name: &'static str, value: impl ToString) -> Self {
        self.values.push((name, value.to_string()));
        self
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(text: &str) -> String {
        number(text, display::Mark::Point).expect("a number").replace('\u{a0}', " ")
    }

    fn refused(text: &str) -> (&'static str, &str) {
        let faults = number(text, display::Mark::Point).expect_err("a fault");
        (faults[0].code, &text[faults[0].span.clone()])
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
        assert_eq!(refused(" 3 psi in furlong"), ("unit-unknown", "furlong"));
        assert_eq!(refused(" 3 psi in mm"), ("unit-of-another-kind", "mm"));
        assert_eq!(refused(" 3 psi"), ("computed-without-unit", "3 psi"));
        assert_eq!(refused(" bore_area(bore: bore) in in2").1, "bore");
    }
}
