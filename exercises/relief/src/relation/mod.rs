//! What a relation is: its inputs, outputs, law, source and function, in one row of the registry.

mod error;
mod forms;
mod inputs;
mod outputs;
mod range;
mod run;
mod source;

pub use error::RelationError;
pub use forms::{Forms, Printed, Units};
pub use inputs::{Argument, Arguments, Default, Form, Input, Role};
pub use outputs::{Gives, Output, Outputs, SafeSide};
pub use range::{Bound, Range};
pub use run::{Formulas, Run, Step};
pub use source::{Source, Status};

use crate::kind::Kind;
use crate::system::{Manner, System};
use crate::units::Unit;

/// The most inputs a relation may have; a test walks the registry against it.
pub const MOST_INPUTS: usize = 12;

/// One relation of the registry.
#[derive(Debug)]
pub struct Relation {
    /// The name, the same on the command line, in recipes and in addresses.
    pub id: &'static str,
    /// The name by which what is compiled finds it again. That of the core is its id; one of a course also says by a digest
    /// what it holds, so that another course may have another one of the same id.
    pub key: &'static str,
    /// What it takes, in order.
    pub inputs: &'static [Input],
    /// What it gives; the first is the one meant where none is named.
    pub outputs: &'static [Output],
    /// The law, once for each form in which the trade prints it.
    pub forms: Forms,
    /// What it gives on the way to its result.
    pub steps: &'static [Step],
    /// The units of its result in customary units and in SI, where they are not the usual ones of its kind.
    pub units: Option<[&'static Unit; 2]>,
    /// How it is worked.
    pub run: Run,
}

impl PartialEq for Relation {
    fn eq(&self, other: &Self) -> bool {
        self.key == other.key
    }
}

impl Relation {
    /// The kind of its first output.
    #[must_use]
    pub fn kind(&self) -> Kind {
        match self.outputs[0].gives {
            Gives::Quantity(kind) => kind,
            Gives::Choice(_) => Kind::Number,
        }
    }

    /// The place and row of the output with a name.
    #[must_use]
    pub fn output(&self, name: &str) -> Option<(usize, &'static Output)> {
        self.outputs.iter().enumerate().find(|(_, output)| output.name == name)
    }

    /// The place and row of the input with a name.
    #[must_use]
    pub fn input(&self, name: &str) -> Option<(usize, &'static Input)> {
        self.inputs.iter().enumerate().find(|(_, input)| input.name == name)
    }

    /// The place of the input in a role.
    #[must_use]
    pub fn in_role(&self, role: Role) -> Option<usize> {
        self.inputs.iter().position(|input| input.role == role)
    }

    /// Works the SI form of the relation for named arguments.
    ///
    /// # Errors
    /// As [`Relation::evaluate_in`].
    pub fn evaluate(&self, given: &[(&str, Argument)]) -> Result<Outputs, RelationError> {
        self.evaluate_in(given, Manner::unrounded(System::Si))
    }

    /// Works the relation for named arguments, in a manner.
    ///
    /// # Errors
    /// [`RelationError`], by its rule; there is never a panic or a result that is not finite.
    pub fn evaluate_in(&self, given: &[(&str, Argument)], manner: Manner) -> Result<Outputs, RelationError> {
        let mut ordered = [None; MOST_INPUTS];
        for (place, (name, value)) in given.iter().enumerate() {
            let (index, input) = self.input(name).ok_or(RelationError::Unknown { place })?;
            if ordered[index].replace(*value).is_some() {
                return Err(RelationError::Repeated { input: input.name });
            }
        }
        let mut complete = [Argument::Choice(""); MOST_INPUTS];
        for (index, input) in self.inputs.iter().enumerate() {
            let default = input.default.as_ref().map(|default| default.value);
            complete[index] = ordered[index].or(default).ok_or(RelationError::Missing { input: input.name })?;
        }
        self.evaluate_ordered(&complete[..self.inputs.len()], manner)
    }

    /// Works the relation for a complete list of arguments in the order of its inputs.
    ///
    /// # Errors
    /// As [`Relation::evaluate_in`].
    pub fn evaluate_ordered(&self, arguments: &[Argument], manner: Manner) -> Result<Outputs, RelationError> {
        let admitted = self.inputs.len() == arguments.len()
            && self.inputs.iter().zip(arguments).all(|(input, given)| input.admits(given));
        if !admitted {
            return Err(self.refusal(arguments));
        }
        let outputs = self.run.work(&Arguments { given: arguments, manner })?;
        let second = if let Outputs::Two(_, value) = outputs { value.si } else { 0.0 };
        if outputs.first().si.is_finite() && second.is_finite() { Ok(outputs) } else { Err(RelationError::NotFinite) }
    }
}

impl Relation {
    /// Whether it came with a course.
    #[must_use]
    pub fn is_own(&self) -> bool {
        matches!(self.run, Run::Formulas(_))
    }

    /// The unit of its result in a system, where it has one of its own.
    #[must_use]
    pub fn unit_in(&self, system: System) -> Option<&'static Unit> {
        let [us, si] = self.units?;
        Some(if system == System::Us { us } else { si })
    }

    /// Why a list of arguments is refused. Apart from the check itself, which runs far more often.
    #[cold]
    fn refusal(&self, arguments: &[Argument]) -> RelationError {
        let checks = self.inputs.iter().enumerate().map(|(index, input)| input.check(arguments.get(index)));
        checks.filter_map(Result::err).next().unwrap_or(RelationError::Unknown { place: self.inputs.len() })
    }
}
