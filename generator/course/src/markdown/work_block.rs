//! `work` blocks: a relation with values to start from.

use std::collections::BTreeMap;

use faults::Code;
use problems::DecimalMark;
use problems::recipe::System;
use problems::work::{WorkFault, work};
use relief::{Form, Relation, units};

use super::checking::Checking;
use super::inside::Inside;
use super::page::Page;
use crate::course::{Block, Given, Work};
use crate::fault::Fault;

/// Reads a `work` block.
pub(super) fn block(inside: &Inside, page: &mut Page, checking: &mut Checking) -> Option<Block> {
    let id = inside.needed("relation", checking.faults)?;
    let Some(relation) = checking.references.relation(id) else {
        let known = checking.references.relation_ids();
        checking.tell(inside.unknown_id(Code::RelationUnknown, "relation", id, known));
        return None;
    };
    let mut typed = |(name, text)| (str::to_owned(name), typed(relation, name, text, page, checking));
    let given: Vec<_> = inside.others(&["relation", "in"]).map(&mut typed).collect();
    if given.iter().any(|(_, text)| checking.text.scenario.is_lost(text.trim())) {
        return None;
    }
    let unit = inside.get("in");
    match work(relation.key, &given, unit, System::Us, DecimalMark::Point) {
        Ok(worked) => Some(Block::Work(Work {
            relation,
            given: given.into_iter().filter_map(|(name, text)| given_input(relation, &name, text)).collect(),
            unit: unit.and(worked.unit.as_deref()).and_then(units::find),
        })),
        Err(fault) => {
            checking.tell(work_fault(inside, relation, fault));
            None
        }
    }
}

/// What is typed into an input: the author may write the name of a value of the scenario instead.
fn typed(relation: &Relation, name: &str, text: &str, page: &mut Page, checking: &Checking) -> String {
    let is_quantity = relation.input(name).is_some_and(|(_, input)| matches!(input.form, Form::Quantity(..)));
    let scenario = checking.text.scenario;
    match scenario.find(text.trim()).filter(|_| is_quantity) {
        Some(place) => {
            page.use_given(place);
            scenario.given(place).text.clone()
        }
        None => text.to_owned(),
    }
}

fn given_input(relation: &'static Relation, name: &str, text: String) -> Option<Given> {
    relation.input(name).map(|(_, input)| Given { name: input.name, text })
}

/// A refusal of the calculation core, at the input that is to blame.
fn work_fault(inside: &Inside, relation: &Relation, fault: WorkFault) -> Fault {
    let values: BTreeMap<_, _> = fault.values;
    let value = |name: &str| values.get(name).cloned().unwrap_or_default();
    let input = fault.input.as_deref();
    let at = match (fault.code, input) {
        ("unknown_input", Some(name)) => {
            inside.at_key(Code::WorkUnknownInput, name).near(name, relation.inputs.iter().map(|input| input.name))
        }
        ("missing", Some(_)) => inside.at_value(Code::WorkMissingInput, "relation"),
        ("unknown_unit", None) => inside.at_value(Code::UnitUnknown, "in").with("unit", value("found")),
        ("unit_of_another_kind", None) => inside
            .at_value(Code::UnitOfAnotherKind, "in")
            .with("unit", value("found"))
            .with("kind", relation.kind().id()),
        (code, Some(name)) if inside.get(name).is_some() => inside.at_value(input_code(code), name),
        (code, _) => inside.at_value(input_code(code), "relation"),
    };
    let at = at.with("input", input.unwrap_or_default()).with("relation", relation.id);
    values.into_iter().fold(at, |at, (name, value)| at.with(name, value))
}

/// Our code for a refusal of an input's value.
fn input_code(code: &str) -> Code {
    match code {
        "unknown_unit" => Code::WorkUnknownUnit,
        "wrong_kind" | "unit_of_another_kind" => Code::WorkWrongKind,
        "wrong_choice" => Code::WorkWrongChoice,
        "out_of_range" | "out_of_range_above" => Code::WorkOutOfRange,
        "order" => Code::WorkOutOfOrder,
        "blank" | "unreadable" | "ambiguous" => Code::WorkUnreadable,
        _ => Code::WorkNoResult,
    }
}
