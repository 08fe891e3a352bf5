//! The live blocks: practice, drawn as a sample that stands without scripts, and calculators with a worked result.

use std::collections::BTreeMap;

use course::Work;
use problems::System;
use problems::display::{unit_for, unit_text, usual_unit};
use problems::draw::{Problem, Setting, draw};
use problems::recipe::Lexicon;
use problems::seed::{FIRST_ATTEMPT, Seed};
use problems::template::Piece;
use problems::view::{AnswerView, PartView};
use problems::work::Also;
use relief::{Form, Gives, Input, Kind, Relation, units};
use serde::Serialize;
use tera::Context;

use super::{RenderError, Renderer};

/// The number whose problem stands in a page before scripts put fresh ones there.
const SAMPLE: u64 = 10_001;

/// The practice blocks of the lessons of a course, by recipe: the same in every lesson.
pub(super) struct Live(BTreeMap<String, String>);

#[derive(Serialize)]
struct Sample {
    id: &'static str,
    seed: u64,
    statement_html: String,
    parts: Vec<PartView>,
    start_html: Option<String>,
    working_html: String,
    answers: Vec<AnswerView>,
}

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

/// The menu of units of a kind.
#[derive(Serialize)]
struct Menu {
    units: Vec<String>,
    /// The usual unit of each system, to which an empty field turns.
    us: Option<String>,
    si: Option<String>,
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

/// The second thing that a relation gives.
/// The law of a form with places for numbers.
#[derive(Serialize)]
struct NumbersContext {
    form: Option<&'static str>,
    html: String,
}

#[derive(Serialize)]
struct AlsoContext {
    name: String,
    /// Empty where nothing is worked yet.
    shown: String,
    /// Whether it is a choice by its name, and so the answer that counts.
    verdict: bool,
}

impl Live {
    pub(super) fn new(renderer: &Renderer) -> Result<Self, RenderError> {
        let mut blocks = BTreeMap::new();
        for file in &renderer.course.recipes {
            let sheet = format!("../practice/{}.html", file.recipe.id);
            blocks.insert(file.recipe.id.clone(), renderer.practice_block(&file.recipe, Some(&sheet))?);
        }
        Ok(Self(blocks))
    }

    /// The block of a recipe of the course.
    pub(super) fn practice(&self, recipe: &str) -> &str {
        self.0.get(recipe).map_or("", String::as_str)
    }
}

impl Renderer<'_> {
    /// The block of a recipe: whole, or without what stands on its own sheet, to which it then leads.
    pub(super) fn practice_block(
        &self,
        recipe: &problems::Recipe,
        sheet_of_its_own: Option<&str>,
    ) -> Result<String, RenderError> {
        let mut context = Context::new();
        context.insert("recipe", &recipe.id);
        context.insert("title", &recipe.title);
        context.insert("level", &recipe.level);
        context.insert("level_text", &self.level_text(recipe.level));
        context.insert("objectives", &self.objective_texts(&recipe.objectives));
        context.insert("sample", &self.sample(recipe)?);
        context.insert("sheet_of_its_own", &sheet_of_its_own);
        Ok(self.tera.render("practice.html", &context)?)
    }

    /// The sample, in the units of the course: without scripts there is no way to turn to others.
    fn sample(&self, recipe: &problems::Recipe) -> Result<Sample, RenderError> {
        let seed = Seed { text: SAMPLE.to_string(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
        let problem: Problem = draw(recipe, &seed, Setting { system: self.system(), mark: self.mark() })
            .map_err(|error| RenderError::Draw { recipe: recipe.id.clone(), error: error.into() })?;
        let (view, solution) = (problem.view(false, ""), problem.solution());
        Ok(Sample {
            id: self.system().id(),
            seed: SAMPLE,
            statement_html: view.statement,
            parts: view.parts,
            start_html: solution.start,
            working_html: solution.working,
            answers: solution.answers,
        })
    }

    fn objective_texts(&self, ids: &[String]) -> Vec<&str> {
        let all = || self.course.lessons.iter().flat_map(|lesson| &lesson.objectives);
        ids.iter()
            .filter_map(|id| all().find(|objective| objective.id == *id))
            .map(|found| found.text.as_str())
            .collect()
    }

    /// The calculator that a lesson sets up.
    pub(super) fn work_block(&self, work: &Work) -> Result<String, RenderError> {
        let given: Vec<_> = work.given.iter().map(|given| (given.name.to_owned(), given.text.clone())).collect();
        self.calculator(work.relation, &given, work.unit.map(|unit| unit.symbol))
    }

    /// A calculator for a relation, filled with what is given and with its result.
    pub(super) fn calculator(
        &self,
        relation: &'static Relation,
        given: &[(String, String)],
        unit: Option<&str>,
    ) -> Result<String, RenderError> {
        let worked = problems::work::work(relation.id, given, unit, self.system(), self.mark())
            .map_err(|fault| RenderError::Work { relation: relation.id, code: fault.code })?;
        let unit = worked.unit.as_deref().and_then(units::find);
        let also = worked.also.as_ref().map_or_else(String::new, |also| self.also_shown(also));
        let form = worked.form.and_then(System::find).unwrap_or(self.system());
        self.work_form(relation, given, unit, [worked.shown, also], Some(form))
    }

    /// A calculator for a relation with its usual values and nothing worked yet, beside its law and source.
    pub(super) fn empty_calculator(&self, relation: &'static Relation) -> Result<String, RenderError> {
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
        let output = OutputContext {
            symbol_html: self.lexicon.math_html(relation.outputs[0].symbol, false),
            unit: unit.map(|unit| unit_text(unit, 2.0)),
            kind: relation.kind().id(),
            shown,
        };
        let also = relation.outputs.get(1).map(|output| AlsoContext {
            name: self.words.get(&format!("outputs.{}", output.name)).to_owned(),
            shown: also,
            verdict: matches!(output.gives, Gives::Choice(_)),
        });
        let inputs: Vec<_> = relation.inputs.iter().map(|input| self.input(relation, input, given)).collect();
        let mut context = Context::new();
        context.insert("relation", relation.id);
        context.insert("title", self.words.get(&format!("relations.{}.title", relation.id)));
        context.insert("law_html", &with_law.map(|form| self.lexicon.law_html(relation, form)));
        context.insert("source", &with_law.map(|form| self.source(relation, form)));
        context.insert("inputs", &inputs);
        context.insert("output", &output);
        context.insert("also", &also);
        context.insert("numbers", &self.numbers(relation));
        Ok(self.tera.render("work.html", &context)?)
    }

    fn also_shown(&self, also: &Also) -> String {
        let choice = || also.choice.map(|name| self.words.get(&format!("choices.{name}")).to_owned());
        also.shown.clone().or_else(choice).unwrap_or_default()
    }

    /// The law of each form with a mark for each input, which the page puts the numbers in the place of.
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
        let ((value, unit), kind) = match &input.form {
            Form::Choice(_) => ((choice_value(input, text), None), "choice"),
            Form::Quantity(kind, _) => (self.measured(relation, input, *kind, text), kind.id()),
        };
        let key = format!("inputs.{}", input.name);
        let label = self.words.get(&key);
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

/// The menus of units by kind, for every kind that a relation takes or gives.
pub(super) fn menus() -> serde_json::Value {
    let inputs = relief::relations().flat_map(|relation| relation.inputs).filter_map(|input| match &input.form {
        Form::Quantity(kind, _) => Some(*kind),
        Form::Choice(_) => None,
    });
    let kinds = inputs.chain(relief::relations().map(Relation::kind));
    let all: BTreeMap<_, _> = kinds.map(|kind| (kind.id(), menu(kind))).collect();
    serde_json::json!(all)
}

fn menu(kind: Kind) -> Menu {
    let usual = |system| usual_unit(kind, system).map(|unit| unit_text(unit, 2.0));
    Menu {
        units: units::for_kind(kind).map(|unit| unit_text(unit, 2.0)).collect(),
        us: usual(System::Us),
        si: usual(System::Si),
    }
}
