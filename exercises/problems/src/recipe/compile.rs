//! From a recipe as it is written to a compiled one; all its faults are collected.

use faults::Code;
use relief::{Relation, System};

use super::Recipe;
use super::checking::{Bodies, Check, Lexicon, Path, RecipeFault};
use super::draws;
use super::law::Law;
use super::raw::RawAsk;
use super::raw::RawRecipe;
use super::source::Draw;
use super::versions::{FORMAT, LEVELS, LONGEST, RULES, WRITTEN_FORMAT};
use crate::forms::{Ask, FORMS, Form};
use crate::formula::{Condition, Names, Node};
use crate::own;
use crate::template::{Piece, Template};

/// A compiled recipe, and its form as text, which is written once.
#[derive(Clone, Debug, PartialEq)]
pub struct Compiled {
    /// The recipe.
    pub recipe: Recipe,
    /// What [`Recipe::write`] gives of it.
    pub text: String,
}

/// Checks and compiles a recipe.
///
/// # Errors
/// Every fault that was found, with the path to its place.
pub fn compile(raw: &RawRecipe, bodies: Bodies, lexicon: &dyn Lexicon) -> Result<Compiled, Vec<RecipeFault>> {
    let path = Path::default();
    let mut check = Check {
        lexicon,
        bodies,
        names: Names::with(lexicon.relations()),
        drawn: 0,
        broken: Vec::new(),
        faults: Vec::new(),
    };
    head(raw, &path, &mut check);
    let draws = all_draws(raw, &path.key("draw"), &mut check);
    check.drawn = check.names.len();
    let require = conditions(&raw.require, &path.key("require"), &mut check);
    asked_bodies(&path.key("body"), &mut check);
    let asks = all_asks(raw, &path.key("ask"), &mut check);
    let must_hold = conditions(&raw.must_hold, &path.key("must_hold"), &mut check);
    let working = working(&asks, &path.key("body"), &mut check);
    stray_mistakes(raw, &path.key("body"), &mut check);
    if !check.faults.is_empty() {
        return Err(check.faults);
    }
    let mut recipe = Recipe {
        format: FORMAT,
        rules: RULES,
        relations: Vec::new(),
        id: raw.id.clone(),
        title: raw.title.clone(),
        level: raw.level,
        objectives: raw.objectives.clone(),
        laws: laws(&asks, lexicon),
        words: own_words(&asks, lexicon),
        draws,
        require,
        must_hold,
        asks,
        question: check.bodies.question,
        start: check.bodies.start,
        working,
    };
    recipe.relations = own::called(&recipe.write(), lexicon.relations());
    // What the page would refuse must not be published.
    let text = recipe.write();
    match Recipe::read(&text) {
        Ok(_) => Ok(Compiled { recipe, text }),
        Err(_) => Err(vec![Path::default().fault(Code::RecipeTooLarge).with("most", LONGEST / 1000)]),
    }
}

fn head(raw: &RawRecipe, path: &Path, check: &mut Check) {
    if raw.format == 0 || raw.format > WRITTEN_FORMAT {
        let fault = path.key("format").fault(Code::RecipeFormat).with("found", raw.format);
        check.faults.push(fault.with("newest", WRITTEN_FORMAT));
    }
    if !LEVELS.contains(&raw.level) {
        check.faults.push(path.key("level").fault(Code::RecipeLevel).with("found", raw.level));
    }
    if raw.ask.is_empty() {
        check.faults.push(path.key("ask").fault(Code::RecipeAsksNothing));
    }
}

fn all_draws(raw: &RawRecipe, path: &Path, check: &mut Check) -> Vec<Draw> {
    let mut all = Vec::new();
    for (name, draw) in &raw.draw.0 {
        let path = path.key(name);
        let result = draws::draw(draw, &path, check);
        match check.keep(result) {
            Some((source, kind)) => {
                check.name(name, kind, &path);
                all.push(Draw { name: name.clone(), source });
            }
            None => check.broken.push(name.clone()),
        }
    }
    all
}

fn all_asks(raw: &RawRecipe, path: &Path, check: &mut Check) -> Vec<Ask> {
    let mut all = Vec::new();
    for (index, ask) in raw.ask.iter().enumerate() {
        let path = path.index(index);
        let Some(form) = form(ask, &path, check) else {
            check.broken.push(ask.id.clone());
            continue;
        };
        check.name(&ask.id, form.name_kind(), &path.key("id"));
        check.words_alone(&ask.label, &path.key("label"));
        all.push(Ask { id: ask.id.clone(), label: ask.label.clone(), form });
    }
    all
}

/// The form of a part, and which keys belong to it.
fn form(raw: &RawAsk, path: &Path, check: &mut Check) -> Option<Form> {
    let Some((name, keys)) = FORMS.iter().find(|(name, _)| *name == raw.form) else {
        let names = FORMS.iter().map(|(name, _)| *name).collect::<Vec<_>>().join(", ");
        check.faults.push(path.key("form").fault(Code::RecipeForm).with("found", &raw.form).known(names));
        return None;
    };
    for key in raw.given().filter(|key| !keys.contains(key)) {
        let fault = path.key(key).fault(Code::RecipeKeyMisplaced).with("key", key).with("form", name);
        check.faults.push(fault.known(keys.join(", ")));
    }
    Form::check(name, raw.keys(), path, check)
}

fn conditions(texts: &[String], path: &Path, check: &mut Check) -> Vec<Condition> {
    texts.iter().enumerate().filter_map(|(index, text)| check.condition(text, &path.index(index))).collect()
}

/// The statement and the hint may name what is drawn, and nothing that is asked.
fn asked_bodies(path: &Path, check: &mut Check) {
    let question = check.bodies.question.clone();
    if question.0.is_empty() {
        check.faults.push(path.key("question").fault(Code::RecipeNoQuestion));
    }
    check.holes(&question, &path.key("question"));
    if let Some(start) = check.bodies.start.clone() {
        check.holes(&start, &path.key("start"));
    }
}

/// The author's working, with the steps of each number that it does not place itself at its end.
fn working(asks: &[Ask], path: &Path, check: &mut Check) -> Template {
    let mut working = check.bodies.working.clone().unwrap_or_default();
    check.holes(&working, &path.key("working"));
    let numbers: Vec<_> = asks.iter().flat_map(Ask::numbers).map(|at| at.id).collect();
    let broken = check.broken.clone();
    let known = |steps: &&str| numbers.contains(steps) || broken.iter().any(|id| id == steps);
    for steps in working.steps().filter(|steps| !known(steps)) {
        check.faults.push(path.key("working").fault(Code::RecipeUnknownSteps).with("found", steps));
    }
    let placed: Vec<_> = working.steps().map(str::to_owned).collect();
    let left = numbers.into_iter().filter(|id| placed.iter().all(|placed| placed != id));
    working.0.extend(left.map(|id| Piece::Steps(id.to_owned())));
    working
}

/// Sections about mistakes that no part names.
fn stray_mistakes(raw: &RawRecipe, path: &Path, check: &mut Check) {
    let named = |name: &str| raw.ask.iter().any(|ask| ask.mistakes().contains(&name));
    let strays: Vec<_> =
        check.bodies.mistakes.iter().map(|(name, _)| name.clone()).filter(|name| !named(name)).collect();
    for name in strays {
        check.faults.push(path.key(&format!("mistake: {name}")).fault(Code::RecipeStrayMistake).with("found", name));
    }
}

/// The words that answers and workings of these parts need.
fn own_words(asks: &[Ask], lexicon: &dyn Lexicon) -> Vec<(String, String)> {
    let mut needed: Vec<&str> = Vec::new();
    for key in asks.iter().flat_map(|ask| ask.form.words()) {
        if !needed.contains(&key) {
            needed.push(key);
        }
    }
    needed.into_iter().map(|key| (key.to_owned(), lexicon.text(key))).collect()
}

fn laws(asks: &[Ask], lexicon: &dyn Lexicon) -> Vec<Law> {
    let mut forms = Vec::new();
    asks.iter().flat_map(Ask::numbers).for_each(|at| collect(&at.number.answer, &mut forms));
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
