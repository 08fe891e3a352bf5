//! A calculator: a relation with values to change and its result.

use course::Work;
use problems::System;
use problems::display::{unit_for, unit_text};
use problems::recipe::Lexicon;
use problems::template::Piece;
use problems::work::Also;
use relief::{Form, Gives, Input, Kind, Relation, units};
use serde::Serialize;
use tera::Context;

use crate::render::error::RenderError;
use crate::render::renderer::Renderer;

#[derive(Serialize)]
struct InputContext {
    name: &'static str,
    label: String,
    /// The last word of the label, which keeps together with the symbol, and what comes before it.
    label_end: String,
    label_start: String,
    symbol_html: String,
    value: String,
    unit: Option<String>,
    /// The kind of quantity, by which the page finds the menu of units.
    kind: &'static str,
    choices: Vec<ChoiceContext>,
}

#[derive(Serialize)]
struct ChoiceContext {
    id: &'static str,
    text: String,
}

#[derive(Serialize)]
struct OutputContext {
    symbol_html: String,
    unit: Option<String>,
    kind: &'static str,
    shown: String,
}

/// The law of a form with places for numbers.
#[derive(Serialize)]
struct NumbersContext {
    form: Option<&'static str>,
    html: String,
}

/// The second output of a relation.
#[derive(Serialize)]
struct AlsoContext {
    name: String,
    /// Empty where nothing is worked yet.
    shown: String,
    /// Whether it is a choice by its name, and so the answer that counts.
    verdict: bool,
}

impl Renderer<'_> {
    /// The calculator that a lesson sets up.
    pub(super) fn work_block(&self, work: &Work) -> Result<String, RenderError> {
        let given: Vec<_> = work.given.iter().map(|given| (given.name.to_owned(), given.text.clone())).collect();
        self.calculator(work.relation, &given, work.unit.map(|unit| unit.symbol))
    }

    /// A calculator for a relation, filled with what is given and with its result.
    fn calculator(
        &self,
        relation: &'static Relation,
        given: &[(String, String)],
        unit: Option<&str>,
    ) -> Result<String, RenderError> {
        let worked = problems::work::work(relation.key, given, unit, self.system(), self.mark())
            .map_err(|fault| RenderError::Work { relation: relation.id, code: fault.code })?;
        let unit = worked.unit.as_deref().and_then(units::find);
        let also = worked.also.as_ref().map_or_else(String::new, |also| self.also_shown(also));
        let form = worked.form.and_then(System::find).unwrap_or(self.system());
        self.work_form(relation, given, unit, [worked.shown, also], Some(form))
    }

    /// A calculator for a relation with its usual values and nothing worked yet, for a page that has its law and source beside it.
    pub(crate) fn empty_calculator(&self, relation: &'static Relation) -> Result<String, RenderError> {
        self.work_form(relation, &[], unit_for(relation, relation.kind(), self.system()), Default::default(), None)
    }

    fn work_form(
        &self,
        relation: &'static Relation,
        given: &[(String, String)],
        unit: Option<&'static units::Unit>,
        [shown, also]: [String; 2],
        with_law: Option<System>,
    ) -> Result<String, RenderError> {
        let inputs: Vec<_> = relation.inputs.iter().map(|input| self.input(relation, input, given)).collect();
        let mut context = Context::new();
        context.insert("relation", relation.key);
        context.insert("own", &self.carried(relation));
        context.insert("title", self.words.get(&format!("relations.{}.title", relation.id)));
        context.insert("law_html", &with_law.map(|form| self.lexicon.law_html(relation, form)));
        context.insert("source", &with_law.map(|form| self.source(relation, form)));
        context.insert("inputs", &inputs);
        context.insert("output", &self.output(relation, unit, shown));
        context.insert("also", &self.second_output(relation, also));
        context.insert("numbers", &self.numbers(relation));
        self.template("work.html", &context)
    }

    /// What the page carries of a relation of the course.
    fn carried(&self, relation: &Relation) -> Option<String> {
        relation.is_own().then(|| problems::own::carried(relation, &self.course.own_relations()))
    }

    fn output(&self, relation: &Relation, unit: Option<&units::Unit>, shown: String) -> OutputContext {
        OutputContext {
            symbol_html: self.lexicon.math_html(relation.outputs[0].symbol, false),
            unit: unit.map(|unit| unit_text(unit, 2.0)),
            kind: relation.kind().id(),
            shown,
        }
    }

    fn second_output(&self, relation: &Relation, shown: String) -> Option<AlsoContext> {
        let output = relation.outputs.get(1)?;
        Some(AlsoContext {
            name: self.words.get(&format!("outputs.{}", output.name)).to_owned(),
            shown,
            verdict: matches!(output.gives, Gives::Choice(_)),
        })
    }

    fn also_shown(&self, also: &Also) -> String {
        let choice = || also.choice.map(|name| self.words.get(&format!("choices.{name}")).to_owned());
        also.shown.clone().or_else(choice).unwrap_or_default()
    }

    /// The law of each form with a mark for each input, in whose place the page puts the number.
    fn numbers(&self, relation: &'static Relation) -> Vec<NumbersContext> {
        let numbers = |form: Option<System>| NumbersContext {
            form: form.map(System::id),
            html: self.lexicon.law_with_holes(relation, form.unwrap_or(System::Us)).fill(|piece| match piece {
                Piece::Hole(name) => format!("\u{27e6}{name}\u{27e7}"),
                _ => String::new(),
            }),
        };
        if relation.forms.are_two() { System::BOTH.map(|form| numbers(Some(form))).into() } else { vec![numbers(None)] }
    }

    fn input(&self, relation: &Relation, input: &'static Input, given: &[(String, String)]) -> InputContext {
        let text = given.iter().find(|(name, _)| name == input.name).map(|(_, text)| text.as_str());
        let (value, unit, kind) = self.starting_value(relation, input, text);
        let label = self.words.named("inputs", relation.id, input.name);
        let (label_start, label_end) = label.split_at(label.rfind(' ').map_or(0, |space| space + 1));
        InputContext {
            name: input.name,
            label: label.to_owned(),
            label_end: label_end.to_owned(),
            label_start: label_start.to_owned(),
            symbol_html: self.lexicon.math_html(input.symbol, false),
            value,
            unit,
            kind,
            choices: self.choices(input),
        }
    }

    /// The value and the unit that an input starts from, with its kind.
    fn starting_value(
        &self,
        relation: &Relation,
        input: &Input,
        text: Option<&str>,
    ) -> (String, Option<String>, &'static str) {
        match &input.form {
            Form::Choice(_) => (choice_value(input, text), None, "choice"),
            Form::Quantity(kind, _) => {
                let (value, unit) = self.measured(relation, input, *kind, text);
                (value, unit, kind.id())
            }
        }
    }

    fn choices(&self, input: &'static Input) -> Vec<ChoiceContext> {
        let Form::Choice(names) = &input.form else { return Vec::new() };
        let choice =
            |id: &&'static str| ChoiceContext { id, text: self.words.get(&format!("choices.{id}")).to_owned() };
        names.iter().map(choice).collect()
    }

    /// The number and unit to start from: as the author wrote them, or the usual value.
    fn measured(&self, relation: &Relation, input: &Input, kind: Kind, text: Option<&str>) -> (String, Option<String>) {
        let usual = unit_for(relation, kind, self.system());
        let (value, unit) = match (text.and_then(split), &input.default) {
            (Some((value, unit)), _) => (value, unit.or(usual)),
            (None, Some(default)) => (default_value(default, usual), usual),
            (None, None) => (String::new(), usual),
        };
        (value, unit.map(|unit| unit_text(unit, 2.0)))
    }
}

fn choice_value(input: &Input, text: Option<&str>) -> String {
    match (text, &input.default) {
        (Some(text), _) => text.to_owned(),
        (None, Some(default)) => match default.value {
            relief::Argument::Choice(name) => name.to_owned(),
            relief::Argument::Quantity(_) => String::new(),
        },
        (None, None) => String::new(),
    }
}

fn default_value(default: &relief::Default, unit: Option<&units::Unit>) -> String {
    match default.value {
        relief::Argument::Quantity(quantity) => {
            let value = unit.map_or(quantity.si, |unit| unit.value(quantity));
            relief::shown(value, 5, relief::Rounding::Nearest)
        }
        relief::Argument::Choice(name) => name.to_owned(),
    }
}

/// The number and the unit of a quantity as an author wrote it.
fn split(text: &str) -> Option<(String, Option<&'static units::Unit>)> {
    let (value, style, unit) = problems::formula::literal(text)?;
    Some((value.text(style), unit))
}
