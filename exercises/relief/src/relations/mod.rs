//! The registry: every relation once, by family.

pub mod bench;
pub mod coil;
pub mod gas;
pub mod liquid;
pub mod orifice;
pub mod pressures;
mod rows;
pub mod settings;
pub mod spring;
pub mod viscosity;

use crate::relation::Relation;

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

/// The law must not be asked for what it does not know, so a walk over the registry checks what Rust cannot.
#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Quantity;
    use crate::relation::{Argument, Form, Gives, Input, MOST_INPUTS, RelationError, Status};
    use crate::system::System;

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
