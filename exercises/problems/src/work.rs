//! A relation worked from what someone typed: on the command line, in a lesson, in a calculator.

use relief::units::{self, Unit};
use relief::{Argument, Form, Kind, Manner, Outputs, Quantity, Relation, RelationError, Rounding, law_unit};
use serde::Serialize;
use std::collections::BTreeMap;

use crate::answer::{Reading, read};
use crate::decimal_mark::DecimalMark;
use crate::display::{FIGURES, unit_for, unit_text};
use crate::formula::STATED_IN;
use crate::recipe::System;

/// A worked relation.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Worked {
    /// The relation.
    pub relation: &'static str,
    /// The number in the unit.
    #[serde(skip)]
    pub value: f64,
    /// The unit; none for a bare number.
    pub unit: Option<String>,
    /// The number as it is read, rounded to the safe side.
    pub shown: String,
    /// The second output where there is one: its name, and what it gives as it is read or as a choice.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub also: Option<Also>,
    /// The inputs as the law has them, in units that belong to its constants.
    pub put_in: BTreeMap<&'static str, String>,
    /// The result in the unit that the law gives, where that is not the one asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub by_law: Option<String>,
    /// The system whose printed form was taken, where the two systems have a form each.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub form: Option<&'static str>,
    /// Whether that is SI because units of both systems were typed.
    pub mixed: bool,
    /// Where the law comes from: document, edition and clause; empty for common practice and definitions.
    #[serde(skip)]
    pub source: &'static str,
    /// How well the source is known.
    #[serde(skip)]
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

/// Works a relation, which is named by its key, for inputs as they were typed: a number with a unit (without one, in the usual unit of the system),
/// or a named choice. The printed form is that of the units typed, SI where both systems are mixed; `stated_in` names one.
/// The result is given in a unit, or in the usual one of that form.
///
/// # Errors
/// [`WorkFault`]: an unknown relation, input or unit, a text that is not a number, or what the relation itself refuses.
pub fn work(
    relation: &str,
    given: &[(String, String)],
    unit: Option<&str>,
    system: System,
    mark: DecimalMark,
) -> Result<Worked, WorkFault> {
    let relation =
        crate::own::find(relation).ok_or_else(|| WorkFault::new("unknown_relation", None).with("found", relation))?;
    let (mut arguments, mut units, mut stated) = (Vec::new(), Vec::new(), None);
    for (name, text) in given {
        if name == STATED_IN && relation.forms.are_two() {
            stated = Some(stated_in(text)?);
            continue;
        }
        let (argument, unit) = argument(relation, name, text, system, mark)?;
        arguments.push((name.as_str(), argument));
        units.extend(unit);
    }
    let of_units = System::of_units(units.iter().copied());
    let form = stated.or(of_units).unwrap_or(system);
    let outputs =
        relation.evaluate_in(&arguments, Manner::unrounded(form)).map_err(|error| refused(&error, relation, form))?;
    let output = &relation.outputs[0];
    let unit = result_unit(unit, relation, form)?;
    let value = unit.map_or(outputs.first().si, |unit| unit.value(outputs.first()));
    let source = &relation.forms.of(form).source;
    Ok(Worked {
        relation: relation.id,
        value,
        unit: unit.map(|unit| unit.symbol.to_owned()),
        shown: crate::display::computed(outputs.first(), unit, output.safe_side.into(), mark),
        put_in: put_in(relation, &arguments, given, form, mark),
        by_law: law_unit(relation, relation.kind(), form)
            .filter(|law| Some(*law) != unit)
            .map(|law| crate::display::computed(outputs.first(), Some(law), output.safe_side.into(), mark)),
        also: also(relation, &outputs, unit, form, mark),
        form: relation.forms.are_two().then_some(form.id()),
        mixed: stated.is_none() && units.contains(&Some(System::Us)) && units.contains(&Some(System::Si)),
        source: source.document,
        status: source.status.id(),
    })
}

/// The printed form that somebody asked for.
fn stated_in(text: &str) -> Result<System, WorkFault> {
    let known = || System::BOTH.map(System::id).join(", ");
    let fault = || WorkFault::new("wrong_choice", Some(STATED_IN)).with("found", text).with("known", known());
    System::find(text.trim()).ok_or_else(fault)
}

/// The inputs as the law has them: as they were typed, or in the law's own unit.
fn put_in(
    relation: &'static Relation,
    arguments: &[(&str, Argument)],
    given: &[(String, String)],
    form: System,
    mark: DecimalMark,
) -> BTreeMap<&'static str, String> {
    let mut all = BTreeMap::new();
    for (name, argument) in arguments {
        let typed = given.iter().find(|(known, _)| known == name).map_or("", |(_, typed)| typed);
        let Some((_, input)) = relation.input(name) else { continue };
        let unit = match argument {
            Argument::Quantity(quantity) => law_unit(relation, quantity.kind, form).zip(Some(*quantity)),
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
    mark: DecimalMark,
) -> Option<Also> {
    let output = relation.outputs.get(1)?;
    let (shown, choice) = match outputs.get(1)? {
        Argument::Choice(name) => (None, Some(name)),
        Argument::Quantity(value) => {
            let unit = unit.filter(|unit| unit.measures(value.kind)).or(unit_for(relation, value.kind, system));
            (Some(crate::display::computed(value, unit, output.safe_side.into(), mark)), None)
        }
    };
    Some(Also { name: output.name, shown, choice })
}

fn result_unit(text: Option<&str>, relation: &Relation, system: System) -> Result<Option<&'static Unit>, WorkFault> {
    let kind = relation.kind();
    let Some(text) = text.map(str::trim).filter(|text| !text.is_empty()) else {
        return Ok(relief::result_unit(relation).or(unit_for(relation, kind, system)));
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
    mark: DecimalMark,
) -> Result<(Argument, Option<Option<System>>), WorkFault> {
    let known = || relation.inputs.iter().map(|input| input.name).collect::<Vec<_>>().join(", ");
    let (_, input) = relation.input(name).ok_or_else(|| {
        WorkFault::new("unknown_input", Some(name)).with("relation", relation.id).with("known", known())
    })?;
    match &input.form {
        Form::Choice(names) => {
            let fault =
                || WorkFault::new("wrong_choice", Some(name)).with("found", text).with("known", names.join(", "));
            let choice = names.iter().find(|known| **known == text.trim()).map(|known| Argument::Choice(known));
            Ok((choice.ok_or_else(fault)?, None))
        }
        Form::Quantity(kind, _) => {
            let usual = unit_for(relation, *kind, system);
            let (value, unit) = quantity(name, text, *kind, usual, mark)?;
            Ok((Argument::Quantity(value), unit.map(|unit| unit.system)))
        }
    }
}

/// A quantity with the unit that it was typed in, or taken in.
fn quantity(
    name: &str,
    text: &str,
    kind: Kind,
    usual: Option<&'static Unit>,
    mark: DecimalMark,
) -> Result<(Quantity, Option<&'static Unit>), WorkFault> {
    let fault = |code| WorkFault::new(code, Some(name)).with("found", text).with("known", menu(kind));
    match read(text, mark) {
        Reading::Blank => Err(fault("blank")),
        Reading::Unreadable => Err(fault("unreadable")),
        Reading::UnknownUnit(unit) => Err(fault("unknown_unit").with("found", unit)),
        Reading::Ambiguous([one, other]) => Err(fault("ambiguous").with("one", one).with("other", other)),
        Reading::Number(value, None) => {
            Ok((usual.map_or(Quantity::new(value, kind), |unit| unit.quantity(value, kind)), usual))
        }
        Reading::Number(value, Some(unit)) if unit.measures(kind) => Ok((unit.quantity(value, kind), Some(unit))),
        Reading::Number(..) => Err(fault("unit_of_another_kind")),
    }
}

fn menu(kind: Kind) -> String {
    units::for_kind(kind).map(|unit| unit_text(unit, 2.0)).collect::<Vec<_>>().join(", ")
}

fn refused(error: &RelationError, relation: &Relation, system: System) -> WorkFault {
    match error {
        RelationError::OutOfRange { input, value, range, .. } => {
            let shown = |si: f64| {
                let quantity = Quantity::new(si, value.kind);
                let unit = unit_for(relation, value.kind, system);
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
