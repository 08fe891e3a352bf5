//! `work`: a relation with the user's own numbers.

use pages::Words;
use problems::DecimalMark;
use problems::System;
use problems::display::{WORKING_FIGURES, to_figures, unit_for};
use problems::work::{Also, WorkFault, Worked, work};
use relief::units::Unit;
use relief::{Kind, Relation};
use serde_json::json;

use crate::fault_report;
use crate::options::WorkOptions;
use crate::out::say;
use crate::status::{End, Ended, Status};

pub(crate) fn run(options: &WorkOptions, words: &Words) -> Ended {
    let Some(dir) = &options.course else { return run_with(options, &[], words) };
    let course = fault_report::read_course(dir, words)?;
    run_with(options, &course.own_relations(), &words.with(&course.words))
}

/// Works with the relations of the core and these of a course.
fn run_with(options: &WorkOptions, own: &[&'static Relation], words: &Words) -> Ended {
    let Some(id) = options.relation.as_deref().filter(|_| !options.list) else {
        list(options.json, own, words);
        return Ok(Status::Done);
    };
    let relation = relief::find(id).or_else(|| own.iter().find(|relation| relation.id == id).copied());
    if let Some(relation) = relation.filter(|_| options.inputs.is_empty() && options.unit.is_none()) {
        describe(relation, options, words);
        return Ok(Status::Done);
    }
    let unit = options.unit.as_deref().or_else(|| usual_unit(relation, options));
    let key = relation.map_or(id, |relation| relation.key);
    let worked = work(key, &options.inputs, unit, system(options), DecimalMark::Point)
        .map_err(|fault| End::new(Status::WrongUse, explain(&fault, words)))?;
    if options.json {
        say!("{}", as_json(&worked, words));
    } else {
        print(&worked, words);
    }
    Ok(Status::Done)
}

fn print(worked: &Worked, words: &Words) {
    print_values(worked, words);
    if let Some(form) = form(worked, words) {
        say!("  {form}");
    }
    let said = words.get(&format!("relations.{}.words", worked.relation)).to_owned();
    if !said.is_empty() {
        say!("  {said}");
    }
    say!("  {}: {}", words.get("pages.source"), source(worked, words));
    say!("  {}", words.get("pages.training_figures"));
}

/// The system that bare numbers are taken in: the one that was asked for, else customary.
fn system(options: &WorkOptions) -> System {
    options.units.map_or(System::Us, Into::into)
}

/// The usual unit of the result in the system that was asked for, whatever units were typed.
fn usual_unit(relation: Option<&'static Relation>, options: &WorkOptions) -> Option<&'static str> {
    let relation = relation.filter(|relation| relief::result_unit(relation).is_none())?;
    let system = options.units?.into();
    problems::display::unit_for(relation, relation.kind(), system).map(|unit| unit.symbol)
}

/// In which printed form it was worked, where there are two.
fn form(worked: &Worked, words: &Words) -> Option<String> {
    let key = match (worked.form?, worked.mixed) {
        (_, true) => "command.work.form_mixed",
        ("us", false) => "command.work.form_us",
        _ => "command.work.form_si",
    };
    Some(words.get(key).to_owned())
}

/// The result; two of them as a formula names them: `set_tolerance.low`.
fn print_values(worked: &Worked, words: &Words) {
    let Some(also) = &worked.also else {
        say!("{} = {}", worked.relation, worked.shown);
        return;
    };
    let first = relief::find(worked.relation).map_or("", |relation| relation.outputs[0].name);
    say!("{}.{first} = {}", worked.relation, worked.shown);
    say!("{}.{} = {}", worked.relation, also.name, also_text(also, words));
}

fn as_json(worked: &Worked, words: &Words) -> serde_json::Value {
    let mut json = json!({
        "relation": worked.relation,
        "value": worked.value,
        "unit": worked.unit,
        "shown": worked.shown,
        "form": worked.form,
        "source": source(worked, words),
    });
    if let Some(also) = &worked.also {
        json["also"] = json!({ "name": also.name, "shown": also.shown, "choice": also.choice });
    }
    json
}

/// The second output as it is read.
fn also_text(also: &Also, words: &Words) -> String {
    match (&also.shown, also.choice) {
        (Some(shown), _) => shown.clone(),
        (None, Some(choice)) => words.get(&format!("choices.{choice}")).to_owned(),
        (None, None) => String::new(),
    }
}

fn source(worked: &Worked, words: &Words) -> String {
    let status = format!("status.{}", worked.status);
    match worked.source {
        "" => words.get(&status).to_owned(),
        document => format!("{document} ({})", words.get(&status)),
    }
}

fn explain(fault: &WorkFault, words: &Words) -> String {
    // Without an input, a unit of another kind is the one asked for the result.
    let code = match (fault.code, &fault.input) {
        ("unit_of_another_kind", None) => "result_of_another_kind",
        (code, _) => code,
    };
    let mut values: Vec<_> = fault.values.iter().map(|(name, value)| (*name, value.as_str())).collect();
    values.push(("input", fault.input.as_deref().unwrap_or_default()));
    words.fill(&format!("command.work.{code}"), &values)
}

/// What a relation takes: each input with its meaning, its usual unit or its choices, and what is taken where it is left out.
fn describe(relation: &'static Relation, options: &WorkOptions, words: &Words) {
    if options.json {
        return say!("{}", described(relation, words));
    }
    say!("{}({})", relation.id, inputs(relation).join(", "));
    say!("  {}", words.get(&format!("relations.{}.purpose", relation.id)));
    for input in relation.inputs {
        describe_input(relation, input, system(options), words);
    }
    let first = relation.inputs.first().map_or("", |input| input.name);
    say!("{}", words.fill("command.work.give", &[("relation", relation.id), ("input", first)]));
}

fn describe_input(relation: &Relation, input: &relief::Input, system: System, words: &Words) {
    let name = words.named("inputs", relation.id, input.name).to_owned();
    let takes = takes(relation, input, system, words);
    let left_out = input.default.as_ref().map(|default| left_out(relation, default, system, words));
    say!("  {}: {name}; {takes}{}", input.name, left_out.unwrap_or_default());
}

/// The kind of an input with its usual unit, or its choices.
fn takes(relation: &Relation, input: &relief::Input, system: System, words: &Words) -> String {
    match &input.form {
        relief::Form::Choice(known) => words.fill("command.work.one_of", &[("known", &known.join(", "))]),
        relief::Form::Quantity(kind, _) => measured(*kind, unit_for(relation, *kind, system), words),
    }
}

fn measured(kind: Kind, unit: Option<&Unit>, words: &Words) -> String {
    let kind = words.get(&format!("kinds.{}", kind.id())).to_owned();
    match unit {
        Some(unit) => words.fill("command.work.in_unit", &[("kind", &kind), ("unit", unit.symbol)]),
        None => kind,
    }
}

fn left_out(relation: &Relation, default: &relief::Default, system: System, words: &Words) -> String {
    let value = match default.value {
        relief::Argument::Quantity(quantity) => {
            let unit = unit_for(relation, quantity.kind, system);
            to_figures(quantity, unit, WORKING_FIGURES, relief::Rounding::Nearest, DecimalMark::Point)
        }
        relief::Argument::Choice(name) => name.to_owned(),
    };
    words.fill("command.work.left_out", &[("value", &value), ("source", default.source)])
}

fn list(json: bool, own: &[&'static Relation], words: &Words) {
    if json {
        let all = relief::relations().chain(own.iter().copied());
        let all: Vec<_> = all.map(|relation| described(relation, words)).collect();
        say!("{}", serde_json::Value::from(all));
        return;
    }
    for family in relief::FAMILIES {
        say!("{}", words.get(&format!("families.{}", family.id)));
        family.relations.iter().for_each(|relation| list_relation(relation, words));
    }
    if !own.is_empty() {
        say!("{}", words.get("families.own"));
        own.iter().for_each(|relation| list_relation(relation, words));
    }
}

fn list_relation(relation: &Relation, words: &Words) {
    say!("  {}({})", relation.id, inputs(relation).join(", "));
    say!("      {}", words.get(&format!("relations.{}.purpose", relation.id)));
}

fn inputs(relation: &Relation) -> Vec<String> {
    let input = |input: &relief::Input| match &input.form {
        relief::Form::Choice(known) => format!("{}: {}", input.name, known.join("|")),
        relief::Form::Quantity(..) => input.name.to_owned(),
    };
    relation.inputs.iter().map(input).collect()
}

fn described(relation: &'static Relation, words: &Words) -> serde_json::Value {
    let input = |input: &relief::Input| match &input.form {
        relief::Form::Choice(known) => json!({ "name": input.name, "choices": known }),
        relief::Form::Quantity(kind, _) => json!({ "name": input.name, "kind": kind.id() }),
    };
    let output = |output: &relief::Output| match output.gives {
        relief::Gives::Quantity(kind) => json!({ "name": output.name, "kind": kind.id() }),
        relief::Gives::Choice(names) => json!({ "name": output.name, "choices": names }),
    };
    json!({
        "relation": relation.id,
        "title": words.get(&format!("relations.{}.title", relation.id)),
        "inputs": relation.inputs.iter().map(input).collect::<Vec<_>>(),
        "outputs": relation.outputs.iter().map(output).collect::<Vec<_>>(),
    })
}
