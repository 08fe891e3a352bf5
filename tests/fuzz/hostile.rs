//! What any input may be fed to, and how much memory it may take: shared by the fuzz targets and by the test that runs
//! their corpus.

use peak_alloc::PeakAlloc;
use problems::DecimalMark;
use problems::Recipe;
use problems::answer::read;
use problems::draw::{Setting, draw};
use problems::formula::{Condition, Formula, NameKind, Names};
use problems::mark::mark_all;
use problems::recipe::raw::{RawAsk, RawRecipe};
use problems::recipe::{Bodies, Lexicon, System as Units, compile};
use problems::seed::{FIRST_ATTEMPT, Seed};
use problems::template::{Piece, Template};
use problems::view::AnswerView;
use relief::{Kind, Relation, System};

/// The most memory that an input of up to a megabyte may have in use at once, in bytes.
pub const MOST: usize = 64 << 20;

/// Runs something and gives the most memory that it had in use at once, in bytes.
pub fn peak(memory: &PeakAlloc, run: impl FnOnce()) -> usize {
    let before = memory.current_usage();
    memory.reset_peak_usage();
    run();
    memory.peak_usage().saturating_sub(before)
}

/// Reads a typed answer in both decimal marks.
pub fn answer_reader(text: &str) {
    for mark in [DecimalMark::Point, DecimalMark::Comma] {
        let _ = read(text, mark);
    }
}

/// Reads a formula and a condition over names of several kinds.
pub fn formula(text: &str) {
    let names: Names = [
        ("set", NameKind::Quantity(Kind::Gauge)),
        ("rise", NameKind::Quantity(Kind::Difference)),
        ("bore", NameKind::Quantity(Kind::Length)),
        ("share", NameKind::Quantity(Kind::Ratio)),
        ("count", NameKind::Quantity(Kind::Number)),
        ("case", NameKind::Choice(vec!["single".to_owned(), "fire".to_owned()])),
    ]
    .map(|(name, kind)| (name.to_owned(), kind))
    .to_vec()
    .into();
    let _ = Formula::read(text, &names, None);
    let _ = Formula::read(text, &Names::new(), Some(Kind::Gauge)).map(|formula| formula.evaluate(&Default::default()));
    let _ = Condition::read(text, &names);
}

/// Reads a recipe as an author writes it, compiles it, and draws from it.
pub fn recipe_reader(text: &str) {
    let Ok(raw) = course::recipe_front_matter(text) else { return };
    let bodies = bodies(&raw);
    if let Ok(compiled) = compile(&raw, bodies, &Keys) {
        work(&compiled.recipe);
    }
}

/// Texts that show all that is drawn, and the steps of all that is asked.
fn bodies(raw: &RawRecipe) -> Bodies {
    let shown = Template(raw.draw.0.iter().map(|(name, _)| Piece::Hole(name.clone())).collect());
    let steps = Template(raw.ask.iter().map(|ask| Piece::Steps(ask.id.clone())).collect());
    let messages = raw.ask.iter().flat_map(RawAsk::mistakes);
    let mistakes = messages.map(|name| (name.to_owned(), Template::default())).collect();
    Bodies { question: shown, working: Some(steps), mistakes, ..Bodies::default() }
}

/// Reads a recipe in its compiled form, and draws, marks and works its problems.
pub fn compiled_form(text: &str) {
    if let Ok(recipe) = Recipe::read(text) {
        work(&recipe);
    }
}

/// Marks a text as the answer to every part of a compiled recipe.
pub fn typed(form: &str, text: &str) {
    let Ok(recipe) = Recipe::read(form) else { return };
    let seed = Seed { text: "1".to_owned(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
    let setting = Setting { system: Units::Us, mark: DecimalMark::Point };
    let names = recipe.asks.iter().map(|ask| ask.id.as_str()).chain(recipe.numbers().map(|at| at.id));
    let answers: Vec<_> = names.map(|name| (name.to_owned(), text.to_owned())).collect();
    let _ = draw(&recipe, &seed, setting).map(|problem| mark_all(&problem, &answers).view());
}

fn work(recipe: &Recipe) {
    for system in Units::BOTH {
        for text in ["1", "48213"] {
            let seed = Seed { text: text.to_owned(), question: recipe.id.clone(), attempt: FIRST_ATTEMPT };
            let Ok(problem) = draw(recipe, &seed, Setting { system, mark: DecimalMark::Comma }) else { continue };
            let answers = problem.view(true, "").answers.unwrap_or_default();
            let fields = || answers.iter().flat_map(AnswerView::fields);
            let right: Vec<_> = fields().map(|answer| (answer.id.clone(), answer.exact.clone())).collect();
            let wrong: Vec<_> = fields().map(|answer| (answer.id.clone(), "1 0".to_owned())).collect();
            let _ = mark_all(&problem, &right).view();
            let _ = mark_all(&problem, &wrong).view();
            let _ = problem.solution();
        }
    }
}

/// Words by their keys.
struct Keys;

impl Lexicon for Keys {
    fn text(&self, key: &str) -> String {
        key.to_owned()
    }

    fn law_html(&self, relation: &'static Relation, form: System) -> String {
        relation.forms.of(form).law.to_owned()
    }

    fn law_with_holes(&self, relation: &'static Relation, _: System) -> Template {
        Template(relation.inputs.iter().map(|input| Piece::Hole(input.name.to_owned())).collect())
    }
}
