//! What is wrong with a row.

use std::collections::BTreeSet;

use super::draws::Draws;
use crate::kind::Kind;
use crate::law_units::{law_unit, result_unit};
use crate::relation::{Argument, Form, Gives, Input, MOST_INPUTS, Outputs, Relation, RelationError, Role};
use crate::relations::find;
use crate::system::{Manner, System};
use crate::units;

type Result = core::result::Result<Outputs, RelationError>;

/// How many times each relation is worked.
const WORKED: usize = 4_000;

/// Everything that is wrong with a row, and the codes of the errors that it gave.
pub(super) fn faults(relation: &'static Relation) -> (BTreeSet<String>, BTreeSet<&'static str>) {
    let mut row = Row { relation, faults: BTreeSet::new(), errors: BTreeSet::new() };
    row.inputs();
    row.laws();
    row.units();
    row.roles();
    row.work();
    (row.faults, row.errors)
}

struct Row {
    relation: &'static Relation,
    faults: BTreeSet<String>,
    errors: BTreeSet<&'static str>,
}

impl Row {
    fn hold(&mut self, holds: bool, fault: impl FnOnce() -> String) {
        if !holds {
            self.faults.insert(fault());
        }
    }

    fn inputs(&mut self) {
        let names: Vec<_> = self.relation.inputs.iter().map(|input| input.name).collect();
        self.hold(names.len() <= MOST_INPUTS && !self.relation.outputs.is_empty(), || "count of inputs".to_owned());
        for input in self.relation.inputs {
            self.hold(names.iter().filter(|name| **name == input.name).count() == 1, || {
                format!("{} twice", input.name)
            });
            let usual = input.default.as_ref().map(|default| default.value);
            self.hold(usual.is_none_or(|usual| input.admits(&usual)), || format!("usual value of {}", input.name));
        }
    }

    /// Every law names each quantity that goes in and the first that comes out, and nothing else.
    fn laws(&mut self) {
        for system in System::BOTH {
            let named: BTreeSet<_> = names_in(self.relation.forms.of(system).law).collect();
            let quantities = self.relation.inputs.iter().filter(|input| matches!(input.form, Form::Quantity(..)));
            for name in quantities.map(|input| input.name).chain([self.relation.outputs[0].name]) {
                self.hold(named.contains(name), || format!("law without #{name}"));
            }
            for name in named {
                let known = self.relation.input(name).is_some() || self.relation.output(name).is_some();
                self.hold(known, || format!("law with unknown #{name}"));
            }
        }
    }

    /// The units of a law measure what is in it. A law that joins pressures with areas, forces or springs has units
    /// for its pressures: the usual bar goes with none of them.
    fn units(&mut self) {
        let kinds: Vec<Kind> = self.kinds().collect();
        let joins = kinds.iter().any(|kind| matches!(kind, Kind::Area | Kind::Force | Kind::SpringRate));
        for kind in kinds {
            let pressure = kind.is_pressure() || kind == Kind::Stress;
            let said = law_unit(self.relation, kind, System::Si).is_some();
            self.hold(said || !(joins && pressure), || format!("no unit for {}", kind.id()));
        }
        for system in System::BOTH {
            for (kind, symbol) in self.relation.forms.of(system).units {
                let measures = symbol.is_empty() || units::of_symbol(symbol).is_some_and(|unit| unit.measures(*kind));
                self.hold(measures, || format!("{symbol} for {}", kind.id()));
            }
        }
        for output in self.relation.outputs.iter().filter(|output| output.stated_in.is_some()) {
            let measures = result_unit(self.relation).is_some_and(|unit| unit.measures(self.relation.kind()));
            self.hold(measures && output.name == self.relation.outputs[0].name, || format!("unit of {}", output.name));
        }
    }

    /// The kinds of all quantities that go in or come out.
    fn kinds(&self) -> impl Iterator<Item = Kind> + use<> {
        let taken = self.relation.inputs.iter().filter_map(Input::kind);
        taken.chain(self.relation.outputs.iter().filter_map(|output| match output.gives {
            Gives::Quantity(kind) => Some(kind),
            Gives::Choice(_) => None,
        }))
    }

    /// A share of a gauge pressure says which one, and a bore is a length.
    fn roles(&mut self) {
        let count = |role| self.relation.inputs.iter().filter(|input| input.role == role).count();
        let takes_gauge = self.relation.inputs.iter().any(|input| input.kind() == Some(Kind::Gauge));
        let shares = usize::from(takes_gauge && self.relation.kind() == Kind::Ratio);
        self.hold(count(Role::Whole) == shares, || "whole of a share".to_owned());
        let bores = self.relation.inputs.iter().filter(|input| input.role == Role::Bore);
        self.hold(bores.clone().all(|input| input.kind() == Some(Kind::Length)), || "kind of a bore".to_owned());
    }

    /// Works the relation for many arguments: what it gives is what it says, each input makes a difference, and errors
    /// speak of inputs and relations that there are.
    fn work(&mut self) {
        let mut draws = Draws::new();
        let mut felt = BTreeSet::new();
        for turn in 0..WORKED {
            let manner = Manner::unrounded(System::BOTH[turn % 2]);
            let arguments = draws.arguments(self.relation);
            let result = self.relation.evaluate_ordered(&arguments, manner);
            self.result(&arguments, result);
            for (index, input) in self.relation.inputs.iter().enumerate() {
                let mut others = arguments.clone();
                others[index] = draws.argument(input, 0.5);
                if self.relation.evaluate_ordered(&others, manner) != result {
                    felt.insert(input.name);
                }
            }
        }
        for input in self.relation.inputs {
            self.hold(felt.contains(input.name), || format!("{} makes no difference", input.name));
        }
    }

    fn result(&mut self, arguments: &[Argument], result: Result) {
        match result {
            Ok(outputs) => {
                self.outputs(&outputs);
                self.share(arguments, outputs.first().si);
            }
            Err(error) => self.error(&error),
        }
    }

    fn outputs(&mut self, outputs: &Outputs) {
        for (place, output) in self.relation.outputs.iter().enumerate() {
            let holds = match (outputs.get(place), output.gives) {
                (Some(Argument::Quantity(value)), Gives::Quantity(kind)) => value.kind == kind,
                (Some(Argument::Choice(name)), Gives::Choice(names)) => names.contains(&name),
                _ => false,
            };
            self.hold(holds, || format!("what {} gives", output.name));
        }
        self.hold(outputs.get(self.relation.outputs.len()).is_none(), || "an output too many".to_owned());
    }

    /// A share of the whole is a difference that goes in, or how far another pressure is from the whole.
    fn share(&mut self, arguments: &[Argument], share: f64) {
        let given = || self.relation.inputs.iter().zip(arguments);
        let quantity = |argument: &Argument| if let Argument::Quantity(value) = argument { Some(*value) } else { None };
        let whole = given().find(|(input, _)| input.role == Role::Whole);
        let Some(whole) = whole.and_then(|(_, argument)| quantity(argument)) else { return };
        let parts = given().filter_map(|(_, argument)| quantity(argument)).map(|value| match value.kind {
            Kind::Difference => value.si,
            _ => value.si - whole.si,
        });
        let near = |part: f64| ((share * whole.si).abs() - part.abs()).abs() <= 1e-9 * (part.abs() + whole.si);
        let holds = parts.into_iter().any(near);
        self.hold(holds, || "share of another whole".to_owned());
    }

    fn error(&mut self, error: &RelationError) {
        self.errors.insert(error.id());
        let (inputs, instead) = match *error {
            RelationError::Order { low, high } => (vec![low, high], None),
            RelationError::NothingLeft { input }
            | RelationError::TooLarge { input }
            | RelationError::OutOfRange { input, .. } => (vec![input], None),
            RelationError::FactorNeeded { input, instead } => (vec![input], Some(instead)),
            RelationError::Subcritical { instead } | RelationError::Critical { instead } => (Vec::new(), Some(instead)),
            RelationError::NotFinite => (Vec::new(), None),
            _ => return self.hold(false, || format!("{} for lawful arguments", error.id())),
        };
        for name in inputs {
            self.hold(self.relation.input(name).is_some(), || format!("error of unknown {name}"));
        }
        self.hold(instead.is_none_or(|id| find(id).is_some()), || format!("error with unknown {instead:?}"));
    }
}

/// The names that a law holds places for.
fn names_in(law: &str) -> impl Iterator<Item = &str> {
    let is_name = |next: char| next.is_ascii_alphanumeric() || next == '_';
    law.split('#').skip(1).map(move |rest| rest.split(|next| !is_name(next)).next().unwrap_or_default())
}
