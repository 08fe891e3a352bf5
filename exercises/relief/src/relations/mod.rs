//! The registry: every relation once, by family.

pub mod bench;
pub mod coil;
pub mod gas;
pub mod liquid;
pub mod orifice;
pub mod pressures;
pub mod settings;
pub mod spring;
pub mod viscosity;

use crate::kind::Kind;
use crate::quantity::{Gauge, Quantity, Typed};
use crate::relation::{
    Argument, Default, Form, Forms, Gives, Input, Output, Outputs, Printed, Range, Relation, RelationError, SafeSide,
    Source,
};
use crate::text;

/// Relations that belong together: one reference page.
#[derive(Debug)]
pub struct Family {
    /// The name, the same in addresses and words.
    pub id: &'static str,
    /// Its relations, in the order of the page.
    pub relations: &'static [Relation],
}

/// Every family, in the order of the reference.
pub const FAMILIES: &[Family] = &[
    Family { id: "pressures", relations: pressures::RELATIONS },
    Family { id: "settings", relations: settings::RELATIONS },
    Family { id: "spring", relations: spring::RELATIONS },
    Family { id: "coil", relations: coil::RELATIONS },
    Family { id: "orifice", relations: orifice::RELATIONS },
    Family { id: "liquid", relations: liquid::RELATIONS },
    Family { id: "viscosity", relations: viscosity::RELATIONS },
    Family { id: "gas", relations: gas::RELATIONS },
    Family { id: "steam", relations: gas::STEAM },
    Family { id: "bench", relations: bench::RELATIONS },
];

/// Every relation, in the order of the families.
pub fn relations() -> impl Iterator<Item = &'static Relation> {
    FAMILIES.iter().flat_map(|family| family.relations)
}

/// The relation with an id.
#[must_use]
pub fn find(id: &str) -> Option<&'static Relation> {
    relations().find(|relation| relation.id == id)
}

/// The highest pressure that any relation takes: far above any relief valve, low enough that no product overflows.
const PRESSURE: f64 = 1e9;
/// The greatest length that any relation takes (metre).
const LENGTH: f64 = 1e2;

/// The units of a printed law.
type Units = &'static [(Kind, &'static str)];

/// A law as it is printed in the usual units.
const fn printed(law: &'static str, source: Source) -> Printed {
    printed_in(law, &[], source)
}

const fn printed_in(law: &'static str, units: Units, source: Source) -> Printed {
    Printed { law: text(law), units, source: Source { document: text(source.document), status: source.status } }
}

/// One form that serves both systems.
const fn same(law: &'static str, source: Source) -> Forms {
    Forms::Same(printed(law, source))
}

/// The two forms of one formula: what either gives is right.
const fn each(us: Printed, si: Printed) -> Forms {
    Forms::Each { us, si }
}

/// One law whose numbers a code states for each system.
const fn stated(law: &'static str, source: Source) -> Forms {
    let si = Source { document: source.document, status: source.status };
    Forms::BySystem { us: printed(law, source), si: printed(law, si) }
}

const fn quantity(name: &'static str, symbol: &'static str, kind: Kind, range: Range) -> Input {
    Input { name, symbol: text(symbol), form: Form::Quantity(kind, range), default: None }
}

/// A gauge pressure from zero up.
const fn gauge(name: &'static str, symbol: &'static str) -> Input {
    quantity(name, symbol, Kind::Gauge, Range::from_zero(PRESSURE))
}

/// A gauge pressure above zero, at which something is set or opens.
const fn opens(name: &'static str, symbol: &'static str) -> Input {
    quantity(name, symbol, Kind::Gauge, Range::positive(PRESSURE))
}

const fn length(name: &'static str, symbol: &'static str) -> Input {
    quantity(name, symbol, Kind::Length, Range::positive(LENGTH))
}

const fn number(name: &'static str, symbol: &'static str, range: Range) -> Input {
    quantity(name, symbol, Kind::Number, range)
}

/// A number with a usual value.
const fn number_from(
    name: &'static str,
    symbol: &'static str,
    range: Range,
    usual: f64,
    source: &'static str,
) -> Input {
    let value = Argument::Quantity(Quantity::new(usual, Kind::Number));
    let default = Some(Default { value, source: text(source) });
    Input { name, symbol: text(symbol), form: Form::Quantity(Kind::Number, range), default }
}

/// A correction factor of a sizing formula, with its usual value.
const fn ratio(name: &'static str, symbol: &'static str, usual: f64, source: &'static str) -> Input {
    number_from(name, symbol, Range::between(0.01, 2.0), usual, source)
}

/// A size: rounded up when it is shown.
const fn size(name: &'static str, symbol: &'static str) -> Output {
    Output { name, symbol: text(symbol), gives: Gives::Quantity(Kind::Area), safe_side: SafeSide::Up }
}

const fn output(name: &'static str, symbol: &'static str, kind: Kind) -> Output {
    Output { name, symbol: text(symbol), gives: Gives::Quantity(kind), safe_side: SafeSide::Neither }
}

/// The slack of a limit: a whole psi does not always come back whole from SI units.
const SLACK: f64 = 1e-9;

/// Whether a number lies above a limit, by more than the last bits of a conversion.
pub(crate) fn above(value: f64, limit: f64) -> bool {
    value > limit * (1.0 + SLACK)
}

#[expect(clippy::unnecessary_wraps, reason = "the shape that a relation's function has")]
fn one(value: impl Typed) -> Result<Outputs, RelationError> {
    Ok(Outputs::One(value.quantity()))
}

/// Refuses two inputs of which the first is above the second.
fn in_order<Q: Typed>(low: (&'static str, Q), high: (&'static str, Q)) -> Result<(), RelationError> {
    if low.1.si() <= high.1.si() { Ok(()) } else { Err(RelationError::Order { low: low.0, high: high.0 }) }
}

/// Refuses two inputs of which the first is not below the second.
fn below<Q: Typed>(low: (&'static str, Q), high: (&'static str, Q)) -> Result<(), RelationError> {
    if low.1.si() < high.1.si() { Ok(()) } else { Err(RelationError::Order { low: low.0, high: high.0 }) }
}

/// Refuses a pressure below zero, which an input has left.
fn something_left(pressure: Gauge, input: &'static str) -> Result<Gauge, RelationError> {
    if pressure.si() >= 0.0 { Ok(pressure) } else { Err(RelationError::NothingLeft { input }) }
}

/// The larger of two quantities of one kind.
fn larger<Q: Typed>(one: Q, other: Q) -> Q {
    if one.si() >= other.si() { one } else { other }
}

/// The law must not be asked for what it does not know, so a walk over the registry checks what Rust cannot.
#[cfg(test)]
mod tests {
    use super::*;
    use crate::System;
    use crate::relation::{MOST_INPUTS, Status};

    #[test]
    fn ids_are_unique_and_snake_case() {
        let relations: Vec<_> = relations().map(|relation| relation.id).collect();
        for mut ids in [relations, crate::tables::tables().map(|table| table.id).collect()] {
            assert!(ids.iter().all(|id| id.bytes().all(|byte| byte.is_ascii_lowercase() || byte == b'_')));
            let count = ids.len();
            ids.sort_unstable();
            ids.dedup();
            assert_eq!(ids.len(), count);
        }
    }

    #[test]
    fn every_law_names_every_input_and_its_first_output() {
        for relation in relations() {
            let names = relation.inputs.iter().filter(|input| matches!(input.form, Form::Quantity(..)));
            for name in names.map(|input| input.name).chain([relation.outputs[0].name]) {
                let has = |system| relation.forms.of(system).law.contains(&format!("#{name}"));
                assert!(System::BOTH.into_iter().all(has), "{}: #{name}", relation.id);
            }
            assert!(relation.inputs.len() <= MOST_INPUTS && !relation.outputs.is_empty(), "{}", relation.id);
        }
    }

    #[test]
    fn every_source_says_where_it_comes_from() {
        for relation in relations() {
            for source in System::BOTH.map(|system| &relation.forms.of(system).source) {
                let named = !source.document.is_empty();
                assert!(named || source.status != Status::Read, "{}", relation.id);
                let remembered = source.document.contains("from memory");
                assert_eq!(remembered, source.status == Status::Partly, "{}", relation.id);
            }
            for input in relation.inputs {
                assert!(input.default.as_ref().is_none_or(|default| !default.source.is_empty()), "{}", input.name);
            }
        }
    }

    #[test]
    fn kinds_of_results_are_the_declared_ones() {
        for relation in relations() {
            let given: Vec<_> = relation.inputs.iter().map(|input| (input.name, middling(input))).collect();
            match relation.evaluate(&given) {
                Ok(outputs) => {
                    for (index, output) in relation.outputs.iter().enumerate() {
                        match (outputs.get(index), output.gives) {
                            (Some(Argument::Quantity(value)), Gives::Quantity(kind)) => {
                                assert_eq!(value.kind, kind, "{}", relation.id);
                            }
                            (Some(Argument::Choice(name)), Gives::Choice(names)) => assert!(names.contains(&name)),
                            other => panic!("{}: {other:?}", relation.id),
                        }
                    }
                }
                // The middle of some ranges is another relation's.
                Err(
                    RelationError::Subcritical { .. } | RelationError::Critical { .. } | RelationError::TooLarge { .. },
                ) => {}
                Err(error) => panic!("{}: {error}", relation.id),
            }
        }
    }

    /// A lawful value for every input: the same share of the range, so that none is out of order, or its end.
    fn middling(input: &Input) -> Argument {
        match &input.form {
            Form::Quantity(kind, range) => {
                // A wire is thinner than its coil, a solid spring shorter than a free one, back pressure below relieving.
                let share = range.high * if ["wire", "solid", "back"].contains(&input.name) { 0.001 } else { 0.01 };
                let si = if range.contains(share) { share } else { range.high };
                Argument::Quantity(Quantity::new(si, *kind))
            }
            Form::Choice(known) => Argument::Choice(known[0]),
        }
    }
}
