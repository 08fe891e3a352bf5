//! A relation worked from what someone typed: on the command line, in a lesson, in a calculator.

use relief::units::{self, Unit};
use relief::{Argument, Form, Kind, Outputs, Quantity, Relation, RelationError, Rounding, law_unit};
use serde::Serialize;
use std::collections::BTreeMap;

use crate::answer::{Reading, read};
use crate::display::{FIGURES, Mark, unit_text, usual_unit};
use crate::recipe::System;

/// A worked relation.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Worked {
    /// The relation.
    pub relation: &'static str,
    /// The number in the unit.
    pub value: f64,
    /// The unit; none for a bare number.
    pub unit: Option<String>,
    /// The number as it is read, rounded to the safe side.
    pub shown: String,
    /// The second output where there is one: its name, and what it gives as it is read or as a choice.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub also: Option<Also>,
    /// The inputs as they stand in the law, in units that belong to its constants.
    pub put_in: BTreeMap<&'static str, String>,
    /// The result in the unit that the law gives, where that is not the one asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub by_law: Option<String>,
    /// Where the law comes from: document, edition and clause; empty for common practice and definitions.
    pub source: &'static str,
    /// How well the source is known.
    pub status: &'static str,
}

/// The second output of a relation.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Also {
    /// Its name.
    pub name: &'static str,
    /// As it is read, where it is a quantity.
    pub shown: Option<String>,
    /// The name of the choice, where it is one.
    pub choice: Option<&'static str>,
}

/// Why a relation could not be worked.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct WorkFault {
    /// The rule that was broken.
    pub code: &'static str,
    /// The input that is to blame, where one is.
    pub input: Option<String>,
    /// What a message needs to know.
    pub values: BTreeMap<&'static str, String>,
}

impl WorkFault {
    fn new(code: &'static str, input: Option<&str>) -> Self {
        Self { code, input: input.map(str::to_owned), values: BTreeMap::new() }
    }

    fn with(mut self, name: &'static str, value: impl Into<String>) -> Self {
        self.values.insert(name, value.into());
        self
    }
}

/// Works a relation for inputs as they were typed: a number with a unit (without one, in the usual unit of the system),
/// or a named choice. The result is given in a unit, or in the usual one.
///
/// # Errors
/// [`WorkFault`]: an unknown relation, input or unit, a text that is no number, or what the relation itself refuses.
pub fn work(
    relation: &str,
    given: &[(String, String)],
    unit: Option<&str>,
    system: System,
    mark: Mark,
) -> Result<Worked, WorkFault> {
    let relation =
        relief::find(relation).ok_or_else(|| WorkFault::new("unknown_relation", None).with("found", relation))?;
    let mut arguments = Vec::new();
    for (name, text) in given {
        arguments.push((name.as_str(), argument(relation, name, text, system, mark)?));
    }
    let outputs = relation.evaluate(&arguments).map_err(|error| refused(&error, system))?;
    let output = &relation.outputs[0];
    let unit = result_unit(unit, relation, system)?;
    let value = unit.map_or(outputs.first().si, |unit| unit.value(outputs.first()));
    Ok(Worked {
        relation: relation.id,
        value,
        unit: unit.map(|unit| unit.symbol.to_owned()),
        shown: crate::display::computed(outputs.first(), unit, output.safe_side.into(), mark),
        put_in: put_in(relation, &arguments, given, system, mark),
        by_law: law_unit(relation, relation.kind(), system == System::Si)
            .filter(|law| Some(*law) != unit)
            .map(|law| crate::display::computed(outputs.first(), Some(law), output.safe_side.into(), mark)),
        also: also(relation, &outputs, unit, system, mark),
        source: relation.source.document,
        status: relation.source.status.id(),
    })
}

/// The inputs as they stand in the law: as they were typed, or in the law's own unit.
fn put_in(
    relation: &'static Relation,
    arguments: &[(&str, Argument)],
    given: &[(String, String)],
    system: System,
    mark: Mark,
) -> BTreeMap<&'static str, String> {
    let mut all = BTreeMap::new();
    for ((name, argument), (_, typed)) in arguments.iter().zip(given) {
        let Some((_, input)) = relation.input(name) else { continue };
        let unit = match argument {
            Argument::Quantity(quantity) => {
                law_unit(relation, quantity.kind, system == System::Si).zip(Some(*quantity))
            }
            Argument::Choice(_) => None,
        };
        let text = unit.map_or_else(
            || typed.trim().to_owned(),
            |(unit, quantity)| crate::display::computed(quantity, Some(unit), Rounding::Nearest, mark),
        );
        all.insert(input.name, text);
    }
    all
}

/// The second output; in the unit of the first where that fits.
fn also(
    relation: &'static Relation,
    outputs: &Outputs,
    unit: Option<&Unit>,
    system: System,
    mark: Mark,
) -> Option<Also> {
    let output = relation.outputs.get(1)?;
    let (shown, choice) = match outputs.get(1)? {
        Argument::Choice(name) => (None, Some(name)),
        Argument::Quantity(value) => {
            let unit = unit.filter(|unit| unit.measures(value.kind)).or(usual_unit(value.kind, system));
            (Some(crate::display::computed(value, unit, output.safe_side.into(), mark)), None)
        }
    };
    Some(Also { name: output.name, shown, choice })
}

fn result_unit(text: Option<&str>, relation: &Relation, system: System) -> Result<Option<&'static Unit>, WorkFault> {
    let kind = relation.kind();
    let Some(text) = text.map(str::trim).filter(|text| !text.is_empty()) else {
        return Ok(relief::result_unit(relation).or(usual_unit(kind, system)));
    };
    let fault = |code| WorkFault::new(code, None).with("found", text).with("known", menu(kind));
    let unit = units::find(text).ok_or_else(|| fault("unknown_unit"))?;
    if unit.measures(kind) { Ok(Some(unit)) } else { Err(fault("unit_of_another_kind")) }
}

fn argument(
    relation: &'static Relation,
    name: &str,
    text: &str,
    system: System,
    mark: Mark,
) -> Result<Argument, WorkFault> {
    let known = || relation.inputs.iter().map(|input| input.name).collect::<Vec<_>>().join(", ");
    let (_, input) = relation.input(name).ok_or_else(|| {
        WorkFault::new("unknown_input", Some(name)).with("relation", relation.id).with("known", known())
    })?;
    match &input.form {
        Form::Choice(names) => {
            let fault =
                || WorkFault::new("wrong_choice", Some(name)).with("found", text).with("known", names.join(", "));
            names.iter().find(|known| **known == text.trim()).map(|known| Argument::Choice(known)).ok_or_else(fault)
        }
        Form::Quantity(kind, _) => quantity(name, text, *kind, system, mark).map(Argument::Quantity),
    }
}

fn quantity(name: &str, text: &str, kind: Kind, system: System, mark: Mark) -> Result<Quantity, WorkFault> {
    let fault = |code| WorkFault::new(code, Some(name)).with("found", text).with("known", menu(kind));
    match read(text, mark) {
        Reading::Blank => Err(fault("blank")),
        Reading::Unreadable => Err(fault("unreadable")),
        Reading::UnknownUnit(unit) => Err(fault("unknown_unit").with("found", unit)),
        Reading::Ambiguous([one, other]) => Err(fault("ambiguous").with("one", one).with("other", other)),
        Reading::Number(value, None) => {
            Ok(usual_unit(kind, system).map_or(Quantity::new(value, kind), |unit| unit.quantity(value, kind)))
        }
        Reading::Number(value, Some(unit)) if unit.measures(kind) => Ok(unit.quantity(value, kind)),
        Reading::Number(..) => Err(fault("unit_of_another_kind")),
    }
}

fn menu(kind: Kind) -> String {
    units::for_kind(kind).map(|unit| unit_text(unit, 2.0)).collect::<Vec<_>>().join(", ")
}

fn refused(error: &RelationError, system: System) -> WorkFault {
    match error {
        RelationError::OutOfRange { input, value, range, .. } => {
            let shown = |si: f64| {
                let quantity = Quantity::new(si, value.kind);
                let unit = usual_unit(value.kind, system);
                let number = relief::shown(unit.map_or(si, |unit| unit.value(quantity)), FIGURES, Rounding::Nearest);
                unit.map_or(number.clone(), |unit| format!("{number} {}", unit.symbol))
            };
            let (low, code) = match range.low {
                relief::Bound::Including(low) => (low, "out_of_range"),
                relief::Bound::Above(low) => (low, "out_of_range_above"),
            };
            let fault = WorkFault::new(code, Some(input)).with("found", shown(value.si));
            fault.with("low", shown(low)).with("high", shown(range.high))
        }
        RelationError::Order { low, high } => WorkFault::new("order", Some(low)).with("low", *low).with("high", *high),
        RelationError::Missing { input } => WorkFault::new("missing", Some(input)),
        RelationError::Repeated { input } => WorkFault::new("repeated", Some(input)),
        RelationError::WrongKind { input, expected, .. } => {
            WorkFault::new("wrong_kind", Some(input)).with("known", menu(*expected))
        }
        RelationError::WrongChoice { input, known } => {
            WorkFault::new("wrong_choice", Some(input)).with("known", known.join(", "))
        }
        RelationError::Unknown { .. } => WorkFault::new("unknown_input", None),
        RelationError::Subcritical { instead } | RelationError::Critical { instead } => {
            WorkFault::new(error.id(), None).with("instead", *instead)
        }
        RelationError::FactorNeeded { input, instead } => {
            WorkFault::new("factor_needed", Some(input)).with("instead", *instead)
        }
        RelationError::NothingLeft { input } => WorkFault::new("nothing_left", Some(input)),
        RelationError::TooLarge { input } => WorkFault::new("too_large", Some(input)),
        RelationError::NotFinite => WorkFault::new("not_finite", None),
    }
}
