//! A recipe as written to a compiled one; all its faults are collected.

use core::ops::Range;

use faults::{Code, Fault};
use relief::{Relation, System};

use super::raw::RawRecipe;
use super::{Ask, Draw, FORMAT, Form, LEVELS, LONGEST, Law, RULES, Recipe, WRITTEN_FORMAT, asks, draws};
use crate::formula::{Condition, FormulaFault, NameKind, Names, Node};
use crate::template::{Piece, Template, is_name};

/// What is wrong with a recipe.
pub type RecipeFault = Fault<RecipePlace>;

/// Where in a recipe.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RecipePlace {
    /// The path through the front matter to the value that is to blame; empty for the recipe as a whole. `body` and the
    /// name of a section lead to the words below the front matter.
    pub path: Vec<Step>,
    /// The bytes within that value; none for all of it.
    pub span: Option<Range<usize>>,
}

/// A step on the way to a value.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Step {
    /// Into a mapping.
    Key(String),
    /// Into a list.
    Index(usize),
}

/// The way to a value, built up step by step.
#[derive(Clone, Debug, Default)]
pub(super) struct Way(Vec<Step>);

impl Way {
    pub(super) fn key(&self, key: &str) -> Self {
        self.with(Step::Key(key.to_owned()))
    }

    pub(super) fn index(&self, index: usize) -> Self {
        self.with(Step::Index(index))
    }

    fn with(&self, step: Step) -> Self {
        let mut steps = self.0.clone();
        steps.push(step);
        Self(steps)
    }

    pub(super) fn fault(&self, code: Code) -> RecipeFault {
        Fault::at(code, RecipePlace { path: self.0.clone(), span: None })
    }

    pub(super) fn formula(&self, fault: FormulaFault) -> RecipeFault {
        fault.map(|span| RecipePlace { path: self.0.clone(), span: Some(span) })
    }
}

/// The words below a recipe's front matter, as HTML with holes.
#[derive(Debug, Default)]
pub struct Bodies {
    /// The statement.
    pub question: Template,
    /// Where to start.
    pub start: Option<Template>,
    /// The worked solution; the steps alone where there is none.
    pub working: Option<Template>,
    /// What is said of each named mistake.
    pub mistakes: Vec<(String, Template)>,
}

/// The words that a compiled recipe carries with it.
pub trait Lexicon {
    /// The words under a key: `choices.<name>`, `relations.<id>.title`.
    fn text(&self, key: &str) -> String;

    /// The law of a relation in MathML, in symbols, in the form that a system prints.
    fn law_html(&self, relation: &'static Relation, form: System) -> String;

    /// The same with a hole for each input by name; outputs stay symbols.
    fn law_with_holes(&self, relation: &'static Relation, form: System) -> Template;
}

/// What the checks of one recipe share: the names known so far and the faults found so far.
pub(super) struct Check<'a> {
    pub(super) lexicon: &'a dyn Lexicon,
    pub(super) bodies: Bodies,
    pub(super) names: Names,
    /// Names whose own formula or form is at fault: what follows from that is not told a second time.
    pub(super) broken: Vec<String>,
    pub(super) faults: Vec<RecipeFault>,
}

impl Check<'_> {
    /// Keeps the value, or the faults.
    pub(super) fn keep<T>(&mut self, result: Result<T, Vec<RecipeFault>>) -> Option<T> {
        match result {
            Ok(value) => Some(value),
            Err(faults) => {
                self.faults.extend(faults);
                None
            }
        }
    }

    pub(super) fn condition(&mut self, text: &str, way: &Way) -> Option<Condition> {
        let result = Condition::read(text, &self.names);
        let result = result.map_err(|faults| self.told(text, way, faults));
        self.keep(result)
    }

    /// The faults of a formula in their place; none where they follow from a name that is at fault itself.
    pub(super) fn told(&self, text: &str, way: &Way, faults: Vec<FormulaFault>) -> Vec<RecipeFault> {
        let word = |next: char| next.is_ascii_alphanumeric() || next == '_';
        let follows = text.split(|next| !word(next)).any(|name| self.broken.iter().any(|broken| broken == name));
        if follows { Vec::new() } else { faults.into_iter().map(|fault| way.formula(fault)).collect() }
    }

    /// Makes a name known; one that is taken, or that no formula could use, is a fault.
    fn name(&mut self, name: &str, kind: NameKind, way: &Way) {
        if !is_name(name) || ["and", "in", "by"].contains(&name) {
            self.faults.push(way.fault(Code::RecipeName).with("found", name));
        } else if self.names.iter().any(|(known, _)| known == name) {
            self.faults.push(way.fault(Code::RecipeRepeatedName).with("found", name));
        }
        self.names.push((name.to_owned(), kind));
    }

    /// Faults for holes that name nothing known.
    pub(super) fn holes(&mut self, template: &Template, way: &Way) {
        let unknown: Vec<_> = template
            .holes()
            .filter(|hole| !self.names.iter().any(|(name, _)| name == hole))
            .filter(|hole| !self.broken.iter().any(|name| name == hole))
            .map(str::to_owned)
            .collect();
        let known = self.names.iter().map(|(name, _)| name.as_str()).collect::<Vec<_>>().join(", ");
        for hole in unknown {
            self.faults.push(way.fault(Code::RecipeUnknownHole).with("found", hole).known(&known));
        }
    }
}

/// Checks and compiles a recipe.
///
/// # Errors
/// Every fault that was found, with the way to its place.
pub fn compile(raw: &RawRecipe, bodies: Bodies, lexicon: &dyn Lexicon) -> Result<Recipe, Vec<RecipeFault>> {
    let way = Way::default();
    let mut check = Check { lexicon, bodies, names: Names::new(), broken: Vec::new(), faults: Vec::new() };
    head(raw, &way, &mut check);
    let draws = all_draws(raw, &way.key("draw"), &mut check);
    let require = conditions(&raw.require, &way.key("require"), &mut check);
    asked_bodies(&way.key("body"), &mut check);
    let asks = all_asks(raw, &way.key("ask"), &mut check);
    let plausible = conditions(&raw.plausible, &way.key("plausible"), &mut check);
    let working = working(&asks, &way.key("body"), &mut check);
    stray_mistakes(raw, &way.key("body"), &mut check);
    if !check.faults.is_empty() {
        return Err(check.faults);
    }
    let recipe = Recipe {
        format: FORMAT,
        rules: RULES,
        id: raw.id.clone(),
        title: raw.title.clone(),
        level: raw.level,
        objectives: raw.objectives.clone(),
        laws: laws(&asks, lexicon),
        words: own_words(&asks, lexicon),
        draws,
        require,
        plausible,
        asks,
        question: check.bodies.question,
        start: check.bodies.start,
        working,
    };
    // What the page would refuse must not be published.
    match Recipe::read(&recipe.write()) {
        Ok(_) => Ok(recipe),
        Err(_) => Err(vec![Way::default().fault(Code::RecipeTooLarge).with("most", LONGEST / 1000)]),
    }
}

fn head(raw: &RawRecipe, way: &Way, check: &mut Check) {
    if raw.format == 0 || raw.format > WRITTEN_FORMAT {
        let fault = way.key("format").fault(Code::RecipeFormat).with("found", raw.format);
        check.faults.push(fault.with("newest", WRITTEN_FORMAT));
    }
    if !LEVELS.contains(&raw.level) {
        check.faults.push(way.key("level").fault(Code::RecipeLevel).with("found", raw.level));
    }
    if raw.ask.is_empty() {
        check.faults.push(way.key("ask").fault(Code::RecipeAsksNothing));
    }
}

fn all_draws(raw: &RawRecipe, way: &Way, check: &mut Check) -> Vec<Draw> {
    let mut all = Vec::new();
    for (name, draw) in &raw.draw.0 {
        let way = way.key(name);
        let result = draws::draw(draw, &way, check);
        match check.keep(result) {
            Some((source, kind)) => {
                check.name(name, kind, &way);
                all.push(Draw { name: name.clone(), source });
            }
            None => check.broken.push(name.clone()),
        }
    }
    all
}

fn all_asks(raw: &RawRecipe, way: &Way, check: &mut Check) -> Vec<Ask> {
    let mut all = Vec::new();
    for (index, ask) in raw.ask.iter().enumerate() {
        let way = way.index(index);
        let Some(form) = asks::form(ask, &way, check) else {
            check.broken.push(ask.id.clone());
            continue;
        };
        let kind = match &form {
            Form::Number(number) => NameKind::Quantity(number.kind),
            _ => NameKind::Choice(Vec::new()),
        };
        check.name(&ask.id, kind, &way.key("id"));
        if let Some(hole) = Template::of_text(&ask.label).holes().next() {
            check.faults.push(way.key("label").fault(Code::RecipeLabelHole).with("found", hole));
        }
        all.push(Ask { id: ask.id.clone(), label: ask.label.clone(), form });
    }
    all
}

fn conditions(texts: &[String], way: &Way, check: &mut Check) -> Vec<Condition> {
    texts.iter().enumerate().filter_map(|(index, text)| check.condition(text, &way.index(index))).collect()
}

/// The statement and the hint may name what is drawn, and nothing that is asked.
fn asked_bodies(way: &Way, check: &mut Check) {
    let question = check.bodies.question.clone();
    if question.0.is_empty() {
        check.faults.push(way.key("question").fault(Code::RecipeNoQuestion));
    }
    check.holes(&question, &way.key("question"));
    if let Some(start) = check.bodies.start.clone() {
        check.holes(&start, &way.key("start"));
    }
}

/// The author's working, with the steps of each number that it does not place itself at its end.
fn working(asks: &[Ask], way: &Way, check: &mut Check) -> Template {
    let mut working = check.bodies.working.clone().unwrap_or_default();
    check.holes(&working, &way.key("working"));
    let numbers: Vec<_> = asks.iter().filter(|ask| matches!(ask.form, Form::Number(_))).map(|ask| &ask.id).collect();
    let broken = check.broken.clone();
    let known = |steps: &&str| numbers.iter().any(|id| id == steps) || broken.iter().any(|id| id == steps);
    for steps in working.steps().filter(|steps| !known(steps)) {
        check.faults.push(way.key("working").fault(Code::RecipeUnknownSteps).with("found", steps));
    }
    let placed: Vec<_> = working.steps().map(str::to_owned).collect();
    let left = numbers.into_iter().filter(|id| !placed.contains(id));
    working.0.extend(left.map(|id| Piece::Steps(id.clone())));
    working
}

/// Sections about mistakes that no part names.
fn stray_mistakes(raw: &RawRecipe, way: &Way, check: &mut Check) {
    let named = |name: &str| raw.ask.iter().any(|ask| ask.mistakes.0.iter().any(|(known, _)| known == name));
    let strays: Vec<_> =
        check.bodies.mistakes.iter().map(|(name, _)| name.clone()).filter(|name| !named(name)).collect();
    for name in strays {
        check.faults.push(way.key(&format!("mistake: {name}")).fault(Code::RecipeStrayMistake).with("found", name));
    }
}

/// The words that answers and workings of these parts need.
fn own_words(asks: &[Ask], lexicon: &dyn Lexicon) -> Vec<(String, String)> {
    let any = |wanted: fn(&Form) -> bool| asks.iter().any(|ask| wanted(&ask.form));
    let truth = any(|form| matches!(form, Form::TrueOrFalse(_)));
    let rounded = any(|form| matches!(form, Form::Number(number) if number.round.is_some()));
    let believable = any(|form| matches!(form, Form::Number(number) if number.believable.is_some()));
    let needed = [
        ("answers.is_true", truth),
        ("answers.is_false", truth),
        ("answers.rounded", rounded),
        ("answers.believable", believable),
    ];
    let word = |key: &str| (key.to_owned(), lexicon.text(key));
    needed.into_iter().filter(|(_, needed)| *needed).map(|(key, _)| word(key)).collect()
}

fn laws(asks: &[Ask], lexicon: &dyn Lexicon) -> Vec<Law> {
    let mut forms = Vec::new();
    for ask in asks {
        if let Form::Number(number) = &ask.form {
            collect(&number.answer, &mut forms);
        }
    }
    let law = |(relation, form): (&'static Relation, Option<System>)| Law {
        relation,
        form,
        title: lexicon.text(&format!("relations.{}.title", relation.id)),
        symbols: lexicon.law_html(relation, form.unwrap_or(System::Us)),
        numbers: lexicon.law_with_holes(relation, form.unwrap_or(System::Us)),
    };
    forms.into_iter().map(law).collect()
}

/// The printed forms that the workings of a formula show, in the order of the steps.
fn collect(node: &Node, into: &mut Vec<(&'static Relation, Option<System>)>) {
    node.pieces().into_iter().for_each(|piece| collect(piece, into));
    let Node::Call(call) = node else { return };
    let forms = match (call.relation.forms.are_two(), call.form) {
        (false, _) => vec![None],
        (true, Some(form)) => vec![Some(form)],
        (true, None) => System::BOTH.map(Some).to_vec(),
    };
    for form in forms {
        if !into.contains(&(call.relation, form)) {
            into.push((call.relation, form));
        }
    }
}
